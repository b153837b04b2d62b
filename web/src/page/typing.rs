//! The computer's keyboard: moving over the staff, playing, and what holds everywhere.

use super::{act, computer_keys, dom, projection, with};
use crate::app::{App, Intent};
use tastata::pitch::{Key, Pitch};
use web_sys::{HtmlElement, KeyboardEvent};

pub(super) fn wire() {
    dom::on_id("staff", "keydown", |event: KeyboardEvent| on_staff(&event));
    dom::on_id("keyboard", "keydown", |event: KeyboardEvent| on_keyboard(&event));
    if let Some(document) = dom::document() {
        dom::on(&document, "keydown", |event: KeyboardEvent| anywhere(&event));
    }
}

fn on_staff(event: &KeyboardEvent) {
    if is_shortcut(event) || projection::takes(event) {
        return;
    }
    match (event.key().as_str(), event.shift_key()) {
        ("ArrowLeft", _) => act(Intent::Step(-1)),
        ("ArrowRight", _) => act(Intent::Step(1)),
        ("ArrowUp", false) => act(Intent::NudgeSoprano(1)),
        ("ArrowDown", false) => act(Intent::NudgeSoprano(-1)),
        ("ArrowUp", true) => with(|page| page.nudge_bass(1)),
        ("ArrowDown", true) => with(|page| page.nudge_bass(-1)),
        ("p" | "P", _) => with(|page| page.pin_chosen()),
        ("Delete" | "Backspace", _) => act(Intent::Delete),
        ("Enter", _) => with(|page| page.hear_chosen()),
        (" ", _) => with(|page| page.play_from_chosen()),
        ("Escape", _) => act(Intent::Select(None)),
        _ => return,
    }
    event.prevent_default();
    event.stop_propagation();
    with(|page| page.announce_chosen());
}

fn on_keyboard(event: &KeyboardEvent) {
    if is_shortcut(event) || projection::takes(event) {
        return;
    }
    let step = match event.key().as_str() {
        "ArrowLeft" => Some(-1),
        "ArrowRight" => Some(1),
        "ArrowUp" | "PageUp" => Some(12),
        "ArrowDown" | "PageDown" => Some(-12),
        _ => None,
    };
    if let Some(by) = step {
        with(move |page| page.keyboard.step_caret(by, &page.app));
    } else if event.key() == "Enter" || event.key() == " " {
        with(|page| {
            if let Some(key) = page.keyboard.caret() {
                page.tap(key);
            }
        });
    } else if let Some(key) = computer_keys::played(&event.code(), Key::clamped(48)) {
        if !event.repeat() {
            with(move |page| page.tap(key));
        }
    } else {
        return;
    }
    event.prevent_default();
    event.stop_propagation();
}

/// Whether the browser or the system may mean something by it.
fn is_shortcut(event: &KeyboardEvent) -> bool {
    event.ctrl_key() || event.meta_key() || event.alt_key()
}

fn anywhere(event: &KeyboardEvent) {
    let command = event.ctrl_key() || event.meta_key();
    let in_text = dom::closest(event, "input, textarea, select").is_some();
    if command && !in_text {
        match event.key().to_lowercase().as_str() {
            "z" if event.shift_key() => act(Intent::Redo),
            "z" => act(Intent::Undo),
            "y" => act(Intent::Redo),
            _ => return,
        }
        event.prevent_default();
    } else if event.key() == " " && !command && !in_text && is_nowhere(event) {
        event.prevent_default();
        with(|page| page.play_or_stop());
    }
}

/// Whether the event belongs to no control, so that Space may play.
fn is_nowhere(event: &KeyboardEvent) -> bool {
    use wasm_bindgen::JsCast;
    let target = event.target().and_then(|t| t.dyn_into::<HtmlElement>().ok());
    target.is_some_and(|t| t.tag_name() == "BODY")
}

impl super::Page {
    /// Moves the chosen bass note by steps of the scale.
    pub(super) fn nudge_bass(&mut self, by: i32) {
        let Some(place) = self.app.view().selected else { return };
        if let Some(pitch) = by_steps(&self.app, place.note, by) {
            self.act(Intent::MoveBass { note: place.note, pitch, drag: None });
        }
    }
}

/// The pitch a bass note goes to when moved by steps of the scale.
fn by_steps(app: &App, note: usize, by: i32) -> Option<Pitch> {
    let now = app.sketch().notes.get(note)?.pitch;
    let to = Pitch::from_diatonic(now.diatonic() + by, 0);
    let home = app.reading().harmony.home;
    Some(home.class_of(to.step).in_octave(to.octave))
}
