//! Faults and cautions of the outer voices, in sentences.

use super::Lang;
use crate::frame::{Fault, Rule};

/// The fault as one sentence, chords counted from 1:
/// "consecutive fifths between outer voices, chords 4–5: A–E to B–F♯".
pub fn fault(fault: &Fault, lang: Lang) -> String {
    let name = match (lang, fault.rule) {
        (Lang::English, Rule::ConsecutiveOctaves) => "consecutive octaves between outer voices",
        (Lang::English, Rule::ConsecutiveFifths) => "consecutive fifths between outer voices",
    };
    format!(
        "{name}, chords {}–{}: {}–{} to {}–{}",
        fault.from + 1,
        fault.to + 1,
        fault.first.bass.class(),
        fault.first.soprano.class(),
        fault.last.bass.class(),
        fault.last.soprano.class()
    )
}
