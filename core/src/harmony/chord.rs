//! A chord over a bass note: its tones, what they owe, its figures and reason.

use super::lexicon::Kind;
use super::octave_rule::{Direction, Version};
use crate::bass::BassMotion;
use crate::figures::{FigureRemark, Stage};
use crate::pitch::{Degree, Pitch, PitchClass, Tonality};

/// How bare notes are to be harmonised.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct HarmonyWishes {
    /// Which published version of the octave rule is followed.
    pub version: Version,
    /// From plain to daring, in the range [0, 4]; more is read as 4. 0 is the
    /// octave rule's own world, 1 adds suspensions and sevenths, 2 secondary
    /// dominants and augmented sixths, 3 borrowed chords, the Neapolitan sixth and
    /// diminished sevenths, 4 all there is.
    pub daring: u8,
}

/// What a chord tone must do next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Duty {
    /// Nothing in particular; may be doubled freely.
    Free,
    /// Rises by step: leading notes, augmented fourths and sixths. Better not doubled.
    Rises,
    /// Falls by step: sevenths, diminished fifths. Better not doubled.
    Falls,
    /// A prepared dissonance that falls by step (4, 9, 7 of a 7-6). Not doubled;
    /// also wants to have been in the same voice in the chord before.
    Suspended,
}

/// One tone of a sonority.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tone {
    /// Its spelled class.
    pub class: PitchClass,
    /// Its figure above the bass, in the range [1, 9]: 1 is the bass's own class,
    /// 9 a suspended ninth, otherwise reduced to [1, 7].
    pub number: u8,
    /// What it owes.
    pub duty: Duty,
    /// Whether the sonority is still complete without it.
    pub omittable: bool,
}

/// A sonority over a bass note.
#[derive(Clone, Debug, PartialEq)]
pub struct Chord {
    /// Which note of the sketch it stands on.
    pub note: usize,
    /// Which stage over that note, from 0.
    pub stage: usize,
    /// The bass pitch.
    pub bass: Pitch,
    /// The tones, the bass's own class (number 1) first. *Tasto solo* has only that.
    pub tones: Vec<Tone>,
    /// The tonality of the moment.
    pub tonality: Tonality,
    /// The degree of the bass in it.
    pub degree: Degree,
    /// The figures to print, under the signature of the home tonality.
    pub figures: Stage,
    /// Why it is here.
    pub reason: Reason,
}

/// The chords over a bass, in playing order.
#[derive(Clone, Debug, PartialEq)]
pub struct Harmony {
    /// The tonality the piece opens in: the person's, or the one found.
    pub home: Tonality,
    /// One chord for each stage of each note that carries one.
    pub chords: Vec<Chord>,
    /// What is to be said of given figures and marks, in order of place.
    pub remarks: Vec<HarmonyRemark>,
}

/// Why a chord stands where it does; [`crate::words::reason`] says it in a sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reason {
    /// The person figured it.
    Given,
    /// The bass strikes a figured note again, without figures of its own.
    Stays,
    /// The piece opens on its tonic.
    Opening,
    /// The piece closes on its tonic.
    Closing,
    /// The bass leaves by step: the octave rule.
    Octave {
        /// The version followed.
        version: Version,
        /// Where the bass goes next.
        leaves: Direction,
    },
    /// The bass leaves by leap: the plain chord of the degree.
    Leap {
        /// Where it goes.
        to: PitchClass,
    },
    /// The bass stops here.
    Stop,
    /// The 5th of a cadence into the tonic, or one of its stages.
    Cadence {
        /// Which cadence.
        kind: Cadence,
        /// Which of its stages on the 5th, from 0.
        stage: usize,
    },
    /// The bass moves on by a semitone within one letter.
    Semitone {
        /// Where it goes.
        to: PitchClass,
    },
    /// A raised note led here by a semitone: a plain chord to rest on.
    Led {
        /// The raised note before.
        from: PitchClass,
    },
    /// One note of a sequence.
    Motion {
        /// Which bass motion repeats.
        motion: BassMotion,
        /// Which note of the stretch, from 0.
        place: usize,
    },
    /// The bass stays on the tonic while the chords move over it.
    Pedal {
        /// Which of the repeated notes, from 0.
        place: usize,
    },
    /// A chord of the stock that joins its neighbours better than the plain one.
    Stock {
        /// What kind of chord it is.
        kind: Kind,
        /// Tones it keeps from the chord before.
        kept: Vec<PitchClass>,
    },
    /// After a dominant, in place of the tonic that the ear awaits.
    Deceptive {
        /// The root it stands on instead.
        to: PitchClass,
    },
    /// So the counted usage has it.
    Usage {
        /// The habit that is followed.
        version: Version,
        /// In how many of a hundred like places this chord stands.
        percent: u8,
        /// Where the bass goes next.
        to: Option<PitchClass>,
    },
    /// The tonality turns on this chord, which belongs to both.
    Hinge {
        /// The tonality it is reached in.
        from: Tonality,
        /// The degree of the bass there.
        was: Degree,
        /// Why the chord stands here in the new tonality.
        why: Box<Reason>,
    },
    /// The tonality turns on the keys of a diminished seventh, spelled anew.
    Respelled {
        /// The tonality it is reached in.
        from: Tonality,
        /// Why the chord stands here in the new tonality.
        why: Box<Reason>,
    },
    /// A diminished seventh that, by another spelling of its keys, could turn the
    /// music elsewhere.
    Enharmonic {
        /// Where it leads.
        to: Tonality,
    },
    /// The tonality changes at this chord without one in common.
    Turn {
        /// The tonality before.
        from: Tonality,
        /// Why the chord stands here in the new tonality.
        why: Box<Reason>,
    },
    /// A raised bass note leads up a semitone as a 7th degree.
    LeadingBass {
        /// Where it leads.
        to: PitchClass,
    },
    /// A lowered bass note is the seventh of a dominant and falls.
    SeventhBass {
        /// Where it falls.
        to: PitchClass,
    },
    /// The bass has borrowed a note of the minor on the same tonic.
    Borrowed,
    /// The bass note belongs to no scale near by.
    Foreign,
}

impl Reason {
    /// Whether it speaks of the place in the piece and not of a version of the rule.
    pub(super) fn is_of_place(&self) -> bool {
        matches!(
            self,
            Reason::Opening | Reason::Closing | Reason::Cadence { .. } | Reason::Motion { .. }
        )
    }
}

/// A cadence; the first three are named as the Neapolitans did.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Cadence {
    /// *Semplice*: one chord on the 5th.
    Simple,
    /// *Composta*: 4-3 (or 6/4-5/3) on the 5th.
    Compound,
    /// *Doppia*: four stages on the 5th.
    Double,
    /// The bass stops on the 5th.
    Half,
    /// In minor, the lowered 6th falls to the 5th and stops there.
    Phrygian,
    /// The 5th rises to the 6th instead of falling home.
    Deceptive,
    /// The 5th slips down by way of the 4th to the 3rd.
    Evaded,
}

impl Cadence {
    /// All, in the order in which they are taught.
    pub const ALL: [Cadence; 7] = [
        Cadence::Simple,
        Cadence::Compound,
        Cadence::Double,
        Cadence::Half,
        Cadence::Phrygian,
        Cadence::Deceptive,
        Cadence::Evaded,
    ];
}

/// Something to be said of the harmony of a note.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HarmonyRemark {
    /// The note of the sketch.
    pub note: usize,
    /// What.
    pub kind: HarmonyTrouble,
}

/// What is to be said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum HarmonyTrouble {
    /// Its given figures are odd.
    Figures {
        /// The stage, from 0.
        stage: usize,
        /// How.
        remark: FigureRemark,
    },
    /// It was marked as passing, but nothing sounds before it.
    NothingToPassFrom,
    /// It was marked as passing and figured at once: its figures are not played.
    FiguredInPassing,
}
