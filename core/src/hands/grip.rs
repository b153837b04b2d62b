//! A grip: the notes of one hand, and the grips to choose among.

use super::keyboard::{place, reach, sounds};
use super::wishes::{HandSize, HandWishes};
use crate::harmony::{Chord, Duty, Tone};
use crate::pitch::{Key, Pitch};

/// The notes of one hand, with what the solver asks of them again and again.
#[derive(Clone, Debug)]
pub(super) struct Grip {
    /// Low to high.
    pub(super) notes: Vec<Pitch>,
    /// The keys as bits.
    pub(super) keys: u128,
    /// Keys that must rise.
    pub(super) rising: u128,
    /// Keys that must fall, suspended ones among them.
    pub(super) falling: u128,
    /// Keys that must have been there before.
    pub(super) suspended: u128,
    /// How often each tone of the chord sounds.
    pub(super) counts: Vec<u8>,
    /// Twice the middle of the hand, in half white keys; `None` for no notes.
    pub(super) middle: Option<i32>,
    /// What the grip costs by itself.
    pub(super) price: u64,
}

impl Grip {
    /// A grip of these notes of a chord, low to high.
    pub(super) fn new(wishes: &HandWishes, chord: &Chord, notes: Vec<Pitch>, price: u64) -> Grip {
        let count = |tone: &Tone| notes.iter().filter(|n| n.class() == tone.class).count() as u8;
        let mut grip = Grip {
            counts: chord.tones.iter().map(count).collect(),
            keys: 0,
            rising: 0,
            falling: 0,
            suspended: 0,
            middle: None,
            price,
            notes,
        };
        for &pitch in &grip.notes {
            let bit = 1 << Key::clamped(pitch.semitones()).index();
            grip.keys |= bit;
            let tone = chord.tones.iter().find(|tone| tone.class == pitch.class());
            match tone.map(|tone| tone.duty) {
                None | Some(Duty::Free) => {}
                Some(Duty::Rises) => grip.rising |= bit,
                Some(Duty::Falls) => grip.falling |= bit,
                Some(Duty::Suspended) => {
                    grip.falling |= bit;
                    grip.suspended |= bit;
                }
            }
        }
        let at = |pitch: &Pitch| {
            let key = Key::clamped(pitch.semitones());
            place(key, wishes.low_keys).unwrap_or(key.number() * 14 / 12)
        };
        grip.middle = grip.notes.first().zip(grip.notes.last()).map(|(l, h)| at(l) + at(h));
        grip
    }
}

/// The sets of left-hand notes to choose among: the bass and notes above it
/// within reach. The bass alone is always one of them.
pub(super) fn left_sets(wishes: &HandWishes, chord: &Chord, soprano: Pitch) -> Vec<Vec<Pitch>> {
    let bass = chord.bass;
    let size = wishes.left;
    let within = |pitch: &Pitch| reach(wishes, bass, *pitch) <= size.reach();
    let inner = inner(wishes, chord, bass, soprano).into_iter().filter(within).collect();
    sets(inner, size)
        .map(|mut set| {
            set.insert(0, bass);
            set
        })
        .collect()
}

/// The sets of right-hand notes to choose among: the soprano and notes below it
/// within reach. The soprano alone is always one of them.
pub(super) fn right_sets(wishes: &HandWishes, chord: &Chord, soprano: Pitch) -> Vec<Vec<Pitch>> {
    let size = wishes.right;
    let within = |pitch: &Pitch| reach(wishes, *pitch, soprano) <= size.reach();
    let inner = inner(wishes, chord, chord.bass, soprano).into_iter().filter(within).collect();
    sets(inner, size)
        .map(|mut set| {
            set.push(soprano);
            set
        })
        .collect()
}

/// Chord tones on the keyboard between the outer voices, low to high.
fn inner(wishes: &HandWishes, chord: &Chord, bass: Pitch, soprano: Pitch) -> Vec<Pitch> {
    let mut notes: Vec<Pitch> = Vec::new();
    for tone in &chord.tones {
        // Every octave that a keyboard can have.
        for pitch in (-2..=10).map(|octave| tone.class.in_octave(octave)) {
            let between =
                bass.semitones() < pitch.semitones() && pitch.semitones() < soprano.semitones();
            let new = !notes.iter().any(|note| note.same_key(pitch));
            if between && new && sounds(wishes, pitch) {
                notes.push(pitch);
            }
        }
    }
    notes.sort();
    notes
}

/// The empty set and every set of at most one note fewer than the hand wishes
/// and at least three fewer.
fn sets(inner: Vec<Pitch>, size: HandSize) -> impl Iterator<Item = Vec<Pitch>> {
    let most = (size.notes() - 1).min(inner.len());
    let least = most.saturating_sub(2);
    // Seven letters with at most one shared key and eleven white keys of reach
    // leave far fewer than 16 notes to a hand.
    let inner: Vec<Pitch> = inner.into_iter().take(16).collect();
    (0u32..1 << inner.len())
        .filter(move |set| {
            let count = set.count_ones() as usize;
            count == 0 || (least <= count && count <= most)
        })
        .map(move |set| {
            let taken = inner.iter().enumerate().filter(|(i, _)| set >> i & 1 == 1);
            taken.map(|(_, &pitch)| pitch).collect()
        })
}
