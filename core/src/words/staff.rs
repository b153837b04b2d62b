//! What the staff says of its notes, for screen readers and pointers.

use super::Lang;
use crate::frame::Motion;
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
        (_, StaffPart::Bass) => "bass",
        (_, StaffPart::Soprano) => "soprano",
        (_, StaffPart::Inner) => "inner note",
    };
    let hand = match (lang, hand) {
        (_, Hand::Left) => "left hand",
        (_, Hand::Right) => "right hand",
    };
    format!("{pitch}, {part}, {hand}")
}

/// The motion of the outer voices: "contrary motion", "parallel tenths". `number`
/// is the interval reached, in the range [1, 7].
pub fn motion_name(motion: Motion, number: u8, lang: Lang) -> &'static str {
    match (lang, motion) {
        (_, Motion::Contrary) => "contrary motion",
        (_, Motion::Oblique) => "oblique motion",
        (_, Motion::Similar) => "similar motion",
        (_, Motion::Still) => "neither voice moves",
        (_, Motion::Parallel) => match number {
            3 => "parallel tenths",
            6 => "parallel sixths",
            5 => "parallel fifths",
            1 => "parallel octaves",
            _ => "parallel motion",
        },
    }
}
