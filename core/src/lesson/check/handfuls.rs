//! "Open these close chords": a handful of the student's own over every chord,
//! complete, within the span, with enough notes in each hand.

use super::{Begun, Case, fault};
use crate::frame::{Severity, rests};
use crate::hands::{Hand, HandTrouble};
use crate::lesson::report::{Finding, FindingKind};

pub(super) fn handfuls(case: &Case<'_>, least: u8) -> (Begun, Vec<Finding>) {
    let chords = case.chords();
    let own = |i: usize| {
        let chord = chords.get(i)?;
        case.sketch.notes.get(chord.note)?.handfuls.get(chord.stage)?.as_ref()
    };
    let given = &case.exercise.sketch.notes;
    let begun = case.sketch.notes.iter().enumerate().any(|(i, note)| {
        let was = given.get(i).map_or(&[][..], |given| given.handfuls.as_slice());
        note.handfuls.iter().any(Option::is_some) && note.handfuls != was
    });
    let wanted = usize::from(least.clamp(1, 5));
    let mut found = Vec::new();
    for (i, (chord, handful)) in chords.iter().zip(&case.reading.hands.handfuls).enumerate() {
        if own(i).is_none() {
            if !rests(chord) {
                found.push(fault(Some((i, i)), FindingKind::NoHandful));
            }
            continue;
        }
        for (hand, notes) in [(Hand::Left, &handful.left), (Hand::Right, &handful.right)] {
            if notes.len() < wanted && !rests(chord) {
                let kind = FindingKind::ThinHand { hand, has: notes.len(), wanted };
                found.push(fault(Some((i, i)), kind));
            }
        }
    }
    let remarks = &case.reading.hands.remarks;
    let theirs = remarks.iter().filter(|remark| own(remark.chord).is_some());
    found.extend(theirs.map(|remark| Finding {
        chords: Some((remark.chord, remark.chord)),
        severity: severity(&remark.kind),
        kind: FindingKind::Hand(remark.clone()),
    }));
    (Begun::when(begun), found)
}

/// A doubling is worth a second look; what cannot be played or is missing is a fault.
pub(super) fn severity(trouble: &HandTrouble) -> Severity {
    match trouble {
        HandTrouble::DoubledDuty { .. } | HandTrouble::LeftOut { .. } => Severity::Caution,
        _ => Severity::Fault,
    }
}
