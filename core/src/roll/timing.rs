//! When each note of a sweep falls.
//!
//! A sweep starts slowly from the bass, quickens and slackens: parabolas, as
//! B. H. Repp found them in players' timing of a melodic gesture (*Music
//! Perception* 10/2, 1992; from memory). Where it is quickest and how deep the curve
//! goes, every sweep has for itself. A sweep leans on a dissonance as it first comes
//! to it, and presses on where the next chord is tenser than this one. The
//! small freedoms drift from chord to chord, as people's do (Gilden, Thornton and
//! Mallon, *Science* 267, 1995; from memory). Common practice otherwise; all values
//! are our choice.

use super::line::{Fingered, Scene, Strike};
use super::performance::NoteKind;
use super::speech::{Leaving, Place, Role, Saying};
use super::strokes::{Sweep, Way};
use crate::chance::Chance;
use crate::hands::Hand;
use crate::harmony::Duty;

/// Usual time from note to note inside a sweep, in microseconds.
const STEP: u64 = 86_000;
/// No two notes come closer than this, in microseconds.
pub(super) const CLOSEST: u64 = 28_000;
/// The least rest on a chord that only rises, in microseconds: within a breath, and
/// at its end.
const BREATH: (u64, u64) = (90_000, 220_000);
/// After a bass that stands alone, in microseconds.
const ALONE: u64 = 520_000;
/// Largest freedom of a whole sweep and of one step, in thousandths.
const SWEEP_FREEDOM: i64 = 45;
const STEP_FREEDOM: i64 = 40;

/// The strikes of a chord's sweeps. `drift` is how much slower than usual the
/// player goes by now, in thousandths.
pub(super) fn strikes(
    scene: &Scene<'_>,
    saying: Saying,
    sweeps: &[Sweep],
    drift: i64,
    chance: &mut Chance,
) -> Vec<Strike> {
    let mut strikes: Vec<Strike> = Vec::new();
    for sweep in sweeps {
        let gesture = Gesture::new(sweep, saying, drift, chance);
        for (i, &place) in sweep.places.iter().enumerate() {
            let Some(&note) = scene.notes.get(place) else { continue };
            let first = strikes.iter().all(|strike| strike.note != note);
            let lean = if first { lean(scene, note) } else { 100 };
            strikes.push(Strike {
                note,
                kind: NoteKind::Chord,
                why: None,
                wait: after(scene, saying, sweep, gesture, i, chance) * lean / 100,
                brief: None,
                velocity: velocity(sweep, place, scene.notes, chance),
                rising: sweep.way == Way::Up,
            });
        }
    }
    strikes
}

/// How long a note is leant on as it first sounds, in percent.
fn lean(scene: &Scene<'_>, note: Fingered) -> u64 {
    let tone = scene.chord.tones.iter().find(|tone| tone.class == note.pitch.class());
    match tone.map(|tone| tone.duty) {
        Some(Duty::Suspended) => 165,
        Some(Duty::Falls) => 130,
        Some(Duty::Rises | Duty::Free) | None => 100,
    }
}

/// How one sweep goes.
#[derive(Clone, Copy, Debug)]
struct Gesture {
    /// Percent of a usual step at its start, where it is quickest, and at its end.
    start: i64,
    quick: i64,
    end: i64,
    /// Where it is quickest, in thousandths of the way.
    turn: i64,
    /// Its pace in thousandths of the usual time.
    pace: i64,
}

impl Gesture {
    fn new(sweep: &Sweep, saying: Saying, drift: i64, chance: &mut Chance) -> Gesture {
        let (start, quick, end) = match (sweep.way, sweep.turn) {
            _ if sweep.last && saying.role == Role::Final => (118, 104, 330),
            (Way::Up, 0) => (190, 78, 116),
            (Way::Up, _) => (122, 70, 102),
            (Way::Down, _) if sweep.last => match saying.leaving {
                Leaving::Presses => (112, 78, 92),
                Leaving::Settles => (104, 82, 150),
            },
            (Way::Down, _) => (104, 74, 106),
        };
        // Deeper or shallower, and earlier or later at its quickest.
        let depth = 100 + chance.around(45);
        let deep = |percent: i64| 90 + (percent - 90) * depth / 100;
        Gesture {
            start: deep(start),
            quick: deep(quick),
            end: deep(end),
            turn: 580 + chance.around(220),
            pace: saying.pace * (1000 + drift + chance.around(SWEEP_FREEDOM)) / 100,
        }
    }

    /// Length of step `i` of `count` in percent of a usual one.
    fn shape(self, i: usize, count: usize) -> u64 {
        let at = (i as i64 * 1000 / count.max(1) as i64).min(1000);
        let (from, reach, far) = if at < self.turn {
            (self.start, self.turn, self.turn - at)
        } else {
            (self.end, 1000 - self.turn, at - self.turn)
        };
        let percent = self.quick + (from - self.quick) * far * far / (reach * reach).max(1);
        percent.max(1).unsigned_abs()
    }
}

/// Microseconds from note `i` of a sweep to what follows.
fn after(
    scene: &Scene<'_>,
    saying: Saying,
    sweep: &Sweep,
    gesture: Gesture,
    i: usize,
    chance: &mut Chance,
) -> u64 {
    let steps = sweep.places.len().saturating_sub(1);
    let step = STEP * gesture.shape(i, steps) / 100 * gesture.pace.unsigned_abs() / 1000;
    let step = scene.at_speed(step);
    let free = step as i64 * chance.around(STEP_FREEDOM) / 1000;
    let step = step.saturating_add_signed(free).max(CLOSEST);
    let rest = scene.at_speed(saying.rest);
    let turning = i + 1 == sweep.places.len();
    // The last chord keeps most of its rest for the end; a chord that presses on
    // rests at its top and hardly any more before the next.
    let (at_top, at_end) = match (saying.role, saying.leaving) {
        (Role::Final, _) => (15, 85),
        (_, Leaving::Presses) => (75, 25),
        (_, Leaving::Settles) => (35, 65),
    };
    match sweep.way {
        _ if sweep.breath && i == 0 => step + scene.at_speed(ALONE),
        _ if !turning => step,
        // A chord that only rises rests at its top; others share the rest out
        // between the turns and the way on.
        Way::Up if sweep.last => {
            let breath = if saying.place == Place::Within { BREATH.0 } else { BREATH.1 };
            step + rest + scene.at_speed(breath)
        }
        Way::Up => step + rest * at_top / 100 / (sweep.turn as u64 / 2 + 1),
        Way::Down if sweep.last => step + rest * at_end / 100,
        Way::Down => step + rest / 8,
    }
}

/// Force of the note at `place`, in the range [1, 127]: the bass firm, growing
/// towards the top, gentler on the way down; the right hand over the left, and the
/// soprano over both.
fn velocity(sweep: &Sweep, place: usize, notes: &[Fingered], chance: &mut Chance) -> u8 {
    let top = notes.len().saturating_sub(1).max(1);
    let base = match (sweep.way, sweep.turn) {
        (Way::Up, 0) if place == 0 => 86,
        (Way::Up, _) => 64 + (20 * place / top) as i64,
        (Way::Down, _) => 58 + (12 * place / top) as i64,
    };
    let hand = match notes.get(place).map(|note| note.hand) {
        _ if place == top => 8,
        Some(Hand::Left) if place > 0 => -6,
        Some(Hand::Right) => 3,
        Some(Hand::Left) | None => 0,
    };
    (base + hand + chance.around(4)).clamp(1, 127) as u8
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sweep_quickens_and_slackens() {
        let places: Vec<usize> = (0..8).collect();
        let sweep = Sweep { way: Way::Up, turn: 0, last: false, breath: false, places };
        let saying = Saying {
            role: Role::Plain,
            tension: 20,
            pace: 100,
            rest: 0,
            silence: 0,
            leaving: Leaving::Settles,
            place: Place::End,
        };
        for seed in 0..50 {
            let gesture = Gesture::new(&sweep, saying, 0, &mut Chance::of(seed, 1));
            let steps: Vec<u64> = (0..8).map(|i| gesture.shape(i, 7)).collect();
            let quickest = steps.iter().min().copied().unwrap_or(0);
            assert!(steps[0] > steps[1] && steps[1] > steps[2], "{steps:?}");
            assert!(steps[7] > quickest && steps[0] > steps[7], "{steps:?}");
        }
    }
}
