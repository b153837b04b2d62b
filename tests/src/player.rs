//! A simulated player with human timing: chords rolled in any order, keys left
//! early, strokes repeated, foreign keys grazed, old keys held over, minutes between
//! chords.

use crate::lesson::Draw;
use tastata::lesson::KeyEvent;
use tastata::pitch::Key;

/// One key going down or up at a time, in milliseconds.
pub type Timed = (u64, KeyEvent);

/// Two minutes, in milliseconds.
const MINUTES: u64 = 120_000;

/// Every key at its time, each chord rolled once.
pub const CLEAN: Manner =
    Manner { jitter: 0, sweeps: 1, early: 0, grazes: 0, overlap: 0, pedal: false, rest: MINUTES };
/// As people play.
pub const HUMAN: Manner = Manner {
    jitter: 90,
    sweeps: 3,
    early: 5,
    grazes: 3,
    overlap: 250,
    pedal: false,
    rest: MINUTES,
};

/// How a player plays.
#[derive(Clone, Copy, Debug)]
pub struct Manner {
    /// Milliseconds by which any moment may be off.
    pub jitter: u64,
    /// Sweeps over each chord at the most.
    pub sweeps: u64,
    /// One in so many notes is left early; 0 for none.
    pub early: u64,
    /// One in so many chords has a foreign key grazed and left at once; 0 for none.
    pub grazes: u64,
    /// How long old keys stay down into the next chord, in milliseconds.
    pub overlap: u64,
    /// Whether the pedal is changed with each chord.
    pub pedal: bool,
    /// The longest rest between chords, in milliseconds.
    pub rest: u64,
}

/// The events of one chord from `start`, and when the hands are done with it.
pub fn roll(
    draw: &mut Draw,
    manner: Manner,
    keys: &[Key],
    old: &[Key],
    foreign: &[Key],
    start: u64,
) -> (Vec<Timed>, u64, Vec<Key>) {
    let mut events: Vec<Timed> = Vec::new();
    let jitter = |draw: &mut Draw| draw.below(manner.jitter + 1);
    // The bass leads; the rest comes from below, from above or in any order.
    let mut order: Vec<Key> = keys[1..].to_vec();
    match draw.below(3) {
        0 => {}
        1 => order.reverse(),
        _ => {
            for i in (1..order.len()).rev() {
                order.swap(i, draw.below(i as u64 + 1) as usize);
            }
        }
    }
    order.insert(0, keys[0]);
    let mut now = start + 200;
    let mut down: Vec<Key> = Vec::new();
    let sweeps = 1 + draw.below(manner.sweeps);
    for sweep in 0..sweeps {
        // Bass and all again, or all but the bass.
        let skip = if sweep == 0 { 0 } else { draw.below(2) as usize };
        for &key in order.iter().skip(skip) {
            now += 60 + jitter(draw);
            if let Some(at) = down.iter().position(|&it| it == key) {
                down.remove(at);
                events.push((now - 20, KeyEvent::Up(key)));
            }
            events.push((now, KeyEvent::Down(key)));
            if manner.early > 0 && draw.one_in(manner.early) {
                events.push((now + 30 + jitter(draw) / 4, KeyEvent::Up(key)));
            } else {
                down.push(key);
            }
        }
        order.reverse();
    }
    if manner.grazes > 0 && draw.one_in(manner.grazes) && !foreign.is_empty() {
        let key = draw.of(foreign);
        let at = start + 230 + draw.below(now - start);
        events.push((at, KeyEvent::Down(key)));
        events.push((at + 35, KeyEvent::Up(key)));
    }
    // Old keys are left while the new chord begins, those struck anew just before.
    for &key in old {
        let at =
            if keys.contains(&key) { start } else { start + 180 + draw.below(manner.overlap + 1) };
        events.push((at, KeyEvent::Up(key)));
    }
    now = events.iter().map(|event| event.0).max().unwrap_or(now) + 50;
    if manner.pedal {
        events.push((start + 150, KeyEvent::PedalUp));
        events.push((start + 420, KeyEvent::PedalDown));
    }
    events.sort_by_key(|event| event.0);
    // A slow player: minutes may pass between chords.
    (events, now + draw.below(manner.rest), down)
}
