//! Single keys struck at once: the first moment is rendered on the press, the
//! rest in turns, and all of it is kept, so that a key sounds without delay and
//! a drag over the keys never stalls the page.

use super::audio::{fill, frame, source};
use std::collections::HashMap;
use tastata::pitch::Key;
use tastata::roll::Micros;
use tastata::sound::{Renderer, SoundWishes, one_key};
use web_sys::{AudioBuffer, AudioContext};

/// Seconds rendered on the press itself.
const FIRST: f64 = 0.08;
/// Seconds rendered in one turn.
const TURN: f64 = 0.3;
/// Until the key is let go.
const HELD: Micros = Micros::from_ms(1300);
/// Seconds until all is silent.
const RING: f64 = 1.8;
/// Seconds from the press to the first sample.
const LEAD: f64 = 0.005;

/// The struck keys and their kept sounds.
#[derive(Default)]
pub(super) struct Struck {
    kept: HashMap<Key, Vec<AudioBuffer>>,
    ringing: Vec<Ringing>,
}

/// A key whose sound is not yet all rendered.
struct Ringing {
    key: Key,
    renderer: Renderer,
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
        if let Some(slices) = self.kept.get(&key) {
            for slice in slices {
                sound(context, slice, at);
                at += u64::from(slice.length());
            }
            return;
        }
        let rate = context.sample_rate() as u32;
        let renderer = Renderer::new(&one_key(key, HELD), wishes, rate, Micros(0));
        let mut ringing = Ringing { key, renderer, slices: Vec::new(), next: at, left: RING };
        ringing.turn(context, FIRST);
        self.ringing.push(ringing);
    }

    /// Renders a turn of every key that still rings.
    pub(super) fn pump(&mut self, context: &AudioContext) {
        for ringing in &mut self.ringing {
            ringing.turn(context, TURN);
        }
        let (done, ringing): (Vec<_>, Vec<_>) =
            self.ringing.drain(..).partition(|ringing| ringing.left <= 0.0);
        self.ringing = ringing;
        self.kept.extend(done.into_iter().map(|ringing| (ringing.key, ringing.slices)));
    }
}

impl Ringing {
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
        sound(context, &buffer, self.next);
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

fn sound(context: &AudioContext, buffer: &AudioBuffer, at: u64) {
    if let Some(source) = source(context, buffer) {
        let _ = source.connect_with_audio_node(&context.destination());
        let _ = source.start_with_when(at as f64 / f64::from(context.sample_rate()));
    }
}
