//! When fingers lift: notes are collected and held under the hand until the
//! chord changes, added notes are left at once, and a key that is struck again
//! lifts just before.

use super::{Micros, NoteKind, Touch};
use crate::hands::Hand;

/// Time a key needs to rise before it is struck again, in microseconds.
const LIFT: u64 = 36_000;
/// How far the right hand's old notes reach into the new chord at most, in microseconds.
const OVERLAP: u64 = 90_000;

/// A touch whose key-up is still to be set, held no longer than `brief`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Open {
    pub(super) touch: Touch,
    pub(super) brief: Option<u64>,
}

/// The touches with their key-ups, from touches in playing order; `leaves` says
/// when each chord's harmony is left.
pub(super) fn lift(open: &[Open], leaves: &[Micros]) -> Vec<Touch> {
    let end = leaves.last().copied().unwrap_or_default();
    let mut again: [Option<Micros>; 128] = [None; 128];
    // For each hand: the group it plays now and its first strike, and the first
    // strike of the group after. A run is a group of its own.
    let mut here: [Option<((usize, bool), Micros)>; 2] = [None; 2];
    let mut later: [Option<Micros>; 2] = [None; 2];
    let mut touches: Vec<Touch> = open
        .iter()
        .rev()
        .map(|&Open { mut touch, brief }| {
            let hand = touch.hand as usize;
            let group = (touch.chord, touch.kind == NoteKind::Run);
            if let Some((now, first)) = here[hand]
                && now != group
            {
                later[hand] = Some(first);
            }
            here[hand] = Some((group, touch.down));
            // A hand leaves its notes when it strikes elsewhere; the right hand may
            // hold on a little into the new chord.
            let leave = leaves.get(touch.chord).copied().unwrap_or(end);
            let reach = match touch.hand {
                Hand::Left => 0,
                Hand::Right if touch.chord + 1 < leaves.len() => OVERLAP,
                Hand::Right => 0,
            };
            let mut up = Micros(leave.0 + reach).min(later[hand].unwrap_or(end));
            if let Some(brief) = brief {
                up = up.min(Micros(touch.down.0 + brief));
            }
            if let Some(next) = again[touch.key.index()] {
                let gap = next.0.saturating_sub(touch.down.0);
                up = up.min(Micros(next.0 - LIFT.min(gap / 2)));
            }
            touch.up = up.max(Micros(touch.down.0 + 1));
            again[touch.key.index()] = Some(touch.down);
            touch
        })
        .collect();
    touches.reverse();
    touches
}
