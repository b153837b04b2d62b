//! A question about a thing that is drilled, and its answer.

use super::item::Item;
use crate::bass::{OctaveRun, motion, octave};
use crate::chance::Chance;
use crate::figures::{Stage, expand};
use crate::harmony::{Cadence, Direction, HarmonyWishes, Version, octave_rule};
use crate::lesson::tonal::tidy;
use crate::pitch::{Degree, Mode, Pitch, PitchClass, Tonality};
use crate::sketch::{Sketch, SketchNote};

/// A question: play or figure these bass notes.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// What is asked about.
    pub item: Item,
    /// The bass in the key asked for, in its surroundings; its reading is the answer.
    pub sketch: Sketch,
    /// Index of the note asked about, where it is a single one.
    pub note: Option<usize>,
    /// Figures to choose among, no two sounding alike over that note; empty where
    /// the whole bass is asked about.
    pub choices: Vec<Stage>,
    /// Which choice is right; 0 where there are none.
    pub answer: usize,
}

/// Rounds of a motion's pattern in a question.
const ROUNDS: usize = 2;
/// The most choices.
const CHOICES: usize = 4;

/// The question about an item on a tonic, under a version of the octave rule. The
/// seed shuffles the choices.
pub fn question(item: Item, tonic: PitchClass, version: Version, seed: u32) -> Question {
    // Counted usage has no octave rule of its own; a drill asks the one it rests on.
    let version = version.rule();
    let mode = match item {
        Item::Octave { mode, .. } | Item::Motion { mode, .. } | Item::Cadence { mode, .. } => mode,
    };
    let home = Tonality::new(tonic, mode);
    let bass: Vec<Pitch> = match item {
        Item::Octave { leaves, degree, .. } => run(home, leaves, degree).0,
        Item::Motion { motion: kind, .. } => motion(kind, home, Degree::wrapped(0), ROUNDS),
        Item::Cadence { cadence, .. } => closing(home, cadence),
    };
    let sketch = Sketch {
        tonality: Some(home),
        notes: bass.into_iter().map(SketchNote::bare).collect(),
        harmony: HarmonyWishes { version, ..HarmonyWishes::default() },
        ..Sketch::default()
    };
    let whole = Question { item, sketch, note: None, choices: Vec::new(), answer: 0 };
    match item {
        Item::Octave { leaves, degree, .. } => {
            let note = run(home, leaves, degree).1;
            let right = octave_rule(version, mode, leaves, degree).stage;
            one_note(whole, note, right, version, seed)
        }
        Item::Motion { .. } | Item::Cadence { .. } => whole,
    }
}

/// The octave in which the degree stands, and its place there.
fn run(home: Tonality, leaves: Direction, degree: Degree) -> (Vec<Pitch>, usize) {
    let number = usize::from(degree.number());
    match leaves {
        Direction::Up => (octave(home, OctaveRun::Up, None), number - 1),
        // From the upper tonic down, where the 1 that leaves stands first.
        Direction::Down => (octave(home, OctaveRun::Down, None), (8 - number) % 7),
    }
}

/// The close of the octave that runs into a cadence, from a tonic.
fn closing(home: Tonality, cadence: Cadence) -> Vec<Pitch> {
    let whole = octave(home, OctaveRun::Down, Some(cadence));
    whole.into_iter().skip(7).collect()
}

/// A question about the one note, with figures of other cells to choose among.
fn one_note(whole: Question, note: usize, right: Stage, version: Version, seed: u32) -> Question {
    let mode = whole.sketch.tonality.map_or(Mode::Major, |tonality| tonality.mode);
    let bass = whole.sketch.notes.get(note).map(|note| note.pitch.class());
    let home = whole.sketch.tonality;
    let sounds = |stage: &Stage| {
        let (bass, home) = (bass?, home?);
        let tones = expand(stage, bass, home).tones;
        Some(tidy(tones.iter().map(|tone| tone.class).chain([bass]).collect()))
    };
    let mut choices = vec![right.clone()];
    let mut heard = vec![sounds(&right)];
    let mut chance = Chance::of(u64::from(seed), 7);
    let mut others: Vec<Stage> = [Direction::Up, Direction::Down]
        .into_iter()
        .flat_map(|way| (1..=7).filter_map(Degree::new).map(move |degree| (way, degree)))
        .map(|(way, degree)| octave_rule(version, mode, way, degree).stage)
        .collect();
    while choices.len() < CHOICES && !others.is_empty() {
        let other = others.swap_remove(chance.below(others.len() as u64) as usize);
        let sound = sounds(&other);
        if !heard.contains(&sound) {
            heard.push(sound);
            choices.push(other);
        }
    }
    let answer = chance.below(choices.len() as u64) as usize;
    choices.swap(0, answer);
    Question { note: Some(note), choices, answer, ..whole }
}
