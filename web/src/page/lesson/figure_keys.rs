//! Figures to touch, for students whose keyboard is a piece of glass: the usual
//! signs, one press each.

use super::super::{dom, with};
use crate::app::Intent;
use tastata::figures::read_figures;
use web_sys::{Element, MouseEvent};

/// The signs of the octave rule, the cadences and the motions; `+` raises.
const FIGURES: [&str; 16] = [
    "5/3", "6", "6/5", "6/4/3", "6/4/2", "7", "6/4", "5/3+", "6+", "6+/4/3", "6/4+/2", "4-3",
    "4-3+", "7-6", "5-6", "9-8",
];

pub(super) fn fill() {
    let Some(list) = dom::get::<Element>("figure-keys") else { return };
    dom::clear(&list);
    for text in FIGURES {
        if let Some(button) = dom::text("button", "quiet", text) {
            dom::set_attr(&button, "data-figures", text);
            let _ = list.append_child(&button);
        }
    }
}

pub(super) fn wire() {
    dom::on_id("figure-keys", "click", |event: MouseEvent| {
        let button = dom::closest(&event, "[data-figures]");
        let text = button.and_then(|it| it.get_attribute("data-figures")).unwrap_or_default();
        let Ok(figures) = read_figures(&text) else { return };
        with(move |page| {
            let Some(place) = page.app.view().selected else { return };
            page.act(Intent::Figures { note: place.note, figures: Some(figures) });
            page.hear_chosen();
        });
    });
}
