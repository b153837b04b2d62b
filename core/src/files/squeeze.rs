//! Makes short byte strings shorter: an arithmetic coder that learns as it goes.
//!
//! Bits of a byte are coded from the top; the chance of each is the mean of two
//! learners, one that knows only the bits before it in the byte, one that also
//! knows the byte before. Both sides run the same integer arithmetic. General
//! compressors carry tables that a link of eighty bytes does not repay.

/// Learners for each of the 255 places in a byte, after each of 64 classes of
/// the byte before.
const PLACES: usize = 256;
const CLASSES: usize = 64;
/// How many bits a learner remembers at most; more is slower and steadier.
const MEMORY: u16 = 30;

/// The chance that a bit is set, in 65536ths, and how often it was asked.
#[derive(Clone, Copy)]
struct Learner {
    chance: u16,
    seen: u16,
}

impl Learner {
    const NEW: Learner = Learner { chance: 1 << 15, seen: 0 };

    fn learn(&mut self, bit: bool) {
        let target: i32 = if bit { 65_535 } else { 0 };
        let step = (target - i32::from(self.chance)) * 2 / (2 * i32::from(self.seen) + 3);
        self.chance = (i32::from(self.chance) + step).clamp(32, 65_503) as u16;
        self.seen = (self.seen + 1).min(MEMORY);
    }
}

struct Model {
    plain: Vec<Learner>,
    after: Vec<Learner>,
    before: usize,
}

impl Model {
    fn new() -> Model {
        Model {
            plain: vec![Learner::NEW; PLACES],
            after: vec![Learner::NEW; PLACES * CLASSES],
            before: 0,
        }
    }

    /// The chance, in 65536ths and never 0 or 1, that the next bit is set.
    fn chance(&self, place: usize) -> u32 {
        let plain = self.plain.get(place).copied().unwrap_or(Learner::NEW);
        let after = self.after.get(self.before * PLACES + place).copied();
        let after = after.unwrap_or(Learner::NEW);
        // The better informed learner counts for more.
        let weight = 1 + 2 * u32::from(after.seen.min(3));
        (u32::from(plain.chance) * 2 + u32::from(after.chance) * weight) / (2 + weight)
    }

    fn learn(&mut self, place: usize, bit: bool) {
        if let Some(learner) = self.plain.get_mut(place) {
            learner.learn(bit);
        }
        if let Some(learner) = self.after.get_mut(self.before * PLACES + place) {
            learner.learn(bit);
        }
    }

    fn end_of(&mut self, byte: u8) {
        self.before = usize::from(byte) % CLASSES;
    }
}

/// Where the interval [low, high] is split for a bit that is set.
fn split(low: u32, high: u32, chance: u32) -> u32 {
    low + ((u64::from(high - low) * u64::from(chance)) >> 16) as u32
}

/// The bytes squeezed; may come out longer than they were.
pub(super) fn squeeze(bytes: &[u8]) -> Vec<u8> {
    let mut model = Model::new();
    let mut out = Vec::with_capacity(bytes.len());
    let (mut low, mut high) = (0u32, u32::MAX);
    for &byte in bytes {
        let mut place = 1;
        for shift in (0..8).rev() {
            let bit = byte >> shift & 1 == 1;
            let middle = split(low, high, model.chance(place));
            if bit {
                high = middle;
            } else {
                low = middle + 1;
            }
            model.learn(place, bit);
            place = place * 2 + usize::from(bit);
            while (low ^ high) >> 24 == 0 {
                out.push((high >> 24) as u8);
                low <<= 8;
                high = high << 8 | 255;
            }
        }
        model.end_of(byte);
    }
    // The fewest bytes that, followed by zeros, lie between low and high.
    let end = (1..=4).find_map(|kept| {
        let mask = u32::MAX.checked_shr(8 * kept).unwrap_or(0);
        let value = low.checked_add(mask)? & !mask;
        (low <= value && value <= high).then_some((value, kept as usize))
    });
    if low > 0 {
        let (value, kept) = end.unwrap_or((low, 4));
        out.extend(value.to_be_bytes().iter().take(kept));
    }
    while out.last() == Some(&0) {
        out.pop();
    }
    out
}

/// The `length` bytes that were squeezed. Any input gives some answer; whether
/// it is the right one is for a checksum to say.
pub(super) fn unsqueeze(squeezed: &[u8], length: usize) -> Vec<u8> {
    let mut model = Model::new();
    let mut input = squeezed.iter().copied();
    let mut next = move || u32::from(input.next().unwrap_or(0));
    let (mut low, mut high) = (0u32, u32::MAX);
    let mut value = (0..4).fold(0u32, |value, _| value << 8 | next());
    let mut out = Vec::with_capacity(length);
    for _ in 0..length {
        let mut place = 1;
        for _ in 0..8 {
            let middle = split(low, high, model.chance(place));
            let bit = value <= middle;
            if bit {
                high = middle;
            } else {
                low = middle + 1;
            }
            model.learn(place, bit);
            place = place * 2 + usize::from(bit);
            while (low ^ high) >> 24 == 0 {
                low <<= 8;
                high = high << 8 | 255;
                value = value << 8 | next();
            }
        }
        let byte = (place & 255) as u8;
        model.end_of(byte);
        out.push(byte);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn comes_back_as_it_was() {
        let mut inputs: Vec<Vec<u8>> =
            vec![vec![], vec![0], vec![255], vec![0; 1000], vec![255; 1000]];
        inputs.push((0..=255).collect());
        inputs.push((0..4000u32).map(|i| ((i * i) >> 5) as u8).collect());
        inputs.push(b"a repeated phrase, a repeated phrase, a repeated phrase".to_vec());
        for start in 0..64u32 {
            let mut x = start;
            let noise = (0..start).map(|_| {
                x = x.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                (x >> 24) as u8
            });
            inputs.push(noise.collect());
        }
        for input in inputs {
            assert_eq!(unsqueeze(&squeeze(&input), input.len()), input);
        }
        assert!(squeeze(&[7; 1000]).len() < 40);
    }
}
