//! The line a chord is played as: strikes in order, each with the time to the
//! next, before they become touches on a clock.

use super::performance::{NoteKind, Why};
use crate::chance::Chance;
use crate::frame::{OuterPair, motion};
use crate::hands::{Hand, HandWishes, Handful, place_of, sounds};
use crate::harmony::Chord;
use crate::order;
use crate::pitch::{Key, Pitch};

/// A note under a finger.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Fingered {
    pub(super) pitch: Pitch,
    pub(super) key: Key,
    pub(super) hand: Hand,
}

impl Fingered {
    /// The pitch under this hand, if the keyboard has it: a short octave lacks some.
    pub(super) fn on(pitch: Pitch, hand: Hand, wishes: &HandWishes) -> Option<Fingered> {
        let key = pitch.key().filter(|_| sounds(wishes, pitch))?;
        Some(Fingered { pitch, key, hand })
    }
}

/// A note struck in its turn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Strike {
    pub(super) note: Fingered,
    pub(super) kind: NoteKind,
    /// Why it was added, unless it is the handful's.
    pub(super) why: Option<Why>,
    /// Microseconds to the next strike.
    pub(super) wait: u64,
    /// Microseconds it is held, unless it is collected under the hand.
    pub(super) brief: Option<u64>,
    pub(super) velocity: u8,
    /// Whether the hand is going up.
    pub(super) rising: bool,
}

impl Strike {
    /// A strike beside this one that the handful does not hold, left as soon as
    /// the next comes.
    pub(super) fn added(self, note: Fingered, why: Why, wait: u64) -> Strike {
        let kind = match why {
            Why::FillsGap | Why::SemitoneBelow => NoteKind::Acciaccatura,
            Why::PassesBetween | Why::Walks => NoteKind::Passing,
            Why::TurnsBeside => NoteKind::Neighbour,
            Why::Mordent | Why::Trill => NoteKind::Ornament,
            Why::RunsOn => NoteKind::Run,
            Why::Anticipates => NoteKind::Anticipation,
            Why::Suspends => NoteKind::Suspension,
            Why::Detours => NoteKind::Detour,
        };
        let velocity = self.velocity.saturating_sub(8).max(1);
        Strike { note, kind, why: Some(why), wait, brief: Some(wait), velocity, ..self }
    }
}

/// A chord as it is about to be played: what the ornaments look at.
pub(super) struct Scene<'a> {
    pub(super) chord: &'a Chord,
    /// The bass notes that follow it without a chord of their own.
    pub(super) passing: &'a [Pitch],
    /// Its notes, low to high, no key twice.
    pub(super) notes: &'a [Fingered],
    /// The notes of the chord before it.
    pub(super) before: Option<&'a [Fingered]>,
    /// The chord after it and its notes.
    pub(super) next: Option<(&'a Chord, &'a [Fingered])>,
    pub(super) hands: &'a HandWishes,
    /// Percent of spice.
    pub(super) spice: u64,
    /// Percent of the usual speed.
    pub(super) speed: u16,
}

impl Scene<'_> {
    /// Microseconds at the player's speed.
    pub(super) fn at_speed(&self, micros: u64) -> u64 {
        micros * 100 / u64::from(self.speed)
    }

    /// Whether chance, at the spice asked for and this percentage, says yes.
    pub(super) fn likes(&self, percent: u64, chance: &mut Chance) -> bool {
        chance.below(10_000) < self.spice * percent
    }

    /// Whether the key is struck by the handful itself.
    pub(super) fn holds(&self, key: Key) -> bool {
        self.notes.iter().any(|note| note.key == key)
    }

    /// Whether the note's hand can strike it while keeping the rest of its handful.
    pub(super) fn within_reach(&self, note: Fingered) -> bool {
        let size = match note.hand {
            Hand::Left => self.hands.left,
            Hand::Right => self.hands.right,
        };
        let own = self.notes.iter().filter(|other| other.hand == note.hand);
        let at = |key: Key| place_of(self.hands, key);
        let places = own.map(|other| at(other.key)).chain([at(note.key)]);
        let low = places.clone().min().unwrap_or(0);
        let high = places.clone().max().unwrap_or(0);
        // A hand has five fingers.
        places.count() <= 5 && high - low <= size.reach()
    }

    /// Bass and soprano as the handful has them.
    pub(super) fn outer(&self) -> Option<OuterPair> {
        outer(self.notes)
    }
}

/// The outer notes of some notes sorted low to high.
pub(super) fn outer(notes: &[Fingered]) -> Option<OuterPair> {
    Some(OuterPair { bass: notes.first()?.pitch, soprano: notes.last()?.pitch })
}

/// Whether going from one outer pair to the other draws consecutive fifths or
/// octaves in similar motion: what no added note may bring about (anonymous Roman
/// manuscript "E.25", ch. 26: with acciaccaturas it is enough to avoid two fifths
/// and two octaves between bass and soprano).
pub(super) fn consecutives(from: OuterPair, to: OuterPair) -> bool {
    use crate::frame::Motion::{Parallel, Similar};
    let perfect = |pair: OuterPair| {
        let interval = pair.soprano - pair.bass;
        (interval.is_perfect_fifth(), interval.is_perfect_octave())
    };
    let (from_perfect, to_perfect) = (perfect(from), perfect(to));
    let same = (from_perfect.0 && to_perfect.0) || (from_perfect.1 && to_perfect.1);
    same && matches!(motion(from, to), Parallel | Similar)
}

/// The notes of a handful that lie on the keyboard, low to high, no key twice.
pub(super) fn fingered(handful: &Handful, wishes: &HandWishes) -> Vec<Fingered> {
    let left = handful.left.iter().map(|&pitch| (Hand::Left, pitch));
    let right = handful.right.iter().map(|&pitch| (Hand::Right, pitch));
    let mut notes: Vec<Fingered> =
        left.chain(right).filter_map(|(hand, pitch)| Fingered::on(pitch, hand, wishes)).collect();
    order::by_key(&mut notes, |note| (note.key, note.hand));
    notes.dedup_by_key(|note| note.key);
    notes
}
