//! The same piece in another tonality.
//!
//! Within a mode everything moves by one interval, figures and fixed notes
//! included. From major to minor or back only the bass is carried over, degree
//! by degree, and the rest follows anew; in minor the 6th and 7th are raised
//! where the bass goes on up by step (the melodic minor; common practice).

use crate::bass;
use crate::harmony::find_tonality;
use crate::pitch::{Interval, Mode, Pitch, PitchClass, Tonality};
use crate::sketch::{Sketch, SketchNote};

/// The sketch in another tonality. A sketch without one is taken in the one found.
/// A tonic that no signature has is spelled the other way.
pub fn in_tonality(sketch: &Sketch, to: Tonality) -> Sketch {
    let bass: Vec<Pitch> = sketch.notes.iter().map(|note| note.pitch).collect();
    let from = sketch.tonality.unwrap_or_else(|| find_tonality(&bass));
    if from.mode == to.mode {
        let mut moved = Sketch { tonality: Some(from), ..sketch.clone() };
        bass::transpose(&mut moved, from, to.tonic, sketch.hands.compass);
        return moved;
    }
    let way = shorter(from.tonic, to.tonic);
    let next = |i: usize| bass.get(i + 1).copied();
    let note = |(i, note): (usize, &SketchNote)| SketchNote {
        weight: note.weight,
        value: note.value,
        rest: note.rest,
        stroke: note.stroke.clone(),
        ..SketchNote::bare(by_degree(note.pitch, next(i), way, from, to))
    };
    let notes = sketch.notes.iter().enumerate().map(note).collect();
    Sketch { tonality: Some(to), notes, ..sketch.clone() }
}

/// The interval from one class to another, no wider than a tritone.
fn shorter(from: PitchClass, to: PitchClass) -> Interval {
    let up = to.at_or_above(from.in_octave(4)) - from.in_octave(4);
    if up.semitones > 6 { up - Interval::OCTAVE } else { up }
}

fn by_degree(
    pitch: Pitch,
    next: Option<Pitch>,
    way: Interval,
    from: Tonality,
    to: Tonality,
) -> Pitch {
    let degree = from.degree_of(pitch.step).number();
    let raised = pitch.alter.saturating_sub(from.class_of(pitch.step).alter);
    let rises = next.is_some_and(|next| (next - pitch).steps == 1);
    let raised = match (to.mode, degree, raised) {
        (Mode::Minor, 6 | 7, 0) if rises => 1,
        (Mode::Major, 6 | 7, 1) => 0,
        _ => raised,
    };
    let letter = Pitch::from_diatonic(pitch.diatonic() + way.steps, 0);
    let alter = to.class_of(letter.step).alter.saturating_add(raised);
    Pitch { alter, ..letter }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bass::{print_bass, read_bass};

    fn check(text: &str, to: &str, expected: &str) {
        let read = read_bass(text, None);
        let sketch = Sketch {
            tonality: read.tonality,
            notes: read.notes.iter().map(|note| note.to_sketch()).collect(),
            ..Sketch::default()
        };
        let to = Tonality::parse(to).expect("a tonality");
        let new = in_tonality(&sketch, to);
        assert_eq!(print_bass(&new.notes, new.tonality), expected, "{text} to {to}");
    }

    #[test]
    fn within_a_mode_all_moves_alike() {
        check("C major: C3 D3 B2 C3", "D", "D major: D3 E3 C#3 D3");
        check("C major: C3 G3", "Ab", "Ab major: Ab2 Eb3");
        check("C major: A3:#6/4/3 G3", "Eb", "Eb major: C4:n6/4/3 Bb3");
        check("C major: A3:#6/4/3 G3", "E", "E major: C#4:#6/4/3 B3");
        check("C major: A3:#6/4/3", "C#", "C# major: A#3:x6/4/3");
        check("A minor: E3:# A2", "C minor", "C minor: G3:n C3");
        check("A minor: E3:5/3+ A2", "C minor", "C minor: G3:5/+ C3");
    }

    #[test]
    fn between_modes_the_bass_keeps_its_degrees() {
        check("C major: C3 E3 A3 B3 C4 B3 A3 G3", "C minor", "C minor: C3 Eb3 A3 B3 C4 Bb3 Ab3 G3");
        check("C minor: C3 Eb3 A3 B3 C4 Bb3 Ab3 G3", "C", "C major: C3 E3 A3 B3 C4 B3 A3 G3");
        check("C major: C3 F#3:6/5 G3", "G minor", "G minor: G2 C#3 D3");
    }
}
