//! Who reads the page: the language and the names of notes, chosen and kept in
//! this browser, at first guessed by what the browser is set to.

use super::controls::chosen;
use super::{Page, dom, glossary, lesson, make, notice, others, reach, shelf, wishes, with};
use std::cell::Cell;
use std::fmt::Display;
use tastata::bass::in_names;
use tastata::lesson::Speech;
use tastata::words::page::{page_texts, said};
use tastata::words::{Lang, NoteNames, Phrase, Tongue};
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlSelectElement, Node};

const TONGUE: &str = "tastata.language";
const NOTES: &str = "tastata.notes";
/// What the empty field of the bass shows.
const PLACEHOLDER: &str = "D3 E3 F3 6 G3 6/5 A3";

thread_local! {
    static LANG: Cell<Lang> = Cell::new(Lang::default());
    /// What the exercise on the desk asks for; never kept in this browser.
    static ASKED: Cell<Speech> = Cell::new(Speech::default());
}

/// Who is spoken to.
pub(super) fn lang() -> Lang {
    LANG.get()
}

/// The phrase in the reader's language.
pub(super) fn say(phrase: Phrase) -> &'static str {
    lang().say(phrase)
}

/// The phrase in the reader's language, its places filled.
pub(super) fn tell<const N: usize>(phrase: Phrase<N>, parts: [&dyn Display; N]) -> String {
    lang().tell(phrase, parts)
}

/// Takes the language chosen in this browser, else the first of the browser's own
/// that the page has, and puts the page's texts in it.
pub(super) fn open() {
    LANG.set(wanted());
    put();
}

/// What the reader has chosen on the page, as this browser keeps it.
fn own_choice() -> Speech {
    let notes = shelf::read(NOTES);
    Speech {
        tongue: shelf::read(TONGUE).and_then(|code| Tongue::from_code(&code)),
        notes: notes.as_deref().and_then(NoteNames::from_code),
    }
}

/// Who is to be spoken to, by the reader's choice, the teacher's and the browser's.
fn wanted() -> Lang {
    ASKED.get().to(own_choice(), guessed().unwrap_or_default())
}

/// Speaks as an exercise asks for, where the reader has chosen nothing else.
pub(super) fn heed(page: &mut Page, asked: Speech) {
    ASKED.set(asked);
    let wanted = wanted();
    if LANG.replace(wanted) != wanted {
        page.say_anew();
    }
}

fn guessed() -> Option<Tongue> {
    let navigator = dom::window()?.navigator();
    let codes = navigator.languages();
    (0..codes.length()).find_map(|i| Tongue::from_code(&codes.get(i).as_string()?))
}

/// Fills the two choices.
pub(super) fn fill() {
    offer("tongue", "note-names");
    wishes::choose("tongue", lang().tongue.code());
    wishes::choose("note-names", lang().notes.code());
}

/// Adds all languages to one list, and all habits of naming notes to another.
pub(super) fn offer(tongues: &str, habits: &str) {
    for tongue in Tongue::ALL {
        wishes::option(tongues, tongue.code(), tongue.own_name());
    }
    for notes in NoteNames::ALL {
        let name = match notes {
            NoteNames::Letters => said::NAMES_LETTERS,
            NoteNames::Solfege => said::NAMES_SOLFEGE,
            NoteNames::German => said::NAMES_GERMAN,
        };
        wishes::option(habits, notes.code(), say(name));
    }
}

pub(super) fn wire() {
    chosen("tongue", |code| {
        let Some(tongue) = Tongue::from_code(&code) else { return };
        shelf::write(TONGUE, tongue.code());
        turn();
    });
    chosen("note-names", |code| {
        let Some(notes) = NoteNames::from_code(&code) else { return };
        shelf::write(NOTES, notes.code());
        turn();
    });
}

/// Puts the page in another language; what is on it stays.
fn turn() {
    LANG.set(wanted());
    with(|page| page.say_anew());
}

impl Page {
    fn say_anew(&mut self) {
        put();
        let selects = elements("select[data-live]");
        let kept = selects.iter().filter_map(|it| it.dyn_ref::<HtmlSelectElement>());
        let kept: Vec<_> = kept.map(|it| (it.clone(), it.value())).collect();
        for (select, _) in &kept {
            if select.id() != "bring-part" {
                dom::clear(select);
            }
        }
        wishes::fill();
        reach::fill();
        make::fill();
        lesson::fill();
        fill();
        for (select, value) in kept {
            select.set_value(&value);
        }
        lesson::say_anew();
        wishes::choose("tongue", lang().tongue.code());
        wishes::choose("note-names", lang().notes.code());
        // What is drawn only when it changes is drawn again.
        for element in elements("[data-key]") {
            let _ = element.remove_attribute("data-key");
        }
        if let Some(rules) = dom::get::<Element>("rules") {
            dom::clear(&rules);
        }
        others::forget();
        notice::close();
        self.app.speak(lang());
        self.show();
    }
}

/// Puts the texts that stand in the page itself.
fn put() {
    glossary::fill(&elements("[data-terms]"));
    let texts = page_texts(lang());
    if let Some(field) = dom::get::<Element>("bass") {
        dom::set_attr(&field, "placeholder", &format!("{} …", in_names(PLACEHOLDER, lang())));
    }
    if let Some(root) = dom::root() {
        dom::set_attr(&root, "lang", lang().tongue.code());
        // The page as it was packed says all this in English already.
        let packed = root.has_attribute("data-packed");
        let _ = root.remove_attribute("data-packed");
        if packed && lang().tongue == Tongue::default() {
            return;
        }
    }
    for element in elements("[data-t]") {
        let key = element.get_attribute("data-t").filter(|key| !key.is_empty());
        let key = key.unwrap_or_else(|| element.id());
        if let Some(text) = texts.get(key.as_str()) {
            put_text(&element, text);
        }
        for (part, attribute) in
            [(".label", "aria-label"), (".title", "title"), (".hint", "placeholder")]
        {
            if let Some(text) = texts.get(format!("{key}{part}").as_str()) {
                dom::set_attr(&element, attribute, text);
            }
        }
    }
}

/// Replaces the first text inside an element; what else is in it stays.
fn put_text(element: &Element, text: &str) {
    let nodes = element.child_nodes();
    let nodes = (0..nodes.length()).filter_map(|i| nodes.get(i));
    let first = nodes.filter(|node| node.node_type() == Node::TEXT_NODE).find(|node| {
        node.text_content().is_some_and(|text| text.contains(|c: char| !c.is_whitespace()))
    });
    match first {
        Some(node) => {
            let old = node.text_content().unwrap_or_default();
            let before = if old.starts_with(char::is_whitespace) { " " } else { "" };
            let after = if old.ends_with(char::is_whitespace) { " " } else { "" };
            node.set_text_content(Some(&format!("{before}{text}{after}")));
        }
        None => element.set_text_content(Some(text)),
    }
}

fn elements(selector: &str) -> Vec<Element> {
    let Some(found) = dom::document().and_then(|d| d.query_selector_all(selector).ok()) else {
        return Vec::new();
    };
    let nodes = (0..found.length()).filter_map(|i| found.get(i));
    nodes.filter_map(|node| node.dyn_into().ok()).collect()
}
