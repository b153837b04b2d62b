//! Whether what was given is still there.

use super::{Case, fault};
use crate::lesson::ask::Ask;
use crate::lesson::exercise::Part;
use crate::lesson::report::{Finding, FindingKind};
use crate::sketch::{Hold, Pin, SketchNote};

/// Every place where a given note, figure, soprano note or handful was changed.
/// Only what the teacher put there counts; where the phrase is to be finished or
/// the work is free, more notes may follow.
pub(super) fn kept(case: &Case<'_>) -> Vec<Finding> {
    let given = &case.exercise.sketch.notes;
    let has = &case.sketch.notes;
    let open_ended = case.exercise.asks.iter().any(|ask| matches!(ask, Ask::Finish(_) | Ask::Free));
    let mut found = Vec::new();
    let mut changed = |part, note| {
        found.push(fault(case.over(note), FindingKind::GivenChanged { part, note }));
    };
    for (i, note) in given.iter().enumerate() {
        match has.get(i) {
            None => {
                changed(Part::Bass, i);
                break;
            }
            Some(has) => differs(note, has).into_iter().for_each(|part| changed(part, i)),
        }
    }
    if has.len() > given.len() && !open_ended {
        changed(Part::Bass, given.len());
    }
    found
}

/// The parts of a given note that are no longer as they were.
fn differs(given: &SketchNote, has: &SketchNote) -> Vec<Part> {
    let mut parts = Vec::new();
    if has.pitch != given.pitch {
        parts.push(Part::Bass);
    }
    if given.figures.is_some() && has.figures != given.figures {
        parts.push(Part::Figures);
    }
    let pinned = |pin: &Option<Pin>| pin.filter(|pin| pin.hold == Hold::Pinned).map(|p| p.pitch);
    let at = |stage: usize| has.soprano.get(stage).copied().flatten().map(|pin| pin.pitch);
    let mut pins = given.soprano.iter().map(pinned).enumerate();
    if pins.any(|(stage, pin)| pin.is_some() && at(stage) != pin) {
        parts.push(Part::Soprano);
    }
    let mut handfuls = given.handfuls.iter().enumerate();
    let own = |stage: usize| has.handfuls.get(stage).and_then(Option::as_ref);
    if handfuls.any(|(stage, handful)| handful.is_some() && own(stage) != handful.as_ref()) {
        parts.push(Part::Handfuls);
    }
    parts
}
