//! What was found in an answer: each finding with its advice, its place and its
//! sound; the differences from the model; comments.

use super::super::audio::Follow;
use super::super::controls::press;
use super::super::reader::{lang, say, tell};
use super::super::{Page, dom, glossary, notice, with};
use super::line;
use crate::app::{Reader, Review, Work};
use tastata::frame::{Rule, Severity};
use tastata::lesson::{Finding, FindingKind, Outcome, Report, outer_voices};
use tastata::words;
use tastata::words::page::said;
use web_sys::{Element, HtmlTextAreaElement, MouseEvent};

pub(super) fn wire() {
    for id in ["report-list", "differences", "comments"] {
        dom::on_id(id, "click", |event: MouseEvent| pressed(&event));
    }
    press("comment-whole", || with(|page| page.comment(None)));
    press("comment-chord", || {
        with(|page| match page.app.selected_chord() {
            Some(chord) => page.comment(Some(chord)),
            None => notice::say(say(said::CHOOSE_CHORD)),
        });
    });
}

fn pressed(event: &MouseEvent) {
    let number = |name: &str| {
        dom::closest(event, &format!("[{name}]")).and_then(|it| dom::data_number(&it, name))
    };
    if let Some(place) = number("data-uncomment") {
        with(move |page| {
            if let Some(review) = page.teaching.desk.review() {
                review.uncomment(place);
            }
            page.show();
        });
        return;
    }
    let hear = number("data-hear-from").zip(number("data-hear-to"));
    let chord = number("data-chord");
    with(move |page| {
        if let Some((from, to)) = hear {
            let performance = outer_voices(page.app.reading(), from, to);
            page.hear(performance, 0, Follow::Keys);
        } else if let Some(chord) = chord {
            page.choose_chord(chord);
            page.announce_chosen();
        }
    });
}

impl Page {
    fn comment(&mut self, chord: Option<usize>) {
        let Some(text) = dom::get::<HtmlTextAreaElement>("comment-text") else { return };
        if let Some(review) = self.teaching.desk.review() {
            review.comment(chord, &text.value());
            text.set_value("");
        }
        self.show();
    }
}

pub(super) fn hide() {
    dom::set_hidden("report", true);
}

pub(super) fn show_work(work: &Work, model_shown: bool) {
    let report = work.report().filter(|_| !model_shown);
    dom::set_hidden("report", report.is_none());
    dom::set_hidden("comments-room", true);
    let Some(report) = report else { return };
    let when =
        if work.changed_since_check() { say(said::LAST_CHECK) } else { say(said::WAS_FOUND) };
    dom::set_text("report-title", when);
    // Where the model is still shut, its own notes are not told.
    list(report, work.model().is_some());
}

pub(super) fn show_review(review: &Review) {
    dom::set_hidden("report", false);
    dom::set_text("report-title", say(said::WAS_FOUND));
    match review.report() {
        Some(report) => list(report, true),
        None => {
            for id in ["report-list", "differences"] {
                if let Some(list) = dom::get::<Element>(id) {
                    dom::clear(&list);
                }
            }
            dom::set_hidden("differences-room", true);
        }
    }
    comments(review);
}

fn list(report: &Report, differences: bool) {
    let Some(list) = dom::get::<Element>("report-list") else { return };
    dom::clear(&list);
    for result in &report.results {
        let sign = match result.outcome {
            Outcome::Done => "✓",
            Outcome::NotYet => "✕",
            Outcome::Blank => "○",
        };
        let asked = words::ask(&result.ask, lang());
        let text = format!("{sign} {} — {asked}", words::outcome(result.outcome, lang()));
        if let Some(item) = dom::text("li", "asked", &text) {
            let _ = list.append_child(&item);
        }
        if result.outcome == Outcome::Blank {
            continue;
        }
        for finding in &result.findings {
            if let Some(item) = item(finding) {
                let _ = list.append_child(&item);
            }
        }
    }
    let told = differences && !report.differences.is_empty();
    dom::set_hidden("differences-room", !told);
    let Some(list) = dom::get::<Element>("differences") else { return };
    dom::clear(&list);
    for difference in &report.differences {
        let text = words::difference(difference, lang());
        if let Some(item) = line(&text, Some(difference.chord)) {
            let _ = list.append_child(&item);
        }
    }
}

fn item(finding: &Finding) -> Option<Element> {
    let (kind, spoken) = match finding.severity {
        Severity::Fault => ("fault", say(said::FAULT)),
        Severity::Caution => ("caution", say(said::CAUTION)),
    };
    let item = dom::make("li", "")?;
    let button = dom::make("button", kind)?;
    if let Some((_, chord)) = finding.chords {
        dom::set_attr(&button, "data-chord", &chord.to_string());
    }
    let _ = button.append_child(&*dom::text("span", "visually-hidden", spoken)?);
    let said = words::finding(finding, lang());
    let _ = button.append_child(&*dom::text("span", "", &said)?);
    let _ = item.append_child(&button);
    let detail = dom::make("div", "detail")?;
    let advice = words::finding_advice(finding, lang());
    let rule = rule_of(&finding.kind).map(|rule| words::rule_explained(rule, lang()));
    let told = format!("{} {advice}", rule.unwrap_or_default());
    let _ = detail.append_child(&*glossary::text_marked("p", "", told.trim())?);
    if let (Some((from, to)), Some(_)) = (finding.chords, rule) {
        let hear = dom::text("button", "quiet", say(said::HEAR_TWO))?;
        dom::set_attr(&hear, "data-hear-from", &from.to_string());
        dom::set_attr(&hear, "data-hear-to", &to.to_string());
        let _ = detail.append_child(&hear);
    }
    let _ = item.append_child(&detail);
    Some(item)
}

/// The rule of the outer voices that a finding in the piece itself is about.
fn rule_of(kind: &FindingKind) -> Option<Rule> {
    match kind {
        FindingKind::Outer(fault) | FindingKind::Missed(fault) => Some(fault.rule),
        FindingKind::Misnamed { fault, .. } => Some(fault.rule),
        _ => None,
    }
}

fn comments(review: &Review) {
    dom::set_hidden("comments-room", false);
    dom::set_hidden("comment-new", review.reader() != Reader::Teacher);
    let Some(list) = dom::get::<Element>("comments") else { return };
    dom::clear(&list);
    let who = review.commented().teacher.trim();
    let by = if who.is_empty() { String::new() } else { format!("{who}: ") };
    for (place, comment) in review.comments() {
        let at = comment
            .chord
            .map(|chord| format!("{}: ", tell(said::CHORD, [&(chord + 1)])))
            .unwrap_or_default();
        let text = format!("{by}{at}{}", comment.text);
        let Some(item) = line(&text, comment.chord) else { return };
        if review.reader() == Reader::Teacher
            && let Some(away) = dom::text("button", "icon", "✕")
        {
            dom::set_attr(&away, "aria-label", say(said::UNCOMMENT));
            dom::set_attr(&away, "data-uncomment", &place.to_string());
            let _ = item.append_child(&away);
        }
        let _ = list.append_child(&item);
    }
    if review.comments().next().is_none()
        && let Some(none) = dom::text("li", "hint", say(said::NO_COMMENT))
    {
        let _ = list.append_child(&none);
    }
}
