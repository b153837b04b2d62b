//! Why a note was added to a roll, in a sentence.

use super::Lang;
use crate::roll::Why;

/// The reason as one sentence with its source.
pub fn added(why: Why, lang: Lang) -> &'static str {
    match (lang, why) {
        (_, Why::FillsGap) => {
            "An acciaccatura: it fills the gap between two notes of the chord, is struck with \
             them and left at once (Gasparini 1708, ch. 9; from memory)."
        }
        (_, Why::SemitoneBelow) => {
            "A mordent of the thorough-bass: the semitone below a chord note, struck with it and \
             left at once (Gasparini 1708, ch. 9; from memory)."
        }
        (_, Why::PassesBetween) => {
            "A passing note: it goes by step from one chord note to the next (common practice)."
        }
        (_, Why::TurnsBeside) => {
            "A neighbour note: it leaves a chord note by step and returns (common practice)."
        }
        (_, Why::Mordent) => "A mordent on the close (common practice).",
        (_, Why::Trill) => {
            "A trill on the dominant before the close, from the note above (C.P.E. Bach 1753, \
             ch. 2; from memory)."
        }
        (_, Why::RunsOn) => {
            "A run: it carries the hand to the next chord through the scale of the moment \
             (practice of the unmeasured prelude; from memory)."
        }
        (_, Why::Anticipates) => {
            "An anticipation: the next chord's top note sounds early (common practice)."
        }
    }
}
