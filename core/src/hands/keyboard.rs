//! Where keys lie under the hand, in half white keys.
//!
//! A white key is two half white keys wide; a raised key lies half a white key
//! above the white one below it. On a short octave the lowest keys sound lower
//! notes than they look.

use super::wishes::{Compass, HandWishes, LowKeys};
use crate::pitch::{Key, Pitch};

/// The key under which this one sounds, by its place in the row; `None` if the low octave
/// lacks it.
pub fn looks(sounding: Key, low_keys: LowKeys) -> Option<Key> {
    let key = |number: i32| Some(Key::clamped(number));
    match (low_keys, sounding.number()) {
        (LowKeys::Chromatic, _) => Some(sounding),
        // E looks E and sounds C; F♯ sounds D; G♯ sounds E. From memory.
        (LowKeys::ShortC, 36) => key(40),
        (LowKeys::ShortC, 38) => key(42),
        (LowKeys::ShortC, 40) => key(44),
        (LowKeys::ShortC, number) if number <= 44 && number != 41 && number != 43 => None,
        // BB looks BB and sounds GG; C♯ sounds AA; D♯ sounds BB. From memory.
        (LowKeys::ShortG, 31) => key(35),
        (LowKeys::ShortG, 33) => key(37),
        (LowKeys::ShortG, 35) => key(39),
        (LowKeys::ShortG, number) if number <= 39 && number != 36 && number != 38 => None,
        (LowKeys::ShortC | LowKeys::ShortG, _) => Some(sounding),
    }
}

/// Where the key that sounds this note lies, in half white keys above key 0;
/// `None` if the low octave lacks it.
pub(crate) fn place(sounding: Key, low_keys: LowKeys) -> Option<i32> {
    looks(sounding, low_keys).map(on_the_row)
}

/// Where a key lies in the row as it looks.
fn on_the_row(key: Key) -> i32 {
    // C C♯ D D♯ E F F♯ G G♯ A A♯ B
    const PLACES: [i32; 12] = [0, 1, 2, 3, 4, 6, 7, 8, 9, 10, 11, 12];
    key.number() / 12 * 14 + PLACES[key.index() % 12]
}

/// Whether this keyboard can sound the pitch.
pub(crate) fn sounds(wishes: &HandWishes, pitch: Pitch) -> bool {
    let Compass { low, high } = wishes.compass;
    let whole = Compass { low: low.min(high), high: low.max(high) };
    pitch.key().is_some_and(|key| whole.contains(key) && place(key, wishes.low_keys).is_some())
}

/// Half white keys from one pitch up to another; as on a chromatic keyboard where
/// the low octave lacks one of them.
pub(crate) fn reach(wishes: &HandWishes, low: Pitch, high: Pitch) -> i32 {
    let at = |pitch: Pitch| {
        let key = Key::clamped(pitch.semitones());
        place(key, wishes.low_keys).unwrap_or_else(|| on_the_row(key))
    };
    at(high) - at(low)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pitch::{Interval, PitchClass, Step};

    fn pitch(step: Step, octave: i8) -> Pitch {
        PitchClass::new(step, 0).in_octave(octave)
    }

    #[test]
    fn an_octave_is_seven_white_keys_from_any_key() {
        let wishes = HandWishes::default();
        for number in 0..116 {
            let low = Key::clamped(number);
            assert_eq!(on_the_row(Key::clamped(number + 12)) - on_the_row(low), 14);
        }
        let e = pitch(Step::E, 3);
        assert_eq!(reach(&wishes, e, pitch(Step::F, 3)), 2);
        assert_eq!(reach(&wishes, e, e + Interval::new(1, 2)), 3);
    }

    #[test]
    fn a_short_octave_brings_low_notes_near_and_lacks_some() {
        let short = HandWishes { low_keys: LowKeys::ShortC, ..HandWishes::default() };
        // C2 to C3 is C on the E key to C: a sixth for the hand.
        assert_eq!(reach(&short, pitch(Step::C, 2), pitch(Step::C, 3)), 10);
        assert!(sounds(&short, pitch(Step::D, 2)));
        assert!(!sounds(&short, PitchClass::new(Step::F, 1).in_octave(2)));
        assert!(sounds(&short, PitchClass::new(Step::B, -1).in_octave(2)));
    }
}
