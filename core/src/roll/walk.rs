//! The bass walking: notes that carry no chord of their own are struck alone by the left
//! hand between the chords, as the player of a bass plays them (common practice).

use super::line::{Fingered, Scene, Strike};
use super::performance::Why;
use crate::hands::Hand;

/// Length of a step, in microseconds.
const STEP: u64 = 260_000;

/// Appends the passing notes of the bass, and says whether there were any. A note that
/// the keyboard lacks, or that lies among the right hand's, is left out.
pub(super) fn walk(scene: &Scene<'_>, strikes: &mut Vec<Strike>) -> bool {
    let Some(model) = strikes.last().copied() else { return false };
    let lowest = scene.notes.iter().filter(|note| note.hand == Hand::Right).map(|note| note.key);
    let lowest = lowest.min();
    let fingered = scene.passing.iter().filter_map(|&pitch| {
        let note = Fingered::on(pitch, Hand::Left, scene.hands)?;
        lowest.is_none_or(|lowest| note.key < lowest).then_some(note)
    });
    let before = strikes.len();
    strikes.extend(fingered.map(|note| Strike {
        rising: false,
        ..model.added(note, Why::Walks, scene.at_speed(STEP).max(40_000))
    }));
    strikes.len() > before
}
