//! The short ends of the strings behind the bridge. No damper reaches them, so they ring
//! on high up after every pluck and after every release: the halo of a harpsichord.
//!
//! After Välimäki and others, "Sound Synthesis of the Harpsichord Using a Computationally
//! Efficient Physical Model", *EURASIP Journal on Applied Signal Processing* 2004:7, who
//! drive a bank of resonators with what the strings give the bridge (from memory). Places,
//! lengths and level are our choice; all lie above the highest fundamental.

use std::f64::consts::TAU;

/// How many ends ring.
const COUNT: usize = 12;
/// Their pitches in hertz, mutually odd.
const HERTZ: [f64; COUNT] = [
    1873.0, 2111.0, 2393.0, 2741.0, 3067.0, 3511.0, 3967.0, 4463.0, 5051.0, 5647.0, 6301.0, 7219.0,
];
/// Time of the lowest and of the highest to fall by 60 dB, in seconds.
const RING: (f64, f64) = (0.85, 0.35);
/// What a steady tone at an end's own pitch sets going, against that tone. An end hears
/// little else than its own pitch, within a hertz: so much makes a halo 45 dB below the
/// pluck.
const LEVEL: f64 = 1.8;

/// The ends of all the strings of an instrument.
#[derive(Clone, Debug)]
pub(super) struct Ends {
    feed: [f32; COUNT],
    turn: [f32; COUNT],
    fall: [f32; COUNT],
    last: [f32; COUNT],
    older: [f32; COUNT],
}

impl Ends {
    /// Silent ends.
    pub(super) fn new(rate: f64) -> Ends {
        let mut ends = Ends {
            feed: [0.0; COUNT],
            turn: [0.0; COUNT],
            fall: [0.0; COUNT],
            last: [0.0; COUNT],
            older: [0.0; COUNT],
        };
        for (i, hertz) in HERTZ.into_iter().enumerate().filter(|&(_, hertz)| hertz < 0.45 * rate) {
            let place = i as f64 / (COUNT - 1) as f64;
            let seconds = RING.0 + place * (RING.1 - RING.0);
            let radius = libm::pow(10.0, -3.0 / (seconds * rate));
            let w = TAU * hertz / rate;
            // Two poles at the pitch; the feed makes the gain there `LEVEL`.
            ends.turn[i] = (2.0 * radius * libm::cos(w)) as f32;
            ends.fall[i] = (radius * radius) as f32;
            ends.feed[i] = (LEVEL * (1.0 - radius) * 2.0 * libm::sin(w)) as f32;
        }
        ends
    }

    /// Adds how the ends answer to what the bridges feel.
    pub(super) fn pass(&mut self, left: &mut [f32], right: &mut [f32]) {
        for (l, r) in left.iter_mut().zip(right.iter_mut()) {
            // The tiny constant keeps the tail clear of denormal numbers.
            let x = *l + *r + 1e-18;
            for i in 0..COUNT {
                let y =
                    self.feed[i] * x + self.turn[i] * self.last[i] - self.fall[i] * self.older[i];
                self.older[i] = self.last[i];
                self.last[i] = y;
            }
            // Neighbouring ends stand on opposite sides.
            for two in self.last.chunks_exact(2) {
                *l += two[0];
                *r += two[1];
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Power of the tone at `hertz` in some samples.
    fn power(sound: &[f32], hertz: f64, rate: f64) -> f64 {
        let (mut re, mut im) = (0.0, 0.0);
        for (i, &x) in sound.iter().enumerate() {
            let angle = TAU * hertz / rate * i as f64;
            re += f64::from(x) * libm::cos(angle);
            im -= f64::from(x) * libm::sin(angle);
        }
        (re * re + im * im) / sound.len() as f64
    }

    #[test]
    fn after_a_knock_the_ends_ring_at_their_pitches_and_fall_silent() {
        let rate = 48_000.0;
        let mut ends = Ends::new(rate);
        let mut left = vec![0.0_f32; 96_000];
        let mut right = left.clone();
        (left[0], right[0]) = (1.0, 1.0);
        ends.pass(&mut left, &mut right);
        let rung = &left[4800..14_400];
        for two in HERTZ.chunks_exact(2) {
            let beside = 0.5 * (two[0] + two[1]);
            let here = power(rung, two[0], rate);
            assert!(here > 30.0 * power(rung, beside, rate), "nothing rings at {}", two[0]);
        }
        let peak = |sound: &[f32]| sound.iter().fold(0.0_f32, |peak, x| peak.max(x.abs()));
        assert!(peak(&left[86_400..]) < 1e-4 * peak(&left[480..960]));
    }
}
