//! The chosen chord: what it is, why it is there, and what can be done with it.

use super::controls::{chosen, press, slider, value_of};
use super::reader::{lang, say, tell};
use super::{Page, act, added, dom, glossary, lasting, strip, stroke_pad, wishes, with};
use crate::app::{App, Intent, Keys};
use tastata::figures;
use tastata::hands::{Edit, Hand, Way};
use tastata::pitch::Pitch;
use tastata::roll::ChordStroke;
use tastata::sketch::{Hold, Sketch, Weight};
use tastata::words;
use tastata::words::page::said;
use web_sys::{Event, HtmlInputElement};

/// What a bass note can be marked as, by the names the page gives it.
const WEIGHTS: [(&str, Weight); 3] = [
    ("unmarked", Weight::Unmarked),
    ("structural", Weight::Structural),
    ("passing", Weight::Passing),
];

/// Shows the chosen chord, or takes the card away.
pub(super) fn show(app: &App) {
    let chord = app.selected_chord().and_then(|i| Some((i, app.reading().harmony.chords.get(i)?)));
    dom::set_hidden("card", chord.is_none());
    let Some((index, chord)) = chord else { return };
    let degree = chord.degree.number();
    let title = tell(
        said::CARD_TITLE,
        [&(index + 1), &lang().note(chord.bass.class()), &degree, &lang().tonality(chord.tonality)],
    );
    dom::set_text("card-title", &title);
    glossary::set_marked("card-reason", &words::reason(chord, lang()));
    let note = app.sketch().notes.get(chord.note);
    let given = note.and_then(|n| n.figures.as_ref());
    if let Some(input) = dom::get::<HtmlInputElement>("figures")
        && !dom::has_focus("figures")
    {
        input.set_value(&given.map(figures::print).unwrap_or_default());
        input.set_placeholder(&plainly(&figures::print_stage(&chord.figures)));
        let played = (app.view().keys == Keys::Figures).then(|| strip::played(app)).flatten();
        dom::set_text("figures-note", &played.unwrap_or_default());
    }
    let round = match app.view().round {
        None => say(said::REPEAT_FROM).to_owned(),
        Some((from, to)) if from == to => tell(said::REPEAT_TO, [&(from + 1)]),
        Some((from, to)) => tell(said::REPEATING, [&(from + 1), &(to + 1)]),
    };
    dom::set_text("round", &round);
    let soprano = app.reading().frame.soprano.get(index);
    dom::set_text("soprano-name", &soprano.map(|p| lang().pitch(*p)).unwrap_or_default());
    dom::set_text("bass-name", &lang().pitch(chord.bass));
    let chosen = app.view().selected.and_then(|place| app.sketch().notes.get(place.note));
    let weight = chosen.map(|n| n.weight).unwrap_or_default();
    wishes::choose("weight", wishes::name_of(&WEIGHTS, &weight));
    lasting::show(chosen);
    let pin = note.and_then(|n| n.soprano.get(chord.stage).copied().flatten());
    let pinned = pin.is_some_and(|pin| pin.hold == Hold::Pinned);
    dom::set_attr_of("pin", "aria-pressed", if pinned { "true" } else { "false" });
    dom::set_text("pin", say(if pinned { said::PINNED } else { said::PIN }));
    let names = |notes: &[Pitch]| {
        notes.iter().map(|pitch| lang().pitch(*pitch)).collect::<Vec<_>>().join(" ")
    };
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
    stroke_pad::show(stroke.stroke, &app.reading().performance, index);
    wishes::percent("chord-dwell", stroke.dwell.unwrap_or(100));
    let spice = stroke.spice.unwrap_or(app.sketch().roll.spice);
    wishes::percent("chord-spice", spice.min(100).into());
    added::show(app);
}

pub(super) fn wire() {
    press("before", || with(|page| page.step_and_hear(-1)));
    press("after", || with(|page| page.step_and_hear(1)));
    press("round", || with(|page| page.round_pressed()));
    press("card-close", || act(Intent::Select(None)));
    press("hear", || with(|page| page.hear_chosen()));
    press("from-here", || with(|page| page.play_from_chosen()));
    press("soprano-down", || act(Intent::NudgeSoprano(-1)));
    press("soprano-up", || act(Intent::NudgeSoprano(1)));
    press("pin", || with(|page| page.pin_chosen()));
    press("bass-down", || with(|page| page.nudge_bass(-1)));
    press("bass-up", || with(|page| page.nudge_bass(1)));
    for (id, hand, way) in [
        ("left-down", Hand::Left, Way::Down),
        ("left-up", Hand::Left, Way::Up),
        ("right-down", Hand::Right, Way::Down),
        ("right-up", Hand::Right, Way::Up),
    ] {
        let edit = Edit::Shift { hand, way };
        press(id, move || act(Intent::EditHandful { edit, drag: None }));
    }
    press("free-hands", || act(Intent::FreeHandful));
    press("earlier", || act(Intent::Shift(-1)));
    press("later", || act(Intent::Shift(1)));
    press("insert", || act(Intent::InsertAfter));
    press("delete", || act(Intent::Delete));
    dom::on_id("figures", "change", |_: Event| figures_typed());
    chosen("weight", |value| {
        let Some(&(_, weight)) = WEIGHTS.iter().find(|(name, _)| *name == value) else { return };
        with(move |page| {
            let Some(place) = page.app.view().selected else { return };
            page.act(Intent::wish(move |sketch| {
                if let Some(note) = sketch.notes.get_mut(place.note) {
                    note.weight = weight;
                }
            }));
        });
    });
    lasting::wire();
    chosen("chord-times", |value| {
        let times: Option<u8> = value.parse().ok();
        chord_wish(None, move |stroke| stroke.times = times);
    });
    chosen("chord-stroke", |value| {
        let index: Option<usize> = value.parse().ok();
        let chosen = index.and_then(|i| wishes::STROKES.get(i)).map(|(_, stroke)| *stroke);
        chord_wish(None, move |stroke| stroke.stroke = chosen);
    });
    slider("chord-dwell", 3, |value: u16, slider| {
        chord_wish(slider, move |stroke| stroke.dwell = (value != 100).then_some(value));
    });
    slider("chord-spice", 4, |value: u8, slider| {
        chord_wish(slider, move |stroke| stroke.spice = Some(value));
    });
    added::wire();
}

fn figures_typed() {
    let text = value_of("figures");
    let note = |page: &mut Page| page.app.view().selected.map(|place| place.note);
    if text.trim().is_empty() {
        with(move |page| {
            if let Some(note) = note(page) {
                page.act(Intent::Figures { note, figures: None });
            }
        });
        return;
    }
    match figures::read_figures(&text) {
        Ok(figures) => with(move |page| {
            dom::set_text("figures-note", "");
            if let Some(note) = note(page) {
                page.act(Intent::Figures { note, figures: Some(figures) });
            }
        }),
        Err(error) => {
            dom::set_text("figures-note", &words::figure_trouble(error.kind, lang()));
        }
    }
}

/// Figures as shown: a plain chord, which players leave bare, is written out.
pub(super) fn plainly(figures: &str) -> String {
    if figures == "." { "5/3".to_owned() } else { figures.to_owned() }
}

/// Changes how the chosen chord is rolled.
fn chord_wish(slider: Option<u32>, change: impl FnOnce(&mut ChordStroke) + 'static) {
    with(move |page| {
        let Some(place) = page.app.view().selected else { return };
        let apply = Box::new(move |sketch: &mut Sketch| {
            if let Some(note) = sketch.notes.get_mut(place.note) {
                change(&mut note.stroke);
            }
        });
        page.act(Intent::Wish { apply, slider });
    });
}
