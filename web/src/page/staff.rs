//! The grand staff on the page: one SVG for each system, replaced only when its
//! drawing differs, and dragging of its outer notes.

use super::patch::patch;
use super::reader::{lang, tell};
use super::timing::Timing;
use super::{contour, dom, projection, speech, voices};
use crate::app::{App, Reveal};
use tastata::frame::inner_parallels;
use tastata::staff::{self, Layer, Layers, Look, Stave, System};
use tastata::words::page::said;
use web_sys::ScrollLogicalPosition;
use web_sys::{Element, HtmlElement, NodeList, ScrollBehavior, ScrollIntoViewOptions};

/// How far beyond the window systems are kept drawn, in CSS pixels.
const MARGIN: f64 = 900.0;

/// What is drawn of the staff.
#[derive(Default)]
pub(super) struct StaffView {
    systems: Vec<Drawn>,
    /// The staff space in CSS pixels.
    space: f64,
    shown_chord: Option<usize>,
    cursor: Option<usize>,
}

/// One system: its place is always kept, its drawing only near the window, so
/// that a very long bass costs no more than what is seen of it.
#[derive(Default)]
struct Drawn {
    /// What is seen of it, the opening tag, and what stands inside.
    view_box: String,
    frame: String,
    markup: String,
    /// What of it is in the document.
    shown: Option<(String, String)>,
    /// Where everything stands in it; its own markup is empty.
    places: Option<System>,
    /// Staff spaces above the system that belong to the line of dwelling.
    band: f64,
    /// In CSS pixels.
    height: f64,
    /// Its chords, first to last.
    chords: Option<(usize, usize)>,
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
        // All that must be measured is measured before anything is changed.
        let width = f64::from(element.client_width());
        if width < 1.0 {
            return;
        }
        let top = element.get_bounding_client_rect().top();
        // Fitting the whole piece is no work for the steps of a drag.
        if !app.is_brief() {
            self.space = match (app.view().reveal, thumb_room()) {
                (Some(reveal), _) => largest(app, reveal, width),
                (None, Some(room)) => snug(app, room, width),
                (None, None) => space(width),
            };
        }
        let selected = app.selected_chord();
        let mut look = Look { selected, lang: lang(), ..Look::new(width / self.space) };
        if app.view().motions {
            look.show = look.show.with(Layer::Motions);
        }
        if let Some(reveal) = app.view().reveal {
            look.show = projection::layers(reveal);
        }
        if app.is_brief() {
            look.rooms =
                self.systems.iter().filter_map(|it| Some(it.places.as_ref()?.room())).collect();
            look.painted = self.near(top);
        }
        let timing = Timing::open();
        let drawing = timing.of("draw", || staff::draw(app.sketch(), app.reading(), &look));
        self.make_room(&element, drawing.systems.len());
        let parallels = match app.view().parallels {
            true => inner_parallels(&app.reading().hands.handfuls),
            false => Vec::new(),
        };
        for (i, (system, slot)) in drawing.systems.into_iter().zip(&mut self.systems).enumerate() {
            let scale = width / system.width;
            let (band, speech) = match app.view().speech {
                true => (speech::BAND, speech::markup(&system, app.reading())),
                false => (0.0, String::new()),
            };
            let wished = contour::markup(&system, app) + &voices::markup(&system, app, &parallels);
            slot.band = band;
            let height = ((system.height + band) * scale).ceil();
            if height != slot.height
                && let Some(holder) = holder(i)
            {
                let _ = holder.style().set_property("height", &format!("{height}px"));
                slot.height = height;
            }
            slot.chords =
                system.chords.first().map(|c| c.chord).zip(system.chords.last().map(|c| c.chord));
            slot.places = Some(System { svg: String::new(), ..system.clone() });
            // What was only laid out keeps its old picture until the drag pauses.
            if system.svg.is_empty() {
                continue;
            }
            slot.view_box = format!("0 -{band} {:.2} {:.2}", system.width, system.height + band);
            slot.frame = format!(
                "<svg viewBox=\"{}\" role=\"img\" aria-label=\"{}\">",
                slot.view_box,
                tell(said::SYSTEM, [&(i + 1)]),
            );
            slot.markup = [system.svg.as_str(), &speech, &wished].concat();
        }
        self.fill_from(top);
        if selected != self.shown_chord {
            self.shown_chord = selected;
            self.reveal(selected);
        }
        let cursor = self.cursor.take();
        self.follow(cursor);
    }

    /// Puts the drawings near the window into the document.
    pub(super) fn fill(&mut self) {
        if let Some(element) = dom::get::<Element>("staff") {
            self.fill_from(element.get_bounding_client_rect().top());
        }
    }

    /// The first and last system near the window where the staff begins at this height.
    fn near(&self, mut top: f64) -> Option<(usize, usize)> {
        let window = window_height();
        let mut near = None;
        for (i, slot) in self.systems.iter().enumerate() {
            if top < window + MARGIN && top + slot.height > -MARGIN {
                near = Some((near.map_or(i, |(first, _)| first), i));
            }
            top += slot.height;
        }
        near
    }

    /// The same where the staff begins at this height of the window.
    fn fill_from(&mut self, mut top: f64) {
        let window = window_height();
        for (i, slot) in self.systems.iter_mut().enumerate() {
            if top < window + MARGIN && top + slot.height > -MARGIN {
                slot.put(i);
            }
            top += slot.height;
        }
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
            self.reveal(Some(chord));
            self.fill();
        }
        self.cursor = chord;
    }

    /// The chord at a point of the page, and the place on the upper stave in
    /// letters above C0.
    pub(super) fn chord_and_height(&self, x: f64, y: f64) -> Option<(usize, i32)> {
        for (i, slot) in self.systems.iter().enumerate() {
            let (Some(system), Some(holder)) = (&slot.places, holder(i)) else { continue };
            let rect = holder.get_bounding_client_rect();
            if rect.top() <= y && y < rect.bottom() {
                let scale = system.width / rect.width().max(1.0);
                let chord = system.chord_at((x - rect.left()) * scale)?.chord;
                let height = (y - rect.top()) * scale - slot.band;
                return Some((chord, system.step_at(Stave::Treble, height)));
            }
        }
        None
    }

    /// CSS pixels of one step of the staff.
    pub(super) fn step(&self) -> f64 {
        self.space / 2.0
    }

    fn make_room(&mut self, element: &HtmlElement, systems: usize) {
        if self.systems.is_empty() {
            dom::clear(element);
        }
        while self.systems.len() > systems {
            self.systems.pop();
            if let Some(last) = element.last_element_child() {
                last.remove();
            }
        }
        while self.systems.len() < systems {
            if let Some(holder) = dom::make("div", "system") {
                let _ = element.append_child(&holder);
            }
            self.systems.push(Drawn::default());
        }
    }

    /// Scrolls a chord's system into view if it is out of it.
    fn reveal(&self, chord: Option<usize>) {
        let Some(chord) = chord else { return };
        let holds = |slot: &Drawn| slot.chords.is_some_and(|(a, b)| a <= chord && chord <= b);
        let Some(target) = self.systems.iter().position(holds).and_then(holder) else { return };
        let rect = target.get_bounding_client_rect();
        let dock = dom::document()
            .and_then(|d| d.query_selector(".dock").ok().flatten())
            .map_or(0.0, |d| d.get_bounding_client_rect().height());
        let desk = thumb_desk().unwrap_or(0.0);
        if rect.top() >= desk && rect.bottom() <= window_height() - dock {
            return;
        }
        let options = ScrollIntoViewOptions::new();
        // Under the task and above the tools there is no room to spare on a phone.
        options.set_block(match desk > 0.0 {
            true => ScrollLogicalPosition::Nearest,
            false => ScrollLogicalPosition::Center,
        });
        let still = dom::prefers_stillness();
        options.set_behavior(if still { ScrollBehavior::Instant } else { ScrollBehavior::Smooth });
        target.scroll_into_view_with_scroll_into_view_options(&options);
    }
}

impl Drawn {
    /// Brings the document to what is drawn.
    fn put(&mut self, index: usize) {
        let as_drawn =
            |(frame, markup): &(String, String)| *frame == self.frame && *markup == self.markup;
        if self.frame.is_empty() || self.shown.as_ref().is_some_and(as_drawn) {
            return;
        }
        let Some(holder) = holder(index) else { return };
        match (&self.shown, holder.first_element_child()) {
            (Some((frame, old)), Some(svg)) => {
                if *frame != self.frame {
                    dom::set_attr(&svg, "viewBox", &self.view_box);
                    dom::set_attr(&svg, "aria-label", &tell(said::SYSTEM, [&(index + 1)]));
                }
                patch(&svg, old, &self.markup);
            }
            _ => holder.set_inner_html(&[self.frame.as_str(), &self.markup, "</svg>"].concat()),
        }
        self.shown = Some((self.frame.clone(), self.markup.clone()));
    }
}

/// The staff space for a width: small enough for a few chords on a phone, large
/// enough for the back of a room.
fn space(width: f64) -> f64 {
    (5.2 + width * 0.0078).clamp(7.5, 15.0)
}

/// The largest staff space at which the whole piece fits the projected screen, or
/// one that is still read from afar where it does not.
fn largest(app: &App, reveal: Reveal, width: f64) -> f64 {
    const SPACES: [f64; 11] = [28.0, 24.0, 21.0, 18.0, 16.0, 14.0, 13.0, 11.0, 10.0, 9.0, 8.0];
    // A phone is held in the hand; everything else is read from afar.
    let small = width < 600.0 || window_height() < 500.0;
    let least = if small { 8.0 } else { 13.0 };
    let room = projection::room_for_staff().unwrap_or(f64::MAX);
    let fits =
        |space: &f64| heights(app, projection::layers(reveal), width, *space).sum::<f64>() <= room;
    let found = SPACES.into_iter().filter(|space| *space >= least).find(fits);
    found.unwrap_or(if small { 9.0 } else { 14.0 })
}

/// How high each system is at this staff space, in CSS pixels: one narrower than the page
/// is drawn no larger than its share.
fn heights(app: &App, show: Layers, width: f64, space: f64) -> impl Iterator<Item = f64> {
    let look = Look { show, ..Look::new(width / space) };
    let systems = staff::draw(app.sketch(), app.reading(), &look).systems;
    systems.into_iter().map(move |system| system.height * width / system.width)
}

/// Windows lower than this, in CSS pixels, belong to phones that lie on their side.
const SHORT: f64 = 500.0;

/// The height of the desk while work is done on a phone.
fn thumb_desk() -> Option<f64> {
    let desk = dom::document()?.query_selector(".handheld .desk").ok()??;
    Some(desk.get_bounding_client_rect().height())
}

/// The height between the desk and the dock while work is done on a phone that lies on its
/// side.
fn thumb_room() -> Option<f64> {
    let desk = thumb_desk().filter(|_| window_height() < SHORT)?;
    let dock = dom::document()?.query_selector(".dock").ok()??;
    let dock = dock.get_bounding_client_rect().height();
    Some(window_height() - desk - dock - 16.0)
}

/// The largest staff space at which each system is seen whole in this height.
fn snug(app: &App, room: f64, width: f64) -> f64 {
    const SPACES: [f64; 8] = [10.0, 9.0, 8.0, 7.5, 7.0, 6.5, 6.0, 5.5];
    let show = Look::new(width).show;
    let fits = |space: &f64| heights(app, show, width, *space).all(|height| height <= room);
    SPACES.into_iter().find(fits).unwrap_or(5.5)
}

fn holder(index: usize) -> Option<HtmlElement> {
    use wasm_bindgen::JsCast;
    let holders = dom::get::<Element>("staff")?.children();
    holders.item(u32::try_from(index).ok()?)?.dyn_into().ok()
}

fn window_height() -> f64 {
    dom::window().and_then(|w| w.inner_height().ok()).and_then(|h| h.as_f64()).unwrap_or_default()
}

fn all(selector: &str) -> impl Iterator<Item = Element> {
    use wasm_bindgen::JsCast;
    let list: Option<NodeList> = dom::document().and_then(|d| d.query_selector_all(selector).ok());
    let length = list.as_ref().map_or(0, NodeList::length);
    (0..length).filter_map(move |i| list.as_ref()?.item(i)?.dyn_into().ok())
}
