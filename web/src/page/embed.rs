//! The page as a player inside another page: with `#play=` before a link it shows and
//! plays the piece and changes nothing, neither the piece nor what this browser keeps.

use super::dom;
use crate::app::Intent;
use std::cell::Cell;

/// What stands before the link.
const PREFIX: &str = "play=";

thread_local! {
    static ON: Cell<bool> = const { Cell::new(false) };
}

/// The link of a fragment that asks for a player.
pub(super) fn link(fragment: &str) -> Option<&str> {
    fragment.strip_prefix(PREFIX)
}

/// Makes the page a player until it is loaded again; `link` opens the same piece in full.
pub(super) fn enter(link: &str) {
    ON.set(true);
    if let Some(body) = dom::document().and_then(|d| d.body()) {
        let _ = body.class_list().add_1("embedded");
    }
    dom::set_attr_of("title", "readonly", "");
    dom::set_attr_of("embed-open", "href", &format!("#{link}"));
    dom::set_hidden("embed-open", false);
}

/// Whether the page is a player.
pub(super) fn is_on() -> bool {
    ON.get()
}

/// Whether a player does not do this: whatever would change the piece.
pub(super) fn forbids(intent: &Intent) -> bool {
    let hears = matches!(
        intent,
        Intent::Select(_)
            | Intent::Step(_)
            | Intent::Press(_)
            | Intent::Round(_)
            | Intent::Tell(_)
            | Intent::Settle
    );
    is_on() && !hears
}
