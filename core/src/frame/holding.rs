//! Which chord a free soprano note would make: the usual sonorities over the bass
//! that have the note among their tones.
//!
//! The list of sonorities and its order, plain ones first, are our choice (the
//! figures themselves are those of the table in `figures`).

use crate::figures::{self, FigureRemark, Sign, Stage};
use crate::harmony::Chord;
use crate::pitch::{PitchClass, Step, Tonality};

/// Figures of the usual sonorities, plain ones first.
const SONORITIES: [&[u8]; 12] = [
    &[3, 5],
    &[3, 6],
    &[3, 5, 7],
    &[3, 5, 6],
    &[3, 4, 6],
    &[2, 4, 6],
    &[4, 6],
    &[4, 5],
    &[3, 5, 9],
    &[4, 5, 9],
    &[2, 5],
    &[2, 4, 7],
];

/// The figures that would make this note a tone of the chord, plain ones first, under
/// the signature of `home`; none where it is one already, where the bass plays alone,
/// and for another form of the bass's own note. What the chord has, and else the scale
/// of its tonality, gives the other tones.
pub fn figures_that_hold(chord: &Chord, note: PitchClass, home: Tonality) -> Vec<Stage> {
    let bass = chord.bass.class();
    if chord.tones.iter().any(|tone| tone.class == note) || super::rests(chord) {
        return Vec::new();
    }
    let above = (note.step.index() - bass.step.index()).rem_euclid(7) as u8 + 1;
    let mut found: Vec<Stage> = Vec::new();
    for sonority in SONORITIES {
        if !sonority.iter().any(|&number| letter(number) == above) {
            continue;
        }
        // A fourth that is suspended before the third is a perfect one.
        let perfect = |step: Step| tone(chord, step).fifths() - bass.fifths() == -1;
        let fourth = Step::wrapped(bass.step.index() + 3);
        let is_perfect =
            if above == 4 { note.fifths() - bass.fifths() == -1 } else { perfect(fourth) };
        if sonority.contains(&4) && sonority.contains(&5) && !is_perfect {
            continue;
        }
        let signs: Vec<Sign> = sonority
            .iter()
            .map(|&number| {
                let step = Step::wrapped(bass.step.index() + i32::from(number) - 1);
                let class = if letter(number) == above { note } else { tone(chord, step) };
                let accidental = figures::accidental_of(class, home.class_of(step));
                Sign { number, accidental }
            })
            .collect();
        let stage = figures::abbreviated(&signs);
        let expansion = figures::expand(&stage, bass, home);
        let can_be = |remark: &FigureRemark| !matches!(remark, FigureRemark::Impossible { .. });
        if expansion.remarks.iter().all(can_be)
            && expansion.tones.iter().any(|tone| tone.class == note)
            && !found.contains(&stage)
        {
            found.push(stage);
        }
    }
    found
}

/// A ninth is a second an octave higher.
fn letter(number: u8) -> u8 {
    (number - 1) % 7 + 1
}

/// The form of a letter that a chord has, or its scale.
fn tone(chord: &Chord, step: Step) -> PitchClass {
    let own = chord.tones.iter().map(|tone| tone.class).find(|class| class.step == step);
    own.unwrap_or_else(|| chord.tonality.class_of(step))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bass::read_bass;
    use crate::harmony::harmonise;
    use crate::sketch::Sketch;

    /// The figures that hold a note over the first chord of a bass.
    fn held(bass: &str, note: (Step, i8)) -> String {
        let read = read_bass(bass, None);
        let notes = read.notes.iter().map(|note| note.to_sketch()).collect();
        let sketch = Sketch { tonality: read.tonality, notes, ..Sketch::default() };
        let harmony = harmonise(&sketch);
        let note = PitchClass::new(note.0, note.1);
        let stages = figures_that_hold(&harmony.chords[0], note, harmony.home);
        stages.iter().map(figures::print_stage).collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn a_free_note_names_the_chords_it_would_make() {
        assert_eq!(held("C major: F3:5/3 C3", (Step::D, 0)), "6 6/5 4/3 4/2 6/4");
        assert_eq!(held("C major: C3:5/3 C3", (Step::B, -1)), "b7 b7/4/2");
        assert_eq!(held("C major: C3:5/3 C3", (Step::B, 0)), "7 7/4/2");
        assert_eq!(held("C major: C3:5/3 C3", (Step::F, 0)), "4/3 4/2 6/4 5/4 9/4 7/4/2");
        assert_eq!(held("C major: F3:5/3 C3", (Step::B, 0)), "4/3 4/2 6/4 7/4/2");
        assert_eq!(held("C major: D3:6/4/3 C3", (Step::E, 0)), "4/2 9 9/4 5/2 7/4/2");
        // The raised third of the dominant is kept.
        assert_eq!(held("A minor: E3:# A3", (Step::D, 0)), "7/# 7/4/2");
        assert_eq!(held("C major: C3:5/3 C3", (Step::E, 0)), "");
        assert_eq!(held("C major: C3:5/3 C3", (Step::C, 1)), "");
    }
}
