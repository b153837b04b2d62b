//! One organ pipe: a wave table read at an exact rate, with a breath of wind at
//! its start. A soft stopped pipe with a quiet octave, for hearing the lines.

use std::f64::consts::TAU;

/// Samples of the wave table; a power of two.
const TABLE: usize = 2048;
/// Strengths of the partials from the fundamental up: our choice.
const PARTIALS: [f64; 8] = [1.0, 0.34, 0.30, 0.11, 0.12, 0.05, 0.05, 0.025];
/// Below this a released pipe is silent: -114 dB of full scale.
const SILENT: f32 = 2e-6;

/// An organ pipe.
#[derive(Clone, Debug)]
pub(super) struct Pipe {
    table: Vec<f32>,
    /// Place in the table as a part of 2⁶⁴, and its growth: exact for hours.
    phase: u64,
    step: u64,
    level: f32,
    goal: f32,
    loudness: f32,
    attack: f32,
    release: f32,
}

impl Pipe {
    /// A silent pipe of this fundamental.
    ///
    /// Allocates: its table.
    pub(super) fn new(hertz: f64, rate: f64) -> Pipe {
        let hertz = hertz.min(0.4 * rate);
        // Only partials the rate can carry.
        let carried =
            PARTIALS.iter().enumerate().filter(|&(i, _)| (i as f64 + 1.0) * hertz < 0.45 * rate);
        let carried: Vec<(usize, f64)> = carried.map(|(i, &strength)| (i + 1, strength)).collect();
        let wave = |at: usize| {
            let turn = TAU * at as f64 / TABLE as f64;
            let sum: f64 = carried
                .iter()
                .map(|&(partial, strength)| strength * libm::sin(partial as f64 * turn))
                .sum();
            sum as f32
        };
        let per_sample = |seconds: f64| (1.0 - libm::exp(-1.0 / (seconds * rate))) as f32;
        Pipe {
            table: (0..TABLE).map(wave).collect(),
            phase: 0,
            // 2⁶⁴ as a product of two powers that fit.
            step: (hertz / rate * 18_446_744_073_709_551_616.0) as u64,
            level: 0.0,
            goal: 0.0,
            loudness: (0.055 * libm::pow(260.0 / hertz, 0.25)) as f32,
            attack: per_sample((3.5 / hertz).clamp(0.006, 0.04)),
            release: per_sample(0.03),
        }
    }

    /// Whether it sounds or is about to.
    pub(super) fn sounds(&self) -> bool {
        self.goal > 0.0 || self.level > SILENT
    }

    /// Lets wind in.
    pub(super) fn open(&mut self) {
        self.goal = self.loudness;
    }

    /// Cuts the wind.
    pub(super) fn close(&mut self) {
        self.goal = 0.0;
    }

    /// Adds the next samples, `gain` times, to both sides.
    pub(super) fn add(&mut self, left: &mut [f32], right: &mut [f32], gain: (f32, f32)) {
        if !self.sounds() {
            return;
        }
        let shift = 64 - TABLE.trailing_zeros();
        let speed = if self.goal > 0.0 { self.attack } else { self.release };
        for (l, r) in left.iter_mut().zip(right.iter_mut()) {
            self.level += speed * (self.goal - self.level);
            let at = (self.phase >> shift) as usize;
            let part = (self.phase << (64 - shift) >> 40) as f32 / 16_777_216.0;
            let (a, b) = (self.table[at], self.table[(at + 1) & (TABLE - 1)]);
            let y = self.level * (a + part * (b - a));
            self.phase = self.phase.wrapping_add(self.step);
            *l += gain.0 * y;
            *r += gain.1 * y;
        }
        if !self.sounds() {
            self.level = 0.0;
        }
    }
}
