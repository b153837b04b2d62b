//! The checker: every place where a line breaks a rule in force.

use super::rules::{Fault, Law, Moment, Rule};
use super::wishes::FrameWishes;
use crate::harmony::Chord;
use crate::order;
use crate::pitch::Pitch;

/// Faults and cautions of a soprano over chords, in order of place, then of the
/// rulebook.
pub fn faults(wishes: &FrameWishes, chords: &[Chord], soprano: &[Pitch]) -> Vec<Fault> {
    let line: Vec<Moment> = chords.iter().zip(soprano).map(|(c, &s)| Moment::new(c, s)).collect();
    let mut found = Vec::new();
    for rule in Rule::ALL {
        let Some(severity) = wishes.rules.severity(rule) else { continue };
        let places = places(rule, &line, wishes);
        found.extend(places.into_iter().filter_map(|(from, to)| {
            let (first, last) = (line.get(from)?.pair, line.get(to)?.pair);
            Some(Fault { rule, severity, from, to, first, last })
        }));
    }
    order::by_key(&mut found, |fault| (fault.to, fault.from, fault.rule));
    found
}

/// First and last chord of every place where the rule is broken.
fn places(rule: Rule, line: &[Moment], wishes: &FrameWishes) -> Vec<(usize, usize)> {
    match rule.law() {
        Law::Chord(law) => {
            let broken = line.iter().map(|moment| law(moment, wishes.compass));
            indices(broken).map(|i| (i, i)).collect()
        }
        Law::Move(law) => {
            let broken = line.windows(2).map(|w| matches!(w, [from, to] if law(from, to)));
            indices(broken).map(|i| (i, i + 1)).collect()
        }
        Law::Line(law) => triples(line, law).map(|i| (i, i + 2)).collect(),
        Law::Stretch(law, least) => stretches(triples(line, law), least),
    }
}

fn indices(broken: impl Iterator<Item = bool>) -> impl Iterator<Item = usize> {
    broken.enumerate().filter_map(|(i, broken)| broken.then_some(i))
}

fn triples<'a>(
    line: &'a [Moment],
    law: fn(&Moment, &Moment, &Moment) -> bool,
) -> impl Iterator<Item = usize> + use<'a> {
    indices(line.windows(3).map(move |w| matches!(w, [a, b, c] if law(a, b, c))))
}

/// Runs of at least `least` neighbouring triples, as first and last chord.
fn stretches(triples: impl Iterator<Item = usize>, least: usize) -> Vec<(usize, usize)> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for i in triples {
        match runs.last_mut() {
            Some(run) if run.1 == i + 1 => run.1 = i + 2,
            _ => runs.push((i, i + 2)),
        }
    }
    runs.retain(|(from, to)| to - from > least);
    runs
}
