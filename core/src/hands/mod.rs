//! Two handfuls for every chord: within a hand's span, hands apart, complete.

use crate::frame::Frame;
use crate::harmony::Chord;
use crate::pitch::{Key, Pitch};
use crate::sketch::Sketch;

/// The player's hands and keyboard.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HandWishes {
    /// Notes in each hand, in the range [2, 5]; three or four is the habit.
    pub notes: u8,
    /// Widest reach of a hand in white keys crossed: 7 an octave, 8 a ninth, 9 a tenth.
    pub span: u8,
    /// The keyboard's ends.
    pub compass: Compass,
}

impl Default for HandWishes {
    fn default() -> HandWishes {
        HandWishes { notes: 4, span: 7, compass: Compass::FIVE_OCTAVES }
    }
}

/// The keyboard's lowest and highest key, both playable.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Compass {
    /// The lowest key.
    pub low: Key,
    /// The highest key.
    pub high: Key,
}

impl Compass {
    /// Four octaves, C to c‴ (C2 to C6).
    pub const FOUR_OCTAVES: Compass = Compass::of(36, 84);
    /// Five octaves, FF to f‴ (F1 to F6).
    pub const FIVE_OCTAVES: Compass = Compass::of(29, 89);
    /// Sixty-one keys, C2 to C7.
    pub const KEYS_61: Compass = Compass::of(36, 96);
    /// Seventy-six keys, E1 to G7.
    pub const KEYS_76: Compass = Compass::of(28, 103);
    /// Eighty-eight keys, A0 to C8.
    pub const KEYS_88: Compass = Compass::of(21, 108);

    const fn of(low: i32, high: i32) -> Compass {
        Compass { low: Key::clamped(low), high: Key::clamped(high) }
    }

    /// Whether the key is on this keyboard.
    pub fn contains(self, key: Key) -> bool {
        self.low <= key && key <= self.high
    }
}

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
