//! The maker's measures: how each string is scaled, where and how it is plucked,
//! how loud it is and where it stands between left and right.
//!
//! Our choice throughout, set by measuring the rendered sound: bass strings ring
//! for several seconds, the top octave for about one; the plectrum is nearer the
//! nut in the bass.

use super::string::Scaling;
use crate::chance::Chance;
use crate::pitch::Key;

/// One string and its plectrum.
#[derive(Clone, Copy, Debug)]
pub(super) struct Voicing {
    /// The string.
    pub(super) scaling: Scaling,
    /// Where the plectrum stands, as a part of the string's length.
    pub(super) position: f64,
    /// Rise time of the sharpest part of the pluck's pulse, in seconds.
    pub(super) width: f64,
    /// Height of the pulse.
    pub(super) level: f64,
    /// Scrape of the plectrum, as a part of the pulse.
    pub(super) scrape: f64,
    /// Gains to left and right.
    pub(super) pan: (f32, f32),
}

/// A value that goes straight from `low` at FF (F1) to `high` at f‴ (F6) and stays
/// there beyond.
fn across(key: Key, low: f64, high: f64) -> f64 {
    let place = (f64::from(key.number() - 29) / 60.0).clamp(0.0, 1.0);
    low + place * (high - low)
}

/// Gains that put a key in its place from left (bass) to right (treble), the
/// loudness the same everywhere.
pub(super) fn pan(key: Key) -> (f32, f32) {
    let angle = std::f64::consts::FRAC_PI_4 * (1.0 + across(key, -0.35, 0.35));
    (libm::cos(angle) as f32, libm::sin(angle) as f32)
}

/// The eight-foot string of a harpsichord.
pub(super) fn plucked8(key: Key, hertz: f64) -> Voicing {
    let ring = (5.5 * libm::pow(130.0 / hertz, 0.62)).clamp(0.35, 9.0);
    Voicing {
        scaling: Scaling {
            hertz,
            ring,
            ring_high: (0.12 * ring + 0.28).min(0.8 * ring),
            stiffness: (1.2e-5 * libm::pow(hertz / 100.0, 0.9)).clamp(6e-6, 3e-4),
            damped: (0.16 * libm::pow(200.0 / hertz, 0.35)).clamp(0.06, 0.3),
        },
        position: across(key, 0.13, 0.31),
        width: across(key, 46e-6, 22e-6),
        level: 0.36 * libm::pow(200.0 / hertz, 0.22),
        scrape: 0.10,
        pan: pan(key),
    }
}

impl Voicing {
    /// The pulse that one pluck sends into the string: the plectrum's pulse, its
    /// reflection from the near end of the string, and a little scrape.
    pub(super) fn pulse(&self, rate: f64, force: f64, chance: &mut Chance) -> Vec<f32> {
        let apart = self.position / self.scaling.hertz;
        let shape = |seconds: f64| {
            if seconds <= 0.0 {
                return 0.0;
            }
            let hump = |width: f64| {
                let t = seconds / width;
                t * libm::exp(1.0 - t)
            };
            // A sharp hump and two broader ones: about 3 dB less per octave.
            0.62 * hump(self.width) + 0.28 * hump(8.0 * self.width) + 0.10 * hump(27.0 * self.width)
        };
        let scrape_time = 0.0025;
        let seconds = apart + (27.0 * 10.0 * self.width).max(4.0 * scrape_time);
        let length = libm::ceil(seconds * rate) as usize;
        // Pulses are as high at every rate: energy per period, not per sample.
        let height = self.level * force;
        let mut before = 0.0;
        let noise = (0..length).map(|_| {
            let white = f64::from(chance.noise());
            let bright = white - before;
            before = white;
            bright
        });
        let noise: Vec<f64> = noise.collect();
        (0..length)
            .map(|i| {
                let t = i as f64 / rate;
                let plucked = shape(t) - 0.96 * shape(t - apart);
                let rough = self.scrape * noise[i] * libm::exp(-t / scrape_time);
                (height * (plucked + rough)) as f32
            })
            .collect()
    }
}
