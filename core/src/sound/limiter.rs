//! A look-ahead limiter: below its ceiling it changes nothing; above, it turns
//! the sound down smoothly before the peak arrives.
//!
//! Gains are whole numbers, so that the sliding mean is exact and never drifts.

use std::collections::VecDeque;

/// The highest sample let through: -1 dB of full scale.
pub(super) const CEILING: f32 = 0.891;
/// Gain 1 as a whole number.
const ONE: u32 = 1 << 24;

/// The limiter.
#[derive(Clone, Debug)]
pub(super) struct Limiter {
    /// Look-ahead, in samples.
    ahead: usize,
    waiting: VecDeque<(f32, f32)>,
    /// Falling candidates for the smallest gain in the window, with their times.
    least: VecDeque<(u64, u32)>,
    means: VecDeque<u32>,
    sum: u64,
    gain: u32,
    rise: u32,
    now: u64,
}

impl Limiter {
    /// A limiter that looks 4 ms ahead.
    pub(super) fn new(rate: f64) -> Limiter {
        let ahead = ((0.004 * rate) as usize).max(1);
        Limiter {
            ahead,
            waiting: std::iter::repeat_n((0.0, 0.0), ahead).collect(),
            least: VecDeque::new(),
            means: std::iter::repeat_n(ONE, ahead).collect(),
            sum: u64::from(ONE) * ahead as u64,
            gain: ONE,
            // Back from half to full in about 0.3 s.
            rise: (f64::from(ONE) / (0.6 * rate)) as u32,
            now: 0,
        }
    }

    /// How many samples the sound comes out later.
    pub(super) fn latency(&self) -> usize {
        self.ahead
    }

    /// The samples of `latency` ago, limited.
    pub(super) fn pass(&mut self, left: &mut [f32], right: &mut [f32]) {
        let low = |side: &[f32]| side.iter().all(|x| x.abs() <= CEILING);
        if self.rests() && low(left) && low(right) {
            for (l, r) in left.iter_mut().zip(right) {
                self.waiting.push_back((*l, *r));
                (*l, *r) = self.waiting.pop_front().unwrap_or((0.0, 0.0));
            }
            return;
        }
        for (l, r) in left.iter_mut().zip(right) {
            (*l, *r) = self.one(*l, *r);
        }
    }

    /// Whether everything in the window passes untouched.
    fn rests(&self) -> bool {
        self.gain == ONE
            && self.sum == u64::from(ONE) * self.ahead as u64
            && self.least.iter().all(|&(_, gain)| gain == ONE)
    }

    fn one(&mut self, left: f32, right: f32) -> (f32, f32) {
        let peak = left.abs().max(right.abs());
        let wanted = if peak > CEILING { (CEILING / peak * ONE as f32) as u32 } else { ONE };
        while self.least.back().is_some_and(|&(_, gain)| gain >= wanted) {
            self.least.pop_back();
        }
        self.least.push_back((self.now, wanted));
        while self.least.front().is_some_and(|&(at, _)| at + (self.ahead as u64) < self.now) {
            self.least.pop_front();
        }
        self.now += 1;
        let least = self.least.front().map_or(ONE, |&(_, gain)| gain);
        self.gain = least.min(self.gain + self.rise).min(ONE);
        self.means.push_back(self.gain);
        self.sum += u64::from(self.gain);
        self.sum -= u64::from(self.means.pop_front().unwrap_or(0));
        self.waiting.push_back((left, right));
        let (l, r) = self.waiting.pop_front().unwrap_or((0.0, 0.0));
        let mean = self.sum / self.ahead as u64;
        if mean == u64::from(ONE) {
            return (l, r);
        }
        let gain = mean as f32 / ONE as f32;
        ((l * gain).clamp(-CEILING, CEILING), (r * gain).clamp(-CEILING, CEILING))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quiet_sound_passes_untouched_and_loud_stays_below_the_ceiling() {
        let mut limiter = Limiter::new(48_000.0);
        let late = limiter.latency();
        let sound: Vec<f32> = (0..9000)
            .map(|i| {
                let loud = if (4000..6000).contains(&i) { 3.0 } else { 0.8 };
                loud * ((i as f32) * 0.05).sin()
            })
            .collect();
        let mut out = sound.clone();
        for chunk in out.chunks_mut(64) {
            let mut other = chunk.to_vec();
            limiter.pass(chunk, &mut other);
        }
        assert!(out.iter().all(|y| y.abs() <= CEILING));
        assert_eq!(out[late..3500], sound[..3500 - late]);
    }
}
