//! Where the keys of the keyboard lie, in white-key widths, and which key a
//! point hits.

use tastata::hands::Compass;
use tastata::pitch::Key;

/// A black key's width, in white keys.
pub(super) const BLACK_WIDTH: f64 = 0.62;
/// A black key's length, in the white key's.
pub(super) const BLACK_LENGTH: f64 = 0.62;

/// White keys below this key, counted from key 0.
fn whites_below(key: Key) -> i32 {
    const IN_OCTAVE: [i32; 12] = [0, 1, 1, 2, 2, 3, 4, 4, 5, 5, 6, 6];
    key.number() / 12 * 7 + IN_OCTAVE[(key.number() % 12) as usize]
}

/// The left edge and width of a key, in white keys from key 0's left edge.
pub(super) fn place(key: Key) -> (f64, f64) {
    let below = f64::from(whites_below(key));
    if key.is_raised() { (below - BLACK_WIDTH / 2.0, BLACK_WIDTH) } else { (below, 1.0) }
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
    /// A window of at most `most` white keys on the compass, beginning near `left`.
    pub(super) fn on(compass: Compass, left: f64, most: f64) -> Window {
        let (low, high) = ends(compass);
        let whites = most.min(high - low).max(1.0);
        Window { left: left.clamp(low, (high - whites).max(low)), whites }
    }

    /// The key at a point, both coordinates as fractions of the keyboard.
    pub(super) fn key_at(self, x: f64, y: f64, compass: Compass) -> Option<Key> {
        let at = self.left + x * self.whites;
        let hit = |key: &Key| {
            let (left, width) = place(*key);
            left <= at && at < left + width
        };
        let keys = || (compass.low.number()..=compass.high.number()).filter_map(Key::new);
        let raised = keys().filter(|k| k.is_raised()).find(hit);
        raised.filter(|_| y < BLACK_LENGTH).or_else(|| keys().filter(|k| !k.is_raised()).find(hit))
    }
}

/// The compass's ends, in white keys from key 0's left edge.
pub(super) fn ends(compass: Compass) -> (f64, f64) {
    let (low, _) = place(compass.low);
    let (high, width) = place(compass.high);
    (low, high + width)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_key_is_hit_in_its_middle() {
        let compass = Compass::FIVE_OCTAVES;
        let window = Window::on(compass, 0.0, 100.0);
        for key in (compass.low.number()..=compass.high.number()).filter_map(Key::new) {
            let (left, width) = place(key);
            let x = (left + width / 2.0 - window.left) / window.whites;
            let y = if key.is_raised() { 0.3 } else { 0.9 };
            assert_eq!(window.key_at(x, y, compass), Some(key));
        }
    }

    #[test]
    fn a_window_stays_on_the_compass() {
        let compass = Compass::FOUR_OCTAVES;
        let (low, high) = ends(compass);
        assert_eq!(high - low, 29.0);
        assert_eq!(Window::on(compass, -5.0, 8.0).left, low);
        assert_eq!(Window::on(compass, 500.0, 8.0).left, high - 8.0);
    }
}
