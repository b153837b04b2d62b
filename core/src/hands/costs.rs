//! What the hands pay. Used by `solver` alone. The numbers are our choice; the
//! unit is a hair of comfort.

use super::wishes::{HandSize, Spacing};
pub(super) use crate::frame::ways::Cost;
use crate::pitch::Pitch;

/// Above every price of the longest piece: hands that cannot be.
pub(super) const NEVER: Cost = 1 << 60;
/// Hands in each other's way because the outer voices cross.
pub(super) const HANDS_COLLIDE: Cost = 5000;
/// A tone of the chord that is missing.
pub(super) const MISSING: Cost = 600;
/// A tone that may be missing and is.
pub(super) const OMITTED: Cost = 7;
/// A leading note or dissonance sounding once too often.
pub(super) const DOUBLED_DUTY: Cost = 90;
/// A suspension sounding once too often.
pub(super) const DOUBLED_SUSPENSION: Cost = 160;
/// An inner suspension that the hand did not hold before.
pub(super) const UNPREPARED: Cost = 40;
/// An inner leading note or dissonance that does not go where it should.
pub(super) const ASTRAY: Cost = 25;
/// A note of a held chord that is let go.
pub(super) const LETS_GO: Cost = 30;
/// A note that was not under the hand before.
const NEW_NOTE: Cost = 1;
/// A hand's change in the number of notes, each.
const COUNT_CHANGE: Cost = 3;
/// Fingers wished for and not used: the first, the second and so on. Growing, so
/// that the hands share what there is.
const IDLE_FINGERS: [Cost; 5] = [8, 12, 18, 26, 36];
/// A close interval low down where it growls, a semitone too narrow.
const GROWL: Cost = 12;
/// A gap within a hand, each semitone past a sixth.
const HOLE: Cost = 1;
/// Two neighbouring notes a semitone apart under one hand.
const CLUSTER: Cost = 4;
/// Hands on top of each other, each semitone too near.
const CROWDED: Cost = 5;
/// Hands further apart than wished, or nearer, each semitone.
const APART: Cost = 2;

/// Least semitones above a note before the interval growls. Common practice
/// (from memory): octaves below great C, fifths and more below c, no close
/// thirds below c.
pub(super) fn least_interval(lower: Pitch) -> i32 {
    match lower.semitones() {
        ..36 => 12,
        36..43 => 7,
        43..48 => 5,
        48..55 => 3,
        _ => 1,
    }
}

/// One hand by itself.
pub(super) fn grip(notes: &[Pitch], size: HandSize) -> Cost {
    let idle = size.notes().saturating_sub(notes.len());
    let idle: Cost = IDLE_FINGERS.iter().take(idle).sum();
    let steps = notes.iter().zip(notes.iter().skip(1)).map(|(low, high)| {
        let gap = high.semitones() - low.semitones();
        let growl = (least_interval(*low) - gap).max(0) as Cost * GROWL;
        let hole = if low.semitones() < 48 { 0 } else { (gap - 9).max(0) as Cost * HOLE };
        growl + hole + if gap == 1 { CLUSTER } else { 0 }
    });
    idle + steps.sum::<Cost>()
}

/// The gap from the left hand's top to the right hand's bottom note.
pub(super) fn gap(left: Pitch, right: Pitch, spacing: Spacing) -> Cost {
    let gap = right.semitones() - left.semitones();
    let crowded = (3 - gap).max(0) as Cost * CROWDED;
    let growl = (least_interval(left) - gap).max(0) as Cost * GROWL;
    let apart = match spacing {
        Spacing::Even => (gap - 7).max(0),
        Spacing::Wide => (19 - gap).max(0),
    };
    crowded + growl + apart as Cost * APART
}

/// A hand's travel: from twice one middle to twice another, notes new under
/// the hand, change of the number of notes.
pub(super) fn travel(middles: Option<(i32, i32)>, new: Cost, counts: (usize, usize)) -> Cost {
    let way = middles.map_or(0, |(from, to)| Cost::from(from.abs_diff(to)) / 4);
    way + new * NEW_NOTE + counts.0.abs_diff(counts.1) as Cost * COUNT_CHANGE
}
