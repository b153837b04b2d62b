//! Where an answer goes another way than the model: not a fault, but shown.

use super::Case;
use crate::frame::rests;
use crate::harmony::Chord;
use crate::lesson::report::Difference;
use crate::lesson::tonal::classes;
use crate::reading::read;

/// Chords over the same note and stage, compared. What only one of the two has
/// is left to the checks.
pub(super) fn differences(case: &Case<'_>) -> Vec<Difference> {
    let Some(model) = &case.exercise.model else { return Vec::new() };
    let model = read(&model.sketch);
    let mut found = Vec::new();
    for (i, (chord, &soprano)) in case.chords().iter().zip(&case.reading.frame.soprano).enumerate()
    {
        let same = |it: &&Chord| (it.note, it.stage) == (chord.note, chord.stage);
        let Some(other) = model.harmony.chords.iter().find(same) else { continue };
        let place = model.harmony.chords.iter().position(|it| it == other);
        let top = place.and_then(|place| model.frame.soprano.get(place)).copied();
        let sounds_alike = classes(chord) == classes(other);
        let difference = Difference {
            chord: i,
            bass: (chord.bass != other.bass).then_some((chord.bass, other.bass)),
            figures: (!sounds_alike).then(|| (chord.figures.clone(), other.figures.clone())),
            soprano: top
                .filter(|top| *top != soprano && !rests(chord) && !rests(other))
                .map(|top| (soprano, top)),
        };
        let Difference { chord: _, bass, figures, soprano } = &difference;
        if bass.is_some() || figures.is_some() || soprano.is_some() {
            found.push(difference);
        }
    }
    found
}
