//! A model of two hands that proves a performance playable, touch by touch.
//!
//! A hand has five fingers and one span, its keys lie apart from the other
//! hand's, no key goes down that is already down, and a hand that must shift
//! needs time for it after its last key is up. The times are our choice, on the
//! careful side.

use super::Hand;
use super::keyboard::place;
use super::wishes::{HandSize, HandWishes, LowKeys};
use crate::order;
use crate::pitch::Key;
use crate::roll::{Micros, Performance, Touch};

/// Time to lift and set down a hand that shifts at all, in microseconds.
const SHIFT: u64 = 40_000;
/// Time for every half white key that the hand shifts, in microseconds: an
/// octave beyond its span in about a tenth of a second.
const SHIFT_EACH: u64 = 4_500;
/// Fingers of a hand.
pub(super) const FINGERS: usize = 5;

/// Something two hands cannot do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Hardship {
    /// When.
    pub at: Micros,
    /// The hand whose touch asks for it.
    pub hand: Hand,
    /// Index of the chord.
    pub chord: usize,
    /// What is asked.
    pub kind: HardshipKind,
}

/// What two hands cannot do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HardshipKind {
    /// More keys down than a hand has fingers.
    TooManyKeys {
        /// How many.
        count: usize,
    },
    /// Keys down at once beyond the hand's span.
    TooWide {
        /// What it needs, in half white keys.
        needs: i32,
        /// What it has, in half white keys.
        limit: i32,
    },
    /// The left hand reaches above a key that the right hand holds, or the right
    /// below one of the left's.
    HandsCross,
    /// A key goes down that is already down.
    AlreadyDown {
        /// The key.
        key: Key,
    },
    /// A hand must shift faster than it can.
    TooFast {
        /// The time it needs.
        needs: Micros,
        /// The time it has.
        has: Micros,
    },
}

/// Everything in a performance that two such hands cannot do, in order of time;
/// empty when it is playable. Cost: linear in the touches.
pub fn hardships(wishes: &HandWishes, performance: &Performance) -> Vec<Hardship> {
    let mut touches: Vec<&Touch> = performance.touches.iter().collect();
    order::by_key(&mut touches, |touch| (touch.down, touch.key));
    let mut found = Vec::new();
    let mut left = Player::new(Hand::Left, wishes.left);
    let mut right = Player::new(Hand::Right, wishes.right);
    for touch in touches {
        left.lift(touch.down);
        right.lift(touch.down);
        let mut say = |kind| {
            let Touch { hand, chord, down: at, .. } = *touch;
            found.push(Hardship { at, hand, chord, kind });
        };
        if left.holds(touch.key) || right.holds(touch.key) {
            say(HardshipKind::AlreadyDown { key: touch.key });
        }
        let player = match touch.hand {
            Hand::Left => &mut left,
            Hand::Right => &mut right,
        };
        player.strike(wishes, touch, &mut say);
        if let (Some(l), Some(r)) = (left.highest(), right.lowest())
            && l > r
        {
            say(HardshipKind::HandsCross);
        }
    }
    found
}

/// The time a hand needs to shift this many half white keys beyond its span.
pub(super) fn shift_time(beyond: i32) -> Micros {
    Micros(SHIFT + SHIFT_EACH * beyond.max(0) as u64)
}

/// Where a key lies, in half white keys; a key that the low octave lacks counts
/// as lying where a chromatic keyboard has it.
pub(crate) fn place_of(wishes: &HandWishes, key: Key) -> i32 {
    place(key, wishes.low_keys).or_else(|| place(key, LowKeys::Chromatic)).unwrap_or(0)
}

/// One hand as it plays.
struct Player {
    hand: Hand,
    size: HandSize,
    /// Keys down, with the time each comes up.
    down: Vec<(Key, Micros)>,
    /// Where the hand was when it last played: lowest and highest key in half
    /// white keys.
    seat: Option<(i32, i32)>,
    /// When its last key came up.
    free: Micros,
}

impl Player {
    fn new(hand: Hand, size: HandSize) -> Player {
        Player { hand, size, down: Vec::new(), seat: None, free: Micros(0) }
    }

    /// Lifts every finger whose time has come.
    fn lift(&mut self, now: Micros) {
        let free = &mut self.free;
        self.down.retain(|&(_, up)| {
            if up <= now {
                *free = (*free).max(up);
            }
            up > now
        });
    }

    fn holds(&self, key: Key) -> bool {
        self.down.iter().any(|&(held, _)| held == key)
    }

    fn highest(&self) -> Option<Key> {
        self.down.iter().map(|&(key, _)| key).max()
    }

    fn lowest(&self) -> Option<Key> {
        self.down.iter().map(|&(key, _)| key).min()
    }

    fn strike(&mut self, wishes: &HandWishes, touch: &Touch, say: &mut impl FnMut(HardshipKind)) {
        debug_assert_eq!(self.hand, touch.hand);
        let limit = self.size.reach();
        let at = |key: Key| place_of(wishes, key);
        let here = at(touch.key);
        if let (true, Some((low, high))) = (self.down.is_empty(), self.seat) {
            let beyond = (here - low - limit).max(high - here - limit).max(0);
            let needs = shift_time(beyond);
            let has = Micros(touch.down.0.saturating_sub(self.free.0));
            if beyond > 0 && has < needs {
                say(HardshipKind::TooFast { needs, has });
            }
        }
        self.down.retain(|&(key, _)| key != touch.key);
        self.down.push((touch.key, touch.up));
        let places = || self.down.iter().map(|&(key, _)| at(key));
        let (low, high) = (places().min().unwrap_or(here), places().max().unwrap_or(here));
        if high - low > limit {
            say(HardshipKind::TooWide { needs: high - low, limit });
        }
        if self.down.len() > FINGERS {
            say(HardshipKind::TooManyKeys { count: self.down.len() });
        }
        self.seat = Some((low, high));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::roll::{NoteKind, Performance};

    fn play(touches: &[(Hand, i32, u64, u64)]) -> Vec<HardshipKind> {
        let touch = |&(hand, key, down, up): &(Hand, i32, u64, u64)| {
            let key = Key::clamped(key);
            let pitch = crate::pitch::Tonality::parse("C").map(|c| c.spell(key));
            Touch {
                key,
                pitch: pitch.unwrap_or(crate::pitch::Pitch::new(crate::pitch::Step::C, 0, 4)),
                hand,
                chord: 0,
                down: Micros::from_ms(down),
                up: Micros::from_ms(up),
                velocity: 80,
                kind: NoteKind::Chord,
            }
        };
        let performance =
            Performance { touches: touches.iter().map(touch).collect(), ..Performance::default() };
        let found = hardships(&HandWishes::default(), &performance);
        found.into_iter().map(|hardship| hardship.kind).collect()
    }

    use Hand::{Left, Right};

    #[test]
    fn an_octave_is_within_reach_and_a_ninth_is_not() {
        assert_eq!(play(&[(Left, 48, 0, 500), (Left, 60, 100, 500)]), []);
        let wide = play(&[(Left, 48, 0, 500), (Left, 62, 100, 500)]);
        assert_eq!(wide, [HardshipKind::TooWide { needs: 16, limit: 14 }]);
        assert_eq!(play(&[(Left, 48, 0, 50), (Left, 62, 100, 500)]), []);
    }

    #[test]
    fn six_keys_are_too_many() {
        let keys: Vec<_> = (0..6).map(|i| (Right, 60 + 2 * i, 10 * i as u64, 500)).collect();
        assert_eq!(play(&keys), [HardshipKind::TooManyKeys { count: 6 }]);
        assert_eq!(play(&keys[..5]), []);
    }

    #[test]
    fn hands_may_not_cross_or_share_a_key() {
        assert_eq!(play(&[(Left, 64, 0, 500), (Right, 60, 100, 500)]), [HardshipKind::HandsCross]);
        let key = Key::clamped(60);
        let shared = play(&[(Left, 60, 0, 500), (Right, 60, 100, 500)]);
        assert_eq!(shared, [HardshipKind::AlreadyDown { key }]);
        assert_eq!(play(&[(Left, 60, 0, 100), (Left, 60, 100, 500)]), []);
    }

    #[test]
    fn a_leap_takes_time() {
        let far = play(&[(Right, 60, 0, 100), (Right, 84, 110, 300)]);
        let needs = shift_time(14);
        assert_eq!(far, [HardshipKind::TooFast { needs, has: Micros::from_ms(10) }]);
        assert_eq!(play(&[(Right, 60, 0, 100), (Right, 84, 210, 300)]), []);
        assert_eq!(play(&[(Right, 60, 0, 100), (Right, 72, 100, 300)]), []);
    }
}
