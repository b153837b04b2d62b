//! The outer voices: one rulebook, a checker that reports its faults and a
//! solver that turns the same faults into costs.

use crate::harmony::Chord;
use crate::pitch::{Interval, Pitch, Step};
use crate::sketch::Sketch;

/// What the outer voices should be like.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct FrameWishes {
    /// Where the soprano starts above the first bass note; `None` leaves it open.
    pub position: Option<Position>,
    /// Which of the good sopranos is shown: 0 is the best, each further one
    /// audibly different.
    pub choice: u8,
}

/// The interval of the first soprano note above the bass.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Position {
    /// First position: the octave on top.
    Octave,
    /// Second position: the third on top.
    Third,
    /// Third position: the fifth (or sixth) on top.
    Fifth,
}

/// How the outer voices move from one chord to the next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Motion {
    /// In opposite directions.
    Contrary,
    /// One stays, the other moves.
    Oblique,
    /// In the same direction, the interval changing.
    Similar,
    /// In the same direction keeping the interval's number (tenths, sixths).
    Parallel,
    /// Neither moves.
    Still,
}

/// Bass and soprano sounding together.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct OuterPair {
    /// The bass.
    pub bass: Pitch,
    /// The soprano.
    pub soprano: Pitch,
}

/// A rule of the outer voices. Its name, explanation and source are in `words`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Rule {
    /// Consecutive octaves or unisons.
    ConsecutiveOctaves,
    /// Consecutive fifths.
    ConsecutiveFifths,
}

/// How serious a remark is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Severity {
    /// Worth a second look.
    Caution,
    /// A broken rule.
    Fault,
}

/// A broken rule and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The rule.
    pub rule: Rule,
    /// How serious, under the rules in force.
    pub severity: Severity,
    /// Index of the first chord concerned.
    pub from: usize,
    /// Index of the last chord concerned; equal to `from` for a single chord.
    pub to: usize,
    /// The outer pair at `from`.
    pub first: OuterPair,
    /// The outer pair at `to`.
    pub last: OuterPair,
}

/// The outer voices of a piece and what is to be said of them.
#[derive(Clone, Debug, PartialEq)]
pub struct Frame {
    /// The soprano over each chord; as long as the chords.
    pub soprano: Vec<Pitch>,
    /// Motion into each chord from the one before; one shorter than the chords.
    pub motions: Vec<Motion>,
    /// Faults and cautions, in order of place.
    pub faults: Vec<Fault>,
    /// How many different good sopranos there are to choose among (at least 1
    /// unless there are no chords).
    pub choices: usize,
}

/// Sets the outer voices over the chords of a sketch.
pub fn frame(_sketch: &Sketch, chords: &[Chord]) -> Frame {
    let floor = Pitch::new(Step::C, 0, 4);
    let soprano: Vec<Pitch> = chords
        .iter()
        .map(|chord| chord.tones.last().map_or(chord.bass, |tone| tone.class.at_or_above(floor)))
        .collect();
    let motions = soprano.windows(2).zip(chords.windows(2)).map(|(s, c)| {
        motion(
            OuterPair { bass: c[0].bass, soprano: s[0] },
            OuterPair { bass: c[1].bass, soprano: s[1] },
        )
    });
    let motions = motions.collect();
    Frame { motions, faults: Vec::new(), choices: usize::from(!chords.is_empty()), soprano }
}

/// How the outer voices move between two pairs.
pub fn motion(from: OuterPair, to: OuterPair) -> Motion {
    let bass = (to.bass - from.bass).steps.signum();
    let soprano = (to.soprano - from.soprano).steps.signum();
    let number = |pair: OuterPair| Interval::simple_number(pair.soprano - pair.bass);
    match (bass, soprano) {
        (0, 0) => Motion::Still,
        (0, _) | (_, 0) => Motion::Oblique,
        _ if bass != soprano => Motion::Contrary,
        _ if number(from) == number(to) => Motion::Parallel,
        _ => Motion::Similar,
    }
}
