//! Which chord stands over each bass note, and why.

mod chord;

pub use chord::{Chord, Duty, HarmonyWishes, Reason, Tone};

use crate::figures::Stage;
use crate::pitch::{Degree, Interval, Mode, PitchClass, Step, Tonality};
use crate::sketch::Sketch;

/// The chords over a bass, in playing order.
#[derive(Clone, Debug, PartialEq)]
pub struct Harmony {
    /// The tonality the piece opens in: the person's, or the one found.
    pub home: Tonality,
    /// One chord for each stage of each note that carries one.
    pub chords: Vec<Chord>,
}

/// Harmonises the bass of a sketch. An empty bass gives no chords.
pub fn harmonise(sketch: &Sketch) -> Harmony {
    let home = sketch.tonality.unwrap_or(Tonality::new(PitchClass::new(Step::C, 0), Mode::Major));
    let chords = sketch.notes.iter().enumerate().map(|(note, it)| {
        let tone = |number: u8| Tone {
            class: home.class_of((it.pitch + Interval::new(number as i32 - 1, 0)).step),
            number,
            duty: Duty::Free,
            omittable: number == 5,
        };
        Chord {
            note,
            stage: 0,
            bass: it.pitch,
            tones: vec![Tone { class: it.pitch.class(), ..tone(1) }, tone(3), tone(5)],
            tonality: home,
            degree: home.degree_of(it.pitch.step),
            figures: Stage::Signs(Vec::new()),
            reason: Reason::Triad { degree: Degree::wrapped(0) },
        }
    });
    Harmony { home, chords: chords.collect() }
}
