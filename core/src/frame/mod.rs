//! The outer voices: one rulebook, a checker that reports its faults and a
//! solver that turns the same faults into costs.
//!
//! The soprano is the proven best line under the costs stated in `costs`, found
//! by dynamic programming over every chord tone in every octave it may take.
//! Faults outweigh any sum of cautions and tastes, so a line with a fault is
//! handed over only where pins, position or the bass leave no line without.

mod candidates;
mod check;
mod choices;
mod costs;
mod motion;
mod rules;
mod solver;
mod trellis;
mod wishes;

pub use check::faults;
pub use choices::{RankedSoprano, best_sopranos};
pub use motion::{Motion, Motions, OuterPair, motion, motions};
pub use rules::{Fault, Rule, Severity};
pub use wishes::{
    Contour, ContourPoint, FrameWishes, Position, Preference, RuleSwitches, Smoothness,
    SopranoCompass, Strictness,
};

pub(crate) use rules::rests;

use crate::harmony::Chord;
use crate::pitch::Pitch;
use crate::sketch::Sketch;

/// The outer voices of a piece and what is to be said of them.
#[derive(Clone, Debug, PartialEq)]
pub struct Frame {
    /// The soprano over each chord; as long as the chords. Where the bass plays
    /// alone (*tasto solo*) it rests, and the bass's own pitch stands here.
    pub soprano: Vec<Pitch>,
    /// Motion into each chord from the one before; one shorter than the chords.
    pub motions: Vec<Motion>,
    /// Faults and cautions, in order of place.
    pub faults: Vec<Fault>,
    /// How many different good sopranos there are to choose among (at least 1
    /// unless there are no chords).
    pub choices: usize,
}

impl Frame {
    /// The frame of a given soprano over these chords, as long as the shorter.
    pub fn of(sketch: &Sketch, chords: &[Chord], soprano: Vec<Pitch>, choices: usize) -> Frame {
        let pairs = pairs(chords, &soprano);
        let moves = pairs.iter().zip(pairs.iter().skip(1));
        let motions = moves.map(|(from, to)| motion(*from, *to)).collect();
        let faults = faults(&sketch.frame, chords, &soprano);
        Frame { soprano, motions, faults, choices }
    }
}

/// Bass and soprano over each chord.
pub fn pairs(chords: &[Chord], soprano: &[Pitch]) -> Vec<OuterPair> {
    let pair = |(chord, &soprano): (&Chord, &Pitch)| OuterPair { bass: chord.bass, soprano };
    chords.iter().zip(soprano).map(pair).collect()
}

/// Sets the outer voices over the chords of a sketch: the best soprano under its
/// pins and wishes, or the further choice it asks for. Empty chords give an
/// empty frame. Cost: linear in the chords.
pub fn frame(sketch: &Sketch, chords: &[Chord]) -> Frame {
    let mut choices = choices::different_sopranos(sketch, chords);
    let count = choices.len();
    let chosen = usize::from(sketch.frame.choice).checked_rem(count).unwrap_or(0);
    let soprano = if chosen < count { choices.swap_remove(chosen) } else { Vec::new() };
    Frame::of(sketch, chords, soprano, count)
}
