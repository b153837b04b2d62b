//! Pitches with letter, accidental and octave.

use super::{Interval, Key, PitchClass, Step};
use std::cmp::Ordering;
use std::fmt;
use std::ops::{Add, Sub};

/// A spelled pitch. Middle C is C4.
///
/// `Pitch - Pitch` is an [`Interval`], `Pitch + Interval` a pitch. There is no
/// `Pitch + Pitch` and no `Pitch + i32`, which mean nothing in music.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Pitch {
    /// The letter.
    pub step: Step,
    /// Semitones above the natural letter.
    pub alter: i8,
    /// The octave, counted from C: C4 is middle C.
    pub octave: i8,
}

impl Pitch {
    /// A pitch from letter, alteration in semitones and octave.
    pub const fn new(step: Step, alter: i8, octave: i8) -> Pitch {
        Pitch { step, alter, octave }
    }

    /// The pitch `diatonic` letters above C0, altered by `alter` semitones.
    pub const fn from_diatonic(diatonic: i32, alter: i8) -> Pitch {
        Pitch { step: Step::wrapped(diatonic), alter, octave: diatonic.div_euclid(7) as i8 }
    }

    /// Letters above C0: the height on the staff.
    pub const fn diatonic(self) -> i32 {
        self.octave as i32 * 7 + self.step.index()
    }

    /// Semitones on the MIDI scale, unbounded: middle C is 60.
    pub const fn semitones(self) -> i32 {
        (self.octave as i32 + 1) * 12 + self.step.semitones() + self.alter as i32
    }

    /// The keyboard key, if the pitch lies on MIDI's 128 keys.
    pub const fn key(self) -> Option<Key> {
        Key::new(self.semitones())
    }

    /// The pitch without its octave.
    pub const fn class(self) -> PitchClass {
        PitchClass { step: self.step, alter: self.alter }
    }

    /// Whether both lie on one keyboard key, whatever their spelling.
    pub const fn same_key(self, other: Pitch) -> bool {
        self.semitones() == other.semitones()
    }
}

impl Add<Interval> for Pitch {
    type Output = Pitch;

    fn add(self, interval: Interval) -> Pitch {
        let natural = Pitch::from_diatonic(self.diatonic() + interval.steps, 0);
        let alter = self.semitones() + interval.semitones - natural.semitones();
        Pitch { alter: alter.clamp(-100, 100) as i8, ..natural }
    }
}

impl Sub<Interval> for Pitch {
    type Output = Pitch;

    fn sub(self, interval: Interval) -> Pitch {
        self + -interval
    }
}

impl Sub for Pitch {
    type Output = Interval;

    fn sub(self, lower: Pitch) -> Interval {
        Interval::new(self.diatonic() - lower.diatonic(), self.semitones() - lower.semitones())
    }
}

impl PartialOrd for Pitch {
    fn partial_cmp(&self, other: &Pitch) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Pitch {
    /// By sounding height, then by staff height.
    fn cmp(&self, other: &Pitch) -> Ordering {
        (self.semitones(), self.diatonic()).cmp(&(other.semitones(), other.diatonic()))
    }
}

impl fmt::Display for Pitch {
    /// Class and octave: `C4`, `F♯3`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.class(), self.octave)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn intervals_keep_their_spelling() {
        let f = Pitch::new(Step::F, 0, 3);
        let b = Pitch::new(Step::B, 0, 3);
        assert_eq!(b - f, Interval::new(3, 6));
        assert_eq!(f + Interval::new(4, 6), Pitch::new(Step::C, -1, 4));
        assert_eq!(f + (b - f), b);
        assert!((f + Interval::new(4, 6)).same_key(b));
    }

    #[test]
    fn middle_c_is_key_60() {
        assert_eq!(Pitch::new(Step::C, 0, 4).key(), Key::new(60));
        assert_eq!(Pitch::new(Step::B, 1, 3).semitones(), 60);
        assert_eq!(Pitch::new(Step::B, 1, 3).to_string(), "B♯3");
    }

    #[test]
    fn fifths_line_round_trips() {
        for fifths in -15..=15 {
            assert_eq!(PitchClass::from_fifths(fifths).fifths(), fifths);
        }
        assert_eq!(PitchClass::from_fifths(6).to_string(), "F♯");
        assert_eq!(PitchClass::from_fifths(-2).to_string(), "B♭");
    }
}
