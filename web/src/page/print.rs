//! The piece on paper: what a sheet should be like, how it will look, and printing
//! it. The browser's own Print command gives the same sheet.

use super::controls::{is_checked, press, text_of, value_of, value_of_select};
use super::reader::lang;
use super::{Page, dom, lesson, shelf, store, with};
use crate::app::Desk;
use std::cell::Cell;
use tastata::files;
use tastata::sheet::{self, AnswerPages, Figures, PageForm, Paper, SheetWishes, Soprano};
use tastata::words;
use wasm_bindgen::JsCast;
use web_sys::{CssStyleSheet, Element, Event, HtmlInputElement, HtmlTextAreaElement};

/// Where the chosen paper is kept.
const PAPER: &str = "tastata.paper";
/// Pages that are shown before printing.
const SHOWN: usize = 3;
/// Regions whose printers hold Letter, as the end of a language's name.
const LETTER: [&str; 4] = ["-US", "-CA", "-MX", "-PH"];

thread_local! {
    /// Whether the rule of the paper's size is in the style sheet.
    static SIZED: Cell<bool> = const { Cell::new(false) };
}

pub(super) fn wire() {
    press("print", || with(|page| page.open_print()));
    press("print-close", close);
    press("print-go", || {
        with(|page| page.lay_out_paper());
        if let Some(window) = dom::window() {
            let _ = window.print();
        }
    });
    dom::on_id("print-sheet", "input", |event: Event| {
        let base = event.target().and_then(|it| it.dyn_into::<Element>().ok());
        if base.is_some_and(|it| it.id() == "print-base") {
            store::set_base(&value_of("print-base"));
        }
        shelf::write(PAPER, &value_of_select("print-paper"));
        with(|page| page.preview());
    });
    let Some(window) = dom::window() else { return };
    dom::on(&window, "beforeprint", |_: Event| with(|page| page.lay_out_paper()));
    dom::on(&window, "afterprint", |_: Event| name_document(""));
}

impl Page {
    fn open_print(&mut self) {
        if let Some(base) = dom::get::<HtmlInputElement>("print-base") {
            base.set_value(&store::own_base());
        }
        let task = match &self.teaching.desk {
            Desk::Work(work) => lesson::task(work.exercise()),
            _ => String::new(),
        };
        if let Some(text) = dom::get::<HtmlTextAreaElement>("print-task")
            && (text.value().is_empty() || !task.is_empty())
        {
            text.set_value(&task);
        }
        super::wishes::choose("print-paper", paper_name(kept_paper()));
        dom::set_hidden("print-made", self.app.is_veiled());
        self.preview();
        dom::open_sheet("print-sheet");
    }

    /// Shows the sheet as it will be printed.
    fn preview(&self) {
        let wishes = self.sheet_wishes();
        let pages = sheet::pages(self.app.sketch(), self.app.reading(), &wishes);
        let mut said = words::sheet_count(pages.len(), lang());
        let from_file = address_is_of_a_file();
        dom::set_hidden("print-place", !from_file && store::own_base().is_empty());
        if let Some(code) = &wishes.qr
            && let Err(error) = files::qr_svg(code)
        {
            said = format!("{said} {}", words::qr_error(error, lang()));
        }
        dom::set_text("print-note", &said);
        if let Some(holder) = dom::get::<Element>("print-preview") {
            holder.set_inner_html(&pages.into_iter().take(SHOWN).collect::<String>());
        }
    }

    /// Puts the pages where only paper shows them.
    fn lay_out_paper(&mut self) {
        let Some(holder) = dom::get::<Element>("paper") else { return };
        let wishes = self.sheet_wishes();
        let pages = sheet::pages(self.app.sketch(), self.app.reading(), &wishes);
        holder.set_inner_html(&pages.concat());
        // Firefox prints signs that it has looked up, which asking for a place makes it do.
        let _ = holder.get_bounding_client_rect();
        size_paper(wishes.paper);
        name_document(&self.app.sketch().title);
    }

    fn sheet_wishes(&self) -> SheetWishes {
        let veiled = self.app.is_veiled();
        let chords = &self.app.reading().harmony.chords;
        let soprano = &self.app.reading().frame.soprano;
        // A soprano that waits for the student lies on the bass.
        let waits = veiled && chords.iter().zip(soprano).all(|(chord, top)| chord.bass == *top);
        let asked = |id| !veiled && is_checked(id);
        let mut wishes = SheetWishes {
            paper: kept_paper(),
            title: None,
            task: text_of("print-task"),
            figures: if asked("print-no-figures") { Figures::Blank } else { Figures::Shown },
            soprano: if waits || asked("print-no-soprano") {
                Soprano::Blank
            } else {
                Soprano::Shown
            },
            answer: if asked("print-answer") { AnswerPages::Added } else { AnswerPages::LeftOut },
            qr: None,
            form: PageForm::Inline,
            lang: lang(),
        };
        if is_checked("print-code") && !address_is_of_a_file() && !chords.is_empty() {
            let link = match &self.teaching.desk {
                Desk::Work(work) => files::encode_set(work.set()),
                _ => sheet::fragment(self.app.sketch(), &wishes),
            };
            wishes.qr = Some(store::address(&link));
        }
        wishes
    }
}

fn close() {
    dom::close_sheet("print-sheet");
    if let Some(holder) = dom::get::<Element>("print-preview") {
        dom::clear(&holder);
    }
}

/// Whether a link would lead to a file, which nobody else has there.
fn address_is_of_a_file() -> bool {
    store::address("").starts_with("file:")
}

/// The paper chosen before, else the one usual where the person's language is spoken.
fn kept_paper() -> Paper {
    let here = || {
        let language = dom::window().and_then(|it| it.navigator().language()).unwrap_or_default();
        LETTER.iter().any(|end| language.ends_with(end))
    };
    match shelf::read(PAPER).as_deref() {
        Some("letter") => Paper::Letter,
        Some("a4") => Paper::A4,
        _ if here() => Paper::Letter,
        _ => Paper::A4,
    }
}

fn paper_name(paper: Paper) -> &'static str {
    match paper {
        Paper::A4 => "a4",
        Paper::Letter => "letter",
    }
}

/// Has the browser print on this paper to its edges; a sheet has its own margins.
fn size_paper(paper: Paper) {
    let sheet = dom::document().and_then(|it| it.style_sheets().item(0));
    let Some(sheet) = sheet.and_then(|it| it.dyn_into::<CssStyleSheet>().ok()) else { return };
    if SIZED.replace(false) {
        let _ = sheet.delete_rule(0);
    }
    let (width, height) = paper.size();
    let rule = format!("@page {{ size: {width}mm {height}mm; margin: 0 }}");
    SIZED.set(sheet.insert_rule(&rule).is_ok());
}

/// What a browser calls the file it prints to; nothing gives the page its own name back.
fn name_document(title: &str) {
    if let Some(document) = dom::document() {
        let title = title.trim();
        document.set_title(if title.is_empty() { "Tastata" } else { title });
    }
}
