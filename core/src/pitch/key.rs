//! Keys of the keyboard, numbered as MIDI numbers them.

/// A key of the keyboard, in the range [0, 127]; middle C is 60.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Key(u8);

impl Key {
    /// The lowest key.
    pub const MIN: Key = Key(0);
    /// The highest key.
    pub const MAX: Key = Key(127);

    /// The key of this number, if it is in the range [0, 127].
    pub const fn new(number: i32) -> Option<Key> {
        if 0 <= number && number <= 127 { Some(Key(number as u8)) } else { None }
    }

    /// The key of this number, the nearest end where it lies outside [0, 127].
    pub const fn clamped(number: i32) -> Key {
        match Key::new(number) {
            Some(key) => key,
            None if number < 0 => Key::MIN,
            None => Key::MAX,
        }
    }

    /// The number, in the range [0, 127].
    pub const fn number(self) -> i32 {
        self.0 as i32
    }

    /// The number for indexing, in the range [0, 127].
    pub const fn index(self) -> usize {
        self.0 as usize
    }

    /// Whether this is a raised (short) key.
    pub const fn is_raised(self) -> bool {
        matches!(self.0 % 12, 1 | 3 | 6 | 8 | 10)
    }
}
