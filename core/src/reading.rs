//! The reading: all that follows from a sketch, computed stage by stage.

use crate::frame::{self, Frame, FrameMemory};
use crate::hands::{self, Hands, HandsMemory};
use crate::harmony::{self, Harmony};
use crate::roll::{self, Performance};
use crate::sketch::{Sketch, SketchNote};

/// Everything derived from a sketch.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// The chords.
    pub harmony: Harmony,
    /// The outer voices.
    pub frame: Frame,
    /// The handfuls.
    pub hands: Hands,
    /// The performance.
    pub performance: Performance,
}

/// Reads a sketch. Never fails: an empty sketch gives an empty reading, and
/// what could not be honoured is said in the remarks of each stage.
pub fn read(sketch: &Sketch) -> Reading {
    let harmony = harmony::harmonise(sketch);
    let frame = frame::frame(sketch, &harmony.chords);
    let hands = hands::handfuls(sketch, &harmony.chords, &frame);
    let performance = roll::roll(sketch, &harmony.chords, &hands);
    Reading { harmony, frame, hands, performance }
}

/// Reads sketches that follow one another, each little different from the last: what
/// has not changed is not worked out again. The answers are those of [`read`].
#[derive(Clone, Debug, Default)]
pub struct Rereader {
    /// The last sketch with its harmony.
    harmony: Option<(Sketch, Harmony)>,
    frame: FrameMemory,
    hands: HandsMemory,
}

impl Rereader {
    /// Reads a sketch.
    pub fn read(&mut self, sketch: &Sketch) -> Reading {
        let harmony = self.harmonise(sketch);
        let frame = frame::frame_anew(&mut self.frame, sketch, &harmony.chords);
        let hands = hands::handfuls_anew(&mut self.hands, sketch, &harmony.chords, &frame);
        let performance = roll::roll(sketch, &harmony.chords, &hands);
        Reading { harmony, frame, hands, performance }
    }

    /// Reads a sketch in the moments of a drag that began from `before`: harmony and
    /// soprano with its faults as [`Rereader::read`] gives them where the number of
    /// choices stands. That number, the performance, and the handfuls where nothing
    /// else moved are those of before, and nothing is said of quarrelling pins.
    pub fn read_in_brief(&mut self, sketch: &Sketch, before: &Reading) -> Reading {
        let harmony = self.harmonise(sketch);
        let chords = &harmony.chords;
        let choices = before.frame.choices;
        let frame = frame::frame_in_brief(&mut self.frame, sketch, chords, choices);
        let known = (before.harmony.chords.as_slice(), &before.frame, &before.hands);
        let hands = hands::handfuls_in_brief(sketch, chords, &frame, known);
        let performance = if chords.len() == before.harmony.chords.len() {
            before.performance.clone()
        } else {
            roll::roll(sketch, chords, &hands)
        };
        Reading { harmony, frame, hands, performance }
    }

    fn harmonise(&mut self, sketch: &Sketch) -> Harmony {
        let kept = self.harmony.as_ref().filter(|(old, _)| {
            let note = |(a, b): (&SketchNote, &SketchNote)| {
                (a.pitch, a.weight, a.value, a.rest) == (b.pitch, b.weight, b.value, b.rest)
                    && a.figures == b.figures
            };
            old.tonality == sketch.tonality
                && old.harmony == sketch.harmony
                && old.notes.len() == sketch.notes.len()
                && old.notes.iter().zip(&sketch.notes).all(note)
        });
        if let Some((_, harmony)) = kept {
            return harmony.clone();
        }
        let harmony = harmony::harmonise(sketch);
        self.harmony = Some((sketch.clone(), harmony.clone()));
        harmony
    }
}
