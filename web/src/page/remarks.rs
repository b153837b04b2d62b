//! The list of faults and cautions; choosing one goes there.

use super::dom;
use crate::app::App;
use tastata::frame::Severity;
use tastata::words::{self, Lang};
use web_sys::Element;

/// One line of the list.
pub(super) struct Line {
    /// The first chord concerned.
    pub(super) from: usize,
    /// The last chord concerned.
    pub(super) chord: usize,
    pub(super) severity: Severity,
    pub(super) text: String,
}

/// All faults, then all cautions, each by place.
pub(super) fn lines(app: &App) -> Vec<Line> {
    let reading = app.reading();
    let outer = reading.frame.faults.iter().map(|fault| Line {
        from: fault.from,
        chord: fault.to,
        severity: fault.severity,
        text: words::fault(fault, Lang::English),
    });
    let hands = reading.hands.remarks.iter().map(|remark| Line {
        from: remark.chord,
        chord: remark.chord,
        severity: Severity::Caution,
        text: words::hand_remark(remark, Lang::English),
    });
    let chord_of = |note: usize| reading.harmony.chords.iter().position(|c| c.note == note);
    let harmony = reading.harmony.remarks.iter().map(|remark| {
        let chord = chord_of(remark.note).unwrap_or_default();
        let text = words::harmony_remark(remark, Lang::English);
        Line { from: chord, chord, severity: Severity::Caution, text }
    });
    let mut lines: Vec<Line> = outer.chain(hands).chain(harmony).collect();
    lines.sort_by_key(|line| (std::cmp::Reverse(line.severity), line.chord));
    lines
}

/// Shows the list.
pub(super) fn show(lines: &[Line]) {
    let faults = lines.iter().filter(|l| l.severity == Severity::Fault).count();
    dom::set_text("remarks-title", &title(faults, lines.len() - faults));
    let Some(list) = dom::get::<Element>("remarks") else { return };
    let key: String = lines.iter().map(|l| format!("{}\n", l.text)).collect();
    if list.get_attribute("data-key").as_ref() == Some(&key) {
        return;
    }
    dom::set_attr(&list, "data-key", &key);
    dom::clear(&list);
    for line in lines.iter().take(MOST) {
        let kind = match line.severity {
            Severity::Fault => "fault",
            Severity::Caution => "caution",
        };
        let (Some(item), Some(button)) = (dom::make("li", ""), dom::make("button", kind)) else {
            return;
        };
        dom::set_attr(&button, "data-chord", &line.chord.to_string());
        let spoken = match line.severity {
            Severity::Fault => "Fault: ",
            Severity::Caution => "Caution: ",
        };
        if let Some(hidden) = dom::make("span", "visually-hidden") {
            hidden.set_text_content(Some(spoken));
            let _ = button.append_child(&hidden);
        }
        if let Some(text) = dom::make("span", "") {
            text.set_text_content(Some(&line.text));
            let _ = button.append_child(&text);
        }
        let _ = item.append_child(&button);
        let _ = list.append_child(&item);
    }
}

/// Lines shown; the title counts them all.
const MOST: usize = 100;

fn title(faults: usize, cautions: usize) -> String {
    let count = |n: usize, one: &str, many: &str| match n {
        0 => format!("no {many}"),
        1 => format!("1 {one}"),
        n => format!("{n} {many}"),
    };
    let text =
        format!("{}, {}", count(faults, "fault", "faults"), count(cautions, "caution", "cautions"));
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}
