//! Ornaments of the soprano where the piece closes: a trill on the dominant, an
//! anticipation, a mordent on the tonic.
//!
//! C.P.E. Bach, *Versuch* I ch. 2 (1753; from memory): the cadential trill starts
//! from the note above and is left on its own note. Both lie under the right hand
//! with the chord; where it cannot reach, there is none.

use super::line::{Fingered, Scene, Strike, consecutives, outer};
use super::performance::Why;
use super::scale::{self, Going};
use super::speech::Role;
use crate::chance::Chance;
use crate::frame::OuterPair;
use crate::pitch::{Interval, Pitch};

/// Longest and shortest note of a trill, in microseconds: it quickens.
const SLOW: u64 = 104_000;
const QUICK: u64 = 66_000;
/// A note of a mordent, in microseconds.
const MORDENT: u64 = 62_000;
/// An anticipation, in microseconds.
const EARLY: u64 = 150_000;

/// Adds what belongs to the chord's place in a close.
pub(super) fn close(scene: &Scene<'_>, role: Role, strikes: &mut Vec<Strike>, chance: &mut Chance) {
    match role {
        Role::Cadence => {
            trill(scene, strikes, chance);
            anticipate(scene, strikes, chance);
        }
        Role::Final => mordent(scene, strikes, chance),
        Role::Plain | Role::Opening | Role::Dominant | Role::Bold => {}
    }
}

/// The last time the soprano is struck going up, with its place.
fn top(scene: &Scene<'_>, strikes: &[Strike]) -> Option<(usize, Strike)> {
    let soprano = scene.notes.last()?;
    let at = strikes.iter().rposition(|strike| strike.rising && strike.note == *soprano)?;
    Some((at, *strikes.get(at)?))
}

/// The note beside the soprano, if the hand reaches it.
fn beside(scene: &Scene<'_>, soprano: Fingered, pitch: Pitch) -> Option<Fingered> {
    let note = Fingered::on(pitch, soprano.hand, scene.hands)?;
    (!scene.holds(note.key) && scene.within_reach(note)).then_some(note)
}

/// A trill on the second or seventh degree over the dominant.
fn trill(scene: &Scene<'_>, strikes: &mut Vec<Strike>, chance: &mut Chance) {
    let Some((at, main)) = top(scene, strikes) else { return };
    let tonality = scene.chord.tonality;
    let degree = tonality.degree_of(main.note.pitch.step).number();
    if !matches!(degree, 2 | 7) || !scene.likes(160, chance) {
        return;
    }
    let above = scale::next(scene.chord, main.note.pitch, Going::Up);
    let Some(above) = beside(scene, main.note, above) else { return };
    let shakes = 3 + chance.below(3);
    let mut notes = Vec::new();
    for shake in 0..2 * shakes {
        let length = SLOW - (SLOW - QUICK) * shake / (2 * shakes);
        let wait = scene.at_speed(length).max(40_000);
        let note = if shake % 2 == 0 { above } else { main.note };
        notes.push(main.added(note, Why::Trill, wait));
    }
    // The soprano first stands, then shakes, then rests as long as it would have.
    let rest = main.wait;
    let first = scene.at_speed(SLOW + 60_000);
    strikes[at].wait = first;
    strikes[at].brief = Some(first);
    if let Some(end) = notes.last_mut() {
        end.wait = rest / 2 + scene.at_speed(SLOW);
        end.brief = None;
    }
    strikes.splice(at + 1..at + 1, notes);
}

/// The next soprano, a step lower, early.
fn anticipate(scene: &Scene<'_>, strikes: &mut Vec<Strike>, chance: &mut Chance) {
    let Some((_, next)) = scene.next else { return };
    let (Some(here), Some(there)) = (scene.outer(), outer(next)) else { return };
    if (there.soprano - here.soprano).steps.abs() != 1 || !scene.likes(60, chance) {
        return;
    }
    let early = OuterPair { bass: here.bass, soprano: there.soprano };
    if consecutives(here, early) || consecutives(early, there) {
        return;
    }
    let Some(soprano) = next.last().filter(|note| !scene.holds(note.key)) else { return };
    let Some(last) = strikes.last_mut() else { return };
    let wait = scene.at_speed(EARLY).max(1);
    let model = *last;
    last.wait = last.wait.max(scene.at_speed(120_000));
    strikes.push(Strike { rising: false, ..model.added(*soprano, Why::Anticipates, wait) });
}

/// A mordent on the last soprano: the semitone (or scale step) below and back.
fn mordent(scene: &Scene<'_>, strikes: &mut Vec<Strike>, chance: &mut Chance) {
    let Some((at, main)) = top(scene, strikes) else { return };
    if !scene.likes(130, chance) {
        return;
    }
    let below = main.note.pitch + Interval::new(-1, -1);
    let below = if (-1..=1).contains(&below.alter) {
        below
    } else {
        scale::next(scene.chord, main.note.pitch, Going::Down)
    };
    let Some(below) = beside(scene, main.note, below) else { return };
    // The inner notes stay below the neighbour, or it would sound inside the chord.
    let inner = scene.notes.iter().rev().nth(1);
    if inner.is_some_and(|inner| inner.key >= below.key) {
        return;
    }
    let wait = scene.at_speed(MORDENT).max(30_000);
    let rest = main.wait;
    strikes[at].wait = wait;
    strikes[at].brief = Some(wait);
    let mut back = main.added(main.note, Why::Mordent, rest);
    back.brief = None;
    strikes.splice(at + 1..at + 1, [main.added(below, Why::Mordent, wait), back]);
}
