//! Prints every touch of a prelude of our own, for looking at its timing:
//! `cargo run -p tastata-tests --example touches -- [TONALITY [SECONDS [SEED]]]`.
//! Columns: chord, its role's dwell in microseconds, key down, key up, key, hand, kind.

use tastata::pitch::{Mode, PitchClass, Step, Tonality};
use tastata::prelude::prelude;
use tastata::reading::read;

fn main() {
    let mut arguments = std::env::args().skip(1);
    let word = arguments.next().unwrap_or_default();
    let a_minor = Tonality::new(PitchClass::new(Step::A, 0), Mode::Minor);
    let tonality = Tonality::parse(&word).unwrap_or(a_minor);
    let mut number = || arguments.next().and_then(|word| word.parse::<u32>().ok());
    let (seconds, seed) = (number().unwrap_or(45), number().unwrap_or(1));
    let performance = read(&prelude(tonality, seconds, seed)).performance;
    for touch in &performance.touches {
        let dwell = performance.dwells.get(touch.chord).map_or(0, |dwell| dwell.0);
        println!(
            "{}\t{dwell}\t{}\t{}\t{}\t{:?}\t{:?}",
            touch.chord,
            touch.down.0,
            touch.up.0,
            touch.key.number(),
            touch.hand,
            touch.kind
        );
    }
}
