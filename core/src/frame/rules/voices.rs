//! Where the two voices may be. Common practice.

use super::moment::{Moment, apart};
use crate::frame::wishes::SopranoCompass;
use crate::pitch::Pitch;

pub(super) fn crossing(moment: &Moment, _: SopranoCompass) -> bool {
    !moment.rests && moment.pair.soprano.semitones() < moment.pair.bass.semitones()
}

pub(super) fn overlap(from: &Moment, to: &Moment) -> bool {
    !apart(from, to)
        && (to.pair.soprano.semitones() < from.pair.bass.semitones()
            || to.pair.bass.semitones() > from.pair.soprano.semitones())
}

/// Not where one voice itself makes the chromatic step.
pub(super) fn cross_relation(from: &Moment, to: &Moment) -> bool {
    let contradict = |a: Pitch, b: Pitch| a.step == b.step && a.alter != b.alter;
    !apart(from, to)
        && from.pair.bass.step != to.pair.bass.step
        && from.pair.soprano.step != to.pair.soprano.step
        && (contradict(from.pair.bass, to.pair.soprano)
            || contradict(from.pair.soprano, to.pair.bass))
}

pub(super) fn outside_compass(moment: &Moment, compass: SopranoCompass) -> bool {
    !moment.rests && !moment.pair.soprano.key().is_some_and(|key| compass.contains(key))
}

pub(super) fn foreign(moment: &Moment, _: SopranoCompass) -> bool {
    !moment.rests && moment.duty.is_none()
}
