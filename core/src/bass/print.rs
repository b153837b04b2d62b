//! Prints a bass as text that reads back to the same notes.

use crate::figures;
use crate::figures::Figures;
use crate::pitch::{Pitch, Tonality};
use crate::sketch::{SketchNote, Weight};

/// The text of a bass, opening with the tonality where one is given. Soprano
/// pins and strokes have no place in it.
pub fn print_bass(notes: &[SketchNote], tonality: Option<Tonality>) -> String {
    let mut in_force = None;
    let words = notes.iter().flat_map(|note| {
        let changes = note.value != in_force;
        in_force = note.value;
        let length = match note.value {
            _ if !changes => String::new(),
            Some(value) => format!("={value}"),
            None => "=0".to_string(),
        };
        let word = word(note.pitch, note.figures.as_ref(), note.weight, &length);
        let rest = note.rest.map(|rest| format!("r={rest}"));
        std::iter::once(word).chain(rest)
    });
    opened(words.collect::<Vec<_>>().join(" "), tonality)
}

/// The same from pitches, figures and weights.
pub fn print_notes<'a>(
    notes: impl Iterator<Item = (Pitch, Option<&'a Figures>, Weight)>,
    tonality: Option<Tonality>,
) -> String {
    let words = notes.map(|(pitch, figures, weight)| word(pitch, figures, weight, ""));
    opened(words.collect::<Vec<_>>().join(" "), tonality)
}

fn opened(words: String, tonality: Option<Tonality>) -> String {
    match tonality {
        Some(tonality) => format!("{}: {words}", plain(&tonality.to_string())),
        None => words,
    }
}

fn word(pitch: Pitch, figures: Option<&Figures>, weight: Weight, length: &str) -> String {
    let note = plain(&pitch.to_string());
    // The colon also marks an octave that would otherwise be taken for a figure.
    let high = !(0..=5).contains(&pitch.octave);
    let colon = if high && figures.is_none() && length.is_empty() { ":" } else { "" };
    let mark = if weight == Weight::Structural { "!" } else { "" };
    let figures = figures.map_or(String::new(), |it| format!(":{}", figures::print(it)));
    match weight {
        Weight::Passing => format!("({note}{length}{colon}{figures})"),
        Weight::Unmarked | Weight::Structural => format!("{note}{mark}{length}{colon}{figures}"),
    }
}

/// The signs a keyboard has: `F♯` as `F#`, `B♭` as `Bb`.
fn plain(text: &str) -> String {
    text.replace('♯', "#").replace('♭', "b")
}
