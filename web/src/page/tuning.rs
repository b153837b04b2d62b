//! A tuning of one's own: twelve cents values typed or pasted.

use super::controls::value_of_select;
use super::reader::lang;
use super::{Page, act, dom, wishes, with};
use crate::app::{App, Intent};
use tastata::sound::{Temperament, cents, read_table};
use tastata::words;
use web_sys::{Event, HtmlTextAreaElement};

/// What the list of tunings calls it.
pub(super) const OWN: &str = "own";

/// Which of the list of tunings this is.
pub(super) fn chosen(temperament: Temperament) -> String {
    let named = wishes::index_of(&wishes::TUNINGS, &temperament);
    if named.is_empty() { OWN.into() } else { named }
}

pub(super) fn wire() {
    dom::on_id("temperament", "change", |_: Event| {
        if value_of_select("temperament") == OWN {
            with(Page::begin_own_tuning);
        }
    });
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

impl Page {
    /// The tuning that sounds becomes a table to be changed, unless one was typed before.
    fn begin_own_tuning(&mut self) {
        let now = self.app.sketch().sound.temperament;
        let field = dom::get::<HtmlTextAreaElement>("own-tuning");
        let typed = field.as_ref().and_then(|field| read_table(&field.value()).ok());
        let own = typed.or_else(|| read_table(&table(now)).ok()).unwrap_or(now);
        dom::set_attr_of("own-tuning-room", "open", "");
        self.act(Intent::wish(move |sketch| sketch.sound.temperament = own));
        if let Some(field) = field {
            let _ = field.focus();
        }
    }
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
