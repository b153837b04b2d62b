//! Notes in time, as scores and MIDI files both have them.

use super::PartName;
use crate::figures::Stage;
use crate::pitch::{Pitch, Tonality};

/// Ticks of a quarter note: every usual division of one is a whole number of them.
pub(super) const QUARTER: i64 = 10_080;

/// What a file of another program holds, as far as it concerns a bass.
#[derive(Clone, Debug, Default)]
pub(super) struct Piece {
    pub(super) title: String,
    pub(super) parts: Vec<Part>,
}

/// One staff, track or channel.
#[derive(Clone, Debug)]
pub(super) struct Part {
    pub(super) name: PartName,
    pub(super) key: Key,
    pub(super) notes: Vec<Struck>,
    pub(super) figures: Vec<Figured>,
}

/// What a file says of its tonality.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Key {
    /// Nothing.
    Open,
    /// Its signature, in fifths.
    Signature(i32),
    /// All of it.
    Stated(Tonality),
}

/// A note and when it sounds, in ticks.
#[derive(Clone, Debug)]
pub(super) struct Struck {
    pub(super) at: i64,
    pub(super) end: i64,
    pub(super) pitch: Pitch,
    /// A small note of a score of our own: a bass note that passes.
    pub(super) small: bool,
    /// Words under it, line by line.
    pub(super) lyrics: Vec<String>,
}

/// Figures and where they stand.
#[derive(Clone, Debug)]
pub(super) struct Figured {
    pub(super) at: i64,
    pub(super) stage: Stage,
}
