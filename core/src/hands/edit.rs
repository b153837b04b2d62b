//! Changing a handful by hand: one inner note, or a whole hand up or down.
//!
//! The outer notes belong to bass and soprano and stay. The result is a plain
//! handful; what breaks is said when it is checked.

use super::{Hand, Handful};
use crate::harmony::Chord;
use crate::order;
use crate::pitch::{Interval, Pitch};

/// A change to the inner notes of a handful.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Edit {
    /// Moves an inner note.
    Move {
        /// The hand.
        hand: Hand,
        /// The note.
        from: Pitch,
        /// Where to.
        to: Pitch,
    },
    /// Adds an inner note.
    Add {
        /// The hand.
        hand: Hand,
        /// The note.
        pitch: Pitch,
    },
    /// Drops an inner note.
    Drop {
        /// The hand.
        hand: Hand,
        /// The note.
        pitch: Pitch,
    },
    /// Moves every inner note of a hand to the next chord tone.
    Shift {
        /// The hand.
        hand: Hand,
        /// Up or down.
        way: Way,
    },
}

/// Up or down.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Way {
    /// To higher notes.
    Up,
    /// To lower notes.
    Down,
}

/// The handful with a change made; unchanged where the change names an outer note
/// or none at all. Each hand stays low to high without a repeated key.
pub fn edited(handful: &Handful, chord: &Chord, edit: Edit) -> Handful {
    let mut new = handful.clone();
    match edit {
        Edit::Move { hand, from, to } => {
            let inner = inner(&mut new, hand);
            if let Some(note) = inner.iter_mut().find(|note| **note == from) {
                *note = to;
            }
        }
        Edit::Add { hand, pitch } => notes(&mut new, hand).push(pitch),
        Edit::Drop { hand, pitch } => {
            if inner(&mut new, hand).contains(&pitch) {
                notes(&mut new, hand).retain(|note| *note != pitch);
            }
        }
        Edit::Shift { hand, way } => {
            for note in inner(&mut new, hand) {
                *note = next_tone(chord, *note, way);
            }
        }
    }
    for hand in [Hand::Left, Hand::Right] {
        let notes = notes(&mut new, hand);
        order::sort(notes);
        notes.dedup_by(|a, b| a.same_key(*b));
    }
    // A note that has gone past an outer one is taken back with the rest.
    let stands =
        new.left.first() == handful.left.first() && new.right.last() == handful.right.last();
    if stands { new } else { handful.clone() }
}

fn notes(handful: &mut Handful, hand: Hand) -> &mut Vec<Pitch> {
    match hand {
        Hand::Left => &mut handful.left,
        Hand::Right => &mut handful.right,
    }
}

/// The notes of a hand without its outer voice.
fn inner(handful: &mut Handful, hand: Hand) -> &mut [Pitch] {
    let notes = notes(handful, hand);
    let count = notes.len();
    let range = match hand {
        Hand::Left => 1.min(count)..count,
        Hand::Right => 0..count.saturating_sub(1),
    };
    &mut notes[range]
}

/// The nearest chord tone above or below a pitch.
fn next_tone(chord: &Chord, pitch: Pitch, way: Way) -> Pitch {
    let near = chord.tones.iter().map(|tone| {
        let above = tone.class.nearest(pitch);
        let beyond = match way {
            Way::Up => above.semitones() > pitch.semitones(),
            Way::Down => above.semitones() < pitch.semitones(),
        };
        match way {
            _ if beyond => above,
            Way::Up => above + Interval::OCTAVE,
            Way::Down => above - Interval::OCTAVE,
        }
    });
    near.min_by_key(|tone| tone.semitones().abs_diff(pitch.semitones())).unwrap_or(pitch)
}
