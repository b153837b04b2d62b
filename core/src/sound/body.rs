//! The soundboard and case: what the bridges feel becomes what the air hears.
//!
//! Two slightly different sides give the sound its width. Resonances are our
//! choice, at places usual for a long wooden box; nothing below about 40 Hz is
//! radiated, so no constant offset gets through.

use super::biquad::{Biquad, Pair};

/// Both sides of the soundboard.
#[derive(Clone, Debug)]
pub(super) struct Body {
    filters: [Pair; MODES.len() + 2],
    board: [Diffuser; 4],
}

/// A short all-pass echo: waves crossing the board and coming back. Passes every
/// frequency equally, but not at the same time, so that pulses are softened.
/// After Schroeder, "Natural Sounding Artificial Reverberation" (1962).
#[derive(Clone, Debug)]
struct Diffuser {
    ring: Vec<[f64; 2]>,
    at: usize,
}

impl Diffuser {
    fn new(ms: f64, rate: f64) -> Diffuser {
        Diffuser { ring: vec![[0.0; 2]; ((ms * rate / 1000.0) as usize).max(1)], at: 0 }
    }

    fn pass(&mut self, x: [f64; 2]) -> [f64; 2] {
        let old = self.ring[self.at];
        let into = [x[0] + DIFFUSION * old[0], x[1] + DIFFUSION * old[1]];
        self.ring[self.at] = into;
        self.at = if self.at + 1 == self.ring.len() { 0 } else { self.at + 1 };
        [old[0] - DIFFUSION * into[0], old[1] - DIFFUSION * into[1]]
    }
}

/// Strength of the board's echoes.
const DIFFUSION: f64 = 0.5;
/// Their times in milliseconds: mutually odd, our choice. Both sides share them,
/// so that a single loudspeaker hears no hollow notes.
const BOARD: [f64; 4] = [0.31, 0.67, 1.13, 1.91];

/// Middle in hertz, narrowness, gain in decibels.
const MODES: [(f64, f64, f64); 7] = [
    (98.0, 1.6, 3.0),
    (172.0, 2.2, 2.0),
    (262.0, 2.6, -1.0),
    (415.0, 2.4, 2.5),
    (690.0, 2.0, -1.5),
    (1250.0, 1.5, 2.0),
    (2600.0, 1.2, 2.5),
];

impl Body {
    /// The soundboard of a plucked instrument.
    pub(super) fn new(rate: f64) -> Body {
        let side = |shift: f64| {
            let mut filters = vec![Biquad::high_pass(42.0, 0.7, rate)];
            filters.extend(MODES.iter().enumerate().map(|(i, &(hertz, q, gain))| {
                // Neighbouring modes move apart on the two sides.
                let turned = if i % 2 == 0 { shift } else { 1.0 / shift };
                Biquad::peak(hertz * turned, q, gain, rate)
            }));
            filters.push(Biquad::high_shelf(8000.0, -2.5, rate));
            filters
        };
        let (left, right): (Vec<Biquad>, Vec<Biquad>) = (side(1.035), side(1.0 / 1.035));
        let filters = std::array::from_fn(|i| Pair::new(&left[i], &right[i]));
        Body { filters, board: BOARD.map(|ms| Diffuser::new(ms, rate)) }
    }

    /// What the air hears of what the bridges feel.
    pub(super) fn pass(&mut self, left: &mut [f32], right: &mut [f32]) {
        for (l, r) in left.iter_mut().zip(right.iter_mut()) {
            let mut x = [f64::from(*l), f64::from(*r)];
            for filter in &mut self.filters {
                x = filter.pass(x);
            }
            for board in &mut self.board {
                x = board.pass(x);
            }
            (*l, *r) = (x[0] as f32, x[1] as f32);
        }
    }
}
