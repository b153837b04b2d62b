//! Figures under the bass as a stack of signs.

use super::glyph::Glyph;
use super::glyphs;
use crate::figures::{Accidental, Sign, Stage};

/// Size of the figures against the font's own.
pub(super) const SCALE: f64 = 1.3;
/// Height of one row.
pub(super) const ROW: f64 = 1.7;
/// Clear space between an accidental and its figure.
const AIR: f64 = 0.1;

/// One sign of a stack.
pub(super) enum Item {
    /// A sign: row from the top, left edge from the stack's middle.
    Sign(&'static Glyph, usize, f64),
    /// A dash: the figures before go on.
    Dash,
    /// *Tasto solo*.
    TastoSolo,
}

/// The figures of one sonority.
pub(super) struct Stack {
    pub(super) items: Vec<Item>,
    pub(super) rows: usize,
    /// How far it reaches left of its middle (positive), in staff spaces.
    pub(super) left: f64,
    /// How far it reaches right of its middle, in staff spaces.
    pub(super) right: f64,
}

impl Stack {
    /// No figures.
    pub(super) const EMPTY: Stack = Stack { items: Vec::new(), rows: 0, left: 0.0, right: 0.0 };
}

/// Sets the figures of a stage.
pub(super) fn stack(stage: &Stage) -> Stack {
    match stage {
        Stage::Hold => Stack { items: vec![Item::Dash], rows: 1, left: 0.8, right: 0.8 },
        Stage::TastoSolo => Stack { items: vec![Item::TastoSolo], rows: 1, left: 1.0, right: 1.0 },
        Stage::Signs(signs) => {
            let mut stack = Stack { rows: signs.len(), ..Stack::EMPTY };
            for (row, sign) in signs.iter().enumerate() {
                set(&mut stack, row, *sign);
            }
            stack
        }
    }
}

fn set(stack: &mut Stack, row: usize, sign: Sign) {
    let (before, middle, after) = signs(sign);
    let Some(middle) = middle.or(before) else { return };
    let before = before.filter(|glyph| !std::ptr::eq(*glyph, middle));
    let half = middle.advance * SCALE / 2.0;
    stack.items.push(Item::Sign(middle, row, -half));
    let (mut left, mut right) = (half, half);
    if let Some(glyph) = before {
        left += glyph.advance * SCALE + AIR;
        stack.items.push(Item::Sign(glyph, row, -left));
    }
    if let Some(glyph) = after {
        stack.items.push(Item::Sign(glyph, row, right + AIR));
        right += glyph.advance * SCALE + AIR;
    }
    stack.left = stack.left.max(left);
    stack.right = stack.right.max(right);
}

/// What stands before the digit, the digit, and what stands after it. An altered
/// third is its accidental alone.
fn signs(sign: Sign) -> (Option<&'static Glyph>, Option<&'static Glyph>, Option<&'static Glyph>) {
    let digit = digit(sign.number);
    let Some(accidental) = sign.accidental else { return (None, digit, None) };
    let before = match accidental {
        Accidental::DoubleFlat => &glyphs::FIG_DOUBLE_FLAT,
        Accidental::Flat => &glyphs::FIG_FLAT,
        Accidental::Natural => &glyphs::FIG_NATURAL,
        Accidental::Sharp => &glyphs::FIG_SHARP,
        Accidental::DoubleSharp => &glyphs::FIG_DOUBLE_SHARP,
        Accidental::Raised if sign.number == 3 => &glyphs::FIG_PLUS,
        Accidental::Raised => {
            return match sign.number {
                2 => (None, Some(&glyphs::FIG_2_RAISED), None),
                4 => (None, Some(&glyphs::FIG_4_RAISED), None),
                5 => (None, Some(&glyphs::FIG_5_RAISED), None),
                6 => (None, Some(&glyphs::FIG_6_RAISED), None),
                7 => (None, Some(&glyphs::FIG_7_RAISED), None),
                9 => (None, Some(&glyphs::FIG_9_RAISED), None),
                _ => (None, digit, Some(&glyphs::FIG_PLUS)),
            };
        }
    };
    if sign.number == 3 { (None, Some(before), None) } else { (Some(before), digit, None) }
}

fn digit(number: u8) -> Option<&'static Glyph> {
    Some(match number {
        2 => &glyphs::FIG_2,
        3 => &glyphs::FIG_3,
        4 => &glyphs::FIG_4,
        5 => &glyphs::FIG_5,
        6 => &glyphs::FIG_6,
        7 => &glyphs::FIG_7,
        8 => &glyphs::FIG_8,
        9 => &glyphs::FIG_9,
        _ => return None,
    })
}
