//! When each note of a sweep falls, and how long a harmony is dwelt on.
//!
//! Common practice, no source, our choice of values: a sweep starts slowly from
//! the bass, quickens and slackens towards its end; dominants, suspensions, bold
//! chords, the opening and the close are dwelt on.

use super::strokes::{Sweep, Way};
use crate::chance::Chance;
use crate::harmony::{Chord, Duty};

/// Usual time from note to note inside a sweep, in microseconds.
const STEP: u64 = 88_000;
/// No two notes of a hand come closer than this, in microseconds.
const CLOSEST: u64 = 28_000;
/// Usual rest on a plain chord, in microseconds.
const REST: u64 = 200_000;
/// Largest small freedom of a step, in thousandths of it.
const FREEDOM: i64 = 90;

/// What a chord is to the discourse.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Emphasis {
    /// One among others.
    Plain,
    /// The first chord.
    Opening,
    /// A dominant: the fifth degree with the leading note.
    Dominant,
    /// A suspended note.
    Suspended,
    /// Notes foreign to the key of the moment.
    Bold,
    /// The last chord.
    Final,
}

impl Emphasis {
    /// Of a chord, seen from its place and its tones.
    pub(super) fn of(chord: &Chord, first: bool, last: bool) -> Emphasis {
        let leading = chord.tonality.leading();
        let has_leading = chord.tones.iter().any(|tone| tone.class == leading);
        let foreign = chord
            .tones
            .iter()
            .any(|tone| tone.class != leading && !chord.tonality.is_diatonic(tone.class));
        if last {
            Emphasis::Final
        } else if chord.degree.number() == 5 && has_leading {
            Emphasis::Dominant
        } else if chord.tones.iter().any(|tone| tone.duty == Duty::Suspended) {
            Emphasis::Suspended
        } else if foreign {
            Emphasis::Bold
        } else if first {
            Emphasis::Opening
        } else {
            Emphasis::Plain
        }
    }

    /// Rest on the chord, in percent of the usual.
    fn rest(self) -> u64 {
        match self {
            Emphasis::Plain => 100,
            Emphasis::Opening => 240,
            Emphasis::Dominant => 330,
            Emphasis::Suspended => 200,
            Emphasis::Bold => 260,
            Emphasis::Final => 1400,
        }
    }
}

/// How one chord is timed.
#[derive(Clone, Copy, Debug)]
pub(super) struct Plan {
    /// What the chord is to the discourse.
    pub(super) emphasis: Emphasis,
    /// Speed in percent.
    pub(super) speed: u16,
}

impl Plan {
    /// Microseconds at the player's speed.
    fn at_speed(self, micros: u64) -> u64 {
        micros * 100 / u64::from(self.speed)
    }

    /// The whole rest on the chord, in microseconds.
    pub(super) fn rest(self) -> u64 {
        self.at_speed(REST * self.emphasis.rest() / 100)
    }

    /// Microseconds from note `i` of a sweep to what follows.
    pub(super) fn after(self, sweep: &Sweep, i: usize, chance: &mut Chance) -> u64 {
        let count = sweep.places.len();
        let step = self.at_speed(STEP * shape(sweep, i) / 100);
        let free = step as i64 * chance.around(FREEDOM) / 1000;
        let step = step.saturating_add_signed(free).max(CLOSEST);
        let turning = i + 1 == count;
        match sweep.way {
            _ if !turning => step,
            // A chord that only rises rests at its top; others share the rest out
            // between the top and the way on.
            Way::Up if sweep.last => step + self.rest() + self.at_speed(REST),
            Way::Up => step + self.rest() * 2 / 5 / (sweep.turn as u64 / 2 + 1),
            Way::Down if sweep.last => step + self.rest() * 3 / 5,
            Way::Down => step + self.rest() / 8,
        }
    }
}

/// Length of step `i` of a sweep in percent: slow, quicker, slackening.
fn shape(sweep: &Sweep, i: usize) -> u64 {
    // Percent at the start, at three fifths of the way and at the end.
    let (start, quick, end) = match (sweep.way, sweep.turn) {
        (Way::Up, 0) => (185, 82, 112),
        (Way::Up, _) => (118, 72, 100),
        (Way::Down, _) if sweep.last => (104, 84, 138),
        (Way::Down, _) => (100, 74, 104),
    };
    let count = sweep.places.len().saturating_sub(1).max(1) as i64;
    let at = (i as i64 * 100 / count).min(100);
    let between = |from: i64, to: i64, at: i64, of: i64| from + (to - from) * at / of;
    let percent =
        if at < 60 { between(start, quick, at, 60) } else { between(quick, end, at - 60, 40) };
    percent.unsigned_abs()
}

/// Force of the note at `place`, in the range [1, 127]: growing towards the top,
/// gentler on the way down.
pub(super) fn velocity(sweep: &Sweep, place: usize, notes: usize, chance: &mut Chance) -> u8 {
    let top = notes.saturating_sub(1).max(1);
    let base = match (sweep.way, sweep.turn) {
        (Way::Up, 0) if place == 0 => 86,
        (Way::Up, _) => 68 + (20 * place / top) as i64,
        (Way::Down, _) => 60 + (12 * place / top) as i64,
    };
    (base + chance.around(4)).clamp(1, 127) as u8
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sweep_quickens_and_slackens() {
        let places: Vec<usize> = (0..8).collect();
        let sweep = Sweep { way: Way::Up, turn: 0, last: false, places };
        let steps: Vec<u64> = (0..7).map(|i| shape(&sweep, i)).collect();
        assert!(steps[0] > steps[2] && steps[2] > steps[4] && steps[6] > steps[4], "{steps:?}");
    }

    #[test]
    fn double_speed_halves_the_time() {
        let rest = |speed| Plan { emphasis: Emphasis::Dominant, speed }.rest();
        assert_eq!(rest(200) * 2, rest(100));
    }
}
