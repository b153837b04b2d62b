//! Perfect intervals in succession. Fux, *Gradus* (1725), rules 1 and 3 of
//! the outer motions; the excuse of a stepwise soprano is common practice.

use super::moment::{Moment, apart};
use crate::frame::{Motion, motion};
use crate::pitch::Interval;

fn go(from: &Moment, to: &Moment) -> Option<Motion> {
    (!apart(from, to)).then(|| motion(from.pair, to.pair))
}

fn same_way(from: &Moment, to: &Moment) -> bool {
    matches!(go(from, to), Some(Motion::Similar | Motion::Parallel))
}

fn both(from: &Moment, to: &Moment, perfect: fn(Interval) -> bool) -> bool {
    perfect(from.pair.interval()) && perfect(to.pair.interval())
}

fn is_octave(interval: Interval) -> bool {
    interval.is_perfect_octave()
}

fn is_fifth(interval: Interval) -> bool {
    interval.is_perfect_fifth()
}

pub(super) fn octaves(from: &Moment, to: &Moment) -> bool {
    both(from, to, is_octave) && same_way(from, to)
}

pub(super) fn fifths(from: &Moment, to: &Moment) -> bool {
    both(from, to, is_fifth) && same_way(from, to)
}

pub(super) fn contrary_octaves(from: &Moment, to: &Moment) -> bool {
    both(from, to, is_octave) && go(from, to) == Some(Motion::Contrary)
}

pub(super) fn contrary_fifths(from: &Moment, to: &Moment) -> bool {
    both(from, to, is_fifth) && go(from, to) == Some(Motion::Contrary)
}

pub(super) fn diminished_to_perfect(from: &Moment, to: &Moment) -> bool {
    is_fifth(to.pair.interval()) && is_diminished_fifth(from) && same_way(from, to)
}

fn is_diminished_fifth(moment: &Moment) -> bool {
    let interval = moment.pair.interval();
    interval.simple_number() == 5 && interval.simple_semitones() == 6
}

pub(super) fn hidden_octaves(from: &Moment, to: &Moment) -> bool {
    is_octave(to.pair.interval())
        && !is_octave(from.pair.interval())
        && soprano_leaps(from, to)
        && same_way(from, to)
}

pub(super) fn hidden_fifths(from: &Moment, to: &Moment) -> bool {
    is_fifth(to.pair.interval())
        && !is_fifth(from.pair.interval())
        && !is_diminished_fifth(from)
        && soprano_leaps(from, to)
        && same_way(from, to)
}

fn soprano_leaps(from: &Moment, to: &Moment) -> bool {
    from.soprano_to(to).steps.abs() >= 2
}

/// The middle chord is only a change over the first one's bass note, so the ear
/// still joins the outer two. Common practice.
pub(super) fn masked(first: &Moment, middle: &Moment, last: &Moment) -> bool {
    let over_one_bass = first.chord.note == middle.chord.note
        && first.pair.bass.same_key(middle.pair.bass)
        && last.chord.note != first.chord.note;
    over_one_bass
        && !middle.rests
        && ((octaves(first, last) && !octaves(middle, last))
            || (fifths(first, last) && !fifths(middle, last)))
}
