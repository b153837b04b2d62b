//! What the roll adds to the chosen chord's handful: every kind of note once, with
//! its reason and who says so.

use super::reader::lang;
use super::{dom, with};
use crate::app::App;
use tastata::roll::Why;
use tastata::{phrase, words};
use web_sys::{Element, Event};

pub(super) fn wire() {
    dom::on_id("added-room", "toggle", |_: Event| with(|page| show(&page.app)));
}

/// Lists the notes added to the chosen chord, if the list is open.
pub(super) fn show(app: &App) {
    let open = dom::get::<Element>("added-room").is_some_and(|room| room.has_attribute("open"));
    let (true, Some(list)) = (open, dom::get::<Element>("added")) else { return };
    dom::clear(&list);
    let reasons = app.selected_chord().map(|chord| reasons(app, chord)).unwrap_or_default();
    if reasons.is_empty() {
        let nothing = phrase!(
            "Nothing: the handful is played as it stands.",
            "Nulla: la presa si suona come sta.",
            "Nichts: Der Griff wird gespielt, wie er dasteht.",
            "Rien : la poignée se joue telle quelle.",
            "Nada: la postura se toca tal como está."
        );
        add(&list, "hint", lang().say(nothing));
    }
    for (why, notes) in reasons {
        add(&list, "", &format!("{}: {}", notes.join(" "), words::added(why, lang())));
    }
}

/// Each reason once, in order of time, with the notes it stands for.
fn reasons(app: &App, chord: usize) -> Vec<(Why, Vec<String>)> {
    let performance = &app.reading().performance;
    let mut reasons: Vec<(Why, Vec<String>)> = Vec::new();
    for added in &performance.added {
        let Some(touch) = performance.touches.get(added.touch) else { continue };
        if touch.chord != chord {
            continue;
        }
        let name = lang().pitch(touch.pitch);
        match reasons.iter_mut().find(|(why, _)| *why == added.why) {
            Some((_, notes)) => notes.push(name),
            None => reasons.push((added.why, vec![name])),
        }
    }
    reasons
}

fn add(list: &Element, class: &str, text: &str) {
    if let Some(item) = dom::text("li", class, text) {
        let _ = list.append_child(&item);
    }
}
