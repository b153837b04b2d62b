//! The player's hands and keyboard.

use crate::pitch::Key;

/// The player's hands and keyboard.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct HandWishes {
    /// The left hand.
    pub left: HandSize,
    /// The right hand.
    pub right: HandSize,
    /// How far apart the hands sit.
    pub spacing: Spacing,
    /// The keyboard's ends.
    pub compass: Compass,
    /// What its lowest keys sound.
    pub low_keys: LowKeys,
}

/// What one hand can and should take.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct HandSize {
    /// Notes wished, in the range [1, 5]; three or four is the habit. Values
    /// outside are read as the nearest end.
    pub notes: u8,
    /// Widest reach in white keys crossed, in the range [4, 11]: 7 an octave,
    /// 8 a ninth, 9 a tenth. Values outside are read as the nearest end.
    pub span: u8,
}

impl HandSize {
    /// The notes wished, in the range [1, 5].
    pub fn notes(self) -> usize {
        usize::from(self.notes.clamp(1, 5))
    }

    /// The reach in half white keys, in the range [8, 22].
    pub fn reach(self) -> i32 {
        i32::from(self.span.clamp(4, 11)) * 2
    }
}

impl Default for HandSize {
    /// Four notes within an octave.
    fn default() -> HandSize {
        HandSize { notes: 4, span: 7 }
    }
}

/// How far apart the hands sit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Spacing {
    /// Evenly spread, no great gap.
    #[default]
    Even,
    /// Far apart.
    Wide,
}

/// What the lowest keys of the keyboard sound.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum LowKeys {
    /// Each its own note.
    #[default]
    Chromatic,
    /// Short octave C/E: the keys E, F♯ and G♯ sound C, D and E; C♯, D♯, F♯ and
    /// G♯ of the lowest octave are missing.
    ShortC,
    /// Short octave GG/BB: the keys BB, C♯ and D♯ sound GG, AA and BB; GG♯, BB♭,
    /// C♯ and D♯ are missing.
    ShortG,
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

impl Default for Compass {
    fn default() -> Compass {
        Compass::FIVE_OCTAVES
    }
}
