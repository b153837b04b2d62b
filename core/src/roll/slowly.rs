//! The outer voices alone, slowly, so that a fault can be heard for itself.

use super::performance::{Micros, NoteKind, Performance, Touch};
use crate::frame::OuterPair;
use crate::hands::{Hand, HandWishes, ease};
use crate::order;

/// From one pair to the next.
const PACE: Micros = Micros::from_ms(1200);
/// The keys lie this long; a little less than the pace, so that each pair is struck anew.
const HELD: Micros = Micros::from_ms(1130);
/// Force of every note.
const VELOCITY: u8 = 80;

/// Each pair struck together, one after another in even, slow time.
pub fn outer_voices(pairs: &[OuterPair]) -> Performance {
    let mut performance = Performance::default();
    for (chord, pair) in pairs.iter().enumerate() {
        let down = Micros(PACE.0 * chord as u64);
        performance.starts.push(down);
        let mut voices = vec![(pair.bass, Hand::Left), (pair.soprano, Hand::Right)];
        order::sort(&mut voices);
        voices.dedup_by_key(|(pitch, _)| pitch.semitones());
        for (pitch, hand) in voices {
            let Some(key) = pitch.key() else { continue };
            let up = Micros(down.0 + HELD.0);
            let kind = NoteKind::Chord;
            let touch = Touch { key, pitch, hand, chord, down, up, velocity: VELOCITY, kind };
            performance.touches.push(touch);
        }
        performance.end = Micros(down.0 + PACE.0 + 1_500_000);
    }
    // A far leap takes a hand a moment longer.
    ease(&HandWishes::default(), &mut performance);
    performance
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pitch::{Pitch, Step};

    #[test]
    fn pairs_follow_one_another_and_unisons_are_struck_once() {
        let c = Pitch::new(Step::C, 0, 4);
        let g = Pitch::new(Step::G, 0, 4);
        let pairs = [OuterPair { bass: c, soprano: g }, OuterPair { bass: c, soprano: c }];
        let performance = outer_voices(&pairs);
        assert_eq!(performance.touches.len(), 3);
        assert_eq!(performance.starts, [Micros(0), PACE]);
        assert!(performance.touches.iter().all(|touch| touch.down < touch.up));
    }
}
