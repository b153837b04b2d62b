//! The maker's measures: how each string is scaled, where and how it is plucked,
//! how loud it is and where it stands between left and right.
//!
//! Our choice throughout, set by measuring the rendered sound: bass strings ring
//! for several seconds, the top octave for about one; the plectrum is nearer the
//! nut in the bass.

use super::string::Scaling;
use crate::chance::Chance;
use crate::pitch::Key;

/// Height of a usual pulse: a full handful peaks about 6 dB below full scale.
const LOUDNESS: f64 = 0.46;

/// One string and what sets it going.
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
    /// Strengths of the pulse's sharp part and of two broader ones.
    pub(super) humps: [f64; 3],
    /// Seconds by which it is set going later than the key asks.
    pub(super) late: f64,
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
    let angle = std::f64::consts::FRAC_PI_4 * (1.0 + across(key, -0.5, 0.5));
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
        level: LOUDNESS * libm::pow(200.0 / hertz, 0.22),
        scrape: 0.10,
        humps: [0.78, 0.20, 0.055],
        late: 0.0,
        pan: pan(key),
    }
}

/// A string's two swings, across the soundboard and along it. The second is plucked
/// less and slower to die: an after-sound. Its partials are stretched a little
/// more, so that they beat slowly with the first's while the fundamental stays.
pub(super) fn swings(across: Voicing) -> [Voicing; 2] {
    let swing = |cents: f64, share: f64, longer: f64, stiffer: f64| {
        let apart = libm::exp2(cents / 1200.0);
        let scaling = Scaling {
            hertz: apart * across.scaling.hertz,
            ring: longer * across.scaling.ring,
            ring_high: longer * across.scaling.ring_high,
            stiffness: stiffer * across.scaling.stiffness,
            ..across.scaling
        };
        Voicing { scaling, level: share * across.level, ..across }
    };
    [swing(-0.03, 0.86, 0.92, 1.0), swing(0.12, 0.22, 1.5, 2.5)]
}

/// The four-foot string of the same key, an octave higher and a moment later.
pub(super) fn plucked4(key: Key, hertz: f64) -> Voicing {
    let eight = plucked8(key, 2.0 * hertz);
    let scaling = Scaling {
        ring: 0.7 * eight.scaling.ring,
        ring_high: 0.8 * eight.scaling.ring_high,
        ..eight.scaling
    };
    Voicing {
        scaling,
        position: across(key, 0.15, 0.38),
        level: 0.55 * eight.level,
        scrape: 0.08,
        late: 0.009,
        ..eight
    }
}

/// The eight-foot string under the buff stop: short, round, with little above.
pub(super) fn buff(key: Key, hertz: f64) -> Voicing {
    let open = plucked8(key, hertz);
    let ring = (1.35 * libm::pow(130.0 / hertz, 0.30)).clamp(0.3, 2.0);
    Voicing {
        scaling: Scaling { ring, ring_high: 0.16 * ring, ..open.scaling },
        width: 1.7 * open.width,
        level: 1.25 * open.level * libm::pow(hertz / 200.0, 0.12),
        scrape: 0.05,
        ..open
    }
}

/// The two strings of a key of an early piano, a hair apart in pitch so that the
/// tone breathes; their mean is the key's own pitch. `force` is 1 at a usual touch.
pub(super) fn struck(key: Key, hertz: f64) -> [Voicing; 2] {
    // A fifth of a cent to either side.
    let apart = libm::exp2(0.2 / 1200.0);
    let string = |hertz: f64, share: f64| {
        let ring = (6.5 * libm::pow(130.0 / hertz, 0.62)).clamp(0.4, 9.0);
        Voicing {
            scaling: Scaling {
                hertz,
                ring,
                ring_high: (0.09 * ring + 0.18).min(0.8 * ring),
                stiffness: (4e-5 * libm::pow(hertz / 100.0, 0.9)).clamp(2e-5, 6e-4),
                damped: (0.20 * libm::pow(200.0 / hertz, 0.35)).clamp(0.08, 0.4),
            },
            position: across(key, 0.105, 0.085),
            width: across(key, 420e-6, 95e-6),
            level: share * LOUDNESS * libm::pow(200.0 / hertz, 0.12),
            scrape: 0.0,
            humps: [0.85, 0.15, 0.0],
            late: 0.0,
            pan: pan(key),
        }
    };
    [string(hertz * apart, 0.34), string(hertz / apart, 0.30)]
}

impl Voicing {
    /// The pulse that one pluck or stroke sends into the string: the plectrum's
    /// own, its reflection from the near end of the string, and a little scrape.
    /// A harder touch (`force` above 1) is louder and sharper.
    pub(super) fn pulse(&self, rate: f64, force: f64, chance: &mut Chance) -> Vec<f32> {
        let apart = self.position / self.scaling.hertz;
        let width = self.width / libm::sqrt(force.max(0.05));
        // Broader humps of a sharp pulse: together about 3 dB less per octave.
        let widths = [width, 8.0 * width, 27.0 * width];
        let broadest = widths.into_iter().zip(self.humps).filter(|&(_, strength)| strength > 0.0);
        let broadest = broadest.map(|(width, _)| width).fold(width, f64::max);
        let seconds = self.late + apart + (11.0 * broadest).max(5.0 * SCRAPE);
        let length = libm::ceil(seconds * rate) as usize;
        let mut before = 0.0;
        let mut scrape = |t: f64| {
            let white = f64::from(chance.noise());
            let bright = white - before;
            before = white;
            // Beyond a dozen of its times nothing of it is left.
            let sounds = (0.0..12.0 * SCRAPE).contains(&t);
            if sounds { self.scrape * bright * libm::exp(-t / SCRAPE) } else { 0.0 }
        };
        let mut there = Humps::new(widths, self.humps, -self.late, rate);
        let mut back = Humps::new(widths, self.humps, -self.late - apart, rate);
        let sample = |i: usize| {
            let plucked = there.next() - 0.96 * back.next();
            (self.level * force * (plucked + scrape(i as f64 / rate - self.late))) as f32
        };
        (0..length).map(sample).collect()
    }
}

/// Humps `s·x·exp(1 - x)` where `x` is the time in widths; from one sample to the next
/// by multiplying, which spares an exponential for each.
struct Humps {
    humps: [Hump; 3],
    /// Time of the next sample, and from one to the next, in seconds.
    at: f64,
    step: f64,
}

#[derive(Clone, Copy)]
struct Hump {
    width: f64,
    strength: f64,
    /// What is left of the exponential, once it has begun.
    rest: f64,
    fall: f64,
}

impl Humps {
    fn new(widths: [f64; 3], strengths: [f64; 3], at: f64, rate: f64) -> Humps {
        let hump = |i: usize| {
            let width = widths[i];
            Hump {
                width,
                strength: strengths[i],
                rest: 0.0,
                fall: libm::exp(-1.0 / (width * rate)),
            }
        };
        Humps { humps: std::array::from_fn(hump), at, step: 1.0 / rate }
    }

    fn next(&mut self) -> f64 {
        let (at, begins) = (self.at, self.at <= self.step);
        self.at += self.step;
        if at <= 0.0 {
            return 0.0;
        }
        let next = |hump: &mut Hump| {
            let x = at / hump.width;
            hump.rest = if begins { libm::exp(1.0 - x) } else { hump.rest * hump.fall };
            hump.strength * x * hump.rest
        };
        self.humps.iter_mut().map(next).sum()
    }
}

/// Time in which the scrape of a plectrum fades, in seconds.
const SCRAPE: f64 = 0.0025;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sound::bank::{BLOCK, Bank};
    use crate::sound::string::Strung;
    use crate::sound::{SoundWishes, hertz};
    use std::f64::consts::TAU;

    /// The fundamental of a string alone, no board and no room: how far its phase
    /// turns against `guess` between two windows.
    fn fundamental(voicing: &Voicing, rate: f64) -> f64 {
        let guess = voicing.scaling.hertz;
        let window = (40.0 / guess).clamp(0.06, 0.5);
        let (window, apart) = ((window * rate) as usize, (0.6 * window * rate) as usize);
        let mut string = Strung::new(&voicing.scaling, rate);
        string.pluck(&voicing.pulse(rate, 1.0, &mut Chance::of(0, 0)));
        let mut sound = vec![0.0; 4 * window];
        let mut other = sound.clone();
        let mut bank = Bank::new(rate);
        bank.hang(string, 0, (1.0, 1.0));
        for (left, right) in sound.chunks_mut(BLOCK).zip(other.chunks_mut(BLOCK)) {
            bank.next_block();
            bank.add(0, left, right);
        }
        let phase = |from: usize| {
            let (mut re, mut im) = (0.0, 0.0);
            for i in 0..window {
                let t = (i as f64 + 0.5) / window as f64;
                let hann = 0.5 - 0.5 * libm::cos(TAU * t);
                let x = hann * hann * f64::from(sound[from + i]);
                let angle = TAU * guess / rate * (from + i) as f64;
                re += x * libm::cos(angle);
                im -= x * libm::sin(angle);
            }
            libm::atan2(im, re)
        };
        let from = window;
        let turned = phase(from + apart) - phase(from);
        let turned = turned - TAU * libm::round(turned / TAU);
        guess + turned / TAU * rate / apart as f64
    }

    #[test]
    fn every_string_alone_is_in_tune_to_a_tenth_of_a_cent() {
        let wishes = SoundWishes::default();
        let mut worst = 0.0_f64;
        for (rate, every) in [(44_100.0, 1), (48_000.0, 5), (96_000.0, 13)] {
            for key in (21..=96).step_by(every).filter_map(Key::new) {
                let hertz = hertz(key, &wishes);
                let [struck, _] = struck(key, hertz);
                for voicing in
                    [plucked8(key, hertz), plucked4(key, hertz), buff(key, hertz), struck]
                {
                    let found = fundamental(&voicing, rate);
                    let cents = 1200.0 * libm::log2(found / voicing.scaling.hertz);
                    assert!(cents.abs() < 0.1, "{key:?} at {rate}: {cents} in {voicing:?}");
                    worst = worst.max(cents.abs());
                }
            }
        }
        println!("at worst {worst:.4} cents");
    }
}
