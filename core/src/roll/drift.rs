//! The slow drift of a player's pace from chord to chord.
//!
//! Three waves of chance, each slower than the last and equally strong, come near
//! the drift that Gilden, Thornton and Mallon found in people's timing ("1/f Noise
//! in Human Cognition", *Science* 267, 1995; from memory). Its size is our choice.

use crate::chance::Chance;

/// Chords from one turn of a wave to the next.
const LENGTHS: [usize; 3] = [1, 3, 9];
/// Largest swing of each wave, in thousandths.
const SWING: i64 = 60;

/// How much slower than usual a chord is taken, in thousandths, within ±180.
pub(super) fn at(seed: u32, chord: usize) -> i64 {
    let wave = |(number, &length): (usize, &usize)| {
        let turn = |at: usize| {
            let purpose = 1_000_003 + (at * LENGTHS.len() + number) as u64;
            Chance::of(u64::from(seed), purpose).around(SWING)
        };
        let (from, into) = (chord / length, (chord % length) as i64);
        turn(from) + (turn(from + 1) - turn(from)) * into / length as i64
    };
    LENGTHS.iter().enumerate().map(wave).sum()
}

#[cfg(test)]
mod tests {
    use super::at;

    #[test]
    fn neighbours_drift_together() {
        let drift: Vec<i64> = (0..900).map(|chord| at(7, chord)).collect();
        assert!(drift.iter().all(|d| d.abs() <= 180));
        let product = |apart: usize| -> i64 {
            drift.iter().zip(&drift[apart..]).map(|(a, b)| a * b).sum::<i64>()
        };
        // Positively correlated with the next, less with those further off.
        assert!(product(1) * 3 > product(0) && product(1) > product(6), "{}", product(1));
    }
}
