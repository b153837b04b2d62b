//! What it costs to go from one chord of the stock to another in the same tonality,
//! worked out once for all pairs: the search asks for it many million times.

use super::costs;
use super::lexicon::{self, Sets, Shape};
use crate::pitch::Mode;
use std::sync::LazyLock;

/// Where counted pairs are followed, the duties of the chords say again part of what the
/// counts have said, and weigh so much less.
const DUTIES: i32 = 5;

/// The costs of one mode, by the second chord's number and then the first's.
pub(super) struct Joins {
    chords: usize,
    costs: Vec<i32>,
    /// The same beside counted pairs.
    light: Vec<i32>,
}

static JOINS: LazyLock<[Joins; 2]> =
    LazyLock::new(|| [Joins::new(Mode::Major), Joins::new(Mode::Minor)]);

impl Joins {
    /// Those of a mode.
    pub(super) fn of(mode: Mode) -> &'static Joins {
        &JOINS[usize::from(mode == Mode::Minor)]
    }

    fn new(mode: Mode) -> Joins {
        let shapes: Vec<&Shape> = (0..).map_while(|it| lexicon::shape(mode, it)).collect();
        let mut costs = Vec::with_capacity(shapes.len() * shapes.len());
        for to in &shapes {
            let (first, _) = ends(to);
            costs.extend(shapes.iter().map(|from| costs::step(&ends(from).1, &first)));
        }
        let light = costs.iter().map(|cost| cost / DUTIES).collect();
        Joins { chords: shapes.len(), costs, light }
    }

    /// What it costs to go to a chord, by its number, from each chord in turn; less
    /// where counted pairs are followed.
    pub(super) fn to(&self, to: usize, counted: bool) -> &[i32] {
        let costs = if counted { &self.light } else { &self.costs };
        costs.get(to * self.chords..(to + 1) * self.chords).unwrap_or_default()
    }
}

/// The first and the last sonority of a chord, marked where it is a daring one.
pub(super) fn ends(shape: &Shape) -> (Sets, Sets) {
    let end = |layer: Option<&lexicon::Layer>| Sets {
        spiced: shape.daring > 0,
        ..layer.map(|it| it.sets).unwrap_or_default()
    };
    (end(shape.stages.first()), end(shape.stages.last()))
}
