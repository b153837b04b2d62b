//! The short example a new page opens with, our own.

use tastata::bass;
use tastata::sketch::Sketch;

/// A prelude bass in D minor: the octave up, a turn back down, a long dominant.
const BASS: &str = "D3 E3 F3 G3 A3 Bb3 A3 G3 F3 E3 D3 C#3 D3 G2 A2 A2 D2";

/// The example, nothing pinned. Its key is found and not chosen, so that what is typed
/// over it finds its own.
pub(super) fn sketch() -> Sketch {
    let notes = bass::read_bass(BASS, None).notes;
    Sketch {
        title: "A first prelude".to_owned(),
        notes: notes.iter().map(|n| n.to_sketch()).collect(),
        ..Sketch::default()
    }
}
