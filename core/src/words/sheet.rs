//! What a printed sheet says besides its notes.

use super::Lang;
use crate::phrase;

/// The heading of the pages with the answer.
pub fn sheet_answer(title: &str, lang: Lang) -> String {
    if title.is_empty() {
        return lang
            .say(phrase!(
                "One answer",
                "Una soluzione",
                "Eine Lösung",
                "Une réponse",
                "Una solución"
            ))
            .to_string();
    }
    lang.tell(
        phrase!(
            "{0}: one answer",
            "{0}: una soluzione",
            "{0}: eine Lösung",
            "{0} : une réponse",
            "{0}: una solución"
        ),
        [&title],
    )
}

/// A page's number and how many there are.
pub fn sheet_page(number: usize, count: usize, lang: Lang) -> String {
    lang.tell(
        phrase!("{0} of {1}", "{0} di {1}", "{0} von {1}", "{0} sur {1}", "{0} de {1}"),
        [&number, &count],
    )
}

/// How many sheets of paper a piece takes.
pub fn sheet_count(pages: usize, lang: Lang) -> String {
    lang.count(
        pages,
        phrase!("One page.", "Una pagina.", "Eine Seite.", "Une page.", "Una página."),
        phrase!("{0} pages.", "{0} pagine.", "{0} Seiten.", "{0} pages.", "{0} páginas."),
    )
}
