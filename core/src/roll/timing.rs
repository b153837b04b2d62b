//! When each note of a sweep falls.
//!
//! Common practice, no source, our choice of values: a sweep starts slowly from
//! the bass, quickens and slackens towards its end.

use super::line::{Fingered, Scene, Strike};
use super::performance::NoteKind;
use super::speech::{Role, Saying};
use super::strokes::{Sweep, Way};
use crate::chance::Chance;

/// Usual time from note to note inside a sweep, in microseconds.
const STEP: u64 = 88_000;
/// No two notes come closer than this, in microseconds.
pub(super) const CLOSEST: u64 = 28_000;
/// The least breath after a chord that only rises, in microseconds.
const BREATH: u64 = 190_000;
/// After a bass that stands alone, in microseconds.
const ALONE: u64 = 520_000;
/// Largest small freedom of a step, in thousandths of it.
const FREEDOM: i64 = 90;

/// The strikes of a chord's sweeps.
pub(super) fn strikes(
    scene: &Scene<'_>,
    saying: Saying,
    sweeps: &[Sweep],
    chance: &mut Chance,
) -> Vec<Strike> {
    let mut strikes = Vec::new();
    for sweep in sweeps {
        for (i, &place) in sweep.places.iter().enumerate() {
            let Some(&note) = scene.notes.get(place) else { continue };
            strikes.push(Strike {
                note,
                kind: NoteKind::Chord,
                why: None,
                wait: after(scene, saying, sweep, i, chance),
                brief: None,
                velocity: velocity(sweep, place, scene.notes, chance),
                rising: sweep.way == Way::Up,
            });
        }
    }
    strikes
}

/// Microseconds from note `i` of a sweep to what follows.
fn after(scene: &Scene<'_>, saying: Saying, sweep: &Sweep, i: usize, chance: &mut Chance) -> u64 {
    // Tense chords are spread a little more broadly.
    let pace = 90 + u64::from(saying.tension) / 3;
    let step = scene.at_speed(STEP * shape(sweep, i) / 100 * pace / 100);
    let free = step as i64 * chance.around(FREEDOM) / 1000;
    let step = step.saturating_add_signed(free).max(CLOSEST);
    let rest = scene.at_speed(saying.rest);
    let turning = i + 1 == sweep.places.len();
    // The last chord keeps most of its rest for the end.
    let (at_top, at_end) = if saying.role == Role::Final { (15, 85) } else { (40, 60) };
    match sweep.way {
        _ if sweep.breath && i == 0 => step + scene.at_speed(ALONE),
        _ if !turning => step,
        // A chord that only rises rests at its top; others share the rest out
        // between the turns and the way on.
        Way::Up if sweep.last => step + rest + scene.at_speed(BREATH),
        Way::Up => step + rest * at_top / 100 / (sweep.turn as u64 / 2 + 1),
        Way::Down if sweep.last => step + rest * at_end / 100,
        Way::Down => step + rest / 8,
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

/// Force of the note at `place`, in the range [1, 127]: the bass firm, growing
/// towards the top, gentler on the way down; the right hand over the left.
fn velocity(sweep: &Sweep, place: usize, notes: &[Fingered], chance: &mut Chance) -> u8 {
    let top = notes.len().saturating_sub(1).max(1);
    let base = match (sweep.way, sweep.turn) {
        (Way::Up, 0) if place == 0 => 86,
        (Way::Up, _) => 64 + (24 * place / top) as i64,
        (Way::Down, _) => 58 + (14 * place / top) as i64,
    };
    (base + chance.around(4)).clamp(1, 127) as u8
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sweep_quickens_and_slackens() {
        let places: Vec<usize> = (0..8).collect();
        let sweep = Sweep { way: Way::Up, turn: 0, last: false, breath: false, places };
        let steps: Vec<u64> = (0..7).map(|i| shape(&sweep, i)).collect();
        assert!(steps[0] > steps[2] && steps[2] > steps[4] && steps[6] > steps[4], "{steps:?}");
    }
}
