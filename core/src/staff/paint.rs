//! Writes the markup of one system: staves, then column by column.

use super::column::{self, Column, ledgers};
use super::draw::{CLEF_X, End, LEFT, PIN_HEIGHT, SIGNATURE_X};
use super::drawing::System;
use super::figures::{self, Item};
use super::glyph::Size;
use super::glyphs;
use super::heads::{Head, Part};
use super::outline;
use super::pen::{PREFIX, Pen};
use super::scene::Scene;
use super::signature::Signature;
use super::stave::Stave;
use super::symbols::{LONGEST_ROLL, roll_id};
use crate::frame::Severity;
use crate::hands::Hand;
use crate::words::{self, Lang, StaffPart};

const THIN: f64 = 0.13;
const THICK: f64 = 0.5;
const LEDGER: f64 = 0.16;
const BRACKET: f64 = 0.12;
/// More ledger lines than any playable note needs.
const MOST_LEDGERS: i32 = 16;
/// How tall the place is that takes hold of an outer note, in staff spaces: a finger on a phone.
const GRIP_HEIGHT: f64 = 5.5;

/// Staff lines, brace, clefs, signature and, at the end, the double bar.
pub(super) fn staves(pen: &mut Pen, signature: Signature, system: &System, end: End) {
    let (top, bottom) = (system.treble_top, system.bass_top + 4.0);
    pen.raw("<g class=\"staves\" aria-hidden=\"true\" fill=\"currentColor\">");
    pen.raw("<path class=\"lines\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"");
    pen.num(THIN).raw("\" d=\"");
    for stave in Stave::BOTH {
        for line in 0..5 {
            let y = system.top(stave) + f64::from(line);
            pen.raw("M").point(LEFT, y).raw("H").num(system.staff_end);
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
        pen.sign(clef, Size::Full, CLEF_X, system.top(stave) + line);
        for (glyph, x, height) in signature.signs(stave) {
            pen.sign(glyph, Size::Full, SIGNATURE_X + x, system.y_of(stave, height));
        }
    }
    if end == End::Last {
        let height = bottom - top + THIN;
        pen.rect(system.staff_end - THICK, top - THIN / 2.0, THICK, height);
        pen.rect(system.staff_end - THICK - 0.56, top - THIN / 2.0, 0.16, height);
    }
    pen.raw("</g>");
}

/// The notes of a column and what belongs to them, in a group that is left open
/// for its figures; `x` is the left edge of the main heads.
pub(super) fn column(pen: &mut Pen, scene: &Scene<'_>, system: &System, column: &Column, x: f64) {
    open(pen, scene, system, column);
    if let Some(roll) = column.roll {
        arpeggio(pen, system, column, x + roll);
    }
    for (hand, bracket) in [Hand::Left, Hand::Right].into_iter().zip(column.brackets) {
        if let Some(bracket) = bracket {
            hand_bracket(pen, system, column, hand, x + bracket);
        }
    }
    ledger_lines(pen, system, column, x);
    // The inner notes of the chosen chord come last, so that a finger can take hold of them
    // within the reach of the outer ones.
    let last = |head: &Head| is_chosen(scene, column) && matches!(head.part, Part::Inner(_));
    for comes_last in [false, true] {
        for (index, head) in column.heads.iter().enumerate() {
            if last(head) == comes_last {
                note(pen, scene, system, column, (index, head), x);
            }
        }
    }
}

fn open(pen: &mut Pen, scene: &Scene<'_>, system: &System, column: &Column) {
    let ends = match column.chord {
        Some(chord) => {
            let selected = if scene.look.selected == Some(chord) { " selected" } else { "" };
            pen.raw("<g class=\"chord").raw(selected).raw("\" id=\"chord-").int(chord);
            pen.raw("\" data-chord=\"").int(chord);
            let stage = scene.reading.harmony.chords.get(chord).map_or(0, |chord| chord.stage);
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
    scene: &Scene<'_>,
    system: &System,
    column: &Column,
    (index, head): (usize, &Head),
    x: f64,
) {
    let y = system.y_of(head.stave, head.pitch.diatonic());
    let pin = head.part == Part::Soprano && column.chord.is_some_and(|chord| scene.pinned(chord));
    pen.raw("<g class=\"note ").raw(part_class(head.part)).raw(match head.hand {
        Hand::Left => " left",
        Hand::Right => " right",
    });
    if pin {
        pen.raw(" pinned");
    }
    if let Some(chord) = column.chord {
        let gravity = scene.gravity(chord);
        let severity = match head.part {
            Part::Bass => gravity.bass,
            Part::Soprano => gravity.soprano,
            Part::Inner(_) => None,
        };
        pen.raw(match severity {
            Some(Severity::Fault) => " fault",
            Some(Severity::Caution) => " caution",
            None => "",
        });
        pen.raw("\" data-chord=\"").int(chord);
    }
    pen.raw("\" data-part=\"").raw(part_class(head.part));
    if let Part::Inner(place) = head.part {
        pen.raw("-").int(place);
    }
    if let Some(key) = head.pitch.key() {
        pen.raw("\" data-key=\"").int(key.index());
    }
    pen.raw("\"><title>").text(&title(head, scene.look.lang)).raw("</title>");
    if !matches!(head.part, Part::Inner(_)) {
        grip(pen, system, column, y);
    } else if is_chosen(scene, column) {
        inner_grip(pen, x + head.x, head.shape.width(), y);
    }
    for sign in column.accidentals.iter().filter(|sign| sign.head == index) {
        pen.sign(sign.glyph, sign.size, x + sign.x, y);
    }
    pen.sign(head.shape.glyph(), head.shape.size(), x + head.x, y);
    if pin {
        // A pin stuck into the note from above.
        let middle = x + head.x + head.shape.width() / 2.0;
        pen.raw("<path class=\"pin\" d=\"M").point(middle - 0.07, y - 0.55);
        pen.raw("v-.5h.14v.5z\"/><circle class=\"pin\" cx=\"").num(middle);
        pen.raw("\" cy=\"").num(y - PIN_HEIGHT + 0.2).raw("\" r=\".32\"/>");
    }
    pen.raw("</g>");
}

/// What a finger takes an outer note by: as wide as its chord, since a white note is hollow.
fn grip(pen: &mut Pen, system: &System, column: &Column, y: f64) {
    let place = system.chords.iter().find(|place| Some(place.chord) == column.chord);
    let Some(place) = place else { return };
    pen.raw("<rect class=\"grip\" fill=\"none\" pointer-events=\"all\" x=\"").num(place.x_left);
    pen.raw("\" y=\"").num(y - GRIP_HEIGHT / 2.0).raw("\" width=\"");
    pen.num(place.x_right - place.x_left).raw("\" height=\"").num(GRIP_HEIGHT).raw("\"/>");
}

fn is_chosen(scene: &Scene<'_>, column: &Column) -> bool {
    column.chord.is_some() && scene.look.selected == column.chord
}

/// What a finger takes an inner note of the chosen chord by: its own space of the staff.
fn inner_grip(pen: &mut Pen, x: f64, width: f64, y: f64) {
    pen.raw("<rect class=\"grip\" fill=\"none\" pointer-events=\"all\" x=\"").num(x - 0.7);
    pen.raw("\" y=\"").num(y - 0.5).raw("\" width=\"").num(width + 1.4);
    pen.raw("\" height=\"1\"/>");
}

fn part_class(part: Part) -> &'static str {
    match part {
        Part::Bass => "bass",
        Part::Soprano => "soprano",
        Part::Inner(_) => "inner",
    }
}

fn title(head: &Head, lang: Lang) -> String {
    let part = match head.part {
        Part::Bass => StaffPart::Bass,
        Part::Soprano => StaffPart::Soprano,
        Part::Inner(_) => StaffPart::Inner,
    };
    words::staff_note(head.pitch, part, head.hand, lang)
}

/// Ledger lines, each once, as wide as the heads at and beyond it.
fn ledger_lines(pen: &mut Pen, system: &System, column: &Column, x: f64) {
    for stave in Stave::BOTH {
        for away in [2, -2] {
            let start = if away > 0 { stave.top_line() } else { stave.bottom_line() };
            for line in (1..=MOST_LEDGERS).map(|count| start + away * count) {
                let beyond = column.heads.iter().filter(|head| {
                    let past = (head.pitch.diatonic() - line) * away.signum();
                    head.stave == stave && ledgers(head) > 0 && past >= 0
                });
                let ends = beyond.map(|head| (head.x, head.x + head.shape.width()));
                let Some((left, right)) = ends.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1))) else {
                    break;
                };
                let reach = column::LEDGER_REACH;
                let y = system.y_of(stave, line) - LEDGER / 2.0;
                pen.rect(x + left - reach, y, right - left + 2.0 * reach, LEDGER);
            }
        }
    }
}

/// One wavy line through both staves.
fn arpeggio(pen: &mut Pen, system: &System, column: &Column, left: f64) {
    let (Some(low), Some(high)) = (column.heads.first(), column.heads.last()) else { return };
    let bottom = system.y_of(low.stave, low.pitch.diatonic()) + 0.5;
    let top = system.y_of(high.stave, high.pitch.diatonic()) - 0.5;
    let wave = glyphs::WIGGLE.advance;
    let mut left_over = ((bottom - top) / wave).round().max(1.0) as usize;
    if pen.outlines() {
        pen.raw("<path class=\"roll\" aria-hidden=\"true\" fill-opacity=\".75\" d=\"");
        for along in 0..left_over {
            let y = bottom - wave * along as f64;
            pen.outline_within(outline::wave(), left + column::ROLL_WIDTH, y);
        }
        pen.raw("\"/>");
        return;
    }
    // The sign's origin is its lower right corner once it stands upright.
    pen.raw("<g class=\"roll\" aria-hidden=\"true\" fill-opacity=\".75\" transform=\"translate(");
    pen.point(left + column::ROLL_WIDTH, bottom).raw(") rotate(-90)\">");
    let mut along = 0.0;
    while left_over > 0 {
        let power = left_over.ilog2().min(LONGEST_ROLL);
        let piece = 1usize << power;
        pen.raw("<use href=\"#");
        roll_id(pen, piece).raw("\" x=\"").num(along).raw("\"/>");
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

/// The figures of a column, its middle and their top given. A dash starts from
/// `before`, where the figures of the column before end.
pub(super) fn figures(pen: &mut Pen, column: &Column, middle: f64, top: f64, before: Option<f64>) {
    if column.figures.items.is_empty() {
        return;
    }
    pen.raw("<g class=\"figures\" aria-hidden=\"true\">");
    for item in &column.figures.items {
        match item {
            Item::Sign(glyph, row, x) => {
                let y = top + 1.35 + *row as f64 * figures::ROW;
                pen.sign(glyph, Size::Full, middle + x, y);
            }
            Item::Dash => {
                let left = before.map_or(middle - 0.8, |end| end + 0.5);
                pen.rect(left, top + 0.6, middle + 0.8 - left, 0.16);
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

/// The fermata over the last chord.
pub(super) fn fermata(pen: &mut Pen, scene: &Scene<'_>, system: &System) {
    let Some(place) = system.chords.last() else { return };
    let pin = if scene.pinned(place.chord) { PIN_HEIGHT } else { 0.0 };
    let y = system.treble_top.min(place.soprano_y - 0.5 - pin) - 0.6;
    let glyph = &glyphs::FERMATA;
    pen.raw("<g class=\"fermata\" aria-hidden=\"true\" fill=\"currentColor\">");
    pen.sign(glyph, Size::Full, place.soprano_x - glyph.advance / 2.0, y).raw("</g>");
}
