//! Letter names and letter names with accidentals, without an octave.

use super::{Interval, Pitch};
use std::fmt;

/// A letter name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Step {
    /// C.
    C,
    /// D.
    D,
    /// E.
    E,
    /// F.
    F,
    /// G.
    G,
    /// A.
    A,
    /// B (H in German).
    B,
}

impl Step {
    /// The seven letters from C up.
    pub const ALL: [Step; 7] = [Step::C, Step::D, Step::E, Step::F, Step::G, Step::A, Step::B];

    /// Place in the octave, C = 0 to B = 6.
    pub const fn index(self) -> i32 {
        self as i32
    }

    /// The letter `index` steps above C, wrapping at the octave.
    pub const fn wrapped(index: i32) -> Step {
        Step::ALL[index.rem_euclid(7) as usize]
    }

    /// Semitones above C of the natural letter, in the range [0, 11].
    pub const fn semitones(self) -> i32 {
        [0, 2, 4, 5, 7, 9, 11][self as usize]
    }

    /// Place on the line of fifths, F = -1, C = 0 to B = 5.
    pub const fn fifths(self) -> i32 {
        [0, 2, 4, -1, 1, 3, 5][self as usize]
    }

    /// The English letter.
    pub const fn letter(self) -> char {
        ['C', 'D', 'E', 'F', 'G', 'A', 'B'][self as usize]
    }

    /// The step a letter names, upper or lower case (A to G).
    pub const fn from_letter(letter: char) -> Option<Step> {
        Some(match letter.to_ascii_uppercase() {
            'C' => Step::C,
            'D' => Step::D,
            'E' => Step::E,
            'F' => Step::F,
            'G' => Step::G,
            'A' => Step::A,
            'B' => Step::B,
            _ => return None,
        })
    }
}

/// A letter name with its accidental, in no particular octave.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct PitchClass {
    /// The letter.
    pub step: Step,
    /// Semitones above the natural letter: -1 flat, +1 sharp.
    pub alter: i8,
}

impl PitchClass {
    /// A class from its letter and alteration in semitones.
    pub const fn new(step: Step, alter: i8) -> PitchClass {
        PitchClass { step, alter }
    }

    /// Place on the line of fifths: C = 0, G = 1, F = -1, F♯ = 6, B♭ = -2.
    pub const fn fifths(self) -> i32 {
        self.step.fifths() + 7 * self.alter as i32
    }

    /// The class at a place on the line of fifths; the inverse of [`PitchClass::fifths`].
    pub const fn from_fifths(fifths: i32) -> PitchClass {
        let from_f = fifths + 1;
        let step = [Step::F, Step::C, Step::G, Step::D, Step::A, Step::E, Step::B]
            [from_f.rem_euclid(7) as usize];
        PitchClass { step, alter: from_f.div_euclid(7) as i8 }
    }

    /// Semitones above C, wrapped into [0, 11].
    pub const fn chroma(self) -> i32 {
        (self.step.semitones() + self.alter as i32).rem_euclid(12)
    }

    /// This class in the octave that starts on C`octave`.
    pub const fn in_octave(self, octave: i8) -> Pitch {
        Pitch { step: self.step, alter: self.alter, octave }
    }

    /// The lowest pitch of this class whose letter lies at or above that of `floor`.
    pub fn at_or_above(self, floor: Pitch) -> Pitch {
        let up = (self.step.index() - floor.step.index()).rem_euclid(7);
        Pitch::from_diatonic(floor.diatonic() + up, self.alter)
    }

    /// The pitch of this class nearest `to`; of two equally near the upper one.
    pub fn nearest(self, to: Pitch) -> Pitch {
        let above = self.at_or_above(to);
        let below = above - Interval::OCTAVE;
        if (to.semitones() - below.semitones()).abs() < (above.semitones() - to.semitones()).abs() {
            below
        } else {
            above
        }
    }
}

impl std::ops::Add<Interval> for PitchClass {
    type Output = PitchClass;

    fn add(self, interval: Interval) -> PitchClass {
        (self.in_octave(4) + interval).class()
    }
}

impl fmt::Display for PitchClass {
    /// English letter and ♯ or ♭ signs: `F♯`, `B♭`, `C`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.step.letter())?;
        let sign = if self.alter < 0 { '♭' } else { '♯' };
        for _ in 0..self.alter.unsigned_abs() {
            write!(f, "{sign}")?;
        }
        Ok(())
    }
}
