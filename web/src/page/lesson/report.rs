//! What was found in an answer: each finding with its advice, its place and its
//! sound; the differences from the model; comments.

use super::super::audio::Follow;
use super::super::controls::press;
use super::super::reader::{lang, say, tell};
use super::super::{Page, dom, glossary, notice, with};
use super::line;
use crate::app::{Reader, Review, Work};
use tastata::frame::{Rule, Severity};
use tastata::lesson::{Finding, FindingKind, Outcome, Report, Told, outer_voices};
use tastata::phrase;
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
            dom::focus("#comment-text");
        });
        return;
    }
    if let Some(place) = number("data-more") {
        with(move |page| {
            if let Some(work) = page.teaching.desk.work() {
                work.ask_more(place);
            }
            page.show();
            // What was pressed is gone; what it told stands here.
            dom::focus(&format!("#report-list [data-finding='{place}']"));
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
    let said =
        |finding: &Finding| Said { told: work.told(finding), may_ask: work.may_ask_more(finding) };
    list(report, work.model().is_some(), said);
}

pub(super) fn show_review(review: &Review) {
    dom::set_hidden("report", false);
    dom::set_text("report-title", say(said::WAS_FOUND));
    match review.report() {
        Some(report) => list(report, true, |_| Said { told: Told::All, may_ask: false }),
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

/// How much is said of a finding, and whether there is a way to more.
struct Said {
    told: Told,
    may_ask: bool,
}

fn list(report: &Report, differences: bool, said: impl Fn(&Finding) -> Said) {
    dom::refill("report-list", |list| findings(list, report, said));
    let told = differences && !report.differences.is_empty();
    dom::set_hidden("differences-room", !told);
    dom::refill("differences", |list| {
        for difference in &report.differences {
            let text = words::difference(difference, lang());
            if let Some(item) = line(&text, Some(difference.chord)) {
                let _ = list.append_child(&item);
            }
        }
    });
}

fn findings(list: &Element, report: &Report, said: impl Fn(&Finding) -> Said) {
    let mut places = 0..;
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
        let begun = result.outcome != Outcome::Blank;
        let mut findings = result.findings.iter().zip(&mut places).peekable();
        while let Some((finding, place)) = findings.next() {
            // What is still to be made is told together.
            let from = place_of(finding);
            let mut to = from;
            while let Some((next, _)) = findings.peek()
                && alike(finding, next)
                && place_of(next) == to + 1
            {
                to += 1;
                findings.next();
            }
            let together = (to > from)
                .then(|| words::still_to_do(&finding.kind, from + 1, to + 1, lang()))
                .flatten();
            let item = match together {
                Some(text) => line(&text, finding.chords.map(|(first, _)| first)),
                None => item(finding, place, &said(finding)),
            };
            if let Some(item) = item.filter(|_| begun) {
                let _ = list.append_child(&item);
            }
        }
    }
}

/// Where a finding stands: its note, where it is about one, or its chord.
fn place_of(finding: &Finding) -> usize {
    match finding.kind {
        FindingKind::NoFigures { note } => note,
        _ => finding.chords.map_or(0, |(first, _)| first),
    }
}

/// Whether both say that the same is still to be made.
fn alike(one: &Finding, other: &Finding) -> bool {
    let kind = std::mem::discriminant(&one.kind) == std::mem::discriminant(&other.kind);
    kind && words::still_to_do(&one.kind, 1, 2, lang()).is_some()
}

fn item(finding: &Finding, place: usize, said: &Said) -> Option<Element> {
    let (kind, spoken) = match finding.severity {
        Severity::Fault => ("fault", say(said::FAULT)),
        Severity::Caution => ("caution", say(said::CAUTION)),
    };
    // Where a planted fault is, is the answer itself.
    let hides_place = matches!(finding.kind, FindingKind::Missed(_));
    let placed = !hides_place || said.told > Told::Place;
    let item = dom::make("li", "")?;
    let button = dom::make("button", kind)?;
    dom::set_attr(&button, "data-finding", &place.to_string());
    if let Some((_, chord)) = finding.chords.filter(|_| placed) {
        dom::set_attr(&button, "data-chord", &chord.to_string());
    }
    let _ = button.append_child(&*dom::text("span", "visually-hidden", spoken)?);
    let sentence = words::finding_told(finding, said.told, lang());
    let _ = button.append_child(&*dom::text("span", "", &sentence)?);
    let _ = item.append_child(&button);
    let detail = dom::make("div", "detail")?;
    let rule = rule_of(&finding.kind);
    // The rule of a fault that is still to be found or named is not explained.
    let keeps_back = words::finding_keeps_back(finding, lang());
    let open_rule = rule.filter(|_| said.told == Told::All || !keeps_back);
    if said.told > Told::Place {
        let advice = words::finding_advice(finding, lang());
        let explained = open_rule.map(|rule| words::rule_explained(rule, lang()));
        let advice = if keeps_back && rule.is_some() && open_rule.is_none() { "" } else { &advice };
        let told = format!("{} {advice}", explained.unwrap_or_default());
        if !told.trim().is_empty() {
            let _ = detail.append_child(&*glossary::text_marked("p", "", told.trim())?);
        }
    }
    let row = dom::make("div", "row")?;
    if let (Some((from, to)), Some(_)) = (finding.chords, open_rule) {
        let hear = dom::text("button", "quiet", say(said::HEAR_TWO))?;
        dom::set_attr(&hear, "data-hear-from", &from.to_string());
        dom::set_attr(&hear, "data-hear-to", &to.to_string());
        let _ = row.append_child(&hear);
    }
    let more = match said.told {
        Told::Place => {
            Some(phrase!("A hint", "Un suggerimento", "Ein Hinweis", "Un indice", "Una pista"))
        }
        Told::Advice if keeps_back => Some(phrase!(
            "What belongs here",
            "Che cosa ci va",
            "Was hierher gehört",
            "Ce qui convient",
            "Lo que corresponde"
        )),
        Told::Advice | Told::All => None,
    };
    if let Some(more) = more.filter(|_| said.may_ask) {
        let more = lang().say(more);
        let button = dom::text("button", "quiet", more)?;
        dom::set_attr(&button, "data-more", &place.to_string());
        dom::set_attr(&button, "aria-label", &format!("{more}: {sentence}"));
        let _ = row.append_child(&button);
    }
    let _ = detail.append_child(&row);
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
    dom::refill("comments", |list| comment_lines(list, review));
}

fn comment_lines(list: &Element, review: &Review) {
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
