//! The strip above the keys, for screens where the card and the list lie further
//! down: the chosen chord's fault or reason in a line, and the next fault.

use super::reader::{lang, say, tell};
use super::remarks::Line;
use super::{Page, dom, remarks, would};
use crate::app::{App, Keys};
use tastata::frame::Severity;
use tastata::order;
use tastata::words;
use tastata::words::page::said;
use web_sys::{Element, HtmlElement};

/// Shows the strip for the chosen chord.
pub(super) fn show(app: &App, lines: &[Line]) {
    let index = app.selected_chord();
    let chord = index.and_then(|i| app.reading().harmony.chords.get(i));
    dom::set_hidden("strip", chord.is_none() && lines.is_empty());
    let wrong = index.and_then(|i| lines.iter().find(|line| line.from <= i && i <= line.chord));
    let free = index.and_then(|index| would::sentence(app, index));
    let text = match (wrong, chord) {
        _ if app.view().keys == Keys::Figures && chord.is_some() => played(app).unwrap_or_default(),
        _ if free.is_some() => free.unwrap_or_default(),
        (Some(line), _) => line.text.clone(),
        // A reason would tell what the student is to find.
        (None, Some(_)) if app.is_veiled() => {
            tell(said::WORK_ON_CHORD, [&(index.unwrap_or_default() + 1)])
        }
        (None, Some(chord)) => words::reason(chord, lang()),
        (None, None) => say(said::TOUCH_CHORD).to_owned(),
    };
    dom::set_text("strip-text", &text);
    if let Some(element) = dom::get::<Element>("strip-text") {
        let class = match wrong.map(|line| line.severity) {
            Some(Severity::Fault) => "fault",
            Some(Severity::Caution) => "caution",
            None => "",
        };
        dom::set_attr(&element, "class", class);
    }
    let faults = lines.iter().filter(|line| line.severity == Severity::Fault).count();
    let cautions = lines.len() - faults;
    let counts = [(faults, "✕"), (cautions, "!")];
    let shown = counts.iter().filter(|(n, _)| *n > 0).map(|(n, sign)| format!("{sign} {n}"));
    dom::set_text("strip-faults", &shown.collect::<Vec<_>>().join("  "));
    dom::set_hidden("strip-faults", lines.is_empty());
    let label = tell(said::NEXT_OF, [&remarks::title(faults, cautions)]);
    dom::set_attr_of("strip-faults", "aria-label", &label);
}

/// What is played over the chosen bass note, and the figures that say so.
pub(super) fn played(app: &App) -> Option<String> {
    let index = app.selected_chord()?;
    let place = app.view().selected?;
    let bass = lang().note(app.sketch().notes.get(place.note)?.pitch.class());
    let keys = &app.view().played;
    if keys.is_empty() {
        return Some(tell(said::PLAY_CHORD, [&(index + 1), &bass]));
    }
    let home = app.reading().harmony.home;
    let names = keys.iter().map(|key| lang().note(home.spell(*key).class()));
    let names = names.collect::<Vec<_>>().join(" ");
    Some(match app.played_figures() {
        Some(stage) => {
            tell(said::PLAYED_IS, [&names, &bass, &words::figures_shown(&stage, lang())])
        }
        None => tell(said::PLAYED_NOT_YET, [&names, &bass]),
    })
}

/// Scrolls to the card with all that can be done with the chord.
pub(super) fn to_card() {
    if let Some(card) = dom::get::<HtmlElement>("card") {
        card.scroll_into_view();
    }
}

impl Page {
    /// Chooses the next chord of which there is something to say, round and round.
    pub(super) fn next_fault(&mut self) {
        let mut chords: Vec<usize> = remarks::lines(&self.app).iter().map(|l| l.chord).collect();
        order::sort(&mut chords);
        let now = self.app.selected_chord();
        let next = chords.iter().find(|&&c| now.is_none_or(|now| c > now)).or(chords.first());
        if let Some(&chord) = next {
            self.choose_chord(chord);
            self.announce_chosen();
        }
    }
}
