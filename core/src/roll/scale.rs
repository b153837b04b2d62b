//! The scale of the moment: what lies between the notes of a chord.

use crate::harmony::Chord;
use crate::pitch::{Interval, Mode, Pitch, PitchClass, Step};

/// Which way a line goes through the scale.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Going {
    /// Up.
    Up,
    /// Down.
    Down,
}

/// The scale's note on this letter while the chord sounds: the chord's own note
/// where it has one, else the tonality's. In minor the 7th is raised over a leading
/// note and on the way up, and the 6th with it, unless the chord holds either
/// lowered; on the way down both are lowered.
pub(super) fn class(chord: &Chord, letter: Step, going: Going) -> PitchClass {
    if let Some(tone) = chord.tones.iter().find(|tone| tone.class.step == letter) {
        return tone.class;
    }
    let tonality = chord.tonality;
    let natural = tonality.class_of(letter);
    if tonality.mode == Mode::Major {
        return natural;
    }
    let has = |class: PitchClass| chord.tones.iter().any(|tone| tone.class == class);
    let leading = tonality.leading();
    let lowered_seventh = tonality.class_of(leading.step);
    let raised = has(leading) || (going == Going::Up && !has(lowered_seventh));
    match tonality.degree_of(letter).number() {
        7 if raised => leading,
        6 if raised => leading + Interval::new(-1, -2),
        _ => natural,
    }
}

/// The next note of the scale above or below a pitch.
pub(super) fn next(chord: &Chord, from: Pitch, going: Going) -> Pitch {
    let diatonic = match going {
        Going::Up => from.diatonic() + 1,
        Going::Down => from.diatonic() - 1,
    };
    let alter = class(chord, Step::wrapped(diatonic), going).alter;
    Pitch::from_diatonic(diatonic, alter)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pitch::Tonality;
    use crate::sketch::{Sketch, SketchNote};

    fn scale(tonality: &str, bass: Pitch, going: Going) -> String {
        let mut sketch = Sketch { tonality: Tonality::parse(tonality), ..Sketch::default() };
        sketch.notes.push(SketchNote::bare(bass));
        let tonic = bass - Interval::new(7, 12);
        sketch.notes.push(SketchNote::bare(tonic + Interval::new(3, 5)));
        let chords = crate::harmony::harmonise(&sketch).chords;
        let mut at = bass;
        let mut names = vec![at.class().to_string()];
        for _ in 0..7 {
            at = next(&chords[0], at, going);
            names.push(at.class().to_string());
        }
        names.join(" ")
    }

    #[test]
    fn minor_rises_raised_and_falls_lowered() {
        let a = Pitch::new(Step::A, 0, 3);
        assert_eq!(scale("a", a, Going::Up), "A B C D E F♯ G♯ A");
        assert_eq!(scale("a", a, Going::Down), "A G F E D C B A");
        let c = Pitch::new(Step::C, 0, 3);
        assert_eq!(scale("C", c, Going::Up), "C D E F G A B C");
    }
}
