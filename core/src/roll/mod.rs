//! Rolling: handfuls become timed key-downs and key-ups.
//!
//! `speech` weighs the chords; `turn` plays one of them as a line of strikes, and `tape`
//! takes these down on one clock. In a turn, `strokes` orders a handful's notes into
//! sweeps, `timing` sets them in time, `spice`, `suspend`, `detour`, `close` and `run` add
//! notes of their own, and `walk` plays the bass notes between the chords; `hold` says when
//! fingers lift. Time is in whole microseconds, all arithmetic on integers, so every
//! machine plays alike.

mod close;
mod detour;
mod drift;
mod hold;
mod line;
mod performance;
mod run;
mod scale;
mod slowly;
mod speech;
mod spice;
mod strokes;
mod suspend;
mod tape;
mod timing;
mod turn;
mod walk;
mod wishes;

pub use performance::{Added, Micros, NoteKind, Performance, Touch, Why};
pub use slowly::outer_voices;
pub use wishes::{ChordStroke, Held, RollWishes, Stroke, StrokePlan};

use crate::hands::{Hands, ease};
use crate::harmony::Chord;
use crate::pitch::Pitch;
use crate::sketch::Sketch;
use line::{Fingered, Scene};
use tape::Tape;
use turn::Turn;

/// Rolls the handfuls of a sketch into a performance that starts at time 0.
///
/// Every note of a handful that lies on the keyboard sounds, the bass first.
/// Wishes outside their ranges are taken at the nearer end.
pub fn roll(sketch: &Sketch, chords: &[Chord], hands: &Hands) -> Performance {
    let wishes = &sketch.roll;
    let count = chords.len().min(hands.handfuls.len());
    let chords = &chords[..count];
    let own = |index: usize| {
        let note = chords.get(index).and_then(|chord| sketch.notes.get(chord.note));
        note.map(|note| note.stroke.clone()).unwrap_or_default()
    };
    let notes: Vec<Vec<Fingered>> =
        hands.handfuls.iter().map(|handful| line::fingered(handful, &sketch.hands)).collect();
    let dwell = |index: usize| u64::from(own(index).dwell.unwrap_or(100).min(400));
    let sayings = speech::sayings(chords, dwell);

    let mut tape = Tape::new(wishes.held, &sketch.hands);
    for (index, (chord, saying)) in chords.iter().zip(&sayings).enumerate() {
        let own = own(index);
        let passing = between(sketch, chord, chords.get(index + 1));
        let scene = Scene {
            chord,
            passing: &passing,
            notes: &notes[index],
            before: index.checked_sub(1).and_then(|i| notes.get(i)).map(Vec::as_slice),
            next: chords.get(index + 1).zip(notes.get(index + 1).map(Vec::as_slice)),
            hands: &sketch.hands,
            spice: u64::from(own.spice.unwrap_or(wishes.spice).min(100)),
            speed: wishes.speed.clamp(25, 400),
        };
        let turn = Turn { index, scene: &scene, saying: *saying, wishes, own: &own };
        let kept = tape.still_down(index, scene.notes);
        let strikes = turn.strikes(&kept);
        tape.record(index, kept, &strikes);
        tape.leave(scene.at_speed(saying.rest), scene.at_speed(saying.silence));
    }
    let mut performance = tape.end();
    ease(&sketch.hands, &mut performance);
    performance
}

/// The bass notes after a chord's own that carry no chord.
fn between(sketch: &Sketch, chord: &Chord, next: Option<&Chord>) -> Vec<Pitch> {
    let end = next.map_or(sketch.notes.len(), |next| next.note);
    let notes = sketch.notes.get(chord.note + 1..end).unwrap_or_default();
    notes.iter().map(|note| note.pitch).collect()
}
