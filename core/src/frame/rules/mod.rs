//! The rulebook of the outer voices, stated once: the checker reports what a
//! law finds and the solver pays for it.
//!
//! **What a move is.** Every chord makes a move from the chord before it, since
//! every chord is an onset of at least one outer voice. A pair repeated is no
//! fault: in consecutives both voices change their key. Intervals are judged as
//! spelled and at any distance, so that a twelfth is a fifth; only perfect
//! fifths and octaves count, a diminished fifth is not perfect. *Tasto solo* is
//! a rest of the soprano: no rule looks across it.
//!
//! To add a rule, add a variant at the end of [`Rule`] (its number is its place
//! in links), and follow the compiler: its severity and law here, its cost in
//! `costs`, its words in `words`.

mod consecutives;
mod duties;
mod melody;
mod moment;
mod voices;

pub(super) use moment::Moment;
pub(crate) use moment::rests;

use super::OuterPair;
use super::wishes::SopranoCompass;

/// A rule of the outer voices. Its name, explanation and source are in `words`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Rule {
    /// Consecutive octaves or unisons in similar motion.
    ConsecutiveOctaves,
    /// Consecutive perfect fifths in similar motion.
    ConsecutiveFifths,
    /// Octaves, unisons or fifteenths in succession by contrary motion.
    ContraryOctaves,
    /// Fifths and twelfths in succession by contrary motion.
    ContraryFifths,
    /// A diminished fifth going to a perfect one in similar motion.
    DiminishedToPerfect,
    /// Similar motion into an octave or unison with a leaping soprano.
    HiddenOctaves,
    /// Similar motion into a fifth with a leaping soprano.
    HiddenFifths,
    /// Consecutives with only a change over a held bass note between.
    MaskedConsecutives,
    /// A leading note, augmented fourth or sixth in the soprano that does not rise.
    UnrisenLeadingNote,
    /// A seventh or diminished fifth in the soprano that does not fall.
    UnfallenSeventh,
    /// A suspension in the soprano that was not there before.
    UnpreparedSuspension,
    /// A suspension in the soprano that does not fall by step.
    UnresolvedSuspension,
    /// A leading note or dissonance in the bass that goes elsewhere.
    BassDuty,
    /// Bass and soprano both on a leading note or dissonance.
    DoubledDuty,
    /// An augmented second or other augmented step, the fourth excepted.
    AugmentedStep,
    /// A leap of an augmented fourth.
    TritoneLeap,
    /// A diminished leap that does not turn back by step.
    DiminishedLeap,
    /// A leap of a seventh.
    SeventhLeap,
    /// A leap of more than an octave.
    WideLeap,
    /// Both voices leap a fifth or more the same way.
    LeapsTogether,
    /// The soprano below the bass.
    VoiceCrossing,
    /// A voice goes beyond where the other has just been.
    VoiceOverlap,
    /// A note and its chromatic neighbour in different voices in succession.
    CrossRelation,
    /// The soprano outside its compass.
    OutsideCompass,
    /// A fixed soprano note that is no tone of its chord.
    ForeignNote,
    /// The same soprano note over five or more moving bass notes.
    SameNote,
    /// The soprano going to and fro between two notes, five notes or more.
    Circling,
}

/// How serious a remark is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Severity {
    /// Worth a second look.
    Caution,
    /// A broken rule.
    Fault,
}

/// A broken rule and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The rule.
    pub rule: Rule,
    /// How serious, under the rules in force.
    pub severity: Severity,
    /// Index of the first chord concerned.
    pub from: usize,
    /// Index of the last chord concerned; equal to `from` for a single chord.
    pub to: usize,
    /// The outer pair at `from`.
    pub first: OuterPair,
    /// The outer pair at `to`.
    pub last: OuterPair,
}

/// A law about one chord.
pub(super) type ChordLaw = fn(&Moment, SopranoCompass) -> bool;
/// A law about a move from one chord to the next.
pub(super) type MoveLaw = fn(&Moment, &Moment) -> bool;
/// A law about three chords in succession.
pub(super) type LineLaw = fn(&Moment, &Moment, &Moment) -> bool;

/// What a rule looks at, and the law that finds it broken.
#[derive(Clone, Copy)]
pub(super) enum Law {
    /// One chord.
    Chord(ChordLaw),
    /// A move from one chord to the next.
    Move(MoveLaw),
    /// Three chords in succession.
    Line(LineLaw),
    /// Three chords in succession, broken only when it holds at this many
    /// places running; the solver pays for each place.
    Stretch(LineLaw, usize),
}

impl Rule {
    /// Every rule, in the order of the rulebook.
    pub const ALL: [Rule; 27] = [
        Rule::ConsecutiveOctaves,
        Rule::ConsecutiveFifths,
        Rule::ContraryOctaves,
        Rule::ContraryFifths,
        Rule::DiminishedToPerfect,
        Rule::HiddenOctaves,
        Rule::HiddenFifths,
        Rule::MaskedConsecutives,
        Rule::UnrisenLeadingNote,
        Rule::UnfallenSeventh,
        Rule::UnpreparedSuspension,
        Rule::UnresolvedSuspension,
        Rule::BassDuty,
        Rule::DoubledDuty,
        Rule::AugmentedStep,
        Rule::TritoneLeap,
        Rule::DiminishedLeap,
        Rule::SeventhLeap,
        Rule::WideLeap,
        Rule::LeapsTogether,
        Rule::VoiceCrossing,
        Rule::VoiceOverlap,
        Rule::CrossRelation,
        Rule::OutsideCompass,
        Rule::ForeignNote,
        Rule::SameNote,
        Rule::Circling,
    ];

    /// How serious the rule usually is; `None` would mean off.
    pub const fn usual(self) -> Option<Severity> {
        Some(match self {
            Rule::ConsecutiveOctaves
            | Rule::ConsecutiveFifths
            | Rule::UnrisenLeadingNote
            | Rule::UnfallenSeventh
            | Rule::UnpreparedSuspension
            | Rule::UnresolvedSuspension
            | Rule::AugmentedStep
            | Rule::VoiceCrossing => Severity::Fault,
            Rule::ContraryOctaves
            | Rule::ContraryFifths
            | Rule::DiminishedToPerfect
            | Rule::HiddenOctaves
            | Rule::HiddenFifths
            | Rule::MaskedConsecutives
            | Rule::BassDuty
            | Rule::DoubledDuty
            | Rule::TritoneLeap
            | Rule::DiminishedLeap
            | Rule::SeventhLeap
            | Rule::WideLeap
            | Rule::LeapsTogether
            | Rule::VoiceOverlap
            | Rule::CrossRelation
            | Rule::OutsideCompass
            | Rule::ForeignNote
            | Rule::SameNote
            | Rule::Circling => Severity::Caution,
        })
    }

    /// Whether the rule is about a whole stretch of the line; such a rule is
    /// never more than a caution.
    pub const fn is_about_stretches(self) -> bool {
        matches!(self.law(), Law::Stretch(..))
    }

    pub(super) const fn law(self) -> Law {
        match self {
            Rule::ConsecutiveOctaves => Law::Move(consecutives::octaves),
            Rule::ConsecutiveFifths => Law::Move(consecutives::fifths),
            Rule::ContraryOctaves => Law::Move(consecutives::contrary_octaves),
            Rule::ContraryFifths => Law::Move(consecutives::contrary_fifths),
            Rule::DiminishedToPerfect => Law::Move(consecutives::diminished_to_perfect),
            Rule::HiddenOctaves => Law::Move(consecutives::hidden_octaves),
            Rule::HiddenFifths => Law::Move(consecutives::hidden_fifths),
            Rule::MaskedConsecutives => Law::Line(consecutives::masked),
            Rule::UnrisenLeadingNote => Law::Move(duties::unrisen),
            Rule::UnfallenSeventh => Law::Move(duties::unfallen),
            Rule::UnpreparedSuspension => Law::Move(duties::unprepared),
            Rule::UnresolvedSuspension => Law::Move(duties::unresolved),
            Rule::BassDuty => Law::Move(duties::bass),
            Rule::DoubledDuty => Law::Chord(duties::doubled),
            Rule::AugmentedStep => Law::Move(melody::augmented_step),
            Rule::TritoneLeap => Law::Move(melody::tritone_leap),
            Rule::DiminishedLeap => Law::Line(melody::diminished_leap),
            Rule::SeventhLeap => Law::Move(melody::seventh_leap),
            Rule::WideLeap => Law::Move(melody::wide_leap),
            Rule::LeapsTogether => Law::Move(melody::leaps_together),
            Rule::VoiceCrossing => Law::Chord(voices::crossing),
            Rule::VoiceOverlap => Law::Move(voices::overlap),
            Rule::CrossRelation => Law::Move(voices::cross_relation),
            Rule::OutsideCompass => Law::Chord(voices::outside_compass),
            Rule::ForeignNote => Law::Chord(voices::foreign),
            Rule::SameNote => Law::Stretch(melody::third_same, 3),
            Rule::Circling => Law::Stretch(melody::returning, 3),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_rule_stands_once_at_its_number() {
        for (number, rule) in Rule::ALL.into_iter().enumerate() {
            assert_eq!(rule as usize, number);
        }
        // Two bits a rule must fit the switches.
        assert!(Rule::ALL.len() <= 32);
    }
}
