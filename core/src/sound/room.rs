//! A small wooden room: a few early reflections and twelve delay lines that feed
//! one another through a Householder matrix, after Jot and Chaigne, "Digital
//! Delay Networks for Designing Artificial Reverberators" (1991).

/// How many delay lines there are: enough that their modes lie closer together
/// than each is wide, so that no note sticks out.
const COUNT: usize = 12;
/// Lengths of the delay lines in milliseconds: mutually odd, our choice.
const LINES: [f64; COUNT] =
    [18.7, 22.1, 25.9, 29.3, 33.7, 37.9, 42.1, 46.7, 51.1, 55.9, 61.3, 67.9];
/// Early reflections: milliseconds, gain to left, gain to right.
const EARLY: [(f64, f32, f32); 6] = [
    (5.3, 0.30, 0.0),
    (7.9, 0.0, 0.27),
    (11.7, 0.22, 0.08),
    (15.1, 0.06, 0.20),
    (20.9, 0.15, 0.05),
    (26.3, 0.04, 0.13),
];
/// Below this the room answers less, in hertz: its few low modes would boom.
const CUT: f64 = 220.0;
/// Time of the low reverberation to fall by 60 dB, in seconds.
const RING: f64 = 0.9;
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
    lines: [Line; COUNT],
    past: Vec<f32>,
    at: usize,
    taps: [usize; 6],
    wet: f32,
    /// What the room does not answer to: the slow part of each side.
    slow: [f32; 2],
    creep: f32,
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
        let creep = (1.0 - libm::exp(-std::f64::consts::TAU * CUT / rate)) as f32;
        let past = vec![0.0; longest.next_power_of_two()];
        Room { lines, past, at: 0, taps, wet, slow: [0.0; 2], creep }
    }

    /// The direct sound with the room's answer added.
    pub(super) fn pass(&mut self, left: f32, right: f32) -> (f32, f32) {
        let mask = self.past.len() - 1;
        let direct = (left, right);
        // The tiny constant keeps the tail clear of denormal numbers.
        self.slow[0] += self.creep * (left - self.slow[0]) + 1e-18;
        self.slow[1] += self.creep * (right - self.slow[1]) + 1e-18;
        let (left, right) = (left - self.slow[0], right - self.slow[1]);
        let middle = 0.5 * (left + right);
        self.past[self.at & mask] = middle;
        let (mut l, mut r) = (0.0, 0.0);
        for (&tap, &(_, to_left, to_right)) in self.taps.iter().zip(&EARLY) {
            let y = self.past[self.at.wrapping_sub(tap) & mask];
            l += to_left * y;
            r += to_right * y;
        }
        self.at = self.at.wrapping_add(1);

        let mut ends = [0.0; COUNT];
        for (end, line) in ends.iter_mut().zip(&mut self.lines) {
            line.low = line.gain * line.ring[line.at] + line.pole * line.low;
            *end = line.low;
        }
        let shared = ends.iter().sum::<f32>() * (2.0 / COUNT as f32);
        for (i, (line, &end)) in self.lines.iter_mut().zip(&ends).enumerate() {
            let side = if i % 2 == 0 { left } else { right };
            line.ring[line.at] = end - shared + 0.5 * side;
            line.at += 1;
            if line.at == line.ring.len() {
                line.at = 0;
            }
        }
        for (i, two) in ends.chunks_exact(2).enumerate() {
            let sign = if i % 2 == 0 { 0.4 } else { -0.4 };
            l += sign * two[0];
            r += sign * two[1];
        }
        (direct.0 + self.wet * l, direct.1 + self.wet * r)
    }
}
