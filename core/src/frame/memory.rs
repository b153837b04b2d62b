//! What one solving leaves for the next: of a piece that hardly changed, as while a
//! note is dragged, only the prices near the change are worked out anew.

use super::candidates::candidates;
use super::rules::Moment;
use super::trellis::Trellis;
use super::wishes::FrameWishes;
use crate::harmony::Chord;
use crate::pitch::Pitch;
use crate::sketch::Sketch;

/// The last piece solved, as far as the next may have it in common. Empty at first;
/// it changes no answer.
#[derive(Clone, Debug, Default)]
pub struct FrameMemory {
    wishes: FrameWishes,
    /// Each chord with the candidates over it.
    places: Vec<(Chord, Vec<Pitch>)>,
    trellis: Trellis,
}

impl FrameMemory {
    /// The candidates over each chord and their prices; give the trellis back with
    /// [`FrameMemory::keep`].
    pub(super) fn trellis<'a>(
        &mut self,
        sketch: &Sketch,
        chords: &'a [Chord],
    ) -> (Vec<Vec<Moment<'a>>>, Trellis) {
        // Which of the good lines is shown weighs nothing in the prices.
        let wishes = FrameWishes { choice: 0, ..sketch.frame.clone() };
        let layers = candidates(sketch, chords);
        // The last place is priced as a close, the others by their place in the whole.
        if self.wishes != wishes || self.places.len() != layers.len() {
            *self = FrameMemory { wishes, ..FrameMemory::default() };
        }
        let sung = |moment: &Moment| moment.pair.soprano;
        let mut same = Vec::with_capacity(layers.len());
        for (i, (layer, chord)) in layers.iter().zip(chords).enumerate() {
            let kept = self.places.get(i).is_some_and(|(old, pitches)| {
                pitches.iter().copied().eq(layer.iter().map(sung)) && old == chord
            });
            same.push(kept);
            if !kept {
                let place = (chord.clone(), layer.iter().map(sung).collect());
                match self.places.get_mut(i) {
                    Some(slot) => *slot = place,
                    None => self.places.push(place),
                }
            }
        }
        let old = std::mem::take(&mut self.trellis);
        let same = |i: usize| same.get(i).copied().unwrap_or_default();
        let trellis = Trellis::anew(&self.wishes, &layers, old, same);
        (layers, trellis)
    }

    /// Keeps the prices for the next time.
    pub(super) fn keep(&mut self, trellis: Trellis) {
        self.trellis = trellis;
    }
}
