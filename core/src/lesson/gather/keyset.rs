//! A set of keys of the keyboard.

use crate::pitch::Key;

/// A set of keys, one bit each.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct KeySet(u128);

impl KeySet {
    pub(super) const EMPTY: KeySet = KeySet(0);

    pub(super) fn with(self, key: Key) -> KeySet {
        KeySet(self.0 | 1 << key.index())
    }

    pub(super) fn without(self, key: Key) -> KeySet {
        KeySet(self.0 & !(1 << key.index()))
    }

    pub(super) fn and(self, other: KeySet) -> KeySet {
        KeySet(self.0 | other.0)
    }

    pub(super) fn has(self, key: Key) -> bool {
        self.0 >> key.index() & 1 == 1
    }

    pub(super) fn is_empty(self) -> bool {
        self.0 == 0
    }

    pub(super) fn lowest(self) -> Option<Key> {
        Key::new(self.0.trailing_zeros() as i32)
    }

    pub(super) fn highest(self) -> Option<Key> {
        Key::new(127 - self.0.leading_zeros() as i32)
    }

    /// The keys, low to high.
    pub(super) fn keys(self) -> impl Iterator<Item = Key> {
        (0..128).filter_map(Key::new).filter(move |key| self.has(*key))
    }

    pub(super) fn only(self, keep: impl Fn(Key) -> bool) -> KeySet {
        self.keys().filter(|&key| keep(key)).fold(KeySet::EMPTY, KeySet::with)
    }
}
