//! The chosen chord: what it is, why it is there, and what can be done with it.

use super::dom;
use crate::app::App;
use tastata::figures;
use tastata::sketch::Hold;
use tastata::words::{self, Lang};
use web_sys::{HtmlInputElement, HtmlSelectElement};

/// Shows the chosen chord, or takes the card away.
pub(super) fn show(app: &App) {
    let chord = app.selected_chord().and_then(|i| Some((i, app.reading().harmony.chords.get(i)?)));
    dom::set_hidden("card", chord.is_none());
    let Some((index, chord)) = chord else { return };
    let degree = chord.degree.number();
    let title = format!(
        "Chord {}: {}, degree {degree} of {}",
        index + 1,
        chord.bass.class(),
        chord.tonality
    );
    dom::set_text("card-title", &title);
    dom::set_text("card-reason", &words::reason(chord, Lang::English));
    let note = app.sketch().notes.get(chord.note);
    let given = note.and_then(|n| n.figures.as_ref());
    if let Some(input) = dom::get::<HtmlInputElement>("figures")
        && !dom::has_focus("figures")
    {
        input.set_value(&given.map(figures::print).unwrap_or_default());
        input.set_placeholder(&figures::print_stage(&chord.figures));
        dom::set_text("figures-note", "");
    }
    let soprano = app.reading().frame.soprano.get(index);
    dom::set_text("soprano-name", &soprano.map(|p| p.to_string()).unwrap_or_default());
    dom::set_text("bass-name", &chord.bass.to_string());
    let pin = note.and_then(|n| n.soprano.get(chord.stage).copied().flatten());
    let pinned = pin.is_some_and(|pin| pin.hold == Hold::Pinned);
    dom::set_attr_of("pin", "aria-pressed", if pinned { "true" } else { "false" });
    dom::set_text("pin", if pinned { "Pinned" } else { "Pin" });
    if let Some(select) = dom::get::<HtmlSelectElement>("chord-times") {
        let times = note.and_then(|n| n.stroke.times);
        select.set_value(&times.map_or("piece".to_owned(), |t| t.to_string()));
    }
}
