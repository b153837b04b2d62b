//! What is wrong with a link or a file, in sentences.

use super::Lang;
use crate::files::{LinkError, SheetTrouble};

/// Why a link could not be opened, and what to do, in one or two sentences.
pub fn link_error(error: LinkError, lang: Lang) -> &'static str {
    match (lang, error) {
        (Lang::English, LinkError::Empty) => "This link holds no piece.",
        (Lang::English, LinkError::Foreign) => "This link was not made here, so it holds no piece.",
        (Lang::English, LinkError::Newer) => {
            "This link was made by a newer version of this page. Open it with that version."
        }
        (Lang::English, LinkError::CutShort) => {
            "This link is cut short: its end is missing. Copy it again in full."
        }
        (Lang::English, LinkError::Damaged) => {
            "This link was changed on the way and cannot be trusted. Copy it again."
        }
        (Lang::English, LinkError::TooLong) => "This link is longer than any piece needs.",
    }
}

/// What is wrong with a piece of text that was to be read as a sketch.
pub fn sheet_trouble(trouble: SheetTrouble, lang: Lang) -> String {
    match (lang, trouble) {
        (_, SheetTrouble::Bass(trouble)) => super::text_trouble(trouble, lang),
        (Lang::English, SheetTrouble::Pin) => {
            "A fixed soprano note is written as the bass note's number and the pitch, as in 5:F4."
                .to_string()
        }
        (Lang::English, SheetTrouble::PinBeyond) => {
            "The bass has no note of this number to fix a soprano over.".to_string()
        }
        (Lang::English, SheetTrouble::Settings(error)) => {
            let why = link_error(error, lang).replace("This link", "This line of settings");
            format!("{why} The notes are read without it.")
        }
        (Lang::English, SheetTrouble::OtherBass) => {
            "These settings were made for a bass of another length; what they say of single \
             notes is left out."
                .to_string()
        }
    }
}
