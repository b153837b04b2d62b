//! Sharing: the link that holds the sketch, and the page saved with it inside.

use super::controls::press;
use super::reader::say;
use super::{dom, store, take, with};
use crate::app::App;
use js_sys::Reflect;
use tastata::files;
use tastata::words::page::said;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{Clipboard, HtmlTextAreaElement};

/// Opens the sheet with the link of the sketch as it now is.
pub(super) fn open(app: &App) {
    let address = store::address(&files::encode(app.sketch()));
    if let Some(text) = dom::get::<HtmlTextAreaElement>("link") {
        text.set_value(&address);
    }
    let from_file = address.starts_with("file:");
    let note = if from_file { say(said::FROM_FILE) } else { "" };
    dom::set_text("link-note", note);
    dom::open_sheet("share-sheet");
}

/// Copies the link in a field, which stays selected for copying by hand.
pub(super) fn copy_link(field: &str, note: &'static str) {
    if let Some(text) = dom::get::<HtmlTextAreaElement>(field) {
        text.select();
        copy(text.value(), note, say(said::LINK_COPIED));
    }
}

/// Puts a text on the clipboard and says whether it is there.
pub(super) fn copy(text: String, note: &'static str, done: &'static str) {
    let clipboard = dom::window().and_then(|window| {
        let value = Reflect::get(&window.navigator(), &"clipboard".into()).ok()?;
        value.dyn_into::<Clipboard>().ok()
    });
    let Some(clipboard) = clipboard else {
        dom::set_text(note, say(said::COPY_BY_HAND));
        return;
    };
    spawn_local(async move {
        let said = match JsFuture::from(clipboard.write_text(&text)).await {
            Ok(_) => done,
            Err(_) => say(said::COPY_REFUSED),
        };
        dom::set_text(note, said);
    });
}

/// Closes the sheet.
pub(super) fn close() {
    dom::close_sheet("share-sheet");
}

/// Hands the person this page as a file, with this link inside.
pub(super) fn save_page(link: &str) -> Option<()> {
    let html = store::page_with(link)?;
    take::download("tastata.html", "text/html", html.as_bytes())
}

pub(super) fn wire() {
    press("share", || with(|page| open(&page.app)));
    press("share-close", close);
    press("copy", || copy_link("link", "link-note"));
    press("save-page", || {
        with(|page| {
            if save_page(&page.inside()).is_none() {
                dom::set_text("take-note", say(said::NOT_SAVED));
            }
        });
    });
}
