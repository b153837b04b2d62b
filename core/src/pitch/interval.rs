//! Intervals as letters and semitones crossed, so that spelling is kept.

use std::ops::{Add, Neg, Sub};

/// A directed interval: positive is up.
///
/// There is deliberately no way to add bare semitones to a pitch: an augmented
/// fourth and a diminished fifth are different intervals.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Interval {
    /// Letters crossed: 0 for a unison, 2 for a third, 7 for an octave.
    pub steps: i32,
    /// Semitones crossed.
    pub semitones: i32,
}

impl Interval {
    /// Perfect unison.
    pub const UNISON: Interval = Interval::new(0, 0);
    /// Perfect fifth up.
    pub const FIFTH: Interval = Interval::new(4, 7);
    /// Perfect octave up.
    pub const OCTAVE: Interval = Interval::new(7, 12);

    /// An interval from letters and semitones crossed.
    pub const fn new(steps: i32, semitones: i32) -> Interval {
        Interval { steps, semitones }
    }

    /// The figure of this interval above a bass, compound intervals reduced to
    /// [1, 7]: 1 for unison and octave, 3 for a third or tenth. Sign is ignored.
    pub const fn simple_number(self) -> u8 {
        (self.steps.abs() % 7 + 1) as u8
    }

    /// Semitones of the interval reduced below an octave; keeps the quality, so a
    /// minor tenth gives 3. Sign is ignored.
    pub const fn simple_semitones(self) -> i32 {
        let (steps, semitones) = if self.steps < 0 {
            (-self.steps, -self.semitones)
        } else {
            (self.steps, self.semitones)
        };
        semitones - 12 * (steps / 7)
    }

    /// A perfect unison or octave, at any distance.
    pub const fn is_perfect_octave(self) -> bool {
        self.simple_number() == 1 && self.simple_semitones() == 0
    }

    /// A perfect fifth or twelfth, at any distance (not a fourth).
    pub const fn is_perfect_fifth(self) -> bool {
        self.simple_number() == 5 && self.simple_semitones() == 7
    }

    /// A third or tenth, major or minor, at any distance.
    pub const fn is_third(self) -> bool {
        self.simple_number() == 3 && matches!(self.simple_semitones(), 3 | 4)
    }

    /// The same interval upward.
    pub const fn abs(self) -> Interval {
        if self.steps < 0 || (self.steps == 0 && self.semitones < 0) {
            Interval::new(-self.steps, -self.semitones)
        } else {
            self
        }
    }
}

impl Neg for Interval {
    type Output = Interval;

    fn neg(self) -> Interval {
        Interval::new(-self.steps, -self.semitones)
    }
}

impl Add for Interval {
    type Output = Interval;

    fn add(self, other: Interval) -> Interval {
        Interval::new(self.steps + other.steps, self.semitones + other.semitones)
    }
}

impl Sub for Interval {
    type Output = Interval;

    fn sub(self, other: Interval) -> Interval {
        self + -other
    }
}
