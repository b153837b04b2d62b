//! What is to be said of a tuning, in sentences.

use super::Lang;
use crate::sound::{Consonance, TableTrouble, Voice, Wolf};

/// The wolf as one sentence: "The fifth A♭–E♭ howls in this tuning: 36 cents too wide."
pub fn wolf(wolf: &Wolf, lang: Lang) -> String {
    let _ = lang;
    let name = match wolf.consonance {
        Consonance::Fifth => "fifth",
        Consonance::MajorThird => "major third",
        Consonance::MinorThird => "minor third",
    };
    let way = if wolf.wider > 0.0 { "wide" } else { "narrow" };
    let cents = wolf.wider.abs();
    format!(
        "The {name} {}–{} howls in this tuning: {cents:.0} cents too {way}.",
        wolf.low, wolf.high
    )
}

/// What is wrong with a typed tuning, characters counted from 1.
pub fn table_trouble(trouble: TableTrouble, lang: Lang) -> String {
    let _ = lang;
    match trouble {
        TableTrouble::NotANumber { at } => {
            format!("Character {}: this is no number of cents.", at + 1)
        }
        TableTrouble::OutOfRange { at } => {
            format!("Character {}: cents lie between −1200 and 1200.", at + 1)
        }
        TableTrouble::Count { found } => format!(
            "A tuning has twelve numbers, from C up to B (C may be left out); here are {found}."
        ),
    }
}

/// What touch does on an instrument.
pub fn force(voice: Voice, lang: Lang) -> &'static str {
    let _ = lang;
    match voice {
        Voice::Plucked8 | Voice::Plucked84 | Voice::Buff => {
            "A plucked string sounds equally loud however the key is struck."
        }
        Voice::Struck => "A harder touch sounds louder and brighter.",
        Voice::Organ => "A pipe sounds equally loud however the key is struck.",
    }
}
