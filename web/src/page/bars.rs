//! The bars: title, undo and redo, playing, what the keys do, folding.

use super::controls::{enable, press, slider};
use super::reader::say;
use super::{act, dom, notice, strip, with};
use crate::app::{App, Intent, Keys};
use tastata::words::page::said;
use web_sys::{KeyboardEvent, MouseEvent};

/// What the keys can do, by the names the page gives it.
const ROLES: [(&str, Keys); 6] = [
    ("listen", Keys::Listen),
    ("add", Keys::AddBass),
    ("change", Keys::ChangeBass),
    ("soprano", Keys::Soprano),
    ("handful", Keys::Handful),
    ("figures", Keys::Figures),
];

pub(super) fn wire() {
    press("undo", || act(Intent::Undo));
    press("redo", || act(Intent::Redo));
    press("play", || with(|page| page.play_or_stop()));
    press("strip-chord", strip::to_card);
    press("strip-faults", || with(|page| page.next_fault()));
    press("fold", || {
        let folded = dom::document()
            .and_then(|d| d.query_selector(".dock").ok().flatten())
            .is_some_and(|dock| dock.class_list().toggle("folded").unwrap_or_default());
        dom::set_attr_of("fold", "aria-expanded", if folded { "false" } else { "true" });
        dom::set_text("fold", if folded { "▴" } else { "▾" });
        with(|page| page.show());
    });
    dom::on_id("keyrole", "click", |event: MouseEvent| {
        let name = dom::closest(&event, "[data-keys]").and_then(|b| b.get_attribute("data-keys"));
        if let Some((_, keys)) = ROLES.into_iter().find(|(n, _)| name.as_deref() == Some(*n)) {
            act(Intent::Keys(keys));
        }
    });
    dom::on_id("keyrole", "keydown", |event: KeyboardEvent| {
        let onward = match event.key().as_str() {
            "ArrowRight" | "ArrowDown" => true,
            "ArrowLeft" | "ArrowUp" => false,
            _ => return,
        };
        event.prevent_default();
        event.stop_propagation();
        with(move |page| {
            // Past what this work or this screen has no use for.
            let there: Vec<_> = ROLES.into_iter().filter(|(name, _)| is_there(name)).collect();
            let now = there.iter().position(|(_, k)| *k == page.app.view().keys).unwrap_or(0);
            let count = there.len().max(1);
            let to = if onward { now + 1 } else { now + count - 1 };
            let Some((name, keys)) = there.get(to % count).copied() else { return };
            page.act(Intent::Keys(keys));
            if let Some(button) = role_button(name) {
                let _ = button.focus();
            }
        });
    });
    // As it is typed: a person may leave the page from within the field.
    slider("title", 5, |title: String, slider| {
        act(Intent::Wish { apply: Box::new(move |sketch| sketch.title = title), slider });
    });
    press("example", || act(Intent::Example));
    press("clear", || {
        act(Intent::StartEmpty);
        notice::say(say(said::EMPTIED));
    });
}

/// Shows what the bars say: undo, play, what keys do.
pub(super) fn show(app: &App, playing: bool) {
    enable("undo", app.can_undo());
    enable("redo", app.can_redo());
    dom::set_attr_of("play", "aria-pressed", if playing { "true" } else { "false" });
    dom::set_text("play-word", say(if playing { said::STOP } else { said::PLAY }));
    dom::set_text("play-glyph", if playing { "■" } else { "▶" });
    for (name, keys) in ROLES {
        if let Some(button) = role_button(name) {
            let chosen = app.view().keys == keys;
            dom::set_attr(&button, "aria-checked", if chosen { "true" } else { "false" });
            dom::set_attr(&button, "tabindex", if chosen { "0" } else { "-1" });
        }
    }
}

fn is_there(name: &str) -> bool {
    role_button(name).is_some_and(|button| button.offset_width() > 0)
}

/// The button of one thing that the keys can do.
pub(super) fn role_button(name: &str) -> Option<web_sys::HtmlElement> {
    use wasm_bindgen::JsCast;
    let selector = format!("[data-keys=\"{name}\"]");
    dom::document()?.query_selector(&selector).ok()??.dyn_into().ok()
}
