//! Bringing a piece in: a file that is chosen or dropped on the page, or a text that
//! is pasted. What is there stays until the file is understood, and undo brings it back.

use super::controls::press;
use super::reader::{lang, say};
use super::{act, dom, embed, notice, wishes, with};
use crate::app::Intent;
use std::cell::RefCell;
use tastata::files::{self, Brought, BroughtPart, InFile, Linked, MAX_FILE};
use tastata::words;
use tastata::words::page::said;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{
    DragEvent, Element, Event, File, HtmlDialogElement, HtmlInputElement, HtmlSelectElement,
    HtmlTextAreaElement,
};

thread_local! {
    /// The parts of the file last read, to choose another one from.
    static PARTS: RefCell<Vec<BroughtPart>> = const { RefCell::new(Vec::new()) };
}

pub(super) fn wire() {
    dom::on_id("bring", "change", |_: Event| {
        let Some(input) = dom::get::<HtmlInputElement>("bring") else { return };
        if let Some(file) = input.files().and_then(|list| list.get(0)) {
            read(&file);
        }
        input.set_value("");
    });
    press("bring-open", || {
        let Some(field) = dom::get::<HtmlTextAreaElement>("bring-text") else { return };
        if understand("", field.value().as_bytes()) {
            field.set_value("");
        }
    });
    dom::on_id("bring-part", "change", |_: Event| {
        let Some(select) = dom::get::<HtmlSelectElement>("bring-part") else { return };
        let Ok(index) = select.value().parse::<usize>() else { return };
        let part = PARTS.with_borrow(|parts| parts.get(index).map(|part| part.sketch.clone()));
        if let Some(sketch) = part {
            act(Intent::Open(Box::new(sketch)));
        }
    });
    let Some(document) = dom::document() else { return };
    dom::on(&document, "dragover", |event: DragEvent| event.prevent_default());
    dom::on(&document, "drop", |event: DragEvent| {
        let file = event.data_transfer().and_then(|data| data.files()).and_then(|list| list.get(0));
        // Another part of the page may have taken it.
        if let Some(file) = file.filter(|_| !event.default_prevented()) {
            event.prevent_default();
            read(&file);
        }
    });
}

fn read(file: &File) {
    if embed::is_on() {
        return;
    }
    let name = file.name();
    if file.size() > MAX_FILE as f64 {
        report(&words::bring_error(&files::BringError::TooLarge, lang()));
        return;
    }
    let bytes = file.array_buffer();
    spawn_local(async move {
        match JsFuture::from(bytes).await {
            Ok(buffer) => {
                understand(&name, &js_sys::Uint8Array::new(&buffer).to_vec());
            }
            Err(_) => report(say(said::FILE_UNREADABLE)),
        }
    });
}

/// Opens what these bytes hold, or says in a sentence why not.
fn understand(name: &str, bytes: &[u8]) -> bool {
    match files::open_file(name, bytes) {
        Ok(InFile::Piece(brought)) => open(brought),
        Ok(InFile::Lesson(lesson)) => {
            close();
            with(move |page| page.receive(*lesson));
        }
        Ok(InFile::Links(links)) => {
            close();
            with(move |page| page.collect(&links));
        }
        Err(error) => {
            report(&words::bring_error(&error, lang()));
            return false;
        }
    }
    true
}

fn open(brought: Brought) {
    let lowest = brought.lowest;
    let Some(part) = brought.parts.get(lowest) else { return };
    let sketch = part.sketch.clone();
    with(move |page| page.receive(Linked::Sketch(sketch)));
    let several = brought.parts.len() > 1;
    let mut said = vec![say(said::PIECE_READ).to_owned()];
    if several {
        said.push(say(said::LOWEST_PART).to_owned());
    }
    said.extend(brought.remarks.iter().take(3).map(|it| words::bring_remark(it, lang())));
    if !several {
        close();
    }
    report(&said.join(" "));
    offer_parts(&brought.parts, lowest);
    PARTS.set(brought.parts);
}

/// The sheet that is open, and it alone, is where a person looks.
fn report(text: &str) {
    if sheet().is_some_and(|sheet| sheet.open()) {
        dom::set_text("bring-note", text);
    } else {
        notice::say(text);
    }
}

fn close() {
    dom::set_text("bring-note", "");
    if let Some(sheet) = sheet() {
        sheet.close();
    }
}

fn sheet() -> Option<HtmlDialogElement> {
    dom::get("share-sheet")
}

fn offer_parts(parts: &[BroughtPart], chosen: usize) {
    dom::set_hidden("bring-parts", parts.len() < 2);
    let Some(select) = dom::get::<Element>("bring-part") else { return };
    dom::clear(&select);
    for (i, part) in parts.iter().enumerate() {
        wishes::option("bring-part", &i.to_string(), &words::part_name(&part.name, lang()));
    }
    wishes::choose("bring-part", &chosen.to_string());
}
