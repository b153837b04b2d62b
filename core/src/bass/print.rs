//! Prints a bass as text that reads back to the same notes.

use crate::figures;
use crate::figures::Figures;
use crate::pitch::{Pitch, Tonality};
use crate::sketch::{SketchNote, Weight};

/// The text of a bass, opening with the tonality where one is given. Soprano
/// pins and strokes have no place in it.
pub fn print_bass(notes: &[SketchNote], tonality: Option<Tonality>) -> String {
    let notes = notes.iter().map(|note| (note.pitch, note.figures.as_ref(), note.weight));
    print_notes(notes, tonality)
}

/// The same from pitches, figures and weights.
pub fn print_notes<'a>(
    notes: impl Iterator<Item = (Pitch, Option<&'a Figures>, Weight)>,
    tonality: Option<Tonality>,
) -> String {
    let words = notes.map(|(pitch, figures, weight)| word(pitch, figures, weight));
    let words = words.collect::<Vec<_>>().join(" ");
    match tonality {
        Some(tonality) => format!("{}: {words}", plain(&tonality.to_string())),
        None => words,
    }
}

fn word(pitch: Pitch, figures: Option<&Figures>, weight: Weight) -> String {
    let note = plain(&pitch.to_string());
    // The colon also marks an octave that would otherwise be taken for a figure.
    let high = !(0..=5).contains(&pitch.octave);
    let colon = if high && figures.is_none() { ":" } else { "" };
    let mark = if weight == Weight::Structural { "!" } else { "" };
    let figures = figures.map_or(String::new(), |it| format!(":{}", figures::print(it)));
    match weight {
        Weight::Passing => format!("({note}{colon}{figures})"),
        Weight::Unmarked | Weight::Structural => format!("{note}{mark}{colon}{figures}"),
    }
}

/// The signs a keyboard has: `F♯` as `F#`, `B♭` as `Bb`.
fn plain(text: &str) -> String {
    text.replace('♯', "#").replace('♭', "b")
}
