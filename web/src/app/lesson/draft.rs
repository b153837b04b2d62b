//! A set in the making: the form of one exercise, and the exercises so far.

use tastata::files::{self, Linked};
use tastata::lesson::{Ask, Exercise, Feedback, Hears, Model, Opens, Parts, Set, Telling, make};
use tastata::sketch::Sketch;

/// Exercises a set may have; no link could carry more to anybody's phone.
pub const MOST_EXERCISES: usize = 40;

/// What the teacher chose for one exercise.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Form {
    /// What is asked.
    pub asks: Vec<Ask>,
    /// The teacher's own words; may be empty.
    pub task: String,
    /// Hints, one a line.
    pub hints: String,
    /// What is given, or `None` for what the asks leave.
    pub given: Option<Parts>,
    /// When faults are shown.
    pub feedback: Feedback,
    /// How much a finding gives away.
    pub telling: Telling,
    /// What may be heard.
    pub hears: Hears,
    /// When the model may be opened, or `None` to leave it out.
    pub model: Option<Opens>,
}

impl Form {
    /// The form that shows an exercise.
    pub fn of(exercise: &Exercise) -> Form {
        Form {
            asks: exercise.asks.clone(),
            task: exercise.task.clone(),
            hints: exercise.hints.join("\n"),
            given: Some(exercise.given),
            feedback: exercise.feedback,
            telling: exercise.telling,
            hears: exercise.hears,
            model: exercise.model.as_ref().map(|model| model.opens),
        }
    }

    /// The exercise made from a finished sketch.
    pub fn exercise(&self, sketch: &Sketch) -> Exercise {
        let made = make(sketch, self.asks.clone());
        let model = made.model.zip(self.model);
        let hints = self.hints.lines().map(str::trim).filter(|line| !line.is_empty());
        Exercise {
            task: self.task.trim().to_owned(),
            hints: hints.map(str::to_owned).collect(),
            given: self.given.unwrap_or(made.given),
            feedback: self.feedback,
            telling: self.telling,
            hears: self.hears,
            model: model.map(|(model, opens)| Model { opens, ..model }),
            ..made
        }
    }
}

/// A set in the making.
#[derive(Clone, Debug, Default)]
pub struct Draft {
    /// The set so far.
    pub set: Set,
    /// The exercise that is being changed, if any.
    pub changing: Option<usize>,
    /// The set before something was taken out of it, until it is added to.
    before: Option<Set>,
}

impl Draft {
    /// The set as text, to be kept.
    pub fn kept(&self) -> String {
        files::encode_set(&self.set)
    }

    /// The set that was kept; anything else is an empty one.
    pub fn resume(kept: &str) -> Draft {
        match files::open(kept) {
            Ok(Linked::Set(set)) => Draft { set, ..Draft::default() },
            _ => Draft::default(),
        }
    }

    /// Takes over the set as another tab has kept it; an exercise that is being changed stays so
    /// where that tab left it as it was.
    pub fn renew(&mut self, kept: &str) {
        let old = std::mem::replace(self, Draft::resume(kept));
        let same = |at: &usize| self.set.exercises.get(*at) == old.set.exercises.get(*at);
        self.changing = old.changing.filter(same);
    }

    /// Adds an exercise made from the sketch, or changes the one being changed.
    /// A changed one keeps its music. Says whether there was room.
    pub fn put(&mut self, form: &Form, sketch: &Sketch) -> bool {
        if let Some(old) = self.changing.take().and_then(|at| self.set.exercises.get_mut(at)) {
            let same = old.asks == form.asks;
            let new = match &old.model {
                Some(model) => form.exercise(&model.sketch),
                None if same => Exercise { model: None, ..form.exercise(&old.sketch) },
                None => form.exercise(&old.sketch),
            };
            let sketch = if same { old.sketch.clone() } else { new.sketch.clone() };
            *old = Exercise { sketch, ..new };
            self.before = None;
            return true;
        }
        if self.set.exercises.len() >= MOST_EXERCISES {
            return false;
        }
        self.set.exercises.push(form.exercise(sketch));
        self.before = None;
        true
    }

    /// Moves an exercise one place up (-1) or down (1).
    pub fn shift(&mut self, at: usize, by: i32) {
        let to = at as i64 + i64::from(by);
        let Ok(to) = usize::try_from(to) else { return };
        if at < self.set.exercises.len() && to < self.set.exercises.len() {
            self.set.exercises.swap(at, to);
            self.changing = None;
            self.before = None;
        }
    }

    /// Takes an exercise out.
    pub fn remove(&mut self, at: usize) {
        if at < self.set.exercises.len() {
            self.before = Some(self.set.clone());
            self.set.exercises.remove(at);
            self.changing = None;
        }
    }

    /// Begins a new set. The class reads it as it read the last.
    pub fn begin_anew(&mut self) {
        let new = Set { speech: self.set.speech, ..Set::default() };
        self.before = Some(std::mem::replace(&mut self.set, new));
        self.changing = None;
    }

    /// Whether what was last taken out can be brought back.
    pub fn can_bring_back(&self) -> bool {
        self.before.is_some()
    }

    /// Brings back what was last taken out: an exercise, or the whole set.
    pub fn bring_back(&mut self) {
        if let Some(before) = self.before.take() {
            self.set = before;
            self.changing = None;
        }
    }
}
