//! Work on a phone: what it is done with stands beside the keys, under the thumb, and
//! the task folds to a line once it is read.

use super::super::controls::press;
use super::super::{Page, dom, with};
use crate::app::{Desk, Work};
use tastata::lesson::Ask;
use web_sys::{Element, MouseEvent};

/// Screens too small for the desk above the staff.
const SMALL: &str = "(max-width: 600px), (max-height: 500px)";
/// What goes down beside the keys, in the order in which it stands there.
const TOOLS: [&str; 5] = ["desk-saidrow", "desk-choices", "desk-find", "figure-keys", "desk-deeds"];
/// Where what was moved stands on a larger screen: after these.
const HOMES: [(&str, &str); 7] = [
    ("desk-find", "desk-hints"),
    ("desk-choices", "desk-find"),
    ("desk-deeds", "desk-choices"),
    ("desk-saidrow", "desk-deeds"),
    ("desk-leave", "desk-after"),
    ("figure-keys", "figures-note"),
    SPICE,
];
/// What the roll is spiced with: down only where a roll is asked for.
const SPICE: (&str, &str) = ("spice-label", "plan-label");

pub(super) fn wire() {
    press("desk-fold", || fold(!is_folded()));
    if let Some(document) = dom::document() {
        // Whoever sets to work has read the task. After the touch, not on it: what is
        // touched must not move away under the finger.
        dom::on(&document, "click", |event: MouseEvent| {
            if dom::closest(&event, "#staff, #keyboard, #figure-keys, #desk-choices").is_some() {
                fold(true);
            }
        });
    }
    for (id, by) in [("keys-lower", -1.0), ("keys-higher", 1.0)] {
        press(id, move || with(move |page| page.keyboard.shift(by, &page.app)));
    }
    press("strip-before", || with(|page| page.step_and_hear(-1)));
    press("strip-after", || with(|page| page.step_and_hear(1)));
}

/// Puts things where this screen has them.
pub(super) fn show(page: &Page) {
    let small = dom::window().and_then(|it| it.match_media(SMALL).ok().flatten());
    let working = !matches!(page.teaching.desk, Desk::Own);
    let small = working && small.is_some_and(|it| it.matches());
    dom::mark_page("handheld", small);
    dom::set_hidden("hand", !small);
    if small {
        go_down();
    } else {
        go_home(&HOMES);
    }
    let rolls = small && matches!(&page.teaching.desk, Desk::Work(work) if asks_roll(work));
    dom::set_hidden("hand-roll", !rolls);
    match dom::get::<Element>("hand-roll") {
        Some(row) if rolls => put_into(&row, SPICE.0),
        _ => go_home(&[SPICE]),
    }
}

fn asks_roll(work: &Work) -> bool {
    work.exercise().asks.iter().any(|ask| matches!(ask, Ask::Roll { .. } | Ask::Free))
}

fn go_down() {
    let Some(hand) = dom::get::<Element>("hand") else { return };
    for id in TOOLS {
        put_into(&hand, id);
    }
    if let Some(deeds) = dom::get::<Element>("desk-deeds") {
        put_into(&deeds, "desk-leave");
    }
}

/// Puts an element at the end of another, unless it stands in it.
fn put_into(holder: &Element, id: &str) {
    let Some(element) = dom::get::<Element>(id) else { return };
    if element.parent_element().as_ref() != Some(holder) {
        let _ = holder.append_child(&element);
    }
}

fn go_home(homes: &[(&str, &str)]) {
    for (id, before) in homes {
        let (Some(element), Some(before)) = (dom::get::<Element>(id), dom::get::<Element>(before))
        else {
            continue;
        };
        if element.previous_element_sibling().as_ref() != Some(&before) {
            let _ = before.after_with_node_1(&element);
        }
    }
}

fn is_folded() -> bool {
    dom::get::<Element>("desk").is_some_and(|desk| desk.class_list().contains("folded"))
}

/// Folds the task to a line, or shows all of it.
pub(super) fn fold(folded: bool) {
    let Some(desk) = dom::get::<Element>("desk").filter(|_| is_folded() != folded) else { return };
    let _ = desk.class_list().toggle_with_force("folded", folded);
    dom::set_attr_of("desk-fold", "aria-expanded", if folded { "false" } else { "true" });
    dom::set_text("desk-fold", if folded { "▾" } else { "▴" });
    with(|page| page.show());
}
