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

/// Longest run of samples computed at a time; shorter than the shortest line at
/// every rate, so that a run never feeds itself.
const RUN: usize = 128;

/// The delay lines, each with a loss filter at its end.
#[derive(Clone, Debug)]
struct Lines {
    rings: [Vec<f32>; COUNT],
    at: [usize; COUNT],
    gain: [f32; COUNT],
    pole: [f32; COUNT],
    low: [f32; COUNT],
}

/// The room.
#[derive(Clone, Debug)]
pub(super) struct Room {
    lines: Lines,
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
        let length = LINES.map(|ms| (ms * rate / 1000.0) as usize | 1);
        let losses = length.map(|length| {
            let seconds = length as f64 / rate;
            let low = libm::pow(10.0, -3.0 * seconds / RING);
            let high = libm::pow(10.0, -3.0 * seconds / (RING * BRIGHTNESS));
            // One pole whose gain is `low` at 0 Hz and `high` at half the rate.
            let ratio = high / low;
            let pole = (1.0 - ratio) / (1.0 + ratio);
            (low * (1.0 - pole), pole)
        });
        let lines = Lines {
            rings: length.map(|length| vec![0.0; length]),
            at: [0; COUNT],
            gain: losses.map(|(gain, _)| gain as f32),
            pole: losses.map(|(_, pole)| pole as f32),
            low: [0.0; COUNT],
        };
        let taps = EARLY.map(|(ms, _, _)| (ms * rate / 1000.0) as usize);
        let longest = taps.iter().copied().max().unwrap_or(0) + 1;
        let creep = (1.0 - libm::exp(-std::f64::consts::TAU * CUT / rate)) as f32;
        // A whole run more, since a run is written before it is read.
        let past = vec![0.0; (longest + RUN).next_power_of_two()];
        Room { lines, past, at: 0, taps, wet, slow: [0.0; 2], creep }
    }

    /// Adds the room's answer to the direct sound.
    pub(super) fn pass(&mut self, left: &mut [f32], right: &mut [f32]) {
        for (left, right) in left.chunks_mut(RUN).zip(right.chunks_mut(RUN)) {
            self.run(left, right);
        }
    }

    fn run(&mut self, left: &mut [f32], right: &mut [f32]) {
        let count = left.len().min(right.len()).min(RUN);
        let mut into = [[0.0; 2]; RUN];
        let mut answer = [[0.0; 2]; RUN];
        let mask = self.past.len() - 1;
        for i in 0..count {
            // The tiny constant keeps the tail clear of denormal numbers.
            self.slow[0] += self.creep * (left[i] - self.slow[0]) + 1e-18;
            self.slow[1] += self.creep * (right[i] - self.slow[1]) + 1e-18;
            into[i] = [left[i] - self.slow[0], right[i] - self.slow[1]];
            self.past[(self.at + i) & mask] = 0.5 * (into[i][0] + into[i][1]);
        }
        for (&tap, &(_, to_left, to_right)) in self.taps.iter().zip(&EARLY) {
            for (i, [l, r]) in answer[..count].iter_mut().enumerate() {
                let y = self.past[(self.at + i).wrapping_sub(tap) & mask];
                *l += to_left * y;
                *r += to_right * y;
            }
        }
        self.at = self.at.wrapping_add(count);
        self.lines.run(&into[..count], &mut answer[..count]);
        for i in 0..count {
            left[i] += self.wet * answer[i][0];
            right[i] += self.wet * answer[i][1];
        }
    }
}

impl Lines {
    /// The lines' answer, added, and what goes into them again.
    fn run(&mut self, into: &[[f32; 2]], answer: &mut [[f32; 2]]) {
        let mut ends = [[0.0; COUNT]; RUN];
        for (line, (ring, &at)) in self.rings.iter().zip(&self.at).enumerate() {
            let (wrapped, ahead) = ring.split_at(at);
            for (end, x) in ends[..into.len()].iter_mut().zip(ahead.iter().chain(wrapped)) {
                end[line] = *x;
            }
        }
        for ((end, into), answer) in ends.iter_mut().zip(into).zip(answer) {
            for (line, x) in end.iter_mut().enumerate() {
                self.low[line] = self.gain[line] * *x + self.pole[line] * self.low[line];
                *x = self.low[line];
            }
            // Neighbouring lines go to opposite sides, every second pair turned over.
            for (i, two) in end.chunks_exact(2).enumerate() {
                let sign = if i % 2 == 0 { 0.4 } else { -0.4 };
                answer[0] += sign * two[0];
                answer[1] += sign * two[1];
            }
            let shared = end.iter().sum::<f32>() * (2.0 / COUNT as f32);
            for (line, y) in end.iter_mut().enumerate() {
                *y += 0.5 * into[line % 2] - shared;
            }
        }
        for (line, (ring, at)) in self.rings.iter_mut().zip(&mut self.at).enumerate() {
            let length = ring.len();
            let (wrapped, ahead) = ring.split_at_mut(*at);
            for (x, end) in ahead.iter_mut().chain(wrapped).zip(&ends[..into.len()]) {
                *x = end[line];
            }
            *at = (*at + into.len()) % length;
        }
    }
}
