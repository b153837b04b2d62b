//! Detours: at its top the stroke goes on through the same chord into a higher
//! inversion, and comes back to the soprano on its way down.
//!
//! Common practice of preludes, no source: the opening and the close unfold their
//! chord over the keyboard, and so may a chord that is dwelt on. Bass and harmony
//! stand still meanwhile, so the outer voices cannot move in parallel; that it ends
//! on the soprano leaves the way on as the frame has it.

use super::line::{Fingered, Scene, Strike};
use super::performance::Why;
use super::speech::Role;
use super::timing::CLOSEST;
use crate::chance::Chance;
use crate::hands::Hand;
use crate::pitch::Pitch;

/// Usual time from note to note, in microseconds: slow at both ends, quick between.
const STEP: u64 = 92_000;
/// At most this many notes above the soprano.
const MOST: usize = 4;

/// Goes beyond the soprano and back where the chord is one to unfold.
pub(super) fn detour(
    scene: &Scene<'_>,
    role: Role,
    strikes: &mut Vec<Strike>,
    chance: &mut Chance,
) -> bool {
    let percent = match role {
        Role::Opening => 170,
        Role::Final => 130,
        Role::Dominant => 45,
        Role::Bold => 40,
        Role::Plain => 8,
        // The trill belongs there.
        Role::Cadence => 0,
    };
    if scene.notes.len() < 4 || !scene.likes(percent, chance) {
        return false;
    }
    let Some(&soprano) = scene.notes.last().filter(|note| note.hand == Hand::Right) else {
        return false;
    };
    let count = if matches!(role, Role::Opening | Role::Final) { MOST } else { 2 };
    let count = count - chance.below(2) as usize;
    let above = above(scene, soprano, count);
    let Some(&peak) = above.last() else { return false };
    let at = strikes.iter().rposition(|strike| strike.rising && strike.note == soprano);
    let Some(top) = at.and_then(|at| strikes.get_mut(at)) else { return false };
    // What the top would have rested, the peak rests.
    let step = |i: usize, of: usize| {
        let from_end = i.min(of.saturating_sub(i + 1)) as u64;
        scene.at_speed(STEP * (124 - (14 * from_end).min(40)) / 100).max(CLOSEST)
    };
    let rest = top.wait;
    top.wait = step(0, above.len() + 1);
    let model = *top;
    let way = above.iter().chain(above.iter().rev().skip(1));
    let whole = 2 * above.len();
    let mut added: Vec<Strike> = way
        .enumerate()
        .map(|(i, &note)| {
            let wait = if note == peak { rest.max(step(0, 1)) } else { step(i, whole) };
            Strike { brief: None, ..model.added(note, Why::Detours, wait) }
        })
        .collect();
    // The soprano again, on the way down.
    added.push(Strike { wait: step(whole, whole), rising: false, ..model });
    let at = at.map_or(0, |at| at + 1);
    strikes.splice(at..at, added);
    true
}

/// The chord's notes above the soprano, going up, as many as the keyboard has; none
/// that the chord holds only as a dissonance to be resolved, since it would be left
/// up there.
fn above(scene: &Scene<'_>, soprano: Fingered, count: usize) -> Vec<Fingered> {
    use crate::harmony::Duty;
    let free = scene.chord.tones.iter().filter(|tone| tone.duty == Duty::Free);
    let classes: Vec<_> = free.map(|tone| tone.class).collect();
    let mut notes: Vec<Fingered> = Vec::new();
    let mut at = soprano.pitch;
    while notes.len() < count {
        let over = Pitch::from_diatonic(at.diatonic() + 1, 0);
        let next = classes.iter().map(|class| class.at_or_above(over));
        let Some(next) = next.filter(|pitch| *pitch > at).min() else { break };
        let Some(note) = Fingered::on(next, Hand::Right, scene.hands) else { break };
        notes.push(note);
        at = next;
    }
    if notes.len() < 2 { Vec::new() } else { notes }
}
