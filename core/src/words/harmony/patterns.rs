//! Turns of several notes, in sentences.

use crate::harmony::{Chain, Pattern};
use crate::sketch::Sketch;
use crate::words::Lang;

/// What a pattern does to the sketch it belongs to, as one sentence.
pub fn pattern(pattern: &Pattern, sketch: &Sketch, lang: Lang) -> String {
    let name = |at: usize| {
        let note = sketch.notes.get(at);
        note.map(|note| note.pitch.class().to_string()).unwrap_or_default()
    };
    match (lang, pattern) {
        (_, Pattern::Chain { chain, notes, last }) => {
            let from = name(notes.first().map_or(*last, |(note, _)| *note));
            let what = match chain {
                Chain::FiveSix => "5-6 on each note of the rising bass",
                Chain::NineEight => "9-8 on each note of the rising bass",
                Chain::SevenSix => "7-6 on each note of the falling bass",
                Chain::Alternate => "5/3 and 6 by turns over the falling bass",
            };
            format!("A chain from {from} to {}: {what}.", name(*last))
        }
        (_, Pattern::Fill { after, pitch }) => format!(
            "A semitone put in: {} between {} and {}.",
            pitch.class(),
            name(*after),
            name(after + 1)
        ),
    }
}
