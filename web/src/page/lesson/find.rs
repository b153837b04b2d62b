//! Pointing at planted faults: a rule, the chosen chord, and the marks so far.

use super::super::controls::{press, value_of_select};
use super::super::reader::{lang, say, tell};
use super::super::{Page, dom, notice, wishes, with};
use crate::app::Work;
use tastata::frame::Rule;
use tastata::lesson::{Found, Naming};
use tastata::words;
use tastata::words::page::said;
use web_sys::{Element, MouseEvent};

/// Fills the list of rules.
pub(super) fn fill() {
    for (number, rule) in Rule::ALL.into_iter().enumerate() {
        wishes::option("desk-rule", &number.to_string(), words::rule_name(rule, lang()));
    }
}

pub(super) fn wire() {
    press("desk-found", || {
        let rule = value_of_select("desk-rule").parse().ok();
        let rule = rule.and_then(|number: usize| Rule::ALL.get(number)).copied();
        with(move |page| {
            let Some(chord) = page.app.selected_chord() else {
                notice::say(say(said::FIND_CHOOSE));
                return;
            };
            let naming = page.teaching.desk.work().and_then(|work| work.naming());
            let rule = rule.filter(|_| naming == Some(Naming::Named));
            page.mark(Found { chord, rule });
        });
    });
    dom::on_id("desk-marks", "click", |event: MouseEvent| {
        let Some(mark) = dom::closest(&event, "[data-mark]") else { return };
        let Some(at) = dom::data_number(&mark, "data-mark") else { return };
        with(move |page| {
            let found = page.teaching.desk.work().map(|work| work.answer().found);
            if let Some(found) = found.and_then(|found| found.get(at).copied()) {
                page.mark(found);
            }
        });
    });
}

impl Page {
    /// Points at a fault, or takes the mark away.
    fn mark(&mut self, found: Found) {
        if let Some(work) = self.teaching.desk.work() {
            work.mark(found, js_sys::Date::now());
        }
        self.keep_work();
        self.show();
    }
}

/// Shows what is needed to point at faults, where they are to be found.
pub(super) fn show(work: &Work) {
    let naming = work.naming();
    dom::set_hidden("desk-find", naming.is_none());
    dom::set_hidden("desk-rule-label", naming != Some(Naming::Named));
    if naming.is_some() {
        dom::refill("desk-marks", |list| marks(list, work));
    }
}

fn marks(list: &Element, work: &Work) {
    for (place, found) in work.answer().found.iter().enumerate() {
        let rule = found.rule.map(|rule| format!(": {}", words::rule_name(rule, lang())));
        let text =
            format!("{}{} ✕", tell(said::CHORD, [&(found.chord + 1)]), rule.unwrap_or_default());
        let (Some(item), Some(button)) = (dom::make("li", ""), dom::text("button", "", &text))
        else {
            return;
        };
        dom::set_attr(&button, "data-mark", &place.to_string());
        dom::set_attr(&button, "title", say(said::UNMARK));
        let _ = item.append_child(&button);
        let _ = list.append_child(&item);
    }
}
