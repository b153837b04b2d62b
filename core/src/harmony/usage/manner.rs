//! A manner of harmonising, learned from pieces: what is counted in them, and the
//! habit by which people name it.
//!
//! Two are kept. *Chorales*: the counts come from 345 settings as scores, the habit
//! from analyses of 20 others. *Madrigals*: both come from the analyses of 48
//! madrigals by C. Monteverdi (books III to V, 1592 to 1605; analyst: M.S. Cuthbert),
//! which the music21 library ships. A style of plain chords on whatever degree is
//! told by how its bass moves rather than by degrees, so it needs a small table only.

use super::habit::{self, FIGURES, Feature, Habit, Rhythm, Ways};
use super::{Counts, START, read};
use crate::harmony::lexicon::{Layer, Shape};
use crate::harmony::octave_rule::Version;
use crate::pitch::Mode;
use std::sync::{Arc, LazyLock};

/// What is followed where no rule is.
#[derive(Clone)]
pub struct Manner {
    /// Which habit of the list of versions it is.
    pub(super) version: Version,
    pub(super) counts: Arc<Counts>,
    pub(super) habit: Habit,
}

static CHORALES: LazyLock<Manner> = LazyLock::new(|| Manner {
    version: Version::Chorales,
    counts: Arc::new(read(include_str!("chorales.txt"))),
    habit: Habit::read(include_str!("chorales_habit.txt")),
});

static MADRIGALS: LazyLock<Manner> =
    LazyLock::new(|| Manner::madrigals(include_str!("madrigals.txt")));

impl Manner {
    /// The manner a version follows; a rule is led to its tonalities by the chorales.
    pub fn of(version: Version) -> &'static Manner {
        match version {
            Version::Madrigals => &MADRIGALS,
            _ => &CHORALES,
        }
    }

    /// The counts of the chorales under another habit, for measuring.
    pub fn chorales(habit: Habit) -> Manner {
        Manner { habit, ..CHORALES.clone() }
    }

    /// The manner of madrigals from its rows, counts and habit together.
    pub fn madrigals(text: &str) -> Manner {
        let counts = Arc::new(read(text));
        Manner { version: Version::Madrigals, counts, habit: Habit::read(text) }
    }

    /// The features of a bass note among its neighbours' places.
    pub(super) fn features(
        &self,
        mode: Mode,
        here: i32,
        [_, before, after, later]: super::Around,
        rhythm: Rhythm,
        counted: [f64; FIGURES],
    ) -> Vec<(Feature, f64)> {
        let way = |from: i32, to: i32| if from.max(to) < START { to - from } else { NO_WAY };
        let ways = Ways { from: way(before, here), to: way(here, after), on: way(after, later) };
        if self.version == Version::Chorales {
            return habit::by_degrees(mode, here, (before, after), ways, rhythm, counted);
        }
        habit::by_motions(mode, here, ways, rhythm)
    }

    /// What is added to the cost of a shape that is too rare to be counted well: in
    /// madrigals a diminished triad on its root, in whose place stands the sixth (common
    /// practice, no source; our choice of weight).
    pub(super) fn avoided(&self, shape: &Shape) -> i32 {
        let diminished = |layer: &Layer| {
            let bass = layer.sets.bass;
            layer.sets.is(&[3, 5]) && layer.sets.sounding & (bass >> 6) != 0
        };
        let avoided = self.version == Version::Madrigals && shape.stages.iter().any(diminished);
        if avoided { DIMINISHED } else { 0 }
    }
}

/// A diminished triad on its root, on the scale of the stock.
const DIMINISHED: i32 = 10;
/// From no note, or to none.
const NO_WAY: i32 = 99;
