//! Moves a whole sketch to another tonality, spelling and decisions included.

use crate::figures::{Accidental, Figures, Sign, Stage, accidental_of, class_of};
use crate::hands::Compass;
use crate::pitch::{Interval, Pitch, PitchClass, Step, Tonality};
use crate::sketch::Sketch;

/// Transposes a sketch from its home tonality to the one on `tonic`, the mode
/// kept; a tonic whose signature would need more than seven sharps or flats is
/// spelled the other way. Bass, given figures, soprano pins and fixed handfuls
/// move together, as one block, into the octave in which most of the bass lies on
/// the keyboard, and among those the nearest.
pub fn transpose(sketch: &mut Sketch, home: Tonality, tonic: PitchClass, compass: Compass) {
    let to = within_signatures(Tonality::new(tonic, home.mode));
    let start = home.tonic.in_octave(3);
    let nearest = to.tonic.nearest(start) - start;
    let interval = [0, -1, 1, -2, 2]
        .into_iter()
        .map(|octaves| nearest + Interval::new(octaves * Interval::OCTAVE.steps, octaves * 12))
        .min_by_key(|&interval| {
            let off = sketch.notes.iter().filter(|note| {
                let moved = note.pitch + interval;
                !moved.key().is_some_and(|key| compass.contains(key))
            });
            off.count()
        })
        .unwrap_or(nearest);
    for note in &mut sketch.notes {
        let bass = note.pitch.class();
        if let Some(figures) = &note.figures {
            note.figures = Some(respelled(figures, bass, home, to, interval));
        }
        note.pitch = note.pitch + interval;
        for pin in note.soprano.iter_mut().flatten() {
            pin.pitch = pin.pitch + interval;
        }
        for handful in note.handfuls.iter_mut().flatten() {
            for pitch in handful.left.iter_mut().chain(&mut handful.right) {
                *pitch = *pitch + interval;
            }
        }
    }
    if sketch.tonality.is_some() {
        sketch.tonality = Some(to);
    }
}

/// The same tonality, spelled so that its signature lies in [-7, 7].
fn within_signatures(tonality: Tonality) -> Tonality {
    let over = match tonality.signature() {
        8.. => -12,
        ..=-8 => 12,
        _ => 0,
    };
    Tonality::new(PitchClass::from_fifths(tonality.tonic.fifths() + over), tonality.mode)
}

/// Figures that sound the same over the moved bass under the new signature.
fn respelled(
    figures: &Figures,
    bass: PitchClass,
    home: Tonality,
    to: Tonality,
    interval: Interval,
) -> Figures {
    let stage = |stage: &Stage| match stage {
        Stage::Hold | Stage::TastoSolo => stage.clone(),
        Stage::Signs(signs) => {
            let moved = signs.iter().map(|sign| match sign.accidental {
                None | Some(Accidental::Raised) => *sign,
                Some(_) => {
                    let step = letter_above(bass, sign.number);
                    let old = class_of(home.class_of(step), sign.accidental);
                    let new = (old.in_octave(4) + interval).class();
                    let accidental = accidental_of(new, to.class_of(new.step));
                    // A cautionary accidental has nothing to alter any more.
                    Sign { number: sign.number, accidental }
                }
            });
            Stage::Signs(moved.collect())
        }
    };
    let stages = figures.stages().iter().map(stage).collect();
    Figures::new(stages).unwrap_or_else(|| figures.clone())
}

fn letter_above(bass: PitchClass, number: u8) -> Step {
    Pitch::from_diatonic(bass.step.index() + i32::from(number) - 1, 0).step
}
