//! What it costs to go from one chord of the stock to another in the same tonality,
//! worked out once for all pairs: the search asks for it many million times.

use super::costs;
use super::lexicon::{self, Sets, Shape};
use crate::pitch::Mode;
use std::sync::LazyLock;

/// The costs of one mode, by the second chord's number and then the first's.
pub(super) struct Joins {
    chords: usize,
    costs: Vec<i32>,
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
        Joins { chords: shapes.len(), costs }
    }

    /// What it costs to go from one chord, by its number, to another.
    pub(super) fn cost(&self, from: usize, to: usize) -> i32 {
        self.costs.get(to * self.chords + from).copied().unwrap_or(0)
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
