//! A key's strings or pipe, and the noises its action makes.

use super::Voice;
use super::bank::{Bank, Place};
use super::burst::Burst;
use super::pipe::Pipe;
use super::string::Strung;
use super::voicing::{self, Voicing};
use crate::chance::Chance;
use crate::pitch::Key;

/// The touch at which a struck string has its usual force.
const USUAL: f64 = 76.0;

/// What sounds when a key is pressed.
#[derive(Clone, Debug)]
pub(super) struct Course {
    key: Key,
    voice: Voice,
    source: Source,
    pan: (f32, f32),
    held: u32,
    strikes: u64,
}

#[derive(Clone, Debug)]
enum Source {
    Strings(Vec<(Voicing, Place)>),
    Pipe(Pipe),
}

impl Course {
    /// A silent course, the `number`th on its bridge; its strings are hung in the bank.
    ///
    /// Allocates: its strings or pipe.
    pub(super) fn new(
        key: Key,
        hertz: f64,
        voice: Voice,
        rate: f64,
        number: usize,
        bank: &mut Bank,
    ) -> Course {
        let mut strings = |voicings: &[Voicing]| {
            let hang =
                |&it: &Voicing| (it, bank.hang(Strung::new(&it.scaling, rate), number, it.pan));
            Source::Strings(voicings.iter().map(hang).collect())
        };
        let source = match voice {
            Voice::Plucked8 => strings(&voicing::swings(voicing::plucked8(key, hertz))),
            Voice::Plucked84 => {
                let [across, along] = voicing::swings(voicing::plucked8(key, hertz));
                strings(&[across, along, voicing::plucked4(key, hertz)])
            }
            Voice::Buff => strings(&[voicing::buff(key, hertz)]),
            Voice::Struck => strings(&voicing::struck(key, hertz)),
            Voice::Organ => Source::Pipe(Pipe::new(hertz, rate)),
        };
        Course { key, voice, source, pan: voicing::pan(key), held: 0, strikes: 0 }
    }

    /// The key goes down.
    pub(super) fn down(
        &mut self,
        velocity: u8,
        rate: f64,
        bank: &mut Bank,
        bursts: &mut Vec<Burst>,
    ) {
        self.held += 1;
        self.strikes += 1;
        let touch = f64::from(velocity) / USUAL;
        let force = if self.voice.feels_force() { libm::pow(touch, 1.6) } else { 1.0 };
        let mut chance = self.chance(1);
        match &mut self.source {
            Source::Strings(strings) => {
                for (voicing, place) in strings {
                    let pulse = voicing.pulse(rate, force, &mut chance);
                    if let Some(string) = bank.string(*place) {
                        string.pluck(&pulse);
                    }
                }
            }
            Source::Pipe(pipe) => pipe.open(),
        }
        // Middle in hertz, length in seconds, level: the action's knock.
        let (hertz, seconds, level) = match self.voice {
            Voice::Plucked8 | Voice::Plucked84 => (1900.0, 0.035, 0.022),
            Voice::Buff => (1200.0, 0.03, 0.016),
            Voice::Struck => (420.0, 0.09, 0.05 * force),
            Voice::Organ => (2400.0, 0.05, 0.004),
        };
        bursts.push(Burst::new(chance, hertz, seconds, level, self.pan, rate));
    }

    /// The key comes up; the last finger to leave it damps it.
    pub(super) fn up(&mut self, rate: f64, bank: &mut Bank, bursts: &mut Vec<Burst>) {
        self.held = self.held.saturating_sub(1);
        if self.held > 0 {
            return;
        }
        match &mut self.source {
            Source::Strings(strings) => {
                for (_, place) in strings {
                    if let Some(string) = bank.string(*place) {
                        string.damp();
                    }
                }
            }
            Source::Pipe(pipe) => pipe.close(),
        }
        // The plectrum brushes past the string and the jack falls on its rail.
        let (click, thump) = match self.voice {
            Voice::Plucked8 | Voice::Plucked84 | Voice::Buff => (0.012, 0.028),
            Voice::Struck => (0.0, 0.03),
            Voice::Organ => (0.0, 0.0),
        };
        for (hertz, seconds, level, purpose) in [(2600.0, 0.02, click, 2), (320.0, 0.07, thump, 3)]
        {
            if level > 0.0 {
                let chance = self.chance(purpose);
                bursts.push(Burst::new(chance, hertz, seconds, level, self.pan, rate));
            }
        }
    }

    /// Adds the next samples of its pipe to both sides; strings sound from the bank.
    pub(super) fn add(&mut self, left: &mut [f32], right: &mut [f32]) {
        match &mut self.source {
            Source::Strings(_) => {}
            Source::Pipe(pipe) => pipe.add(left, right, self.pan),
        }
    }

    /// Noise that differs from strike to strike and is the same in every rendering.
    fn chance(&self, purpose: u64) -> Chance {
        Chance::of(purpose, self.key.index() as u64 * 65_536 + self.strikes)
    }
}
