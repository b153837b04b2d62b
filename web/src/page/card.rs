//! The chosen chord: what it is, why it is there, and what can be done with it.

use super::{dom, wishes};
use crate::app::App;
use tastata::figures;
use tastata::pitch::Pitch;
use tastata::sketch::Hold;
use tastata::words::{self, Lang};
use web_sys::HtmlInputElement;

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
    let names =
        |notes: &[Pitch]| notes.iter().map(|pitch| pitch.to_string()).collect::<Vec<_>>().join(" ");
    if let Some(handful) = app.reading().hands.handfuls.get(index) {
        dom::set_text("left-names", &names(&handful.left));
        dom::set_text("right-names", &names(&handful.right));
    }
    let own = note.and_then(|n| n.handfuls.get(chord.stage)).is_some_and(Option::is_some);
    dom::set_hidden("free-hands", !own);
    let stroke = note.map(|n| n.stroke.clone()).unwrap_or_default();
    let times = stroke.times.map(|t| t.to_string());
    wishes::choose("chord-times", times.as_deref().unwrap_or("piece"));
    let line = stroke.stroke.map(|s| wishes::index_of(&wishes::STROKES, &s));
    wishes::choose("chord-stroke", line.as_deref().unwrap_or("piece"));
    wishes::input("chord-dwell", &stroke.dwell.unwrap_or(100).to_string());
}
