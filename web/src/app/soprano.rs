//! Moving, pinning and freeing soprano notes.

use super::{Place, Rest};
use tastata::harmony::Chord;
use tastata::pitch::{Interval, Pitch, Step};
use tastata::reading::Reading;
use tastata::sketch::{Hold, Pin, Sketch};

/// Pins the soprano over `chord` at `to`; the others rest where they are or are
/// freed to be set anew. Says which place that was.
pub(super) fn place(
    sketch: &mut Sketch,
    reading: &Reading,
    chord: usize,
    to: Pitch,
    rest: Rest,
) -> Option<Place> {
    let it = reading.harmony.chords.get(chord)?;
    match rest {
        Rest::SetAnew => free(sketch, |pin| pin.hold == Hold::Resting),
        Rest::StaysPut => {
            for (other, &pitch) in reading.harmony.chords.iter().zip(&reading.frame.soprano) {
                if is_hidden(other, pitch) {
                    continue;
                }
                let pin = slot(sketch, other.note, other.stage)?;
                pin.get_or_insert(Pin { pitch, hold: Hold::Resting });
            }
        }
    }
    *slot(sketch, it.note, it.stage)? = Some(Pin { pitch: to, hold: Hold::Pinned });
    Some(Place { note: it.note, stage: it.stage })
}

/// Pins a soprano note where it is, or lets it go if it is pinned.
pub(super) fn toggle(sketch: &mut Sketch, reading: &Reading, chord: usize) -> Option<()> {
    let it = reading.harmony.chords.get(chord)?;
    let pitch = *reading.frame.soprano.get(chord)?;
    let pinned = sketch.notes.get(it.note)?.soprano.get(it.stage).is_some_and(Option::is_some);
    if is_hidden(it, pitch) && !pinned {
        return None;
    }
    let pin = slot(sketch, it.note, it.stage)?;
    *pin = match pin {
        Some(Pin { hold: Hold::Pinned, .. }) => None,
        _ => Some(Pin { pitch, hold: Hold::Pinned }),
    };
    Some(())
}

/// Lets every soprano note go.
pub(super) fn free_all(sketch: &mut Sketch) {
    free(sketch, |_| true);
}

/// The next chord note above (1) or below (-1) the soprano.
pub(super) fn neighbour(reading: &Reading, chord: usize, by: i32) -> Option<Pitch> {
    let mut now = *reading.frame.soprano.get(chord)?;
    let it = reading.harmony.chords.get(chord)?;
    if is_hidden(it, now) {
        now = near_the_middle(reading, chord);
    }
    let candidates = it.tones.iter().flat_map(|tone| {
        let near = tone.class.nearest(now);
        [near - Interval::OCTAVE, near, near + Interval::OCTAVE]
    });
    if by > 0 {
        candidates.filter(|&p| p > now).min()
    } else {
        candidates.filter(|&p| p < now).max()
    }
}

/// The chord note whose staff place is nearest `diatonic`, the pitch a finger means.
pub(crate) fn snapped(reading: &Reading, chord: usize, diatonic: i32) -> Option<Pitch> {
    let wanted = Pitch::from_diatonic(diatonic, 0);
    let tones = &reading.harmony.chords.get(chord)?.tones;
    tones
        .iter()
        .flat_map(|tone| {
            let above = tone.class.at_or_above(wanted);
            [above, above - Interval::OCTAVE]
        })
        .min_by_key(|p| (p.diatonic() - diatonic).abs())
}

/// The pitch at a staff place in the chord's scale, or as the chord has it: what a
/// finger means that sets a note freely.
pub(crate) fn placed(reading: &Reading, chord: usize, diatonic: i32) -> Option<Pitch> {
    let chord = reading.harmony.chords.get(chord)?;
    let place = Pitch::from_diatonic(diatonic, 0);
    let own = chord.tones.iter().map(|tone| tone.class).find(|class| class.step == place.step);
    let class = own.unwrap_or_else(|| chord.tonality.class_of(place.step));
    Some(Pitch::from_diatonic(diatonic, class.alter))
}

/// Whether the soprano over a chord is not to be seen: it lies in the bass.
fn is_hidden(chord: &Chord, soprano: Pitch) -> bool {
    soprano == chord.bass
}

/// Where to begin where there is no soprano yet: beside the one before, or in the
/// middle of the treble stave.
fn near_the_middle(reading: &Reading, chord: usize) -> Pitch {
    let voices = reading.harmony.chords.iter().zip(&reading.frame.soprano).take(chord);
    let before = voices.rev().find(|(chord, soprano)| !is_hidden(chord, **soprano));
    before.map_or(Pitch::new(Step::A, 0, 4), |(_, &soprano)| soprano)
}

fn slot(sketch: &mut Sketch, note: usize, stage: usize) -> Option<&mut Option<Pin>> {
    let pins = &mut sketch.notes.get_mut(note)?.soprano;
    if pins.len() <= stage {
        pins.resize(stage + 1, None);
    }
    pins.get_mut(stage)
}

fn free(sketch: &mut Sketch, which: impl Fn(&Pin) -> bool) {
    for note in &mut sketch.notes {
        for pin in &mut note.soprano {
            if pin.as_ref().is_some_and(&which) {
                *pin = None;
            }
        }
        while note.soprano.last() == Some(&None) {
            note.soprano.pop();
        }
    }
}
