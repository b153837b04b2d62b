//! What is slipped between a chord's notes while it is rolled: acciaccaturas,
//! semitones below, passing and neighbour notes.
//!
//! Gasparini 1708, ch. 9, and Heinichen 1728, I ch. 6 (both from memory): the note
//! between two chord notes, or the semitone below one, struck with the chord and
//! left at once while the chord stays; best in minor chords and dominants.
//! Geminiani 1749 (from memory): touched and left "with a spring". On the rising
//! pass only (C.P.E. Bach, from memory), at most one to a hand, never outside the
//! outer voices; 40 to 80 ms is our choice.

use super::line::{Fingered, Scene, Strike};
use super::performance::Why;
use super::scale::{self, Going};
use crate::chance::Chance;
use crate::hands::Hand;
use crate::harmony::{Chord, Duty};
use crate::order;
use crate::pitch::{Interval, Pitch};

/// Shortest and longest time an acciaccatura is held, in microseconds.
const SHORTEST: u64 = 40_000;
const LONGEST: u64 = 80_000;
/// Shortest and longest time from an acciaccatura to the chord note after it, in
/// microseconds.
const CRUSHED: (u64, u64) = (19_000, 30_000);
/// At most this many notes pass or turn in one chord.
const MOST: usize = 3;

/// Adds what the spice asks for between the strikes of a chord.
pub(super) fn season(scene: &Scene<'_>, strikes: &mut Vec<Strike>, chance: &mut Chance) {
    if scene.spice == 0 || scene.notes.len() < 3 {
        return;
    }
    for hand in [Hand::Left, Hand::Right] {
        crush(scene, hand, strikes, chance);
    }
    pass(scene, strikes, chance);
    turn(scene, strikes, chance);
}

/// Percent of liking for acciaccaturas; 0 where the style has none.
fn taste(chord: &Chord) -> u64 {
    let mut numbers: Vec<u8> =
        chord.tones.iter().map(|tone| tone.number).filter(|&number| number != 1).collect();
    order::sort(&mut numbers);
    let plain: [&[u8]; 6] = [&[3, 5], &[3, 6], &[3, 5, 6], &[3, 5, 7], &[3, 7], &[2, 4, 6]];
    if !plain.contains(&numbers.as_slice())
        || chord.tones.iter().any(|tone| tone.duty == Duty::Suspended)
    {
        return 0;
    }
    let leading = chord.tonality.leading();
    let dominant =
        chord.degree.number() == 5 && chord.tones.iter().any(|tone| tone.class == leading);
    let third = chord.tones.iter().find(|tone| tone.number == 3);
    let minor = third.is_some_and(|tone| {
        (tone.class.chroma() - chord.bass.class().chroma()).rem_euclid(12) == 3
    });
    if dominant {
        100
    } else if minor {
        90
    } else {
        50
    }
}

/// Slips an acciaccatura, or a semitone below, under one note of a hand.
fn crush(scene: &Scene<'_>, hand: Hand, strikes: &mut Vec<Strike>, chance: &mut Chance) {
    if !scene.likes(taste(scene.chord), chance) {
        return;
    }
    let own: Vec<Fingered> = scene.notes.iter().copied().filter(|note| note.hand == hand).collect();
    let mut candidates: Vec<(Fingered, Fingered, Why)> = Vec::new();
    for two in own.windows(2) {
        let (low, high) = (two[0], two[1]);
        let gap = high.pitch - low.pitch;
        let between = match gap.steps {
            2 => Some(scale::next(scene.chord, low.pitch, Going::Up)),
            3 => Some(scale::next(scene.chord, high.pitch, Going::Down)),
            _ => None,
        };
        let below = high.pitch + Interval::new(-1, -1);
        let fits = |pitch: Pitch| {
            let note = Fingered::on(pitch, hand, scene.hands)?;
            let inside = low.key < note.key && note.key < high.key;
            let plain = (-1..=1).contains(&pitch.alter);
            let foreign = !scene.chord.tones.iter().any(|tone| tone.class == pitch.class());
            (inside && plain && foreign && !scene.holds(note.key) && scene.within_reach(note))
                .then_some(note)
        };
        if let Some(note) = between.and_then(fits) {
            candidates.push((high, note, Why::FillsGap));
            candidates.push((high, note, Why::FillsGap));
        }
        if let Some(note) = fits(below).filter(|_| gap.steps > 3) {
            candidates.push((high, note, Why::SemitoneBelow));
        }
    }
    let choice = chance.below(candidates.len() as u64) as usize;
    let Some(&(high, note, why)) = candidates.get(choice) else { return };
    // On the first rising pass, just before the upper of the two.
    let at = strikes.iter().position(|strike| strike.rising && strike.note == high);
    let Some(at) = at.filter(|&at| at > 0) else { return };
    let Some(before) = strikes.get_mut(at - 1) else { return };
    let crushed = CRUSHED.0 + chance.below(CRUSHED.1 - CRUSHED.0 + 1);
    let wait = crushed.min(before.wait / 2).max(1);
    before.wait -= wait;
    let model = *before;
    let mut added = model.added(note, why, wait);
    added.brief = Some(SHORTEST + chance.below(LONGEST - SHORTEST + 1));
    strikes.insert(at, added);
}

/// Puts passing notes into the sweeps down, where two chord notes of a hand lie a
/// third apart.
fn pass(scene: &Scene<'_>, strikes: &mut Vec<Strike>, chance: &mut Chance) {
    let mut count = 0;
    let mut i = 0;
    while i + 1 < strikes.len() && count < MOST {
        let (from, to) = (strikes[i], strikes[i + 1]);
        i += 1;
        let third = (from.note.pitch - to.note.pitch).steps == 2;
        if from.why.is_some()
            || to.why.is_some()
            || to.rising
            || !third
            || from.note.hand != to.note.hand
            || from.wait < 60_000
            || !scene.likes(45, chance)
        {
            continue;
        }
        let pitch = scale::next(scene.chord, from.note.pitch, Going::Down);
        let Some(note) = Fingered::on(pitch, from.note.hand, scene.hands) else { continue };
        let inside = to.note.key < note.key && note.key < from.note.key;
        if !inside || scene.holds(note.key) {
            continue;
        }
        // Where the hand rests before going down, it rests first.
        let wait = (from.wait / 2).min(scene.at_speed(70_000)).max(1);
        strikes[i - 1].wait -= wait;
        strikes.insert(i, from.added(note, Why::PassesBetween, wait));
        strikes[i].rising = false;
        count += 1;
        i += 1;
    }
}

/// Lets one inner note of a later sweep up turn to its lower neighbour and back.
fn turn(scene: &Scene<'_>, strikes: &mut Vec<Strike>, chance: &mut Chance) {
    if !scene.likes(30, chance) {
        return;
    }
    let Some(outer) = scene.outer() else { return };
    let first_down = strikes.iter().position(|strike| !strike.rising);
    let Some(first_down) = first_down else { return };
    let later = strikes.iter().enumerate().skip(first_down).filter(|(_, strike)| {
        let pitch = strike.note.pitch;
        strike.why.is_none()
            && strike.rising
            && strike.wait >= 56_000
            && pitch != outer.bass
            && pitch != outer.soprano
    });
    let later: Vec<usize> = later.map(|(place, _)| place).collect();
    let choice = chance.below(later.len() as u64) as usize;
    let Some(&at) = later.get(choice) else { return };
    let strike = strikes[at];
    let pitch = scale::next(scene.chord, strike.note.pitch, Going::Down);
    let Some(note) = Fingered::on(pitch, strike.note.hand, scene.hands) else { return };
    let crosses = scene.notes.iter().any(|held| held.hand != note.hand && held.key >= note.key)
        && note.hand == Hand::Right;
    if scene.holds(note.key)
        || crosses
        || !scene.within_reach(note)
        || note.key >= strike.note.key
        || note.pitch <= outer.bass
    {
        return;
    }
    let quick = scene.at_speed(72_000).max(1);
    strikes[at].wait = quick;
    strikes[at].brief = Some(quick);
    strikes.insert(at + 1, strike.added(note, Why::TurnsBeside, quick));
    strikes.insert(at + 2, strike);
}
