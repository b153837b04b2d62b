//! The settings of an exercise, in words.

use crate::files::QrError;
use crate::lesson::{Feedback, Hears, Opens};
use crate::words::Lang;

/// When feedback comes, as one sentence.
pub fn feedback(feedback: Feedback, lang: Lang) -> &'static str {
    match (lang, feedback) {
        (_, Feedback::Live) => "Faults are shown as you work.",
        (_, Feedback::OnRequest) => "Faults are shown when you ask.",
        (_, Feedback::AtEnd) => "Faults are shown after you hand in.",
    }
}

/// What may be heard, as one sentence.
pub fn hears(hears: Hears, lang: Lang) -> &'static str {
    match (lang, hears) {
        (_, Hears::OwnWork) => "You hear only what you make.",
        (_, Hears::Bass) => "You may hear the bass.",
        (_, Hears::Model) => "You may hear the bass and the model.",
    }
}

/// When the model may be opened, as one sentence.
pub fn opens(opens: Opens, lang: Lang) -> &'static str {
    match (lang, opens) {
        (_, Opens::Anytime) => "The model may be opened at any time.",
        (_, Opens::AfterTrying) => "The model may be opened once the work has been checked.",
        (_, Opens::AfterHandIn) => "The model may be opened once the work has been handed in.",
    }
}

/// What the seal on a model answer does and does not, for the teacher.
pub fn sealed(lang: Lang) -> &'static str {
    match lang {
        _ => {
            "The model is sealed from a passing look, not locked: the link carries it scrambled, \
             and the page shows it only when you allow. Someone who takes the page apart can read \
             it. Leave it out where that would matter."
        }
    }
}

/// Why a text is no QR code, as one sentence.
pub fn qr_error(error: QrError, lang: Lang) -> String {
    match (lang, error) {
        (_, QrError::TooLong { bytes }) => format!(
            "This link has {bytes} characters, more than a QR code holds. Share the link or the \
             file itself, or put fewer exercises into the set."
        ),
    }
}
