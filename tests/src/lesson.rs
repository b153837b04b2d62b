//! Sketches, exercises and hand-ins for the tests of teaching.

use crate::outer::pitch;
use tastata::bass::read_bass;
use tastata::frame::{Position, Rule};
use tastata::harmony::Cadence;
use tastata::lesson::{
    Answer, Ask, Comment, Commented, Exercise, Feedback, Found, HandIn, Hears, Measure, Model,
    MotionLimit, Naming, Opens, Parts, Set, Speech, Telling,
};
use tastata::pitch::{Mode, PitchClass, Tonality};
use tastata::sketch::{Hold, Pin, Sketch};
use tastata::words::{NoteNames, Tongue};

/// A sketch from its bass as text.
///
/// # Panics
/// Where the text is no bass.
pub fn sketch(text: &str) -> Sketch {
    let read = read_bass(text, None);
    assert!(read.remarks.is_empty(), "{text}: {:?}", read.remarks);
    Sketch {
        tonality: read.tonality,
        notes: read.notes.iter().map(|note| note.to_sketch()).collect(),
        ..Sketch::default()
    }
}

/// The sketch with a soprano pinned over its notes, one pitch a note; `-` leaves
/// the note free.
///
/// # Panics
/// Where the text holds something else than pitches.
pub fn with_soprano(mut sketch: Sketch, soprano: &str) -> Sketch {
    for (note, name) in sketch.notes.iter_mut().zip(soprano.split_whitespace()) {
        note.soprano = match name {
            "-" => Vec::new(),
            name => vec![Some(Pin { pitch: pitch(name), hold: Hold::Pinned })],
        };
    }
    sketch
}

/// A full-period congruential sequence: the same on every run.
pub struct Draw(pub u64);

impl Draw {
    /// A number in the range [0, below).
    pub fn below(&mut self, below: u64) -> u64 {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % below
    }

    /// Whether it is the one time in `of`.
    pub fn one_in(&mut self, of: u64) -> bool {
        self.below(of) == 0
    }

    /// One of these.
    ///
    /// # Panics
    /// Where there are none.
    pub fn of<T: Clone>(&mut self, choices: &[T]) -> T {
        choices[self.below(choices.len() as u64) as usize].clone()
    }

    /// Up to `most` things, often none.
    pub fn some<T>(&mut self, most: u64, mut make: impl FnMut(&mut Draw) -> T) -> Vec<T> {
        let count = if self.one_in(2) { 0 } else { self.below(most + 1) };
        (0..count).map(|_| make(self)).collect()
    }

    fn text(&mut self) -> String {
        let texts = [
            "",
            "Harmonise this.",
            "Übung № 3 – „langsam“ 𝄞",
            "<script>alert(1)</script>",
            "a\n\u{0}b",
        ];
        self.of(&texts).to_string()
    }

    fn tonality(&mut self) -> Tonality {
        let mode = self.of(&[Mode::Major, Mode::Minor]);
        Tonality::new(PitchClass::from_fifths(self.below(29) as i32 - 14), mode)
    }

    /// Some sketch.
    pub fn sketch(&mut self) -> Sketch {
        let basses = [
            "",
            "C major: C3 D3 E3 F3:6/5 G3 A3 B3 C4",
            "A minor: A2 B2 C3 D3 E3:5/3+ A2",
            "D3 C#3 D3 (E3) F3 G3:4-3 C3",
        ];
        let sketch = sketch(self.of(&basses));
        let sopranos = ["", "E5 D5 C5", "- F4 - G4 A4", "C6"];
        let mut sketch = with_soprano(sketch, self.of(&sopranos));
        sketch.title = self.text();
        sketch.roll.spice = self.below(256) as u8;
        sketch.sound.a4 = self.of(&[415.0, 440.0, 392.0]);
        if self.one_in(4) {
            sketch.tonality = None;
        }
        sketch
    }

    fn ask(&mut self) -> Ask {
        match self.below(8) {
            0 => Ask::Figures(self.of(&[Measure::Complete, Measure::Accepted, Measure::AsModel])),
            1 => Ask::Soprano {
                position: self.of(&[None, Some(Position::Octave), Some(Position::Fifth)]),
                motions: self.of(&[MotionLimit::Any, MotionLimit::ContraryOrTenths]),
            },
            2 => Ask::FindFaults(self.of(&[Naming::Named, Naming::Place])),
            3 => Ask::Handfuls { least: self.below(256) as u8 },
            4 => Ask::Roll { acciaccaturas: self.below(256) as u8 },
            5 => Ask::Keys(self.some(24, Draw::tonality)),
            6 => Ask::Finish(self.of(&[Cadence::Simple, Cadence::Compound, Cadence::Double])),
            _ => Ask::Free,
        }
    }

    fn exercise(&mut self) -> Exercise {
        Exercise {
            task: self.text(),
            hints: self.some(4, Draw::text),
            sketch: self.sketch(),
            given: Parts::from_bits(self.below(32) as u8),
            asks: self.some(3, Draw::ask),
            feedback: self.of(&[Feedback::Live, Feedback::OnRequest, Feedback::AtEnd]),
            telling: self.of(&[Telling::AtOnce, Telling::InSteps, Telling::PlaceAlone]),
            hears: self.of(&[Hears::OwnWork, Hears::Bass, Hears::Model]),
            model: (!self.one_in(3)).then(|| Model {
                sketch: self.sketch(),
                opens: self.of(&[Opens::Anytime, Opens::AfterTrying, Opens::AfterHandIn]),
            }),
        }
    }

    /// Some set.
    pub fn set(&mut self) -> Set {
        Set {
            title: self.text(),
            exercises: self.some(4, Draw::exercise),
            speech: Speech {
                tongue: self.of(&[None, Some(Tongue::English), Some(Tongue::French)]),
                notes: self.of(&[None, Some(NoteNames::Letters), Some(NoteNames::German)]),
            },
        }
    }

    fn answer(&mut self) -> Answer {
        Answer {
            sketch: self.sketch(),
            found: self.some(4, |draw| Found {
                chord: draw.below(1 << 20) as usize,
                rule: draw.one_in(2).then(|| draw.of(&Rule::ALL)),
            }),
            keys: self.some(3, Draw::sketch),
            minutes: self.below(65_536) as u16,
        }
    }

    /// Some hand-in.
    pub fn hand_in(&mut self) -> HandIn {
        HandIn {
            student: self.text(),
            set: self.set(),
            answers: self.some(5, |draw| draw.one_in(2).then(|| draw.answer())),
        }
    }

    /// Some commented hand-in.
    pub fn commented(&mut self) -> Commented {
        Commented {
            teacher: self.text(),
            hand_in: self.hand_in(),
            comments: self.some(5, |draw| Comment {
                exercise: draw.below(9) as usize,
                chord: draw.one_in(2).then(|| draw.below(99) as usize),
                text: draw.text(),
            }),
        }
    }
}
