//! All voices: fifths and octaves with an inner voice, told for information, heard,
//! and on request marked on the staff.

use super::audio::Follow;
use super::reader::lang;
use super::{Page, act, dom, with};
use crate::app::{App, Intent};
use std::fmt::Write;
use tastata::frame::{InnerParallel, OuterPair, Perfect, inner_parallels};
use tastata::hands::Hand;
use tastata::pitch::Pitch;
use tastata::roll::outer_voices;
use tastata::staff::{System, stave_of};
use tastata::words;
use web_sys::{Element, Event, HtmlInputElement, MouseEvent};

/// Lines shown; the summary counts them all.
const MOST: usize = 60;

pub(super) fn wire() {
    dom::on_id("voices-room", "toggle", |_: Event| with(|page| show(&page.app)));
    dom::on_id("parallels", "change", |_: Event| {
        let on = dom::get::<HtmlInputElement>("parallels").is_some_and(|input| input.checked());
        act(Intent::ShowParallels(on));
    });
    dom::on_id("voices", "click", |event: MouseEvent| {
        let Some(line) = dom::closest(&event, "[data-parallel]") else { return };
        let Some(place) = dom::data_number(&line, "data-parallel") else { return };
        with(move |page| page.hear_parallel(place));
    });
}

/// Lists what there is, if the list is open.
pub(super) fn show(app: &App) {
    let open = dom::get::<Element>("voices-room").is_some_and(|room| room.has_attribute("open"));
    let Some(list) = dom::get::<Element>("voices").filter(|_| open) else { return };
    if let Some(input) = dom::get::<HtmlInputElement>("parallels") {
        input.set_checked(app.view().parallels);
    }
    let found = inner_parallels(&app.reading().hands.handfuls);
    dom::set_text("voices-summary", &words::voices_summary(found.len(), lang()));
    let lines: Vec<String> =
        found.iter().take(MOST).map(|it| words::inner_parallel(it, lang())).collect();
    let key = lines.join("\n");
    if list.get_attribute("data-key").as_ref() == Some(&key) {
        return;
    }
    dom::set_attr(&list, "data-key", &key);
    dom::clear(&list);
    for (place, text) in lines.iter().enumerate() {
        let Some((item, button)) = dom::make("li", "").zip(dom::text("button", "", text)) else {
            return;
        };
        dom::set_attr(&button, "data-parallel", &place.to_string());
        let _ = item.append_child(&button);
        let _ = list.append_child(&item);
    }
}

/// The marks over one system, if they are asked for: a line from note to note in each of
/// the two voices.
pub(super) fn markup(system: &System, app: &App, found: &[InnerParallel]) -> String {
    let mut lines = String::new();
    let first = system.chords.first().map_or(0, |place| place.chord);
    let last = system.chords.last().map_or(0, |place| place.chord);
    for parallel in found.iter().filter(|it| first <= it.from && it.from < last) {
        let x = |chord: usize| system.chords.iter().find(|p| p.chord == chord).map(|p| p.x);
        let (Some(from), Some(to)) = (x(parallel.from), x(parallel.from + 1)) else { continue };
        let kind = match parallel.kind {
            Perfect::Fifth => "fifths",
            Perfect::Octave => "octaves",
        };
        for (before, after) in [parallel.lower, parallel.upper] {
            let y = |chord: usize, pitch: Pitch| {
                let handful = app.reading().hands.handfuls.get(chord);
                let right = handful.is_some_and(|both| both.right.contains(&pitch));
                let hand = if right { Hand::Right } else { Hand::Left };
                system.y_of(stave_of(pitch, hand), pitch.diatonic())
            };
            let (y1, y2) = (y(parallel.from, before), y(parallel.from + 1, after));
            let _ = write!(
                lines,
                "<line class=\"parallel {kind}\" x1=\"{:.2}\" y1=\"{y1:.2}\" x2=\"{:.2}\" y2=\"{y2:.2}\"/>",
                from + 0.9,
                to - 0.9
            );
        }
    }
    lines
}

impl Page {
    /// Goes to a pair of fifths or octaves and plays the two voices slowly.
    fn hear_parallel(&mut self, place: usize) {
        let found = inner_parallels(&self.app.reading().hands.handfuls);
        let Some(parallel) = found.get(place) else { return };
        let pair = |bass: Pitch, soprano: Pitch| OuterPair { bass, soprano };
        let (lower, upper) = (parallel.lower, parallel.upper);
        let pairs = [pair(lower.0, upper.0), pair(lower.1, upper.1)];
        self.choose_chord(parallel.from + 1);
        self.hear(outer_voices(&pairs), 0, Follow::Keys);
    }
}
