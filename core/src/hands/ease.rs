//! Giving the hands what they need: fingers lifted in time, and a moment's wait
//! where there is no other way.

use super::Hand;
use super::playable::{FINGERS, place_of, shift_time};
use super::wishes::HandWishes;
use crate::roll::{Micros, NoteKind, Performance, Touch};

/// Makes a performance playable, its touches being in order of time: keys beyond
/// the span of the next one come up as it goes down, so do keys of the other hand
/// that it would cross and a sixth finger's, a hand that must shift is freed early
/// enough, and where even that leaves it too little time all that follows waits.
/// Cost: linear in the touches.
pub fn ease(wishes: &HandWishes, performance: &mut Performance) {
    let touches = &mut performance.touches;
    // The touches that were down when each hand last struck, oldest first: where
    // the hand sits.
    let mut down: [Vec<usize>; 2] = [Vec::new(), Vec::new()];
    // Where it waits, in written time, and how long all told.
    let mut waits: Vec<(Micros, u64)> = Vec::new();
    let mut waited = 0;
    for next in 0..touches.len() {
        let (written, hand) = (touches[next].down, touches[next].hand);
        delay(&mut touches[next], waited);
        let missing = seat(wishes, touches, &down[hand as usize], next);
        if missing > 0 {
            // What sounds on sounds on a little longer, unless it is struck to be left.
            for held in down.iter().flatten().copied() {
                let brief = touches[held].kind == NoteKind::Acciaccatura;
                if touches[held].up > touches[next].down && !brief {
                    touches[held].up.0 += missing;
                }
            }
            delay(&mut touches[next], missing);
            waited += missing;
            waits.push((written, waited));
        }
        let touch = touches[next];
        let other = match touch.hand {
            Hand::Left => Hand::Right,
            Hand::Right => Hand::Left,
        };
        for &held in &down[other as usize] {
            let crosses = match touch.hand {
                Hand::Left => touch.key >= touches[held].key,
                Hand::Right => touch.key <= touches[held].key,
            };
            if crosses {
                lift(&mut touches[held], touch.down);
            }
        }
        let mine = &mut down[touch.hand as usize];
        mine.retain(|&held| touches[held].up > touch.down);
        mine.push(next);
        if mine.len() > FINGERS {
            let oldest = mine.remove(0);
            lift(&mut touches[oldest], touch.down);
        }
    }
    let later = |at: Micros| {
        let count = waits.partition_point(|(from, _)| *from <= at);
        let waited = count.checked_sub(1).and_then(|i| waits.get(i)).map_or(0, |wait| wait.1);
        Micros(at.0 + waited)
    };
    performance.starts.iter_mut().for_each(|start| *start = later(*start));
    performance.end = later(performance.end);
}

fn delay(touch: &mut Touch, by: u64) {
    touch.down.0 += by;
    touch.up.0 += by;
}

/// Brings the hand over the key that goes down next, and says how much time it
/// lacks for that, in microseconds.
fn seat(wishes: &HandWishes, touches: &mut [Touch], mine: &[usize], next: usize) -> u64 {
    let touch = touches[next];
    let size = match touch.hand {
        Hand::Left => wishes.left,
        Hand::Right => wishes.right,
    };
    let here = place_of(wishes, touch.key);
    let far = |held: &Touch| place_of(wishes, held.key).abs_diff(here) as i32 - size.reach();
    let mut beyond = 0;
    let mut stays = false;
    for &held in mine {
        let over = far(&touches[held]);
        beyond = beyond.max(over);
        if over > 0 || touches[held].key == touch.key {
            lift(&mut touches[held], touch.down);
        }
        stays |= touches[held].up > touch.down;
    }
    // With a key still under it the hand reaches from there.
    if beyond <= 0 || stays {
        return 0;
    }
    let needs = shift_time(beyond).0;
    // Until the hand last struck, what it held was what it reached from.
    let struck = mine.iter().map(|&held| touches[held].down.0).max().unwrap_or(0);
    let free = Micros(touch.down.0.saturating_sub(needs).max(struck + 1));
    let mut last = 0;
    for &held in mine {
        lift(&mut touches[held], free);
        last = last.max(touches[held].up.0);
    }
    needs.saturating_sub(touch.down.0 - last.min(touch.down.0))
}

/// Ends a touch at a time at the latest, but not before it sounds.
fn lift(touch: &mut Touch, at: Micros) {
    touch.up = touch.up.min(at).max(Micros(touch.down.0 + 1));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hands::hardships;
    use crate::pitch::{Key, Pitch, Step};

    fn touch((hand, key, down, up): (Hand, i32, u64, u64)) -> Touch {
        Touch {
            key: Key::clamped(key),
            pitch: Pitch::new(Step::C, 0, 4),
            hand,
            chord: 0,
            down: Micros::from_ms(down),
            up: Micros::from_ms(up),
            velocity: 80,
            kind: NoteKind::Chord,
        }
    }

    /// Down and up of each touch in milliseconds once eased.
    fn eased(touches: &[(Hand, i32, u64, u64)]) -> Vec<(u64, u64)> {
        let touches: Vec<Touch> = touches.iter().copied().map(touch).collect();
        let starts = vec![touches.last().map_or(Micros(0), |touch| touch.down)];
        let end = Micros::from_ms(1000);
        let mut performance = Performance { touches, starts, end, ..Performance::default() };
        ease(&HandWishes::default(), &mut performance);
        assert_eq!(hardships(&HandWishes::default(), &performance), []);
        let last = performance.touches.last().map(|touch| touch.down);
        assert_eq!(performance.starts.first().copied(), last);
        performance.touches.iter().map(|t| (t.down.0 / 1000, t.up.0 / 1000)).collect()
    }

    use Hand::{Left, Right};

    #[test]
    fn what_can_be_played_is_left_alone() {
        let same = [(Left, 48, 0, 500), (Left, 60, 100, 500), (Right, 72, 200, 500)];
        assert_eq!(eased(&same), [(0, 500), (100, 500), (200, 500)]);
    }

    #[test]
    fn fingers_lift_where_the_hand_goes_on_beyond_them() {
        let far = [(Left, 48, 0, 500), (Left, 55, 100, 500), (Left, 62, 200, 500)];
        assert_eq!(eased(&far), [(0, 200), (100, 500), (200, 500)]);
        let crossing = [(Right, 60, 0, 500), (Left, 64, 200, 500)];
        assert_eq!(eased(&crossing), [(0, 200), (200, 500)]);
    }

    #[test]
    fn a_leap_frees_the_hand_before_it_and_waits_if_it_must() {
        // Two octaves from C4: an octave beyond the span, 103 ms.
        assert_eq!(eased(&[(Left, 48, 0, 500), (Left, 72, 500, 900)]), [(0, 397), (500, 900)]);
        let hasty = eased(&[(Left, 48, 0, 500), (Right, 80, 10, 500), (Left, 72, 50, 90)]);
        assert_eq!(hasty, [(0, 0), (10, 553), (103, 143)]);
    }
}
