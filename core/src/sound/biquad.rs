//! Second-order filters, after Robert Bristow-Johnson's published "Audio EQ
//! Cookbook" formulas, in transposed direct form II.

use std::f64::consts::PI;

/// A second-order filter with its memory.
#[derive(Clone, Debug)]
pub(super) struct Biquad {
    b: [f64; 3],
    a: [f64; 2],
    s: [f64; 2],
}

impl Biquad {
    fn new(b: [f64; 3], a: [f64; 3]) -> Biquad {
        Biquad {
            b: [b[0] / a[0], b[1] / a[0], b[2] / a[0]],
            a: [a[1] / a[0], a[2] / a[0]],
            s: [0.0; 2],
        }
    }

    /// Sine and cosine of the angular frequency, kept below half the rate.
    fn turn(hertz: f64, rate: f64) -> (f64, f64) {
        let w = 2.0 * PI * hertz.min(0.45 * rate) / rate;
        (libm::sin(w), libm::cos(w))
    }

    /// A peak of `gain` decibels at `hertz`.
    pub(super) fn peak(hertz: f64, q: f64, gain: f64, rate: f64) -> Biquad {
        let (sin, cos) = Biquad::turn(hertz, rate);
        let alpha = sin / (2.0 * q);
        let a = libm::pow(10.0, gain / 40.0);
        Biquad::new(
            [1.0 + alpha * a, -2.0 * cos, 1.0 - alpha * a],
            [1.0 + alpha / a, -2.0 * cos, 1.0 - alpha / a],
        )
    }

    /// Passes what lies above `hertz`, 12 dB per octave.
    pub(super) fn high_pass(hertz: f64, q: f64, rate: f64) -> Biquad {
        let (sin, cos) = Biquad::turn(hertz, rate);
        let alpha = sin / (2.0 * q);
        Biquad::new(
            [(1.0 + cos) / 2.0, -1.0 - cos, (1.0 + cos) / 2.0],
            [1.0 + alpha, -2.0 * cos, 1.0 - alpha],
        )
    }

    /// Passes a band around `hertz` with gain 1 at its middle.
    pub(super) fn band_pass(hertz: f64, q: f64, rate: f64) -> Biquad {
        let (sin, cos) = Biquad::turn(hertz, rate);
        let alpha = sin / (2.0 * q);
        Biquad::new([alpha, 0.0, -alpha], [1.0 + alpha, -2.0 * cos, 1.0 - alpha])
    }

    /// Turns everything above about `hertz` up or down by `gain` decibels.
    pub(super) fn high_shelf(hertz: f64, gain: f64, rate: f64) -> Biquad {
        let (sin, cos) = Biquad::turn(hertz, rate);
        let a = libm::pow(10.0, gain / 40.0);
        let root = 2.0 * a.sqrt() * sin / 2.0 * std::f64::consts::SQRT_2;
        Biquad::new(
            [
                a * ((a + 1.0) + (a - 1.0) * cos + root),
                -2.0 * a * ((a - 1.0) + (a + 1.0) * cos),
                a * ((a + 1.0) + (a - 1.0) * cos - root),
            ],
            [
                (a + 1.0) - (a - 1.0) * cos + root,
                2.0 * ((a - 1.0) - (a + 1.0) * cos),
                (a + 1.0) - (a - 1.0) * cos - root,
            ],
        )
    }

    /// The next sample.
    pub(super) fn pass(&mut self, x: f64) -> f64 {
        let y = self.b[0] * x + self.s[0];
        self.s[0] = self.b[1] * x - self.a[0] * y + self.s[1];
        self.s[1] = self.b[2] * x - self.a[1] * y;
        y
    }
}

/// The same kind of filter on the left and on the right, computed side by side.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pair {
    b: [[f64; 2]; 3],
    a: [[f64; 2]; 2],
    s: [[f64; 2]; 2],
}

impl Pair {
    /// From one filter for each side.
    pub(super) fn new(left: &Biquad, right: &Biquad) -> Pair {
        Pair {
            b: std::array::from_fn(|i| [left.b[i], right.b[i]]),
            a: std::array::from_fn(|i| [left.a[i], right.a[i]]),
            s: [[0.0; 2]; 2],
        }
    }

    /// The next samples of both sides.
    pub(super) fn pass(&mut self, x: [f64; 2]) -> [f64; 2] {
        let mut y = [0.0; 2];
        for i in 0..2 {
            y[i] = self.b[0][i] * x[i] + self.s[0][i];
            self.s[0][i] = self.b[1][i] * x[i] - self.a[0][i] * y[i] + self.s[1][i];
            self.s[1][i] = self.b[2][i] * x[i] - self.a[1][i] * y[i];
        }
        y
    }
}
