//! "Harmonise this bass": every note figured, and every chord one that belongs.

use super::accepted::{Accepted, accepted};
use super::{Begun, Case, fault};
use crate::bass;
use crate::figures::Stage;
use crate::frame::Severity;
use crate::harmony::Chord;
use crate::lesson::ask::Measure;
use crate::lesson::report::{Finding, FindingKind};
use crate::lesson::tonal::classes;
use crate::pitch::PitchClass;

pub(super) fn figures(case: &Case<'_>, measure: Measure) -> (Begun, Vec<Finding>) {
    let given = &case.exercise.sketch.notes;
    let mine = |i: usize| given.get(i).is_none_or(|note| note.figures.is_none());
    let notes = &case.sketch.notes;
    let begun = notes.iter().enumerate().any(|(i, note)| mine(i) && note.figures.is_some());
    let mut found = Vec::new();
    let passing = bass::passing(notes);
    let may_pass = may_pass(case);
    let at = |of: &[bool], i: usize| of.get(i).copied().unwrap_or(false);
    for (i, note) in notes.iter().enumerate().filter(|(i, _)| mine(*i)) {
        let passes = at(&passing, i) && may_pass.iter().any(|of| at(of, i));
        if note.figures.is_none() && !passes {
            found.push(fault(case.over(i), FindingKind::NoFigures { note: i }));
        }
    }
    let odd = case.reading.harmony.remarks.iter().filter(|remark| mine(remark.note));
    found.extend(odd.map(|remark| Finding {
        chords: case.over(remark.note),
        severity: Severity::Caution,
        kind: FindingKind::Figures(remark.clone()),
    }));
    if measure != Measure::Complete {
        for (group, accepted) in accepted(case, measure) {
            let figured = |&i: &usize| mine(i) && notes.get(i).is_some_and(|n| n.figures.is_some());
            if group.clone().any(|i| figured(&i)) {
                found.extend(compare(case, group, &accepted));
            }
        }
    }
    (Begun::when(begun), found)
}

/// On which notes the teacher's own readings have no chord.
fn may_pass(case: &Case<'_>) -> Vec<Vec<bool>> {
    let model = case.exercise.model.as_ref().map(|model| &model.sketch);
    let own = [Some(&case.exercise.sketch), model].into_iter().flatten();
    own.map(|sketch| bass::passing(&sketch.notes)).collect()
}

/// What does not belong over a group of notes.
fn compare(
    case: &Case<'_>,
    group: std::ops::Range<usize>,
    accepted: &[Accepted],
) -> Option<Finding> {
    let here: Vec<&Chord> = case.chords().iter().filter(|c| group.contains(&c.note)).collect();
    let sounding: Vec<_> = here.iter().map(|chord| classes(chord)).collect();
    if accepted.iter().any(|way| way.sounds(&sounding)) {
        return None;
    }
    let wanted = accepted.first()?;
    let agrees = |way: &Accepted| {
        let pairs = way.stages.iter().zip(&sounding);
        pairs.take_while(|(wanted, has)| wanted.classes == **has).count()
    };
    // The way that goes furthest with the student, the expected one first, tells
    // where they part.
    let best = accepted
        .iter()
        .rev()
        .filter(|way| way.stages.len() == sounding.len())
        .max_by_key(|way| agrees(way))
        .unwrap_or(wanted);
    let at = agrees(best);
    let place = |chord: &Chord| {
        let index = case.chords().iter().position(|it| it == chord)?;
        Some((index, index))
    };
    Some(match (here.get(at), best.stages.get(at)) {
        (Some(chord), Some(wanted)) if best.stages.len() == sounding.len() => fault(
            place(chord),
            FindingKind::WrongChord {
                note: chord.note,
                stage: chord.stage,
                has: chord.figures.clone(),
                wanted: wanted.figures.clone(),
            },
        ),
        _ => {
            let (first, last) = (here.first()?, here.last()?);
            let chords = place(first).zip(place(last)).map(|((from, _), (to, _))| (from, to));
            let (has, wanted) = (here.len(), wanted.stages.len());
            fault(chords, FindingKind::WrongStages { note: group.start, has, wanted })
        }
    })
}

/// One sonority of an accepted way.
pub(super) struct AcceptedStage {
    pub(super) classes: Vec<PitchClass>,
    pub(super) figures: Stage,
}
