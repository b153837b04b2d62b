//! The bass as text, its tonality, and what could not be read in it.

use super::controls::chosen;
use super::reader::{lang, tell};
use super::{act, dom, wishes};
use crate::app::{App, Intent};
use tastata::words;
use tastata::words::page::said;
use web_sys::{Element, Event, FocusEvent, HtmlTextAreaElement};

pub(super) fn wire() {
    dom::on_id("bass", "input", |_: Event| {
        if let Some(field) = dom::get::<HtmlTextAreaElement>("bass") {
            act(Intent::TypeBass(field.value()));
        }
    });
    dom::on_id("bass", "blur", |_: FocusEvent| act(Intent::Settle));
    chosen("tonality", |value| {
        let index: Option<usize> = value.parse().ok();
        let tonality = index.and_then(|i| wishes::tonalities().nth(i));
        act(Intent::wish(move |sketch| sketch.tonality = tonality));
    });
}

/// Shows the text, unless it is being typed, and remarks on it.
pub(super) fn show(app: &App) {
    if let Some(field) = dom::get::<HtmlTextAreaElement>("bass") {
        let text = &app.view().bass_text;
        // What is being typed is never rewritten under the caret.
        if !dom::has_focus("bass") && field.value() != *text {
            field.set_value(text);
        }
    }
    show_text_remarks(app);
}

fn show_text_remarks(app: &App) {
    let Some(place) = dom::get::<Element>("bass-note") else { return };
    let view = app.view();
    let key: String = view
        .text_remarks
        .iter()
        .map(|r| format!("{:?}{}", r.at, view.bass_text.get(r.at.clone()).unwrap_or_default()))
        .chain(view.left_out.iter().cloned())
        .collect();
    if place.get_attribute("data-key").unwrap_or_default() == key {
        return;
    }
    dom::set_attr(&place, "data-key", &key);
    dom::clear(&place);
    for remark in view.text_remarks.iter().take(4) {
        let Some(line) = dom::make("span", "text-remark") else { return };
        let before = view.bass_text.get(..remark.at.start).unwrap_or_default();
        let lead: String =
            before.chars().rev().take(12).collect::<Vec<_>>().into_iter().rev().collect();
        let wrong = view.bass_text.get(remark.at.clone()).unwrap_or_default();
        let _ = line.append_with_str_1(&lead);
        if let Some(mark) = dom::make("mark", "") {
            mark.set_text_content(Some(wrong));
            let _ = line.append_child(&mark);
        }
        let sentence = words::text_trouble(remark.kind, lang());
        let _ = line.append_with_str_1(&format!(" — {sentence} "));
        let _ = place.append_child(&line);
    }
    if !view.left_out.is_empty() {
        let words = view.left_out.join(" ");
        let _ = place.append_with_str_1(&tell(said::LEFT_OUT, [&words]));
    }
}
