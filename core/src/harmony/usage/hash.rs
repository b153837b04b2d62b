//! Tables by packed numbers, with a quick hash: nobody chooses these keys to make
//! them collide.

use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};

/// A table by a packed number.
pub(super) type Table<T> = HashMap<u64, T, BuildHasherDefault<Mixed>>;

/// The number times an odd constant, its high half folded down.
#[derive(Default)]
pub(super) struct Mixed(u64);

impl Hasher for Mixed {
    fn finish(&self) -> u64 {
        self.0 ^ self.0 >> 32
    }

    fn write(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.write_u64(u64::from(*byte));
        }
    }

    fn write_u64(&mut self, number: u64) {
        self.0 = (self.0.rotate_left(5) ^ number).wrapping_mul(0x9E37_79B9_7F4A_7C15);
    }
}
