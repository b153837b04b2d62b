//! The speech of a piece: how tense each chord is, and so how long it is dwelt
//! on, where the discourse falls silent, and which strokes say it.
//!
//! Common practice, no source; all numbers are our choice: dwell on the dominant
//! and on every bold chord, hurry over what is expected, be silent before what is
//! not, breathe after a cadence, and let every phrase gather way and slacken.

use super::wishes::{RollWishes, Stroke, StrokePlan};
use crate::chance::Chance;
use crate::harmony::{Chord, Duty};
use crate::pitch::Tonality;

/// Usual rest on a plain chord, in microseconds.
const REST: u64 = 190_000;
/// Silence before a chord nobody expects, in microseconds: the least, what every
/// further point of tension adds, and the most.
const SILENCE: (u64, u64, u64) = (180_000, 6_000, 420_000);
/// How much tenser than the chord before it such a chord is.
const SURPRISE: u32 = 34;
/// Silence between a cadence and what begins after it, in microseconds.
const PHRASE_BREATH: u64 = 240_000;
/// A phrase shorter than this has no arc of its own.
const SHORT_PHRASE: usize = 3;
/// How much tenser the next chord is when a chord presses on to it.
const PRESSING: u32 = 8;

/// Below this tension a chord may be said in passing.
const HURRIED: u32 = 12;

/// What a chord is to the discourse.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Role {
    /// One among others.
    Plain,
    /// The first chord.
    Opening,
    /// A dominant: the fifth degree with the leading note.
    Dominant,
    /// A dominant that goes to its tonic.
    Cadence,
    /// Foreign notes or a diminished seventh.
    Bold,
    /// The last chord.
    Final,
}

/// How a chord is said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Saying {
    pub(super) role: Role,
    /// Tension, in the range [0, 100].
    pub(super) tension: u32,
    /// How broadly it is spread, in percent of the usual time.
    pub(super) pace: i64,
    /// Time spent on the chord beyond its strokes, in microseconds at usual speed.
    pub(super) rest: u64,
    /// Silence after the chord, in microseconds at usual speed.
    pub(super) silence: u64,
    /// How it goes on to the next.
    pub(super) leaving: Leaving,
}

/// How a chord is left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Leaving {
    /// Hurrying into a tenser chord.
    Presses,
    /// Slackening towards rest.
    Settles,
}

/// How every chord of a piece is said. `dwell` gives the person's own percentage
/// for a chord.
pub(super) fn sayings(chords: &[Chord], dwell: impl Fn(usize) -> u64) -> Vec<Saying> {
    let Some(home) = chords.first().map(|chord| chord.tonality) else { return Vec::new() };
    let tensions: Vec<u32> = (0..chords.len()).map(|index| tension(chords, index, home)).collect();
    let phrases = phrases(chords);
    (0..chords.len())
        .map(|index| {
            let role = role(chords, index);
            let tension = tensions[index];
            let (place, length) = phrases[index];
            let arrives = length > 1 && place + 1 == length;
            let percent = match role {
                Role::Final => 1800,
                Role::Opening => 320,
                Role::Plain | Role::Dominant | Role::Cadence | Role::Bold => {
                    40 + 7 * u64::from(tension) + if arrives { 90 } else { 0 }
                }
            };
            let next = tensions.get(index + 1).copied();
            let surprise = next.map(|next| next.saturating_sub(tension + SURPRISE));
            let surprise =
                surprise.filter(|&over| over > 0 && role_at(chords, index + 1) == Some(Role::Bold));
            let silence = match surprise {
                Some(over) => (SILENCE.0 + SILENCE.1 * u64::from(over)).min(SILENCE.2),
                None if arrives && role != Role::Final => PHRASE_BREATH,
                None => 0,
            };
            let presses = silence == 0 && next.is_some_and(|next| next >= tension + PRESSING);
            Saying {
                role,
                tension,
                pace: (84 + i64::from(tension) / 2) * arc(place, length) / 100,
                rest: REST * percent / 100 * dwell(index) / 100,
                silence,
                leaving: if presses { Leaving::Presses } else { Leaving::Settles },
            }
        })
        .collect()
}

/// Every chord's place in its phrase and the phrase's length: a phrase ends where a
/// dominant has come home.
fn phrases(chords: &[Chord]) -> Vec<(usize, usize)> {
    let mut places = Vec::with_capacity(chords.len());
    let (mut length, mut home) = (0, false);
    for index in 0..chords.len() {
        length += 1;
        home |= index > 0 && role(chords, index - 1) == Role::Cadence;
        // A tonic that is held on belongs to the arrival.
        let held = chords.get(index + 1).is_some_and(|next| next.bass == chords[index].bass);
        if (home && !held) || index + 1 == chords.len() {
            places.extend((0..length).map(|place| (place, length)));
            (length, home) = (0, false);
        }
    }
    places
}

/// How broad a chord is by its place in the phrase, in percent: broad at first,
/// going well in the middle, broadest at the end.
fn arc(place: usize, length: usize) -> i64 {
    if length < SHORT_PHRASE {
        return 104;
    }
    let at = (place * 1000 / (length - 1)) as i64;
    // A parabola lowest at 55 in 100 of the phrase.
    let far = at - 550;
    94 + (if far < 0 { 12 } else { 26 }) * far * far / (550 * 550)
}

fn role_at(chords: &[Chord], index: usize) -> Option<Role> {
    (index < chords.len()).then(|| role(chords, index))
}

/// What a chord is, seen from its place and tones.
fn role(chords: &[Chord], index: usize) -> Role {
    let chord = &chords[index];
    let next = chords.get(index + 1);
    if next.is_none() {
        return Role::Final;
    }
    if is_dominant(chord) {
        let goes_home = next.is_some_and(|next| next.bass.class() == chord.tonality.tonic);
        return if goes_home { Role::Cadence } else { Role::Dominant };
    }
    if foreign(chord) > 0 || is_diminished_seventh(chord) {
        return Role::Bold;
    }
    if index == 0 { Role::Opening } else { Role::Plain }
}

/// Whether the chord stands on the fifth degree with the leading note.
fn is_dominant(chord: &Chord) -> bool {
    let leading = chord.tonality.leading();
    chord.degree.number() == 5 && chord.tones.iter().any(|tone| tone.class == leading)
}

/// How many of the chord's notes its key does not know, the leading note excepted.
fn foreign(chord: &Chord) -> u32 {
    let leading = chord.tonality.leading();
    let foreign = chord
        .tones
        .iter()
        .filter(|tone| tone.class != leading && !chord.tonality.is_diatonic(tone.class));
    foreign.count() as u32
}

/// Whether the chord's notes stand in minor thirds all round.
fn is_diminished_seventh(chord: &Chord) -> bool {
    let mut chromas: Vec<i32> = chord.tones.iter().map(|tone| tone.class.chroma() % 3).collect();
    chromas.dedup();
    chord.tones.len() == 4 && chromas.len() == 1
}

/// How far a tonality lies from home on the line of fifths, in signatures.
fn distance(tonality: Tonality, home: Tonality) -> u32 {
    tonality.signature().abs_diff(home.signature())
}

/// Tension of a chord, in the range [0, 100].
fn tension(chords: &[Chord], index: usize, home: Tonality) -> u32 {
    let chord = &chords[index];
    let owes = |duty: Duty| chord.tones.iter().any(|tone| tone.duty == duty);
    let mut tension = 0;
    tension += if owes(Duty::Suspended) { 26 } else { 0 };
    tension += if owes(Duty::Falls) { 12 } else { 0 };
    tension += if owes(Duty::Falls) && owes(Duty::Rises) { 8 } else { 0 };
    tension += if is_dominant(chord) { 30 } else { 0 };
    tension += if is_diminished_seventh(chord) { 28 } else { 0 };
    tension += 14 * foreign(chord).min(3);
    tension += 5 * distance(chord.tonality, home).min(6);
    // Towards the close every word weighs more.
    tension += if index * 6 >= chords.len() * 5 { 10 } else { 0 };
    tension.min(100)
}

/// The stroke and the number of times of a chord whose person left both to the piece.
pub(super) fn stroke(wishes: &RollWishes, saying: Saying, chance: &mut Chance) -> (Stroke, u8) {
    let times = wishes.times.min(4);
    let more = (times + 1).min(4);
    match wishes.plan {
        StrokePlan::Even(stroke) => (stroke, times),
        StrokePlan::Speech => match saying.role {
            Role::Opening => (Stroke::BassAlone, times),
            Role::Cadence | Role::Dominant => {
                let dense = [
                    Stroke::RepeatedBass,
                    Stroke::TurningBack,
                    Stroke::BrokenThirds,
                    Stroke::Sweep,
                ];
                (pick(&dense, chance), more)
            }
            Role::Bold => {
                let dense = [Stroke::HandAfterHand, Stroke::InsideOut, Stroke::Sweep];
                (pick(&dense, chance), times)
            }
            Role::Final => (Stroke::Sweep, times),
            // What is expected is sometimes said in passing (Saint-Lambert 1707,
            // ch. 9, from memory: some chords almost dry).
            Role::Plain if saying.tension < HURRIED && chance.below(3) == 0 => {
                (Stroke::Sweep, times.saturating_sub(1))
            }
            Role::Plain => (Stroke::Sweep, times),
        },
        StrokePlan::Varied => {
            let any = [
                Stroke::Sweep,
                Stroke::Sweep,
                Stroke::Sweep,
                Stroke::HandAfterHand,
                Stroke::InsideOut,
                Stroke::BrokenThirds,
                Stroke::TurningBack,
                Stroke::RepeatedBass,
                Stroke::BassAlone,
            ];
            (pick(&any, chance), times)
        }
    }
}

fn pick(strokes: &[Stroke], chance: &mut Chance) -> Stroke {
    let place = chance.below(strokes.len() as u64) as usize;
    strokes.get(place).copied().unwrap_or(Stroke::Sweep)
}
