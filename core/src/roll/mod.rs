//! Rolling: handfuls become timed key-downs and key-ups.
//!
//! [`strokes`] orders a handful's notes into sweeps, [`timing`] says when each
//! falls and how long the harmony is dwelt on, [`hold`] says when fingers lift.
//! Time is in whole microseconds, all arithmetic on integers.

mod hold;
mod performance;
mod strokes;
mod timing;
mod wishes;

pub use performance::{Added, Micros, NoteKind, Performance, Touch, Why};
pub use wishes::{ChordStroke, RollWishes, Stroke, StrokePlan};

use crate::chance::Chance;
use crate::hands::{Hand, Handful, Hands};
use crate::harmony::Chord;
use crate::pitch::{Key, Pitch};
use crate::sketch::Sketch;
use timing::Emphasis;

/// A note under a finger.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Fingered {
    pitch: Pitch,
    key: Key,
    hand: Hand,
}

/// Rolls the handfuls of a sketch into a performance that starts at time 0.
///
/// Every note of a handful that lies on the keyboard sounds, the bass first.
/// Wishes outside their ranges are taken at the nearer end.
pub fn roll(sketch: &Sketch, chords: &[Chord], hands: &Hands) -> Performance {
    let wishes = &sketch.roll;
    let mut touches = Vec::new();
    let mut starts = Vec::new();
    let mut dwells = Vec::new();
    let mut now = Micros(0);
    let mut end = now;
    let last = chords.len().min(hands.handfuls.len()).saturating_sub(1);
    for (index, (chord, handful)) in chords.iter().zip(&hands.handfuls).enumerate() {
        starts.push(now);
        let notes = fingered(handful, sketch);
        let emphasis = Emphasis::of(chord, index == 0, index == last);
        let stroke = sketch.notes.get(chord.note).and_then(|note| note.stroke.times);
        let sweeps = strokes::sweeps(notes.len(), stroke.unwrap_or(wishes.times), emphasis);
        let mut chance = Chance::of(u64::from(wishes.seed), index as u64);
        let plan = timing::Plan { emphasis, speed: wishes.speed.clamp(25, 400) };
        dwells.push(Micros(plan.rest()));
        for sweep in &sweeps {
            for (i, &place) in sweep.places.iter().enumerate() {
                let Some(note) = notes.get(place) else { continue };
                touches.push(Touch {
                    key: note.key,
                    pitch: note.pitch,
                    hand: note.hand,
                    chord: index,
                    down: now,
                    up: now,
                    velocity: timing::velocity(sweep, place, notes.len(), &mut chance),
                    kind: NoteKind::Chord,
                });
                now.0 += plan.after(sweep, i, &mut chance);
            }
        }
        if notes.is_empty() {
            now.0 += plan.rest();
        }
        end = now;
    }
    hold::lift(&mut touches, &starts, end);
    touches.sort_by_key(|touch| (touch.down, touch.key));
    let decay = if touches.is_empty() { 0 } else { 1_500_000 };
    Performance { touches, starts, dwells, added: Vec::new(), end: Micros(end.0 + decay) }
}

/// The notes of a handful that lie on the keyboard, low to high, no key twice.
fn fingered(handful: &Handful, sketch: &Sketch) -> Vec<Fingered> {
    let left = handful.left.iter().map(|&pitch| (Hand::Left, pitch));
    let right = handful.right.iter().map(|&pitch| (Hand::Right, pitch));
    let mut notes: Vec<Fingered> = left
        .chain(right)
        .filter_map(|(hand, pitch)| {
            let key = pitch.key().filter(|&key| sketch.hands.compass.contains(key))?;
            Some(Fingered { pitch, key, hand })
        })
        .collect();
    notes.sort_by_key(|note| (note.key, note.hand));
    notes.dedup_by_key(|note| note.key);
    notes
}
