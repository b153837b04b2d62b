//! The grand staff on the page: one SVG for each system, replaced only when its
//! drawing differs, and dragging of its outer notes.

use super::fit::{self, window_height};
use super::patch::Pieces;
use super::plain::plain;
use super::reader::{lang, tell};
use super::timing::Timing;
use super::{ahead, contour, dom, projection, speech, voices};
use crate::app::App;
use std::ops::Range;
use tastata::frame::inner_parallels;
use tastata::staff::{self, Layer, Look, Painted, Room, Signs, Stave, System};
use tastata::words::page::said;
use web_sys::ScrollLogicalPosition;
use web_sys::{Element, HtmlElement, NodeList, ScrollBehavior, ScrollIntoViewOptions};

/// How far beyond the window systems are kept drawn, in CSS pixels.
const MARGIN: f64 = 900.0;
/// How far beyond it they are drawn at once where one has leapt to another place; nearer than the
/// other, so that a first step of scrolling finds all drawn.
const LEAP: f64 = 500.0;
/// How far beyond it systems are drawn plainly, ahead of who scrolls.
const AHEAD: f64 = 1800.0;
/// Milliseconds in which a turn changes what differs in a system.
const TURN_MS: f64 = 4.0;
/// Beyond this they are taken away again.
const FAR: f64 = 6000.0;

/// What is drawn of the staff.
#[derive(Default)]
pub(super) struct StaffView {
    systems: Vec<Drawn>,
    /// Where staves and columns are in each system.
    rooms: Vec<Room>,
    /// The staff space and the width of every system in CSS pixels.
    space: f64,
    width: f64,
    shown_chord: Option<usize>,
    cursor: Option<usize>,
}

/// One system: its place is always kept, its drawing only near the window, so
/// that a very long bass costs no more than what is seen of it.
#[derive(Default)]
struct Drawn {
    /// What of it is in the document.
    pieces: Pieces,
    /// Where its staves and columns stand there.
    stands: Option<Vec<i64>>,
    /// Whether that is how it was last laid out.
    painted: bool,
    /// Whether it is at least what was last laid out, plainly.
    fresh: bool,
    /// Where everything stands in it; its own markup is empty.
    places: Option<System>,
    /// Staff spaces above the system that belong to the line of dwelling.
    band: f64,
    /// In CSS pixels.
    height: f64,
    /// Its chords, first to last.
    chords: Option<(usize, usize)>,
}

/// How much of what has changed is drawn.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Extent {
    /// The chosen chord, and the marks of faults in its system: what is under the finger.
    Touched,
    /// Where everything stands; what has moved is drawn in turns.
    Places,
    /// All.
    Whole,
}

/// No system, as first and last.
const NONE: (usize, usize) = (1, 0);

impl StaffView {
    /// Puts the signs that drawings use into the page, once.
    pub(super) fn fill_signs() {
        if let Some(signs) = dom::get::<Element>("signs") {
            signs.set_inner_html(&format!("<svg><defs>{}</defs></svg>", staff::symbols()));
        }
    }

    /// Draws what differs, as much of it as is asked for.
    pub(super) fn show(&mut self, app: &App, extent: Extent) {
        // Nothing is measured while a finger drags: a window that is made wider shows all anew.
        let held = match extent {
            Extent::Touched => self.show_touched(app),
            Extent::Places | Extent::Whole => false,
        };
        let Some(element) = dom::get::<HtmlElement>("staff").filter(|_| !held) else { return };
        // All that must be measured is measured before anything is changed.
        let width = f64::from(element.client_width());
        let top = element.get_bounding_client_rect().top();
        if width >= 1.0 {
            self.lay_out_all(app, &element, width);
            match extent {
                Extent::Places => ahead::go_on(),
                _ => self.fill_from(app, top, if app.is_brief() { 0.0 } else { MARGIN }),
            }
            self.turn_to(app);
        }
    }

    fn system_of(&self, chord: usize) -> Option<usize> {
        let holds = |slot: &Drawn| slot.chords.is_some_and(|(a, b)| a <= chord && chord <= b);
        self.systems.iter().position(holds)
    }

    /// The systems in the window.
    pub(super) fn seen(&self) -> Range<usize> {
        let top = dom::get::<Element>("staff").map(|it| it.get_bounding_client_rect().top());
        let (first, last) = top.map_or(NONE, |top| self.near(top, 0.0));
        first..last + 1
    }

    /// Lays all systems out.
    fn lay_out_all(&mut self, app: &App, element: &HtmlElement, width: f64) {
        dom::set_hidden("empty", !app.sketch().notes.is_empty());
        // Fitting the whole piece is no work for the steps of a drag.
        if !app.is_brief() {
            self.space = fit::space(app, width);
        }
        let held = app.is_brief() && width == self.width;
        self.width = width;
        let mut look = Look { painted: Painted::Nothing, ..self.look(app) };
        if held {
            look.rooms = std::mem::take(&mut self.rooms);
        }
        let timing = Timing::open();
        let drawing = timing.of("draw", || staff::draw(app.sketch(), app.reading(), &look));
        self.make_room(element, drawing.systems.len());
        self.rooms = drawing.systems.iter().map(System::room).collect();
        for (i, system) in drawing.systems.into_iter().enumerate() {
            self.take(i, system, app.view().speech);
        }
    }

    /// Brings the chosen chord into view where another was chosen before, and marks what sounds.
    fn turn_to(&mut self, app: &App) {
        let chosen = app.selected_chord();
        if chosen != self.shown_chord {
            self.shown_chord = chosen;
            self.reveal(chosen);
        }
        // In silence nothing is marked, and a step of a drag need not look for it.
        if self.cursor.is_some() {
            self.mark_sounding(self.cursor);
        }
    }

    /// Draws what a step of a drag moves under the finger, with all columns held where they
    /// stand; says whether it could: a bass that gets other chords has other columns.
    fn show_touched(&mut self, app: &App) -> bool {
        let Some(chord) = app.selected_chord() else { return false };
        let Some(index) = self.system_of(chord) else { return false };
        if Some(chord) != self.shown_chord {
            return false;
        }
        let mut look = Look { painted: Painted::Chord(chord), ..self.look(app) };
        look.rooms = std::mem::take(&mut self.rooms);
        let draw = || staff::redraw(app.sketch(), app.reading(), &look, index);
        let drawn = Timing::open().of("draw", draw);
        self.rooms = look.rooms;
        let Some(mut system) = drawn else { return false };
        let markup = std::mem::take(&mut system.svg);
        let rise = system.rise;
        let width = self.width;
        let mended = self.systems.get_mut(index).is_some_and(|slot| {
            // Where the staves move, everything moves with them.
            slot.stands == Some(stands(&system)) && slot.mend(index, &markup, system, width)
        });
        if let Some(room) = self.rooms.get_mut(index).filter(|_| mended) {
            room.rise = rise;
        }
        mended || self.paint(app, index..index + 1)
    }

    /// Paints these systems as they are laid out; says whether their columns still are those
    /// that were laid out.
    fn paint(&mut self, app: &App, systems: Range<usize>) -> bool {
        for i in systems {
            let Some(markup) = self.lay_out(app, i) else { return false };
            if let Some(slot) = self.systems.get_mut(i) {
                slot.painted = slot.put(i, &markup, || true);
            }
        }
        true
    }

    /// Brings a system to what a drag has made of it, as far as one comes in a short turn; says
    /// whether nothing is left.
    pub(super) fn bring_on(&mut self, app: &App, i: usize) -> bool {
        let Some(markup) = self.lay_out(app, i) else { return true };
        let Some(slot) = self.systems.get_mut(i) else { return true };
        let begun = dom::milliseconds();
        slot.painted = slot.put(i, &markup, || dom::milliseconds() - begun < TURN_MS);
        slot.painted
    }

    /// Lays a system out where it stands and gives its markup; none where its columns are no
    /// longer those that were laid out.
    fn lay_out(&mut self, app: &App, i: usize) -> Option<String> {
        let mut look = self.look(app);
        look.rooms = std::mem::take(&mut self.rooms);
        let draw = || staff::redraw(app.sketch(), app.reading(), &look, i);
        let drawn = Timing::open().of("draw", draw);
        self.rooms = look.rooms;
        let mut system = drawn?;
        if let Some(room) = self.rooms.get_mut(i) {
            *room = system.room();
        }
        let mut markup = std::mem::take(&mut system.svg);
        if app.view().speech {
            markup += &speech::markup(&system, app.reading());
        }
        markup += &contour::markup(&system, app);
        if app.view().parallels {
            let parallels = inner_parallels(&app.reading().hands.handfuls);
            markup += &voices::markup(&system, app, &parallels);
        }
        self.take(i, system, app.view().speech);
        Some(markup)
    }

    /// How the staff is to be drawn.
    fn look(&self, app: &App) -> Look {
        let selected = app.selected_chord();
        let width = self.width / self.space;
        let mut look = Look { selected, lang: lang(), signs: Signs::Outlined, ..Look::new(width) };
        if app.view().motions {
            look.show = look.show.with(Layer::Motions);
        }
        if let Some(reveal) = app.view().reveal {
            look.show = projection::layers(reveal);
        }
        look
    }

    /// Takes over a system as it is laid out.
    fn take(&mut self, i: usize, system: System, speech: bool) {
        let Some(slot) = self.systems.get_mut(i) else { return };
        slot.band = if speech { speech::BAND } else { 0.0 };
        slot.chords =
            system.chords.first().map(|c| c.chord).zip(system.chords.last().map(|c| c.chord));
        slot.stand(i, system, self.width);
        (slot.painted, slot.fresh) = (false, false);
    }

    /// Paints what comes near the window.
    pub(super) fn fill(&mut self, app: &App) {
        if let Some(element) = dom::get::<Element>("staff") {
            self.fill_from(app, element.get_bounding_client_rect().top(), MARGIN);
        }
    }

    /// Draws what has come into the window, and sees to what comes near.
    pub(super) fn scrolled(&mut self, app: &App) {
        let Some(element) = dom::get::<Element>("staff") else { return };
        let top = element.get_bounding_client_rect().top();
        if ahead::is_still() {
            self.fill_from(app, top, LEAP);
        }
        let (first, last) = self.near(top, MARGIN);
        let (seen, last_seen) = self.near(top, 0.0);
        for i in first..=last {
            match self.systems.get(i) {
                // What shows something old is there to be taken hold of, and stays so.
                Some(slot) if !slot.fresh && !slot.pieces.is_empty() => {
                    self.paint(app, i..i + 1);
                }
                Some(slot) if !slot.fresh && (seen..=last_seen).contains(&i) => {
                    self.paint_plain(app, i);
                }
                _ => {}
            }
        }
        ahead::scrolled();
    }

    /// Does one thing that is to be done for who scrolls, or has scrolled and now is `still`;
    /// says whether there was any.
    pub(super) fn draw_ahead(&mut self, app: &App, still: bool) -> bool {
        let Some(element) = dom::get::<Element>("staff") else { return false };
        let top = element.get_bounding_client_rect().top();
        let find = |margin: f64, wanted: fn(&Drawn) -> bool| {
            let (first, last) = self.near(top, margin);
            (first..=last).find(|&i| self.systems.get(i).is_some_and(wanted))
        };
        let near = [0.0, MARGIN, AHEAD].into_iter();
        if let Some(i) = near.clone().find_map(|margin| find(margin, |slot| !slot.fresh)) {
            return match self.systems.get(i).is_some_and(|slot| slot.pieces.is_empty()) {
                true => self.paint_plain(app, i).is_some(),
                false => self.paint(app, i..i + 1),
            };
        }
        if !still {
            return false;
        }
        if let Some(i) = near.take(2).find_map(|margin| find(margin, |slot| !slot.painted)) {
            return self.paint(app, i..i + 1);
        }
        let (first, last) = self.near(top, FAR);
        let far =
            |(i, slot): (usize, &Drawn)| !(first..=last).contains(&i) && !slot.pieces.is_empty();
        let Some(i) = self.systems.iter().enumerate().position(far) else { return false };
        if let Some(slot) = self.systems.get_mut(i) {
            slot.take_away(i);
        }
        true
    }

    /// Paints a system as it is seen, to be painted whole later.
    fn paint_plain(&mut self, app: &App, i: usize) -> Option<()> {
        let markup = plain(&self.lay_out(app, i)?);
        self.systems.get_mut(i)?.put(i, &markup, || true);
        Some(())
    }

    /// The same within a margin of the window, where the staff begins at this height of it.
    fn fill_from(&mut self, app: &App, top: f64, margin: f64) {
        let (first, last) = self.near(top, margin);
        let unpainted = |i: &usize| self.systems.get(*i).is_some_and(|slot| !slot.painted);
        let due: Vec<usize> = (first..=last).filter(unpainted).collect();
        for i in due {
            self.paint(app, i..i + 1);
        }
    }

    /// The first and last system within this margin of the window where the staff begins at
    /// this height.
    fn near(&self, mut top: f64, margin: f64) -> (usize, usize) {
        let window = window_height();
        let mut near = None;
        for (i, slot) in self.systems.iter().enumerate() {
            if top < window + margin && top + slot.height > -margin {
                near = Some((near.map_or(i, |(first, _)| first), i));
            }
            top += slot.height;
        }
        near.unwrap_or(NONE)
    }

    /// Marks the chord that sounds, and where it leads, keeps it in view; whoever has scrolled
    /// away from the chord before it is left there.
    pub(super) fn follow(&mut self, app: &App, chord: Option<usize>, leads: bool) {
        if chord == self.cursor {
            return;
        }
        let has_gone = self.cursor.is_some_and(|before| !self.is_in_sight(before));
        self.cursor = chord;
        if chord.is_some() && leads && !has_gone {
            self.reveal(chord);
            self.fill(app);
        }
        self.mark_sounding(chord);
    }

    fn mark_sounding(&self, chord: Option<usize>) {
        for element in all("#staff .sounding") {
            let _ = element.class_list().remove_1("sounding");
        }
        let Some(chord) = chord else { return };
        for element in all(&format!("#staff [data-chord=\"{chord}\"]")) {
            let _ = element.class_list().add_1("sounding");
        }
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
                let height = (y - rect.top()) * scale - slot.band - system.rise;
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
        let Some(target) = self.system_of(chord).and_then(holder) else { return };
        let (rect, room) = (target.get_bounding_client_rect(), fit::room());
        if rect.top() >= room.start && rect.bottom() <= room.end {
            return;
        }
        let options = ScrollIntoViewOptions::new();
        // Under the task and above the tools there is no room to spare on a phone.
        options.set_block(match room.start > 0.0 {
            true => ScrollLogicalPosition::Nearest,
            false => ScrollLogicalPosition::Center,
        });
        let still = dom::prefers_stillness();
        options.set_behavior(if still { ScrollBehavior::Instant } else { ScrollBehavior::Smooth });
        target.scroll_into_view_with_scroll_into_view_options(&options);
    }

    /// Whether anything of a chord's system is in view.
    fn is_in_sight(&self, chord: usize) -> bool {
        let Some(system) = self.system_of(chord).and_then(holder) else { return false };
        let (rect, room) = (system.get_bounding_client_rect(), fit::room());
        rect.bottom() > room.start && rect.top() < room.end
    }
}

impl Drawn {
    /// Takes over where everything stands in a system, and gives it room where it is `wide` CSS
    /// pixels wide.
    fn stand(&mut self, index: usize, system: System, wide: f64) {
        let tall = system.rise + system.height + self.band;
        let height = (tall * wide / system.width).ceil();
        if height != self.height
            && let Some(holder) = holder(index)
        {
            let _ = holder.style().set_property("height", &format!("{height}px"));
            self.height = height;
        }
        self.places = Some(system);
    }

    /// What of a system is seen, in staff spaces.
    fn view_box(&self) -> Option<String> {
        let system = self.places.as_ref()?;
        let above = system.rise + self.band;
        let tall = above + system.height;
        Some(format!("0 {:.2} {:.2} {tall:.2}", 0.0 - above, system.width))
    }

    /// Brings some pieces of the document to this markup of a system whose staves lie where
    /// they lay; says whether they were there.
    fn mend(&mut self, index: usize, markup: &str, system: System, wide: f64) -> bool {
        self.stand(index, system, wide);
        let svg = holder(index).and_then(|holder| holder.first_element_child());
        let Some((svg, view_box)) = svg.zip(self.view_box()) else { return false };
        dom::set_attr(&svg, "viewBox", &view_box);
        self.pieces.mend_some(&svg, markup)
    }

    /// Takes the drawing out of the document.
    fn take_away(&mut self, index: usize) {
        if let Some(holder) = holder(index) {
            dom::clear(&holder);
        }
        (self.pieces, self.stands) = (Pieces::default(), None);
        (self.painted, self.fresh) = (false, false);
    }

    /// Brings the document to this markup of the system, while `goes_on` says so where nothing
    /// stands elsewhere than it stood; says whether that is done.
    fn put(&mut self, index: usize, markup: &str, goes_on: impl Fn() -> bool) -> bool {
        let (Some(holder), Some(view_box)) = (holder(index), self.view_box()) else { return true };
        let stands = self.places.as_ref().map(stands);
        let stood = std::mem::replace(&mut self.stands, stands);
        let label = tell(said::SYSTEM, [&(index + 1)]);
        self.fresh = match holder.first_element_child() {
            Some(svg) => {
                dom::set_attr(&svg, "viewBox", &view_box);
                dom::set_attr(&svg, "aria-label", &label);
                let moved = stood != self.stands;
                self.pieces.patch(&svg, markup, || moved || goes_on())
            }
            None => {
                holder.set_inner_html(&format!(
                    "<svg viewBox=\"{view_box}\" role=\"img\" aria-label=\"{label}\">{markup}</svg>"
                ));
                self.pieces = Pieces::of(markup);
                true
            }
        };
        self.fresh
    }
}

/// Where the staves and columns of a system stand, and its height, in thousandths of a staff
/// space: what does not move where it only rises.
fn stands(system: &System) -> Vec<i64> {
    let staves = [system.treble_top, system.bass_top, system.figures_top, system.height];
    let room = system.room();
    let columns = room.columns.iter().flat_map(|it| [it.x, it.left, it.right]);
    let all = staves.into_iter().chain([room.staff_end]).chain(columns);
    all.map(|at| (at * 1000.0).round() as i64).collect()
}

fn holder(index: usize) -> Option<HtmlElement> {
    use wasm_bindgen::JsCast;
    let holders = dom::get::<Element>("staff")?.children();
    holders.item(u32::try_from(index).ok()?)?.dyn_into().ok()
}

fn all(selector: &str) -> impl Iterator<Item = Element> {
    use wasm_bindgen::JsCast;
    let list: Option<NodeList> = dom::document().and_then(|d| d.query_selector_all(selector).ok());
    let length = list.as_ref().map_or(0, NodeList::length);
    (0..length).filter_map(move |i| list.as_ref()?.item(i)?.dyn_into().ok())
}
