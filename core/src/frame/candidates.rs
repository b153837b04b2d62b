//! The soprano notes to choose among over each chord.
//!
//! Every tone of the chord in every octave within the soprano's compass and the
//! keyboard, above the bass. Pins leave one. Where nothing fits (a bass above
//! the soprano's compass) the octave above the bass is opened instead.

use super::rules::{Moment, rests};
use super::wishes::Position;
use crate::harmony::Chord;
use crate::order;
use crate::pitch::{Interval, Pitch};
use crate::sketch::{Hold, Pin, Sketch};

/// The candidates over each chord; never empty, low to high.
pub(super) fn candidates<'a>(sketch: &Sketch, chords: &'a [Chord]) -> Vec<Vec<Moment<'a>>> {
    let over = |(i, chord): (usize, &'a Chord)| {
        let pitches = match pin(sketch, chord) {
            Some(pin) => vec![pin.pitch],
            None => free(sketch, chord, i == 0),
        };
        pitches.into_iter().map(|soprano| Moment::new(chord, soprano)).collect()
    };
    chords.iter().enumerate().map(over).collect()
}

/// The candidates over one chord as if nothing were pinned, and the pin.
pub(super) struct Layer<'a> {
    /// The candidates, the pinned note among them; never empty.
    pub(super) moments: Vec<Moment<'a>>,
    /// Which of them is pinned, and by whom.
    pub(super) pin: Option<(usize, Hold)>,
}

/// The candidates over each chord with pins beside the others.
pub(super) fn open<'a>(sketch: &Sketch, chords: &'a [Chord]) -> Vec<Layer<'a>> {
    let over = |(i, chord): (usize, &'a Chord)| {
        let mut pitches = free(sketch, chord, i == 0);
        let pin = pin(sketch, chord).map(|pin| {
            let place = pitches.iter().position(|&pitch| pitch == pin.pitch);
            let place = place.unwrap_or_else(|| {
                pitches.push(pin.pitch);
                pitches.len() - 1
            });
            (place, pin.hold)
        });
        let moments = pitches.into_iter().map(|soprano| Moment::new(chord, soprano)).collect();
        Layer { moments, pin }
    };
    chords.iter().enumerate().map(over).collect()
}

/// The pin in force over a chord. One that meets the key of a chord tone takes
/// the tone's spelling; a resting one gives way where it meets none. A bass that
/// plays alone has no use for a pin.
fn pin(sketch: &Sketch, chord: &Chord) -> Option<Pin> {
    if rests(chord) {
        return None;
    }
    let pins = &sketch.notes.get(chord.note)?.soprano;
    let pin = (*pins.get(chord.stage)?)?;
    if chord.tones.iter().any(|tone| tone.class == pin.pitch.class()) {
        return Some(pin);
    }
    let mut near = chord.tones.iter().map(|tone| tone.class.nearest(pin.pitch));
    match near.find(|near| near.same_key(pin.pitch)) {
        Some(pitch) => Some(Pin { pitch, ..pin }),
        None if pin.hold == Hold::Pinned => Some(pin),
        None => None,
    }
}

/// The notes that may stand over a chord where nothing is pinned.
fn free(sketch: &Sketch, chord: &Chord, opening: bool) -> Vec<Pitch> {
    if rests(chord) {
        return vec![chord.bass];
    }
    let mut pitches = in_compass(sketch, chord);
    if let Some(position) = sketch.frame.position.filter(|_| opening) {
        let fits = |pitch: &Pitch| fits(position, chord, *pitch);
        if pitches.iter().any(fits) {
            pitches.retain(fits);
        }
    }
    pitches
}

fn in_compass(sketch: &Sketch, chord: &Chord) -> Vec<Pitch> {
    let compass = sketch.frame.compass;
    let keyboard = sketch.hands.compass;
    let (low, high) = (compass.low.min(compass.high), compass.low.max(compass.high));
    let high = high.min(keyboard.high.max(keyboard.low)).number();
    let low = low.number().max(chord.bass.semitones() + 1);
    let within = between(chord, low, high);
    if !within.is_empty() {
        return within;
    }
    let bass = chord.bass.semitones();
    let above = between(chord, bass + 1, bass + 12);
    if above.is_empty() { vec![chord.bass] } else { above }
}

/// Every chord tone from one height to another, low to high.
fn between(chord: &Chord, low: i32, high: i32) -> Vec<Pitch> {
    let mut pitches = Vec::new();
    for tone in &chord.tones {
        let zero = tone.class.in_octave(0);
        let octaves =
            (low - zero.semitones()).div_euclid(12)..=(high - zero.semitones()).div_euclid(12);
        for octave in octaves {
            let pitch = zero + Interval::new(7 * octave, 12 * octave);
            if low <= pitch.semitones() && pitch.semitones() <= high && !pitches.contains(&pitch) {
                pitches.push(pitch);
            }
        }
    }
    order::sort(&mut pitches);
    pitches
}

fn fits(position: Position, chord: &Chord, pitch: Pitch) -> bool {
    let number = chord.tones.iter().find(|tone| tone.class == pitch.class()).map(|t| t.number);
    match position {
        Position::Octave => number == Some(1),
        Position::Third => number == Some(3),
        Position::Fifth => matches!(number, Some(5 | 6)),
    }
}
