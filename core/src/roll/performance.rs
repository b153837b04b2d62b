//! A performance: what the fingers do, in exact time.

use crate::hands::Hand;
use crate::pitch::{Key, Pitch};

/// A moment or length in microseconds; whole numbers, so that the same sketch
/// gives the same performance on every machine.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct Micros(pub u64);

impl Micros {
    /// From milliseconds.
    pub const fn from_ms(ms: u64) -> Micros {
        Micros(ms * 1000)
    }

    /// In seconds.
    pub fn as_secs(self) -> f64 {
        self.0 as f64 / 1e6
    }
}

/// What a struck note is to the music.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum NoteKind {
    /// A note of the chord.
    Chord,
    /// Struck between chord notes and released at once.
    Acciaccatura,
    /// Between two chord notes by step.
    Passing,
    /// Beside a chord note and back.
    Neighbour,
    /// Part of a run between two chords.
    Run,
    /// Part of a mordent or trill.
    Ornament,
    /// The next chord's soprano, early.
    Anticipation,
    /// The last chord's soprano, late.
    Suspension,
    /// Of the same chord, in another inversion than the handful's.
    Detour,
}

/// One key going down and up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Touch {
    /// The key.
    pub key: Key,
    /// How it is spelled.
    pub pitch: Pitch,
    /// The hand that plays it.
    pub hand: Hand,
    /// Index of the chord it belongs to.
    pub chord: usize,
    /// When the key goes down.
    pub down: Micros,
    /// When it comes up; always after `down`.
    pub up: Micros,
    /// Force, in the range [1, 127]; a plucked string ignores it.
    pub velocity: u8,
    /// What it is.
    pub kind: NoteKind,
}

/// A note that the handfuls do not hold, and why it was added.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Added {
    /// Index of its touch.
    pub touch: usize,
    /// Why.
    pub why: Why,
}

/// Why a note was added; `words::added` says it in a sentence.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Why {
    /// It fills a third or fourth of the chord and is left at once.
    FillsGap,
    /// It lies a semitone below a chord note and is left at once.
    SemitoneBelow,
    /// It passes by step between two chord notes.
    PassesBetween,
    /// It leaves a chord note by step and returns.
    TurnsBeside,
    /// A mordent at a close.
    Mordent,
    /// A trill at a close.
    Trill,
    /// It carries the hand from one chord to the next by the scale of the moment.
    RunsOn,
    /// The soprano sounds the next chord's note early.
    Anticipates,
    /// The soprano keeps the last chord's note before it falls into this one's.
    Suspends,
    /// The right hand goes on through the chord into another inversion, and back.
    Detours,
    /// The bass goes on to its next chord over a note without one.
    Walks,
}

/// Everything the fingers do.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Performance {
    /// The touches, by `down`, then by key.
    pub touches: Vec<Touch>,
    /// When each chord begins.
    pub starts: Vec<Micros>,
    /// How long each chord is dwelt on beyond its bare strokes: the speech of the
    /// piece.
    pub dwells: Vec<Micros>,
    /// The notes added to the handfuls, by touch.
    pub added: Vec<Added>,
    /// When all is over, the last sound's decay included.
    pub end: Micros,
}
