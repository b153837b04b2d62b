//! One column of the staff: a chord's heads, accidentals, figures and signs,
//! measured from the left edge of its main heads.

use super::figures::{self, Stack};
use super::glyph::Glyph;
use super::heads::{self, Head, Part, Shape};
use super::look::{Layer, Layers};
use super::signature::Signature;
use super::stave::Stave;
use crate::hands::{Hand, Handful};
use crate::harmony::Chord;
use crate::pitch::Pitch;

/// How far a ledger line passes its head.
pub(super) const LEDGER_REACH: f64 = 0.35;
/// Width of an arpeggio sign set upright.
pub(super) const ROLL_WIDTH: f64 = 0.48;
/// Clear space beside a sign.
const AIR: f64 = 0.18;
/// Clear space between the arpeggio sign and what stands right of it.
const ROLL_AIR: f64 = 0.35;
/// Clear space between heads and hand bracket, and the bracket's hook.
pub(super) const BRACKET_AIR: f64 = 0.3;
pub(super) const BRACKET_HOOK: f64 = 0.45;

/// An accidental before a head.
pub(super) struct Accidental {
    /// Index of its head in the column.
    pub(super) head: usize,
    pub(super) glyph: &'static Glyph,
    pub(super) x: f64,
}

/// A column of the staff.
pub(super) struct Column {
    /// Index of the bass note in the sketch.
    pub(super) note: usize,
    /// Index of the chord; `None` for a bass note that carries none.
    pub(super) chord: Option<usize>,
    pub(super) heads: Vec<Head>,
    pub(super) accidentals: Vec<Accidental>,
    pub(super) figures: Stack,
    /// Left edge of the arpeggio sign.
    pub(super) roll: Option<f64>,
    /// The hand brackets' upright, in staff spaces from the main heads.
    pub(super) bracket: Option<f64>,
    /// How far it reaches left of the main heads (positive).
    pub(super) left: f64,
    /// How far it reaches right of the main heads' left edge.
    pub(super) right: f64,
}

impl Column {
    /// The column of a chord.
    pub(super) fn of_chord(
        (index, chord): (usize, &Chord),
        soprano: Pitch,
        handful: &Handful,
        signature: Signature,
        show: Layers,
    ) -> Column {
        let heads = heads::of_chord(chord.bass, soprano, handful, show);
        let figures =
            if show.has(Layer::Figures) { figures::stack(&chord.figures) } else { Stack::EMPTY };
        let mut column = Column::measured(chord.note, Some(index), heads, figures, signature);
        if show.has(Layer::Rolls) && column.heads.len() > 1 {
            let x = -column.left - ROLL_AIR - ROLL_WIDTH;
            column.roll = Some(x);
            column.left = -x;
        }
        if show.has(Layer::Hands) && column.heads.len() > 1 {
            column.bracket = Some(column.right + BRACKET_AIR + BRACKET_HOOK);
            column.right += BRACKET_AIR + BRACKET_HOOK;
        }
        column
    }

    /// The column of a bass note that carries no chord.
    pub(super) fn of_passing(note: usize, bass: Pitch, signature: Signature) -> Column {
        Column::measured(note, None, heads::of_passing(bass), Stack::EMPTY, signature)
    }

    fn measured(
        note: usize,
        chord: Option<usize>,
        heads: Vec<Head>,
        figures: Stack,
        signature: Signature,
    ) -> Column {
        let accidentals = accidentals(&heads, signature);
        let mut left = if heads.iter().any(|h| ledgers(h).1 > 0) { LEDGER_REACH } else { 0.0 };
        for sign in &accidentals {
            left = left.max(-sign.x);
        }
        let centre = Shape::White.width() / 2.0;
        left = left.max(figures.left - centre);
        let right = heads.iter().map(|head| head.x + head.shape.width());
        let right = right.fold(centre + figures.right, f64::max);
        Column { note, chord, heads, accidentals, figures, roll: None, bracket: None, left, right }
    }

    /// The head of one part.
    pub(super) fn part(&self, part: Part) -> Option<&Head> {
        self.heads.iter().find(|head| head.part == part)
    }

    /// The lowest and highest head of a hand.
    pub(super) fn hand(&self, hand: Hand) -> Option<(&Head, &Head)> {
        let mut of_hand = self.heads.iter().filter(|head| head.hand == hand);
        let first = of_hand.next()?;
        Some((first, of_hand.next_back().unwrap_or(first)))
    }
}

/// The ledger line nearest the staff, and how many there are: below the staff
/// they are counted down, above it up.
pub(super) fn ledgers(head: &Head) -> (i32, i32) {
    let height = head.pitch.diatonic();
    let (top, bottom) = (head.stave.top_line(), head.stave.bottom_line());
    if height > top {
        (top + 2, (height - top) / 2)
    } else if height < bottom {
        (bottom - 2, (bottom - height) / 2)
    } else {
        (top, 0)
    }
}

/// Something that an accidental must not touch.
struct Block {
    stave: Stave,
    top: f64,
    bottom: f64,
    left: f64,
}

/// Sets the accidentals from the outside of the chord inward, each as far right
/// as heads, ledger lines and the accidentals set before it allow.
fn accidentals(heads: &[Head], signature: Signature) -> Vec<Accidental> {
    let mut blocks: Vec<Block> = heads
        .iter()
        .map(|head| {
            let y = head.stave.down(head.pitch.diatonic());
            let reach = if ledgers(head).1 > 0 { LEDGER_REACH } else { 0.0 };
            Block { stave: head.stave, top: y - 0.5, bottom: y + 0.5, left: head.x - reach }
        })
        .collect();
    let mut set = Vec::new();
    for index in outside_in(heads.len()) {
        let Some(head) = heads.get(index) else { continue };
        let y = head.stave.down(head.pitch.diatonic());
        for glyph in signature.accidentals(head.pitch).iter().rev() {
            let (top, bottom) = (y - glyph.above(), y + glyph.below());
            let edge = blocks
                .iter()
                .filter(|b| b.stave == head.stave && b.top < bottom && top < b.bottom)
                .map(|block| block.left)
                .fold(0.0, f64::min);
            let x = edge - AIR - glyph.bounds[2];
            blocks.push(Block { stave: head.stave, top, bottom, left: x });
            set.push(Accidental { head: index, glyph, x });
        }
    }
    set
}

/// Indices from both ends toward the middle, the last first.
fn outside_in(count: usize) -> impl Iterator<Item = usize> {
    (0..count).map(move |i| if i % 2 == 0 { count - 1 - i / 2 } else { i / 2 })
}
