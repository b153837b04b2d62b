//! What an exercise asks for.

use crate::frame::Position;
use crate::harmony::Cadence;
use crate::pitch::Tonality;

/// One thing asked of the student. An exercise asks for one or several.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Ask {
    /// Harmonise this bass with figures.
    Figures(Measure),
    /// Give a soprano.
    Soprano {
        /// Where it starts; `None` leaves it open.
        position: Option<Position>,
        /// How it may move against the bass.
        motions: MotionLimit,
    },
    /// Find the faults planted in the outer voices.
    FindFaults(Naming),
    /// Open close chords into two handfuls.
    Handfuls {
        /// Notes each hand must have at the least, in the range [1, 5].
        least: u8,
    },
    /// Roll the chords.
    Roll {
        /// Acciaccaturas there must be at the least.
        acciaccaturas: u8,
    },
    /// Play it in these keys, in this order.
    Keys(Vec<Tonality>),
    /// Finish the phrase with this cadence.
    Finish(Cadence),
    /// Free: anything that grows out of what is given.
    Free,
}

/// What figures are measured by. Chords are compared by their notes, so `6/5`
/// and `6/5/3` are one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Measure {
    /// Every note is figured, and the figures can be played.
    Complete,
    /// Every chord is the model's, or one that a published version of the octave
    /// rule, a cadence or the plain chord of a leap gives there.
    #[default]
    Accepted,
    /// Every chord is the model's; without a model, that of the piece's version
    /// of the octave rule.
    AsModel,
}

/// How a soprano may move while the bass moves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum MotionLimit {
    /// Against the bass or in tenths with it, and no other way.
    #[default]
    ContraryOrTenths,
    /// Any way that the rules allow.
    Any,
}

/// How a fault must be found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Naming {
    /// Its place and its rule.
    #[default]
    Named,
    /// Its place alone.
    Place,
}
