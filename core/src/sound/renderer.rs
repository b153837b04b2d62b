//! From a performance to samples, in slices of any size.
//!
//! Inside, time runs in blocks cut exactly where keys move, so the samples are
//! the same however the caller slices them.

use super::bank::{BLOCK, Bank};
use super::body::Body;
use super::burst::Burst;
use super::course::Course;
use super::ends::Ends;
use super::limiter::Limiter;
use super::room::Room;
use super::{SoundWishes, hertz};
use crate::hands::Hand;
use crate::pitch::{Key, Pitch, Step};
use crate::roll::{Micros, NoteKind, Performance, Touch};

/// Below this the ear hears nothing: -100 dB of full scale.
const INAUDIBLE: f32 = 1e-5;

/// A key moving at a sample.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Event {
    at: u64,
    // Rising keys come first, so that a key struck again is free.
    motion: Motion,
    key: Key,
    velocity: u8,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Motion {
    Up,
    Down,
}

/// Computes the sound of a performance, lazily.
#[derive(Clone, Debug)]
pub struct Renderer {
    rate: f64,
    events: Vec<Event>,
    next: usize,
    courses: Vec<Course>,
    bank: Bank,
    place: [Option<u8>; 128],
    bursts: Vec<Burst>,
    ends: Option<Ends>,
    body: Body,
    room: Room,
    limiter: Limiter,
    /// Samples computed so far.
    clock: u64,
    /// No sound is begun from here on.
    end: u64,
    left: [f32; BLOCK],
    right: [f32; BLOCK],
    taken: usize,
    quiet: usize,
    over: bool,
}

impl Renderer {
    /// A renderer at `rate` samples per second (clamped to [8000, 384000]) that
    /// starts at the moment `from`: touches that go down at or after it sound.
    ///
    /// Allocates: one loop for each key used, the room and the event list.
    pub fn new(
        performance: &Performance,
        wishes: &SoundWishes,
        rate: u32,
        from: Micros,
    ) -> Renderer {
        let rate = f64::from(rate.clamp(8000, 384_000));
        let sample = |at: Micros| {
            let micros = u128::from(at.0.saturating_sub(from.0));
            (micros * rate as u128 / 1_000_000) as u64
        };
        let mut events = Vec::new();
        let mut place = [None; 128];
        let mut courses: Vec<Course> = Vec::new();
        let mut bank = Bank::new(rate);
        for touch in performance.touches.iter().filter(|touch| touch.down >= from) {
            let (key, velocity) = (touch.key, touch.velocity);
            let down = sample(touch.down);
            let up = sample(touch.up).max(down + 1);
            events.push(Event { at: down, motion: Motion::Down, key, velocity });
            events.push(Event { at: up, motion: Motion::Up, key, velocity });
            if place[key.index()].is_none() {
                place[key.index()] = Some(courses.len() as u8);
                let (hertz, number) = (hertz(key, wishes), courses.len());
                courses.push(Course::new(key, hertz, wishes.voice, rate, number, &mut bank));
            }
        }
        events.sort_unstable();
        let end = events.last().map_or(0, |event| event.at).max(sample(performance.end));
        let mut renderer = Renderer {
            rate,
            events,
            next: 0,
            courses,
            bank,
            place,
            bursts: Vec::new(),
            ends: wishes.voice.has_free_ends().then(|| Ends::new(rate)),
            body: Body::new(rate),
            room: Room::new(rate, 0.22),
            limiter: Limiter::new(rate),
            clock: 0,
            end,
            left: [0.0; BLOCK],
            right: [0.0; BLOCK],
            taken: BLOCK,
            quiet: 0,
            over: false,
        };
        // The limiter looks ahead; what it still owes from before the start is dropped.
        let mut owed = renderer.limiter.latency();
        while owed > 0 {
            renderer.compute();
            renderer.taken = owed.min(BLOCK);
            owed -= renderer.taken;
        }
        renderer
    }

    /// Fills both slices, which must be equally long (the shorter length counts),
    /// with the next samples in the range [-1, 1]. False when all is over; the
    /// slices are then filled with silence.
    ///
    /// Cost: proportional to the samples and to the strings that sound.
    pub fn render(&mut self, left: &mut [f32], right: &mut [f32]) -> bool {
        let wanted = left.len().min(right.len());
        let mut done = 0;
        while done < wanted && !self.over {
            if self.taken == BLOCK {
                self.compute();
                if self.over {
                    break;
                }
                self.taken = 0;
            }
            let n = (BLOCK - self.taken).min(wanted - done);
            left[done..done + n].copy_from_slice(&self.left[self.taken..self.taken + n]);
            right[done..done + n].copy_from_slice(&self.right[self.taken..self.taken + n]);
            self.taken += n;
            done += n;
        }
        left[done..].fill(0.0);
        right[done..].fill(0.0);
        done > 0 || !self.over
    }

    /// Computes the next block.
    fn compute(&mut self) {
        let mut left = [0.0; BLOCK];
        let mut right = [0.0; BLOCK];
        let mut from = 0;
        self.bank.next_block();
        while from < BLOCK {
            while let Some(&event) = self.events.get(self.next) {
                if event.at > self.clock + from as u64 {
                    break;
                }
                self.next += 1;
                self.move_key(event);
            }
            let next = self.events.get(self.next).map_or(u64::MAX, |event| event.at - self.clock);
            let to = next.min(BLOCK as u64) as usize;
            let (l, r) = (&mut left[from..to], &mut right[from..to]);
            self.bank.add(from, l, r);
            for course in &mut self.courses {
                course.add(l, r);
            }
            for burst in &mut self.bursts {
                burst.add(l, r);
            }
            from = to;
        }
        self.bursts.retain(|burst| !burst.is_over());
        self.clock += BLOCK as u64;

        if let Some(ends) = &mut self.ends {
            ends.pass(&mut left, &mut right);
        }
        self.body.pass(&mut left, &mut right);
        self.room.pass(&mut left, &mut right);
        self.limiter.pass(&mut left, &mut right);
        (self.left, self.right) = (left, right);
        let peak = left.iter().chain(&right).fold(0.0_f32, |peak, x| peak.max(x.abs()));
        self.quiet = if peak < INAUDIBLE { self.quiet + BLOCK } else { 0 };
        // The room may fall silent for a moment between two reflections, not for longer.
        let silent = self.quiet > (0.25 * self.rate) as usize;
        let done = self.next == self.events.len() && self.clock > self.end;
        let too_long = self.clock > self.end + (15.0 * self.rate) as u64;
        self.over = (done && silent) || too_long;
    }

    /// Plucks or damps.
    fn move_key(&mut self, event: Event) {
        let Some(place) = self.place[event.key.index()] else { return };
        let Some(course) = self.courses.get_mut(usize::from(place)) else { return };
        match event.motion {
            Motion::Down => {
                course.down(event.velocity, self.rate, &mut self.bank, &mut self.bursts);
            }
            Motion::Up => course.up(self.rate, &mut self.bank, &mut self.bursts),
        }
    }
}

/// A performance of one key, held until `up`.
pub fn one_key(key: Key, up: Micros) -> Performance {
    let touch = Touch {
        key,
        pitch: Pitch::new(Step::C, 0, 4),
        hand: Hand::Right,
        chord: 0,
        down: Micros(0),
        up,
        velocity: 80,
        kind: NoteKind::Chord,
    };
    Performance { touches: vec![touch], end: up, ..Performance::default() }
}

/// The sound of one key, held for most of `seconds` (clamped to [0.05, 20]) and
/// ending in silence: left and right samples.
///
/// Allocates: the answer. Cost: a few milliseconds for a second of sound.
pub fn strike(key: Key, wishes: &SoundWishes, rate: u32, seconds: f32) -> (Vec<f32>, Vec<f32>) {
    let seconds = if seconds.is_finite() { f64::from(seconds).clamp(0.05, 20.0) } else { 1.0 };
    let rate = rate.clamp(8000, 384_000);
    let up = Micros((seconds * 0.75 * 1e6) as u64);
    let performance = one_key(key, up);
    let mut renderer = Renderer::new(&performance, wishes, rate, Micros(0));
    let length = (seconds * f64::from(rate)) as usize;
    let (mut left, mut right) = (vec![0.0; length], vec![0.0; length]);
    renderer.render(&mut left, &mut right);
    let fade = ((0.02 * f64::from(rate)) as usize).min(length);
    for i in 0..fade {
        let gain = i as f32 / fade as f32;
        left[length - 1 - i] *= gain;
        right[length - 1 - i] *= gain;
    }
    (left, right)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn little_piece() -> Performance {
        let touch = |number: i32, down: u64, up: u64| Touch {
            key: Key::clamped(number),
            pitch: Pitch::new(Step::C, 0, 4),
            hand: Hand::Left,
            chord: 0,
            down: Micros::from_ms(down),
            up: Micros::from_ms(up),
            velocity: 80,
            kind: NoteKind::Chord,
        };
        let touches = vec![
            touch(45, 0, 700),
            touch(52, 93, 700),
            touch(60, 187, 650),
            touch(60, 400, 750),
            touch(88, 420, 430),
        ];
        Performance { touches, end: Micros::from_ms(1500), ..Performance::default() }
    }

    fn samples(performance: &Performance, slice: usize) -> (Vec<f32>, Vec<f32>) {
        let wishes = SoundWishes::default();
        let mut renderer = Renderer::new(performance, &wishes, 44_100, Micros(0));
        let (mut all_left, mut all_right) = (Vec::new(), Vec::new());
        let (mut left, mut right) = (vec![0.0; slice], vec![0.0; slice]);
        while renderer.render(&mut left, &mut right) {
            all_left.extend_from_slice(&left);
            all_right.extend_from_slice(&right);
        }
        (all_left, all_right)
    }

    #[test]
    fn slicing_does_not_change_a_sample() {
        let piece = little_piece();
        let (whole, other) = samples(&piece, 400_000);
        for slice in [1, 63, 64, 127, 4096] {
            let (left, right) = samples(&piece, slice);
            let n = left.len().min(whole.len());
            assert!(n > 66_000);
            assert!(left[..n] == whole[..n] && right[..n] == other[..n], "slices of {slice}");
            assert!(left[n..].iter().chain(&whole[n..]).all(|&x| x == 0.0));
        }
    }

    #[test]
    fn it_starts_at_once_ends_and_stays_below_full_scale() {
        let (left, right) = samples(&little_piece(), 1000);
        assert!(left[..200].iter().any(|x| x.abs() > 0.005));
        assert!(left.iter().chain(&right).all(|x| x.abs() < 0.9 && x.is_finite()));
        assert!(left.len() < 44_100 * 10);
        assert!(left[left.len() - 1000..].iter().all(|x| x.abs() < 1e-4));
    }

    #[test]
    fn a_start_in_the_middle_leaves_out_what_began_before() {
        let wishes = SoundWishes::default();
        let piece = little_piece();
        let later = Performance {
            touches: piece
                .touches
                .iter()
                .filter(|touch| touch.down >= Micros::from_ms(400))
                .map(|touch| Touch {
                    down: Micros(touch.down.0 - 400_000),
                    up: Micros(touch.up.0 - 400_000),
                    ..*touch
                })
                .collect(),
            end: Micros(piece.end.0 - 400_000),
            ..Performance::default()
        };
        let mut from = Renderer::new(&piece, &wishes, 48_000, Micros::from_ms(400));
        let mut alone = Renderer::new(&later, &wishes, 48_000, Micros(0));
        let (mut a, mut b) = (vec![0.0; 30_000], vec![0.0; 30_000]);
        let mut other = vec![0.0; 30_000];
        from.render(&mut a, &mut other);
        alone.render(&mut b, &mut other);
        assert!(a == b && a.iter().any(|&x| x != 0.0));
    }

    #[test]
    fn nothing_to_play_is_over_at_once() {
        let wishes = SoundWishes::default();
        let mut renderer = Renderer::new(&Performance::default(), &wishes, 48_000, Micros(0));
        let (mut left, mut right) = ([1.0; 48_000], [1.0; 48_000]);
        renderer.render(&mut left, &mut right);
        assert!(left.iter().all(|&x| x.abs() < 1e-12));
        assert!(!renderer.render(&mut left, &mut right));
    }

    #[test]
    fn every_key_can_be_struck_at_every_rate() {
        let wishes = SoundWishes { a4: 480.0, ..SoundWishes::default() };
        for rate in [8000, 44_100, 48_000, 96_000] {
            for number in (0..128).step_by(9) {
                let (left, right) = strike(Key::clamped(number), &wishes, rate, 0.2);
                assert_eq!(left.len(), right.len());
                assert!(left.iter().all(|x| x.is_finite() && x.abs() < 0.9), "{number} at {rate}");
            }
        }
    }
}
