//! Making a bass: the octave, standard motions, a whole prelude; and moving what
//! there is to another key.

use super::controls::{press, value_of_select};
use super::{Page, dom, notice, wishes, with};
use crate::app::Intent;
use tastata::bass::{self, BassMotion, OctaveRun};
use tastata::harmony::Cadence;
use tastata::pitch::{Degree, Pitch, PitchClass};
use tastata::prelude::prelude;
use web_sys::HtmlSelectElement;

/// Ways of the octave, by the names the page gives them.
const RUNS: [(&str, OctaveRun); 3] =
    [("up and down", OctaveRun::UpDown), ("up", OctaveRun::Up), ("down", OctaveRun::Down)];

/// Cadences a bass can close with.
const CADENCES: [(&str, Option<Cadence>); 4] = [
    ("a simple cadence", Some(Cadence::Simple)),
    ("a compound cadence", Some(Cadence::Compound)),
    ("a double cadence", Some(Cadence::Double)),
    ("no cadence", None),
];

/// Standard motions.
const MOTIONS: [(&str, BassMotion); 13] = [
    ("rising by step", BassMotion::StepsUp),
    ("falling by step", BassMotion::StepsDown),
    ("down a third, up a second", BassMotion::ThirdsDownSecondsUp),
    ("down a fourth, up a second", BassMotion::FourthsDownSecondsUp),
    ("up a fourth, down a fifth", BassMotion::FourthsUpFifthsDown),
    ("up a fifth, down a fourth", BassMotion::FifthsUpFourthsDown),
    ("up a third, down a second", BassMotion::ThirdsUpSecondsDown),
    ("down a third, up a fourth", BassMotion::ThirdsDownFourthsUp),
    ("falling in thirds", BassMotion::ThirdsDown),
    ("each note twice, rising", BassMotion::RepeatedRising),
    ("each note tied, falling", BassMotion::TiedFalling),
    ("rising by semitones", BassMotion::ChromaticUp),
    ("falling by semitones", BassMotion::ChromaticDown),
];

/// Rounds of a motion's pattern.
const ROUNDS: usize = 4;

/// Fills the choices.
pub(super) fn fill() {
    for (i, (name, _)) in RUNS.iter().enumerate() {
        wishes::option("octave-run", &i.to_string(), name);
    }
    for (i, (name, _)) in CADENCES.iter().enumerate() {
        wishes::option("octave-close", &i.to_string(), name);
    }
    for (i, (name, _)) in MOTIONS.iter().enumerate() {
        wishes::option("motion", &i.to_string(), name);
    }
    wishes::option("transpose", "", "choose");
    for fifths in -6..=6 {
        let tonic = PitchClass::from_fifths(fifths);
        wishes::option("transpose", &fifths.to_string(), &tonic.to_string());
    }
}

pub(super) fn wire() {
    press("add-octave", || {
        let run = chosen("octave-run", &RUNS);
        let close = chosen("octave-close", &CADENCES);
        with(move |page| {
            let home = page.app.reading().harmony.home;
            page.join(bass::octave(home, run.unwrap_or(OctaveRun::UpDown), close.flatten()));
        });
    });
    press("add-motion", || {
        let kind = chosen("motion", &MOTIONS);
        with(move |page| {
            let home = page.app.reading().harmony.home;
            let last = page.app.sketch().notes.last().map(|note| home.degree_of(note.pitch.step));
            let start = last.unwrap_or(Degree::wrapped(0));
            if let Some(kind) = kind {
                page.join(bass::motion(kind, home, start, ROUNDS));
            }
        });
    });
    super::controls::chosen("transpose", |value| {
        let Ok(fifths) = value.parse::<i32>() else { return };
        with(move |page| {
            let home = page.app.reading().harmony.home;
            page.act(Intent::wish(move |sketch| {
                let compass = sketch.hands.compass;
                bass::transpose(sketch, home, PitchClass::from_fifths(fifths), compass);
            }));
        });
        if let Some(select) = dom::get::<HtmlSelectElement>("transpose") {
            select.set_value("");
        }
    });
    press("make-prelude", || {
        let seconds = value_of_select("prelude-length").parse().unwrap_or(60);
        // Chance only chooses the seed, which the sketch then keeps.
        let seed = (js_sys::Math::random() * f64::from(u32::MAX)) as u32;
        with(move |page| {
            let made = prelude(page.app.reading().harmony.home, seconds, seed);
            page.act(Intent::wish(move |sketch| {
                sketch.tonality = made.tonality;
                sketch.notes = made.notes;
                sketch.roll = made.roll;
                sketch.title.clear();
            }));
            page.act(Intent::Select(None));
            notice::say("A prelude is made. Play it, then change whatever you like.");
        });
    });
}

impl Page {
    /// Adds notes at the end; a first note that repeats the last is left out.
    fn join(&mut self, notes: Vec<Pitch>) {
        self.act(Intent::Join(notes));
    }
}

fn chosen<T: Copy>(id: &str, list: &[(&str, T)]) -> Option<T> {
    let index: usize = value_of_select(id).parse().ok()?;
    list.get(index).map(|(_, it)| *it)
}
