//! Short noises that are not strings: the key's fall, the jack falling back.

use super::biquad::Biquad;
use crate::chance::Chance;

/// A short, band-limited, decaying noise.
#[derive(Clone, Debug)]
pub(super) struct Burst {
    chance: Chance,
    filter: Biquad,
    level: f64,
    fall: f64,
    left: u32,
    pan: (f32, f32),
}

impl Burst {
    /// A noise around `hertz` that falls by 60 dB in `seconds`.
    pub(super) fn new(
        chance: Chance,
        hertz: f64,
        seconds: f64,
        level: f64,
        pan: (f32, f32),
        rate: f64,
    ) -> Burst {
        Burst {
            chance,
            filter: Biquad::band_pass(hertz, 0.9, rate),
            level,
            fall: libm::pow(10.0, -3.0 / (seconds * rate)),
            left: (1.5 * seconds * rate) as u32,
            pan,
        }
    }

    /// Whether it is over.
    pub(super) fn is_over(&self) -> bool {
        self.left == 0
    }

    /// Adds the next samples to both sides.
    pub(super) fn add(&mut self, left: &mut [f32], right: &mut [f32]) {
        for (l, r) in left.iter_mut().zip(right.iter_mut()) {
            if self.left == 0 {
                return;
            }
            self.left -= 1;
            let y = self.filter.pass(f64::from(self.chance.noise()) * self.level) as f32;
            self.level *= self.fall;
            *l += self.pan.0 * y;
            *r += self.pan.1 * y;
        }
    }
}
