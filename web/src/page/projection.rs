//! Projecting in class: the staff as large as the screen allows, the keyboard
//! under it, and the piece revealed step by step by arrow keys or a remote.

use super::controls::press;
use super::reader::say;
use super::{act, dom, share, with};
use crate::app::{App, Intent, Reveal};
use js_sys::{Function, Promise, Reflect};
use tastata::staff::{Layer, Layers};
use tastata::words::page::said;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{Element, HtmlElement, KeyboardEvent, PointerEvent};

pub(super) fn wire() {
    press("project", begin);
    press("project-here", || {
        share::close();
        begin();
    });
    press("project-back", || step(Reveal::back));
    press("project-next", || step(Reveal::next));
    press("project-end", end);
    if let Some(document) = dom::document() {
        dom::on(&document, "keydown", |event: KeyboardEvent| {
            if let Some(deed) = deed_of(&event) {
                event.prevent_default();
                deed();
            }
        });
        dom::on(&document, "pointermove", |event: PointerEvent| point(&event));
    }
}

fn begin() {
    act(Intent::Project(Some(Reveal::Bass)));
    with(|page| {
        if page.app.selected_chord().is_none() {
            page.choose_chord(0);
        }
    });
    fill_screen();
}

/// Whether a key leads through the projected piece, wherever the focus is.
pub(super) fn takes(event: &KeyboardEvent) -> bool {
    deed_of(event).is_some()
}

fn deed_of(event: &KeyboardEvent) -> Option<fn()> {
    let body = dom::document()?.body()?;
    if !body.class_list().contains("projecting") {
        return None;
    }
    match event.key().as_str() {
        "ArrowRight" | "PageDown" => Some(|| step(Reveal::next)),
        "ArrowLeft" | "PageUp" => Some(|| step(Reveal::back)),
        "ArrowDown" => Some(|| act(Intent::Step(1))),
        "ArrowUp" => Some(|| act(Intent::Step(-1))),
        "Escape" => Some(end),
        _ => None,
    }
}

/// Asks for the whole screen. Where the browser refuses, the page is projected in
/// its window.
fn fill_screen() {
    let asked = dom::root().and_then(|root| {
        let request = Reflect::get(&root, &"requestFullscreen".into()).ok()?;
        request.dyn_into::<Function>().ok()?.call0(&root).ok()?.dyn_into::<Promise>().ok()
    });
    if let Some(asked) = asked {
        spawn_local(async move { drop(JsFuture::from(asked).await) });
    }
}

/// A ring around the pointer that is seen from the back of the room.
fn point(event: &PointerEvent) {
    let Some(ring) = dom::get::<HtmlElement>("pointer-ring").filter(|it| !it.hidden()) else {
        return;
    };
    let place = format!("translate({}px, {}px)", event.client_x(), event.client_y());
    let _ = ring.style().set_property("transform", &place);
}

/// Shows the page projected, or as usual.
pub(super) fn show(app: &App) {
    let reveal = app.view().reveal;
    if let Some(body) = dom::document().and_then(|d| d.body()) {
        let _ = body.class_list().toggle_with_force("projecting", reveal.is_some());
    }
    dom::set_hidden("project-bar", reveal.is_none());
    dom::set_hidden("pointer-ring", reveal.is_none());
    let name = match reveal {
        None => "",
        Some(Reveal::Bass) => say(said::REVEAL_BASS),
        Some(Reveal::Figures) => say(said::REVEAL_FIGURES),
        Some(Reveal::Soprano) => say(said::REVEAL_SOPRANO),
        Some(Reveal::Handfuls) => say(said::REVEAL_HANDFULS),
        Some(Reveal::Roll) => say(said::REVEAL_ROLL),
    };
    dom::set_text("project-name", name);
}

/// What of the drawing is shown.
pub(super) fn layers(reveal: Reveal) -> Layers {
    let steps = [
        (Reveal::Figures, vec![Layer::Figures]),
        (Reveal::Soprano, vec![Layer::Soprano, Layer::Pins, Layer::Faults]),
        (Reveal::Handfuls, vec![Layer::Inner, Layer::Hands]),
        (Reveal::Roll, vec![Layer::Rolls]),
    ];
    let shown = steps.into_iter().filter(|(step, _)| *step <= reveal);
    shown.flat_map(|(_, layers)| layers).fold(Layers::NONE, Layers::with)
}

/// The height left for the staff above the dock, in CSS pixels.
pub(super) fn room_for_staff() -> Option<f64> {
    let staff = dom::get::<Element>("staff")?.get_bounding_client_rect();
    let dock = dom::document()?.query_selector(".dock").ok()??.get_bounding_client_rect();
    Some(dock.top() - staff.top() - 12.0)
}

fn step(to: fn(Reveal) -> Reveal) {
    with(move |page| {
        if let Some(reveal) = page.app.view().reveal {
            page.act(Intent::Project(Some(to(reveal))));
        }
    });
}

fn end() {
    act(Intent::Project(None));
    if let Some(document) = dom::document()
        && document.fullscreen_element().is_some()
    {
        document.exit_fullscreen();
    }
}
