//! Sharing: the link that holds the sketch, and the page saved with it inside.

use super::controls::press;
use super::reader::say;
use super::{dom, store, take, with};
use crate::app::App;
use tastata::files;
use tastata::words::page::said;
use wasm_bindgen::JsCast;
use web_sys::{HtmlDialogElement, HtmlTextAreaElement};

/// Opens the sheet with the link of the sketch as it now is.
pub(super) fn open(app: &App) {
    let address = store::address(&files::encode(app.sketch()));
    if let Some(text) = dom::get::<HtmlTextAreaElement>("link") {
        text.set_value(&address);
    }
    let from_file = address.starts_with("file:");
    let note = if from_file { say(said::FROM_FILE) } else { "" };
    dom::set_text("link-note", note);
    if let Some(dialog) = dom::get::<HtmlDialogElement>("share-sheet") {
        let _ = dialog.show_modal();
    }
}

/// Copies the link; where the browser refuses, selects it for copying by hand.
pub(super) fn copy() {
    let Some(text) = dom::get::<HtmlTextAreaElement>("link") else { return };
    text.select();
    let clipboard = dom::window().map(|w| w.navigator()).and_then(|n| {
        let value = js_sys::Reflect::get(&n, &"clipboard".into()).ok()?;
        value.dyn_into::<web_sys::Clipboard>().ok()
    });
    match clipboard {
        Some(clipboard) => {
            let _ = clipboard.write_text(&text.value());
            dom::set_text("link-note", say(said::LINK_COPIED));
        }
        None => dom::set_text("link-note", say(said::LINK_SELECTED)),
    }
}

/// Closes the sheet.
pub(super) fn close() {
    if let Some(dialog) = dom::get::<HtmlDialogElement>("share-sheet") {
        dialog.close();
    }
}

/// Hands the person this page as a file, with this link inside.
pub(super) fn save_page(link: &str) -> Option<()> {
    let html = store::page_with(link)?;
    take::download("tastata.html", "text/html", html.as_bytes())
}

pub(super) fn wire() {
    press("share", || with(|page| open(&page.app)));
    press("share-close", close);
    press("copy", copy);
    press("save-page", || {
        with(|page| {
            if save_page(&page.inside()).is_none() {
                dom::set_text("take-note", say(said::NOT_SAVED));
            }
        });
    });
}
