//! What a printed sheet says besides its notes.

use super::Lang;

/// The heading of the pages with the answer.
pub fn sheet_answer(title: &str, lang: Lang) -> String {
    match lang {
        Lang::English if title.is_empty() => "One answer".to_string(),
        Lang::English => format!("{title}: one answer"),
    }
}

/// A page's number and how many there are.
pub fn sheet_page(number: usize, count: usize, lang: Lang) -> String {
    match lang {
        Lang::English => format!("{number} of {count}"),
    }
}
