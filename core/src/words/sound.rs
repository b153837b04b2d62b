//! What is to be said of a tuning, in sentences.

use super::Lang;
use crate::phrase;
use crate::sound::{Consonance, TableTrouble, Voice, Wolf};

/// The wolf as one sentence: "The fifth A♭–E♭ howls in this tuning: 36 cents too wide."
pub fn wolf(wolf: &Wolf, lang: Lang) -> String {
    let name = lang.say(match wolf.consonance {
        Consonance::Fifth => phrase!("fifth", "quinta", "Quinte", "quinte", "quinta"),
        Consonance::MajorThird => {
            phrase!(
                "major third",
                "terza maggiore",
                "große Terz",
                "tierce majeure",
                "tercera mayor"
            )
        }
        Consonance::MinorThird => {
            phrase!("minor third", "terza minore", "kleine Terz", "tierce mineure", "tercera menor")
        }
    });
    let cents = format!("{:.0}", wolf.wider.abs());
    let phrase = if wolf.wider > 0.0 {
        phrase!(
            "The {0} {1}–{2} howls in this tuning: {3} cents too wide.",
            "La {0} {1}–{2} ulula in questa accordatura: {3} cent troppo larga.",
            "Die {0} {1}–{2} heult in dieser Stimmung: {3} Cent zu weit.",
            "La {0} {1}–{2} hurle dans ce tempérament : {3} cents trop large.",
            "La {0} {1}–{2} aúlla en esta afinación: {3} cents demasiado ancha."
        )
    } else {
        phrase!(
            "The {0} {1}–{2} howls in this tuning: {3} cents too narrow.",
            "La {0} {1}–{2} ulula in questa accordatura: {3} cent troppo stretta.",
            "Die {0} {1}–{2} heult in dieser Stimmung: {3} Cent zu eng.",
            "La {0} {1}–{2} hurle dans ce tempérament : {3} cents trop étroite.",
            "La {0} {1}–{2} aúlla en esta afinación: {3} cents demasiado estrecha."
        )
    };
    lang.tell(phrase, [&name, &lang.note(wolf.low), &lang.note(wolf.high), &cents])
}

/// What is wrong with a typed tuning, characters counted from 1.
pub fn table_trouble(trouble: TableTrouble, lang: Lang) -> String {
    match trouble {
        TableTrouble::NotANumber { at } => lang.tell(
            phrase!(
                "Character {0}: this is no number of cents.",
                "Carattere {0}: questo non è un numero di cent.",
                "Zeichen {0}: Das ist keine Zahl in Cent.",
                "Caractère {0} : ce n’est pas un nombre de cents.",
                "Carácter {0}: esto no es un número de cents."
            ),
            [&(at + 1)],
        ),
        TableTrouble::OutOfRange { at } => lang.tell(
            phrase!(
                "Character {0}: cents lie between −1200 and 1200.",
                "Carattere {0}: i cent stanno tra −1200 e 1200.",
                "Zeichen {0}: Cent liegen zwischen −1200 und 1200.",
                "Caractère {0} : les cents sont entre −1200 et 1200.",
                "Carácter {0}: los cents están entre −1200 y 1200."
            ),
            [&(at + 1)],
        ),
        TableTrouble::Count { found } => lang.tell(
            phrase!(
                "A tuning has twelve numbers, from C up to B (C may be left out); here are {0}.",
                "Un’accordatura ha dodici numeri, da do a si (il do si può omettere); qui ce ne sono {0}.",
                "Eine Stimmung hat zwölf Zahlen, von C bis H (C darf fehlen); hier sind es {0}.",
                "Un tempérament a douze nombres, de do à si (do peut être omis) ; il y en a {0}.",
                "Una afinación tiene doce números, de do a si (do puede omitirse); aquí hay {0}."
            ),
            [&found],
        ),
    }
}

/// What touch does on an instrument.
pub fn force(voice: Voice, lang: Lang) -> &'static str {
    lang.say(match voice {
        Voice::Plucked8 | Voice::Plucked84 | Voice::Buff => phrase!(
            "A plucked string sounds equally loud however the key is struck.",
            "Una corda pizzicata suona ugualmente forte comunque si batta il tasto.",
            "Eine gezupfte Saite klingt gleich laut, wie man die Taste auch anschlägt.",
            "Une corde pincée sonne aussi fort de quelque manière qu’on frappe la touche.",
            "Una cuerda pulsada suena igual de fuerte sea como sea el toque."
        ),
        Voice::Struck => phrase!(
            "A harder touch sounds louder and brighter.",
            "Un tocco più forte suona più forte e più chiaro.",
            "Ein stärkerer Anschlag klingt lauter und heller.",
            "Un toucher plus ferme sonne plus fort et plus clair.",
            "Un toque más fuerte suena más fuerte y más claro."
        ),
        Voice::Organ => phrase!(
            "A pipe sounds equally loud however the key is struck.",
            "Una canna suona ugualmente forte comunque si batta il tasto.",
            "Eine Pfeife klingt gleich laut, wie man die Taste auch anschlägt.",
            "Un tuyau sonne aussi fort de quelque manière qu’on frappe la touche.",
            "Un tubo suena igual de fuerte sea como sea el toque."
        ),
    })
}
