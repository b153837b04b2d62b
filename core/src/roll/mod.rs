//! Rolling: handfuls become timed key-downs and key-ups.

mod performance;

pub use performance::{Micros, NoteKind, Performance, Touch};

use crate::hands::{Hand, Hands};
use crate::harmony::Chord;
use crate::sketch::Sketch;

/// How the chords of the piece are rolled.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RollWishes {
    /// Times up and down per chord, in the range [1, 4]; 0 rolls up once only.
    pub times: u8,
    /// Speed against the usual, in percent, in the range [25, 400].
    pub speed: u16,
    /// Seed of the small freedoms of time: another seed is another take.
    pub seed: u32,
}

impl Default for RollWishes {
    fn default() -> RollWishes {
        RollWishes { times: 1, speed: 100, seed: 1 }
    }
}

/// How one chord is rolled, where it differs from the piece.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct ChordStroke {
    /// Times up and down, in the range [0, 4]; `None` follows the piece.
    pub times: Option<u8>,
}

/// Rolls the handfuls of a sketch into a performance that starts at time 0.
pub fn roll(_sketch: &Sketch, chords: &[Chord], hands: &Hands) -> Performance {
    let mut touches = Vec::new();
    let mut starts = Vec::new();
    let mut now = Micros(0);
    for (chord, handful) in hands.handfuls.iter().enumerate().take(chords.len()) {
        starts.push(now);
        let left = handful.left.iter().map(|&p| (Hand::Left, p));
        let right = handful.right.iter().map(|&p| (Hand::Right, p));
        let end = Micros(now.0 + 1_600_000);
        for (i, (hand, pitch)) in left.chain(right).enumerate() {
            let Some(key) = pitch.key() else { continue };
            touches.push(Touch {
                key,
                pitch,
                hand,
                chord,
                down: Micros(now.0 + 90_000 * i as u64),
                up: end,
                velocity: 80,
                kind: NoteKind::Chord,
            });
        }
        now = end;
    }
    Performance { touches, starts, end: Micros(now.0 + 1_000_000) }
}
