//! What leading notes, sevenths and suspensions owe in the outer voices.
//! C.P.E. Bach, *Versuch* II (1762); Fux (1725) and Fenaroli (1775) for suspensions.
//!
//! A debt waits while the note is held as a tone of the next chord, or while
//! the next chord over the same bass keeps it in another voice.

use super::moment::{Moment, apart};
use crate::frame::wishes::SopranoCompass;
use crate::harmony::Duty;
use crate::pitch::Interval;

fn rises_by_step(interval: Interval) -> bool {
    interval.steps == 1 && matches!(interval.semitones, 1 | 2)
}

fn falls_by_step(interval: Interval) -> bool {
    interval.steps == -1 && matches!(interval.semitones, -2 | -1)
}

/// A leading note that falls a chromatic semitone, as in a chain of dominants
/// (common practice).
fn sinks(interval: Interval) -> bool {
    interval.steps == 0 && interval.semitones == -1
}

/// Whether the soprano's debt waits for a later chord.
fn waits(from: &Moment, to: &Moment, duty: Duty) -> bool {
    let held = from.pair.soprano.same_key(to.pair.soprano) && to.duty.is_some();
    let passed_on =
        from.pair.bass.class() == to.pair.bass.class() && to.keeps(from.pair.soprano.class(), duty);
    held || passed_on
}

pub(super) fn unrisen(from: &Moment, to: &Moment) -> bool {
    let go = from.soprano_to(to);
    from.duty == Some(Duty::Rises)
        && !apart(from, to)
        && !rises_by_step(go)
        && !sinks(go)
        && !waits(from, to, Duty::Rises)
}

/// A seventh may also rise where the bass itself takes its resolution, as in
/// tenths over 2 to 3 of the octave rule (common practice).
pub(super) fn unfallen(from: &Moment, to: &Moment) -> bool {
    let bass_takes_it = from.pair.soprano.step.index() - to.pair.bass.step.index();
    from.duty == Some(Duty::Falls)
        && !apart(from, to)
        && !falls_by_step(from.soprano_to(to))
        && !waits(from, to, Duty::Falls)
        && bass_takes_it.rem_euclid(7) != 1
}

pub(super) fn unprepared(from: &Moment, to: &Moment) -> bool {
    to.duty == Some(Duty::Suspended)
        && !apart(from, to)
        && !from.pair.soprano.same_key(to.pair.soprano)
}

pub(super) fn unresolved(from: &Moment, to: &Moment) -> bool {
    from.duty == Some(Duty::Suspended)
        && !apart(from, to)
        && !falls_by_step(from.soprano_to(to))
        && !waits(from, to, Duty::Suspended)
}

/// The debt of a bass note also passes on when the next chord keeps the note in
/// another voice. A leading note in the bass may walk down the scale, as 8 7 6 of
/// the octave rule does, and leap a fourth up or a fifth down as a root in a
/// sequence of fifths (common practice).
pub(super) fn bass(from: &Moment, to: &Moment) -> bool {
    let go = from.bass_to(to);
    let held = from.pair.bass.same_key(to.pair.bass);
    let passed_on = to.chord.tones.iter().any(|tone| tone.class == from.pair.bass.class());
    !held
        && !passed_on
        && match from.bass_duty {
            Duty::Free => false,
            Duty::Rises => {
                let goes_on = rises_by_step(go) || falls_by_step(go) || sinks(go);
                !goes_on && !matches!(go.steps, 3 | -4)
            }
            Duty::Falls | Duty::Suspended => !falls_by_step(go),
        }
}

pub(super) fn doubled(moment: &Moment, _: SopranoCompass) -> bool {
    !moment.rests
        && moment.bass_duty != Duty::Free
        && moment.pair.bass.class() == moment.pair.soprano.class()
}
