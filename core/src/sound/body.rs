//! The soundboard and case: what the bridges feel becomes what the air hears.
//!
//! Two slightly different sides give the sound its width. Resonances are our
//! choice, at places usual for a long wooden box; nothing below about 40 Hz is
//! radiated, so no constant offset gets through.

use super::biquad::Biquad;

/// Both sides of the soundboard.
#[derive(Clone, Debug)]
pub(super) struct Body {
    left: Vec<Biquad>,
    right: Vec<Biquad>,
}

/// Middle in hertz, narrowness, gain in decibels.
const MODES: [(f64, f64, f64); 7] = [
    (98.0, 1.6, 3.0),
    (172.0, 2.2, 3.0),
    (262.0, 2.6, -2.0),
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
            filters.push(Biquad::high_shelf(7000.0, -4.0, rate));
            filters
        };
        Body { left: side(1.035), right: side(1.0 / 1.035) }
    }

    /// The next pair of samples.
    pub(super) fn pass(&mut self, left: f64, right: f64) -> (f64, f64) {
        let through = |filters: &mut [Biquad], x: f64| filters.iter_mut().fold(x, |x, f| f.pass(x));
        (through(&mut self.left, left), through(&mut self.right, right))
    }
}
