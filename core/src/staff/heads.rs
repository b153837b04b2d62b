//! Which notes a chord shows, on which stave, by which hand, and which heads
//! step aside for a neighbour.

use super::glyph::{Glyph, Size};
use super::glyphs;
use super::look::{Layer, Layers};
use super::stave::Stave;
use crate::hands::{Hand, Handful};
use crate::order;
use crate::pitch::Pitch;

/// A left-hand note above this (G4, three ledger lines) goes to the upper stave.
const LEFT_HIGHEST: i32 = 32;
/// A right-hand note below this (F3, three ledger lines) goes to the lower stave.
const RIGHT_LOWEST: i32 = 24;

/// What a note is to its chord.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    /// The bass.
    Bass,
    /// The soprano.
    Soprano,
    /// A note between, counted from the lowest of its hand.
    Inner(usize),
}

/// One note head.
#[derive(Clone, Debug)]
pub(super) struct Head {
    pub(super) pitch: Pitch,
    pub(super) part: Part,
    pub(super) hand: Hand,
    pub(super) stave: Stave,
    /// Left edge, in staff spaces from the left edge of the column's main heads.
    pub(super) x: f64,
    pub(super) shape: Shape,
}

/// The head's outline and size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Shape {
    /// A semibreve at full size.
    White,
    /// A semibreve at the inner notes' size.
    SmallWhite,
    /// A small black note that carries no chord.
    SmallBlack,
}

impl Shape {
    pub(super) fn glyph(self) -> &'static Glyph {
        match self {
            Shape::White | Shape::SmallWhite => &glyphs::WHOLE,
            Shape::SmallBlack => &glyphs::BLACK,
        }
    }

    pub(super) fn size(self) -> Size {
        match self {
            Shape::White => Size::Full,
            Shape::SmallWhite | Shape::SmallBlack => Size::Small,
        }
    }

    /// Its width in staff spaces.
    pub(super) fn width(self) -> f64 {
        self.glyph().advance * self.size().scale()
    }
}

/// The heads of a chord from the bottom up, the soprano and bass always told
/// apart even where the hands leave them out.
pub(super) fn of_chord(bass: Pitch, soprano: Pitch, handful: &Handful, show: Layers) -> Vec<Head> {
    let mut heads = Vec::with_capacity(handful.left.len() + handful.right.len() + 2);
    heads.push(head(bass, Part::Bass, Hand::Left, Shape::White));
    if show.has(Layer::Inner) {
        let left = handful.left.iter().enumerate().map(|(i, &p)| (i, p, Hand::Left));
        let right = handful.right.iter().enumerate().map(|(i, &p)| (i, p, Hand::Right));
        for (i, pitch, hand) in left.chain(right) {
            if pitch != bass && pitch != soprano {
                heads.push(head(pitch, Part::Inner(i), hand, Shape::SmallWhite));
            }
        }
    }
    if show.has(Layer::Soprano) && soprano != bass {
        heads.push(head(soprano, Part::Soprano, Hand::Right, Shape::White));
    }
    settle(&mut heads);
    heads
}

/// The head of a bass note that carries no chord.
pub(super) fn of_passing(bass: Pitch) -> Vec<Head> {
    let mut heads = vec![head(bass, Part::Bass, Hand::Left, Shape::SmallBlack)];
    settle(&mut heads);
    heads
}

/// The stave a note of a hand is written on: each hand keeps its own unless
/// that takes more than three ledger lines.
pub fn stave(pitch: Pitch, hand: Hand) -> Stave {
    let height = pitch.diatonic();
    match hand {
        Hand::Left if height > LEFT_HIGHEST => Stave::Treble,
        Hand::Left => Stave::Bass,
        Hand::Right if height < RIGHT_LOWEST => Stave::Bass,
        Hand::Right => Stave::Treble,
    }
}

fn head(pitch: Pitch, part: Part, hand: Hand, shape: Shape) -> Head {
    Head { pitch, part, hand, stave: stave(pitch, hand), x: 0.0, shape }
}

/// Sorts the heads upward and moves the upper of two neighbours to the right.
fn settle(heads: &mut [Head]) {
    let main = Shape::White.width();
    order::by_key(heads, |head| (head.stave == Stave::Treble, head.pitch.diatonic()));
    let mut below: Option<(Stave, i32, bool)> = None;
    for head in heads.iter_mut() {
        let height = head.pitch.diatonic();
        let close = below.is_some_and(|(stave, under, aside)| {
            stave == head.stave && height - under <= 1 && !aside
        });
        head.x = if close { main } else { (main - head.shape.width()) / 2.0 };
        below = Some((head.stave, height, close));
    }
}
