//! The k cheapest ways into every state of one step of a dynamic programme.
//!
//! Used by the solvers of outer voices and of hands. Ways of one price come in
//! an order fixed by the states before, so the answer never varies.

/// A price.
pub(crate) type Cost = u64;

/// One way into a state: the price so far, and which way of which earlier
/// alternative it continues.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Way {
    /// The price of everything up to and including this state.
    pub(crate) cost: Cost,
    /// Which of the alternatives merged here.
    pub(crate) earlier: u32,
    /// Which of its ways, the cheapest being 0.
    pub(crate) rank: u32,
}

/// The ways into each state of one step, cheapest first.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Ways {
    ways: Vec<Way>,
    /// Where the ways of each state end.
    ends: Vec<usize>,
}

impl Ways {
    /// Room for this many states of `k` ways each.
    pub(crate) fn with_capacity(states: usize, k: usize) -> Ways {
        Ways { ways: Vec::with_capacity(states * k), ends: Vec::with_capacity(states) }
    }

    /// How many states there are.
    pub(crate) fn len(&self) -> usize {
        self.ends.len()
    }

    /// The ways into a state; none for a state there is not.
    pub(crate) fn of(&self, state: usize) -> &[Way] {
        let Some(&end) = self.ends.get(state) else { return &[] };
        let start = if state == 0 { 0 } else { self.ends[state - 1] };
        &self.ways[start..end]
    }

    /// Adds a state with one way in.
    pub(crate) fn push(&mut self, cost: Cost) {
        self.ways.push(Way { cost, earlier: 0, rank: 0 });
        self.ends.push(self.ways.len());
    }

    /// Adds a state: the `k` cheapest ways through `heads.len()` alternatives,
    /// each with a price of its own, all with the `fixed` one. `heads` is scratch.
    pub(crate) fn merge<'a>(
        &mut self,
        heads: &mut [usize],
        list: impl Fn(usize) -> &'a [Way],
        price: impl Fn(usize) -> Cost,
        fixed: Cost,
        k: usize,
    ) {
        heads.fill(0);
        for _ in 0..k {
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
            let rank = heads[z] as u32;
            self.ways.push(Way { cost: cost + fixed, earlier: z as u32, rank });
            heads[z] += 1;
        }
        self.ends.push(self.ways.len());
    }

    /// Takes the price that all ways have in common off each, and says how much.
    pub(crate) fn level(&mut self) -> Cost {
        let least = self.ways.iter().map(|way| way.cost).min().unwrap_or(0);
        self.ways.iter_mut().for_each(|way| way.cost -= least);
        least
    }

    /// The `k` cheapest ways of all states, as price, state and rank.
    pub(crate) fn cheapest(&self, k: usize) -> Vec<(Cost, usize, usize)> {
        let states = 0..self.len();
        let all = states.flat_map(|state| {
            let ways = self.of(state).iter().enumerate();
            ways.map(move |(rank, way)| (way.cost, state, rank))
        });
        let mut all: Vec<_> = all.collect();
        all.sort_unstable();
        all.truncate(k);
        all
    }
}
