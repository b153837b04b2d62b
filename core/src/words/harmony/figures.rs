//! Figures as they are spoken, and as they stand in a sentence.

use crate::figures::{Accidental, Figures, Stage};
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

/// A sonority's figures as a line of text, with the signs that the staff sets: ♯6/4/3.
/// A plain chord, which players leave bare, is written out.
pub fn figures_shown(stage: &Stage, lang: Lang) -> String {
    let signs = match stage {
        Stage::Hold | Stage::TastoSolo => return figures_spoken(stage, lang),
        Stage::Signs(signs) if signs.is_empty() => return "5/3".to_owned(),
        Stage::Signs(signs) => signs,
    };
    let shown = signs.iter().map(|sign| {
        // An altered third is its accidental alone.
        let number = if sign.number == 3 { String::new() } else { sign.number.to_string() };
        match sign.accidental {
            None => sign.number.to_string(),
            Some(Accidental::DoubleFlat) => format!("♭♭{number}"),
            Some(Accidental::Flat) => format!("♭{number}"),
            Some(Accidental::Natural) => format!("♮{number}"),
            Some(Accidental::Sharp) => format!("♯{number}"),
            Some(Accidental::DoubleSharp) => format!("♯♯{number}"),
            Some(Accidental::Raised) => format!("{number}+"),
        }
    });
    shown.collect::<Vec<_>>().join("/")
}

/// All figures of a note as a line of text: 4–3.
pub fn all_figures_shown(figures: &Figures, lang: Lang) -> String {
    let stages = figures.stages().iter().map(|stage| figures_shown(stage, lang));
    stages.collect::<Vec<_>>().join("–")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figures::read_figures;

    #[test]
    fn figures_in_a_sentence_have_the_signs_of_the_staff() {
        for (typed, shown) in [
            ("#6/4/3", "♯6/4/3"),
            ("6+/4/3", "6+/4/3"),
            ("b7", "♭7"),
            ("7/n", "7/♮"),
            ("4-3", "4–3"),
            ("#", "♯"),
            (".", "5/3"),
        ] {
            let figures = read_figures(typed).expect("figures");
            assert_eq!(all_figures_shown(&figures, Lang::English), shown, "{typed}");
        }
    }
}
