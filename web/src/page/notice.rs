//! Short messages: one visible line that can be closed, and the same words for
//! a screen reader.

use super::controls::press;
use super::reader::lang;
use super::store::Aside;
use super::{act, dom, store};
use crate::app::Intent;
use std::cell::Cell;
use tastata::words;
use wasm_bindgen::JsCast;
use web_sys::Event;

/// What a message offers to do.
#[derive(Clone, Copy)]
enum Deed {
    /// To take up a sketch that was put aside.
    TakeUp(Aside),
    /// To take the newer version of the page.
    Renew,
}

thread_local! {
    static DEED: Cell<Deed> = const { Cell::new(Deed::TakeUp(Aside::ForLink)) };
}

/// Shows a message and has it read out.
pub(super) fn say(text: &str) {
    // First there, then filled: a status that comes with its words is not read out everywhere.
    dom::set_hidden("notice", false);
    dom::set_hidden("notice-act", true);
    if dom::text_of("notice-text") == text {
        announce(text);
    }
    dom::set_text("notice-text", text);
}

/// Shows a message that offers to bring back what was put aside.
pub(super) fn offer(aside: Aside, text: &str, deed: &str) {
    offer_to(Deed::TakeUp(aside), text, deed);
}

fn offer_to(deed: Deed, text: &str, name: &str) {
    DEED.set(deed);
    say(text);
    dom::set_text("notice-act", name);
    dom::set_hidden("notice-act", false);
}

/// Has words read out without showing them; the same words again differ by a space, or they would
/// not be read.
pub(super) fn announce(text: &str) {
    if dom::text_of("say") == text {
        dom::set_text("say", &format!("{text}\u{a0}"));
    } else {
        dom::set_text("say", text);
    }
}

/// Takes the message away.
pub(super) fn close() {
    dom::set_hidden("notice", true);
}

/// Listens to the message's buttons.
pub(super) fn wire() {
    press("notice-close", close);
    press("notice-act", || {
        close();
        match DEED.get() {
            Deed::TakeUp(aside) => {
                if let Some(sketch) = store::put_aside(aside) {
                    act(Intent::Open(Box::new(sketch)));
                }
            }
            Deed::Renew => renew().unwrap_or_default(),
        }
    });
    if let Some(window) = dom::window() {
        dom::on(&window, "tastata-newer", |_: Event| {
            let (text, deed) = words::newer_page(lang());
            offer_to(Deed::Renew, text, deed);
        });
    }
}

/// Has the loader take the newer version of the page and start it.
fn renew() -> Option<()> {
    let tastata = js_sys::Reflect::get(&dom::window()?.into(), &"tastata".into()).ok()?;
    let renew = js_sys::Reflect::get(&tastata, &"renew".into()).ok()?;
    renew.dyn_into::<js_sys::Function>().ok()?.call0(&tastata).ok().map(drop)
}
