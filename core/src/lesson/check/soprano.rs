//! "Give a soprano": a note over every chord, in the position and by the motions
//! asked for, clean by the rules in force.

use super::{Begun, Case, fault};
use crate::frame::{Motion, Position, motion, pairs, rests};
use crate::lesson::ask::MotionLimit;
use crate::lesson::report::{Finding, FindingKind};

pub(super) fn soprano(
    case: &Case<'_>,
    position: Option<Position>,
    motions: MotionLimit,
) -> (Begun, Vec<Finding>) {
    let chords = case.chords();
    let fixed: Vec<bool> = chords
        .iter()
        .map(|chord| {
            let pins = case.sketch.notes.get(chord.note).map(|note| note.soprano.as_slice());
            pins.and_then(|pins| pins.get(chord.stage)).is_some_and(Option::is_some)
        })
        .collect();
    let set = |i: usize| fixed.get(i).copied().unwrap_or(false);
    let given = &case.exercise.sketch.notes;
    let begun = case.sketch.notes.iter().enumerate().any(|(i, note)| {
        let was = given.get(i).map_or(&[][..], |given| given.soprano.as_slice());
        note.soprano.iter().any(Option::is_some) && note.soprano != was
    });
    let mut found = Vec::new();
    for (i, chord) in chords.iter().enumerate() {
        if !set(i) && !rests(chord) {
            found.push(fault(Some((i, i)), FindingKind::NoSoprano));
        }
    }
    if let (Some(wanted), Some(chord), Some(top)) =
        (position, chords.first(), case.reading.frame.soprano.first())
        && set(0)
    {
        let number = chord.tones.iter().find(|tone| tone.class == top.class()).map(|t| t.number);
        let fits = match wanted {
            Position::Octave => number == Some(1),
            Position::Third => number == Some(3),
            Position::Fifth => matches!(number, Some(5 | 6)),
        };
        if !fits {
            found.push(fault(Some((0, 0)), FindingKind::WrongPosition { wanted }));
        }
    }
    let pairs = pairs(chords, &case.reading.frame.soprano);
    for (i, (from, to)) in pairs.iter().zip(pairs.iter().skip(1)).enumerate() {
        let resting = |i: usize| chords.get(i).is_none_or(rests);
        if !set(i) || !set(i + 1) || resting(i) || resting(i + 1) {
            continue;
        }
        let motion = motion(*from, *to);
        let tenths = motion == Motion::Parallel && to.interval().simple_number() == 3;
        let bass_stays = from.bass.same_key(to.bass);
        let allowed = match motions {
            MotionLimit::Any => true,
            MotionLimit::ContraryOrTenths => motion == Motion::Contrary || tenths || bass_stays,
        };
        if !allowed {
            found.push(fault(Some((i, i + 1)), FindingKind::Motion(motion)));
        }
    }
    // What the program fills in beside the student's notes is not the student's.
    let theirs = |from: usize, to: usize| (from..=to).any(set);
    let faults = case.reading.frame.faults.iter().filter(|fault| theirs(fault.from, fault.to));
    found.extend(faults.map(|fault| Finding {
        chords: Some((fault.from, fault.to)),
        severity: fault.severity,
        kind: FindingKind::Outer(fault.clone()),
    }));
    (Begun::when(begun), found)
}
