//! "Finish the phrase": what is given, and then the cadence asked for.

use super::{Begun, Case, fault};
use crate::harmony::{Cadence, Chord, Harmony};
use crate::lesson::report::{Finding, FindingKind};
use crate::lesson::tonal::{fifth, numbers};
use crate::pitch::Mode;

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

/// The cadence a piece closes with ("Cadences: the basics", essaysonmusic.com: one,
/// two or four sonorities over the 5th before the tonic; figures of the double
/// cadence from memory, Sanguinetti 2012; the others from memory).
pub fn closing_cadence(harmony: &Harmony) -> Option<Cadence> {
    let (last, before) = harmony.chords.split_last()?;
    let home = harmony.home;
    let degree = |chord: &Chord| {
        let degree = home.degree_of(chord.bass.step);
        (home.scale(degree) == chord.bass.class()).then_some(degree.number())
    };
    let dominant = |chord: &Chord| {
        let leads = chord.tones.iter().any(|tone| tone.class == home.leading());
        degree(chord) == Some(5) && leads && plain(&numbers(chord))
    };
    let previous = before.last();
    match (degree(last)?, numbers(last).as_slice()) {
        (1, [3, 5]) => previous.filter(|it| dominant(it)).map(|_| home_by(harmony, before)),
        (5, [3, 5]) if dominant(last) => {
            let sixth = previous.filter(|it| numbers(it) == [3, 6] && degree(it) == Some(6));
            let phrygian = home.mode == Mode::Minor && sixth.is_some();
            Some(if phrygian { Cadence::Phrygian } else { Cadence::Half })
        }
        (6, [3, 5]) => previous.filter(|it| dominant(it)).map(|_| Cadence::Deceptive),
        (3, [3, 6]) => {
            let fourth = previous.filter(|it| degree(it) == Some(4) && numbers(it) == [2, 4, 6]);
            let fifth = before.iter().rev().nth(1).filter(|it| dominant(it));
            fourth.and(fifth).map(|_| Cadence::Evaded)
        }
        _ => None,
    }
}

fn plain(stage: &[u8]) -> bool {
    matches!(stage, [3, 5] | [3, 7] | [3, 5, 7])
}

/// Which cadence brings the bass from the 5th home.
fn home_by(harmony: &Harmony, before: &[Chord]) -> Cadence {
    let fifth = fifth(harmony.home);
    let over_fifth = before.iter().rev().take_while(|chord| chord.bass.class() == fifth);
    let mut stages: Vec<Vec<u8>> = over_fifth.map(numbers).collect();
    stages.reverse();
    // A chord struck twice is one sonority.
    stages.dedup();
    match stages.as_slice() {
        [.., a, b, c, _] if plain(a) && b == &[4, 6] && c == &[4, 5] => Cadence::Double,
        [.., a, _] if matches!(a.as_slice(), [4, 5] | [4, 6]) => Cadence::Compound,
        _ => Cadence::Simple,
    }
}
