//! The shape of sentences: capitals, and lists that end in "and".

use super::Lang;
use crate::phrase;

/// The text with a capital at its front.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}

/// The text as a sentence: a capital at its front and a full stop at its end.
pub(super) fn sentence(text: &str) -> String {
    let stop = if text.ends_with('.') { "" } else { "." };
    format!("{}{stop}", capital(text))
}

/// "F", "F and A", "F, A and C".
pub(super) fn list(parts: &[String], lang: Lang) -> String {
    match parts {
        [] => String::new(),
        [only] => only.clone(),
        [first @ .., last] => lang.tell(
            phrase!("{0} and {1}", "{0} e {1}", "{0} und {1}", "{0} et {1}", "{0} y {1}"),
            [&first.join(", "), last],
        ),
    }
}
