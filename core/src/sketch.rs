//! The sketch: everything that a person decides, and nothing that follows from it.
//!
//! A sketch is what is saved, linked, undone and handed from teacher to student.
//! Every field is plain and public; any value is legal, and the rooms that read
//! it say what they could not honour.

use crate::bass::NoteValue;
use crate::figures::Figures;
use crate::frame::FrameWishes;
use crate::hands::{HandWishes, Handful};
use crate::harmony::HarmonyWishes;
use crate::pitch::{Pitch, Tonality};
use crate::roll::{ChordStroke, RollWishes};
use crate::sound::SoundWishes;

/// A bass and what has been decided about it.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Sketch {
    /// The piece's title; may be empty.
    pub title: String,
    /// The tonality, or `None` to have it found from the bass.
    pub tonality: Option<Tonality>,
    /// The bass notes in order.
    pub notes: Vec<SketchNote>,
    /// How bare notes are to be harmonised.
    pub harmony: HarmonyWishes,
    /// What the outer voices should be like.
    pub frame: FrameWishes,
    /// The player's hands and keyboard.
    pub hands: HandWishes,
    /// How chords are rolled.
    pub roll: RollWishes,
    /// The instrument.
    pub sound: SoundWishes,
}

/// One bass note with everything decided about it, so that inserting or
/// deleting a note carries its decisions along.
#[derive(Clone, Debug, PartialEq)]
pub struct SketchNote {
    /// The bass pitch.
    pub pitch: Pitch,
    /// Figures the person gave; `None` leaves them to the harmony.
    pub figures: Option<Figures>,
    /// Whether the note carries a chord.
    pub weight: Weight,
    /// How long the note lasts in a measured bass; `None` where nobody said.
    pub value: Option<NoteValue>,
    /// The rest after it.
    pub rest: Option<NoteValue>,
    /// The soprano fixed over each stage of this note, first stage first; may be
    /// shorter than the stages (missing means free) or longer (the rest waits).
    pub soprano: Vec<Option<Pin>>,
    /// The handful fixed over each stage of this note, as `soprano`: the person's
    /// own, used as it stands and checked.
    pub handfuls: Vec<Option<Handful>>,
    /// How this note's chord is rolled, where it differs from the piece.
    pub stroke: ChordStroke,
}

impl SketchNote {
    /// A bare bass note with nothing else decided.
    pub fn bare(pitch: Pitch) -> SketchNote {
        SketchNote {
            pitch,
            figures: None,
            weight: Weight::Unmarked,
            value: None,
            rest: None,
            soprano: Vec::new(),
            handfuls: Vec::new(),
            stroke: ChordStroke::default(),
        }
    }
}

/// Whether a bass note carries its own chord.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Weight {
    /// Left to the harmony's judgement; see [`crate::bass::passing`].
    #[default]
    Unmarked,
    /// A chord note.
    Structural,
    /// A passing note under the chord before it.
    Passing,
}

/// A soprano note that the solver may not move.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pin {
    /// The pitch.
    pub pitch: Pitch,
    /// Who put it there.
    pub hold: Hold,
}

/// Why a soprano note is fixed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hold {
    /// The person pinned it; only the person takes it away.
    Pinned,
    /// It was left where it stood while a neighbour was moved; it gives way as
    /// soon as the rest is solved anew or its chord changes.
    Resting,
}
