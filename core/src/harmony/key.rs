//! Finds the tonality a whole bass stands in, when nobody said.
//!
//! Common practice, no source: a bass ends on its tonic and mostly begins there
//! or on the 5th; its notes belong to the scale, in minor with the 6th and 7th
//! in both forms; a fifth falling or a leading note rising to the last note
//! confirms it. The weights are our choice.

use super::sonority::moved;
use crate::pitch::{Mode, Pitch, PitchClass, Tonality};

const IN_SCALE: i32 = 4;
/// A raised 6th or 7th of minor: in the scale, but rarer.
const IN_MELODIC: i32 = 3;
const OUTSIDE: i32 = -6;
const ENDS_ON_TONIC: i32 = 14;
const ENDS_ON_FIFTH: i32 = 5;
const STARTS_ON_TONIC: i32 = 12;
const STARTS_ON_FIFTH: i32 = 3;
const CADENCE: i32 = 4;
/// Tonic, fourth and fifth are the notes a bass dwells on.
const PILLAR: i32 = 1;
/// How many notes of the opening count once more: home is where a piece opens.
const OPENING: usize = 8;
/// Each sharp or flat of the signature, so that plain signatures win a draw.
const SIGNATURE: i32 = -1;

/// The best-fitting tonality; C major for an empty bass.
pub(super) fn find(bass: &[Pitch]) -> Tonality {
    let candidates = (-7..=7).flat_map(|signature| {
        [
            Tonality::new(PitchClass::from_fifths(signature), Mode::Major),
            Tonality::new(PitchClass::from_fifths(signature + 3), Mode::Minor),
        ]
    });
    let best = candidates.max_by_key(|&tonality| {
        // Major before minor and fewer accidentals first when nothing else decides.
        (fit(bass, tonality), tonality.mode == Mode::Major, -tonality.signature().abs())
    });
    best.unwrap_or(Tonality::new(PitchClass::from_fifths(0), Mode::Major))
}

fn fit(bass: &[Pitch], tonality: Tonality) -> i32 {
    let tonic = tonality.tonic;
    let fifth = moved(tonic, 4, 7);
    let fourth = moved(tonic, 3, 5);
    let minor = tonality.mode == Mode::Minor;
    let raised = [tonality.leading(), moved(tonic, 5, 9)];
    let note = |class: PitchClass| {
        let scale = if tonality.is_diatonic(class) {
            IN_SCALE
        } else if minor && raised.contains(&class) {
            IN_MELODIC
        } else {
            OUTSIDE
        };
        scale + if [tonic, fifth, fourth].contains(&class) { PILLAR } else { 0 }
    };
    // Long basses modulate: the ends say more of home than the middle.
    let middle: i32 = bass.iter().map(|pitch| note(pitch.class())).sum();
    let count = bass.len().max(1) as i32;
    let middle = middle * 24.min(count) / count;
    let end = match bass.last().map(|last| last.class()) {
        Some(last) if last == tonic => ENDS_ON_TONIC,
        Some(last) if last == fifth => ENDS_ON_FIFTH,
        _ => 0,
    };
    let start = match bass.first().map(|first| first.class()) {
        Some(first) if first == tonic => STARTS_ON_TONIC,
        Some(first) if first == fifth => STARTS_ON_FIFTH,
        _ => 0,
    };
    let cadence = match bass {
        [.., before, last] if last.class() == tonic => {
            let before = before.class();
            if before == fifth || before == tonality.leading() { CADENCE } else { 0 }
        }
        _ => 0,
    };
    let opening: i32 = bass.iter().take(OPENING).map(|pitch| note(pitch.class())).sum();
    middle + opening + start + end + cadence + SIGNATURE * tonality.signature().abs()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bass::read_bass;

    fn found(text: &str) -> String {
        let notes = read_bass(text, None).notes;
        find(&notes.iter().map(|note| note.pitch).collect::<Vec<_>>()).to_string()
    }

    #[test]
    fn plain_basses_tell_their_tonality() {
        assert_eq!(found("c d e f g a b c"), "C major");
        assert_eq!(found("a b c d e f# g# a g f e d c b a"), "A minor");
        assert_eq!(found("d c# d e f g a d"), "D minor");
        assert_eq!(found("d c# d e f# g a d"), "D major");
        assert_eq!(found("eb f g ab bb eb"), "E♭ major");
        assert_eq!(found("g"), "G major");
        assert_eq!(found("c g"), "C major");
        assert_eq!(found(""), "C major");
    }
}
