//! Small questions about tonalities and chords that several checks ask.

use crate::harmony::Chord;
use crate::order;
use crate::pitch::{Interval, PitchClass, Tonality};

/// The 5th of a tonality.
pub(super) fn fifth(tonality: Tonality) -> PitchClass {
    tonality.tonic + Interval::FIFTH
}

/// The classes of a chord, sorted, the bass's own among them.
pub(super) fn classes(chord: &Chord) -> Vec<PitchClass> {
    let mut classes: Vec<PitchClass> = chord.tones.iter().map(|tone| tone.class).collect();
    classes.push(chord.bass.class());
    tidy(classes)
}

/// Sorted, each once.
pub(super) fn tidy(mut classes: Vec<PitchClass>) -> Vec<PitchClass> {
    order::sort(&mut classes);
    classes.dedup();
    classes
}

/// The figures of a chord without the octave, ascending.
pub(super) fn numbers(chord: &Chord) -> Vec<u8> {
    let mut numbers: Vec<u8> =
        chord.tones.iter().map(|tone| tone.number).filter(|&number| number != 1).collect();
    order::sort(&mut numbers);
    numbers.dedup();
    numbers
}
