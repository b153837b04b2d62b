//! Figures as they are spoken.

use crate::figures::{Accidental, Stage};
use crate::phrase;
use crate::words::Lang;

/// A sonority's figures as spoken: "six, four, three", "sharp six", "plain chord".
pub fn figures_spoken(stage: &Stage, lang: Lang) -> String {
    let signs = match stage {
        Stage::Hold => {
            return lang
                .say(phrase!(
                    "held chord",
                    "accordo tenuto",
                    "gehaltener Akkord",
                    "accord tenu",
                    "acorde tenido"
                ))
                .to_string();
        }
        Stage::TastoSolo => {
            return lang
                .say(phrase!("bass alone", "tasto solo", "Bass allein", "basse seule", "bajo solo"))
                .to_string();
        }
        Stage::Signs(signs) if signs.is_empty() => {
            return lang
                .say(phrase!(
                    "plain chord",
                    "accordo perfetto",
                    "Dreiklang",
                    "accord parfait",
                    "acorde perfecto"
                ))
                .to_string();
        }
        Stage::Signs(signs) => signs,
    };
    let word = |number: u8| {
        lang.say(match number {
            2 => phrase!("two", "due", "zwei", "deux", "dos"),
            3 => phrase!("three", "tre", "drei", "trois", "tres"),
            4 => phrase!("four", "quattro", "vier", "quatre", "cuatro"),
            5 => phrase!("five", "cinque", "fünf", "cinq", "cinco"),
            6 => phrase!("six", "sei", "sechs", "six", "seis"),
            7 => phrase!("seven", "sette", "sieben", "sept", "siete"),
            8 => phrase!("eight", "otto", "acht", "huit", "ocho"),
            _ => phrase!("nine", "nove", "neun", "neuf", "nueve"),
        })
    };
    let spoken = signs.iter().map(|sign| {
        let number = word(sign.number);
        let altered = match sign.accidental {
            None => return number.to_string(),
            Some(Accidental::Raised) => {
                phrase!("raised {0}", "{0} alzato", "{0} erhöht", "{0} haussé", "{0} elevado")
            }
            Some(Accidental::Sharp) => {
                phrase!("sharp {0}", "{0} diesis", "Kreuz {0}", "dièse {0}", "{0} sostenido")
            }
            Some(Accidental::DoubleSharp) => phrase!(
                "double sharp {0}",
                "{0} doppio diesis",
                "Doppelkreuz {0}",
                "double dièse {0}",
                "{0} doble sostenido"
            ),
            Some(Accidental::Flat) => {
                phrase!("flat {0}", "{0} bemolle", "Be {0}", "bémol {0}", "{0} bemol")
            }
            Some(Accidental::DoubleFlat) => phrase!(
                "double flat {0}",
                "{0} doppio bemolle",
                "Doppel-Be {0}",
                "double bémol {0}",
                "{0} doble bemol"
            ),
            Some(Accidental::Natural) => phrase!(
                "natural {0}",
                "{0} bequadro",
                "Auflösungszeichen {0}",
                "bécarre {0}",
                "{0} becuadro"
            ),
        };
        lang.tell(altered, [&number])
    });
    spoken.collect::<Vec<_>>().join(", ")
}
