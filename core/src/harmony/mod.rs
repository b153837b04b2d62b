//! Which chord stands over each bass note, and why.
//!
//! `line` sees the structural notes of a bass, `motions` finds its sequences,
//! `ruling` says what the rules prescribe for a note in a tonality, `lexicon`
//! holds the stock of chords, `costs` the price of joining them, `joins` that price
//! for all pairs of the stock, and `path` finds the cheapest reading of the whole bass
//! exactly. `lattice` shows what it chooses among, for learning.

mod alternatives;
mod chord;
mod costs;
mod joins;
mod key;
mod lattice;
mod lexicon;
mod line;
mod motions;
mod octave_rule;
mod path;
mod patterns;
mod ruling;
mod sonority;
mod usage;

pub use crate::bass::BassMotion;
pub use alternatives::{Alternative, alternatives, alternatives_in};
pub use chord::{
    Cadence, Chord, Duty, Harmony, HarmonyRemark, HarmonyTrouble, HarmonyWishes, Reason, Tone,
};
pub use lattice::{Moment, Standing, lattice};
pub use lexicon::Kind;
pub use octave_rule::{Direction, OctaveCell, Version, octave_rule};
pub use patterns::{Chain, Pattern, patterns};
pub use usage::{FIGURES, Feature, Habit, Manner, Rhythm};

use crate::bass;
use crate::figures::{self, FigureRemark, Figures, Stage};
use crate::pitch::{Pitch, PitchClass, Tonality};
use crate::sketch::{Sketch, SketchNote, Weight};
use line::Line;
use path::{Found, FoundChord, Joint, Question};
use ruling::Local;
use sonority::Sonority;
use usage::Memo;

/// The highest daring; see [`HarmonyWishes::daring`].
pub const DARING_MAX: u8 = 4;

/// Harmonises the bass of a sketch. An empty bass gives no chords; a passing
/// note has no chord of its own, so chords are matched to notes by
/// [`Chord::note`]. Given figures are read under the home signature. Cost: linear
/// in the length of the bass.
pub fn harmonise(sketch: &Sketch) -> Harmony {
    harmonise_in(sketch, &[])
}

/// The same with the tonality of some notes fixed, matched to the notes by place;
/// missing and `None` leave it open.
pub fn harmonise_in(sketch: &Sketch, tonalities: &[Option<Tonality>]) -> Harmony {
    harmonise_by(sketch, tonalities, Manner::of(sketch.harmony.version))
}

/// The same with another manner in place of the version's own, for measuring.
pub fn harmonise_by(sketch: &Sketch, tonalities: &[Option<Tonality>], manner: &Manner) -> Harmony {
    let home = sketch.tonality.unwrap_or_else(|| {
        key::find(&sketch.notes.iter().map(|note| note.pitch).collect::<Vec<_>>())
    });
    let (line, remarks) = structural(&sketch.notes, home);
    let fixed = fixed_tonalities(&line, tonalities);
    let stretches = motions::stretches(&line);
    let lengths = lengths(sketch, &line);
    let mut question = Question {
        line: &line,
        stretches: &stretches,
        home,
        led: Vec::new(),
        version: sketch.harmony.version,
        daring: sketch.harmony.daring.min(DARING_MAX),
        fixed: &fixed,
        rhythms: &lengths,
        manner,
        memo: Memo::default(),
    };
    // Where every tonality is fixed there is nothing to be led to.
    let told = !fixed.is_empty() && fixed.iter().all(Option::is_some);
    if !question.version.is_counted() && !told {
        question.led = path::led(&question);
    }
    let (found, _) = path::solve(&question);
    Harmony { home, chords: chords(sketch, &question, &found), remarks }
}

fn lengths(sketch: &Sketch, line: &Line) -> Vec<Rhythm> {
    let all = bass::rhythms(&sketch.notes);
    let of = |spot: &line::Spot| all.get(spot.note).copied().unwrap_or_default();
    line.spots.iter().map(of).collect()
}

/// The tonality of a bass on its own, as [`harmonise`] finds it.
pub fn find_tonality(bass: &[Pitch]) -> Tonality {
    key::find(bass)
}

/// The fixed tonality of each spot; empty when none is fixed.
fn fixed_tonalities(line: &Line, tonalities: &[Option<Tonality>]) -> Vec<Option<Tonality>> {
    if tonalities.iter().all(Option::is_none) {
        return Vec::new();
    }
    line.spots.iter().map(|spot| tonalities.get(spot.note).copied().flatten()).collect()
}

/// The structural notes of a sketch with the sonorities a person figured.
fn structural(notes: &[SketchNote], home: Tonality) -> (Line, Vec<HarmonyRemark>) {
    let mut remarks = Vec::new();
    let mut line = Vec::with_capacity(notes.len());
    let passing = bass::passing(notes);
    for (at, (note, passes)) in notes.iter().zip(passing).enumerate() {
        if passes {
            if !line.is_empty() {
                if note.figures.is_some() {
                    let kind = HarmonyTrouble::FiguredInPassing;
                    remarks.push(HarmonyRemark { note: at, kind });
                }
                continue;
            }
            let kind = HarmonyTrouble::NothingToPassFrom;
            remarks.push(HarmonyRemark { note: at, kind });
        }
        let bass = note.pitch.class();
        let given = note.figures.as_ref().map(|figures| {
            let expansions = figures::expand_all(figures, bass, home);
            let stages = expansions.into_iter().enumerate().map(|(stage, expansion)| {
                for remark in expansion.remarks {
                    let held = remark == FigureRemark::NothingToHold && !line.is_empty();
                    if !held {
                        let kind = HarmonyTrouble::Figures { stage, remark };
                        remarks.push(HarmonyRemark { note: at, kind });
                    }
                }
                Sonority { bass, tones: expansion.tones }
            });
            stages.collect::<Vec<_>>()
        });
        let given = given.or_else(|| staying(notes, &line, at));
        line.push((at, note.pitch, given));
    }
    (Line::new(line), remarks)
}

/// The figured chord that a note without figures keeps: where it strikes again the note
/// that bears it, and nothing in the chord waits to resolve over that bass. Common
/// practice, no source.
fn staying(
    notes: &[SketchNote],
    line: &[(usize, Pitch, Option<Vec<Sonority>>)],
    at: usize,
) -> Option<Vec<Sonority>> {
    let note = notes.get(at).filter(|note| note.weight == Weight::Unmarked)?;
    let (before, _, given) = line.last()?;
    let class = note.pitch.class();
    let again = |it: &SketchNote| it.pitch.class() == class && it.rest.is_none();
    let again = notes.get(*before..at)?.iter().all(again);
    let chord = given.as_ref()?.last().filter(|chord| again && chord.may_stay())?;
    Some(vec![chord.clone()])
}

/// The sonorities figures mean over a bass under the home signature.
fn given(figures: &Figures, bass: PitchClass, home: Tonality) -> Vec<Sonority> {
    let all = figures::expand_all(figures, bass, home);
    all.into_iter().map(|it| Sonority { bass, tones: it.tones }).collect()
}

/// Spells the found chords out.
fn chords(sketch: &Sketch, question: &Question, found: &[Found]) -> Vec<Chord> {
    let mut chords: Vec<Chord> = Vec::with_capacity(found.len());
    let mut before: Option<Sonority> = None;
    for (at, (spot, found)) in question.line.spots.iter().zip(found).enumerate() {
        let bass = spot.pitch.class();
        let Some(note) = sketch.notes.get(spot.note) else { continue };
        let given = note.figures.as_ref();
        let sonorities = match (&spot.given, found.chord) {
            (Some(sonorities), FoundChord::Given) => {
                let mut sonorities = sonorities.clone();
                // A dash at the front holds the chord of the note before.
                let held = given.is_some_and(|it| it.stages().first() == Some(&Stage::Hold));
                if let (true, Some(before), Some(first)) = (held, &before, sonorities.first_mut()) {
                    *first = before.over(bass);
                }
                sonorities
            }
            _ => path::sonorities(found, bass),
        };
        let reason = match (given, found.chord) {
            (None, FoundChord::Given | FoundChord::Turned(_)) => Reason::Stays,
            _ => reason(question, at, found, &sonorities, before.as_ref()),
        };
        let mut figures = sonority::printed(&sonorities, before.as_ref(), question.home);
        for (stage, sonority) in sonorities.iter().enumerate() {
            let derived = std::mem::replace(&mut figures[stage], Stage::Hold);
            let written = given.and_then(|figures| figures.stages().get(stage)).cloned();
            chords.push(Chord {
                note: spot.note,
                stage,
                bass: spot.pitch,
                tones: sonority.tones(found.tonality, sonorities.get(stage + 1)),
                tonality: found.tonality,
                degree: found.tonality.degree_of(spot.pitch.step),
                figures: written.unwrap_or(derived),
                reason: reason.clone(),
            });
        }
        before = sonorities.into_iter().last();
    }
    chords
}

/// Why the found chord stands there.
fn reason(
    question: &Question,
    at: usize,
    found: &Found,
    sonorities: &[Sonority],
    before: Option<&Sonority>,
) -> Reason {
    let spot = &question.line.spots[at];
    let why = match found.chord {
        FoundChord::Given | FoundChord::Turned(_) => Reason::Given,
        FoundChord::Plain => Reason::Foreign,
        FoundChord::Stock(number) => match lexicon::shape(found.tonality.mode, number) {
            None => Reason::Foreign,
            Some(shape) => {
                let rules = path::rules(question, at, &Local::new(found.tonality));
                let ruled = rules.into_iter().find(|rule| rule.figures == shape.text);
                let usage = path::usage_here(question, at, &Local::new(found.tonality));
                let stock = || Reason::Stock { kind: shape.kind, kept: kept(sonorities, before) };
                match (ruled, usage) {
                    (Some(rule), None) => rule.reason,
                    (Some(rule), Some(_)) if rule.reason.is_of_place() => rule.reason,
                    (_, Some(usage)) => {
                        let after = spot.after.and_then(|next| question.line.spots.get(next));
                        let place = spot.place - found.tonality.tonic.fifths();
                        let (first, _) = lexicon::shapes(found.tonality.mode, place);
                        let likely = usage.likelihood(number.saturating_sub(first));
                        let percent = (likely * 100.0).round() as u8;
                        let to = after.map(|next| next.pitch.class());
                        Reason::Usage { version: question.version, percent, to }
                    }
                    (None, None) => stock(),
                }
            }
        },
    };
    match found.from {
        None => why,
        Some((from, Joint::Common)) => {
            Reason::Hinge { from, was: from.degree_of(spot.pitch.step), why: Box::new(why) }
        }
        Some((from, Joint::Respelled)) => Reason::Respelled { from, why: Box::new(why) },
        Some((from, Joint::None)) => Reason::Turn { from, why: Box::new(why) },
    }
}

/// The tones a chord keeps from the one before, its bass aside.
fn kept(sonorities: &[Sonority], before: Option<&Sonority>) -> Vec<PitchClass> {
    let (Some(first), Some(before)) = (sonorities.first(), before) else { return Vec::new() };
    let tones = first.tones.iter().map(|tone| tone.class);
    tones.filter(|&class| before.has(class)).collect()
}
