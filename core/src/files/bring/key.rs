//! The tonality of a part: as the file says, else found from its bass; and the
//! spelling of keys that come without one.

use super::part;
use crate::harmony::find_tonality;
use crate::pitch::{Key, Mode, Pitch, PitchClass, Tonality};

/// The tonality of a spelled bass. A signature without a mode leaves the choice
/// between major and minor to the bass.
pub(super) fn of_bass(key: part::Key, bass: &[Pitch]) -> Option<Tonality> {
    match key {
        part::Key::Open => None,
        part::Key::Stated(tonality) => Some(tonality),
        part::Key::Signature(fifths) => {
            let major = Tonality::new(PitchClass::from_fifths(fifths), Mode::Major);
            let minor = Tonality::new(PitchClass::from_fifths(fifths + 3), Mode::Minor);
            let found = find_tonality(bass);
            if found == major || found == minor {
                return Some(found);
            }
            let last = bass.last().map(|last| last.class());
            Some(if last == Some(minor.tonic) { minor } else { major })
        }
    }
}

/// The tonality in which these keys have the fewest notes outside the scale.
pub(super) fn of_keys(keys: &[Key]) -> Tonality {
    let spelled = |tonality: Tonality| -> Vec<Pitch> {
        keys.iter().map(|&key| tonality.spell(key)).collect()
    };
    let found = [0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6].map(|fifths| {
        let major = Tonality::new(PitchClass::from_fifths(fifths), Mode::Major);
        let bass = spelled(major);
        let found = find_tonality(&bass);
        let tonality = if found.signature() == fifths { found } else { major };
        let outside = bass.iter().filter(|it| !tonality.is_diatonic(it.class())).count();
        // What the finder does not hear as home counts as two notes more.
        (outside + if tonality == found { 0 } else { 2 }, tonality)
    });
    let best = found.into_iter().min_by_key(|(cost, _)| *cost);
    best.map_or_else(|| find_tonality(&[]), |(_, tonality)| tonality)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bass::read_bass;

    fn pitches(text: &str) -> Vec<Pitch> {
        read_bass(text, None).notes.iter().map(|note| note.pitch).collect()
    }

    #[test]
    fn keys_find_their_tonality_and_spelling() {
        for (text, meant) in [
            ("c d e f g a b c", "C major"),
            ("ab bb c db eb f g ab", "A♭ major"),
            ("e f# g a b c d# e", "E minor"),
            ("c d eb f g ab b c", "C minor"),
        ] {
            let bass = pitches(text);
            let keys: Vec<Key> = bass.iter().filter_map(|pitch| pitch.key()).collect();
            let tonality = of_keys(&keys);
            assert_eq!(tonality.to_string(), meant);
            let spelled: Vec<Pitch> = keys.iter().map(|&key| tonality.spell(key)).collect();
            assert_eq!(spelled, bass, "{text}");
        }
    }

    #[test]
    fn a_signature_leaves_the_mode_to_the_bass() {
        let of = |fifths, text| {
            let found = of_bass(part::Key::Signature(fifths), &pitches(text));
            found.map(|it| it.to_string()).unwrap_or_default()
        };
        assert_eq!(of(-1, "d c# d e f g a d"), "D minor");
        assert_eq!(of(-1, "f g a bb c f"), "F major");
        assert_eq!(of(3, ""), "A major");
    }
}
