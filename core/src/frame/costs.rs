//! What the solver pays. Used by `trellis`, `choices` and `conflicts` alone.
//!
//! A fault costs more than every caution and taste of the longest piece
//! together, so costs compare first by faults and then by the rest. The smaller
//! numbers are our choice; their unit is a hair of taste.

use super::motion::Motion;
use super::rules::Rule;
use super::wishes::{Preference, Smoothness};
use crate::pitch::Interval;

/// A price: faults above, cautions and tastes below.
pub(super) use super::ways::Cost;

/// One fault. Below it there is room for 2⁴⁰ hairs of taste.
pub(super) const FAULT: Cost = 1 << 40;
/// A candidate that must not be taken: above thousands of faults.
pub(super) const FORBIDDEN: Cost = 1 << 54;
/// Giving up a pin: below a fault, above all taste.
pub(super) const RELEASE: Cost = 1 << 27;
/// Giving up a note that merely rests where it stood.
pub(super) const RELEASE_RESTING: Cost = 1 << 25;
/// One caution, unless [`caution`] says otherwise.
const CAUTION: Cost = 60;

/// What a caution under this rule costs; a fault costs it besides [`FAULT`].
pub(super) const fn caution(rule: Rule) -> Cost {
    match rule {
        Rule::ConsecutiveOctaves | Rule::ConsecutiveFifths => 400,
        Rule::ContraryOctaves | Rule::ContraryFifths | Rule::MaskedConsecutives => 150,
        Rule::UnrisenLeadingNote | Rule::UnfallenSeventh => 200,
        Rule::UnpreparedSuspension | Rule::UnresolvedSuspension => 200,
        Rule::VoiceCrossing => 500,
        Rule::DoubledDuty => 90,
        Rule::OutsideCompass => 120,
        // A stretch is paid for at every place in it.
        Rule::SameNote => 9,
        Rule::Circling => 8,
        Rule::HiddenOctaves
        | Rule::HiddenFifths
        | Rule::DiminishedToPerfect
        | Rule::BassDuty
        | Rule::AugmentedStep
        | Rule::TritoneLeap
        | Rule::DiminishedLeap
        | Rule::SeventhLeap
        | Rule::WideLeap
        | Rule::LeapsTogether
        | Rule::VoiceOverlap
        | Rule::CrossRelation
        | Rule::ForeignNote => CAUTION,
    }
}

/// Moving off a held chord (a dash) whose upper notes should stay.
pub(super) const LEAVES_HELD_CHORD: Cost = 100;
/// A soprano that leaps while the bass stays.
pub(super) const LEAPS_OVER_HELD_BASS: Cost = 8;
/// A closing tonic chord with its third on top.
pub(super) const ENDS_ON_THIRD: Cost = 30;
/// A closing tonic chord with anything else but the tonic on top.
pub(super) const ENDS_ELSEWHERE: Cost = 45;
/// Each semitone away from a wished contour.
pub(super) const OFF_CONTOUR: Cost = 6;
/// Each semitone further from the middle of the compass than [`EASY_REACH`].
pub(super) const OFF_CENTRE: Cost = 1;
/// Each semitone that the outer voices are nearer than [`ROOMY`].
pub(super) const CRAMPED: Cost = 2;
/// Semitones from bass to soprano that leave room for the hands between.
pub(super) const ROOMY: i32 = 21;
/// A tone of the chord that cannot sound between the outer voices.
pub(super) const SHUTS_OUT: Cost = 120;
/// Each semitone that the outer voices are further apart than [`FAR`].
pub(super) const STRAYS: Cost = 1;
/// Semitones from bass to soprano beyond which the middle is empty.
pub(super) const FAR: i32 = 36;
/// Semitones around the middle of the compass that cost nothing.
pub(super) const EASY_REACH: Cost = 5;
/// A leap followed by another leap the same way.
pub(super) const LEAPS_ON: Cost = 14;
/// A leap followed by a step the same way.
pub(super) const DOES_NOT_TURN_BACK: Cost = 4;
/// Singing what an earlier choice sings over the same chord.
pub(super) const AGREES: Cost = 12;

/// What a motion costs where the bass moves; `interval` is the outer one it comes
/// to, `steps` what the soprano crosses.
pub(super) fn motion(
    motion: Motion,
    interval: Interval,
    steps: i32,
    preference: Preference,
) -> Cost {
    let (contrary, tenths) = match preference {
        Preference::Contrary => (0, 4),
        Preference::Tenths => (8, 0),
    };
    match motion {
        Motion::Contrary => contrary,
        Motion::Parallel if interval.simple_number() == 3 => tenths,
        Motion::Parallel if interval.simple_number() == 6 => 9,
        Motion::Parallel => 18,
        Motion::Oblique => 9,
        // By step it is how the old falling basses are sung.
        Motion::Similar if steps.abs() == 1 => 10,
        Motion::Similar => 18,
        Motion::Still => 0,
    }
}

/// What a soprano interval costs by letters crossed.
pub(super) fn step(steps: i32, smoothness: Smoothness) -> Cost {
    let usual = match steps.abs() {
        0 => 2,
        1 => 0,
        2 => 6,
        3 => 14,
        4 => 21,
        5 => 30,
        6 | 7 => 36,
        _ => 90,
    };
    match smoothness {
        Smoothness::Flowing => usual * 3,
        Smoothness::Usual => usual,
        Smoothness::Bold => usual / 3,
    }
}

/// What an interval of the outer voices costs in the middle of a piece: thirds
/// and sixths are full, fifths and octaves hollow.
pub(super) fn sonority(interval: Interval) -> Cost {
    match interval.simple_number() {
        3 | 6 => 0,
        5 => 4,
        1 => 6,
        _ => 3,
    }
}
