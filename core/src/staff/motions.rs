//! The motion of the outer voices, between one chord and the next: two short
//! strokes, the upper for the soprano and the lower for the bass, each leaning
//! the way its voice goes.

use super::drawing::{ChordPlace, System};
use super::pen::Pen;
use crate::frame::{Motion, OuterPair};
use crate::pitch::Pitch;
use crate::reading::Reading;
use crate::words::{self, Lang};

/// Height of the row of motions.
pub(super) const ROW: f64 = 2.4;
/// Half the length of a stroke, and how far each is from the row's middle.
const HALF: f64 = 0.75;
const APART: f64 = 0.6;

/// Draws the motions within a system; `middle` is the height of their row.
pub(super) fn motions(pen: &mut Pen, reading: &Reading, system: &System, middle: f64, lang: Lang) {
    pen.raw("<g class=\"motions\" fill=\"none\" stroke=\"currentColor\" stroke-width=\".18\"");
    pen.raw(" stroke-linecap=\"round\">");
    for (from, to) in system.chords.iter().zip(system.chords.iter().skip(1)) {
        let pairs = pair(reading, from).zip(pair(reading, to));
        let Some(((a, b), motion)) = pairs.zip(reading.frame.motions.get(from.chord)) else {
            continue;
        };
        let x = (from.x_right + to.x_left) / 2.0;
        pen.raw("<g class=\"motion ").raw(class(*motion)).raw("\"><title>");
        let number = b.interval().simple_number();
        pen.text(words::motion_name(*motion, number, lang)).raw("</title><path d=\"");
        for (first, last, y) in
            [(a.soprano, b.soprano, middle - APART), (a.bass, b.bass, middle + APART)]
        {
            let lean = lean(first, last);
            pen.raw("M").point(x - HALF, y + lean).raw("L").point(x + HALF, y - lean);
        }
        pen.raw("\"/></g>");
    }
    pen.raw("</g>");
}

fn pair(reading: &Reading, place: &ChordPlace) -> Option<OuterPair> {
    let bass = reading.harmony.chords.get(place.chord)?.bass;
    let soprano = *reading.frame.soprano.get(place.chord)?;
    Some(OuterPair { bass, soprano })
}

/// Half the rise of a stroke: a step leans a little, a leap more.
fn lean(from: Pitch, to: Pitch) -> f64 {
    let size = f64::from(to.semitones() - from.semitones());
    let least = if size == 0.0 { 0.0 } else { 0.16 };
    size.signum() * (least + (size.abs() * 0.025).min(0.24))
}

fn class(motion: Motion) -> &'static str {
    match motion {
        Motion::Contrary => "contrary",
        Motion::Oblique => "oblique",
        Motion::Similar => "similar",
        Motion::Parallel => "parallel",
        Motion::Still => "still",
    }
}
