//! Moves a whole sketch to another tonality, spelling and decisions included.

use super::range;
use crate::figures::{Accidental, Figures, Sign, Stage, accidental_of, class_of};
use crate::hands::{Compass, HandWishes};
use crate::pitch::{Interval, Pitch, PitchClass, Step, Tonality};
use crate::sketch::Sketch;

/// Transposes a sketch from its home tonality to the one on `tonic`, the mode
/// kept; a tonic whose signature would need more than seven sharps or flats is
/// spelled the other way. Bass, given figures, soprano pins and fixed handfuls
/// move together, as one block, into the octave in which the keyboard has most of
/// the bass, and among those the nearest; a bass note it still lacks goes to another
/// octave by itself.
pub fn transpose(sketch: &mut Sketch, home: Tonality, tonic: PitchClass, compass: Compass) {
    let to = within_signatures(Tonality::new(tonic, home.mode));
    let start = home.tonic.in_octave(3);
    let nearest = to.tonic.nearest(start) - start;
    let hands = HandWishes { compass, ..sketch.hands.clone() };
    let moved: Vec<Pitch> = sketch.notes.iter().map(|note| note.pitch + nearest).collect();
    let interval = nearest + range::octaves(range::block(&moved, &hands));
    for note in &mut sketch.notes {
        let bass = note.pitch.class();
        if let Some(figures) = &note.figures {
            note.figures = Some(respelled(figures, bass, home, to, interval));
        }
        let whole = note.pitch + interval;
        note.pitch = range::on_keyboard(whole, &hands);
        for pin in note.soprano.iter_mut().flatten() {
            pin.pitch = pin.pitch + interval;
        }
        for handful in note.handfuls.iter_mut().flatten() {
            for pitch in handful.left.iter_mut().chain(&mut handful.right) {
                *pitch = *pitch + interval;
                if *pitch == whole {
                    *pitch = note.pitch;
                }
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
