//! A bass as read from text.

use super::NoteValue;
use crate::figures::{FigureTrouble, Figures};
use crate::pitch::{Pitch, Tonality};
use crate::sketch::{SketchNote, Weight};
use std::ops::Range;

/// All that a text says: everything that could be read, and remarks on the rest.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct BassText {
    /// The tonality, where the text opens with one.
    pub tonality: Option<Tonality>,
    /// The notes in order.
    pub notes: Vec<BassNote>,
    /// What could not be read, in order of place.
    pub remarks: Vec<TextRemark>,
}

/// One bass note of a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BassNote {
    /// The pitch.
    pub pitch: Pitch,
    /// The figures written with it.
    pub figures: Option<Figures>,
    /// Whether it was marked as passing or as carrying a chord.
    pub weight: Weight,
    /// Its length, where one is in force.
    pub value: Option<NoteValue>,
    /// The rest after it.
    pub rest: Option<NoteValue>,
    /// Its bytes in the text, figures included, on character boundaries.
    pub at: Range<usize>,
}

impl BassNote {
    /// The note as a sketch holds it, nothing else decided.
    pub fn to_sketch(&self) -> SketchNote {
        SketchNote {
            figures: self.figures.clone(),
            weight: self.weight,
            value: self.value,
            rest: self.rest,
            ..SketchNote::bare(self.pitch)
        }
    }
}

/// Something in the text that could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TextRemark {
    /// Its bytes in the text, on character boundaries.
    pub at: Range<usize>,
    /// What is wrong there.
    pub kind: TextTrouble,
}

/// What is wrong with a piece of text; the rest is read all the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TextTrouble {
    /// Neither a note nor figures.
    UnknownWord,
    /// Figures with no note before them.
    FiguresWithoutNote,
    /// The note is read, its figures are not.
    Figures(FigureTrouble),
    /// A second set of figures for one note; the first stays.
    SecondFigures,
    /// A bracket that is never closed.
    OpenBracket,
    /// An octave outside the range [-1, 9].
    Octave,
    /// More than two accidentals on one letter.
    Accidentals,
    /// No length of a note.
    Length,
    /// A rest with no note before it.
    RestFirst,
}
