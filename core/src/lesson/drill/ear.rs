//! What the ear tells: which motion was that, which degree is in the bass, which
//! cadence was it?

use crate::bass::{BassMotion, OctaveRun, motion, octave};
use crate::chance::Chance;
use crate::harmony::{Cadence, harmonise};
use crate::pitch::{Degree, Interval, Mode, Pitch, PitchClass, Tonality};
use crate::sketch::{Sketch, SketchNote};

/// What is to be recognised.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum EarAnswer {
    /// A bass motion.
    Motion(BassMotion),
    /// The degree in the bass of the last chord.
    Degree(Degree),
    /// A cadence.
    Cadence(Cadence),
}

/// Something to listen to.
#[derive(Clone, Debug, PartialEq)]
pub struct EarQuestion {
    /// What is played; its reading sounds.
    pub sketch: Sketch,
    /// What to choose among, no two true of what is played.
    pub choices: Vec<EarAnswer>,
    /// Which choice is true.
    pub answer: usize,
}

/// The most choices.
const CHOICES: usize = 4;
/// Moves of a motion that are heard, in whole rounds of its pattern.
const MOVES: usize = 6;

/// "Which motion was that?" Mode, tonic, motion and choices by the seed.
pub fn ear_motion(seed: u32) -> EarQuestion {
    let mut chance = Chance::of(u64::from(seed), 1);
    let home = some_tonality(&mut chance);
    let kind = some(&mut chance, &BassMotion::ALL).unwrap_or(BassMotion::StepsUp);
    let moves =
        |kind: BassMotion| motion(kind, home, Degree::wrapped(0), MOVES / kind.letters().len());
    let bass = moves(kind);
    // Another motion that moves over the same notes is no choice.
    let others = BassMotion::ALL.into_iter().filter(|&it| it != kind && moves(it) != bass);
    let others = others.map(EarAnswer::Motion).collect();
    ask(&mut chance, home, bass, EarAnswer::Motion(kind), others)
}

/// "Which degree is in the bass?" A cadence sets the key, then one chord follows.
pub fn ear_degree(seed: u32) -> EarQuestion {
    let mut chance = Chance::of(u64::from(seed), 2);
    let home = some_tonality(&mut chance);
    let mut bass = octave(home, OctaveRun::Down, Some(Cadence::Simple)).split_off(7);
    let run = if chance.below(2) == 0 { OctaveRun::Up } else { OctaveRun::Down };
    let scale = octave(home, run, None);
    let last = some(&mut chance, &scale).unwrap_or(home.tonic.in_octave(3));
    bass.push(last);
    let sketch = sketch(home, bass.clone());
    // What the reading itself says of its last chord.
    let harmony = harmonise(&sketch);
    let degree = harmony.chords.last().map(|chord| harmony.home.degree_of(chord.bass.step));
    let degree = degree.unwrap_or(Degree::wrapped(0));
    let others = (1..=7).filter_map(Degree::new).filter(|other| *other != degree);
    let others = others.map(EarAnswer::Degree).collect();
    ask(&mut chance, home, bass, EarAnswer::Degree(degree), others)
}

/// "Which cadence was that?"
pub fn ear_cadence(seed: u32) -> EarQuestion {
    let mut chance = Chance::of(u64::from(seed), 3);
    let mut home = some_tonality(&mut chance);
    let kind = some(&mut chance, &Cadence::ALL).unwrap_or(Cadence::Simple);
    if kind == Cadence::Phrygian {
        home = Tonality::new(home.tonic, Mode::Minor);
    }
    let closing = |kind| octave(home, OctaveRun::Down, Some(kind)).split_off(7);
    let bass = closing(kind);
    let others = Cadence::ALL;
    let others = others.into_iter().filter(|&other| other != kind && closing(other) != bass);
    let others = others.map(EarAnswer::Cadence).collect();
    ask(&mut chance, home, bass, EarAnswer::Cadence(kind), others)
}

fn ask(
    chance: &mut Chance,
    home: Tonality,
    bass: Vec<Pitch>,
    right: EarAnswer,
    mut others: Vec<EarAnswer>,
) -> EarQuestion {
    let mut choices = vec![right];
    while choices.len() < CHOICES && !others.is_empty() {
        choices.push(others.swap_remove(chance.below(others.len() as u64) as usize));
    }
    let answer = chance.below(choices.len() as u64) as usize;
    choices.swap(0, answer);
    EarQuestion { sketch: sketch(home, bass), choices, answer }
}

fn sketch(home: Tonality, bass: Vec<Pitch>) -> Sketch {
    let notes = bass.into_iter().map(SketchNote::bare).collect();
    Sketch { tonality: Some(home), notes, ..Sketch::default() }
}

/// A tonality with at most six sharps or flats.
fn some_tonality(chance: &mut Chance) -> Tonality {
    let signature = chance.below(12) as i32 - 5;
    let major = PitchClass::from_fifths(signature);
    match chance.below(2) {
        0 => Tonality::new(major, Mode::Major),
        _ => Tonality::new(major + Interval::new(5, 9), Mode::Minor),
    }
}

fn some<T: Copy>(chance: &mut Chance, all: &[T]) -> Option<T> {
    all.get(chance.below(all.len() as u64) as usize).copied()
}
