//! The soprano as a melody. Fux, *Gradus* (1725); C.P.E. Bach, *Versuch* II
//! (1762); Kirnberger for the diminished leaps that turn back (from memory).

use super::moment::{Moment, apart};
use crate::frame::{Motion, motion};
use crate::pitch::Interval;

fn go(from: &Moment, to: &Moment) -> Interval {
    if apart(from, to) { Interval::UNISON } else { from.soprano_to(to).abs() }
}

/// Letters and semitones of the augmented second, third, fifth and sixth.
const AUGMENTED: [Interval; 4] =
    [Interval::new(1, 3), Interval::new(2, 5), Interval::new(4, 8), Interval::new(5, 10)];

pub(super) fn augmented_step(from: &Moment, to: &Moment) -> bool {
    AUGMENTED.contains(&go(from, to))
}

pub(super) fn tritone_leap(from: &Moment, to: &Moment) -> bool {
    go(from, to) == Interval::new(3, 6)
}

/// Letters and semitones of the diminished fourth, fifth and seventh.
const DIMINISHED: [Interval; 3] = [Interval::new(3, 4), Interval::new(4, 6), Interval::new(6, 9)];

pub(super) fn diminished_leap(first: &Moment, middle: &Moment, last: &Moment) -> bool {
    if !DIMINISHED.contains(&go(first, middle)) || apart(middle, last) {
        return false;
    }
    let leap = first.soprano_to(middle).steps;
    let after = middle.soprano_to(last);
    !(after.steps == -leap.signum() && after.semitones.abs() <= 2)
}

/// A diminished seventh is left to [`diminished_leap`].
pub(super) fn seventh_leap(from: &Moment, to: &Moment) -> bool {
    let go = go(from, to);
    go.steps == 6 && go.semitones != 9
}

pub(super) fn wide_leap(from: &Moment, to: &Moment) -> bool {
    go(from, to).steps > 7
}

/// An octave leap of the bass is no leap to the ear.
pub(super) fn leaps_together(from: &Moment, to: &Moment) -> bool {
    let bass = from.bass_to(to).steps.abs();
    go(from, to).steps >= 4
        && bass >= 4
        && bass != 7
        && matches!(motion(from.pair, to.pair), Motion::Similar | Motion::Parallel)
}

fn bass_moves(from: &Moment, to: &Moment) -> bool {
    !apart(from, to) && !from.pair.bass.same_key(to.pair.bass)
}

fn same(from: &Moment, to: &Moment) -> bool {
    from.pair.soprano.same_key(to.pair.soprano)
}

pub(super) fn third_same(first: &Moment, middle: &Moment, last: &Moment) -> bool {
    same(first, middle)
        && same(middle, last)
        && bass_moves(first, middle)
        && bass_moves(middle, last)
}

pub(super) fn returning(first: &Moment, middle: &Moment, last: &Moment) -> bool {
    same(first, last)
        && !same(first, middle)
        && bass_moves(first, middle)
        && bass_moves(middle, last)
}
