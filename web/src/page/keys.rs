//! Where the keys of the keyboard lie, in white-key widths, and which key a
//! point hits. Keys are named by what they sound; on a short octave the lowest ones
//! stand where others stand elsewhere.

use tastata::hands::{Compass, HandWishes, LowKeys, looks};
use tastata::pitch::Key;

/// A black key's width, in white keys.
const BLACK_WIDTH: f64 = 0.62;
/// A black key's length, in the white key's.
pub(super) const BLACK_LENGTH: f64 = 0.62;

/// The keyboard the player has.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Keyboard {
    compass: Compass,
    low_keys: LowKeys,
}

impl Keyboard {
    /// The one that these hands play.
    pub(super) fn of(wishes: &HandWishes) -> Keyboard {
        Keyboard { compass: wishes.compass, low_keys: wishes.low_keys }
    }

    /// Its keys, from the lowest sound up.
    pub(super) fn keys(self) -> impl Iterator<Item = Key> {
        let Compass { low, high } = self.compass;
        let there = move |key: &Key| looks(*key, self.low_keys).is_some();
        (low.number()..=high.number()).filter_map(Key::new).filter(there)
    }

    /// The key `by` semitones from this one, or the nearest beyond it that there is; the
    /// last where there is none.
    pub(super) fn step(self, from: Key, by: i32) -> Option<Key> {
        let to = from.number() + by;
        let low = self.keys().filter(|key| key.number() <= to).last();
        let high = self.keys().find(|key| key.number() >= to);
        if by < 0 { low.or(high) } else { high.or(low) }
    }

    /// Whether the key is a raised one.
    pub(super) fn is_raised(self, key: Key) -> bool {
        self.look(key).is_raised()
    }

    /// Whether the key sounds another note than a key in its place does elsewhere.
    pub(super) fn is_out_of_place(self, key: Key) -> bool {
        self.look(key) != key
    }

    /// The left edge and width of a key, in white keys from key 0's left edge.
    pub(super) fn place(self, key: Key) -> (f64, f64) {
        let look = self.look(key);
        let below = f64::from(whites_below(look));
        if look.is_raised() { (below - BLACK_WIDTH / 2.0, BLACK_WIDTH) } else { (below, 1.0) }
    }

    /// Its ends, in white keys from key 0's left edge.
    pub(super) fn ends(self) -> (f64, f64) {
        let edges = self.keys().map(|key| self.place(key));
        let far = (f64::INFINITY, f64::NEG_INFINITY);
        let (low, high) =
            edges.fold(far, |(low, high), (left, width)| (low.min(left), high.max(left + width)));
        if low < high { (low, high) } else { (0.0, 1.0) }
    }

    fn look(self, key: Key) -> Key {
        looks(key, self.low_keys).unwrap_or(key)
    }
}

/// White keys below this key, counted from key 0.
fn whites_below(key: Key) -> i32 {
    const IN_OCTAVE: [i32; 12] = [0, 1, 1, 2, 2, 3, 4, 4, 5, 5, 6, 6];
    key.number() / 12 * 7 + IN_OCTAVE[(key.number() % 12) as usize]
}

/// The keys in view: a stretch of the compass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Window {
    /// The left edge, in white keys from key 0's left edge.
    pub(super) left: f64,
    /// White keys in view.
    pub(super) whites: f64,
}

impl Window {
    /// A window of at most `most` white keys on the keyboard, beginning near `left`.
    pub(super) fn on(keyboard: Keyboard, left: f64, most: f64) -> Window {
        let (low, high) = keyboard.ends();
        let whites = most.min(high - low).max(1.0);
        Window { left: left.clamp(low, (high - whites).max(low)), whites }
    }

    /// Whether all of a key, its left edge and its width, is in view.
    pub(super) fn shows(&self, (left, width): (f64, f64)) -> bool {
        self.left <= left && left + width <= self.left + self.whites
    }

    /// Where the window should begin so that this stretch of white keys is in view with the least
    /// movement, a key to spare on either side where there is room; none where it is too long.
    pub(super) fn holding(&self, (low, high): (f64, f64)) -> Option<f64> {
        let spare = self.whites - (high - low);
        let margin = (spare / 2.0).min(1.0);
        let (least, most) = (high + margin - self.whites, low - margin);
        (spare >= 0.0).then(|| self.left.max(least).min(most))
    }

    /// The key at a point, both coordinates as fractions of the keyboard.
    pub(super) fn key_at(self, x: f64, y: f64, keyboard: Keyboard) -> Option<Key> {
        let at = self.left + x * self.whites;
        let hit = |raised: bool| {
            keyboard.keys().filter(|key| keyboard.is_raised(*key) == raised).find(|key| {
                let (left, width) = keyboard.place(*key);
                left <= at && at < left + width
            })
        };
        hit(true).filter(|_| y < BLACK_LENGTH).or_else(|| hit(false))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn keyboard(compass: Compass, low_keys: LowKeys) -> Keyboard {
        Keyboard { compass, low_keys }
    }

    #[test]
    fn a_window_moves_no_further_than_it_must() {
        let window = Window { left: 20.0, whites: 17.0 };
        assert_eq!(window.holding((22.0, 35.0)), Some(20.0));
        assert_eq!(window.holding((15.0, 30.0)), Some(14.0));
        assert_eq!(window.holding((25.0, 39.0)), Some(23.0));
        // Half a key to spare on either side, then none, then no room.
        assert_eq!(window.holding((10.0, 26.0)), Some(9.5));
        assert_eq!(window.holding((10.0, 27.0)), Some(10.0));
        assert_eq!(window.holding((10.0, 27.5)), None);
    }

    #[test]
    fn every_key_is_hit_in_its_middle() {
        let keyboards = [
            keyboard(Compass::FIVE_OCTAVES, LowKeys::Chromatic),
            keyboard(Compass::FOUR_OCTAVES, LowKeys::ShortC),
            keyboard(Compass::FIVE_OCTAVES, LowKeys::ShortG),
        ];
        for keyboard in keyboards {
            let window = Window::on(keyboard, 0.0, 100.0);
            for key in keyboard.keys() {
                let (left, width) = keyboard.place(key);
                let x = (left + width / 2.0 - window.left) / window.whites;
                let y = if keyboard.is_raised(key) { 0.3 } else { 0.9 };
                assert_eq!(window.key_at(x, y, keyboard), Some(key));
            }
        }
    }

    #[test]
    fn a_window_stays_on_the_keyboard() {
        let keyboard = keyboard(Compass::FOUR_OCTAVES, LowKeys::Chromatic);
        let (low, high) = keyboard.ends();
        assert_eq!(high - low, 29.0);
        assert_eq!(Window::on(keyboard, -5.0, 8.0).left, low);
        assert_eq!(Window::on(keyboard, 500.0, 8.0).left, high - 8.0);
    }

    #[test]
    fn a_short_octave_begins_where_e_stands_elsewhere() {
        let full = keyboard(Compass::FOUR_OCTAVES, LowKeys::Chromatic);
        let short = keyboard(Compass::FOUR_OCTAVES, LowKeys::ShortC);
        let (c, d, e) = (Key::clamped(36), Key::clamped(38), Key::clamped(40));
        assert_eq!(short.ends(), (full.place(e).0, full.ends().1));
        assert_eq!(short.place(c), full.place(e));
        assert_eq!(short.place(d), full.place(Key::clamped(42)));
        assert!(short.is_raised(d) && short.is_raised(e) && !short.is_raised(c));
        assert_eq!(short.step(c, 1), Some(d));
        assert_eq!(short.step(Key::clamped(41), -1), Some(e));
        assert_eq!(short.step(c, -1), Some(c));
    }
}
