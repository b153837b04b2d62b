//! What a check finds.

use super::answer::Found;
use super::ask::Ask;
use super::exercise::Part;
use crate::figures::Stage;
use crate::frame::{Fault, Motion, Position, Severity};
use crate::hands::{Hand, HandRemark, HandTrouble};
use crate::harmony::{Cadence, HarmonyRemark};
use crate::pitch::{Pitch, PitchClass, Tonality};

/// Everything to be said of an answer; `words::lesson` says it in sentences.
#[derive(Clone, Debug, PartialEq)]
pub struct Report {
    /// One result for each ask, in order.
    pub results: Vec<AskResult>,
    /// What differs from the model, in order of place; empty without a model.
    pub differences: Vec<Difference>,
}

/// Whether one thing asked is done, and what is to be said of it.
#[derive(Clone, Debug, PartialEq)]
pub struct AskResult {
    /// What was asked.
    pub ask: Ask,
    /// Whether it is done.
    pub outcome: Outcome,
    /// What was found, in order of place.
    pub findings: Vec<Finding>,
}

/// Whether a thing asked is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Outcome {
    /// Not begun: the answer is what was given.
    Blank,
    /// Begun, with faults or parts missing.
    NotYet,
    /// Done; cautions may remain.
    Done,
}

/// Something found in an answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// The chords concerned, as indices into the reading of the answer's sketch
    /// (of the given one where faults are to be found), first and last; `None`
    /// for the answer as a whole.
    pub chords: Option<(usize, usize)>,
    /// How serious.
    pub severity: Severity,
    /// What.
    pub kind: FindingKind,
}

/// What was found.
#[derive(Clone, Debug, PartialEq)]
pub enum FindingKind {
    /// A rule of the outer voices is broken.
    Outer(Fault),
    /// A handful does not do.
    Hand(HandRemark),
    /// The figures are odd.
    Figures(HarmonyRemark),
    /// A part that was given was changed or left out.
    GivenChanged {
        /// The part.
        part: Part,
        /// The note of the sketch.
        note: usize,
    },
    /// A note that must carry a chord has no figures.
    NoFigures {
        /// The note of the sketch.
        note: usize,
    },
    /// A chord that does not belong over this bass.
    WrongChord {
        /// The note of the sketch.
        note: usize,
        /// Which stage over it, from 0.
        stage: usize,
        /// Its figures.
        has: Stage,
        /// The figures of the chord expected there.
        wanted: Stage,
    },
    /// A note with more or fewer stages than expected.
    WrongStages {
        /// The note of the sketch.
        note: usize,
        /// How many it has.
        has: usize,
        /// How many were expected.
        wanted: usize,
    },
    /// A chord without a soprano note of the student's.
    NoSoprano,
    /// The soprano starts in another position.
    WrongPosition {
        /// The position asked for.
        wanted: Position,
    },
    /// A motion that was not allowed.
    Motion(Motion),
    /// A chord without a handful of the student's.
    NoHandful,
    /// A hand with too few notes.
    ThinHand {
        /// The hand.
        hand: Hand,
        /// How many notes it has.
        has: usize,
        /// How many were asked for.
        wanted: usize,
    },
    /// Too few acciaccaturas.
    FewAcciaccaturas {
        /// How many there are.
        has: usize,
        /// How many were asked for.
        wanted: usize,
    },
    /// A key in which nothing was played.
    KeyMissing(Tonality),
    /// A wrong bass note in one of the keys.
    KeyBass {
        /// The key.
        tonality: Tonality,
        /// The note of the sketch.
        note: usize,
        /// What was played; `None` for nothing.
        has: Option<PitchClass>,
        /// What was expected; `None` for nothing more.
        wanted: Option<PitchClass>,
    },
    /// A chord that was not played in one of the keys.
    KeyUnplayed {
        /// The key.
        tonality: Tonality,
        /// Index of the chord in that key's reading.
        chord: usize,
    },
    /// A wrong chord in one of the keys.
    KeyChord {
        /// The key.
        tonality: Tonality,
        /// Index of the chord in that key's reading.
        chord: usize,
        /// What is wrong with the notes played.
        trouble: HandTrouble,
    },
    /// A rule of the outer voices is broken in one of the keys.
    KeyOuter {
        /// The key.
        tonality: Tonality,
        /// The fault.
        fault: Fault,
    },
    /// The phrase does not end with the cadence asked for.
    NoCadence {
        /// The cadence asked for.
        wanted: Cadence,
        /// The one it ends with, if any.
        has: Option<Cadence>,
    },
    /// A planted fault that was not found.
    Missed(Fault),
    /// A planted fault found at its place under another name.
    Misnamed {
        /// What the student said.
        found: Found,
        /// What it is.
        fault: Fault,
    },
    /// A place pointed at where there is no fault.
    NoFaultThere(Found),
}

impl FindingKind {
    /// Whether nothing is wrong but that something is still to be made.
    pub fn is_to_do(&self) -> bool {
        match self {
            FindingKind::NoFigures { .. }
            | FindingKind::NoSoprano
            | FindingKind::NoHandful
            | FindingKind::KeyMissing(_)
            | FindingKind::KeyUnplayed { .. } => true,
            FindingKind::Outer(_)
            | FindingKind::Hand(_)
            | FindingKind::Figures(_)
            | FindingKind::GivenChanged { .. }
            | FindingKind::WrongChord { .. }
            | FindingKind::WrongStages { .. }
            | FindingKind::WrongPosition { .. }
            | FindingKind::Motion(_)
            | FindingKind::ThinHand { .. }
            | FindingKind::FewAcciaccaturas { .. }
            | FindingKind::KeyBass { .. }
            | FindingKind::KeyChord { .. }
            | FindingKind::KeyOuter { .. }
            | FindingKind::NoCadence { .. }
            | FindingKind::Missed(_)
            | FindingKind::Misnamed { .. }
            | FindingKind::NoFaultThere(_) => false,
        }
    }
}

/// A chord that differs from the model's.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Difference {
    /// Index of the chord in the reading of the answer.
    pub chord: usize,
    /// The bass: the answer's and the model's.
    pub bass: Option<(Pitch, Pitch)>,
    /// The figures, where the chords differ in their notes.
    pub figures: Option<(Stage, Stage)>,
    /// The soprano.
    pub soprano: Option<(Pitch, Pitch)>,
}

impl Report {
    /// Whether everything asked is done.
    pub fn is_done(&self) -> bool {
        self.results.iter().all(|result| result.outcome == Outcome::Done)
    }

    /// How many of the things asked are done.
    pub fn done(&self) -> usize {
        self.results.iter().filter(|result| result.outcome == Outcome::Done).count()
    }

    /// All findings, in the order of the asks and then of place.
    pub fn findings(&self) -> impl Iterator<Item = &Finding> {
        self.results.iter().flat_map(|result| &result.findings)
    }

    /// How many findings are faults in what was made; what is still to be made is
    /// counted by [`Report::to_do`].
    pub fn faults(&self) -> usize {
        let faults = self.findings().filter(|finding| finding.severity == Severity::Fault);
        faults.filter(|finding| !finding.kind.is_to_do()).count()
    }

    /// How many findings say that something is still to be made.
    pub fn to_do(&self) -> usize {
        self.findings().filter(|finding| finding.kind.is_to_do()).count()
    }

    /// How many findings are cautions.
    pub fn cautions(&self) -> usize {
        self.findings().filter(|finding| finding.severity == Severity::Caution).count()
    }
}
