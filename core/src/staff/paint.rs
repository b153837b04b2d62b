//! Writes the markup of one system: staves, then column by column.

use super::column::{self, Column};
use super::draw::{CLEF_X, LEFT, PIN_HEIGHT, SIGNATURE_X, pinned};
use super::drawing::System;
use super::figures::{self, Item};
use super::glyphs;
use super::heads::{Head, Part, Shape};
use super::look::{Layer, Look};
use super::pen::{PREFIX, Pen};
use super::signature::Signature;
use super::stave::Stave;
use super::symbols::LONGEST_ROLL;
use crate::frame::Severity;
use crate::hands::Hand;
use crate::reading::Reading;
use crate::sketch::Sketch;
use crate::words::{self, Lang, StaffPart};

/// What a system needs to know of the piece.
pub(super) struct Place {
    pub(super) width: f64,
    pub(super) signature: Signature,
    /// Whether it is the piece's last.
    pub(super) last: bool,
}

const THIN: f64 = 0.13;
const THICK: f64 = 0.5;
const LEDGER: f64 = 0.16;
const BRACKET: f64 = 0.12;

/// Staff lines, brace, clefs, signature and, at the end, the double bar.
pub(super) fn staves(pen: &mut Pen, place: &Place, system: &System) {
    let (top, bottom) = (system.treble_top, system.bass_top + 4.0);
    pen.raw("<g class=\"staves\" aria-hidden=\"true\" fill=\"currentColor\">");
    pen.raw("<path class=\"lines\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"");
    pen.num(THIN).raw("\" d=\"");
    for stave in Stave::BOTH {
        for line in 0..5 {
            let y = system.top(stave) + f64::from(line);
            pen.raw("M").point(LEFT, y).raw("H").num(place.width);
        }
    }
    pen.raw("\"/>");
    pen.rect(LEFT, top - THIN / 2.0, 0.16, bottom - top + THIN);
    let brace = &glyphs::BRACE;
    pen.raw("<use href=\"#").raw(PREFIX).raw(brace.id).raw("\" transform=\"translate(.05 ");
    pen.num(bottom).raw(") scale(2.4 ").num((bottom - top) / brace.above()).raw(")\"/>");
    for stave in Stave::BOTH {
        let (clef, line) = match stave {
            Stave::Treble => (&glyphs::CLEF_G, 3.0),
            Stave::Bass => (&glyphs::CLEF_F, 1.0),
        };
        pen.sign(clef, "", CLEF_X, system.top(stave) + line);
        for (glyph, x, height) in place.signature.signs(stave) {
            pen.sign(glyph, "", SIGNATURE_X + x, system.y_of(stave, height));
        }
    }
    if place.last {
        let height = bottom - top + THIN;
        pen.rect(place.width - THICK, top - THIN / 2.0, THICK, height);
        pen.rect(place.width - THICK - 0.56, top - THIN / 2.0, 0.16, height);
    }
    pen.raw("</g>");
}

/// One column; `(x, figures_top)` is where its main heads and figures begin.
pub(super) fn column(
    pen: &mut Pen,
    sketch: &Sketch,
    reading: &Reading,
    look: &Look,
    system: &System,
    column: &Column,
    (x, figures_top): (f64, f64),
) {
    open(pen, reading, look, system, column);
    if let Some(roll) = column.roll {
        arpeggio(pen, system, column, x + roll);
    }
    if let Some(bracket) = column.bracket {
        for hand in [Hand::Left, Hand::Right] {
            hand_bracket(pen, system, column, hand, x + bracket);
        }
    }
    for index in 0..column.heads.len() {
        note(pen, sketch, reading, look, system, column, (index, x));
    }
    if !column.figures.items.is_empty() {
        figures(pen, column, x + Shape::White.width() / 2.0, figures_top);
    }
    pen.raw("</g>");
}

fn open(pen: &mut Pen, reading: &Reading, look: &Look, system: &System, column: &Column) {
    let ends = match column.chord {
        Some(chord) => {
            let selected = if look.selected == Some(chord) { " selected" } else { "" };
            pen.raw("<g class=\"chord").raw(selected).raw("\" id=\"chord-").int(chord);
            pen.raw("\" data-chord=\"").int(chord);
            let stage = reading.harmony.chords.get(chord).map_or(0, |chord| chord.stage);
            pen.raw("\" data-stage=\"").int(stage);
            system.chords.iter().find(|p| p.chord == chord).map(|p| (p.x_left, p.x_right))
        }
        None => {
            pen.raw("<g class=\"passing\" id=\"passing-").int(column.note);
            system.passing.iter().find(|p| p.note == column.note).map(|p| (p.x_left, p.x_right))
        }
    };
    pen.raw("\" data-note=\"").int(column.note).raw("\" fill=\"currentColor\">");
    let Some((left, right)) = ends else { return };
    pen.raw("<rect class=\"hit\" fill=\"none\" pointer-events=\"all\"");
    if let Some(chord) = column.chord {
        pen.raw(" data-chord=\"").int(chord).raw("\"");
    }
    pen.raw(" x=\"").num(left).raw("\" y=\"0\" width=\"").num(right - left);
    pen.raw("\" height=\"").num(system.height).raw("\"/>");
}

fn note(
    pen: &mut Pen,
    sketch: &Sketch,
    reading: &Reading,
    look: &Look,
    system: &System,
    column: &Column,
    (index, x): (usize, f64),
) {
    let Some(head) = column.heads.get(index) else { return };
    let y = system.y_of(head.stave, head.pitch.diatonic());
    let stage = column.chord.and_then(|i| reading.harmony.chords.get(i)).map(|c| c.stage);
    let pin = head.part == Part::Soprano
        && look.show.has(Layer::Pins)
        && stage.is_some_and(|stage| pinned(sketch, column.note, stage));
    pen.raw("<g class=\"note ").raw(part_class(head.part)).raw(match head.hand {
        Hand::Left => " left",
        Hand::Right => " right",
    });
    if pin {
        pen.raw(" pinned");
    }
    if head.part != Part::Bass || column.chord.is_some() {
        pen.raw(severity_class(reading, look, column.chord, head.part));
    }
    pen.raw("\"");
    if let Some(chord) = column.chord {
        pen.raw(" data-chord=\"").int(chord).raw("\"");
    }
    pen.raw(" data-part=\"").raw(part_class(head.part));
    if let Part::Inner(place) = head.part {
        pen.raw("-").int(place);
    }
    if let Some(key) = head.pitch.key() {
        pen.raw("\" data-key=\"").int(key.index());
    }
    pen.raw("\"><title>").text(&title(head)).raw("</title>");
    ledger_lines(pen, system, head, x);
    for sign in column.accidentals.iter().filter(|sign| sign.head == index) {
        pen.sign(sign.glyph, "", x + sign.x, y);
    }
    pen.sign(head.shape.glyph(), head.shape.suffix(), x + head.x, y);
    if pin {
        // A pin stuck into the note from above.
        let middle = x + head.x + head.shape.width() / 2.0;
        pen.raw("<path class=\"pin\" d=\"M").point(middle - 0.07, y - 0.55);
        pen.raw("v-.5h.14v.5z\"/><circle class=\"pin\" cx=\"").num(middle);
        pen.raw("\" cy=\"").num(y - PIN_HEIGHT + 0.2).raw("\" r=\".32\"/>");
    }
    pen.raw("</g>");
}

fn part_class(part: Part) -> &'static str {
    match part {
        Part::Bass => "bass",
        Part::Soprano => "soprano",
        Part::Inner(_) => "inner",
    }
}

fn severity_class(
    reading: &Reading,
    look: &Look,
    chord: Option<usize>,
    part: Part,
) -> &'static str {
    let outer = matches!(part, Part::Bass | Part::Soprano);
    let Some(chord) = chord.filter(|_| outer && look.show.has(Layer::Faults)) else { return "" };
    let concerned = reading.frame.faults.iter().filter(|f| f.from == chord || f.to == chord);
    match concerned.map(|fault| fault.severity).max() {
        Some(Severity::Fault) => " fault",
        Some(Severity::Caution) => " caution",
        None => "",
    }
}

fn title(head: &Head) -> String {
    let part = match head.part {
        Part::Bass => StaffPart::Bass,
        Part::Soprano => StaffPart::Soprano,
        Part::Inner(_) => StaffPart::Inner,
    };
    words::staff_note(head.pitch, part, head.hand, Lang::default())
}

fn ledger_lines(pen: &mut Pen, system: &System, head: &Head, x: f64) {
    let (first, count) = column::ledgers(head);
    let away = if first > head.stave.top_line() { 2 } else { -2 };
    let reach = column::LEDGER_REACH;
    for line in 0..count.min(40) {
        let y = system.y_of(head.stave, first + away * line);
        let width = head.shape.width() + 2.0 * reach;
        pen.rect(x + head.x - reach, y - LEDGER / 2.0, width, LEDGER);
    }
}

/// One wavy line through both staves.
fn arpeggio(pen: &mut Pen, system: &System, column: &Column, left: f64) {
    let (Some(low), Some(high)) = (column.heads.first(), column.heads.last()) else { return };
    let bottom = system.y_of(low.stave, low.pitch.diatonic()) + 0.5;
    let top = system.y_of(high.stave, high.pitch.diatonic()) - 0.5;
    let wave = glyphs::WIGGLE.advance;
    let mut left_over = ((bottom - top) / wave).round().max(1.0) as usize;
    // The sign's origin is its lower right corner once it stands upright.
    pen.raw("<g class=\"roll\" aria-hidden=\"true\" transform=\"translate(");
    pen.point(left + column::ROLL_WIDTH, bottom).raw(") rotate(-90)\">");
    let mut along = 0.0;
    while left_over > 0 {
        let power = left_over.ilog2().min(LONGEST_ROLL);
        let piece = 1usize << power;
        pen.raw("<use href=\"#").raw(PREFIX).raw(glyphs::WIGGLE.id);
        if piece > 1 {
            pen.raw("-").int(piece);
        }
        pen.raw("\" x=\"").num(along).raw("\"/>");
        along += wave * piece as f64;
        left_over -= piece;
    }
    pen.raw("</g>");
}

/// A half-bracket right of a hand's notes: hooked at the bottom for the left
/// hand, at the top for the right, as printed keyboard music tells hands apart.
fn hand_bracket(pen: &mut Pen, system: &System, column: &Column, hand: Hand, x: f64) {
    let Some((low, high)) = column.hand(hand) else { return };
    let bottom = system.y_of(low.stave, low.pitch.diatonic()) + 0.4;
    let top = system.y_of(high.stave, high.pitch.diatonic()) - 0.4;
    let class = match hand {
        Hand::Left => "left",
        Hand::Right => "right",
    };
    pen.raw("<path class=\"hand ").raw(class).raw("\" aria-hidden=\"true\" fill=\"none\"");
    pen.raw(" stroke=\"currentColor\" stroke-width=\"").num(BRACKET).raw("\" d=\"M");
    match hand {
        Hand::Left => pen.point(x, top).raw("V").num(bottom).raw("h-").num(column::BRACKET_HOOK),
        Hand::Right => pen.point(x, bottom).raw("V").num(top).raw("h-").num(column::BRACKET_HOOK),
    };
    pen.raw("\"/>");
}

fn figures(pen: &mut Pen, column: &Column, middle: f64, top: f64) {
    pen.raw("<g class=\"figures\" aria-hidden=\"true\">");
    for item in &column.figures.items {
        match item {
            Item::Sign(glyph, row, x) => {
                let y = top + 1.35 + *row as f64 * figures::ROW;
                pen.sign(glyph, "", middle + x, y);
            }
            Item::Dash => {
                pen.rect(middle - 0.8, top + 0.6, 1.6, 0.16);
            }
            Item::TastoSolo => {
                pen.raw("<text font-family=\"serif\" font-style=\"italic\" font-size=\"1.8\"");
                pen.raw(" text-anchor=\"middle\" x=\"").num(middle).raw("\" y=\"");
                pen.num(top + 1.35).raw("\">t.s.</text>");
            }
        }
    }
    pen.raw("</g>");
}
