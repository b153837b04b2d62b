//! Checking an answer: each ask looks at the part it needs.
//!
//! The exercise's rules and soprano compass count, not the answer's own, and a
//! hand's span is the narrower of the two, so that nobody is asked to reach
//! further than their own hand. The rules are those of the outer voices and
//! hands rooms; nothing is judged twice over.

mod accepted;
mod cadence;
mod differences;
mod figures;
mod find;
mod free;
mod handfuls;
mod kept;
mod keys;
mod soprano;

pub use cadence::closing_cadence;

use super::answer::Answer;
use super::ask::Ask;
use super::exercise::Exercise;
use super::report::{AskResult, Finding, FindingKind, Outcome, Report};
use crate::frame::Severity;
use crate::hands::HandSize;
use crate::harmony::Chord;
use crate::order;
use crate::reading::{Reading, read};
use crate::roll::NoteKind;
use crate::sketch::Sketch;

/// Checks an answer against its exercise. Any answer gets a report.
/// Cost: that of a few readings of the sketch, and two for each key asked for.
pub fn check(exercise: &Exercise, answer: &Answer) -> Report {
    let sketch = judged(exercise, answer);
    let reading = read(&sketch);
    let case = Case { exercise, answer, sketch: &sketch, reading: &reading };
    let mut kept = Some(kept::kept(&case));
    let results = exercise.asks.iter().map(|ask| {
        let (begun, mut findings) = result(&case, ask);
        // What was given is everyone's concern; it is said once.
        if looks_at_sketch(ask)
            && begun == Begun::Yes
            && let Some(kept) = kept.take()
        {
            findings.extend(kept);
        }
        order::by_key(&mut findings, |finding| {
            finding.chords.map_or((1, 0), |(_, last)| (0, last))
        });
        let faults = findings.iter().any(|finding| finding.severity == Severity::Fault);
        let outcome = match (begun, faults) {
            (Begun::No, _) => Outcome::Blank,
            (Begun::Yes, true) => Outcome::NotYet,
            (Begun::Yes, false) => Outcome::Done,
        };
        AskResult { ask: ask.clone(), outcome, findings }
    });
    let results = results.collect();
    Report { results, differences: differences::differences(&case) }
}

/// What the model answer itself gets, so that a teacher sees whether the
/// exercise can be done as it is asked; `None` without a model.
pub fn check_model(exercise: &Exercise) -> Option<Report> {
    let model = exercise.model.as_ref()?;
    let keys = exercise.asks.iter().filter_map(|ask| match ask {
        Ask::Keys(keys) => Some(keys),
        Ask::Figures(_)
        | Ask::Soprano { .. }
        | Ask::FindFaults(_)
        | Ask::Handfuls { .. }
        | Ask::Roll { .. }
        | Ask::Finish(_)
        | Ask::Free => None,
    });
    let keys = keys.flatten().map(|&key| {
        let moved = super::in_tonality::in_tonality(&model.sketch, key);
        let parts = super::exercise::Parts::ALL;
        super::make::freeze(&moved, &read(&moved), parts)
    });
    let keys = keys.collect();
    let answer = Answer { sketch: model.sketch.clone(), keys, ..Answer::default() };
    Some(check(exercise, &answer))
}

/// An answer before the court.
struct Case<'a> {
    exercise: &'a Exercise,
    answer: &'a Answer,
    /// The answer's sketch under the exercise's rules.
    sketch: &'a Sketch,
    reading: &'a Reading,
}

impl Case<'_> {
    fn chords(&self) -> &[Chord] {
        &self.reading.harmony.chords
    }

    /// First and last chord over a note, if it has any.
    fn over(&self, note: usize) -> Option<(usize, usize)> {
        let first = self.chords().iter().position(|chord| chord.note == note)?;
        let last = self.chords().iter().rposition(|chord| chord.note == note)?;
        Some((first, last))
    }
}

/// Whether the student has begun on an ask.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Begun {
    Yes,
    No,
}

impl Begun {
    fn when(begun: bool) -> Begun {
        if begun { Begun::Yes } else { Begun::No }
    }
}

fn result(case: &Case<'_>, ask: &Ask) -> (Begun, Vec<Finding>) {
    match ask {
        Ask::Figures(measure) => figures::figures(case, *measure),
        Ask::Soprano { position, motions } => soprano::soprano(case, *position, *motions),
        Ask::FindFaults(naming) => find::find(case, *naming),
        Ask::Handfuls { least } => handfuls::handfuls(case, *least),
        Ask::Roll { acciaccaturas } => roll(case, *acciaccaturas),
        Ask::Keys(keys) => keys::keys(case, keys),
        Ask::Finish(cadence) => cadence::finish(case, *cadence),
        Ask::Free => free::free(case),
    }
}

/// Whether an ask is about the sketch in the key given.
fn looks_at_sketch(ask: &Ask) -> bool {
    match ask {
        Ask::Figures(_)
        | Ask::Soprano { .. }
        | Ask::Handfuls { .. }
        | Ask::Roll { .. }
        | Ask::Finish(_) => true,
        Ask::FindFaults(_) | Ask::Keys(_) | Ask::Free => false,
    }
}

/// The answer's sketch under the rules that count.
fn judged(exercise: &Exercise, answer: &Answer) -> Sketch {
    let mut sketch = answer.sketch.clone();
    sketch.frame.rules = exercise.rules();
    sketch.frame.compass = exercise.sketch.frame.compass;
    let free = exercise.asks.contains(&Ask::Free);
    if !free {
        sketch.tonality = exercise.sketch.tonality;
    }
    let narrower =
        |own: HandSize, most: HandSize| HandSize { span: own.span.min(most.span), ..own };
    sketch.hands.left = narrower(sketch.hands.left, exercise.sketch.hands.left);
    sketch.hands.right = narrower(sketch.hands.right, exercise.sketch.hands.right);
    sketch
}

fn fault(chords: Option<(usize, usize)>, kind: FindingKind) -> Finding {
    Finding { chords, severity: Severity::Fault, kind }
}

fn roll(case: &Case<'_>, wanted: u8) -> (Begun, Vec<Finding>) {
    let given = &case.exercise.sketch;
    let strokes = |sketch: &Sketch| -> Vec<_> {
        sketch.notes.iter().map(|note| note.stroke.clone()).collect()
    };
    let begun = case.sketch.roll != given.roll || strokes(case.sketch) != strokes(given);
    let touches = &case.reading.performance.touches;
    let added = touches.iter().filter(|touch| touch.kind == NoteKind::Acciaccatura);
    let mut places: Vec<_> = added.map(|touch| (touch.chord, touch.key)).collect();
    order::sort(&mut places);
    places.dedup();
    let (has, wanted) = (places.len(), usize::from(wanted));
    let few = has < wanted;
    let finding = fault(None, FindingKind::FewAcciaccaturas { has, wanted });
    (Begun::when(begun), if few { vec![finding] } else { Vec::new() })
}
