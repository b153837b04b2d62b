//! When fingers lift: notes are collected and held under the hand until the
//! chord changes, and a key that is struck again lifts just before.

use super::{Micros, Touch};
use crate::hands::Hand;

/// Time a key needs to rise before it is struck again, in microseconds.
const LIFT: u64 = 36_000;
/// How far a hand's old notes reach into the new chord at most, in microseconds.
const OVERLAP: u64 = 90_000;

/// Sets the key-ups of touches given in playing order, `end` being when the last
/// chord is left.
pub(super) fn lift(touches: &mut [Touch], starts: &[Micros], end: Micros) {
    let mut again: [Option<Micros>; 128] = [None; 128];
    // For each hand: the chord it plays and its first strike there, then the same
    // of the next chord it plays.
    let mut here: [Option<(usize, Micros)>; 2] = [None; 2];
    let mut later: [Option<Micros>; 2] = [None; 2];
    for touch in touches.iter_mut().rev() {
        let hand = touch.hand as usize;
        match here[hand] {
            Some((chord, first)) if chord != touch.chord => {
                later[hand] = Some(first);
                here[hand] = Some((touch.chord, touch.down));
            }
            _ => here[hand] = Some((touch.chord, touch.down)),
        }
        // A hand leaves its notes when it strikes in a later chord; the left hand
        // soon after the new bass at the latest, the right a little later.
        let change = starts.get(touch.chord + 1).copied().unwrap_or(end);
        let reach = match touch.hand {
            Hand::Left => OVERLAP / 4,
            Hand::Right => OVERLAP,
        };
        let busy = later[hand].map_or(end, |first| first.max(change));
        let mut up = busy.min(Micros(change.0 + reach)).min(end);
        if let Some(next) = again[touch.key.index()] {
            let gap = next.0.saturating_sub(touch.down.0);
            up = up.min(Micros(next.0 - LIFT.min(gap / 2)));
        }
        touch.up = up.max(Micros(touch.down.0 + 1));
        again[touch.key.index()] = Some(touch.down);
    }
}
