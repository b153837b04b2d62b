//! Making a bass: the octave, standard motions, a whole prelude; and moving what
//! there is to another key.

use super::controls::{press, value_of_select};
use super::reader::{lang, say};
use super::{Page, dom, notice, wishes, with};
use crate::app::Intent;
use tastata::bass::{self, BassMotion, OctaveRun};
use tastata::harmony::Cadence;
use tastata::pitch::{Degree, Pitch, PitchClass};
use tastata::prelude::prelude;
use tastata::words::Phrase;
use tastata::words::page::said;
use web_sys::HtmlSelectElement;

/// Ways of the octave, by the names the page gives them.
const RUNS: [(Phrase, OctaveRun); 3] = [
    (said::UP_AND_DOWN, OctaveRun::UpDown),
    (said::UP, OctaveRun::Up),
    (said::DOWN, OctaveRun::Down),
];

/// Cadences a bass can close with.
const CADENCES: [(Phrase, Option<Cadence>); 4] = [
    (said::SIMPLE_CADENCE, Some(Cadence::Simple)),
    (said::COMPOUND_CADENCE, Some(Cadence::Compound)),
    (said::DOUBLE_CADENCE, Some(Cadence::Double)),
    (said::NO_CADENCE, None),
];

/// Standard motions.
const MOTIONS: [(Phrase, BassMotion); 13] = [
    (said::STEPS_UP, BassMotion::StepsUp),
    (said::STEPS_DOWN, BassMotion::StepsDown),
    (said::THIRDS_DOWN_SECONDS_UP, BassMotion::ThirdsDownSecondsUp),
    (said::FOURTHS_DOWN_SECONDS_UP, BassMotion::FourthsDownSecondsUp),
    (said::FOURTHS_UP_FIFTHS_DOWN, BassMotion::FourthsUpFifthsDown),
    (said::FIFTHS_UP_FOURTHS_DOWN, BassMotion::FifthsUpFourthsDown),
    (said::THIRDS_UP_SECONDS_DOWN, BassMotion::ThirdsUpSecondsDown),
    (said::THIRDS_DOWN_FOURTHS_UP, BassMotion::ThirdsDownFourthsUp),
    (said::THIRDS_DOWN, BassMotion::ThirdsDown),
    (said::REPEATED_RISING, BassMotion::RepeatedRising),
    (said::TIED_FALLING, BassMotion::TiedFalling),
    (said::CHROMATIC_UP, BassMotion::ChromaticUp),
    (said::CHROMATIC_DOWN, BassMotion::ChromaticDown),
];

/// Rounds of a motion's pattern.
const ROUNDS: usize = 4;

/// Fills the choices.
pub(super) fn fill() {
    for (i, (name, _)) in RUNS.iter().enumerate() {
        wishes::option("octave-run", &i.to_string(), say(*name));
    }
    for (i, (name, _)) in CADENCES.iter().enumerate() {
        wishes::option("octave-close", &i.to_string(), say(*name));
    }
    for (i, (name, _)) in MOTIONS.iter().enumerate() {
        wishes::option("motion", &i.to_string(), say(*name));
    }
    wishes::option("transpose", "", say(said::CHOOSE));
    for fifths in -6..=6 {
        let tonic = PitchClass::from_fifths(fifths);
        wishes::option("transpose", &fifths.to_string(), &lang().note(tonic));
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
            let mut made = prelude(page.app.reading().harmony.home, seconds, seed);
            let bass = made.notes.iter_mut().map(|note| &mut note.pitch);
            bass::within_range(bass, &page.app.sketch().hands);
            page.act(Intent::wish(move |sketch| {
                sketch.tonality = made.tonality;
                sketch.notes = made.notes;
                sketch.roll = made.roll;
                sketch.title.clear();
            }));
            page.act(Intent::Select(None));
            notice::say(say(said::PRELUDE_MADE));
        });
    });
}

impl Page {
    /// Adds notes at the end, where the keyboard has them; a first note that repeats the last is
    /// left out.
    fn join(&mut self, mut notes: Vec<Pitch>) {
        bass::within_range(&mut notes, &self.app.sketch().hands);
        self.act(Intent::Join(notes));
    }
}

fn chosen<T: Copy>(id: &str, list: &[(Phrase, T)]) -> Option<T> {
    let index: usize = value_of_select(id).parse().ok()?;
    list.get(index).map(|(_, it)| *it)
}
