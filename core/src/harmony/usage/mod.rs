//! How pieces harmonise their basses: counts, read as costs.
//!
//! Source: for the chorales, the four-part settings of J.S. Bach as the music21 library
//! ships them as scores, the twenty with human analyses left out; 345 settings,
//! 17,722 chords. The counts were taken by `tests/oracle/usage.py` and the binary
//! `usage` of the tests; they are facts about music in the public domain, and no
//! score is reproduced. A row that was rarely met leans on the row that knows less
//! of the surroundings. What of this an analyst would name is weighed by `habit`;
//! `manner` joins the two, and has the source of the madrigals.

mod habit;
mod hash;
mod manner;

pub use habit::{FIGURES, Feature, Habit, Rhythm};
pub use manner::Manner;

use super::lexicon::{self, Shape};
use crate::pitch::Mode;
use hash::Table;
use std::cell::RefCell;
use std::rc::Rc;

/// What a natural logarithm of likelihood costs, on the scale of the stock.
pub(super) const NAT: f64 = 8.0;
/// How many cases the wider row counts for.
const LEAN: f64 = 5.0;
/// The same for pairs of chords.
const PAIR_LEAN: f64 = 8.0;
/// Counted pairs say again part of what the counts of each chord have said, and weigh so
/// much less.
const PAIRS: i32 = 2;
/// Likelihood of a chord nobody counted.
const UNHEARD: f64 = 0.004;
/// Likelihood of a figure nobody counted.
const UNHEARD_FIGURE: f64 = UNHEARD * UNHEARD;

/// A neighbour of a bass note: a place in fifths from the tonic, or none.
pub(super) const START: i32 = 100;
/// No note after.
pub(super) const END: i32 = 101;
/// Any neighbour.
const ANY: i32 = 102;

/// Numbers packed into one: a letter, minor or not, and up to three places.
fn key(kind: u8, minor: bool, places: [i32; 3]) -> u64 {
    let start = u64::from(kind) << 1 | u64::from(minor);
    places.into_iter().fold(start, |key, place| key << 8 | u64::from(place as u8))
}

struct Row {
    /// How often each shape that can stand over the bass stood there, in the order
    /// of the stock.
    counts: Vec<f64>,
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

/// Where a bass went from somewhere, and how often in all.
#[derive(Default)]
struct Moves {
    to: Table<f64>,
    total: f64,
}

impl Moves {
    fn add(&mut self, to: i32, count: f64) {
        *self.to.entry(u64::from(to as u8)).or_default() += count;
        self.total += count;
    }

    fn count(&self, to: i32) -> f64 {
        self.to.get(&u64::from(to as u8)).copied().unwrap_or(0.0)
    }
}

/// What was counted in pieces.
#[derive(Default)]
struct Counts {
    rows: Table<Row>,
    /// Where basses go from a place.
    moves: Table<Moves>,
    pairs: Table<Pairs>,
}

/// What the usage says of one bass note in one tonality.
pub(super) struct Here<'a> {
    manner: &'a Manner,
    mode: Mode,
    place: i32,
    around: Around,
    rhythm: Rhythm,
    /// The degree; with what follows; with what precedes too, or at the opening.
    near: [Option<&'a Row>; 3],
    /// With the two notes that follow; with the one and the two that precede.
    far: [Option<&'a Row>; 3],
}

/// A bass note's neighbours as places: two before, one before, one after, two after.
pub(super) type Around = [i32; 4];

/// The usage for a bass place with its neighbours' places and its length.
pub(super) fn here(
    manner: &Manner,
    mode: Mode,
    place: i32,
    around: Around,
    rhythm: Rhythm,
) -> Here<'_> {
    let minor = mode == Mode::Minor;
    let [earlier, before, after, later] = around;
    let row = |kind, one, other| manner.counts.rows.get(&key(kind, minor, [place, one, other]));
    let both = row(b'2', before, after).or_else(|| row(b'6', before, ANY));
    Here {
        manner,
        mode,
        place,
        around,
        rhythm,
        near: [row(b'0', ANY, ANY), row(b'1', after, ANY), both],
        far: [row(b'3', after, later), row(b'4', before, ANY), row(b'5', before, earlier)],
    }
}

/// What it costs in a tonality that the bass came to a place from the one before.
/// What came earlier still was tried, and tells no more.
pub(super) fn coming(manner: &Manner, mode: Mode, place: i32, before: i32) -> i32 {
    let moves = manner.counts.moves.get(&key(b'n', mode == Mode::Minor, [before, ANY, ANY]));
    cost(moves.map_or(0.05, |it| (it.count(place) + 0.5) / (it.total + 10.0)))
}

/// The pair costs for a move from one bass place to another.
pub(super) fn pairs(manner: &Manner, mode: Mode, before: i32, place: i32) -> Option<&Pairs> {
    manner.counts.pairs.get(&key(b'p', mode == Mode::Minor, [before, place, ANY]))
}

impl Here<'_> {
    /// How likely a shape of the stock is by its nearest neighbours, in the range
    /// (0, 1]; by its place among those that can stand here.
    pub(super) fn likelihood(&self, shape: usize) -> f64 {
        self.near.iter().fold(UNHEARD, |wider, row| lean(*row, shape, wider))
    }

    /// How likely a shape is by all its neighbours, up to a factor.
    fn counted(&self, shape: usize) -> f64 {
        let [degree, following, both] = self.near;
        let [later, preceding, earlier] = self.far;
        let degree = lean(degree, shape, UNHEARD);
        let following = lean(following, shape, degree);
        let near = lean(both, shape, following);
        let preceding = lean(preceding, shape, degree);
        // What the farther notes change in the likelihood that the nearer ones give;
        // that they weigh half beside those was chosen on chorales of the same
        // collection that were kept from the counts.
        let later = lean(later, shape, following) / following;
        let earlier = lean(earlier, shape, preceding) / preceding;
        near * libm::sqrt(later * earlier)
    }

    /// What the counts say of the shapes of the stock that stand here, in their order:
    /// each one's share of its figure, or of all chords where it comes to rest on none of
    /// the seven; and each figure's share. All are logarithms.
    pub(super) fn shares(&self) -> (Vec<f64>, [f64; FIGURES]) {
        let (_, shapes) = lexicon::shapes(self.mode, self.place);
        let each: Vec<f64> = (0..shapes.len()).map(|shape| self.counted(shape)).collect();
        let mut mass = [UNHEARD_FIGURE; FIGURES];
        for (shape, counted) in shapes.iter().zip(&each) {
            if let Some(mass) = shape.figure.and_then(|it| mass.get_mut(it)) {
                *mass += counted;
            }
        }
        let all: f64 = mass.iter().sum();
        let figures = mass.map(|mass| libm::log(mass / all));
        let all: f64 = each.iter().sum();
        let share = |(shape, counted): (&Shape, &f64)| {
            let figure = shape.figure.and_then(|it| figures.get(it)).copied().unwrap_or(0.0);
            libm::log(counted / all.max(UNHEARD_FIGURE)) - figure
        };
        (shapes.iter().zip(&each).map(share).collect(), figures)
    }

    /// What is known of this note, for the habit.
    pub(super) fn features(&self, figures: [f64; FIGURES]) -> Vec<(Feature, f64)> {
        self.manner.features(self.mode, self.place, self.around, self.rhythm, figures)
    }

    /// The costs of the shapes of the stock that stand here, in their order: the
    /// figure's by the habit, and the shape's share of its figure by the counts.
    pub(super) fn costs(&self, memo: &Memo) -> Rc<[i32]> {
        let Rhythm { length, off } = self.rhythm;
        let length = i32::from(length) << 1 | i32::from(off);
        let [earlier, before, after, later] = self.around;
        let start = key(length as u8, self.mode == Mode::Minor, [self.place, earlier, before]);
        let place =
            [after, later].into_iter().fold(start, |key, it| key << 8 | u64::from(it as u8));
        if let Some(known) = memo.0.borrow().get(&place) {
            return known.clone();
        }
        let costs: Rc<[i32]> = self.all_costs().into();
        memo.0.borrow_mut().insert(place, costs.clone());
        costs
    }

    fn all_costs(&self) -> Vec<i32> {
        let (_, shapes) = lexicon::shapes(self.mode, self.place);
        let (shares, figures) = self.shares();
        let scores = self.manner.habit.scores(&self.features(figures));
        let most = scores.iter().copied().fold(f64::MIN, f64::max);
        let sum: f64 = scores.iter().map(|score| libm::exp(score - most)).sum();
        let settled = most + libm::log(sum);
        let cost = |(shape, share): (&Shape, &f64)| {
            let named = |figure: usize| Some(scores.get(figure)? - settled);
            let likely = share + shape.figure.and_then(named).unwrap_or(0.0);
            libm::round(-NAT * likely) as i32 + self.manner.avoided(shape)
        };
        shapes.iter().zip(&shares).map(cost).collect()
    }
}

/// Costs already worked out for one reading.
#[derive(Default)]
pub(super) struct Memo(RefCell<Table<Rc<[i32]>>>);

/// A row's likelihood of a shape, leaning on a wider row's where it is seldom met.
fn lean(row: Option<&Row>, shape: usize, wider: f64) -> f64 {
    let Some(row) = row else { return wider };
    let count = row.counts.get(shape).copied().unwrap_or(0.0);
    (count + LEAN * wider) / (row.total + LEAN)
}

fn cost(likelihood: f64) -> i32 {
    libm::round(-NAT * libm::log(likelihood)) as i32
}

fn read(text: &str) -> Counts {
    let mut usage = Counts::default();
    for line in text.lines() {
        let Some((start, entries)) = line.split_once(" : ") else { continue };
        let words: Vec<&str> = start.split(' ').collect();
        let entries: Vec<&str> = entries.split(' ').collect();
        let counted = entries
            .chunks_exact(2)
            .filter_map(|pair| Some((pair[0], pair[1].parse::<f64>().ok()?)));
        let place = |text: &str| match text {
            "^" => START,
            "$" => END,
            _ => text.parse().unwrap_or(ANY),
        };
        let minor = words.get(1) == Some(&"m");
        let mode = if minor { Mode::Minor } else { Mode::Major };
        match *words.as_slice() {
            ["n", _, before] => {
                let from = key(b'n', minor, [place(before), ANY, ANY]);
                let moves = usage.moves.entry(from).or_default();
                counted.for_each(|(to, count)| moves.add(place(to), count));
            }
            ["p", _, before, here] => {
                let pairs = pair_costs(mode, place(before), place(here), counted);
                usage.pairs.insert(key(b'p', minor, [place(before), place(here), ANY]), pairs);
            }
            [kind, _, here, ref around @ ..] if kind.starts_with(|c: char| c.is_ascii_digit()) => {
                let neighbour = |at: usize| around.get(at).map_or(ANY, |text| place(text));
                let kind = kind.bytes().next().unwrap_or(b'0');
                let row = row(mode, place(here), counted);
                let places = [place(here), neighbour(0), neighbour(1)];
                usage.rows.insert(key(kind, minor, places), row);
            }
            _ => {}
        }
    }
    usage
}

fn row<'a>(mode: Mode, here: i32, counted: impl Iterator<Item = (&'a str, f64)>) -> Row {
    let (_, shapes) = lexicon::shapes(mode, here);
    let mut row = Row { counts: vec![0.0; shapes.len()], total: 0.0 };
    for (figures, count) in counted {
        row.total += count;
        let shape = shapes.iter().position(|shape| shape.text == figures);
        if let Some(slot) = shape.and_then(|shape| row.counts.get_mut(shape)) {
            *slot += count;
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
            costs.push(cost((found + PAIR_LEAN) / (expected + PAIR_LEAN)) / PAIRS);
        }
    }
    Pairs { first, second, width, costs }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harmony::octave_rule::Version;

    #[test]
    fn every_row_of_the_counts_is_read() {
        let manner = Manner::of(Version::Chorales);
        let usage = &manner.counts;
        let count = |kinds: &str| {
            let lines = include_str!("chorales.txt").lines();
            lines.filter(|line| line.starts_with(|c| kinds.contains(c))).count()
        };
        assert_eq!(usage.rows.len(), count("012345"));
        assert_eq!(usage.pairs.len(), count("p"));
        // The tonic of major takes a plain chord.
        let here = here(manner, Mode::Major, 0, [START, START, 1, END], Rhythm::default());
        let (_, shapes) = lexicon::shapes(Mode::Major, 0);
        let plain = shapes.iter().position(|shape| shape.text == "5/3").expect("a plain chord");
        assert!(here.likelihood(plain) > 0.9);
        let costs = here.costs(&Memo::default());
        assert_eq!(costs.iter().min(), costs.get(plain));
    }
}
