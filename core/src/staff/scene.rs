//! What every part of a drawing looks at.

use super::look::{Layer, Look};
use super::marks::{self, Gravity};
use super::signature::Signature;
use crate::reading::Reading;
use crate::sketch::{Hold, Sketch};

/// A piece and how it is to be drawn.
pub(super) struct Scene<'a> {
    pub(super) sketch: &'a Sketch,
    pub(super) reading: &'a Reading,
    pub(super) look: &'a Look,
    pub(super) signature: Signature,
    /// Width of every system, in staff spaces.
    pub(super) width: f64,
    /// The gravest remark on each voice of each chord; empty where faults are not shown.
    gravities: Vec<Gravity>,
}

impl Scene<'_> {
    /// The piece, with all that is asked for each note worked out once.
    pub(super) fn new<'a>(sketch: &'a Sketch, reading: &'a Reading, look: &'a Look) -> Scene<'a> {
        let gravities = if look.show.has(Layer::Faults) {
            marks::gravities(&reading.frame.faults, reading.harmony.chords.len())
        } else {
            Vec::new()
        };
        let signature = Signature::of(reading.harmony.home);
        let width = if look.width.is_finite() { look.width } else { Look::NARROWEST };
        let width = width.max(Look::NARROWEST);
        Scene { sketch, reading, look, signature, width, gravities }
    }

    /// The gravest remark on each voice of a chord.
    pub(super) fn gravity(&self, chord: usize) -> Gravity {
        self.gravities.get(chord).copied().unwrap_or_default()
    }

    /// Whether a chord's soprano is shown as pinned by the person.
    pub(super) fn pinned(&self, chord: usize) -> bool {
        let pin = self.reading.harmony.chords.get(chord).and_then(|chord| {
            let note = self.sketch.notes.get(chord.note)?;
            note.soprano.get(chord.stage).copied().flatten()
        });
        self.look.show.has(Layer::Pins) && pin.is_some_and(|pin| pin.hold == Hold::Pinned)
    }
}
