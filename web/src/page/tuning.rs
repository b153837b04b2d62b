//! A tuning of one's own: twelve cents values typed or pasted.

use super::reader::lang;
use super::{act, dom, wishes};
use crate::app::{App, Intent};
use tastata::sound::{Temperament, cents, read_table};
use tastata::words;
use web_sys::{Event, HtmlTextAreaElement};

pub(super) fn wire() {
    dom::on_id("own-tuning", "change", |_: Event| {
        let Some(field) = dom::get::<HtmlTextAreaElement>("own-tuning") else { return };
        if field.value().trim().is_empty() {
            return;
        }
        match read_table(&field.value()) {
            Ok(temperament) => {
                dom::set_text("own-tuning-note", "");
                act(Intent::wish(move |sketch| sketch.sound.temperament = temperament));
            }
            Err(trouble) => {
                dom::set_text("own-tuning-note", &words::table_trouble(trouble, lang()));
            }
        }
    });
}

/// Shows the table when it is in use.
pub(super) fn show(app: &App) {
    let temperament = app.sketch().sound.temperament;
    let named = wishes::TUNINGS.iter().any(|(_, it)| *it == temperament);
    if !named
        && !dom::has_focus("own-tuning")
        && let Some(field) = dom::get::<HtmlTextAreaElement>("own-tuning")
    {
        let text = table(temperament);
        if field.value().trim().is_empty() {
            field.set_value(&text);
        }
    }
}

fn table(temperament: Temperament) -> String {
    let values = cents(temperament).map(|value| format!("{value:.3}"));
    values.map(|v| v.trim_end_matches('0').trim_end_matches('.').to_owned()).join(" ")
}
