//! "Finish the phrase": what is given, and then the cadence asked for.

use super::{Begun, Case, fault};
use crate::harmony::{Cadence, Harmony};
use crate::lesson::report::{Finding, FindingKind};
use crate::lesson::tonal::{fifth, numbers};

pub(super) fn finish(case: &Case<'_>, wanted: Cadence) -> (Begun, Vec<Finding>) {
    let given = case.exercise.sketch.notes.len();
    let begun = case.sketch.notes.len() > given || case.sketch.notes != case.exercise.sketch.notes;
    let harmony = &case.reading.harmony;
    let has = closing_cadence(harmony);
    let mut found = Vec::new();
    if has != Some(wanted) {
        let last = harmony.chords.len().checked_sub(1);
        let place = last.map(|last| (last, last));
        found.push(fault(place, FindingKind::NoCadence { wanted, has }));
    }
    let new = |from: usize, to: usize| {
        (from..=to).any(|i| harmony.chords.get(i).is_some_and(|chord| chord.note >= given))
    };
    let faults = case.reading.frame.faults.iter().filter(|fault| new(fault.from, fault.to));
    found.extend(faults.map(|fault| Finding {
        chords: Some((fault.from, fault.to)),
        severity: fault.severity,
        kind: FindingKind::Outer(fault.clone()),
    }));
    (Begun::when(begun), found)
}

/// The cadence a piece closes with: its sonorities over the 5th before a plain
/// tonic chord ("Cadences: the basics", essaysonmusic.com: one, two and four
/// sonorities; figures of the double cadence from memory, Sanguinetti 2012).
pub fn closing_cadence(harmony: &Harmony) -> Option<Cadence> {
    let (last, before) = harmony.chords.split_last()?;
    let home = harmony.home;
    if last.bass.class() != home.tonic || numbers(last) != [3, 5] {
        return None;
    }
    let over_fifth = before.iter().rev().take_while(|chord| chord.bass.class() == fifth(home));
    let mut stages: Vec<Vec<u8>> = over_fifth.map(numbers).collect();
    stages.reverse();
    let dominant = before.last()?;
    let plain = |stage: &[u8]| matches!(stage, [3, 5] | [3, 7] | [3, 5, 7]);
    let leads = dominant.tones.iter().any(|tone| tone.class == home.leading());
    if !leads || !plain(stages.last()?) {
        return None;
    }
    // A chord struck twice is one sonority.
    stages.dedup();
    match stages.as_slice() {
        [.., a, b, c, _] if plain(a) && b == &[4, 6] && c == &[4, 5] => Some(Cadence::Double),
        [.., a, _] if matches!(a.as_slice(), [4, 5] | [4, 6]) => Some(Cadence::Compound),
        _ => Some(Cadence::Simple),
    }
}
