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
mod conflicts;
mod costs;
mod example;
mod holding;
mod inner;
mod memory;
mod motion;
mod rules;
mod solver;
mod trellis;
pub(crate) mod ways;
mod wishes;

pub use check::faults;
pub use choices::{RankedSoprano, best_sopranos};
pub use conflicts::PinConflict;
pub use example::{Example, example};
pub use holding::figures_that_hold;
pub use inner::{InnerParallel, Perfect, inner_parallels};
pub use memory::FrameMemory;
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
    /// Pins that cannot all stand in a clean line.
    pub conflicts: Vec<PinConflict>,
}

impl Frame {
    /// The frame of a given soprano over these chords, as long as the shorter.
    pub fn of(sketch: &Sketch, chords: &[Chord], soprano: Vec<Pitch>, choices: usize) -> Frame {
        let pairs = pairs(chords, &soprano);
        let moves = pairs.iter().zip(pairs.iter().skip(1));
        let motions = moves.map(|(from, to)| motion(*from, *to)).collect();
        let faults = faults(&sketch.frame, chords, &soprano);
        Frame { soprano, motions, faults, choices, conflicts: Vec::new() }
    }
}

/// Bass and soprano over each chord.
pub fn pairs(chords: &[Chord], soprano: &[Pitch]) -> Vec<OuterPair> {
    let pair = |(chord, &soprano): (&Chord, &Pitch)| OuterPair { bass: chord.bass, soprano };
    chords.iter().zip(soprano).map(pair).collect()
}

/// The chord tone nearest a pitch in height: where a dragged soprano note snaps.
/// Of two equally near the upper one; the pitch itself over a bass alone.
pub fn snap(chord: &Chord, pitch: Pitch) -> Pitch {
    let near = chord.tones.iter().map(|tone| tone.class.nearest(pitch));
    let distance = |near: &Pitch| {
        let up = near.semitones() - pitch.semitones();
        (up.abs(), up < 0)
    };
    near.filter(|_| !rests(chord)).min_by_key(distance).unwrap_or(pitch)
}

/// Sets the outer voices over the chords of a sketch: the best soprano under its
/// pins and wishes, or the further choice it asks for. Empty chords give an
/// empty frame. Cost: linear in the chords.
pub fn frame(sketch: &Sketch, chords: &[Chord]) -> Frame {
    frame_anew(&mut FrameMemory::default(), sketch, chords)
}

/// [`frame`], taking over what the memory holds of a piece that differs little; the
/// answer is the same.
pub fn frame_anew(memory: &mut FrameMemory, sketch: &Sketch, chords: &[Chord]) -> Frame {
    let (layers, trellis) = memory.trellis(sketch, chords);
    let mut choices = choices::different_sopranos(&layers, &trellis, choices::MOST_CHOICES);
    memory.keep(trellis);
    let count = choices.len();
    let chosen = usize::from(sketch.frame.choice).checked_rem(count).unwrap_or(0);
    let soprano = if chosen < count { choices.swap_remove(chosen) } else { Vec::new() };
    let mut frame = Frame::of(sketch, chords, soprano, count);
    if frame.faults.iter().any(|fault| fault.severity == Severity::Fault) {
        frame.conflicts = conflicts::conflicts(sketch, chords);
    }
    frame
}

/// The soprano and its faults alone, for the moments of a drag: how many choices
/// there are is taken to be what it was, and no pins are told to quarrel. Where that
/// number stands the soprano is the one of [`frame`].
pub fn frame_in_brief(
    memory: &mut FrameMemory,
    sketch: &Sketch,
    chords: &[Chord],
    choices: usize,
) -> Frame {
    let (layers, trellis) = memory.trellis(sketch, chords);
    let chosen = usize::from(sketch.frame.choice).checked_rem(choices).unwrap_or(0);
    let soprano = choices::different_sopranos(&layers, &trellis, chosen + 1).pop();
    memory.keep(trellis);
    Frame::of(sketch, chords, soprano.unwrap_or_default(), choices)
}
