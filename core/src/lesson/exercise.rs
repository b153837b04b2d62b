//! Exercises: what is given, what is asked, and how the student is helped.

use super::ask::Ask;
use crate::frame::RuleSwitches;
use crate::sketch::Sketch;
use crate::words::{Lang, NoteNames, Tongue};

/// Several exercises in order, as a teacher hands them out.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Set {
    /// What the set is called; may be empty.
    pub title: String,
    /// The exercises in order.
    pub exercises: Vec<Exercise>,
    /// The language it asks the page for.
    pub speech: Speech,
}

/// The language and the names of notes that a teacher asks the page for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub struct Speech {
    /// The language; `None` leaves it to the reader.
    pub tongue: Option<Tongue>,
    /// The names of notes; `None` leaves them to the reader.
    pub notes: Option<NoteNames>,
}

impl Speech {
    /// Who is spoken to: first what the reader has chosen, then what is asked for, then
    /// what the browser is set to. Names of notes follow the language where neither the
    /// reader nor the teacher says otherwise.
    pub fn to(self, chosen: Speech, browser: Tongue) -> Lang {
        let tongue = chosen.tongue.or(self.tongue).unwrap_or(browser);
        Lang { tongue, notes: chosen.notes.or(self.notes).unwrap_or(tongue.habit()) }
    }
}

/// One exercise.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Exercise {
    /// The teacher's own words; where empty, the page says what is asked.
    pub task: String,
    /// Hints from the gentlest to the plainest, shown one at a time.
    pub hints: Vec<String>,
    /// What the student starts from. Its rules ([`Sketch::frame`]) are the ones
    /// that count, and its hands are the widest that count.
    pub sketch: Sketch,
    /// The parts of the reading that are shown from the start. What is left out
    /// is hidden until the student has made it.
    pub given: Parts,
    /// What is asked, in order.
    pub asks: Vec<Ask>,
    /// When the student learns what is wrong.
    pub feedback: Feedback,
    /// How much a finding gives away.
    pub telling: Telling,
    /// What may be heard before the work is done.
    pub hears: Hears,
    /// The teacher's own answer, if it is inside.
    pub model: Option<Model>,
}

impl Exercise {
    /// The rules that count and how strictly, whatever the answer's own say.
    pub fn rules(&self) -> RuleSwitches {
        self.sketch.frame.rules
    }

    /// The model answer, if it is inside and may be opened now.
    pub fn open_model(&self, progress: Progress) -> Option<&Sketch> {
        let model = self.model.as_ref()?;
        let open = match model.opens {
            Opens::Anytime => true,
            Opens::AfterTrying => progress >= Progress::Tried,
            Opens::AfterHandIn => progress >= Progress::HandedIn,
        };
        open.then_some(&model.sketch)
    }
}

/// How far a student is with an exercise; the page keeps it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub enum Progress {
    /// Nothing was checked yet.
    #[default]
    Started,
    /// It was checked at least once.
    Tried,
    /// It was handed in.
    HandedIn,
}

/// The teacher's own answer.
///
/// It is sealed from casual view and no more: the link carries it scrambled, so
/// that neither the address nor a text tool shows it, and the page keeps it shut
/// until it may be opened. Whoever takes the page apart can read it. It is not
/// encryption, since the page must be able to open it without asking anyone.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The answer.
    pub sketch: Sketch,
    /// When it may be opened.
    pub opens: Opens,
}

/// When a model answer may be opened.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Opens {
    /// At any time.
    Anytime,
    /// Once the student has had the work checked.
    AfterTrying,
    /// Once the student has handed the work in.
    #[default]
    AfterHandIn,
}

/// When the student learns what is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Feedback {
    /// After every change.
    Live,
    /// When the student asks.
    #[default]
    OnRequest,
    /// After handing in.
    AtEnd,
}

impl Feedback {
    /// Whether the findings are shown at this point; `asked` is whether the
    /// student has just asked for them.
    pub fn shows(self, progress: Progress, asked: Asked) -> bool {
        match self {
            Feedback::Live => true,
            Feedback::OnRequest => asked == Asked::Now || progress == Progress::HandedIn,
            Feedback::AtEnd => progress == Progress::HandedIn,
        }
    }
}

/// How much a finding gives away before the work is handed in; afterwards all is
/// told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Telling {
    /// All of it: what is wrong and what belongs there.
    #[default]
    AtOnce,
    /// Its place and kind; how to mend it and then what belongs there when the
    /// student asks, one step after the other.
    InSteps,
    /// Its place and kind, and no more.
    PlaceAlone,
}

/// How much of one finding has been told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub enum Told {
    /// Where it is and of what kind.
    #[default]
    Place,
    /// And what to look at to mend it.
    Advice,
    /// And what belongs there.
    All,
}

impl Telling {
    /// What is told of a finding of which the student has asked to know more `asked`
    /// times.
    pub fn tells(self, progress: Progress, asked: usize) -> Told {
        if progress == Progress::HandedIn {
            return Told::All;
        }
        match (self, asked) {
            (Telling::AtOnce, _) => Told::All,
            (Telling::PlaceAlone, _) | (Telling::InSteps, 0) => Told::Place,
            (Telling::InSteps, 1) => Told::Advice,
            (Telling::InSteps, _) => Told::All,
        }
    }
}

/// Whether the student has just asked for the findings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Asked {
    /// Just now.
    Now,
    /// Not since the last change.
    No,
}

/// What may be heard before the work is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Hears {
    /// Only the student's own notes.
    OwnWork,
    /// The bass alone as well.
    #[default]
    Bass,
    /// The model as well, unseen.
    Model,
}

/// A part of a reading, in the order in which it is built.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Part {
    /// The bass.
    Bass,
    /// The figures.
    Figures,
    /// The soprano.
    Soprano,
    /// The two handfuls.
    Handfuls,
    /// The roll.
    Roll,
}

impl Part {
    /// All parts, in order.
    pub const ALL: [Part; 5] =
        [Part::Bass, Part::Figures, Part::Soprano, Part::Handfuls, Part::Roll];
}

/// A choice of parts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Parts {
    bits: u8,
}

impl Default for Parts {
    /// The bass alone.
    fn default() -> Parts {
        Parts::NONE.with(Part::Bass)
    }
}

impl Parts {
    /// No part.
    pub const NONE: Parts = Parts { bits: 0 };
    /// Every part.
    pub const ALL: Parts = Parts { bits: 31 };

    /// These parts and one more.
    pub const fn with(self, part: Part) -> Parts {
        Parts { bits: self.bits | 1 << part as u8 }
    }

    /// These parts without one.
    pub const fn without(self, part: Part) -> Parts {
        Parts { bits: self.bits & !(1 << part as u8) }
    }

    /// Whether the part is among them.
    pub const fn has(self, part: Part) -> bool {
        self.bits >> part as u8 & 1 == 1
    }

    /// The parts as bits, the first part lowest, in the range [0, 31].
    pub const fn bits(self) -> u8 {
        self.bits
    }

    /// The parts of these bits; higher bits are ignored.
    pub const fn from_bits(bits: u8) -> Parts {
        Parts { bits: bits & Parts::ALL.bits }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_readers_own_choice_comes_before_the_teachers() {
        let speech = |tongue, notes| Speech { tongue, notes };
        let asked = speech(Some(Tongue::German), Some(NoteNames::Solfege));
        let nothing = Speech::default();
        let lang = |tongue, notes| Lang { tongue, notes };
        assert_eq!(nothing.to(nothing, Tongue::French), Lang::French);
        assert_eq!(asked.to(nothing, Tongue::French), lang(Tongue::German, NoteNames::Solfege));
        let chosen = speech(Some(Tongue::Spanish), None);
        assert_eq!(asked.to(chosen, Tongue::French), Lang::Spanish);
        let names = speech(None, Some(NoteNames::Letters));
        assert_eq!(asked.to(names, Tongue::French), lang(Tongue::German, NoteNames::Letters));
    }
}
