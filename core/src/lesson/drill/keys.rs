//! The same bass through all keys.

use crate::chance::Chance;
use crate::lesson::in_tonality::in_tonality;
use crate::pitch::{Mode, PitchClass, Tonality};
use crate::sketch::Sketch;

/// In which order the keys come.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum KeyOrder {
    /// By fifths up: C, G, D and so on.
    FifthsUp,
    /// By fifths down: C, F, B♭ and so on.
    FifthsDown,
    /// By semitones up.
    SemitonesUp,
    /// By whole tones up, then the other six from a semitone up.
    TonesUp,
    /// Shuffled by a seed, the first key kept.
    Shuffled(u32),
}

/// All twelve keys of a mode from a first one on, each spelled with at most six
/// sharps or flats; the first as it is given.
pub fn all_keys(first: Tonality, order: KeyOrder) -> Vec<Tonality> {
    // Fifths from the first key to each of the twelve.
    let mut steps: Vec<i32> = match order {
        KeyOrder::FifthsUp | KeyOrder::Shuffled(_) => (0..12).collect(),
        KeyOrder::FifthsDown => (0..12).map(|i| -i).collect(),
        // A semitone up is seven fifths up, a whole tone two.
        KeyOrder::SemitonesUp => (0..12).map(|i| 7 * i).collect(),
        KeyOrder::TonesUp => (0..6).map(|i| 2 * i).chain((0..6).map(|i| 7 + 2 * i)).collect(),
    };
    if let KeyOrder::Shuffled(seed) = order {
        let mut chance = Chance::of(u64::from(seed), 12);
        for i in (2..steps.len()).rev() {
            let j = 1 + chance.below(i as u64) as usize;
            steps.swap(i, j);
        }
    }
    let key = |(i, step): (usize, i32)| {
        if i == 0 { first } else { plain(first.tonic.fifths() + step, first.mode) }
    };
    steps.into_iter().enumerate().map(key).collect()
}

/// The tonality on a tonic by fifths, spelled with the plainest signature; of six
/// sharps and six flats the one that was asked for.
fn plain(fifths: i32, mode: Mode) -> Tonality {
    let relative = match mode {
        Mode::Major => 0,
        Mode::Minor => 3,
    };
    let mut signature = fifths - relative;
    while signature > 6 {
        signature -= 12;
    }
    while signature < -6 {
        signature += 12;
    }
    Tonality::new(PitchClass::from_fifths(signature + relative), mode)
}

/// The sketch in each of these keys, in order.
pub fn through_keys(sketch: &Sketch, keys: &[Tonality]) -> Vec<Sketch> {
    keys.iter().map(|&key| in_tonality(sketch, key)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn order(first: &str, order: KeyOrder) -> String {
        let first = Tonality::parse(first).expect("a tonality");
        let keys = all_keys(first, order);
        keys.iter().map(|key| key.tonic.to_string()).collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn keys_come_in_their_order() {
        assert_eq!(order("C", KeyOrder::FifthsUp), "C G D A E B F♯ D♭ A♭ E♭ B♭ F");
        assert_eq!(order("C", KeyOrder::FifthsDown), "C F B♭ E♭ A♭ D♭ G♭ B E A D G");
        assert_eq!(order("D", KeyOrder::SemitonesUp), "D E♭ E F F♯ G A♭ A B♭ B C D♭");
        assert_eq!(order("C", KeyOrder::TonesUp), "C D E F♯ A♭ B♭ D♭ E♭ F G A B");
        assert_eq!(order("a", KeyOrder::FifthsUp), "A E B F♯ C♯ G♯ D♯ B♭ F C G D");
    }

    #[test]
    fn every_order_has_each_key_once() {
        for seed in 0..50 {
            let mut keys: Vec<i32> =
                all_keys(Tonality::parse("Eb").expect("a tonality"), KeyOrder::Shuffled(seed))
                    .iter()
                    .map(|key| key.tonic.chroma())
                    .collect();
            assert_eq!(keys[0], 3);
            keys.sort_unstable();
            assert_eq!(keys, (0..12).collect::<Vec<_>>());
        }
        assert_ne!(order("C", KeyOrder::Shuffled(1)), order("C", KeyOrder::Shuffled(2)));
    }
}
