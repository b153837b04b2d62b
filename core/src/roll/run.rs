//! Runs between chords: a hand goes to its next outer note through the scale of
//! the moment where that lies a leap away, or after a dwell from the other end of
//! its handful, upward as well as downward.
//!
//! Practice of the unmeasured prelude and toccata (from memory).

use super::line::{Fingered, Scene, Strike, consecutives, outer};
use super::performance::Why;
use super::scale::{self, Going};
use super::speech::Role;
use crate::chance::Chance;
use crate::frame::OuterPair;
use crate::hands::Hand;
use crate::pitch::Pitch;

/// Length of a run's first, quickest and last step, in microseconds.
const FIRST: u64 = 128_000;
const QUICK: u64 = 66_000;
const LAST: u64 = 96_000;
/// Notes of a run between its ends.
const FEWEST: i32 = 2;
const MOST: i32 = 8;

/// Appends a run to the next bass or the next soprano, where the music wants one.
pub(super) fn run(scene: &Scene<'_>, role: Role, strikes: &mut Vec<Strike>, chance: &mut Chance) {
    let (left, right) = (to_bass(scene, role, chance), to_soprano(scene, role, chance));
    // One hand runs at a time.
    let Some(notes) = left.or(right) else { return };
    let Some(model) = strikes.last().copied() else { return };
    let count = notes.len() as u64;
    for (i, note) in notes.into_iter().enumerate() {
        let wait = scene.at_speed(length(i as u64, count)).max(40_000);
        strikes.push(Strike { rising: false, ..model.added(note, Why::RunsOn, wait) });
    }
}

/// Length of step `i` of a run of `count`: it gathers way and broadens on arriving.
fn length(i: u64, count: u64) -> u64 {
    let quickest = (2 * count).div_ceil(3);
    if i < quickest {
        let far = quickest - i;
        QUICK + (FIRST - QUICK) * far * far / (quickest * quickest).max(1)
    } else {
        let far = i + 1 - quickest;
        let all = count.saturating_sub(quickest).max(1);
        QUICK + (LAST - QUICK) * far * far / (all * all)
    }
}

/// Whether a run may follow a dwell.
fn dwelt(role: Role) -> bool {
    matches!(role, Role::Dominant | Role::Cadence | Role::Opening | Role::Bold)
}

/// The left hand's run to the next bass.
fn to_bass(scene: &Scene<'_>, role: Role, chance: &mut Chance) -> Option<Vec<Fingered>> {
    let (next_chord, next) = scene.next?;
    let (here, there) = (scene.outer()?, outer(next)?);
    let leap = (there.bass - here.bass).steps;
    let left = scene.notes.iter().filter(|note| note.hand == Hand::Left);
    let start = if leap.abs() > FEWEST {
        Some(here.bass).filter(|_| scene.likes(90, chance))
    } else if dwelt(role) {
        left.map(|note| note.pitch).max().filter(|_| scene.likes(80, chance))
    } else {
        None
    };
    let start = start.filter(|_| next_chord.bass == there.bass)?;
    let notes = between(scene, start, there.bass, Hand::Left)?;
    // The run must not touch what the right hand holds, nor lead into fifths or octaves.
    let crosses = notes.iter().any(|note| {
        scene.notes.iter().any(|held| held.hand == Hand::Right && held.key <= note.key)
    });
    let last = OuterPair { bass: notes.last()?.pitch, soprano: here.soprano };
    (!crosses && !consecutives(last, there)).then_some(notes)
}

/// The right hand's run to the next soprano: from the soprano over a leap, or up
/// from its own lowest note.
fn to_soprano(scene: &Scene<'_>, role: Role, chance: &mut Chance) -> Option<Vec<Fingered>> {
    let (here, there) = (scene.outer()?, outer(scene.next?.1)?);
    let top = |notes: &[Fingered]| notes.last().map(|note| note.hand);
    let both = top(scene.notes) == Some(Hand::Right) && top(scene.next?.1) == Some(Hand::Right);
    let leap = (there.soprano - here.soprano).steps;
    let lowest = scene.notes.iter().find(|note| note.hand == Hand::Right)?;
    let start = if leap.abs() > FEWEST {
        Some(here.soprano).filter(|_| scene.likes(90, chance))
    } else if dwelt(role) && lowest.pitch < there.soprano {
        Some(lowest.pitch).filter(|_| scene.likes(45, chance))
    } else {
        None
    };
    let start = start.filter(|_| both)?;
    let notes = between(scene, start, there.soprano, Hand::Right)?;
    let crosses = notes
        .iter()
        .any(|note| scene.notes.iter().any(|held| held.hand == Hand::Left && held.key >= note.key));
    // Over the bass that stands nothing moves in parallel; only the arrival might.
    let last = OuterPair { bass: here.bass, soprano: notes.last()?.pitch };
    (!crosses && !consecutives(last, there)).then_some(notes)
}

/// The scale's notes between two pitches, both left out; `None` where they are too
/// few, too many, off the keyboard, or move by more than a whole tone.
fn between(scene: &Scene<'_>, from: Pitch, to: Pitch, hand: Hand) -> Option<Vec<Fingered>> {
    let steps = (to - from).steps;
    let inner = steps.abs() - 1;
    if !(FEWEST..=MOST).contains(&inner) {
        return None;
    }
    let going = if steps > 0 { Going::Up } else { Going::Down };
    let mut notes = Vec::new();
    let mut at = from;
    for _ in 0..inner {
        let next = scale::next(scene.chord, at, going);
        notes.push(Fingered::on(next, hand, scene.hands)?);
        at = next;
    }
    let path = [from].into_iter().chain(notes.iter().map(|note| note.pitch)).chain([to]);
    let path: Vec<Pitch> = path.collect();
    let even = path.windows(2).all(|two| {
        let step = (two[1] - two[0]).semitones;
        let step = if going == Going::Up { step } else { -step };
        (1..=2).contains(&step)
    });
    even.then_some(notes)
}

#[cfg(test)]
mod tests {
    use super::length;

    #[test]
    fn a_run_gathers_way_and_broadens_on_arriving() {
        for count in 2..=8 {
            let steps: Vec<u64> = (0..count).map(|i| length(i, count)).collect();
            assert!(steps[0] > steps[1], "{steps:?}");
            let last = steps.last().copied().unwrap_or(0);
            assert!(count < 5 || last > steps[count as usize - 2], "{steps:?}");
        }
    }
}
