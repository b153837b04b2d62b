//! Single keys struck at once: the first moment is rendered on the press, the
//! rest in short turns, what is due first first, and all of it is kept, so that
//! a key sounds without delay and a drag over the keys never stalls the page.

use super::audio::{fill, frame, source};
use super::dom;
use std::collections::HashMap;
use tastata::pitch::Key;
use tastata::roll::Micros;
use tastata::sound::{Renderer, SoundWishes, one_key};
use web_sys::{AudioBuffer, AudioContext, GainNode};

/// Seconds rendered until a pressed key sounds, and then before anything else is done, so that a
/// page that is busy with what the press changes leaves no hole.
const FIRST: f64 = 0.025;
const SECOND: f64 = 0.055;
/// Seconds rendered in one turn.
const TURN: f64 = 0.1;
/// Seconds that every ringing key is rendered ahead whatever it takes: the longest that the page is
/// likely to be busy with something else.
const DUE: f64 = 0.2;
/// Milliseconds spent on what is due later.
const SPARE_MS: f64 = 4.0;
/// Until the key is let go.
const HELD: Micros = Micros::from_ms(1300);
/// Seconds until all is silent.
const RING: f64 = 1.8;
/// Seconds from the press to the first sample.
const LEAD: f64 = 0.005;
/// Seconds in which a key that is struck again loses what it sounded before.
const DAMP: f64 = 0.02;

/// The struck keys and their kept sounds.
#[derive(Default)]
pub(super) struct Struck {
    kept: HashMap<Key, Vec<AudioBuffer>>,
    ringing: Vec<Ringing>,
    /// Where each key was last let out.
    doors: HashMap<Key, GainNode>,
}

/// A key whose sound is not yet all rendered.
struct Ringing {
    key: Key,
    renderer: Renderer,
    door: GainNode,
    slices: Vec<AudioBuffer>,
    /// The frame on which the next slice sounds.
    next: u64,
    left: f64,
}

impl Struck {
    /// Forgets the kept sounds: the tuning or the instrument has changed.
    pub(super) fn forget(&mut self) {
        self.kept.clear();
        self.ringing.clear();
    }

    /// Strikes a key.
    pub(super) fn strike(&mut self, key: Key, wishes: &SoundWishes, context: &AudioContext) {
        let mut at = frame(context, context.current_time() + LEAD);
        let Some(door) = self.door(key, context) else { return };
        if let Some(slices) = self.kept.get(&key) {
            for slice in slices {
                sound(context, slice, &door, at, 0);
                at += u64::from(slice.length());
            }
            return;
        }
        if let Some(ringing) = self.ringing.iter_mut().find(|ringing| ringing.key == key) {
            ringing.again(context, door, at);
            return;
        }
        let rate = context.sample_rate() as u32;
        let renderer = Renderer::new(&one_key(key, HELD), wishes, rate, Micros(0));
        let slices = Vec::new();
        let mut ringing = Ringing { key, renderer, door, slices, next: at, left: RING };
        ringing.turn(context, FIRST);
        ringing.turn(context, SECOND);
        self.ringing.push(ringing);
    }

    /// A way out for a key; what it still sounds is damped, as its damper would do it, so
    /// that a key struck many times is not many times as loud.
    fn door(&mut self, key: Key, context: &AudioContext) -> Option<GainNode> {
        let door = context.create_gain().ok()?;
        door.connect_with_audio_node(&context.destination()).ok()?;
        if let Some(old) = self.doors.insert(key, door.clone()) {
            let (gain, now) = (old.gain(), context.current_time());
            let _ = gain.set_value_at_time(1.0, now);
            let _ = gain.linear_ramp_to_value_at_time(0.0, now + DAMP);
        }
        Some(door)
    }

    /// Renders what is due of the keys that still ring, and some of the rest.
    pub(super) fn pump(&mut self, context: &AudioContext) {
        let due = frame(context, context.current_time() + DUE);
        let begun = dom::milliseconds();
        while let Some((i, ringing)) =
            self.ringing.iter_mut().enumerate().min_by_key(|(_, it)| it.next)
        {
            if ringing.next > due && dom::milliseconds() - begun > SPARE_MS {
                break;
            }
            ringing.turn(context, TURN);
            if ringing.left <= 0.0 {
                let Ringing { key, slices, .. } = self.ringing.swap_remove(i);
                self.kept.insert(key, slices);
            }
        }
    }
}

impl Ringing {
    /// Begins again from what is rendered so far.
    fn again(&mut self, context: &AudioContext, door: GainNode, at: u64) {
        (self.door, self.next) = (door, at);
        for slice in &self.slices {
            sound(context, slice, &self.door, self.next, 0);
            self.next += u64::from(slice.length());
        }
    }

    fn turn(&mut self, context: &AudioContext, seconds: f64) {
        let frames = (seconds * f64::from(context.sample_rate())) as usize;
        let (mut left, mut right) = (vec![0.0; frames], vec![0.0; frames]);
        self.renderer.render(&mut left, &mut right);
        self.left -= seconds;
        if self.left <= 0.0 {
            fade(&mut left);
            fade(&mut right);
        }
        let Some(buffer) = fill(context, &mut left, &mut right) else { return };
        // A page that was busy comes late: what is lost is left out, and the rest keeps its
        // place.
        let now = frame(context, context.current_time());
        let late = now.saturating_sub(self.next);
        if late < frames as u64 {
            sound(context, &buffer, &self.door, self.next + late, late);
        }
        self.next += frames as u64;
        self.slices.push(buffer);
    }
}

fn fade(samples: &mut [f32]) {
    let length = samples.len() as f32;
    for (i, sample) in samples.iter_mut().enumerate() {
        *sample *= 1.0 - i as f32 / length;
    }
}

/// Lets a buffer sound from the frame `at` on, without its first `left_out` frames.
fn sound(context: &AudioContext, buffer: &AudioBuffer, door: &GainNode, at: u64, left_out: u64) {
    if let Some(source) = source(context, buffer) {
        let _ = source.connect_with_audio_node(door);
        let seconds = |frames: u64| frames as f64 / f64::from(context.sample_rate());
        let _ = source.start_with_when_and_grain_offset(seconds(at), seconds(left_out));
    }
}
