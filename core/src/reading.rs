//! The reading: all that follows from a sketch, computed stage by stage.

use crate::frame::{self, Frame};
use crate::hands::{self, Hands};
use crate::harmony::{self, Harmony};
use crate::roll::{self, Performance};
use crate::sketch::Sketch;

/// Everything derived from a sketch.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// The chords.
    pub harmony: Harmony,
    /// The outer voices.
    pub frame: Frame,
    /// The handfuls.
    pub hands: Hands,
    /// The performance.
    pub performance: Performance,
}

/// Reads a sketch. Never fails: an empty sketch gives an empty reading, and
/// what could not be honoured is said in the remarks of each stage.
pub fn read(sketch: &Sketch) -> Reading {
    let harmony = harmony::harmonise(sketch);
    let frame = frame::frame(sketch, &harmony.chords);
    let hands = hands::handfuls(sketch, &harmony.chords, &frame);
    let performance = roll::roll(sketch, &harmony.chords, &hands);
    Reading { harmony, frame, hands, performance }
}
