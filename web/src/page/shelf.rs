//! What this browser keeps for the page, under names. Where it refuses (a private window, no room
//! left) the page says so once and goes on. What another tab of the page has put under the same
//! name meanwhile is noticed before it is written over.

use super::reader::say;
use super::{dom, notice};
use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use tastata::words::page::said;
use web_sys::Storage;

thread_local! {
    /// What this tab last saw under a name it shares with other tabs.
    static SEEN: RefCell<BTreeMap<String, Option<String>>> = const { RefCell::new(BTreeMap::new()) };
    /// Whether it has been said that nothing is kept.
    static REFUSED: Cell<bool> = const { Cell::new(false) };
}

fn storage() -> Option<Storage> {
    dom::window()?.local_storage().ok()?
}

/// What is kept under a name.
pub(super) fn read(name: &str) -> Option<String> {
    storage()?.get_item(name).ok()?
}

/// Keeps something, where the browser lets it; says once that it does not.
pub(super) fn write(name: &str, text: &str) {
    let written = storage().is_some_and(|storage| storage.set_item(name, text).is_ok());
    if !written && !REFUSED.replace(true) {
        notice::say(say(said::NOTHING_KEPT));
    }
}

/// What is kept under a name that other tabs may write to as well.
pub(super) fn read_shared(name: &str) -> Option<String> {
    let there = read(name);
    SEEN.with_borrow_mut(|seen| seen.insert(name.to_owned(), there.clone()));
    there
}

/// What another tab has kept under a shared name since this one last looked.
pub(super) fn news(name: &str) -> Option<String> {
    let before = SEEN.with_borrow(|seen| seen.get(name).cloned().flatten());
    read_shared(name).filter(|there| before.as_ref() != Some(there))
}

/// Keeps something under a name that other tabs may write to, and gives back what
/// one of them has kept there since this tab last looked.
pub(super) fn write_shared(name: &str, text: &str) -> Option<String> {
    let there = read(name);
    let mine = Some(text.to_owned());
    let before = SEEN.with_borrow_mut(|seen| seen.insert(name.to_owned(), mine));
    write(name, text);
    let others = before.is_some_and(|before| before != there) && there.as_deref() != Some(text);
    there.filter(|_| others)
}
