//! The solver: the k cheapest lines through a trellis, exactly, in order.
//!
//! Dynamic programming over the last two sopranos, since no price looks further
//! back than three notes. Each state keeps its k cheapest ways in.

use super::costs::Cost;
use super::trellis::Trellis;
use super::ways::Ways;

/// A line as candidate numbers, with its price.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Line {
    /// The candidate taken over each chord.
    pub(super) taken: Vec<usize>,
    /// Its price.
    pub(super) cost: Cost,
}

/// The `k` cheapest lines, cheapest first; fewer if there are fewer. `extra` adds
/// a price to each note. Cost: O(chords × width³ × k).
pub(super) fn cheapest(trellis: &Trellis, extra: &[Vec<Cost>], k: usize) -> Vec<Line> {
    let count = trellis.widths.len();
    if count == 0 || k == 0 {
        return Vec::new();
    }
    // State `p * width + c` stands for candidate `p` over the chord before and
    // `c` over this one. Before the first chord there is one imagined candidate.
    let mut layers: Vec<Ways> = Vec::with_capacity(count);
    for i in 0..count {
        let states = match layers.last() {
            None => opening(trellis, extra),
            Some(before) => step(trellis, extra, i, before, k),
        };
        layers.push(states);
    }
    let ends = layers.last().map(|last| last.cheapest(k)).unwrap_or_default();
    let line = |(cost, state, rank)| Line { taken: walk_back(trellis, &layers, state, rank), cost };
    ends.into_iter().map(line).collect()
}

fn note(trellis: &Trellis, extra: &[Vec<Cost>], i: usize, c: usize) -> Cost {
    let extra = extra.get(i).and_then(|layer| layer.get(c)).copied().unwrap_or(0);
    trellis.notes[i][c] + extra
}

fn opening(trellis: &Trellis, extra: &[Vec<Cost>]) -> Ways {
    let mut states = Ways::with_capacity(trellis.widths[0], 1);
    for c in 0..trellis.widths[0] {
        states.push(note(trellis, extra, 0, c));
    }
    states
}

fn step(trellis: &Trellis, extra: &[Vec<Cost>], i: usize, before: &Ways, k: usize) -> Ways {
    let (here, last) = (trellis.widths[i], trellis.widths[i - 1]);
    let earlier = before.len() / last;
    let mut states = Ways::with_capacity(last * here, k);
    let mut heads = vec![0; earlier];
    for p in 0..last {
        for c in 0..here {
            let fixed = trellis.moves[i][p * here + c] + note(trellis, extra, i, c);
            // The imagined candidate before the first chord makes no triple.
            let start = (p * here + c) * earlier;
            let row = trellis.triples[i].get(start..start + earlier).unwrap_or(&[]);
            let from = |z: usize| before.of(z * last + p);
            let price = |z: usize| row.get(z).copied().unwrap_or(0);
            states.merge(&mut heads, from, price, fixed, k);
        }
    }
    states
}

fn walk_back(trellis: &Trellis, layers: &[Ways], state: usize, rank: usize) -> Vec<usize> {
    let mut taken = vec![0; layers.len()];
    let (mut state, mut rank) = (state, rank);
    for i in (0..layers.len()).rev() {
        let width = trellis.widths[i];
        taken[i] = state % width;
        if i > 0 {
            let way = layers[i].of(state)[rank];
            state = way.earlier as usize * trellis.widths[i - 1] + state / width;
            rank = way.rank as usize;
        }
    }
    taken
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A plain congruential generator, so that the tests need nothing else.
    struct Dice(u32);

    impl Dice {
        fn roll(&mut self, sides: u32) -> usize {
            self.0 = self.0.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            ((self.0 >> 8) % sides) as usize
        }
    }

    fn random_trellis(dice: &mut Dice) -> Trellis {
        let widths: Vec<usize> = (0..1 + dice.roll(5)).map(|_| 1 + dice.roll(4)).collect();
        let width = |i: usize, back: usize| if back <= i { widths[i - back] } else { 0 };
        let mut prices = |count: usize| (0..count).map(|_| dice.roll(30) as Cost).collect();
        let size = 0..widths.len();
        Trellis {
            notes: size.clone().map(|i| prices(width(i, 0))).collect(),
            moves: size.clone().map(|i| prices(width(i, 0) * width(i, 1))).collect(),
            triples: size.map(|i| prices(width(i, 0) * width(i, 1) * width(i, 2))).collect(),
            widths,
        }
    }

    /// The price of a line, straight from the trellis's description.
    fn price(trellis: &Trellis, taken: &[usize]) -> Cost {
        let mut cost = 0;
        for i in 0..taken.len() {
            cost += trellis.notes[i][taken[i]];
            if i >= 1 {
                cost += trellis.moves[i][taken[i - 1] * trellis.widths[i] + taken[i]];
            }
            if i >= 2 {
                let pair = taken[i - 1] * trellis.widths[i] + taken[i];
                cost += trellis.triples[i][pair * trellis.widths[i - 2] + taken[i - 2]];
            }
        }
        cost
    }

    fn every_line(widths: &[usize]) -> Vec<Vec<usize>> {
        let mut lines = vec![Vec::new()];
        for &width in widths {
            let longer = |line: &Vec<usize>| {
                let line = line.clone();
                (0..width).map(move |c| [line.as_slice(), &[c]].concat()).collect::<Vec<_>>()
            };
            lines = lines.iter().flat_map(longer).collect();
        }
        lines
    }

    #[test]
    fn the_k_cheapest_are_those_of_brute_force() {
        let mut dice = Dice(7);
        for _ in 0..3000 {
            let trellis = random_trellis(&mut dice);
            let k = 1 + dice.roll(20);
            let mut prices: Vec<Cost> =
                every_line(&trellis.widths).iter().map(|line| price(&trellis, line)).collect();
            prices.sort_unstable();
            prices.truncate(k);
            let lines = cheapest(&trellis, &[], k);
            let found: Vec<Cost> = lines.iter().map(|line| line.cost).collect();
            assert_eq!(found, prices);
            for (i, line) in lines.iter().enumerate() {
                assert_eq!(price(&trellis, &line.taken), line.cost);
                assert!(lines[..i].iter().all(|other| other.taken != line.taken));
            }
        }
    }
}
