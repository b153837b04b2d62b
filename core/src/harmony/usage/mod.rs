//! How chorales harmonise their basses: counts, read as costs.
//!
//! Source: the four-part chorale settings of J.S. Bach as the music21 library
//! ships them as scores, the twenty with human analyses left out; 345 settings,
//! 17,722 chords. The counts were taken by `tests/oracle/usage.py` and the binary
//! `usage` of the tests; they are facts about music in the public domain, and no
//! score is reproduced. A row that was rarely met leans on the row that knows less
//! of the surroundings.

mod habit;

pub use habit::{FIGURES, Feature, Habit, Rhythm};

use super::lexicon::{self, Shape};
use crate::pitch::Mode;
use std::collections::HashMap;
use std::sync::LazyLock;

/// What a natural logarithm of likelihood costs, on the scale of the stock.
const NAT: f64 = 8.0;
/// How many cases the wider row counts for.
const LEAN: f64 = 5.0;
/// The same for pairs of chords.
const PAIR_LEAN: f64 = 8.0;
/// Likelihood of a chord nobody counted.
const UNHEARD: f64 = 0.004;

/// A neighbour of a bass note: a place in fifths from the tonic, or none.
pub(super) const START: i32 = 100;
/// No note after.
pub(super) const END: i32 = 101;

/// How much the notes two steps away weigh beside the nearest, chosen on chorales
/// of the same collection that were kept from the counts.
const FAR: f64 = 0.5;

/// Kind of row, minor, place, and up to two neighbours.
type Key = (u8, bool, i32, i32, i32);

struct Row {
    /// Numbers of shapes of the mode's stock and how often each stood there.
    counts: Vec<(usize, f64)>,
    total: f64,
}

/// Costs of pairs of chords over two bass places.
pub(super) struct Pairs {
    first: usize,
    second: usize,
    width: usize,
    costs: Vec<i32>,
}

impl Pairs {
    /// What it costs to go from one shape to another; negative where they like to
    /// follow each other.
    pub(super) fn cost(&self, from: usize, to: usize) -> i32 {
        let (row, column) = (from.wrapping_sub(self.first), to.wrapping_sub(self.second));
        if column >= self.width {
            return 0;
        }
        self.costs.get(row * self.width + column).copied().unwrap_or(0)
    }
}

struct Usage {
    rows: HashMap<Key, Row>,
    moves: HashMap<(bool, i32), HashMap<i32, f64>>,
    pairs: HashMap<(bool, i32, i32), Pairs>,
}

static USAGE: LazyLock<Usage> = LazyLock::new(|| read(include_str!("counts.txt")));

/// What the usage says of one bass note in one tonality.
pub(super) struct Here {
    mode: Mode,
    place: i32,
    around: Around,
    rhythm: Rhythm,
    /// The degree; with what follows; with what precedes too.
    near: [Option<&'static Row>; 3],
    /// With the two notes that follow; with the one and the two that precede.
    far: [Option<&'static Row>; 3],
    /// What it costs that the bass came here at all.
    pub(super) coming: i32,
}

/// A bass note's neighbours as places: two before, one before, one after, two after.
pub(super) type Around = [i32; 4];

/// The usage for a bass place with its neighbours' places and its length.
pub(super) fn here(mode: Mode, place: i32, around: Around, rhythm: Rhythm) -> Here {
    let minor = mode == Mode::Minor;
    let usage = &*USAGE;
    let [earlier, before, after, later] = around;
    let row = |kind, one, other| usage.rows.get(&(kind, minor, place, one, other));
    let moves = usage.moves.get(&(minor, before));
    let came = moves.map_or(0.0, |moves| moves.get(&place).copied().unwrap_or(0.0));
    let all = moves.map_or(0.0, |moves| moves.values().sum());
    Here {
        mode,
        place,
        around,
        rhythm,
        near: [row(b'0', ANY, ANY), row(b'1', after, ANY), row(b'2', before, after)],
        far: [row(b'3', after, later), row(b'4', before, ANY), row(b'5', before, earlier)],
        coming: cost((came + 0.5) / (all + 10.0)),
    }
}

/// The pair costs for a move from one bass place to another.
pub(super) fn pairs(mode: Mode, before: i32, place: i32) -> Option<&'static Pairs> {
    USAGE.pairs.get(&(mode == Mode::Minor, before, place))
}

impl Here {
    /// How likely a shape is by its nearest neighbours, in the range (0, 1].
    pub(super) fn likelihood(&self, shape: usize) -> f64 {
        self.near.iter().fold(UNHEARD, |wider, row| lean(*row, shape, wider))
    }

    /// The logarithm of a shape's likelihood by all its neighbours, up to a constant.
    fn counted(&self, shape: usize) -> f64 {
        let [degree, following, both] = self.near;
        let [later, preceding, earlier] = self.far;
        let degree = lean(degree, shape, UNHEARD);
        let following = lean(following, shape, degree);
        let near = lean(both, shape, following);
        let preceding = lean(preceding, shape, degree);
        // What the farther notes change in the likelihood that the nearer ones give.
        let later = lean(later, shape, following) / following;
        let earlier = lean(earlier, shape, preceding) / preceding;
        ln(near) + FAR * (ln(later) + ln(earlier))
    }

    /// What the counts say of each shape of the stock that stands here, and what of
    /// each figure: logarithms, the figures' normalised.
    fn all_counted(&self, shapes: &[Shape], first: usize) -> (Vec<f64>, [f64; FIGURES]) {
        let each: Vec<f64> = (first..first + shapes.len()).map(|it| self.counted(it)).collect();
        let mut mass = [UNHEARD * UNHEARD; FIGURES];
        for (shape, counted) in shapes.iter().zip(&each) {
            if let Some(mass) = shape.figure.and_then(|it| mass.get_mut(it)) {
                *mass += libm::exp(*counted);
            }
        }
        let all: f64 = mass.iter().sum();
        (each, mass.map(|mass| ln(mass / all)))
    }

    /// What is known of this note, for learning.
    pub(super) fn features(&self) -> Vec<(Feature, f64)> {
        let (first, shapes) = lexicon::shapes(self.mode, self.place);
        self.features_of(self.all_counted(shapes, first).1)
    }

    fn features_of(&self, figures: [f64; FIGURES]) -> Vec<(Feature, f64)> {
        let [_, before, after, _] = self.around;
        habit::features(self.mode, self.place, (before, after), self.rhythm, figures)
    }

    /// The costs of the shapes of the stock that stand here, in their order: the
    /// figure's by the habit, and the shape's share of its figure by the counts.
    pub(super) fn costs(&self, habit: &Habit) -> Vec<i32> {
        let (first, shapes) = lexicon::shapes(self.mode, self.place);
        let (each, figures) = self.all_counted(shapes, first);
        let all: f64 = shapes.iter().zip(&each).map(|(_, it)| libm::exp(*it)).sum();
        let all = ln(all.max(UNHEARD * UNHEARD));
        let scores = habit.scores(&self.features_of(figures));
        let most = scores.iter().copied().fold(f64::MIN, f64::max);
        let sum: f64 = scores.iter().map(|score| libm::exp(score - most)).sum();
        let cost = |(shape, counted): (&Shape, &f64)| {
            let counted = counted - all;
            let likely = match shape.figure {
                Some(figure) => counted - figures[figure] + scores[figure] - most - ln(sum),
                None => counted,
            };
            (-NAT * likely).round() as i32
        };
        shapes.iter().zip(&each).map(cost).collect()
    }
}

/// A row's likelihood of a shape, leaning on a wider row's where it is seldom met.
fn lean(row: Option<&Row>, shape: usize, wider: f64) -> f64 {
    let Some(row) = row else { return wider };
    let count = row.counts.iter().find(|(other, _)| *other == shape);
    (count.map_or(0.0, |(_, count)| *count) + LEAN * wider) / (row.total + LEAN)
}

/// Any neighbour.
const ANY: i32 = 102;

fn cost(likelihood: f64) -> i32 {
    (-NAT * ln(likelihood)).round() as i32
}

/// Natural logarithm by plain arithmetic, so that every machine agrees to the bit.
/// Good to about 1e-9 for the ratios that counts make; 0 and below give that of
/// the least one.
fn ln(x: f64) -> f64 {
    const LN_2: f64 = std::f64::consts::LN_2;
    let mut x = x.max(1e-9);
    let mut halvings = 0.0;
    while x > 1.5 {
        x /= 2.0;
        halvings += 1.0;
    }
    while x < 0.75 {
        x *= 2.0;
        halvings -= 1.0;
    }
    let y = (x - 1.0) / (x + 1.0);
    let square = y * y;
    let mut term = y;
    let mut sum = 0.0;
    let mut odd = 1.0;
    for _ in 0..14 {
        sum += term / odd;
        term *= square;
        odd += 2.0;
    }
    2.0 * sum + halvings * LN_2
}

fn read(text: &str) -> Usage {
    let mut usage = Usage { rows: HashMap::new(), moves: HashMap::new(), pairs: HashMap::new() };
    for line in text.lines() {
        let Some((key, entries)) = line.split_once(" : ") else { continue };
        let key: Vec<&str> = key.split(' ').collect();
        let entries: Vec<&str> = entries.split(' ').collect();
        let counted = entries
            .chunks_exact(2)
            .filter_map(|pair| Some((pair[0], pair[1].parse::<f64>().ok()?)));
        let place = |text: &str| match text {
            "^" => START,
            "$" => END,
            _ => text.parse().unwrap_or(ANY),
        };
        let minor = key.get(1) == Some(&"m");
        let mode = if minor { Mode::Minor } else { Mode::Major };
        match *key.as_slice() {
            ["n", _, before] => {
                let moves = counted.map(|(to, count)| (place(to), count)).collect();
                usage.moves.insert((minor, place(before)), moves);
            }
            ["p", _, before, here] => {
                let pairs = pair_costs(mode, place(before), place(here), counted);
                usage.pairs.insert((minor, place(before), place(here)), pairs);
            }
            [kind, _, here, ref around @ ..] => {
                let neighbour = |at: usize| around.get(at).map_or(ANY, |text| place(text));
                let kind = kind.bytes().next().unwrap_or(b'0');
                let key = (kind, minor, place(here), neighbour(0), neighbour(1));
                usage.rows.insert(key, row(mode, place(here), counted));
            }
            _ => {}
        }
    }
    usage
}

fn row<'a>(mode: Mode, here: i32, counted: impl Iterator<Item = (&'a str, f64)>) -> Row {
    let mut row = Row { counts: Vec::new(), total: 0.0 };
    for (figures, count) in counted {
        row.total += count;
        if let Some(shape) = lexicon::find(mode, here, figures) {
            row.counts.push((shape, count));
        }
    }
    row
}

fn pair_costs<'a>(
    mode: Mode,
    before: i32,
    here: i32,
    counted: impl Iterator<Item = (&'a str, f64)>,
) -> Pairs {
    let (first, from) = lexicon::shapes(mode, before);
    let (second, to) = lexicon::shapes(mode, here);
    let width = to.len();
    let mut counts = vec![0.0; from.len() * width];
    let mut rows = vec![0.0; from.len()];
    let mut columns = vec![0.0; width];
    let mut total = 0.0;
    for (pair, count) in counted {
        let Some((one, other)) = pair.split_once('>') else { continue };
        let row = from.iter().position(|shape| shape.text == one);
        let column = to.iter().position(|shape| shape.text == other);
        if let (Some(row), Some(column)) = (row, column) {
            counts[row * width + column] += count;
            rows[row] += count;
            columns[column] += count;
            total += count;
        }
    }
    let mut costs = Vec::with_capacity(counts.len());
    for (row, in_row) in rows.iter().enumerate() {
        for (column, in_column) in columns.iter().enumerate() {
            let expected = if total > 0.0 { in_row * in_column / total } else { 0.0 };
            let found = counts[row * width + column];
            costs.push(cost((found + PAIR_LEAN) / (expected + PAIR_LEAN)));
        }
    }
    Pairs { first, second, width, costs }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_logarithm_is_one() {
        for x in [1e-6, 0.01, 0.3, 0.75, 1.0, 1.5, 2.0, 40.0] {
            assert!((ln(x) - f64::ln(x)).abs() < 1e-9, "{x}");
        }
    }

    #[test]
    fn every_row_of_the_counts_is_read() {
        let usage = &*USAGE;
        let lines = include_str!("counts.txt").lines().count();
        assert_eq!(usage.rows.len() + usage.moves.len() + usage.pairs.len(), lines);
        // The tonic of major takes a plain chord.
        let here = here(Mode::Major, 0, [START, START, 1, END], Rhythm::default());
        let plain = lexicon::find(Mode::Major, 0, "5/3").expect("a plain chord");
        assert!(here.likelihood(plain) > 0.9);
    }
}
