//! Bringing a piece in: a file that is chosen or dropped on the page. What is
//! there stays until the file is understood, and undo brings it back.

use super::reader::{lang, say, tell};
use super::{act, dom, notice, wishes};
use crate::app::Intent;
use std::cell::RefCell;
use tastata::files::{self, Brought, BroughtPart, MAX_FILE};
use tastata::words;
use tastata::words::page::said;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{DragEvent, Element, Event, File, HtmlInputElement, HtmlSelectElement};

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
        if let Some(file) = file {
            event.prevent_default();
            read(&file);
        }
    });
}

fn read(file: &File) {
    let name = file.name();
    if file.size() > MAX_FILE as f64 {
        let megabytes = MAX_FILE / (1024 * 1024);
        notice::say(&tell(said::TOO_LARGE, [&name, &megabytes]));
        return;
    }
    let bytes = file.array_buffer();
    spawn_local(async move {
        match JsFuture::from(bytes).await {
            Ok(buffer) => understand(&name, &js_sys::Uint8Array::new(&buffer).to_vec()),
            Err(_) => notice::say(say(said::FILE_UNREADABLE)),
        }
    });
}

fn understand(name: &str, bytes: &[u8]) {
    match files::read_file(name, bytes) {
        Ok(brought) => open(brought),
        Err(error) => notice::say(&words::bring_error(&error, lang())),
    }
}

fn open(brought: Brought) {
    let lowest = brought.lowest;
    let Some(part) = brought.parts.get(lowest) else { return };
    act(Intent::Open(Box::new(part.sketch.clone())));
    let mut said = vec![say(said::PIECE_READ).to_owned()];
    if brought.parts.len() > 1 {
        said.push(say(said::LOWEST_PART).to_owned());
    }
    said.extend(brought.remarks.iter().take(3).map(|it| words::bring_remark(it, lang())));
    notice::say(&said.join(" "));
    offer_parts(&brought.parts, lowest);
    PARTS.set(brought.parts);
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
