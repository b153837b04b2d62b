//! Rolling: handfuls become timed key-downs and key-ups.
//!
//! `speech` weighs the chords, `strokes` orders a handful's notes into sweeps,
//! `timing` sets them in time, `spice`, `suspend`, `detour`, `close` and `run` add
//! notes of their own, `walk` plays the bass notes between the chords, and `hold` says when fingers lift. Time is in whole microseconds, all
//! arithmetic on integers, so every machine plays alike.

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
mod timing;
mod walk;
mod wishes;

pub use performance::{Added, Micros, NoteKind, Performance, Touch, Why};
pub use slowly::outer_voices;
pub use wishes::{ChordStroke, Held, RollWishes, Stroke, StrokePlan};

use crate::chance::Chance;
use crate::hands::{Hand, Hands, ease};
use crate::harmony::Chord;
use crate::pitch::Pitch;
use crate::sketch::Sketch;
use hold::{Open, Span};
use line::{Fingered, Scene};
use strokes::Ending;

/// What chance is drawn for: each purpose its own stream, so that more of one
/// leaves the others as they were.
#[derive(Clone, Copy)]
enum Purpose {
    Stroke,
    Time,
    Spice,
    Flourish,
}

/// Silence of the instrument after the last key-up, in microseconds.
const DECAY: u64 = 1_500_000;

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

    let mut open: Vec<Open> = Vec::new();
    let mut whys = Vec::new();
    let mut spans: Vec<Span> = Vec::new();
    let mut dwells = Vec::new();
    let mut now = 0;
    for (index, (chord, saying)) in chords.iter().zip(&sayings).enumerate() {
        let stream = |purpose: Purpose| {
            Chance::of(u64::from(wishes.seed), index as u64 * 8 + purpose as u64)
        };
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
        let mut chance = stream(Purpose::Stroke);
        let (stroke, times) = speech::stroke(wishes, *saying, &mut chance);
        let keeps = speech::keeps(wishes, *saying, &mut chance);
        let ending = if index + 1 == count { Ending::Settles } else { Ending::LeadsOn };
        let left = scene.notes.iter().filter(|note| note.hand == Hand::Left).count();
        let mut sweeps = strokes::sweeps(
            own.stroke.unwrap_or(stroke),
            own.times.unwrap_or(times),
            scene.notes.len(),
            left,
            ending,
        );
        if own.stroke.is_none() && own.times.is_none() {
            strokes::leave_early(&mut sweeps, scene.notes.len(), keeps);
        }
        let kept = match wishes.held {
            Held::Kept => {
                let before = spans.last().map(|span| span.kept.as_slice()).unwrap_or_default();
                hold::still_down(&open, index, before, scene.notes, scene.hands)
            }
            Held::Collected | Held::LetGo => Vec::new(),
        };
        strokes::leave_out(&mut sweeps, |place| {
            scene.notes.get(place).is_some_and(|note| kept.contains(&(note.hand, note.key)))
        });
        let drift = drift::at(wishes.seed, index);
        let mut chance = stream(Purpose::Time);
        let mut strikes = timing::strikes(&scene, *saying, &sweeps, drift, &mut chance);
        let mut chance = stream(Purpose::Spice);
        spice::season(&scene, &mut strikes, &mut chance);
        let mut flourish = stream(Purpose::Flourish);
        let suspended = suspend::suspend(&scene, saying.role, &mut strikes, &mut flourish);
        let detoured = detour::detour(&scene, saying.role, &mut strikes, &mut flourish);
        if !suspended && !detoured {
            close::close(&scene, saying.role, &mut strikes, &mut chance);
        }
        if !walk::walk(&scene, &mut strikes) {
            run::run(&scene, saying.role, &mut strikes, &mut chance);
        }
        spans.push(Span { starts: Micros(now), leaves: Micros(now), kept });
        for strike in &strikes {
            let touch = Touch {
                key: strike.note.key,
                pitch: strike.note.pitch,
                hand: strike.note.hand,
                chord: index,
                down: Micros(now),
                up: Micros(now),
                velocity: strike.velocity,
                kind: strike.kind,
            };
            open.push(Open { touch, brief: strike.brief });
            whys.extend(strike.why.map(|why| Added { touch: open.len() - 1, why }));
            now += strike.wait;
        }
        if strikes.is_empty() {
            now += scene.at_speed(saying.rest).max(1);
        }
        dwells.push(Micros(scene.at_speed(saying.rest)));
        if let Some(span) = spans.last_mut() {
            span.leaves = Micros(now);
        }
        now += scene.at_speed(saying.silence);
    }
    let touches = hold::lift(&open, &spans, wishes.held);
    let starts = spans.iter().map(|span| span.starts).collect();
    debug_assert!(touches.windows(2).all(|two| two[0].down < two[1].down));
    let decay = if touches.is_empty() { 0 } else { DECAY };
    let end = Micros(now + decay);
    let mut performance = Performance { touches, starts, dwells, added: whys, end };
    ease(&sketch.hands, &mut performance);
    performance
}

/// The bass notes after a chord's own that carry no chord.
fn between(sketch: &Sketch, chord: &Chord, next: Option<&Chord>) -> Vec<Pitch> {
    let end = next.map_or(sketch.notes.len(), |next| next.note);
    let notes = sketch.notes.get(chord.note + 1..end).unwrap_or_default();
    notes.iter().map(|note| note.pitch).collect()
}
