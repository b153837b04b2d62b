//! Making a bass: a whole prelude in one press, to be changed note by note after.

use super::{dom, notice, with};
use crate::app::Intent;
use tastata::prelude::prelude;
use web_sys::{HtmlSelectElement, MouseEvent};

pub(super) fn wire() {
    dom::on_id("make-prelude", "click", |_: MouseEvent| {
        let seconds = dom::get::<HtmlSelectElement>("prelude-length")
            .and_then(|select| select.value().parse().ok())
            .unwrap_or(60);
        // Chance only chooses the seed, which the sketch then keeps.
        let seed = (js_sys::Math::random() * f64::from(u32::MAX)) as u32;
        with(move |page| {
            let made = prelude(page.app.reading().harmony.home, seconds, seed);
            page.act(Intent::wish(move |sketch| {
                sketch.tonality = made.tonality;
                sketch.notes = made.notes;
                sketch.roll = made.roll;
                sketch.title.clear();
            }));
            page.act(Intent::Select(None));
            notice::say("A prelude is made. Play it, then change whatever you like.");
        });
    });
}
