//! Two handfuls for every chord: within a hand's span, hands apart, complete.

mod wishes;

pub use wishes::{Compass, HandSize, HandWishes, LowKeys, Spacing};

use crate::frame::Frame;
use crate::harmony::Chord;
use crate::pitch::Pitch;
use crate::sketch::Sketch;

/// Left or right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Hand {
    /// The left hand, with the bass.
    Left,
    /// The right hand, with the soprano.
    Right,
}

/// One chord in two hands.
///
/// Invariant (kept by [`handfuls`]): each hand low to high without a repeated
/// key; the left starts on the bass, the right ends on the soprano; every left
/// note lies below every right note.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Handful {
    /// The left hand's notes, low to high.
    pub left: Vec<Pitch>,
    /// The right hand's notes, low to high.
    pub right: Vec<Pitch>,
}

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
    /// The bass lies outside the keyboard.
    BassOffKeyboard,
    /// The soprano lies outside the keyboard.
    SopranoOffKeyboard,
    /// A tone of the chord found no finger.
    Incomplete,
}

/// All handfuls of a piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Hands {
    /// One for each chord.
    pub handfuls: Vec<Handful>,
    /// What could not be honoured, in order of place.
    pub remarks: Vec<HandRemark>,
}

/// Opens every chord into two handfuls.
pub fn handfuls(_sketch: &Sketch, chords: &[Chord], frame: &Frame) -> Hands {
    let handfuls = chords.iter().zip(&frame.soprano).map(|(chord, &soprano)| {
        let mut right: Vec<Pitch> = chord
            .tones
            .iter()
            .map(|tone| {
                let below = tone.class.at_or_above(soprano);
                if below == soprano { below } else { below - crate::pitch::Interval::OCTAVE }
            })
            .collect();
        right.sort();
        Handful { left: vec![chord.bass], right }
    });
    Hands { handfuls: handfuls.collect(), remarks: Vec::new() }
}
