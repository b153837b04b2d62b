//! A small wooden room: a few early reflections and eight delay lines that feed
//! one another through a Householder matrix, after Jot and Chaigne, "Digital
//! Delay Networks for Designing Artificial Reverberators" (1991).

/// Lengths of the delay lines in milliseconds: mutually odd, our choice.
const LINES: [f64; 8] = [17.3, 21.1, 25.7, 29.9, 34.7, 39.3, 44.9, 50.3];
/// Early reflections: milliseconds, gain to left, gain to right.
const EARLY: [(f64, f32, f32); 6] = [
    (5.3, 0.30, 0.0),
    (7.9, 0.0, 0.27),
    (11.7, 0.22, 0.08),
    (15.1, 0.06, 0.20),
    (20.9, 0.15, 0.05),
    (26.3, 0.04, 0.13),
];
/// Time of the low reverberation to fall by 60 dB, in seconds.
const RING: f64 = 1.05;
/// What is left of that time near the top.
const BRIGHTNESS: f64 = 0.35;

/// A delay line with a loss filter at its end.
#[derive(Clone, Debug)]
struct Line {
    ring: Vec<f32>,
    at: usize,
    gain: f32,
    pole: f32,
    low: f32,
}

/// The room.
#[derive(Clone, Debug)]
pub(super) struct Room {
    lines: [Line; 8],
    past: Vec<f32>,
    at: usize,
    taps: [usize; 6],
    wet: f32,
}

impl Room {
    /// A room of which `wet` is heard beside the direct sound.
    pub(super) fn new(rate: f64, wet: f32) -> Room {
        let lines = LINES.map(|ms| {
            let length = (ms * rate / 1000.0) as usize | 1;
            let seconds = length as f64 / rate;
            let low = libm::pow(10.0, -3.0 * seconds / RING);
            let high = libm::pow(10.0, -3.0 * seconds / (RING * BRIGHTNESS));
            // One pole whose gain is `low` at 0 Hz and `high` at half the rate.
            let ratio = high / low;
            let pole = (1.0 - ratio) / (1.0 + ratio);
            Line {
                ring: vec![0.0; length],
                at: 0,
                gain: (low * (1.0 - pole)) as f32,
                pole: pole as f32,
                low: 0.0,
            }
        });
        let taps = EARLY.map(|(ms, _, _)| (ms * rate / 1000.0) as usize);
        let longest = taps.iter().copied().max().unwrap_or(0) + 1;
        Room { lines, past: vec![0.0; longest.next_power_of_two()], at: 0, taps, wet }
    }

    /// The direct sound with the room's answer added.
    pub(super) fn pass(&mut self, left: f32, right: f32) -> (f32, f32) {
        let mask = self.past.len() - 1;
        // The tiny constant keeps the tail clear of denormal numbers.
        let middle = 0.5 * (left + right) + 1e-18;
        self.past[self.at & mask] = middle;
        let (mut l, mut r) = (0.0, 0.0);
        for (&tap, &(_, to_left, to_right)) in self.taps.iter().zip(&EARLY) {
            let y = self.past[self.at.wrapping_sub(tap) & mask];
            l += to_left * y;
            r += to_right * y;
        }
        self.at = self.at.wrapping_add(1);

        let mut ends = [0.0; 8];
        for (end, line) in ends.iter_mut().zip(&mut self.lines) {
            line.low = line.gain * line.ring[line.at] + line.pole * line.low;
            *end = line.low;
        }
        let shared = ends.iter().sum::<f32>() * 0.25;
        for (i, (line, &end)) in self.lines.iter_mut().zip(&ends).enumerate() {
            let side = if i % 2 == 0 { left } else { right };
            line.ring[line.at] = end - shared + 0.5 * side;
            line.at += 1;
            if line.at == line.ring.len() {
                line.at = 0;
            }
        }
        for i in 0..4 {
            let sign = if i < 2 { 0.5 } else { -0.5 };
            l += sign * ends[2 * i];
            r += sign * ends[2 * i + 1];
        }
        (left + self.wet * l, right + self.wet * r)
    }
}
