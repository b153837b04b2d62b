//! A chord over a bass note: its tones, what they owe, its figures and reason.

use crate::figures::Stage;
use crate::pitch::{Degree, Pitch, PitchClass, Tonality};

/// How bare notes are to be harmonised.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct HarmonyWishes {}

/// What a chord tone must do next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Duty {
    /// Nothing in particular; may be doubled freely.
    Free,
    /// Rises by step: leading notes, augmented fourths and sixths. Better not doubled.
    Rises,
    /// Falls by step: sevenths, diminished fifths. Better not doubled.
    Falls,
    /// A prepared dissonance that falls by step (4, 9, 7 of a 7-6). Not doubled;
    /// also wants to have been in the same voice in the chord before.
    Suspended,
}

/// One tone of a sonority.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tone {
    /// Its spelled class.
    pub class: PitchClass,
    /// Its figure above the bass, in the range [1, 9]: 1 is the bass's own class,
    /// 9 a suspended ninth, otherwise reduced to [1, 7].
    pub number: u8,
    /// What it owes.
    pub duty: Duty,
    /// Whether the sonority is still complete without it.
    pub omittable: bool,
}

/// A sonority over a bass note.
#[derive(Clone, Debug, PartialEq)]
pub struct Chord {
    /// Which note of the sketch it stands on.
    pub note: usize,
    /// Which stage over that note, from 0.
    pub stage: usize,
    /// The bass pitch.
    pub bass: Pitch,
    /// The tones, the bass's own class (number 1) first. *Tasto solo* has only that.
    pub tones: Vec<Tone>,
    /// The tonality of the moment.
    pub tonality: Tonality,
    /// The degree of the bass in it.
    pub degree: Degree,
    /// The figures to print.
    pub figures: Stage,
    /// Why it is here.
    pub reason: Reason,
}

/// Why a chord stands where it does; [`crate::words::reason`] says it in a sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reason {
    /// A plain triad.
    Triad {
        /// Its degree.
        degree: Degree,
    },
}
