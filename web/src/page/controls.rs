//! Listening to the page's plain controls: buttons, choices, numbers, sliders.

use super::{act, dom};
use crate::app::Intent;
use tastata::sketch::Sketch;
use web_sys::{
    Event, HtmlButtonElement, HtmlInputElement, HtmlSelectElement, HtmlTextAreaElement, MouseEvent,
};

pub(super) fn press(id: &str, mut act: impl FnMut() + 'static) {
    dom::on_id(id, "click", move |_: MouseEvent| act());
}

pub(super) fn chosen(id: &'static str, mut act: impl FnMut(String) + 'static) {
    dom::on_id(id, "change", move |_: Event| {
        if let Some(select) = dom::get::<HtmlSelectElement>(id) {
            act(select.value());
        }
    });
}

pub(super) fn number<T: std::str::FromStr + 'static>(id: &'static str, set: fn(&mut Sketch, T)) {
    chosen(id, move |value| {
        if let Ok(value) = value.parse::<T>() {
            act(Intent::wish(move |sketch| set(sketch, value)));
        }
    });
}

pub(super) fn named<T: Copy + 'static>(
    id: &'static str,
    list: &'static [(&'static str, T)],
    set: fn(&mut Sketch, T),
) {
    chosen(id, move |value| {
        if let Some(&(_, it)) = list.iter().find(|(name, _)| *name == value) {
            act(Intent::wish(move |sketch| set(sketch, it)));
        }
    });
}

/// A slider: every move counts, and all moves until it is let go are one step.
pub(super) fn slider<T: std::str::FromStr + 'static>(
    id: &'static str,
    number: u32,
    mut set: impl FnMut(T, Option<u32>) + 'static,
) {
    dom::on_id(id, "input", move |_: Event| {
        if let Ok(value) = value_of(id).parse() {
            set(value, Some(number));
        }
    });
    dom::on_id(id, "change", |_: Event| act(Intent::Settle));
}

pub(super) fn value_of(id: &str) -> String {
    dom::get::<HtmlInputElement>(id).map(|input| input.value()).unwrap_or_default()
}

pub(super) fn enable(id: &str, enabled: bool) {
    if let Some(button) = dom::get::<HtmlButtonElement>(id)
        && button.disabled() == enabled
    {
        button.set_disabled(!enabled);
    }
}

pub(super) fn is_checked(id: &str) -> bool {
    dom::get::<HtmlInputElement>(id).is_some_and(|input| input.checked())
}

/// What stands in a field of several lines.
pub(super) fn text_of(id: &str) -> String {
    dom::get::<HtmlTextAreaElement>(id).map(|text| text.value()).unwrap_or_default()
}

pub(super) fn value_of_select(id: &str) -> String {
    dom::get::<HtmlSelectElement>(id).map(|select| select.value()).unwrap_or_default()
}
