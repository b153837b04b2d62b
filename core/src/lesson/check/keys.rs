//! "Play it in these keys": in each key the right bass, every chord played and
//! complete, the outer voices clean.
//!
//! A bass note may be played in any octave. The chords expected are those of the
//! model, or of what is given, in the key asked for.

use super::{Begun, Case, fault, handfuls::severity};
use crate::frame::{Severity, rests};
use crate::hands::HandTrouble;
use crate::lesson::in_tonality::in_tonality;
use crate::lesson::report::{Finding, FindingKind};
use crate::pitch::Tonality;
use crate::reading::read;
use crate::sketch::Sketch;

pub(super) fn keys(case: &Case<'_>, keys: &[Tonality]) -> (Begun, Vec<Finding>) {
    let mut found = Vec::new();
    for &tonality in keys {
        let exercise = case.exercise;
        let reference = exercise.model.as_ref().map_or(&exercise.sketch, |model| &model.sketch);
        // A tonic that no signature has is spelled another way.
        let expected = in_tonality(reference, tonality);
        let named = [Some(tonality), expected.tonality];
        match case.answer.keys.iter().find(|sketch| named.contains(&sketch.tonality)) {
            None => found.push(fault(None, FindingKind::KeyMissing(tonality))),
            Some(played) => one_key(case, tonality, expected, played, &mut found),
        }
    }
    (Begun::when(!case.answer.keys.is_empty()), found)
}

fn one_key(
    case: &Case<'_>,
    tonality: Tonality,
    mut expected: Sketch,
    played: &Sketch,
    found: &mut Vec<Finding>,
) {
    for note in 0..expected.notes.len().max(played.notes.len()) {
        let class = |sketch: &Sketch| sketch.notes.get(note).map(|note| note.pitch.class());
        let (has, wanted) = (class(played), class(&expected));
        if has != wanted {
            found.push(fault(None, FindingKind::KeyBass { tonality, note, has, wanted }));
            return;
        }
    }
    // The expected chords under the notes that were played.
    for (note, played) in expected.notes.iter_mut().zip(&played.notes) {
        note.pitch = played.pitch;
        note.soprano.clone_from(&played.soprano);
        note.handfuls.clone_from(&played.handfuls);
    }
    expected.frame.rules = case.exercise.rules();
    let reading = read(&expected);
    for (i, chord) in reading.harmony.chords.iter().enumerate() {
        let note = expected.notes.get(chord.note);
        let top = note.and_then(|note| note.soprano.get(chord.stage)).copied().flatten();
        if top.is_none() && !rests(chord) {
            found.push(fault(None, FindingKind::KeyUnplayed { tonality, chord: i }));
        }
    }
    let own = |chord: usize| {
        let chord = reading.harmony.chords.get(chord)?;
        expected.notes.get(chord.note)?.handfuls.get(chord.stage)?.as_ref()
    };
    for remark in reading.hands.remarks.iter().filter(|remark| own(remark.chord).is_some()) {
        // How the hands shared the notes is theirs to choose.
        let about_notes =
            matches!(remark.kind, HandTrouble::Incomplete { .. } | HandTrouble::Foreign { .. });
        if about_notes && severity(&remark.kind) == Severity::Fault {
            let (chord, trouble) = (remark.chord, remark.kind.clone());
            found.push(fault(None, FindingKind::KeyChord { tonality, chord, trouble }));
        }
    }
    found.extend(reading.frame.faults.iter().map(|fault| Finding {
        chords: None,
        severity: fault.severity,
        kind: FindingKind::KeyOuter { tonality, fault: fault.clone() },
    }));
}
