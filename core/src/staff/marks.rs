//! The marks of faults: two lines drawn from chord to chord along the outer
//! voices, as a teacher draws them in ink, with the interval's number above.

use super::drawing::{ChordPlace, System};
use super::glyph::Glyph;
use super::glyphs;
use super::heads::Shape;
use super::pen::Pen;
use crate::frame::{Fault, Severity};
use crate::pitch::Interval;

/// Clear space between a head and a line.
const AIR: f64 = 0.25;

/// Marks every fault that touches this system. One that crosses to another
/// system is drawn to the edge here and from the edge there.
pub(super) fn faults(pen: &mut Pen, faults: &[Fault], system: &System) {
    for (index, fault) in faults.iter().enumerate() {
        let find = |chord: usize| system.chords.iter().find(|place| place.chord == chord);
        let (from, to) = (find(fault.from), find(fault.to));
        if from.is_none() && to.is_none() {
            continue;
        }
        let class = match fault.severity {
            Severity::Fault => "fault",
            Severity::Caution => "caution",
        };
        pen.raw("<g class=\"mark ").raw(class).raw("\" data-fault=\"").int(index);
        pen.raw("\" fill=\"none\" stroke=\"currentColor\" stroke-width=\".16\">");
        if fault.from == fault.to {
            if let Some(place) = from {
                ring(pen, place.soprano_x, place.soprano_y);
                ring(pen, place.bass_x, place.bass_y);
                label(pen, fault, place.soprano_x, place.soprano_y - 1.2);
            }
        } else {
            let soprano = ends(system, from, to, |p| (p.soprano_x, p.soprano_y));
            let bass = ends(system, from, to, |p| (p.bass_x, p.bass_y));
            for [a, b] in [soprano, bass] {
                pen.raw("<path d=\"M").point(a.0, a.1).raw("L").point(b.0, b.1).raw("\"/>");
            }
            let [a, b] = soprano;
            label(pen, fault, (a.0 + b.0) / 2.0, a.1.min(b.1) - 0.9);
        }
        pen.raw("</g>");
    }
}

/// Where a line along one voice begins and ends.
fn ends(
    system: &System,
    from: Option<&ChordPlace>,
    to: Option<&ChordPlace>,
    head: impl Fn(&ChordPlace) -> (f64, f64),
) -> [(f64, f64); 2] {
    let half = Shape::White.width() / 2.0 + AIR;
    let first = system.chords.first().map_or(0.0, |place| place.x_left);
    let right_of = |(x, y): (f64, f64)| (x + half, y);
    let left_of = |(x, y): (f64, f64)| (x - half, y);
    match (from.map(&head), to.map(&head)) {
        (Some(a), Some(b)) => [right_of(a), left_of(b)],
        (Some(a), None) => [right_of(a), (system.width - 0.3, a.1)],
        (None, Some(b)) => [(first - 0.6, b.1), left_of(b)],
        (None, None) => [(0.0, 0.0); 2],
    }
}

fn ring(pen: &mut Pen, x: f64, y: f64) {
    pen.raw("<ellipse cx=\"").num(x).raw("\" cy=\"").num(y).raw("\" rx=\"1.3\" ry=\".95\"/>");
}

/// The number of the interval that is repeated, else a cross for a fault and a
/// question mark for a caution.
fn label(pen: &mut Pen, fault: &Fault, x: f64, y: f64) {
    let number = |pair: crate::frame::OuterPair| Interval::simple_number(pair.soprano - pair.bass);
    let digit: Option<&Glyph> = match (number(fault.first), number(fault.last)) {
        (1, 1) if fault.from != fault.to => Some(&glyphs::FIG_8),
        (5, 5) if fault.from != fault.to => Some(&glyphs::FIG_5),
        _ => None,
    };
    if let Some(glyph) = digit {
        pen.raw("<g fill=\"currentColor\" stroke=\"none\">");
        pen.sign(glyph, "", x - glyph.advance * super::figures::SCALE / 2.0, y).raw("</g>");
        return;
    }
    match fault.severity {
        Severity::Fault => {
            pen.raw("<path d=\"M").point(x - 0.5, y).raw("l1-1M").point(x - 0.5, y - 1.0);
            pen.raw("l1 1\"/>");
        }
        Severity::Caution => {
            pen.raw("<text fill=\"currentColor\" stroke=\"none\" font-size=\"1.8\"");
            pen.raw(" font-weight=\"bold\" font-family=\"sans-serif\" text-anchor=\"middle\" x=\"");
            pen.num(x).raw("\" y=\"").num(y).raw("\">?</text>");
        }
    }
}
