//! Turns of more than one note: chains of suspensions over a bass that moves by
//! step, and semitones put in between.
//!
//! 5-6 on each note of a rising bass, 7-6 on each of a falling one, 9-8 rising, and
//! 5/3 and 6 by turns falling: after Fenaroli, book III, and Sanguinetti, *The Art
//! of Partimento* (2012), pp. 135-158 (found, essaysonmusic.com). Semitones put
//! between the notes of a scale: C.P.E. Bach, *Versuch* II (1762), ch. 41, from
//! memory.

use super::chord::{Chord, Harmony};
use super::lexicon;
use super::sonority::{Sonority, printed};
use crate::figures::Figures;
use crate::pitch::{Interval, Pitch};
use crate::sketch::{Sketch, SketchNote};

/// Fewest notes of a chain, with the one it leads to.
const LEAST: usize = 4;

/// What the notes of a chain bear.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Chain {
    /// 5-6 on each note of a rising bass.
    FiveSix,
    /// 9-8 on each note of a rising bass.
    NineEight,
    /// 7-6 on each note of a falling bass.
    SevenSix,
    /// 5/3 and 6 by turns over a falling bass.
    Alternate,
}

/// A turn that could be taken at a note.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Pattern {
    /// A chain over the whole stretch by step.
    Chain {
        /// Which.
        chain: Chain,
        /// Each of its notes with its figures under the home signature.
        notes: Vec<(usize, Figures)>,
        /// The note it leads to.
        last: usize,
    },
    /// A chromatic note between this bass note and the next.
    Fill {
        /// The note it follows.
        after: usize,
        /// The note put in.
        pitch: Pitch,
    },
}

impl Pattern {
    /// Writes it into the sketch whose pattern it is.
    pub fn apply(&self, sketch: &mut Sketch) {
        match self {
            Pattern::Chain { notes, .. } => {
                for (at, figures) in notes {
                    if let Some(note) = sketch.notes.get_mut(*at) {
                        note.figures = Some(figures.clone());
                    }
                }
            }
            Pattern::Fill { after, pitch } => {
                let at = (after + 1).min(sketch.notes.len());
                sketch.notes.insert(at, SketchNote::bare(*pitch));
            }
        }
    }
}

/// The turns that can be taken at note `note` of a sketch with this harmony: the
/// chains its stretch by step can bear, where all of it lies in one tonality, and a
/// semitone before the next note a tone away. Cost: linear in the stretch.
pub fn patterns(sketch: &Sketch, harmony: &Harmony, note: usize) -> Vec<Pattern> {
    let chords = &harmony.chords;
    let here = chords.partition_point(|chord| chord.note < note);
    let Some(chord) = chords.get(here).filter(|chord| chord.note == note) else {
        return Vec::new();
    };
    let mut found = Vec::new();
    for rising in [true, false] {
        let stretch = stretch(chords, here, rising);
        if stretch.len() < LEAST {
            continue;
        }
        let chains: &[Chain] = if rising {
            &[Chain::FiveSix, Chain::NineEight]
        } else {
            &[Chain::SevenSix, Chain::Alternate]
        };
        found.extend(chains.iter().filter_map(|&kind| chain(kind, harmony, &stretch)));
    }
    let next = chords[here..].iter().find(|next| next.note > note);
    let joined = next.filter(|next| next.note == note + 1 && sketch.notes.get(note).is_some());
    found.extend(joined.and_then(|next| fill(chord, next)));
    found
}

/// The first chord over each note of the longest run by step through a chord.
fn stretch(chords: &[Chord], here: usize, rising: bool) -> Vec<&Chord> {
    let way = if rising { 1 } else { -1 };
    let joins = |one: &Chord, other: &Chord| {
        let steps = other.bass.diatonic() - one.bass.diatonic();
        let semitones = (other.bass.semitones() - one.bass.semitones()).abs();
        steps == way && (1..=2).contains(&semitones) && one.tonality == other.tonality
    };
    let first = |chord: &&Chord| chord.stage == 0;
    let mut run: Vec<&Chord> = Vec::new();
    for chord in chords[..=here].iter().rev().filter(first) {
        if run.last().is_some_and(|later| !joins(chord, later)) {
            break;
        }
        run.push(chord);
    }
    run.reverse();
    for chord in chords[here + 1..].iter().filter(first) {
        if run.last().is_some_and(|earlier| !joins(earlier, chord)) {
            break;
        }
        run.push(chord);
    }
    run
}

fn chain(chain: Chain, harmony: &Harmony, stretch: &[&Chord]) -> Option<Pattern> {
    let (last, borne) = stretch.split_last()?;
    let mut before: Option<Sonority> = None;
    let notes = borne.iter().enumerate().map(|(at, chord)| {
        // The first note prepares the chain.
        let text = match (chain, at) {
            (Chain::FiveSix, _) | (Chain::SevenSix, 0) => "5/3 6",
            (Chain::SevenSix, _) => "7 6",
            (Chain::NineEight, 0) => "5/3",
            (Chain::NineEight, _) => "9 5/3",
            (Chain::Alternate, at) if at % 2 == 0 => "5/3",
            (Chain::Alternate, _) => "6",
        };
        let stages = lexicon::sonorities(text, chord.bass.class(), chord.tonality)?;
        let figures = Figures::new(printed(&stages, before.as_ref(), harmony.home))?;
        before = stages.into_iter().last();
        Some((chord.note, figures))
    });
    let notes: Option<Vec<(usize, Figures)>> = notes.collect();
    Some(Pattern::Chain { chain, notes: notes?, last: last.note })
}

/// The semitone between two notes a tone apart: the lower one raised on the way up,
/// the upper one lowered on the way down.
fn fill(chord: &Chord, next: &Chord) -> Option<Pattern> {
    let by = next.bass - chord.bass;
    let semitone = match (by.steps, by.semitones) {
        (1, 2) => 1,
        (-1, -2) => -1,
        _ => return None,
    };
    let pitch = chord.bass + Interval::new(0, semitone);
    // Double sharps and flats are for those who write them.
    (pitch.alter.abs() <= 1).then_some(Pattern::Fill { after: chord.note, pitch })
}
