//! Making an exercise from any sketch: what is asked is taken out, the finished
//! sketch becomes the model.

use super::ask::Ask;
use super::exercise::{Exercise, Model, Opens, Part, Parts};
use crate::figures::{Figures, Stage};
use crate::frame::rests;
use crate::hands::Handful;
use crate::harmony::{Chord, harmonise};
use crate::order;
use crate::pitch::{Interval, Pitch, PitchClass};
use crate::reading::{Reading, read};
use crate::roll::{ChordStroke, RollWishes};
use crate::sketch::{Hold, Pin, Sketch};

/// An exercise that asks these things of a finished sketch. What is asked and
/// all that would give it away is left out of what is given; the sketch as it
/// reads today is the model. Every field may be changed afterwards.
///
/// Where faults are to be found the sketch is given whole and there is no model;
/// plant them by fixing soprano notes. Where the work is free there is none either.
pub fn make(sketch: &Sketch, asks: Vec<Ask>) -> Exercise {
    let reading = read(sketch);
    let first = asks.iter().map(asked_part).min();
    let before = |part: &Part| first.is_none_or(|first| *part < first);
    let given = Part::ALL.into_iter().filter(before);
    let given = given.fold(Parts::NONE.with(Part::Bass), Parts::with);
    let made = asks.iter().map(asked_part).fold(given, Parts::with);
    let mut start = freeze(sketch, &reading, given);
    let finished = freeze(sketch, &reading, made);
    let mut has_model = true;
    for ask in &asks {
        match ask {
            Ask::Figures(_) => start.notes.iter_mut().for_each(|note| note.figures = None),
            Ask::Soprano { .. } => start.notes.iter_mut().for_each(|note| note.soprano.clear()),
            Ask::Handfuls { .. } => start.notes.iter_mut().for_each(|note| note.handfuls.clear()),
            Ask::Roll { .. } => {
                start.roll = RollWishes { spice: 0, ..start.roll };
                start.notes.iter_mut().for_each(|note| note.stroke = ChordStroke::default());
            }
            Ask::Finish(_) => start.notes.truncate(before_cadence(sketch)),
            Ask::FindFaults(_) | Ask::Free => has_model = false,
            Ask::Keys(_) => {}
        }
    }
    let model = has_model.then_some(Model { sketch: finished, opens: Opens::default() });
    Exercise { sketch: start, given, asks, model, ..Exercise::default() }
}

/// The first part that the student makes.
fn asked_part(ask: &Ask) -> Part {
    match ask {
        Ask::Figures(_) | Ask::Finish(_) | Ask::Free => Part::Figures,
        Ask::Soprano { .. } => Part::Soprano,
        Ask::FindFaults(_) | Ask::Handfuls { .. } => Part::Handfuls,
        Ask::Roll { .. } | Ask::Keys(_) => Part::Roll,
    }
}

/// The sketch with these parts of its reading fixed as they are today, so that
/// they stay whatever the program would choose tomorrow.
pub fn freeze(sketch: &Sketch, reading: &Reading, parts: Parts) -> Sketch {
    let mut frozen = sketch.clone();
    frozen.tonality = Some(reading.harmony.home);
    let chords = &reading.harmony.chords;
    if parts.has(Part::Figures) {
        for (i, note) in frozen.notes.iter_mut().enumerate() {
            let over = chords.iter().filter(|chord| chord.note == i);
            let stages: Vec<Stage> = over.map(|chord| chord.figures.clone()).collect();
            // What was left to the harmony is written out; what was figured stays.
            note.figures = note.figures.take().or_else(|| Figures::new(stages));
        }
    }
    if parts.has(Part::Soprano) {
        for (chord, &pitch) in chords.iter().zip(&reading.frame.soprano) {
            let pin = (!rests(chord)).then_some(Pin { pitch, hold: Hold::Pinned });
            let Some(note) = frozen.notes.get_mut(chord.note) else { continue };
            put(&mut note.soprano, chord.stage, pin);
        }
    }
    if parts.has(Part::Handfuls) {
        for (chord, handful) in chords.iter().zip(&reading.hands.handfuls) {
            let Some(note) = frozen.notes.get_mut(chord.note) else { continue };
            put(&mut note.handfuls, chord.stage, Some(handful.clone()));
        }
    }
    frozen
}

fn put<T: Clone>(column: &mut Vec<Option<T>>, stage: usize, value: Option<T>) {
    if column.len() <= stage {
        column.resize(stage + 1, None);
    }
    if let Some(slot) = column.get_mut(stage) {
        *slot = value;
    }
}

/// How many notes stand before the closing 5th and tonic; all of them where the
/// bass does not close so.
fn before_cadence(sketch: &Sketch) -> usize {
    let home = harmonise(sketch).home;
    let fifth = super::tonal::fifth(home);
    let notes = &sketch.notes;
    let ends = |class, from: usize| {
        let run = notes[..from].iter().rev().take_while(|note| note.pitch.class() == class);
        from - run.count()
    };
    let tonic = ends(home.tonic, notes.len());
    let dominant = ends(fifth, tonic);
    if dominant < tonic && tonic < notes.len() { dominant } else { notes.len() }
}

/// Each chord in close position: the bass in the left hand, its other tones
/// packed under the soprano in the right. What is shown where chords are to be
/// opened.
pub fn close_chords(chords: &[Chord], soprano: &[Pitch]) -> Vec<Handful> {
    let close = |(chord, &top): (&Chord, &Pitch)| {
        let left = vec![chord.bass];
        if rests(chord) || top.semitones() <= chord.bass.semitones() {
            return Handful { left, right: Vec::new() };
        }
        let below = |class: PitchClass| {
            let above = class.at_or_above(top);
            if above.semitones() < top.semitones() { above } else { above - Interval::OCTAVE }
        };
        let others = chord.tones.iter().filter(|tone| tone.class != top.class());
        let inner = others.filter(|tone| tone.number != 1).map(|tone| below(tone.class));
        let mut right: Vec<Pitch> =
            inner.filter(|pitch| pitch.semitones() > chord.bass.semitones()).collect();
        right.push(top);
        order::sort(&mut right);
        Handful { left, right }
    };
    chords.iter().zip(soprano).map(close).collect()
}
