//! Runs: the left hand goes to the next bass through the scale of the moment
//! where the bass leaps, or falls into it from its own top note after a dwell.
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

/// First and last step of a run, in microseconds: it quickens.
const SLOW: u64 = 112_000;
const QUICK: u64 = 74_000;
/// Notes of a run between its ends.
const FEWEST: i32 = 2;
const MOST: i32 = 8;

/// Appends a run to the next bass, where the music wants one.
pub(super) fn run(scene: &Scene<'_>, role: Role, strikes: &mut Vec<Strike>, chance: &mut Chance) {
    let Some((next_chord, next)) = scene.next else { return };
    let (Some(here), Some(there)) = (scene.outer(), outer(next)) else { return };
    let leap = (there.bass - here.bass).steps;
    let left = scene.notes.iter().filter(|note| note.hand == Hand::Left);
    let start = if leap.abs() > FEWEST {
        Some(here.bass).filter(|_| scene.likes(90, chance))
    } else if matches!(role, Role::Dominant | Role::Cadence | Role::Opening | Role::Bold) {
        left.map(|note| note.pitch).max().filter(|_| scene.likes(80, chance))
    } else {
        None
    };
    let Some(start) = start.filter(|_| next_chord.bass == there.bass) else { return };
    let Some(notes) = between(scene, start, there.bass) else { return };
    let (Some(&last), Some(soprano)) = (notes.last(), scene.notes.last()) else { return };
    // The run must not touch what the right hand holds, nor lead into fifths or octaves.
    let crosses = notes.iter().any(|note| {
        scene.notes.iter().any(|held| held.hand == Hand::Right && held.key <= note.key)
    });
    let pair = OuterPair { bass: last.pitch, soprano: soprano.pitch };
    if crosses || consecutives(pair, there) {
        return;
    }
    let Some(model) = strikes.last().copied() else { return };
    let count = notes.len() as u64;
    for (i, note) in notes.into_iter().enumerate() {
        let length = SLOW - (SLOW - QUICK) * i as u64 / count;
        let wait = scene.at_speed(length).max(40_000);
        strikes.push(Strike { rising: false, ..model.added(note, Why::RunsOn, wait) });
    }
}

/// The scale's notes between two pitches, both left out; `None` where they are too
/// few, too many, off the keyboard, or move by more than a whole tone.
fn between(scene: &Scene<'_>, from: Pitch, to: Pitch) -> Option<Vec<Fingered>> {
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
        notes.push(Fingered::on(next, Hand::Left, scene.hands)?);
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
