//! Free work: everything the rooms have to say of it.

use super::{Begun, Case, handfuls::severity};
use crate::frame::Severity;
use crate::lesson::report::{Finding, FindingKind};

pub(super) fn free(case: &Case<'_>) -> (Begun, Vec<Finding>) {
    let reading = case.reading;
    let mut found: Vec<Finding> = Vec::new();
    found.extend(reading.frame.faults.iter().map(|fault| Finding {
        chords: Some((fault.from, fault.to)),
        severity: fault.severity,
        kind: FindingKind::Outer(fault.clone()),
    }));
    found.extend(reading.harmony.remarks.iter().map(|remark| Finding {
        chords: case.over(remark.note),
        severity: Severity::Caution,
        kind: FindingKind::Figures(remark.clone()),
    }));
    found.extend(reading.hands.remarks.iter().map(|remark| Finding {
        chords: Some((remark.chord, remark.chord)),
        severity: severity(&remark.kind),
        kind: FindingKind::Hand(remark.clone()),
    }));
    let changed = case.answer.sketch != case.exercise.sketch;
    (Begun::when(changed && !case.sketch.notes.is_empty()), found)
}
