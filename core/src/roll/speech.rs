//! The speech of a piece: how tense each chord is, and so how long it is dwelt
//! on, where the discourse falls silent, and which strokes say it.
//!
//! Common practice, no source; all numbers are our choice: dwell on the dominant
//! and on every bold chord, hurry over what is expected, be silent before what is
//! not, breathe after a cadence, and say several chords in one breath: what lies
//! between hurries on, what it leads to is dwelt on.

use super::wishes::{RollWishes, Stroke, StrokePlan};
use crate::chance::Chance;
use crate::harmony::{Chord, Duty};
use crate::pitch::Tonality;

/// Usual rest on a plain chord, in microseconds.
const REST: u64 = 190_000;
/// Silence before a chord nobody expects, in microseconds: the least, what every
/// further point of tension adds, and the most.
const SILENCE: (u64, u64, u64) = (260_000, 9_000, 700_000);
/// How much tenser than the chord before it such a chord is.
const SURPRISE: u32 = 34;
/// Silence between a cadence and what begins after it, in microseconds: after one that
/// comes home, a full stop, and after one elsewhere, a comma.
const PHRASE_BREATH: (u64, u64) = (460_000, 260_000);
/// Chords said in one breath: no fewer where the bass merely turns, never more.
const BREATH: (usize, usize) = (3, 5);
/// How much tenser the next chord is when a chord presses on to it.
const PRESSING: u32 = 8;

/// Percent of the plain chords within a breath that are said in passing.
const HURRIED: u64 = 35;
/// Percent of the plain chords that do not come back to their bass.
const TURNED_EARLY: u64 = 45;

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
    /// Its place in the breath.
    pub(super) place: Place,
}

/// Where a chord stands among those said in one breath.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Place {
    /// On the way: the breath goes on.
    Within,
    /// Where the breath ends.
    End,
    /// Where it ends in a tonic that its dominant has led to.
    Arrival,
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
    let breaths = breaths(chords, &tensions);
    (0..chords.len())
        .map(|index| {
            let role = role(chords, index);
            let tension = tensions[index];
            let (at, place) = breaths[index];
            let at_home = chords[index].tonality == home;
            let percent = match (role, place) {
                (Role::Final, _) => 1800,
                (Role::Opening, _) => 320,
                (_, Place::Within) => 14 + 4 * u64::from(tension),
                (_, Place::End) => 130 + 10 * u64::from(tension),
                (_, Place::Arrival) if at_home => 480 + 8 * u64::from(tension),
                (_, Place::Arrival) => 300 + 8 * u64::from(tension),
            };
            let next = tensions.get(index + 1).copied();
            let surprise = next.map(|next| next.saturating_sub(tension + SURPRISE));
            let surprise =
                surprise.filter(|&over| over > 0 && role_at(chords, index + 1) == Some(Role::Bold));
            let silence = match surprise {
                Some(over) => (SILENCE.0 + SILENCE.1 * u64::from(over)).min(SILENCE.2),
                None if place == Place::Arrival && role != Role::Final => {
                    if at_home {
                        PHRASE_BREATH.0
                    } else {
                        PHRASE_BREATH.1
                    }
                }
                None => 0,
            };
            let presses = silence == 0
                && place == Place::Within
                && next.is_some_and(|next| next >= tension + PRESSING);
            let close = if role == Role::Final { 118 } else { 100 };
            Saying {
                role,
                tension,
                pace: (70 + i64::from(tension)) * arc(at) / 100 * close / 100,
                rest: REST * percent / 100 * dwell(index) / 100,
                silence,
                leaving: if presses { Leaving::Presses } else { Leaving::Settles },
                place,
            }
        })
        .collect()
}

/// How far along its breath every chord stands, in thousandths, and its place there. A
/// breath ends where a dominant has come home, on a dominant or bold chord that the next
/// relaxes from, and where the bass turns back.
fn breaths(chords: &[Chord], tensions: &[u32]) -> Vec<(i64, Place)> {
    let mut places = Vec::with_capacity(chords.len());
    let (mut length, mut home) = (0, false);
    for index in 0..chords.len() {
        length += 1;
        home |= index > 0 && role(chords, index - 1) == Role::Cadence;
        let next = chords.get(index + 1);
        // A tonic that is held on belongs to the arrival.
        let held = next.is_some_and(|next| next.bass == chords[index].bass);
        let peak = matches!(role(chords, index), Role::Dominant | Role::Bold)
            && tensions.get(index + 1).is_some_and(|&next| next < tensions[index]);
        let here = chords[index].bass.semitones();
        let way = |to: Option<&Chord>| to.map_or(0, |it| (it.bass.semitones() - here).signum());
        let came = index.checked_sub(1).and_then(|before| chords.get(before));
        let turns = way(came) * way(next) > 0;
        let last = index + 1 == chords.len();
        let arrives = home && !held;
        let full = length >= BREATH.1 || length >= BREATH.0 && turns || length > 1 && peak;
        // A dominant goes on to its tonic in the same breath.
        let ends = arrives || last || full && role(chords, index) != Role::Cadence;
        if ends {
            let end = if arrives || last { Place::Arrival } else { Place::End };
            let of = (length - 1).max(1) as i64;
            places.extend((0..length).map(|at| {
                let place = if at + 1 == length { end } else { Place::Within };
                (if length == 1 { 1000 } else { at as i64 * 1000 / of }, place)
            }));
            (length, home) = (0, false);
        }
    }
    places
}

/// How broad a chord is by how far along its breath it stands, in percent: going
/// well soon, broadest at the end. A parabola lowest at two fifths of the way.
fn arc(at: i64) -> i64 {
    let far = at - 400;
    let (rise, reach) = if far < 0 { (22, 400) } else { (52, 600) };
    86 + rise * far * far / (reach * reach)
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

/// How many of the chord's notes its tonality does not know, the leading note excepted.
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

/// How much of its last sweep down a chord keeps, in percent, where the person left the
/// stroke to the speech: what is on the way need not come back to its bass each time,
/// or the music only swings up and down.
pub(super) fn keeps(wishes: &RollWishes, saying: Saying, chance: &mut Chance) -> u64 {
    let plain = saying.role == Role::Plain && saying.place != Place::Arrival;
    if wishes.plan == StrokePlan::Speech && plain && chance.below(100) < TURNED_EARLY {
        25 + chance.below(50)
    } else {
        100
    }
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
            // What is expected is often said in passing, on the way to something else
            // (Saint-Lambert 1707, ch. 9, from memory: some chords almost dry).
            Role::Plain if saying.place == Place::Within && chance.below(100) < HURRIED => {
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
