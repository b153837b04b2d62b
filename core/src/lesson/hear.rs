//! A fault heard alone: the two outer voices, slowly.

use crate::frame::pairs;
use crate::reading::Reading;
use crate::roll::{self, Performance};

/// Bass and soprano of these chords, first to last, struck together and slowly.
/// Chords beyond the reading are passed over; pitches no keyboard has are silent,
/// and where the soprano rests the bass is struck alone.
pub fn outer_voices(reading: &Reading, from: usize, to: usize) -> Performance {
    let pairs = pairs(&reading.harmony.chords, &reading.frame.soprano);
    let end = to.max(from).saturating_add(1).min(pairs.len());
    let mut performance = roll::outer_voices(pairs.get(from..end).unwrap_or_default());
    for touch in &mut performance.touches {
        touch.chord += from;
    }
    performance
}
