//! The glossary on the page: words of the trade are marked where they stand and
//! explained on a press, one by one or all together.

use super::controls::press;
use super::dom;
use super::reader::{lang, say};
use tastata::words::glossary::{Piece, TERMS, Term, marked, term};
use tastata::words::page::said;
use web_sys::{Element, Event, KeyboardEvent};

pub(super) fn wire() {
    let Some(document) = dom::document() else { return };
    dom::on(&document, "click", |event: Event| pressed(&event));
    dom::on(&document, "keydown", |event: KeyboardEvent| {
        let press = matches!(event.key().as_str(), "Enter" | " ");
        // A button makes a click of its own.
        if press && dom::closest(&event, "span[data-term]").is_some() {
            event.prevent_default();
            event.stop_propagation();
            pressed(&event);
        }
    });
    press("term-close", close);
    press("term-all", || show_all(true));
    press("glossary", || {
        show_all(true);
        open();
    });
}

fn pressed(event: &Event) {
    let key = dom::closest(event, "[data-term]").and_then(|it| it.get_attribute("data-term"));
    let Some(term) = key.as_deref().and_then(term) else { return };
    // A word inside a label or a line to press is not meant as that press.
    event.prevent_default();
    explain(term);
    open();
}

fn open() {
    dom::open_sheet("term-sheet");
}

fn close() {
    dom::close_sheet("term-sheet");
}

/// Shows one term.
fn explain(term: &Term) {
    dom::set_text("term-name", term.name(lang()));
    dom::set_text("term-meaning", term.meaning(lang()));
    dom::set_text("term-source", term.source.unwrap_or_default());
    show_all(false);
}

/// Shows all terms in place of one, or one in place of all.
fn show_all(all: bool) {
    for id in ["term-meaning", "term-source", "term-all"] {
        dom::set_hidden(id, all);
    }
    dom::set_hidden("term-list", !all);
    let Some(list) = dom::get::<Element>("term-list") else { return };
    dom::clear(&list);
    if !all {
        return;
    }
    dom::set_text("term-name", say(said::GLOSSARY));
    let mut terms: Vec<&Term> = TERMS.iter().collect();
    terms.sort_by_key(|term| term.name(lang()).to_lowercase());
    for term in terms {
        let source = term.source.map(|source| format!(" ({source})")).unwrap_or_default();
        let meaning = format!("{}{source}", term.meaning(lang()));
        for (tag, text) in [("dt", term.name(lang())), ("dd", meaning.as_str())] {
            if let Some(element) = dom::text(tag, "", text) {
                let _ = list.append_child(&element);
            }
        }
    }
}

/// Writes a text with its terms marked, touching the document only if it differs.
pub(super) fn set_marked(id: &str, text: &str) {
    if let Some(element) = dom::get::<Element>(id)
        && (element.text_content().as_deref() != Some(text))
    {
        dom::clear(&element);
        append_marked(&element, text);
    }
}

/// A new element with a text whose terms are marked.
pub(super) fn text_marked(tag: &str, class: &str, text: &str) -> Option<Element> {
    let element = dom::make(tag, class)?;
    append_marked(&element, text);
    Some(element)
}

fn append_marked(element: &Element, text: &str) {
    for piece in marked(text, lang()) {
        match piece {
            Piece::Plain(text) => {
                let _ = element.append_with_str_1(text);
            }
            Piece::Named(text, term) => {
                let Some(word) = dom::text("span", "term", text) else { return };
                dom::set_attr(&word, "role", "button");
                dom::set_attr(&word, "tabindex", "0");
                dom::set_attr(&word, "aria-haspopup", "dialog");
                dom::set_attr(&word, "data-term", term.key);
                let _ = element.append_child(&word);
            }
        }
    }
}

/// Fills the rows of terms under settings.
pub(super) fn fill(rows: &[Element]) {
    for row in rows {
        dom::clear(row);
        let keys = row.get_attribute("data-terms").unwrap_or_default();
        for term in keys.split(' ').filter_map(term) {
            let Some(word) = dom::text("button", "term", term.name(lang())) else { return };
            dom::set_attr(&word, "aria-haspopup", "dialog");
            dom::set_attr(&word, "data-term", term.key);
            let _ = row.append_child(&word);
        }
    }
}
