//! What is odd about given figures and typed basses, in sentences.

use crate::bass::TextTrouble;
use crate::figures::{FigureRemark, FigureTrouble};
use crate::harmony::{HarmonyRemark, HarmonyTrouble};
use crate::words::Lang;

/// The remark as one sentence, notes counted from 1.
pub fn harmony_remark(remark: &HarmonyRemark, lang: Lang) -> String {
    let note = remark.note + 1;
    match (lang, &remark.kind) {
        (_, HarmonyTrouble::Figures { remark, .. }) => {
            format!("note {note}: {}", figure_remark(*remark))
        }
        (_, HarmonyTrouble::NothingToPassFrom) => format!(
            "note {note}: it is marked as a passing note, but no chord sounds before it, so it \
             carries one itself"
        ),
    }
}

fn figure_remark(remark: FigureRemark) -> String {
    match remark {
        FigureRemark::Contradiction { number } => {
            format!("its figures ask for two different {number}s; the first is played")
        }
        FigureRemark::Impossible { number, semitones } => format!(
            "a {number} of {semitones} semitone{} cannot be; the {number} of the signature is played",
            if semitones == 1 { "" } else { "s" }
        ),
        FigureRemark::Unlisted => {
            "no table lists these figures together; they are played as written".to_string()
        }
        FigureRemark::NothingToHold => {
            "the dash has no chord before it to hold; a plain chord is played".to_string()
        }
    }
}

/// Why typed figures could not be read, as one sentence.
pub fn figure_trouble(trouble: FigureTrouble, lang: Lang) -> String {
    match (lang, trouble) {
        (_, FigureTrouble::Nothing) => "there are no figures here".to_string(),
        (_, FigureTrouble::NoSuchFigure(digit)) => {
            format!("there is no figure {digit}; figures run from 2 to 9")
        }
        (_, FigureTrouble::UnknownSign(sign)) => {
            format!("“{sign}” is no figure; write digits with #, b or n, such as 6/5, #6 or 4-3")
        }
    }
}

/// Why a piece of a typed bass could not be read, as one sentence.
pub fn text_trouble(trouble: TextTrouble, lang: Lang) -> String {
    let _ = lang;
    match trouble {
        TextTrouble::UnknownWord => {
            "this is neither a note (such as C3, Bb or F#2) nor figures (such as 6/5)".to_string()
        }
        TextTrouble::FiguresWithoutNote => "these figures have no note before them".to_string(),
        TextTrouble::Figures(trouble) => figure_trouble(trouble, lang),
        TextTrouble::SecondFigures => {
            "this note has its figures already; join further ones with a dash, as in 4-3"
                .to_string()
        }
        TextTrouble::OpenBracket => "this bracket is never closed".to_string(),
        TextTrouble::Octave => "octaves run from -1 to 9; middle C is C4".to_string(),
        TextTrouble::Accidentals => "a note takes at most two sharps or flats".to_string(),
    }
}
