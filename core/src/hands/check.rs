//! What is to be said of a handful: everything a wish or the trade asks that it
//! does not do.

use super::keyboard::{reach, sounds};
use super::wishes::HandWishes;
use super::{Hand, Handful};
use crate::frame::rests;
use crate::harmony::{Chord, Duty};
use crate::pitch::{Pitch, PitchClass};

/// Something the hands could not honour.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HandRemark {
    /// Index of the chord.
    pub chord: usize,
    /// What is wrong.
    pub kind: HandTrouble,
}

/// What is wrong with a handful.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum HandTrouble {
    /// The bass lies outside the keyboard, or the low octave lacks it.
    BassOffKeyboard,
    /// The soprano lies outside the keyboard, or the low octave lacks it.
    SopranoOffKeyboard,
    /// An inner note lies outside the keyboard, or the low octave lacks it.
    InnerOffKeyboard {
        /// The note.
        pitch: Pitch,
    },
    /// The soprano lies on or below the bass, so the hands cannot sit apart.
    HandsCollide,
    /// A tone of the chord found no finger.
    Incomplete {
        /// The tone.
        missing: PitchClass,
    },
    /// A leading note or dissonance sounds in more than one voice.
    DoubledDuty {
        /// The tone.
        class: PitchClass,
    },
    /// A note that is no tone of its chord.
    Foreign {
        /// The note.
        pitch: Pitch,
    },
    /// A hand must reach too far.
    TooWide {
        /// The hand.
        hand: Hand,
        /// What it needs, in half white keys.
        needs: u8,
        /// What it has, in half white keys.
        limit: u8,
    },
    /// A hand has more notes than fingers.
    TooMany {
        /// The hand.
        hand: Hand,
        /// How many notes.
        count: usize,
    },
    /// Notes of a fixed handful that no longer lie between bass and soprano
    /// were left out.
    LeftOut {
        /// How many.
        count: usize,
    },
}

/// Wide handfuls enough to tire a hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Strain {
    /// How many handfuls have a hand opened wider than an octave.
    pub wide: usize,
    /// Out of how many.
    pub handfuls: usize,
}

/// The caution about wide handfuls, where more than a quarter open a hand wider
/// than an octave. Our choice of measure.
pub fn strain(wishes: &HandWishes, handfuls: &[Handful]) -> Option<Strain> {
    const OCTAVE: i32 = 14;
    let wide = |notes: &[Pitch]| match (notes.first(), notes.last()) {
        (Some(&low), Some(&high)) => reach(wishes, low, high) > OCTAVE,
        _ => false,
    };
    let wide = handfuls.iter().filter(|both| wide(&both.left) || wide(&both.right)).count();
    (wide * 4 > handfuls.len()).then_some(Strain { wide, handfuls: handfuls.len() })
}

/// Everything to be said of one handful, in a fixed order.
pub(super) fn troubles(
    wishes: &HandWishes,
    chord: &Chord,
    soprano: Pitch,
    handful: &Handful,
) -> Vec<HandTrouble> {
    let mut found = Vec::new();
    let resting = rests(chord);
    if !sounds(wishes, chord.bass) {
        found.push(HandTrouble::BassOffKeyboard);
    }
    if resting {
        return found;
    }
    if !sounds(wishes, soprano) {
        found.push(HandTrouble::SopranoOffKeyboard);
    }
    let left = handful.left.iter().skip(1);
    let right = handful.right.iter().take(handful.right.len().saturating_sub(1));
    for &pitch in left.chain(right) {
        if !sounds(wishes, pitch) {
            found.push(HandTrouble::InnerOffKeyboard { pitch });
        }
        if !chord.tones.iter().any(|tone| tone.class == pitch.class()) {
            found.push(HandTrouble::Foreign { pitch });
        }
    }
    if let (Some(low), Some(high)) = (handful.left.last(), handful.right.first()) {
        if low.semitones() >= high.semitones() {
            found.push(HandTrouble::HandsCollide);
        }
    } else {
        found.push(HandTrouble::HandsCollide);
    }
    sonority(chord, handful, &mut found);
    for (hand, notes, size) in
        [(Hand::Left, &handful.left, wishes.left), (Hand::Right, &handful.right, wishes.right)]
    {
        if let (Some(&low), Some(&high)) = (notes.first(), notes.last()) {
            let (needs, limit) = (reach(wishes, low, high), size.reach());
            if needs > limit {
                let byte = |n: i32| n.clamp(0, 255) as u8;
                found.push(HandTrouble::TooWide { hand, needs: byte(needs), limit: byte(limit) });
            }
        }
        if notes.len() > 5 {
            found.push(HandTrouble::TooMany { hand, count: notes.len() });
        }
    }
    found
}

fn sonority(chord: &Chord, handful: &Handful, found: &mut Vec<HandTrouble>) {
    for tone in &chord.tones {
        let notes = handful.left.iter().chain(&handful.right);
        let count = notes.filter(|note| note.class() == tone.class).count();
        if count == 0 && !tone.omittable {
            found.push(HandTrouble::Incomplete { missing: tone.class });
        }
        if count > 1 && tone.duty != Duty::Free {
            found.push(HandTrouble::DoubledDuty { class: tone.class });
        }
    }
}
