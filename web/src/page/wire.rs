//! Wiring the whole page once, and what belongs to no single part of it.

use super::{Page, share, store, stroke_pad, take, tuning, typing, wishes, with};
use super::{
    audio, bars, bass_field, card, dom, make, notice, others, pointer, remarks, rescue, rules,
};
use web_sys::{Event, HashChangeEvent};

/// Wires everything, once.
pub(super) fn all() {
    bars::wire();
    bass_field::wire();
    card::wire();
    remarks::wire();
    wishes::wire();
    make::wire();
    others::wire();
    rules::wire();
    share::wire();
    take::wire();
    tuning::wire();
    stroke_pad::wire();
    super::contour::wire();
    super::reach::wire();
    super::side::wire();
    super::voices::wire();
    super::would::wire();
    super::projection::wire();
    super::reader::wire();
    super::glossary::wire();
    super::lesson::wire();
    super::midi_in::wire();
    super::bring::wire();
    super::print::wire();
    notice::wire();
    rescue::wire();
    pointer::wire();
    typing::wire();
    audio::keep_pumping();
    if let Some(window) = dom::window() {
        dom::on(&window, "resize", |_: Event| with(|page| page.show()));
        // Scrolling anywhere: the listener stands above whatever scrolls.
        dom::on_capture(&window, "scroll", || with(|page| page.staff.scrolled(&page.app)));
        // The last word a page hears before it goes, also while a finger drags.
        dom::on(&window, "pagehide", |_: Event| with(Page::keep_owed));
        dom::on(&window, "hashchange", |_: HashChangeEvent| store::open_address());
    }
    if let Some(document) = dom::document() {
        // A phone opens the sound only at the end of a touch, and puts it to sleep
        // when a call comes in: every touch, press and key wakes it.
        for name in ["pointerup", "click", "keydown"] {
            dom::on(&document, name, |_: Event| with(|page| page.sound.rouse()));
        }
    }
}
