//! Figures as they are spoken.

use crate::figures::{Accidental, Stage};
use crate::words::Lang;

/// A sonority's figures as spoken: "six, four, three", "sharp six", "plain chord".
pub fn figures_spoken(stage: &Stage, lang: Lang) -> String {
    match lang {
        _ => english(stage),
    }
}

fn english(stage: &Stage) -> String {
    let signs = match stage {
        Stage::Hold => return "held chord".to_string(),
        Stage::TastoSolo => return "bass alone".to_string(),
        Stage::Signs(signs) if signs.is_empty() => return "plain chord".to_string(),
        Stage::Signs(signs) => signs,
    };
    let word = |number: u8| match number {
        2 => "two",
        3 => "three",
        4 => "four",
        5 => "five",
        6 => "six",
        7 => "seven",
        8 => "eight",
        _ => "nine",
    };
    let spoken = signs.iter().map(|sign| {
        let number = word(sign.number);
        match sign.accidental {
            None => number.to_string(),
            Some(Accidental::Raised) => format!("raised {number}"),
            Some(Accidental::Sharp) => format!("sharp {number}"),
            Some(Accidental::DoubleSharp) => format!("double sharp {number}"),
            Some(Accidental::Flat) => format!("flat {number}"),
            Some(Accidental::DoubleFlat) => format!("double flat {number}"),
            Some(Accidental::Natural) => format!("natural {number}"),
        }
    });
    spoken.collect::<Vec<_>>().join(", ")
}
