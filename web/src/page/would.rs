//! A note set freely: which chord it would make, told while it is dragged, and taken
//! with a press.

use super::controls::press;
use super::reader::lang;
use super::{Page, act, dom, with};
use crate::app::{App, Intent, Landing};
use tastata::figures::{Figures, Stage};
use tastata::frame::figures_that_hold;
use tastata::pitch::Pitch;
use tastata::words;
use web_sys::{Element, HtmlInputElement, MouseEvent};

/// Chords offered at most.
const MOST: usize = 4;

/// A note that is no tone of its chord, and the figures that would make it one.
struct Would {
    note: Pitch,
    stages: Vec<Stage>,
}

pub(super) fn wire() {
    for radio in ["land-snap", "land-free"] {
        press(radio, || {
            let free = dom::get::<HtmlInputElement>("land-free").is_some_and(|r| r.checked());
            act(Intent::Land(if free { Landing::Anywhere } else { Landing::OnChordNotes }));
        });
    }
    dom::on_id("would", "click", |event: MouseEvent| {
        let Some(button) = dom::closest(&event, "[data-would]") else { return };
        let Some(place) = dom::data_number(&button, "data-would") else { return };
        with(move |page| page.take_would(place));
    });
}

/// The soprano of a chord, or else one of the person's own inner notes, where it is no
/// tone of the chord.
fn would(app: &App, index: usize) -> Option<Would> {
    if app.is_veiled() {
        return None;
    }
    let reading = app.reading();
    let chord = reading.harmony.chords.get(index)?;
    let soprano = reading.frame.soprano.get(index).copied();
    let handful = reading.hands.handfuls.get(index);
    let inner = handful.into_iter().flat_map(|both| both.left.iter().chain(&both.right)).copied();
    let foreign = |note: &Pitch| !chord.tones.iter().any(|tone| tone.class == note.class());
    let note = soprano.into_iter().chain(inner).find(foreign)?;
    let mut stages = figures_that_hold(chord, note.class(), reading.harmony.home);
    stages.truncate(MOST);
    Some(Would { note, stages })
}

/// What to say of the free note over a chord, if there is one.
pub(super) fn sentence(app: &App, index: usize) -> Option<String> {
    let would = would(app, index)?;
    let figures: Vec<String> = would.stages.iter().map(named).collect();
    Some(words::note_that_is_free(would.note, &figures.join(", "), lang()))
}

fn named(stage: &Stage) -> String {
    words::figures_shown(stage, lang())
}

/// Shows what the free note of the chosen chord would make.
pub(super) fn show(app: &App) {
    let index = app.selected_chord();
    let found = index.and_then(|index| Some((would(app, index)?, sentence(app, index)?)));
    dom::set_hidden("would-room", found.is_none());
    let Some(list) = dom::get::<Element>("would") else { return };
    let Some((would, said)) = found else { return };
    dom::set_text("would-said", &said);
    if list.get_attribute("data-key").as_ref() == Some(&said) {
        return;
    }
    dom::set_attr(&list, "data-key", &said);
    dom::clear(&list);
    for (place, stage) in would.stages.iter().enumerate() {
        let Some(button) = dom::text("button", "quiet", &named(stage)) else { return };
        dom::set_attr(&button, "data-would", &place.to_string());
        let _ = list.append_child(&button);
    }
}

impl Page {
    /// Gives the chosen chord the figures that hold its free note, and plays it.
    fn take_would(&mut self, place: usize) {
        let Some(index) = self.app.selected_chord() else { return };
        let Some(stage) = would(&self.app, index).and_then(|it| it.stages.into_iter().nth(place))
        else {
            return;
        };
        let chords = &self.app.reading().harmony.chords;
        let Some(chord) = chords.get(index) else { return };
        let (note, at) = (chord.note, chord.stage);
        let mut stages: Vec<Stage> =
            chords.iter().filter(|it| it.note == note).map(|it| it.figures.clone()).collect();
        if let Some(slot) = stages.get_mut(at) {
            *slot = stage;
        }
        self.act(Intent::Figures { note, figures: Figures::new(stages) });
        self.hear_chosen();
    }
}
