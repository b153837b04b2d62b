//! The grand staff on the page: one SVG for each system, replaced only when its
//! drawing differs, and dragging of its outer notes.

use super::dom;
use crate::app::App;
use tastata::staff::{self, Layer, Look};
use web_sys::ScrollLogicalPosition;
use web_sys::{Element, HtmlElement, NodeList, ScrollBehavior, ScrollIntoViewOptions};

/// What is drawn of the staff.
#[derive(Default)]
pub(super) struct StaffView {
    drawn: Vec<String>,
    /// The staff space in CSS pixels.
    space: f64,
    shown_chord: Option<usize>,
    cursor: Option<usize>,
}

impl StaffView {
    /// Puts the signs that drawings use into the page, once.
    pub(super) fn fill_signs() {
        if let Some(signs) = dom::get::<Element>("signs") {
            signs.set_inner_html(&format!("<svg><defs>{}</defs></svg>", staff::symbols()));
        }
    }

    /// Draws the systems that differ.
    pub(super) fn show(&mut self, app: &App) {
        let Some(element) = dom::get::<HtmlElement>("staff") else { return };
        dom::set_hidden("empty", !app.sketch().notes.is_empty());
        let width = f64::from(element.client_width());
        if width < 1.0 {
            return;
        }
        self.space = space(width);
        let selected = app.selected_chord();
        let mut look = Look { selected, ..Look::new(width / self.space) };
        if app.view().motions {
            look.show = look.show.with(Layer::Motions);
        }
        let drawing = staff::draw(app.sketch(), app.reading(), &look);
        self.make_room(&element, drawing.systems.len());
        for (i, system) in drawing.systems.iter().enumerate() {
            let markup = format!(
                "<svg viewBox=\"0 0 {:.2} {:.2}\" role=\"img\" aria-label=\"System {}\">{}</svg>",
                system.width,
                system.height,
                i + 1,
                system.svg
            );
            if self.drawn.get(i) == Some(&markup) {
                continue;
            }
            if let Some(holder) = holder(i) {
                holder.set_inner_html(&markup);
            }
            if let Some(slot) = self.drawn.get_mut(i) {
                *slot = markup;
            }
        }
        if selected != self.shown_chord {
            self.shown_chord = selected;
            reveal(selected);
        }
        let cursor = self.cursor.take();
        self.follow(cursor);
    }

    /// Marks the chord that sounds, and keeps it in view.
    pub(super) fn follow(&mut self, chord: Option<usize>) {
        if chord == self.cursor {
            return;
        }
        for element in all("#staff .sounding") {
            let _ = element.class_list().remove_1("sounding");
        }
        if let Some(chord) = chord {
            for element in all(&format!("#staff [data-chord=\"{chord}\"]")) {
                let _ = element.class_list().add_1("sounding");
            }
            reveal(Some(chord));
        }
        self.cursor = chord;
    }

    /// CSS pixels of one step of the staff.
    pub(super) fn step(&self) -> f64 {
        self.space / 2.0
    }

    fn make_room(&mut self, element: &HtmlElement, systems: usize) {
        while self.drawn.len() > systems {
            self.drawn.pop();
            if let Some(last) = element.last_element_child() {
                last.remove();
            }
        }
        while self.drawn.len() < systems {
            if let Some(holder) = dom::make("div", "system") {
                let _ = element.append_child(&holder);
            }
            self.drawn.push(String::new());
        }
    }
}

/// The staff space for a width: small enough for a few chords on a phone, large
/// enough for the back of a room.
fn space(width: f64) -> f64 {
    (5.2 + width * 0.0078).clamp(7.5, 15.0)
}

fn holder(index: usize) -> Option<Element> {
    all("#staff > .system").nth(index)
}

/// Scrolls a chord into view if it is out of it.
fn reveal(chord: Option<usize>) {
    let Some(chord) = chord else { return };
    let selector = format!("#staff [data-chord=\"{chord}\"]");
    let Some(target) = all(&selector).next().and_then(|e| e.closest(".system").ok().flatten())
    else {
        return;
    };
    let rect = target.get_bounding_client_rect();
    let height = dom::window()
        .and_then(|w| w.inner_height().ok())
        .and_then(|h| h.as_f64())
        .unwrap_or_default();
    let dock = dom::document()
        .and_then(|d| d.query_selector(".dock").ok().flatten())
        .map_or(0.0, |d| d.get_bounding_client_rect().height());
    if rect.top() >= 0.0 && rect.bottom() <= height - dock {
        return;
    }
    let options = ScrollIntoViewOptions::new();
    options.set_block(ScrollLogicalPosition::Center);
    let still = dom::prefers_stillness();
    options.set_behavior(if still { ScrollBehavior::Instant } else { ScrollBehavior::Smooth });
    target.scroll_into_view_with_scroll_into_view_options(&options);
}

fn all(selector: &str) -> impl Iterator<Item = Element> {
    use wasm_bindgen::JsCast;
    let list: Option<NodeList> = dom::document().and_then(|d| d.query_selector_all(selector).ok());
    let length = list.as_ref().map_or(0, NodeList::length);
    (0..length).filter_map(move |i| list.as_ref()?.item(i)?.dyn_into().ok())
}
