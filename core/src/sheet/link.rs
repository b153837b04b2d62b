//! What a code on a sheet opens: the piece, or the exercise that the sheet sets.

use super::{Figures, SheetWishes, Soprano};
use crate::files;
use crate::lesson::{Ask, Measure, MotionLimit, Set, make};
use crate::sketch::Sketch;

/// The fragment of a link that opens what the sheet shows. Where something is left
/// to the student that is an exercise that asks for it, with the sheet's task and
/// the piece as it now reads as the model; else it is the piece.
/// Cost: O(notes), and one reading of the sketch for an exercise.
pub fn fragment(sketch: &Sketch, wishes: &SheetWishes) -> String {
    let mut asks = Vec::new();
    if wishes.figures == Figures::Blank {
        asks.push(Ask::Figures(Measure::default()));
    }
    if wishes.soprano == Soprano::Blank {
        asks.push(Ask::Soprano { position: None, motions: MotionLimit::Any });
    }
    if asks.is_empty() {
        return files::encode(sketch);
    }
    let mut exercise = make(sketch, asks);
    exercise.task.clone_from(&wishes.task);
    let title = wishes.title.as_ref().unwrap_or(&sketch.title).clone();
    files::encode_set(&Set { title, exercises: vec![exercise], ..Set::default() })
}
