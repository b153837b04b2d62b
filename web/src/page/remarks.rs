//! The list of faults and cautions. Choosing a line goes there and explains it:
//! the rule, what to do, who says so, and the two voices to be heard alone.

use super::reader::{lang, say, tell};
use super::{act, dom, glossary, with};
use crate::app::{App, Intent, Told};
use tastata::frame::{PinConflict, Rule, Severity};
use tastata::hands::{HandRemark, HandTrouble, Hardship, HardshipKind, hardships, strain};
use tastata::order;
use tastata::sound::howls;
use tastata::words;
use tastata::words::page::said;
use web_sys::{Element, MouseEvent};

/// Lines shown; the title counts them all.
const MOST: usize = 100;

/// Listens for presses in the list.
pub(super) fn wire() {
    dom::on_id("remarks", "click", |event: MouseEvent| pressed(&event));
}

/// One line of the list.
pub(super) struct Line {
    /// The first chord concerned.
    pub(super) from: usize,
    /// The last chord concerned.
    pub(super) chord: usize,
    pub(super) severity: Severity,
    pub(super) text: String,
    more: More,
}

/// What more there is to a line.
enum More {
    Nothing,
    /// A rule of the outer voices.
    Rule(Told),
    /// A pin that could be freed.
    Conflict(PinConflict),
}

/// All faults, then all cautions, each by place.
pub(super) fn lines(app: &App) -> Vec<Line> {
    let reading = app.reading();
    let outer = reading.frame.faults.iter().map(|fault| Line {
        from: fault.from,
        chord: fault.to,
        severity: fault.severity,
        text: words::fault(fault, lang()),
        more: More::Rule(Told { rule: fault.rule, from: fault.from, to: fault.to }),
    });
    let conflicts = reading.frame.conflicts.iter().map(|conflict| Line {
        from: conflict.free,
        chord: conflict.free,
        severity: Severity::Caution,
        text: words::pin_conflict(conflict, lang()),
        more: More::Conflict(conflict.clone()),
    });
    let caution = |chord, text| {
        let severity = Severity::Caution;
        Line { from: chord, chord, severity, text, more: More::Nothing }
    };
    let hands = reading
        .hands
        .remarks
        .iter()
        .map(|remark| caution(remark.chord, words::hand_remark(remark, lang())));
    let hard = hard(app).into_iter().map(|it| caution(it.chord, words::hardship(&it, lang())));
    let chord_of = |note: usize| reading.harmony.chords.iter().position(|c| c.note == note);
    let harmony = reading.harmony.remarks.iter().map(|remark| {
        let chord = chord_of(remark.note).unwrap_or_default();
        caution(chord, words::harmony_remark(remark, lang()))
    });
    let mut wolves: Vec<Line> = Vec::new();
    for (chord, wolf) in howls(app.sketch().sound.temperament, &reading.harmony.chords) {
        let text = words::wolf(&wolf, lang());
        // Said once, where it howls first.
        if !wolves.iter().any(|line| line.text == text) {
            wolves.push(caution(chord, text));
        }
    }
    let mut lines: Vec<Line> =
        conflicts.chain(outer).chain(hands).chain(hard).chain(harmony).chain(wolves).collect();
    order::by_key(&mut lines, |line| (std::cmp::Reverse(line.severity), line.chord));
    lines
}

/// What two hands cannot do in the performance, once for each chord and kind, but what
/// is already said of the handful itself; nothing while a drag goes on.
fn hard(app: &App) -> Vec<Hardship> {
    if app.is_brief() {
        return Vec::new();
    }
    let reading = app.reading();
    let mut hard = hardships(&app.sketch().hands, &reading.performance);
    hard.retain(|it| {
        let told = |remark: &HandRemark| {
            remark.chord == it.chord
                && match it.kind {
                    HardshipKind::TooWide { .. } => {
                        matches!(remark.kind, HandTrouble::TooWide { .. })
                    }
                    HardshipKind::TooManyKeys { .. } => {
                        matches!(remark.kind, HandTrouble::TooMany { .. })
                    }
                    HardshipKind::HandsCross | HardshipKind::AlreadyDown { .. } => {
                        matches!(remark.kind, HandTrouble::HandsCollide)
                    }
                    HardshipKind::TooFast { .. } => false,
                }
        };
        !reading.hands.remarks.iter().any(told)
    });
    let kind = |it: &Hardship| (it.chord, it.hand, std::mem::discriminant(&it.kind));
    order::by_key(&mut hard, |it| it.chord);
    hard.dedup_by(|a, b| kind(a) == kind(b));
    hard
}

/// The caution about wide handfuls with the usual advice, where there is cause.
fn show_strain(app: &App) {
    let strain = strain(&app.sketch().hands, &app.reading().hands.handfuls);
    let said = strain.map(|it| words::strain(&it, lang())).unwrap_or_default();
    dom::set_text("strain", &said);
    dom::set_hidden("strain", said.is_empty());
}

/// Shows the list.
pub(super) fn show(app: &App, lines: &[Line]) {
    let faults = lines.iter().filter(|l| l.severity == Severity::Fault).count();
    dom::set_text("remarks-title", &title(faults, lines.len() - faults));
    show_strain(app);
    let Some(list) = dom::get::<Element>("remarks") else { return };
    let told = app.view().told;
    let texts: String = lines.iter().map(|l| format!("{}\n", l.text)).collect();
    let key = format!("{told:?}{texts}");
    if list.get_attribute("data-key").as_ref() == Some(&key) {
        return;
    }
    dom::set_attr(&list, "data-key", &key);
    let held = held(&list);
    dom::clear(&list);
    for line in lines.iter().take(MOST) {
        if let Some(item) = item(line, told) {
            let _ = list.append_child(&item);
        }
    }
    if let Some(line) = held {
        dom::focus(&line);
    }
}

/// How to find the line of a rule that has the keyboard focus, if one has.
fn held(list: &Element) -> Option<String> {
    let line = dom::document()?.active_element().filter(|it| list.contains(Some(it)))?;
    let names = ["data-rule", "data-from", "data-chord"];
    let parts: Option<String> = names
        .iter()
        .map(|name| line.get_attribute(name).map(|value| format!("[{name}='{value}']")))
        .collect();
    parts.map(|parts| format!("#remarks {parts}"))
}

fn item(line: &Line, told: Option<Told>) -> Option<Element> {
    let (kind, spoken) = match line.severity {
        Severity::Fault => ("fault", say(said::FAULT)),
        Severity::Caution => ("caution", say(said::CAUTION)),
    };
    let item = dom::make("li", "")?;
    let button = dom::make("button", kind)?;
    dom::set_attr(&button, "data-chord", &line.chord.to_string());
    let _ = button.append_child(&*dom::text("span", "visually-hidden", spoken)?);
    let _ = button.append_child(&*dom::text("span", "", &line.text)?);
    let _ = item.append_child(&button);
    match &line.more {
        More::Nothing => {}
        More::Rule(it) => {
            dom::set_attr(&button, "data-rule", &(it.rule as usize).to_string());
            dom::set_attr(&button, "data-from", &it.from.to_string());
            let opened = told == Some(*it);
            dom::set_attr(&button, "aria-expanded", if opened { "true" } else { "false" });
            if opened {
                let _ = item.append_child(&*explained(*it)?);
            }
        }
        More::Conflict(conflict) => {
            let free = dom::text("button", "quiet", say(said::FREE_PIN))?;
            dom::set_attr(&free, "data-free", &conflict.free.to_string());
            let _ = item.append_child(&free);
        }
    }
    Some(item)
}

/// The rule, what to do, the source, and the voices to be heard.
fn explained(told: Told) -> Option<Element> {
    let holder = dom::make("div", "explained")?;
    let rule = told.rule;
    let says =
        format!("{} {}", words::rule_explained(rule, lang()), words::rule_advice(rule, lang()));
    let _ = holder.append_child(&*glossary::text_marked("p", "", &says)?);
    let _ = holder.append_child(&*dom::text("p", "hint", words::rule_source(rule, lang()))?);
    let hear = dom::text("button", "quiet", say(said::HEAR_TWO))?;
    dom::set_attr(&hear, "data-hear", "");
    let _ = holder.append_child(&hear);
    Some(holder)
}

/// "2 faults, no cautions".
pub(super) fn title(faults: usize, cautions: usize) -> String {
    let count = |n: usize, none, one, more| match n {
        0 => say(none).to_owned(),
        1 => say(one).to_owned(),
        n => tell(more, [&n]),
    };
    let faults = count(faults, said::NO_FAULTS, said::ONE_FAULT, said::FAULTS);
    let cautions = count(cautions, said::NO_CAUTIONS, said::ONE_CAUTION, said::CAUTIONS);
    let text = format!("{faults}, {cautions}");
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}

/// A press in the list of remarks: on a line, on a pin to free, on voices to hear.
fn pressed(event: &MouseEvent) {
    let free = dom::closest(event, "[data-free]").and_then(|b| dom::data_number(&b, "data-free"));
    if let Some(chord) = free {
        act(Intent::Pin(chord));
        return;
    }
    if dom::closest(event, "[data-hear]").is_some() {
        with(|page| page.hear_told());
        return;
    }
    let Some(line) = dom::closest(event, "[data-chord]") else { return };
    let number = |name: &str| dom::data_number(&line, name);
    let rule = number("data-rule").and_then(|n| Rule::ALL.get(n)).copied();
    let (from, to) = (number("data-from"), number("data-chord"));
    with(move |page| {
        if let Some(chord) = to {
            page.choose_chord(chord);
        }
        if let (Some(rule), Some(from), Some(to)) = (rule, from, to) {
            let told = Some(Told { rule, from, to });
            let told = told.filter(|_| page.app.view().told != told);
            page.act(Intent::Tell(told));
        }
    });
}
