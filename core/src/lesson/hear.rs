//! A fault heard alone: the two outer voices, slowly.

use crate::frame::rests;
use crate::hands::Hand;
use crate::pitch::Pitch;
use crate::reading::Reading;
use crate::roll::{Micros, NoteKind, Performance, Touch};

/// How long each chord sounds.
const EACH: Micros = Micros::from_ms(1400);
/// How long the last one rings on.
const DECAY: Micros = Micros::from_ms(1500);

/// Bass and soprano of these chords, first to last, struck together and slowly.
/// Chords beyond the reading are passed over; pitches no keyboard has are silent.
pub fn outer_voices(reading: &Reading, from: usize, to: usize) -> Performance {
    let mut performance = Performance::default();
    let mut now = Micros::default();
    let chords = reading.harmony.chords.iter().zip(&reading.frame.soprano).enumerate();
    for (i, (chord, &soprano)) in chords.skip(from).take(to.saturating_sub(from) + 1) {
        performance.starts.push(now);
        performance.dwells.push(Micros::default());
        let up = Micros(now.0 + EACH.0);
        let touch = |pitch: Pitch, hand| {
            let key = pitch.key()?;
            let kind = NoteKind::Chord;
            Some(Touch { key, pitch, hand, chord: i, down: now, up, velocity: 72, kind })
        };
        performance.touches.extend(touch(chord.bass, Hand::Left));
        if !rests(chord) && !soprano.same_key(chord.bass) {
            performance.touches.extend(touch(soprano, Hand::Right));
        }
        now = up;
    }
    performance.end = Micros(now.0 + DECAY.0);
    performance
}
