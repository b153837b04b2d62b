//! How far a hand reaches, in words.

use super::{Lang, Phrase};
use crate::hands::Hand;
use crate::phrase;

/// A reach of so many white keys crossed, in the range [4, 11], by the keys it covers
/// and its interval: "8 keys: an octave". Outside, the nearest end.
pub fn reach(span: u8, lang: Lang) -> String {
    let span = span.clamp(4, 11);
    lang.tell(
        phrase!(
            "{0} white keys: {1}",
            "{0} tasti bianchi: {1}",
            "{0} weiße Tasten: {1}",
            "{0} touches blanches : {1}",
            "{0} teclas blancas: {1}",
        ),
        [&(span + 1), &lang.say(interval(span))],
    )
}

/// The picture of a hand's reach: which hand, the keys it covers, and how wide that is on
/// a modern piano, whose octave of 164.5 mm gives a white key 23.5 mm (the keyboards
/// measured by Boyle, Boyle and Booker, 2015).
pub fn reach_picture(hand: Hand, span: u8, lang: Lang) -> String {
    let centimetres = (f64::from(span.clamp(4, 11) + 1) * 2.35).round();
    lang.tell(
        match hand {
            Hand::Left => phrase!(
                "Left hand: {0}, about {1} cm on a modern piano.",
                "Mano sinistra: {0}, circa {1} cm su un pianoforte moderno.",
                "Linke Hand: {0}, etwa {1} cm auf einem modernen Klavier.",
                "Main gauche : {0}, environ {1} cm sur un piano moderne.",
                "Mano izquierda: {0}, unos {1} cm en un piano moderno.",
            ),
            Hand::Right => phrase!(
                "Right hand: {0}, about {1} cm on a modern piano.",
                "Mano destra: {0}, circa {1} cm su un pianoforte moderno.",
                "Rechte Hand: {0}, etwa {1} cm auf einem modernen Klavier.",
                "Main droite : {0}, environ {1} cm sur un piano moderne.",
                "Mano derecha: {0}, unos {1} cm en un piano moderno.",
            ),
        },
        [&reach(span, lang), &centimetres],
    )
}

fn interval(span: u8) -> Phrase {
    match span {
        ..=4 => phrase!("a fifth", "una quinta", "eine Quinte", "une quinte", "una quinta"),
        5 => phrase!("a sixth", "una sesta", "eine Sexte", "une sixte", "una sexta"),
        6 => phrase!("a seventh", "una settima", "eine Septime", "une septième", "una séptima"),
        7 => phrase!("an octave", "un’ottava", "eine Oktave", "une octave", "una octava"),
        8 => phrase!("a ninth", "una nona", "eine None", "une neuvième", "una novena"),
        9 => phrase!("a tenth", "una decima", "eine Dezime", "une dixième", "una décima"),
        10 => {
            phrase!("an eleventh", "un’undicesima", "eine Undezime", "une onzième", "una undécima")
        }
        11.. => phrase!(
            "a twelfth",
            "una dodicesima",
            "eine Duodezime",
            "une douzième",
            "una duodécima"
        ),
    }
}
