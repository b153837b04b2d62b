//! Suspensions in the top voice: where the soprano falls by step, it may keep its
//! old note while the new chord is rolled, and fall only then.
//!
//! Fux, *Gradus* (1725), and all after him (from memory): prepared as a chord note,
//! dissonant on the new bass, resolved down by step. Since first the soprano and
//! then the bass stands still, the outer voices never move in parallel. How long it
//! is leant on is our choice.

use super::line::{Fingered, Scene, Strike};
use super::performance::Why;
use super::speech::Role;
use crate::chance::Chance;
use crate::hands::Hand;
use crate::harmony::Duty;

/// How long a suspension is leant on, in microseconds: shortest and longest.
const SHORTEST: u64 = 230_000;
const LONGEST: u64 = 420_000;

/// Lets the soprano come late, where it can and chance agrees; says whether it does.
pub(super) fn suspend(
    scene: &Scene<'_>,
    role: Role,
    strikes: &mut Vec<Strike>,
    chance: &mut Chance,
) -> bool {
    let Some(old) = kept(scene) else { return false };
    // Resolutions into closes and plain chords are the usual place.
    let percent = match role {
        Role::Final => 170,
        Role::Plain => 120,
        Role::Cadence | Role::Dominant => 140,
        Role::Opening | Role::Bold => 0,
    };
    if !scene.likes(percent, chance) {
        return false;
    }
    let Some(&soprano) = scene.notes.last() else { return false };
    let first = strikes.iter().position(|strike| strike.rising && strike.note == soprano);
    let Some(at) = first.filter(|&at| at > 0) else { return false };
    let Some(&model) = strikes.get(at) else { return false };
    let wait = scene.at_speed(SHORTEST + chance.below(LONGEST - SHORTEST)).max(1);
    strikes.insert(at, model.added(old, Why::Suspends, wait));
    true
}

/// The old soprano under the right hand, where it can be suspended over this chord.
fn kept(scene: &Scene<'_>) -> Option<Fingered> {
    let (here, before) = (scene.outer()?, super::line::outer(scene.before?)?);
    let falls = here.soprano - before.soprano;
    let dissonant = matches!((before.soprano - scene.chord.bass).steps.rem_euclid(7), 1 | 3 | 6);
    let foreign = scene.chord.tones.iter().all(|tone| tone.class != before.soprano.class());
    // It needs a consonance to fall into, and one dissonance of the kind is enough.
    let into = scene.chord.tones.iter().find(|tone| tone.class == here.soprano.class());
    let free = into.is_some_and(|tone| matches!(tone.duty, Duty::Free | Duty::Rises));
    let suspended = scene.chord.tones.iter().any(|tone| tone.duty == Duty::Suspended);
    let step = falls.steps == -1 && (-2..=-1).contains(&falls.semitones);
    if !step || !dissonant || !foreign || !free || suspended {
        return None;
    }
    let note = Fingered::on(before.soprano, Hand::Right, scene.hands)?;
    let own = scene.notes.last()?.hand == Hand::Right;
    (own && !scene.holds(note.key) && scene.within_reach(note)).then_some(note)
}
