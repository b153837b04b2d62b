//! What a chord costs after another, and what a change of tonality costs.
//!
//! The duties are those of the treatises (sevenths and diminished fifths fall,
//! leading notes rise, suspensions are prepared: C.P.E. Bach, *Versuch* II, 1762;
//! Fenaroli 1775). The weights are our choice, on the scale of the stock, where
//! 10 is one clear step away from the plain chord.

use super::lexicon::Sets;
use crate::pitch::Tonality;

/// A seventh or diminished fifth that finds no note to fall to.
const UNRESOLVED: i32 = 14;
/// A seventh in the bass that does not fall.
const UNRESOLVED_BASS: i32 = 26;
/// A leading note that finds no tonic.
const UNLED: i32 = 9;
/// A suspension that did not sound before.
const UNPREPARED: i32 = 34;
/// A six-four that does not resolve over its bass.
const LOOSE_SIX_FOUR: i32 = 18;
/// A fourth or six-four that does.
const RESOLVED: i32 = -4;
/// The least that a step can cost.
pub(super) const LEAST_STEP: i32 = RESOLVED;
/// A chord of a held bass without the held bass.
const NO_PEDAL: i32 = 30;
/// Another chord over the same bass.
const NEW_OVER_SAME: i32 = 5;
/// Beginning on a dissonance.
const OPEN_START: i32 = 12;
/// Ending on a dissonance.
const OPEN_END: i32 = 30;

/// One daring chord after another, so that spice stays spice.
const SPICE_ON_SPICE: i32 = 15;

/// Leaving one tonality for another.
const CHANGE: i32 = 30;
/// Each sharp or flat between their signatures.
const DISTANCE: i32 = 4;
/// Doing so without a chord in common.
pub(super) const NO_HINGE: i32 = 18;
/// A hinge with a note outside one of the two scales.
pub(super) const FOREIGN_HINGE: i32 = 8;
/// A note under a rule, away from the tonality that the counted usage reads it in.
pub(super) const ASTRAY: i32 = 12;
/// Spelling the keys of a diminished seventh anew.
pub(super) const RESPELLED: i32 = 6;
/// Given figures that no chord of the tonality's stock has.
pub(super) const UNUSUAL: i32 = 20;
/// Beginning away from home.
pub(super) const FOREIGN_START: i32 = 70;
/// Ending away from home.
pub(super) const FOREIGN_END: i32 = 34;

/// What it costs to go from one sonority to the next.
pub(super) fn step(from: &Sets, to: &Sets) -> i32 {
    let mut cost = 0;
    let same_bass = from.bass == to.bass;
    let mut owed = from.falls;
    while owed != 0 {
        let tone = owed & owed.wrapping_neg();
        owed &= owed - 1;
        // A semitone down is five fifths up, a tone down two fifths down.
        let below = (tone << 5) | (tone >> 2);
        if tone == from.bass {
            if !same_bass && to.bass & below == 0 {
                cost += UNRESOLVED_BASS;
            }
        } else if to.sounding & below == 0 {
            cost += if to.sounding & tone == 0 { UNRESOLVED } else { 2 };
        }
    }
    let mut owed = from.rises;
    while owed != 0 {
        let tone = owed & owed.wrapping_neg();
        owed &= owed - 1;
        if to.sounding & ((tone >> 5) | tone) == 0 {
            // A leading note may also fall by a semitone into the next dominant.
            cost += if to.sounding & (tone >> 7) == 0 { UNLED } else { 3 };
        }
    }
    if to.prepared & !from.sounding != 0 {
        cost += UNPREPARED;
    }
    if to.over_held && !same_bass {
        cost += NO_PEDAL;
    }
    if from.spiced && to.spiced {
        cost += SPICE_ON_SPICE;
    }
    let resolves = to.is(&[3, 5]) || to.is(&[3, 5, 7]) || to.is(&[4, 5]);
    if from.is(&[4, 6]) {
        cost += match () {
            () if same_bass && resolves => RESOLVED,
            () if same_bass && to.over_held => 0,
            () => LOOSE_SIX_FOUR,
        };
    } else if from.over_held && !same_bass {
        cost += NO_PEDAL;
    } else if same_bass && from.sounding != to.sounding {
        cost += match () {
            () if from.is(&[4, 5]) && resolves => RESOLVED,
            () if from.is(&[3, 5]) && to.is(&[3, 5, 7]) => 0,
            () => NEW_OVER_SAME,
        };
    }
    cost
}

/// What a wish for daring, in the range [0, 4], takes off a chord of this daring.
pub(super) fn wanted(wish: i32, daring: i32) -> i32 {
    if wish == 0 || daring == 0 { 0 } else { 12 + 5 * wish + 4 * daring }
}

/// What is left of a rule's strength under a wish for daring.
pub(super) fn ruled(strength: i32, daring: i32) -> i32 {
    strength - strength * daring / 6
}

/// What it costs to begin with a sonority.
pub(super) fn begin(first: &Sets) -> i32 {
    let open = if first.falls != 0 { OPEN_START } else { 0 };
    if first.prepared != 0 || first.over_held { UNPREPARED } else { open }
}

/// What it costs to end with a sonority.
pub(super) fn end(last: &Sets) -> i32 {
    if last.falls | last.rises != 0 && !last.is(&[3, 5]) { OPEN_END } else { 0 }
}

/// What a change of tonality over a common chord costs.
pub(super) fn change(from: Tonality, to: Tonality) -> i32 {
    let apart = (from.signature() - to.signature()).abs();
    let parallel = from.tonic == to.tonic && from.mode != to.mode;
    CHANGE + if parallel { DISTANCE * 2 } else { DISTANCE * apart }
}

/// What given figures cost in a tonality: how many tones lie outside its scale.
pub(super) fn given(sets: &Sets, scale: u64) -> i32 {
    6 * (sets.sounding & !scale).count_ones() as i32
}
