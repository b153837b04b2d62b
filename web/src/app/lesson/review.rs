//! Answers looked at: by the teacher, who may comment, or by the student, who
//! reads the comments.

use super::Veil;
use super::work::outer_faults;
use tastata::files;
use tastata::lesson::{Answer, Comment, Commented, Exercise, HandIn, Progress, Report, check};
use tastata::sketch::Sketch;

/// Who looks at the answers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reader {
    /// The teacher, who may comment.
    Teacher,
    /// The student, to whom the comments came back.
    Student,
}

/// What of an exercise is on the staff.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Beside {
    /// What the student made.
    Answer,
    /// What was given.
    Given,
    /// The model.
    Model,
}

/// Answers looked at.
#[derive(Clone, Debug)]
pub struct Review {
    commented: Commented,
    reader: Reader,
    at: usize,
    beside: Beside,
    report: Option<Report>,
}

impl Review {
    /// Answers that were handed in, before the teacher. A set without exercises
    /// is refused.
    pub fn of(hand_in: HandIn) -> Option<Review> {
        Review::start(Commented { hand_in, ..Commented::default() }, Reader::Teacher)
    }

    /// Answers that came back with comments.
    pub fn back(commented: Commented) -> Option<Review> {
        Review::start(commented, Reader::Student)
    }

    fn start(commented: Commented, reader: Reader) -> Option<Review> {
        if commented.hand_in.set.exercises.is_empty() {
            return None;
        }
        let mut it = Review { commented, reader, at: 0, beside: Beside::Answer, report: None };
        it.go(0);
        Some(it)
    }

    /// Who looks.
    pub fn reader(&self) -> Reader {
        self.reader
    }

    /// The answers and comments.
    pub fn commented(&self) -> &Commented {
        &self.commented
    }

    /// Index of the exercise looked at.
    pub fn at(&self) -> usize {
        self.at
    }

    /// How many exercises there are.
    pub fn count(&self) -> usize {
        self.commented.hand_in.set.exercises.len()
    }

    /// The exercise looked at.
    pub fn exercise(&self) -> &Exercise {
        // `at` is kept within the set, which is never empty.
        &self.commented.hand_in.set.exercises[self.at]
    }

    /// The answer to it, if there is one.
    pub fn answer(&self) -> Option<&Answer> {
        self.commented.hand_in.answers.get(self.at)?.as_ref()
    }

    /// The check of that answer.
    pub fn report(&self) -> Option<&Report> {
        self.report.as_ref()
    }

    /// What is on the staff.
    pub fn beside(&self) -> Beside {
        self.beside
    }

    /// Goes to an exercise; beyond the set the last one.
    pub fn go(&mut self, to: usize) {
        self.at = to.min(self.count().saturating_sub(1));
        self.beside = Beside::Answer;
        self.report = self.answer().map(|answer| check(self.exercise(), answer));
    }

    /// Puts something else on the staff, where it is there and may be seen.
    pub fn look_at(&mut self, beside: Beside) {
        if beside != Beside::Model || self.model().is_some() {
            self.beside = beside;
        }
    }

    /// The model: the teacher may always open it, the student once it is handed in.
    pub fn model(&self) -> Option<&Sketch> {
        self.exercise().open_model(Progress::HandedIn)
    }

    /// The sketch on the staff.
    pub fn sketch(&self) -> Sketch {
        let given = &self.exercise().sketch;
        let answer = || self.answer().map(|answer| &answer.sketch);
        let shown = match self.beside {
            Beside::Answer => answer(),
            Beside::Given => None,
            Beside::Model => self.model(),
        };
        shown.unwrap_or(given).clone()
    }

    /// The veil over it: of an answer only what the student made is shown.
    pub fn veil(&self) -> Option<Veil> {
        let faults = || self.report.as_ref().map(outer_faults).unwrap_or_default();
        match self.beside {
            Beside::Answer => Some(Veil::of(self.exercise()).marking(faults())),
            Beside::Given => Some(Veil::of(self.exercise())),
            Beside::Model => None,
        }
    }

    /// The comments on this exercise with their places in the whole list.
    pub fn comments(&self) -> impl Iterator<Item = (usize, &Comment)> {
        let at = self.at;
        self.commented.comments.iter().enumerate().filter(move |(_, it)| it.exercise == at)
    }

    /// Says something of the whole answer or of a chord in it.
    pub fn comment(&mut self, chord: Option<usize>, text: &str) {
        let text = text.trim();
        if self.reader == Reader::Teacher && !text.is_empty() {
            let text = text.to_owned();
            self.commented.comments.push(Comment { exercise: self.at, chord, text });
        }
    }

    /// Takes a comment back.
    pub fn uncomment(&mut self, place: usize) {
        if self.reader == Reader::Teacher && place < self.commented.comments.len() {
            self.commented.comments.remove(place);
        }
    }

    /// The link that brings the comments to the student.
    pub fn send_back(&mut self, teacher: &str) -> String {
        teacher.trim().clone_into(&mut self.commented.teacher);
        files::encode_commented(&self.commented)
    }
}
