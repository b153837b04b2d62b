//! When the program itself fails: a plain message and the sketch, as a link, to
//! take away.

use super::controls::press;
use super::dom;
use std::cell::RefCell;
use web_sys::HtmlTextAreaElement;

thread_local! {
    static LAST: RefCell<String> = const { RefCell::new(String::new()) };
}

/// Remembers the link of the sketch as it now is.
pub(super) fn remember(link: &str) {
    LAST.with_borrow_mut(|last| link.clone_into(last));
}

/// Listens to the message's button.
pub(super) fn wire() {
    press("rescue-reload", || {
        if let Some(window) = dom::window() {
            let _ = window.location().reload();
        }
    });
}

/// Shows the message whenever the program panics.
pub(super) fn install() {
    std::panic::set_hook(Box::new(|info| {
        console_error_panic_hook::hook(info);
        show(&info.to_string());
    }));
}

/// Shows the message, the sketch as a link to take away, and what went wrong.
pub(super) fn show(detail: &str) {
    let link = LAST.try_with(|last| last.try_borrow().map(|l| l.clone()).unwrap_or_default());
    if let Some(text) = dom::get::<HtmlTextAreaElement>("rescue-link") {
        text.set_value(&link.unwrap_or_default());
    }
    dom::set_text("rescue-detail", detail);
    dom::open_sheet("rescue");
}
