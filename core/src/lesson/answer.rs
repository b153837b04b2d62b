//! Answers: what a student hands in, and what the teacher says of it.

use super::exercise::{Exercise, Set};
use crate::frame::Rule;
use crate::sketch::Sketch;

/// A student's answer to one exercise. Each ask looks at the part it needs.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Answer {
    /// The student's sketch, grown from the given one.
    pub sketch: Sketch,
    /// The faults found, where faults were to be found.
    pub found: Vec<Found>,
    /// What was played in other keys, one sketch for each key.
    pub keys: Vec<Sketch>,
    /// Time of making, in minutes.
    pub minutes: u16,
}

impl Answer {
    /// The answer before anything is done.
    pub fn start(exercise: &Exercise) -> Answer {
        Answer { sketch: exercise.sketch.clone(), ..Answer::default() }
    }
}

/// A fault that a student points at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Found {
    /// Index of a chord where the fault is: any that takes part in it.
    pub chord: usize,
    /// The rule that is said to be broken, if one is named.
    pub rule: Option<Rule>,
}

/// Everything one student hands in: the set as it was received, so that the
/// answers open beside their tasks, and an answer to each exercise.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct HandIn {
    /// The student's name.
    pub student: String,
    /// The set as the student had it.
    pub set: Set,
    /// The answers in the order of the exercises; `None` where there is none,
    /// and what is missing at the end counts as `None`.
    pub answers: Vec<Option<Answer>>,
}

/// A hand-in with what the teacher says of it, on its way back.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Commented {
    /// The teacher's name; may be empty.
    pub teacher: String,
    /// What was handed in.
    pub hand_in: HandIn,
    /// What is said, in order.
    pub comments: Vec<Comment>,
}

/// Something the teacher says of an answer.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Comment {
    /// Index of the exercise.
    pub exercise: usize,
    /// Index of the chord, or `None` for the whole answer.
    pub chord: Option<usize>,
    /// The words.
    pub text: String,
}
