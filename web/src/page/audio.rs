//! Web Audio output: a performance rendered in slices and scheduled to the
//! sample, and single keys struck at once.

use super::dom;
use super::struck::Struck;
use tastata::pitch::Key;
use tastata::roll::{Micros, Performance, Touch};
use tastata::sound::{Renderer, SoundWishes};
use tastata::words::Phrase;
use tastata::words::page::said;
use web_sys::{AudioBuffer, AudioBufferSourceNode, AudioContext, AudioContextState};
use web_sys::{AudioNode, AudioScheduledSourceNode, BaseAudioContext, GainNode};

/// Seconds rendered at a time.
const SLICE: f64 = 0.2;
/// Seconds kept scheduled ahead, enough to bridge a hidden tab's slow timers.
const AHEAD: f64 = 1.6;
/// Slices rendered in one go, so that the page never stalls.
const SLICES_AT_ONCE: usize = 3;
/// Seconds from pressing Play to the first sample.
const LEAD: f64 = 0.06;
/// Seconds of fading when playing is stopped.
const FADE: f64 = 0.04;
/// Looks in a row that find the sound asleep before it counts as interrupted, after it
/// has run and before it ever did: a device may take a moment to open.
const ASLEEP: u32 = 8;
const NEVER_AWAKE: u32 = 50;
/// A loop is laid out for so long at a time.
const ROUND: Micros = Micros::from_ms(300_000);

/// The sound of the page.
#[derive(Default)]
pub(super) struct Sound {
    context: Option<AudioContext>,
    playing: Option<Playing>,
    struck: Struck,
    tuned: Option<SoundWishes>,
}

struct Playing {
    renderer: Renderer,
    performance: Performance,
    follow: Follow,
    gain: GainNode,
    sources: Vec<AudioBufferSourceNode>,
    /// The context's sample frame on which the performance's moment `from` sounds.
    began: u64,
    from: Micros,
    /// The frame on which the next slice starts; whole frames, so slices join without a seam.
    next: u64,
    rendered_all: bool,
    /// Whether the sound has run since, and looks in a row that found it asleep.
    ran: bool,
    asleep: u32,
}

/// How playing goes on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Going {
    /// Something is still to sound.
    On,
    /// Nothing plays.
    Over,
    /// A call came in, or the device went away.
    Interrupted,
}

/// What the page shows while something plays.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Follow {
    /// The chords of the piece, which the page keeps in view, and the keys.
    Piece,
    /// One chord of it, and the keys. Where a person is on the page is left to them: on a phone
    /// the chord's sheet may be under the finger, and the staff far above.
    Chord,
    /// Only the keys: what plays is not the piece.
    Keys,
    /// Nothing: the ear alone is asked.
    Nothing,
}

/// What sounds at a moment.
pub(super) struct Moment {
    pub(super) chord: Option<usize>,
    /// Whether the page goes where the chord is.
    pub(super) leads: bool,
    pub(super) keys: Vec<Key>,
}

impl Sound {
    pub(super) fn is_playing(&self) -> bool {
        self.playing.is_some()
    }

    /// Forgets struck keys rendered in another tuning.
    pub(super) fn tune(&mut self, wishes: &SoundWishes) {
        if self.tuned.as_ref() != Some(wishes) {
            self.struck.forget();
            self.tuned = Some(wishes.clone());
        }
    }

    /// Opens the sound, or wakes it where the browser put it to sleep; must be
    /// called from a press, touch or key.
    pub(super) fn wake(&mut self) -> Option<AudioContext> {
        if self.context.as_ref().is_some_and(|it| it.state() == AudioContextState::Closed) {
            // What was put into it will never sound, and the next may have another rate.
            *self = Sound { tuned: self.tuned.take(), ..Sound::default() };
        }
        if self.context.is_none() {
            self.context = AudioContext::new().ok();
        }
        let context = self.context.as_ref()?;
        if context.state() != AudioContextState::Running {
            resume(context);
        }
        Some(context.clone())
    }

    /// Wakes the sound if it was opened and the browser put it to sleep.
    pub(super) fn rouse(&mut self) {
        let open = |it: &AudioContext| it.state() != AudioContextState::Closed;
        if self.context.as_ref().is_some_and(open) {
            self.wake();
        }
    }

    /// Plays a performance from its chord `from` on.
    pub(super) fn play(
        &mut self,
        performance: Performance,
        wishes: &SoundWishes,
        from: usize,
        follow: Follow,
    ) -> Result<(), Phrase> {
        self.stop();
        let context = self.wake().ok_or(said::NO_SOUND)?;
        let from = performance.starts.get(from).copied().unwrap_or_default();
        let rate = context.sample_rate() as u32;
        let gain = context.create_gain().map_err(|_| said::SOUND_FAILED)?;
        let _ = gain.connect_with_audio_node(&context.destination());
        let began = frame(&context, context.current_time() + LEAD);
        let renderer = Renderer::new(&performance, wishes, rate, from);
        self.playing = Some(Playing {
            renderer,
            performance,
            follow,
            gain,
            sources: Vec::new(),
            began,
            from,
            next: began,
            rendered_all: false,
            ran: false,
            asleep: 0,
        });
        self.pump();
        Ok(())
    }

    /// Fades out and drops what plays.
    pub(super) fn stop(&mut self) {
        let (Some(playing), Some(context)) = (self.playing.take(), &self.context) else { return };
        let now = context.current_time();
        let gain = playing.gain.gain();
        let _ = gain.set_value_at_time(1.0, now);
        let _ = gain.linear_ramp_to_value_at_time(0.0, now + FADE);
        for source in playing.sources {
            let source: &AudioScheduledSourceNode = source.as_ref();
            let _ = source.stop_with_when(now + FADE);
        }
    }

    /// Renders and schedules ahead; says how it goes on.
    pub(super) fn pump(&mut self) -> Going {
        let Some(context) = self.context.clone() else { return Going::Over };
        self.struck.pump(&context);
        let Some(playing) = &mut self.playing else { return Going::Over };
        if playing.is_interrupted(&context) {
            self.stop();
            return Going::Interrupted;
        }
        let now = frame(&context, context.current_time());
        let soon = frame(&context, context.current_time() + LEAD);
        let ahead = frame(&context, context.current_time() + AHEAD);
        // A device that slept goes on from where it was, not from where it would be.
        if playing.next < now && !playing.rendered_all {
            playing.began += soon - playing.next;
            playing.next = soon;
        }
        // A hidden tab is woken about once a second, so it fills up at once.
        let hidden = dom::document().is_some_and(|document| document.hidden());
        let most = if hidden { usize::MAX } else { SLICES_AT_ONCE };
        for _ in 0..most {
            if playing.rendered_all || playing.next > ahead {
                break;
            }
            if playing.slice(&context).is_none() {
                playing.rendered_all = true;
            }
        }
        if playing.rendered_all && now > playing.next {
            self.playing = None;
            return Going::Over;
        }
        Going::On
    }

    /// What is heard right now, output latency allowed for.
    pub(super) fn moment(&self) -> Option<Moment> {
        let (context, playing) = (self.context.as_ref()?, self.playing.as_ref()?);
        let began = playing.began as f64 / f64::from(context.sample_rate());
        let heard = context.current_time() - latency(context) - began;
        if heard < 0.0 {
            // Still on its way to the ear.
            return Some(Moment { chord: None, leads: false, keys: Vec::new() });
        }
        let at = Micros(((playing.from.as_secs() + heard) * 1e6) as u64);
        let begun: Vec<_> = playing
            .performance
            .touches
            .iter()
            .take_while(|t| t.down <= at)
            .filter(|t| playing.from <= t.down)
            .collect();
        let seen = playing.follow != Follow::Nothing;
        let keys = begun.iter().filter(|t| seen && at < t.up).map(|t| t.key).collect();
        let chord = match playing.follow {
            Follow::Piece | Follow::Chord => begun.last().map(|t| t.chord),
            Follow::Keys | Follow::Nothing => None,
        };
        Some(Moment { chord, leads: playing.follow == Follow::Piece, keys })
    }

    /// Strikes keys at once.
    pub(super) fn strike(&mut self, keys: impl IntoIterator<Item = Key>, wishes: &SoundWishes) {
        let Some(context) = self.wake() else { return };
        self.tune(wishes);
        for key in keys {
            self.struck.strike(key, wishes, &context);
        }
    }
}

impl Playing {
    /// Looks whether the sound runs, and says whether it has slept for too long.
    fn is_interrupted(&mut self, context: &AudioContext) -> bool {
        let state = context.state();
        if state == AudioContextState::Running {
            (self.ran, self.asleep) = (true, 0);
            return false;
        }
        self.asleep += 1;
        let most = if self.ran { ASLEEP } else { NEVER_AWAKE };
        state == AudioContextState::Closed || self.asleep > most
    }

    /// Renders one slice and schedules it; `None` when all has been rendered.
    fn slice(&mut self, context: &AudioContext) -> Option<()> {
        let rate = f64::from(context.sample_rate());
        let frames = (SLICE * rate) as usize;
        let (mut left, mut right) = (vec![0.0; frames], vec![0.0; frames]);
        let more = self.renderer.render(&mut left, &mut right);
        let source = schedule(context, &self.gain, &mut left, &mut right, self.next)?;
        self.next += frames as u64;
        self.sources.push(source);
        // Only the slices still ahead need to be stopped later.
        let keep = (AHEAD / SLICE) as usize + 3;
        if self.sources.len() > keep {
            self.sources.drain(..self.sources.len() - keep);
        }
        more.then_some(())
    }
}

/// One chord of a performance, moved to time 0.
pub(super) fn alone(performance: &Performance, chord: usize) -> Performance {
    stretch(performance, chord, chord)
}

/// Some chords of a performance, first to last, moved to time 0.
pub(super) fn stretch(performance: &Performance, from: usize, to: usize) -> Performance {
    let start = performance.starts.get(from).copied().unwrap_or_default();
    let touches: Vec<_> = performance
        .touches
        .iter()
        .filter(|t| from <= t.chord && t.chord <= to)
        .map(|t| {
            let mut touch = *t;
            touch.down = Micros(t.down.0.saturating_sub(start.0));
            touch.up = Micros(t.up.0.saturating_sub(start.0));
            touch
        })
        .collect();
    let end = touches.iter().map(|t| t.up).max().unwrap_or_default();
    let end = Micros(end.0 + 1_000_000);
    Performance { touches, starts: vec![Micros(0)], end, ..Performance::default() }
}

/// Some chords of a performance, first to last, over and over: the first follows the last
/// as the chord after it would have.
pub(super) fn round(performance: &Performance, from: usize, to: usize) -> Performance {
    let once = stretch(performance, from, to);
    let start = performance.starts.get(from).copied().unwrap_or_default();
    let length = match performance.starts.get(to + 1) {
        Some(next) => Micros(next.0.saturating_sub(start.0)),
        None => once.end,
    };
    let turns = (ROUND.0 / length.0.max(1)).clamp(1, 500);
    let touches = (0..turns).flat_map(|turn| {
        let later = turn * length.0;
        once.touches.iter().map(move |t| {
            let up = t.up.0.min(length.0);
            Touch { down: Micros(t.down.0 + later), up: Micros(up.max(t.down.0 + 1) + later), ..*t }
        })
    });
    let touches: Vec<Touch> = touches.collect();
    let end = Micros(turns * length.0);
    Performance { touches, starts: vec![Micros(0)], end, ..Performance::default() }
}

/// Lets a slice of sound begin on a frame of the context's clock.
pub fn schedule(
    context: &BaseAudioContext,
    into: &AudioNode,
    left: &mut [f32],
    right: &mut [f32],
    frame: u64,
) -> Option<AudioBufferSourceNode> {
    let buffer = fill(context, left, right)?;
    let source = source(context, &buffer)?;
    source.connect_with_audio_node(into).ok()?;
    source.start_with_when(frame as f64 / f64::from(context.sample_rate())).ok()?;
    Some(source)
}

pub(super) fn fill(
    context: &BaseAudioContext,
    left: &mut [f32],
    right: &mut [f32],
) -> Option<AudioBuffer> {
    let buffer = context.create_buffer(2, left.len() as u32, context.sample_rate()).ok()?;
    buffer.copy_to_channel(left, 0).ok()?;
    buffer.copy_to_channel(right, 1).ok()?;
    Some(buffer)
}

pub(super) fn source(
    context: &BaseAudioContext,
    buffer: &AudioBuffer,
) -> Option<AudioBufferSourceNode> {
    let source = context.create_buffer_source().ok()?;
    source.set_buffer(Some(buffer));
    Some(source)
}

/// The sample frame at or after a moment of the context's clock.
pub(super) fn frame(context: &AudioContext, seconds: f64) -> u64 {
    (seconds * f64::from(context.sample_rate())).ceil() as u64
}

/// Asks a sleeping sound to run. Where that is refused nothing is to be said: whoever
/// waits for the sound notices.
fn resume(context: &AudioContext) {
    if let Ok(promise) = context.resume() {
        wasm_bindgen_futures::spawn_local(async move {
            let _ = wasm_bindgen_futures::JsFuture::from(promise).await;
        });
    }
}

/// Seconds from the context's clock to the ear, where the browser says: on the way to
/// the device, and in it.
fn latency(context: &AudioContext) -> f64 {
    let read = |name: &str| {
        let value = js_sys::Reflect::get(context, &name.into()).ok().and_then(|v| v.as_f64());
        value.filter(|seconds| seconds.is_finite()).unwrap_or(0.0)
    };
    read("baseLatency") + read("outputLatency")
}

/// Milliseconds between two looks at what must be rendered.
pub(super) const PUMP_MS: i32 = 60;

/// Calls [`Sound::pump`] for as long as the page lives.
pub(super) fn keep_pumping() {
    use wasm_bindgen::JsCast;
    use wasm_bindgen::closure::Closure;
    let closure = Closure::<dyn FnMut()>::new(|| super::with(|page| page.pump()));
    if let Some(window) = dom::window() {
        let _ = window.set_interval_with_callback_and_timeout_and_arguments_0(
            closure.as_ref().unchecked_ref(),
            PUMP_MS,
        );
    }
    closure.forget();
}
