//! Brings a bass into the keyboard's range.

use crate::hands::{HandWishes, sounds};
use crate::pitch::{Interval, Pitch};

/// Octaves tried, the nearest first.
const OCTAVES: [i32; 9] = [0, -1, 1, -2, 2, -3, 3, -4, 4];

/// Moves a bass as one block into the octave in which the keyboard has most of it,
/// the nearest of those; a note it still lacks goes to the nearest octave it has by
/// itself, and one it has nowhere stays. Letters are kept, so the harmony is too.
pub fn within_range<'a>(bass: impl IntoIterator<Item = &'a mut Pitch>, hands: &HandWishes) {
    let bass: Vec<&mut Pitch> = bass.into_iter().collect();
    let block = block(&bass.iter().map(|pitch| **pitch).collect::<Vec<_>>(), hands);
    for pitch in bass {
        *pitch = on_keyboard(*pitch + octaves(block), hands);
    }
}

/// The octaves by which a bass is moved as one block.
pub(super) fn block(bass: &[Pitch], hands: &HandWishes) -> i32 {
    let lacking = |by: i32| bass.iter().filter(|&&it| !sounds(hands, it + octaves(by))).count();
    OCTAVES.into_iter().min_by_key(|&by| (lacking(by), by.abs())).unwrap_or(0)
}

/// A pitch in the nearest octave the keyboard has it in.
pub(super) fn on_keyboard(pitch: Pitch, hands: &HandWishes) -> Pitch {
    let found = OCTAVES.into_iter().map(|by| pitch + octaves(by)).find(|&it| sounds(hands, it));
    found.unwrap_or(pitch)
}

pub(super) fn octaves(by: i32) -> Interval {
    Interval::new(by * Interval::OCTAVE.steps, by * Interval::OCTAVE.semitones)
}

#[cfg(test)]
mod tests {
    use super::super::read_bass;
    use super::*;
    use crate::hands::{Compass, LowKeys};

    fn brought(text: &str, hands: &HandWishes) -> String {
        let mut bass: Vec<Pitch> = read_bass(text, None).notes.iter().map(|it| it.pitch).collect();
        within_range(&mut bass, hands);
        bass.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn a_bass_moves_as_a_block_and_single_notes_after_it() {
        let four = HandWishes { compass: Compass::FOUR_OCTAVES, ..HandWishes::default() };
        assert_eq!(brought("C3 D3 E3", &four), "C3 D3 E3");
        assert_eq!(brought("C1 D1 E1", &four), "C2 D2 E2");
        assert_eq!(brought("G2 E2 D2 B1 C2", &four), "G3 E3 D3 B2 C3");
        assert_eq!(brought("C1 C6:", &four), "C2 C6");
        // The short octave has C and D but no C♯ down there.
        let short = HandWishes { low_keys: LowKeys::ShortC, ..four };
        assert_eq!(brought("D2 C2 D2 G2", &short), "D2 C2 D2 G2");
        assert_eq!(brought("D2 C#2 D2", &short), "D3 C♯3 D3");
        assert_eq!(brought("", &short), "");
    }
}
