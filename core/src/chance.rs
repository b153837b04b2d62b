//! Small freedoms from a seed: SplitMix64, a published counter-based generator.
//!
//! Source: Steele, Lea and Flood, "Fast Splittable Pseudorandom Number
//! Generators", OOPSLA 2014 (constants from memory, checked by the published
//! first outputs of seed 0 below). Integers only, so every machine draws the
//! same numbers.

/// A stream of numbers that a seed fully decides.
#[derive(Clone, Debug)]
pub(crate) struct Chance(u64);

impl Chance {
    /// The stream of a seed and of what it is drawn for, so that adding a draw
    /// in one place leaves all other places as they were.
    pub(crate) fn of(seed: u64, purpose: u64) -> Chance {
        let mut mixed = Chance(seed ^ purpose.wrapping_mul(0xD6E8_FEB8_6659_FD93));
        let start = mixed.draw();
        Chance(start)
    }

    /// The next 64 bits.
    pub(crate) fn draw(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A whole number in the range [0, below); 0 when `below` is 0.
    pub(crate) fn below(&mut self, below: u64) -> u64 {
        // The high half is well mixed; the bias for our small ranges is below 2⁻³².
        ((self.draw() >> 32) * below) >> 32
    }

    /// A whole number in the range [-spread, spread].
    pub(crate) fn around(&mut self, spread: i64) -> i64 {
        self.below(2 * spread.unsigned_abs() + 1) as i64 - spread.abs()
    }

    /// White noise in the range [-1, 1).
    pub(crate) fn noise(&mut self) -> f32 {
        (self.draw() >> 40) as f32 / 8_388_608.0 - 1.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn first_outputs_of_seed_zero_are_the_published_ones() {
        let mut chance = Chance(0);
        assert_eq!(chance.draw(), 0xE220_A839_7B1D_CDAF);
        assert_eq!(chance.draw(), 0x6E78_9E6A_A1B9_65F4);
        assert_eq!(chance.draw(), 0x06C4_5D18_8009_454F);
    }

    #[test]
    fn draws_stay_in_range() {
        let mut chance = Chance::of(7, 3);
        for _ in 0..1000 {
            assert!(chance.below(6) < 6);
            assert!(chance.around(4).abs() <= 4);
            assert!((-1.0..1.0).contains(&chance.noise()));
        }
        assert_eq!(chance.below(0), 0);
    }
}
