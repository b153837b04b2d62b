//! Turns of several notes, in sentences.

use crate::harmony::{Chain, Pattern};
use crate::phrase;
use crate::sketch::Sketch;
use crate::words::Lang;

/// What a pattern does to the sketch it belongs to, as one sentence.
pub fn pattern(pattern: &Pattern, sketch: &Sketch, lang: Lang) -> String {
    let name = |at: usize| {
        let note = sketch.notes.get(at);
        note.map(|note| lang.note(note.pitch.class())).unwrap_or_default()
    };
    match pattern {
        Pattern::Chain { chain, notes, last } => {
            let from = name(notes.first().map_or(*last, |(note, _)| *note));
            let said = match chain {
                Chain::FiveSix => phrase!(
                    "A chain from {0} to {1}: 5-6 on each note of the rising bass.",
                    "Una catena da {0} a {1}: 5-6 su ogni nota del basso che sale.",
                    "Eine Kette von {0} bis {1}: 5-6 auf jedem Ton des steigenden Basses.",
                    "Une chaîne de {0} à {1} : 5-6 sur chaque note de la basse qui monte.",
                    "Una cadena de {0} a {1}: 5-6 en cada nota del bajo que sube.",
                ),
                Chain::NineEight => phrase!(
                    "A chain from {0} to {1}: 9-8 on each note of the rising bass.",
                    "Una catena da {0} a {1}: 9-8 su ogni nota del basso che sale.",
                    "Eine Kette von {0} bis {1}: 9-8 auf jedem Ton des steigenden Basses.",
                    "Une chaîne de {0} à {1} : 9-8 sur chaque note de la basse qui monte.",
                    "Una cadena de {0} a {1}: 9-8 en cada nota del bajo que sube.",
                ),
                Chain::SevenSix => phrase!(
                    "A chain from {0} to {1}: 7-6 on each note of the falling bass.",
                    "Una catena da {0} a {1}: 7-6 su ogni nota del basso che scende.",
                    "Eine Kette von {0} bis {1}: 7-6 auf jedem Ton des fallenden Basses.",
                    "Une chaîne de {0} à {1} : 7-6 sur chaque note de la basse qui descend.",
                    "Una cadena de {0} a {1}: 7-6 en cada nota del bajo que baja.",
                ),
                Chain::Alternate => phrase!(
                    "A chain from {0} to {1}: 5/3 and 6 by turns over the falling bass.",
                    "Una catena da {0} a {1}: 5/3 e 6 a turno sul basso che scende.",
                    "Eine Kette von {0} bis {1}: 5/3 und 6 abwechselnd über dem fallenden Bass.",
                    "Une chaîne de {0} à {1} : 5/3 et 6 tour à tour sur la basse qui descend.",
                    "Una cadena de {0} a {1}: 5/3 y 6 por turnos sobre el bajo que baja.",
                ),
            };
            lang.tell(said, [&from, &name(*last)])
        }
        Pattern::Fill { after, pitch } => lang.tell(
            phrase!(
                "A semitone put in: {0} between {1} and {2}.",
                "Un semitono inserito: {0} tra {1} e {2}.",
                "Ein Halbton eingefügt: {0} zwischen {1} und {2}.",
                "Un demi-ton inséré : {0} entre {1} et {2}.",
                "Un semitono insertado: {0} entre {1} y {2}.",
            ),
            [&lang.note(pitch.class()), &name(*after), &name(after + 1)],
        ),
    }
}
