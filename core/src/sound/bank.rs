//! All the strings of an instrument on one bridge, computed four at a time.
//!
//! What the bridge carries sets every string going a little whose damper is off:
//! held strings answer one another where their partials meet. The bridge passes
//! on what it carried a block ago, two or three milliseconds.

use super::biquad::Biquad;
use super::string::{CHUNK, LANES, Strung, filter};

/// Samples of a block.
pub(super) const BLOCK: usize = 128;

/// The part of the bridge's movement that each free string takes up in one turn.
/// Our choice: weak enough that the pitch stays (a turn of 0.0003 in phase is less
/// than a tenth of a cent) and that no number of strings keeps itself going.
const TAKEN_UP: f32 = 0.000_3;
/// Below this, in hertz, the bridge does not yield. Every loop would ring at 0 Hz, and
/// there all of them would meet.
const STIFF_BELOW: f64 = 14.0;

/// A string's place in the bank.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Place(usize);

/// The strings.
#[derive(Clone, Debug)]
pub(super) struct Bank {
    /// By length, so that strings computed together have loops about equally long.
    strings: Vec<Hung>,
    /// Where the strings are now, in the order they were hung.
    places: Vec<usize>,
    /// What all strings together give the bridge.
    bridge: Carried,
    /// What each course gives it.
    courses: Vec<Carried>,
    yielding: Biquad,
}

/// A string, its course, and its gains to left and right.
#[derive(Clone, Debug)]
struct Hung {
    string: Strung,
    course: usize,
    gain: (f32, f32),
}

/// What the bridge, or a course alone, carries in this block and carried in the last.
#[derive(Clone, Debug)]
struct Carried {
    now: [f32; BLOCK],
    before: [f32; BLOCK],
    still: bool,
}

impl Default for Carried {
    fn default() -> Carried {
        Carried { now: [0.0; BLOCK], before: [0.0; BLOCK], still: true }
    }
}

impl Carried {
    fn next_block(&mut self) {
        if !self.still {
            self.before = self.now;
            self.now = [0.0; BLOCK];
            self.still = self.before.iter().all(|&y| y == 0.0);
        }
    }

    fn take(&mut self, from: usize, chunk: &[f32]) {
        for (sum, y) in self.taking(from).iter_mut().zip(chunk) {
            *sum += y;
        }
    }

    /// Where what comes from a sample on is added.
    fn taking(&mut self, from: usize) -> &mut [f32] {
        self.still = false;
        self.now.get_mut(from..).unwrap_or_default()
    }

    /// What the last block carried at these samples.
    fn heard(&self, from: usize) -> &[f32] {
        self.before.get(from..).unwrap_or_default()
    }
}

impl Bank {
    /// Adds a string of a course; strings of one course do not drive one another.
    pub(super) fn hang(&mut self, string: Strung, course: usize, gain: (f32, f32)) -> Place {
        let place = self.strings.partition_point(|hung| rank(&hung.string) <= rank(&string));
        for other in self.places.iter_mut().filter(|other| **other >= place) {
            *other += 1;
        }
        self.strings.insert(place, Hung { string, course, gain });
        self.places.push(place);
        if self.courses.len() <= course {
            self.courses.resize_with(course + 1, Carried::default);
        }
        Place(self.places.len() - 1)
    }

    /// The string hung at a place.
    pub(super) fn string(&mut self, place: Place) -> Option<&mut Strung> {
        let at = *self.places.get(place.0)?;
        self.strings.get_mut(at).map(|hung| &mut hung.string)
    }

    /// An empty bank.
    pub(super) fn new(rate: f64) -> Bank {
        Bank {
            strings: Vec::new(),
            places: Vec::new(),
            bridge: Carried::default(),
            courses: Vec::new(),
            yielding: Biquad::high_pass(STIFF_BELOW, 0.7, rate),
        }
    }

    /// Begins a block.
    pub(super) fn next_block(&mut self) {
        self.bridge.next_block();
        if !self.bridge.still {
            for x in &mut self.bridge.before {
                *x = self.yielding.pass(f64::from(*x)) as f32;
            }
        }
        self.courses.iter_mut().for_each(Carried::next_block);
    }

    /// Adds the samples from `from` of the block on to both sides, which end within it.
    pub(super) fn add(&mut self, from: usize, left: &mut [f32], right: &mut [f32]) {
        let Bank { strings, bridge, courses, .. } = self;
        let mut sounding = strings.iter_mut().filter(|hung| hung.string.sounds()).peekable();
        while let Some(first) = sounding.next() {
            let stages = first.string.stages();
            let mut group: [Option<&mut Hung>; LANES] = [const { None }; LANES];
            group[0] = Some(first);
            for place in group.iter_mut().skip(1) {
                *place = sounding.next_if(|hung| hung.string.stages() == stages);
            }
            turn(&mut group, bridge, courses, from, left, right);
        }
    }
}

/// Strings with no stiffness first, then by length.
fn rank(string: &Strung) -> (usize, usize) {
    (string.stages(), string.period())
}

/// Computes some strings side by side.
fn turn(
    group: &mut [Option<&mut Hung>; LANES],
    bridge: &mut Carried,
    courses: &mut [Carried],
    from: usize,
    left: &mut [f32],
    right: &mut [f32],
) {
    let longest = group.iter().flatten().map(|hung| hung.string.longest()).min().unwrap_or(1);
    let count = left.len().min(right.len());
    // What the strings give, sample by sample, and one string's own.
    let (mut given, mut chunk) = ([[0.0; LANES]; CHUNK], [0.0; CHUNK]);
    let mut done = 0;
    while done < count {
        let size = longest.min(count - done);
        let at = from + done;
        let beside = &mut given[..size];
        for (lane, hung) in group.iter_mut().enumerate() {
            match hung {
                Some(hung) => hung.string.come_back(beside, lane),
                None => beside.iter_mut().for_each(|y| y[lane] = 0.0),
            }
        }
        let strings = group.each_mut().map(|hung| hung.as_mut().map(|hung| &mut hung.string));
        filter(strings, beside);
        for (lane, hung) in group.iter_mut().enumerate() {
            let Some(hung) = hung else { continue };
            let chunk = &mut chunk[..size];
            for (y, beside) in chunk.iter_mut().zip(beside.iter()) {
                *y = beside[lane];
            }
            let Some(course) = courses.get_mut(hung.course) else { continue };
            if hung.string.is_free() && !bridge.still {
                let heard = bridge.heard(at).iter().zip(course.heard(at));
                for (y, (all, own)) in chunk.iter_mut().zip(heard) {
                    *y += TAKEN_UP * (all - own);
                }
            }
            hung.string.go_on(chunk);
            course.take(at, chunk);
            for (beside, y) in beside.iter_mut().zip(chunk.iter()) {
                beside[lane] = *y;
            }
        }
        let gains: [(f32, f32); LANES] =
            std::array::from_fn(|i| group[i].as_deref().map_or((0.0, 0.0), |hung| hung.gain));
        let sides = left[done..done + size].iter_mut().zip(&mut right[done..done + size]);
        let carried = bridge.taking(at).iter_mut();
        for (((l, r), sum), y) in sides.zip(carried).zip(beside.iter()) {
            for (y, gain) in y.iter().zip(&gains) {
                *sum += y;
                *l += gain.0 * y;
                *r += gain.1 * y;
            }
        }
        done += size;
    }
}
