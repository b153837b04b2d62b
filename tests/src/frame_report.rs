//! What the rulebook finds in the chorales, as a page of Markdown.

use std::fmt::Write;

use tastata::frame::{Fault, FrameWishes, Rule, Severity, faults, motions, pairs};
use tastata::words::{Lang, rule_name};

use crate::chorales::{Chorale, Stretch, Verdict};

/// A place where the two checkers disagree about a move.
pub struct Difference {
    /// The chorale's file.
    pub file: String,
    /// The chords of the move, and what each checker says.
    pub text: String,
    /// Why they disagree; `None` when nothing known explains it.
    pub reason: Option<&'static str>,
}

/// What our rulebook says of a move in the other library's terms.
pub fn verdict(found: &[Fault], to: usize) -> Verdict {
    let has = |rules: [Rule; 2]| found.iter().any(|f| f.to == to && rules.contains(&f.rule));
    let contrary = has([Rule::ContraryFifths, Rule::ContraryOctaves]);
    let one = |rule| has([rule, rule]);
    Verdict {
        fifths: has([Rule::ConsecutiveFifths, Rule::ContraryFifths]),
        octaves: has([Rule::ConsecutiveOctaves, Rule::ContraryOctaves]),
        contrary,
        hidden_fifths: one(Rule::HiddenFifths),
        hidden_octaves: one(Rule::HiddenOctaves),
    }
}

/// The other library's verdict where the soprano goes by step: what is hidden is
/// excused there, by our rule.
fn excused(verdict: Verdict, steps: i32) -> Verdict {
    let leaps = steps.abs() > 1;
    Verdict {
        hidden_fifths: verdict.hidden_fifths && leaps,
        hidden_octaves: verdict.hidden_octaves && leaps,
        ..verdict
    }
}

/// Everything the rulebook finds in a stretch.
pub fn found_in(stretch: &Stretch) -> Vec<Fault> {
    faults(&FrameWishes::default(), &stretch.chords, &stretch.soprano)
}

/// Every move on which the checkers disagree.
pub fn differences(chorales: &[Chorale]) -> Vec<Difference> {
    let mut all = Vec::new();
    for chorale in chorales {
        for stretch in &chorale.stretches {
            let found = found_in(stretch);
            let pairs = pairs(&stretch.chords, &stretch.soprano);
            for (i, known) in stretch.moves.iter().enumerate().skip(1) {
                let (from, to) = (pairs[i - 1], pairs[i]);
                let ours = verdict(&found, i);
                let theirs = excused(known.verdict, (to.soprano - from.soprano).steps);
                if ours == theirs {
                    continue;
                }
                let sizes = (from.interval().steps.abs(), to.interval().steps.abs());
                let reason = match sizes {
                    (0, 7 | 14 | 21) | (7 | 14 | 21, 0) if ours.octaves => Some(
                        "A unison and an octave: one kind of perfect consonance to us, two to the library.",
                    ),
                    _ => None,
                };
                all.push(Difference {
                    file: chorale.name.clone(),
                    text: format!(
                        "{}–{} to {}–{}: ours {ours:?}, theirs {theirs:?}",
                        from.bass, from.soprano, to.bass, to.soprano
                    ),
                    reason,
                });
            }
        }
    }
    all
}

/// The page: how often each rule fires, the consecutives one by one, and where
/// the other library disagrees.
pub fn page(chorales: &[Chorale]) -> String {
    let stretches = || chorales.iter().flat_map(|chorale| &chorale.stretches);
    let all: Vec<Vec<Fault>> = stretches().map(found_in).collect();
    let moves: usize = stretches().map(|stretch| stretch.chords.len() - 1).sum();
    let mut page = String::from(HEAD);
    let _ = writeln!(
        page,
        "{} files, {moves} moves, of them {} out of a soprano note with a fermata.\n",
        chorales.len(),
        stretches().flat_map(|s| &s.moves[1..]).filter(|known| known.ends_phrase).count(),
    );
    page += "| rule | usually | times | in 1,000 moves | out of a fermata |\n|---|---|---:|---:|---:|\n";
    for rule in Rule::ALL {
        let places = || {
            let both = stretches().zip(&all);
            both.flat_map(|(s, found)| found.iter().filter(|f| f.rule == rule).map(move |f| (s, f)))
        };
        let severity = match rule.usual() {
            None => "off",
            Some(Severity::Caution) => "caution",
            Some(Severity::Fault) => "fault",
        };
        let needs_duties = matches!(
            rule,
            Rule::UnrisenLeadingNote
                | Rule::UnfallenSeventh
                | Rule::UnpreparedSuspension
                | Rule::UnresolvedSuspension
                | Rule::BassDuty
                | Rule::DoubledDuty
                | Rule::ForeignNote
        );
        let name = rule_name(rule, Lang::English);
        if needs_duties {
            let _ = writeln!(page, "| {name} | {severity} | – | – | – |");
            continue;
        }
        let count = places().count();
        let across = places().filter(|(s, fault)| s.moves[fault.to].ends_phrase).count();
        let often = count as f64 * 1000.0 / moves as f64;
        let _ = writeln!(page, "| {name} | {severity} | {count} | {often:.2} | {across} |");
    }
    page += "\nA dash: the notes alone do not say what a note owes.\n";
    page += "\n## The balance of motions\n\n| motion | in 1,000 moves |\n|---|---:|\n";
    let mut sum = [0; 7];
    for stretch in stretches() {
        let count = motions(&pairs(&stretch.chords, &stretch.soprano));
        let counts = [
            count.contrary,
            count.tenths,
            count.sixths,
            count.other_parallel,
            count.oblique,
            count.similar,
            count.still,
        ];
        for (sum, count) in sum.iter_mut().zip(counts) {
            *sum += count;
        }
    }
    let names = [
        "contrary",
        "parallel tenths",
        "parallel sixths",
        "other parallels",
        "oblique",
        "similar",
        "still",
    ];
    for (name, count) in names.iter().zip(sum) {
        let _ =
            writeln!(page, "| {name} | {:.1} |", f64::from(count as u32) * 1000.0 / moves as f64);
    }
    page += "\n## Consecutives by similar motion, one by one\n\n";
    for chorale in chorales {
        for stretch in &chorale.stretches {
            for fault in found_in(stretch) {
                if matches!(fault.rule, Rule::ConsecutiveFifths | Rule::ConsecutiveOctaves) {
                    let (a, b) = (fault.first, fault.last);
                    let out = match stretch.moves[fault.to].ends_phrase {
                        true => ", out of a fermata",
                        false => "",
                    };
                    let _ = writeln!(
                        page,
                        "- {}: {}, {}–{} to {}–{}{out}",
                        chorale.name,
                        rule_name(fault.rule, Lang::English),
                        a.bass,
                        a.soprano,
                        b.bass,
                        b.soprano
                    );
                }
            }
        }
    }
    page += "\n## Where music21 disagrees\n\nConsecutives by similar and by contrary motion, and hidden ones with a leaping soprano, in every move:\n\n";
    let differences = differences(chorales);
    if differences.is_empty() {
        page += "Nowhere.\n";
    }
    for difference in differences {
        let reason = difference.reason.unwrap_or("Not explained.");
        let _ = writeln!(page, "- {}: {}. {reason}", difference.file, difference.text);
    }
    page
}

const HEAD: &str = "\
# The rulebook in four-part chorales

Every rule of the outer voices, counted over the distinct four-part chorales of the collection that
music21 ships (Bach, 371 four-part chorales after Riemenschneider; the 331 different files with four
parts). Every onset of soprano or bass makes a move, passing notes included; a rest in either ends a
stretch; a move out of a fermata counts like any other and is also counted apart. Written by
`cargo run -p tastata-tests --example frame_chorales > tests/frame.md`; a test keeps it true.

Rules that these chorales break often are cautions, not faults.

";
