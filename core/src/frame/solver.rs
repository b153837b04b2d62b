//! The solver: the k cheapest lines through a trellis, exactly, in order.
//!
//! Dynamic programming over the last two sopranos, since no price looks further
//! back than three notes. Each state keeps its k cheapest ways in. Lines of one
//! price come in an order fixed by the candidates, so the answer never varies.

use super::costs::Cost;
use super::trellis::Trellis;

/// A line as candidate numbers, with its price.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Line {
    /// The candidate taken over each chord.
    pub(super) taken: Vec<usize>,
    /// Its price.
    pub(super) cost: Cost,
}

/// One way into a state: the price so far, and the state's way it came by.
#[derive(Clone, Copy)]
struct Way {
    cost: Cost,
    earlier: u32,
    rank: u32,
}

/// The ways into each state of one chord: `ways[p * width + c]`.
type States = Vec<Vec<Way>>;

/// The `k` cheapest lines, cheapest first; fewer if there are fewer. `extra` adds
/// a price to each note. Cost: O(chords × width² × (width + k × width)).
pub(super) fn cheapest(trellis: &Trellis, extra: &[Vec<Cost>], k: usize) -> Vec<Line> {
    let count = trellis.widths.len();
    if count == 0 || k == 0 {
        return Vec::new();
    }
    let mut layers: Vec<States> = Vec::with_capacity(count);
    for i in 0..count {
        let states = match layers.last() {
            None => opening(trellis, extra),
            Some(before) => step(trellis, extra, i, before, k),
        };
        layers.push(states);
    }
    trace(trellis, &layers, k)
}

fn note(trellis: &Trellis, extra: &[Vec<Cost>], i: usize, c: usize) -> Cost {
    let extra = extra.get(i).and_then(|layer| layer.get(c)).copied().unwrap_or(0);
    trellis.notes[i][c] + extra
}

/// Before the first chord there is one imagined candidate, number 0.
fn opening(trellis: &Trellis, extra: &[Vec<Cost>]) -> States {
    let way = |c| Way { cost: note(trellis, extra, 0, c), earlier: 0, rank: 0 };
    (0..trellis.widths[0]).map(|c| vec![way(c)]).collect()
}

fn step(trellis: &Trellis, extra: &[Vec<Cost>], i: usize, before: &States, k: usize) -> States {
    let (here, last) = (trellis.widths[i], trellis.widths[i - 1]);
    let earlier = before.len() / last;
    let triples = &trellis.triples[i];
    let mut states = Vec::with_capacity(last * here);
    let mut heads = vec![0; earlier];
    for p in 0..last {
        for c in 0..here {
            let fixed = trellis.moves[i][p * here + c] + note(trellis, extra, i, c);
            // The imagined candidate before the first chord makes no triple.
            let row = triples.get((p * here + c) * earlier..).filter(|_| i > 1).unwrap_or(&[]);
            let from = |z: usize| before.get(z * last + p).map_or(&[][..], |ways| ways);
            let price = |z: usize| row.get(z).copied().unwrap_or(0);
            states.push(merge(&mut heads, from, price, fixed, k));
        }
    }
    states
}

/// The `k` cheapest of several sorted lists, each shifted by a price.
fn merge<'a>(
    heads: &mut [usize],
    list: impl Fn(usize) -> &'a [Way],
    price: impl Fn(usize) -> Cost,
    fixed: Cost,
    k: usize,
) -> Vec<Way> {
    heads.fill(0);
    let mut merged = Vec::with_capacity(k.min(8));
    while merged.len() < k {
        let mut best: Option<(Cost, usize)> = None;
        for (z, &head) in heads.iter().enumerate() {
            if let Some(way) = list(z).get(head) {
                let cost = way.cost + price(z);
                if best.is_none_or(|(least, _)| cost < least) {
                    best = Some((cost, z));
                }
            }
        }
        let Some((cost, z)) = best else { break };
        merged.push(Way { cost: cost + fixed, earlier: z as u32, rank: heads[z] as u32 });
        heads[z] += 1;
    }
    merged
}

fn trace(trellis: &Trellis, layers: &[States], k: usize) -> Vec<Line> {
    let Some(last) = layers.last() else { return Vec::new() };
    let mut ends: Vec<(Cost, usize, usize)> = Vec::new();
    for (state, ways) in last.iter().enumerate() {
        ends.extend(ways.iter().enumerate().map(|(rank, way)| (way.cost, state, rank)));
    }
    ends.sort_unstable();
    ends.truncate(k);
    let line = |&(cost, state, rank): &(Cost, usize, usize)| Line {
        taken: walk_back(trellis, layers, state, rank),
        cost,
    };
    ends.iter().map(line).collect()
}

fn walk_back(trellis: &Trellis, layers: &[States], state: usize, rank: usize) -> Vec<usize> {
    let mut taken = vec![0; layers.len()];
    let (mut state, mut rank) = (state, rank);
    for i in (0..layers.len()).rev() {
        let width = trellis.widths[i];
        let way = layers[i][state][rank];
        taken[i] = state % width;
        let previous = state / width;
        if i > 0 {
            state = way.earlier as usize * trellis.widths[i - 1] + previous;
            rank = way.rank as usize;
        }
    }
    taken
}
