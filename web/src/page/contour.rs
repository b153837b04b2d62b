//! The line wished for the soprano, drawn over the staff by a finger.

use super::controls::press;
use super::{Page, act, dom, with};
use crate::app::{App, Intent};
use std::cell::RefCell;
use std::fmt::Write;
use tastata::frame::{Contour, ContourPoint};
use tastata::order;
use tastata::pitch::{Key, Pitch};
use tastata::staff::{Stave, System};
use web_sys::PointerEvent;

thread_local! {
    /// Chords passed over by the drawing finger, with the height over each.
    static LINE: RefCell<Option<Vec<(usize, Key)>>> = const { RefCell::new(None) };
}

pub(super) fn wire() {
    press("draw-line", || with(|page| page.act(Intent::DrawLine(!page.app.view().drawing))));
    press("arch-line", || {
        act(Intent::wish(|sketch| {
            let compass = sketch.frame.compass;
            let (low, high) = (compass.low.number(), compass.high.number());
            let ends = Key::clamped(low + (high - low) / 4);
            sketch.frame.contour = Contour::arch(ends, Key::clamped(high - 2), 600);
        }));
    });
    press("forget-line", || act(Intent::wish(|sketch| sketch.frame.contour = Contour::default())));
    dom::on_id("staff", "pointermove", |event: PointerEvent| {
        if LINE.with_borrow(Option::is_some) {
            drawn_over(&event);
        }
    });
    for end in ["pointerup", "pointercancel"] {
        dom::on_id("staff", end, |_: PointerEvent| {
            if let Some(line) = LINE.take() {
                with(move |page| page.wish_line(&line));
            }
        });
    }
}

/// Begins a line, if lines are being drawn; says whether it did.
pub(super) fn begin(event: &PointerEvent) -> bool {
    let Some(staff) = dom::get::<web_sys::Element>("staff") else { return false };
    let drawing = staff.class_list().contains("drawing");
    if drawing {
        event.prevent_default();
        // Lifted outside the staff, the finger must still end its line.
        let _ = staff.set_pointer_capture(event.pointer_id());
        LINE.set(Some(Vec::new()));
        drawn_over(event);
    }
    drawing
}

/// Shows whether lines are being drawn, and what can be forgotten.
pub(super) fn show(app: &App) {
    let drawing = app.view().drawing;
    if let Some(staff) = dom::get::<web_sys::Element>("staff") {
        let _ = staff.class_list().toggle_with_force("drawing", drawing);
    }
    dom::set_attr_of("draw-line", "aria-pressed", if drawing { "true" } else { "false" });
    dom::set_hidden("forget-line", app.sketch().frame.contour.points.is_empty());
}

/// The wished line over one system.
pub(super) fn markup(system: &System, app: &App) -> String {
    let contour = &app.sketch().frame.contour;
    let chords = app.reading().harmony.chords.len();
    let home = app.reading().harmony.home;
    let mut points = String::new();
    for place in &system.chords {
        let Some(height) = contour.height(place.chord, chords) else { return String::new() };
        let pitch = home.spell(Key::clamped(height));
        let y = system.y_of(Stave::Treble, pitch.diatonic());
        let _ = write!(points, "{:.2},{y:.2} ", place.x);
    }
    format!("<polyline class=\"wished\" points=\"{points}\"/>")
}

fn drawn_over(event: &PointerEvent) {
    let (x, y) = (f64::from(event.client_x()), f64::from(event.client_y()));
    with(move |page| {
        let Some((chord, diatonic)) = page.staff.chord_and_height(x, y) else { return };
        let home = page.app.reading().harmony.home;
        let class = home.class_of(Pitch::from_diatonic(diatonic, 0).step);
        let pitch = Pitch::from_diatonic(diatonic, class.alter);
        let Some(key) = pitch.key() else { return };
        LINE.with_borrow_mut(|line| {
            if let Some(line) = line {
                line.retain(|(other, _)| *other != chord);
                line.push((chord, key));
            }
        });
    });
}

impl Page {
    /// Wishes a line over the chords drawn over; elsewhere the old wish stays.
    fn wish_line(&mut self, line: &[(usize, Key)]) {
        let last = self.app.reading().harmony.chords.len().saturating_sub(1).max(1);
        let place = |chord: usize| u16::try_from(chord * 1000 / last).unwrap_or(1000);
        let mut new: Vec<ContourPoint> = line
            .iter()
            .map(|&(chord, height)| ContourPoint { place: place(chord), height })
            .collect();
        let (Some(first), Some(end)) =
            (new.iter().map(|p| p.place).min(), new.iter().map(|p| p.place).max())
        else {
            return;
        };
        self.act(Intent::wish(move |sketch| {
            let old = sketch.frame.contour.points.iter();
            new.extend(old.filter(|p| p.place < first || end < p.place).copied());
            order::sort(&mut new);
            sketch.frame.contour = Contour { points: new };
        }));
    }
}
