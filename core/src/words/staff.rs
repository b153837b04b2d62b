//! What the staff says of its notes, for screen readers and pointers.

use super::Lang;
use crate::hands::Hand;
use crate::pitch::Pitch;

/// What a note on the staff is to its chord.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum StaffPart {
    /// The bass.
    Bass,
    /// The soprano.
    Soprano,
    /// A note between the outer voices.
    Inner,
}

/// A note's name, part and hand: "C4, bass, left hand".
pub fn staff_note(pitch: Pitch, part: StaffPart, hand: Hand, lang: Lang) -> String {
    let part = match (lang, part) {
        (Lang::English, StaffPart::Bass) => "bass",
        (Lang::English, StaffPart::Soprano) => "soprano",
        (Lang::English, StaffPart::Inner) => "inner note",
    };
    let hand = match (lang, hand) {
        (Lang::English, Hand::Left) => "left hand",
        (Lang::English, Hand::Right) => "right hand",
    };
    format!("{pitch}, {part}, {hand}")
}
