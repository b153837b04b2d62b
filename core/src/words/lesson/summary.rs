//! A whole check in a few sentences.

use super::{count, figures};
use crate::lesson::{Difference, Outcome, Report};
use crate::words::Lang;

/// The check as a few sentences: what is done, how many faults, how it differs
/// from the model.
pub fn report_summary(report: &Report, lang: Lang) -> String {
    match lang {
        _ => english(report),
    }
}

fn english(report: &Report) -> String {
    let asked = report.results.len();
    let begun = report.results.iter().any(|result| result.outcome != Outcome::Blank);
    if asked > 0 && !begun {
        return "Nothing has been done yet.".to_string();
    }
    let done = report.done();
    let mut said = match (done, asked) {
        (_, 0) => "Nothing was asked.".to_string(),
        (1, 1) => "Done.".to_string(),
        (0, 1) => "Not done yet.".to_string(),
        (done, asked) if done == asked => format!("All {asked} things asked are done."),
        (done, asked) => format!("{done} of {asked} things asked are done."),
    };
    said.push(' ');
    said.push_str(&match (report.faults(), report.cautions()) {
        (0, 0) => "No faults.".to_string(),
        (0, cautions) => format!("No faults, {}.", count(cautions, "caution", "cautions")),
        (faults, 0) => sentence(&count(faults, "fault", "faults")),
        (faults, cautions) => sentence(&format!(
            "{} and {}",
            count(faults, "fault", "faults"),
            count(cautions, "caution", "cautions")
        )),
    });
    if !report.differences.is_empty() {
        let chords = count(report.differences.len(), "chord", "chords");
        let verb = if report.differences.len() == 1 { "goes" } else { "go" };
        said.push_str(&format!(
            " {} {verb} another way than the model, which need not be wrong.",
            capital(&chords)
        ));
    }
    said
}

fn sentence(text: &str) -> String {
    format!("{}.", capital(text))
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_uppercase().to_string()).unwrap_or_default();
    format!("{first}{}", letters.as_str())
}

/// A difference from the model as one sentence, chords counted from 1.
pub fn difference(difference: &Difference, lang: Lang) -> String {
    let _ = lang;
    let mut parts = Vec::new();
    if let Some((has, model)) = difference.bass {
        parts.push(format!("{has} in the bass where the model has {model}"));
    }
    if let Some((has, model)) = &difference.figures {
        parts.push(format!("{} where the model has {}", figures(has), figures(model)));
    }
    if let Some((has, model)) = difference.soprano {
        parts.push(format!("{has} on top where the model has {model}"));
    }
    format!("Chord {}: {}.", difference.chord + 1, parts.join("; "))
}

/// An outcome in a word or two.
pub fn outcome(outcome: Outcome, lang: Lang) -> &'static str {
    match (lang, outcome) {
        (_, Outcome::Blank) => "not begun",
        (_, Outcome::NotYet) => "not done yet",
        (_, Outcome::Done) => "done",
    }
}
