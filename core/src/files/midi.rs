//! Standard MIDI files of the performance, or of the chords as blocks.
//!
//! Three tracks: tempo and tuning, right hand, left hand. Every chord fills one
//! bar of four beats and the tempo of its bar makes it last as long as it is
//! played, so that the file sounds in free time and still reads in bars.
//! Formats: *The Complete MIDI 1.0 Detailed Specification* (tuning messages from
//! memory, read back in the tests by a library of others).

use super::tuning;
use crate::hands::Hand;
use crate::order;
use crate::pitch::{Key, Mode};
use crate::reading::Reading;
use crate::roll::{Micros, Performance};
use crate::sketch::Sketch;
use midly::num::{u4, u7, u15, u24, u28};
use midly::{
    Format, Header, MetaMessage, MidiMessage, Smf, Timing, Track, TrackEvent, TrackEventKind,
};

/// What a MIDI file holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MidiForm {
    /// The performance, touch by touch.
    Performance,
    /// Each chord at once, for four beats.
    Blocks,
}

/// Ticks of a quarter note.
const QUARTER: u32 = 960;
/// Quarter notes of a chord.
const BEATS: u64 = 4;
/// Length of a chord set as a block, in microseconds.
const BLOCK: u64 = 3_000_000;
/// Force of a note in a block.
const FORCE: u8 = 80;
/// A tempo is at most this many microseconds a quarter note.
const SLOWEST: u64 = (1 << 24) - 1;

/// One note of a track, in ticks.
struct Note {
    key: Key,
    hand: Hand,
    down: u64,
    up: u64,
    force: u8,
}

/// A Standard MIDI file, format 1. Its times are those of the performance to
/// within a tick, a 3840th of the chord they fall in.
pub fn midi(sketch: &Sketch, reading: &Reading, form: MidiForm) -> Vec<u8> {
    let (bars, notes) = match form {
        MidiForm::Performance => performed(&reading.performance),
        MidiForm::Blocks => blocks(sketch, reading),
    };
    let tuning = tuning::messages(&sketch.sound);
    let mut tracks = vec![head(sketch, reading, &bars, &tuning)];
    for (hand, name, channel) in [(Hand::Right, "Right hand", 0), (Hand::Left, "Left hand", 1)] {
        let of_hand = notes.iter().filter(|note| note.hand == hand);
        tracks.push(track(name, channel, of_hand));
    }
    let header = Header::new(Format::Parallel, Timing::Metrical(u15::new(QUARTER as u16)));
    let mut bytes = Vec::new();
    // Writing to memory has no way to fail.
    let written = Smf { header, tracks }.write(&mut bytes);
    debug_assert!(written.is_ok());
    bytes
}

/// One chord's bar.
struct Bar {
    start: Micros,
    length: u64,
    beats: u64,
    first_tick: u64,
}

/// Bars for chords that begin at these times.
fn bars(starts: &[Micros], end: Micros) -> Vec<Bar> {
    let mut bars: Vec<Bar> = Vec::with_capacity(starts.len());
    let mut tick = 0;
    for (i, &start) in starts.iter().enumerate() {
        let next = starts.get(i + 1).copied().unwrap_or(end);
        let length = next.0.saturating_sub(start.0).max(1);
        // More than four beats only where four cannot be slow enough.
        let beats = BEATS.max(length.div_ceil(SLOWEST));
        bars.push(Bar { start, length, beats, first_tick: tick });
        tick += beats * u64::from(QUARTER);
    }
    bars
}

fn performed(performance: &Performance) -> (Vec<Bar>, Vec<Note>) {
    let bars = bars(&performance.starts, performance.end);
    let tick = |at: Micros| {
        let index = bars.partition_point(|bar| bar.start <= at).saturating_sub(1);
        let Some(bar) = bars.get(index) else { return 0 };
        let within = at.0.saturating_sub(bar.start.0);
        let ticks = u128::from(within) * u128::from(bar.beats * u64::from(QUARTER));
        let length = u128::from(bar.length);
        bar.first_tick + ((ticks + length / 2) / length) as u64
    };
    let notes = performance.touches.iter().map(|touch| {
        let down = tick(touch.down);
        let up = tick(touch.up).max(down + 1);
        Note { key: touch.key, hand: touch.hand, down, up, force: touch.velocity.clamp(1, 127) }
    });
    let notes = notes.collect();
    (bars, notes)
}

/// Every chord for four beats; bass notes without a chord share the beats of the
/// bass before them.
fn blocks(sketch: &Sketch, reading: &Reading) -> (Vec<Bar>, Vec<Note>) {
    let chords = &reading.harmony.chords;
    let starts: Vec<Micros> = (0..chords.len() as u64).map(|i| Micros(i * BLOCK)).collect();
    let bars = bars(&starts, Micros(starts.len() as u64 * BLOCK));
    let mut notes = Vec::new();
    for (i, (bar, handful)) in bars.iter().zip(&reading.hands.handfuls).enumerate() {
        let Some(chord) = chords.get(i) else { continue };
        let next = chords.get(i + 1).map_or(sketch.notes.len(), |chord| chord.note);
        let passing = sketch.notes.get(chord.note + 1..next).unwrap_or_default();
        let (first, ticks) = (bar.first_tick, bar.beats * u64::from(QUARTER));
        let share = ticks / (passing.len() as u64 + 1);
        let left = handful.left.iter().map(|&pitch| (pitch, Hand::Left));
        let right = handful.right.iter().map(|&pitch| (pitch, Hand::Right));
        for (pitch, hand) in left.chain(right) {
            let Some(key) = pitch.key() else { continue };
            let length = if pitch == chord.bass { share } else { ticks };
            notes.push(Note { key, hand, down: first, up: first + length, force: FORCE });
        }
        for (place, note) in (1..).zip(passing) {
            let Some(key) = note.pitch.key() else { continue };
            let down = first + share * place;
            notes.push(Note { key, hand: Hand::Left, down, up: down + share, force: FORCE });
        }
    }
    (bars, notes)
}

/// The track of names, signature, tempo and tuning.
fn head<'a>(
    sketch: &'a Sketch,
    reading: &Reading,
    bars: &[Bar],
    tuning: &'a [Vec<u8>],
) -> Track<'a> {
    let mut track = Vec::new();
    let mut now = 0;
    let mut meta = |at: u64, message: MetaMessage<'a>| {
        track.push(event(&mut now, at, TrackEventKind::Meta(message)));
    };
    if !sketch.title.is_empty() {
        meta(0, MetaMessage::TrackName(sketch.title.as_bytes()));
    }
    let home = reading.harmony.home;
    let fifths = home.signature().clamp(-7, 7) as i8;
    meta(0, MetaMessage::KeySignature(fifths, home.mode == Mode::Minor));
    let mut beats = 0;
    for bar in bars {
        let tempo = (bar.length / bar.beats).clamp(1, SLOWEST) as u32;
        if bar.beats != beats {
            beats = bar.beats;
            // Quarter notes; a metronome's 24 clocks and eight 32nds to each.
            meta(bar.first_tick, MetaMessage::TimeSignature(beats.min(255) as u8, 2, 24, 8));
        }
        meta(bar.first_tick, MetaMessage::Tempo(u24::new(tempo)));
    }
    let messages = tuning
        .iter()
        .map(|bytes| TrackEvent { delta: u28::new(0), kind: TrackEventKind::SysEx(bytes) });
    let place = usize::from(!sketch.title.is_empty());
    track.splice(place..place, messages);
    track.push(event(&mut now, 0, TrackEventKind::Meta(MetaMessage::EndOfTrack)));
    track
}

fn track<'a>(name: &'a str, channel: u8, notes: impl Iterator<Item = &'a Note>) -> Track<'a> {
    let mut notes: Vec<&Note> = notes.collect();
    order::by_key(&mut notes, |note| (note.key, note.down));
    notes.dedup_by_key(|note| (note.key, note.down));
    let mut events: Vec<(u64, bool, Key, u8)> = Vec::with_capacity(2 * notes.len());
    for (i, note) in notes.iter().enumerate() {
        // A key that is struck again has come up by then.
        let next = notes.get(i + 1).filter(|next| next.key == note.key);
        let up = next.map_or(note.up, |next| note.up.min(next.down));
        events.push((note.down, true, note.key, note.force));
        events.push((up, false, note.key, 0));
    }
    // Keys go up before others go down at the same tick.
    order::sort(&mut events);
    let mut now = 0;
    let name = TrackEventKind::Meta(MetaMessage::TrackName(name.as_bytes()));
    let mut track = vec![event(&mut now, 0, name)];
    for (at, down, key, force) in events {
        let key = u7::new(key.index() as u8);
        let vel = u7::new(if down { force } else { 64 });
        let message =
            if down { MidiMessage::NoteOn { key, vel } } else { MidiMessage::NoteOff { key, vel } };
        let kind = TrackEventKind::Midi { channel: u4::new(channel), message };
        track.push(event(&mut now, at, kind));
    }
    track.push(event(&mut now, 0, TrackEventKind::Meta(MetaMessage::EndOfTrack)));
    track
}

/// An event at a tick, or at once where that has passed.
fn event<'a>(now: &mut u64, at: u64, kind: TrackEventKind<'a>) -> TrackEvent<'a> {
    let delta = at.saturating_sub(*now).min((1 << 28) - 1);
    *now += delta;
    TrackEvent { delta: u28::new(delta as u32), kind }
}
