//! A pad on which a finger draws the way of a stroke, from left to right, low to
//! high: the chord is then broken along that line.

use super::{Page, dom, with};
use crate::app::Intent;
use std::cell::RefCell;
use tastata::order;
use tastata::roll::{Performance, Stroke, StrokePlan};
use web_sys::{Element, PointerEvent};

/// Heights a drawn stroke keeps.
const HEIGHTS: usize = 8;

thread_local! {
    /// The points of the line being drawn: along and up, both from 0 to 1.
    static LINE: RefCell<Option<Vec<(f64, f64)>>> = const { RefCell::new(None) };
}

pub(super) fn wire() {
    dom::on_id("stroke-pad", "pointerdown", |event: PointerEvent| {
        event.prevent_default();
        if let Some(pad) = dom::get::<Element>("stroke-pad") {
            let _ = pad.set_pointer_capture(event.pointer_id());
        }
        LINE.set(Some(Vec::new()));
        add(&event);
    });
    dom::on_id("stroke-pad", "pointermove", |event: PointerEvent| add(&event));
    dom::on_id("stroke-pad", "pointerup", |_: PointerEvent| finish());
    dom::on_id("stroke-pad", "pointercancel", |_: PointerEvent| LINE.set(None));
    super::controls::press("stroke-for-all", || with(|page| page.stroke_for_all()));
}

/// Shows a drawn stroke on the pad, or else, fainter, the way the chord is rolled now.
pub(super) fn show(stroke: Option<Stroke>, performance: &Performance, chord: usize) {
    if LINE.with_borrow(Option::is_some) {
        return;
    }
    let (points, kind) = match stroke {
        Some(Stroke::Drawn(heights)) => {
            let along = |i: usize| i as f64 / (HEIGHTS - 1) as f64;
            let points = heights.iter().enumerate();
            (points.map(|(i, h)| (along(i), f64::from((*h).min(100)) / 100.0)).collect(), "drawn")
        }
        _ => (rolled(performance, chord), "rolled"),
    };
    put(&points);
    dom::set_attr_of("stroke-line", "class", kind);
}

/// The notes of a chord as it is rolled: along by time, up by pitch.
fn rolled(performance: &Performance, chord: usize) -> Vec<(f64, f64)> {
    let notes: Vec<(f64, f64)> = performance
        .touches
        .iter()
        .filter(|touch| touch.chord == chord)
        .map(|touch| (touch.down.as_secs(), f64::from(touch.key.number())))
        .collect();
    let ends = |of: fn(&(f64, f64)) -> f64| {
        let low = notes.iter().map(of).fold(f64::INFINITY, f64::min);
        let high = notes.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
        (low, (high - low).max(1e-9))
    };
    let ((begin, length), (low, height)) = (ends(|note| note.0), ends(|note| note.1));
    notes.iter().map(|(at, key)| ((at - begin) / length, (key - low) / height)).collect()
}

/// Draws a line through points from 0 to 1, with a little room around it.
fn put(points: &[(f64, f64)]) {
    let text = points.iter().map(|(x, y)| format!("{:.1},{:.1}", 2.0 + 96.0 * x, 96.0 - 92.0 * y));
    dom::set_attr_of("stroke-line", "points", &text.collect::<Vec<_>>().join(" "));
}

fn add(event: &PointerEvent) {
    let Some(pad) = dom::get::<Element>("stroke-pad") else { return };
    let rect = pad.get_bounding_client_rect();
    let x = (f64::from(event.client_x()) - rect.left()) / rect.width().max(1.0);
    let y = (f64::from(event.client_y()) - rect.top()) / rect.height().max(1.0);
    LINE.with_borrow_mut(|line| {
        let Some(line) = line else { return };
        line.push((x.clamp(0.0, 1.0), 1.0 - y.clamp(0.0, 1.0)));
        put(line);
        dom::set_attr_of("stroke-line", "class", "drawn");
    });
}

fn finish() {
    let Some(line) = LINE.take() else { return };
    let heights = heights(&line);
    with(move |page| page.chord_stroke(Stroke::Drawn(heights)));
}

/// Eight heights along a line, evenly spaced from its leftmost to its rightmost
/// point, in hundredths.
fn heights(line: &[(f64, f64)]) -> [u8; HEIGHTS] {
    let mut sorted = line.to_vec();
    order::by(&mut sorted, |a, b| a.0.total_cmp(&b.0));
    let (first, last) = (sorted.first().map_or(0.0, |p| p.0), sorted.last().map_or(0.0, |p| p.0));
    std::array::from_fn(|i| {
        let x = first + (last - first) * i as f64 / (HEIGHTS - 1) as f64;
        let near = sorted.iter().min_by(|a, b| (a.0 - x).abs().total_cmp(&(b.0 - x).abs()));
        (near.map_or(0.0, |p| p.1) * 100.0).round() as u8
    })
}

impl Page {
    /// Gives the chosen chord a stroke and lets it be heard.
    fn chord_stroke(&mut self, stroke: Stroke) {
        let Some(place) = self.app.view().selected else { return };
        self.act(Intent::wish(move |sketch| {
            if let Some(note) = sketch.notes.get_mut(place.note) {
                note.stroke.stroke = Some(stroke);
            }
        }));
        self.hear_chosen();
    }

    /// Gives every chord the chosen chord's stroke.
    fn stroke_for_all(&mut self) {
        let Some(place) = self.app.view().selected else { return };
        let stroke = self.app.sketch().notes.get(place.note).and_then(|note| note.stroke.stroke);
        let Some(stroke) = stroke else { return };
        self.act(Intent::wish(move |sketch| sketch.roll.plan = StrokePlan::Even(stroke)));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_rolled_goes_from_corner_to_corner() {
        use tastata::{bass::read_bass, reading::read, sketch::Sketch};
        let notes = read_bass("C3 G3 C3", None).notes.iter().map(|note| note.to_sketch()).collect();
        let performance = read(&Sketch { notes, ..Sketch::default() }).performance;
        let line = rolled(&performance, 0);
        assert_eq!(line.first(), Some(&(0.0, 0.0)));
        assert!(line.iter().any(|point| point.1 == 1.0));
        assert_eq!(line.last().map(|point| point.0), Some(1.0));
        assert!(rolled(&performance, 7).is_empty());
    }

    #[test]
    fn a_rising_line_keeps_rising() {
        let line: Vec<_> = (0..50).map(|i| (f64::from(i) / 49.0, f64::from(i) / 49.0)).collect();
        let heights = heights(&line);
        assert_eq!((heights[0], heights[7]), (0, 100));
        assert!(heights.windows(2).all(|pair| pair[0] < pair[1]), "{heights:?}");
        assert_eq!(super::heights(&[]), [0; 8]);
    }
}
