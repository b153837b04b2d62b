//! What is wrong with a link or a file, in sentences.

use super::Lang;
use crate::files::LinkError;

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
