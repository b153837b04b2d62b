//! One column of the staff: a chord's heads, accidentals, figures and signs,
//! measured from the left edge of its main heads.

use super::figures::{self, Stack};
use super::glyph::{Glyph, Size};
use super::glyphs;
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

/// An accidental before a head, or half a bracket round one.
pub(super) struct Accidental {
    /// Index of its head in the column.
    pub(super) head: usize,
    pub(super) glyph: &'static Glyph,
    pub(super) size: Size,
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
    /// The uprights of the left and the right hand's brackets, in staff spaces from
    /// the main heads; none where a hand needs no bracket.
    pub(super) brackets: [Option<f64>; 2],
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
        before: Option<&Column>,
        show: Layers,
    ) -> Column {
        let heads = heads::of_chord(chord.bass, soprano, handful, show);
        let figures =
            if show.has(Layer::Figures) { figures::stack(&chord.figures) } else { Stack::EMPTY };
        let mut column =
            Column::measured(chord.note, Some(index), heads, figures, signature, before);
        if show.has(Layer::Rolls) && column.heads.len() > 1 {
            let x = -column.left - ROLL_AIR - ROLL_WIDTH;
            column.roll = Some(x);
            column.left = -x;
        }
        if show.has(Layer::Hands) && column.heads.len() > 1 {
            column.brackets = [Hand::Left, Hand::Right].map(|hand| column.bracket(hand));
            column.right = column.brackets.into_iter().flatten().fold(column.right, f64::max);
        }
        column
    }

    /// The column of a bass note that carries no chord.
    pub(super) fn of_passing(
        note: usize,
        bass: Pitch,
        signature: Signature,
        before: Option<&Column>,
    ) -> Column {
        Column::measured(note, None, heads::of_passing(bass), Stack::EMPTY, signature, before)
    }

    fn measured(
        note: usize,
        chord: Option<usize>,
        heads: Vec<Head>,
        figures: Stack,
        signature: Signature,
        before: Option<&Column>,
    ) -> Column {
        let before = before.map_or(&[][..], |column| &column.heads);
        let accidentals = accidentals(&heads, signature, before);
        let mut left = if heads.iter().any(|h| ledgers(h) > 0) { LEDGER_REACH } else { 0.0 };
        for sign in &accidentals {
            left = left.max(-sign.x);
        }
        let centre = Shape::White.width() / 2.0;
        left = left.max(figures.left - centre);
        let right = heads.iter().map(|head| head.x + head.shape.width());
        let right = right.fold(centre + figures.right, f64::max);
        Column {
            note,
            chord,
            heads,
            accidentals,
            figures,
            roll: None,
            brackets: [None; 2],
            left,
            right,
        }
    }

    /// Where a hand's bracket stands; none where a lone note on its own stave
    /// leaves no doubt.
    fn bracket(&self, hand: Hand) -> Option<f64> {
        let home = match hand {
            Hand::Left => Stave::Bass,
            Hand::Right => Stave::Treble,
        };
        let heads = self.heads.iter().filter(|head| head.hand == hand);
        if heads.clone().count() < 2 && heads.clone().all(|head| head.stave == home) {
            return None;
        }
        let edge = heads.map(|head| head.x + head.shape.width()).fold(0.0, f64::max);
        Some(edge + BRACKET_AIR + BRACKET_HOOK)
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

/// How many ledger lines a head needs.
pub(super) fn ledgers(head: &Head) -> i32 {
    let height = head.pitch.diatonic();
    ((height - head.stave.top_line()) / 2).max((head.stave.bottom_line() - height) / 2).max(0)
}

/// Something that an accidental must not touch.
struct Block {
    stave: Stave,
    top: f64,
    bottom: f64,
    left: f64,
}

/// The signs before a head, right to left. An accidental holds for its own note
/// only; where the chord before altered the same line or space otherwise, a
/// reminder in brackets says so.
fn signs(
    head: &Head,
    signature: Signature,
    before: &[Head],
) -> (Size, impl Iterator<Item = &'static Glyph>) {
    let needed = signature.accidentals(head.pitch);
    let (left, glyphs, right) = if needed.is_empty()
        && before.iter().any(|it| {
            it.pitch.diatonic() == head.pitch.diatonic() && it.pitch.alter != head.pitch.alter
        }) {
        let glyphs = Signature::accidentals_of(head.pitch.alter);
        (Some(&glyphs::PAREN_LEFT), glyphs, Some(&glyphs::PAREN_RIGHT))
    } else {
        (None, needed, None)
    };
    let size = if left.is_some() { Size::Small } else { Size::Full };
    (size, right.into_iter().chain(glyphs.iter().rev().copied()).chain(left))
}

/// Sets the accidentals from the outside of the chord inward, each as far right
/// as heads, ledger lines and the accidentals set before it allow.
fn accidentals(heads: &[Head], signature: Signature, before: &[Head]) -> Vec<Accidental> {
    let mut blocks: Vec<Block> = heads
        .iter()
        .map(|head| {
            let y = head.stave.down(head.pitch.diatonic());
            let reach = if ledgers(head) > 0 { LEDGER_REACH } else { 0.0 };
            Block { stave: head.stave, top: y - 0.5, bottom: y + 0.5, left: head.x - reach }
        })
        .collect();
    let mut set = Vec::new();
    for index in outside_in(heads.len()) {
        let Some(head) = heads.get(index) else { continue };
        let y = head.stave.down(head.pitch.diatonic());
        let (size, glyphs) = signs(head, signature, before);
        for glyph in glyphs {
            let scale = size.scale();
            let (top, bottom) = (y - glyph.above() * scale, y + glyph.below() * scale);
            let edge = blocks
                .iter()
                .filter(|b| b.stave == head.stave && b.top < bottom && top < b.bottom)
                .map(|block| block.left)
                .fold(0.0, f64::min);
            let x = edge - AIR * scale - glyph.bounds[2] * scale;
            blocks.push(Block { stave: head.stave, top, bottom, left: x });
            set.push(Accidental { head: index, glyph, size, x });
        }
    }
    set
}

/// Indices from both ends toward the middle, the last first.
fn outside_in(count: usize) -> impl Iterator<Item = usize> {
    (0..count).map(move |i| if i % 2 == 0 { count - 1 - i / 2 } else { i / 2 })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pitch::{Step, Tonality};

    /// Heads and accidentals of made-up chords, dense and far altered, never touch.
    #[test]
    fn nothing_in_a_column_touches() {
        let signature = Signature::of(Tonality::parse("Eb").expect("a tonality"));
        for seed in 0..400_i32 {
            let mut state = seed;
            let mut draw = move |below: i32| {
                state = state.wrapping_mul(1_103_515_245).wrapping_add(12_345);
                (state >> 16).rem_euclid(below)
            };
            let mut hand = |low: i32, count: i32| -> Vec<Pitch> {
                let mut height = low + draw(6);
                (0..count)
                    .map(|_| {
                        height += 1 + draw(3);
                        Pitch::from_diatonic(height, draw(5) as i8 - 2)
                    })
                    .collect()
            };
            let handful = Handful { left: hand(14, 4), right: hand(29, 4) };
            let (bass, soprano) = (handful.left[0], handful.right[3]);
            let heads = heads::of_chord(bass, soprano, &handful, Layers::all());
            assert_eq!(heads.len(), 8);
            let signs = accidentals(&heads, signature, &[]);
            let head_boxes = heads.iter().map(|head| {
                let y = head.stave.down(head.pitch.diatonic());
                let half = 0.5 * head.shape.size().scale();
                // Heads a third apart share a line's width and no more.
                (head.stave, y - half + 0.01, y + half - 0.01, head.x, head.x + head.shape.width())
            });
            let sign_boxes = signs.iter().map(|sign| {
                let head = &heads[sign.head];
                let y = head.stave.down(head.pitch.diatonic());
                let (left, right) = (sign.glyph.bounds[0], sign.glyph.bounds[2]);
                (
                    head.stave,
                    y - sign.glyph.above(),
                    y + sign.glyph.below(),
                    sign.x + left,
                    sign.x + right,
                )
            });
            let boxes: Vec<_> = head_boxes.chain(sign_boxes).collect();
            for (i, a) in boxes.iter().enumerate() {
                for b in &boxes[i + 1..] {
                    let apart = a.0 != b.0
                        || a.2 <= b.1
                        || b.2 <= a.1
                        || a.4 <= b.3 + 1e-9
                        || b.4 <= a.3 + 1e-9;
                    assert!(apart, "seed {seed}: {a:?} touches {b:?}");
                }
            }
        }
    }

    #[test]
    fn a_reminder_stands_where_the_line_was_altered_before() {
        let signature = Signature::of(Tonality::parse("C").expect("a tonality"));
        let bass = |alter| Pitch::new(Step::F, alter, 3);
        let sharp = Column::of_passing(0, bass(1), signature, None);
        assert_eq!(sharp.accidentals.len(), 1);
        let natural = Column::of_passing(1, bass(0), signature, Some(&sharp));
        assert_eq!(natural.accidentals.len(), 3);
        let again = Column::of_passing(2, bass(0), signature, Some(&natural));
        assert!(again.accidentals.is_empty());
    }
}
