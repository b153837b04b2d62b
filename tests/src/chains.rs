//! Learns the habit within the search: a note's chord is weighed together with what
//! joins it to its neighbours, so that the habit says nothing twice that the counted
//! pairs of chords and their duties say already.
//!
//! A chain of moments has a likelihood for each way through it, the product of the
//! chords' and the joins' (a conditional random field; J. Lafferty, A. McCallum and
//! F. Pereira, 2001); all sums over ways are taken by going forward and back. What is
//! made likely is that the way has the analyst's figures.

use tastata::harmony::{FIGURES, Feature, Habit, Moment};

use crate::habit::{Held, Scores, descend};

/// A piece as the search sees it, with the analyst's figures.
pub struct Chain {
    /// The bass notes.
    pub moments: Vec<Moment>,
    /// The figure at each, in the range [0, 6]; `None` where it is none of the seven.
    pub figures: Vec<Option<usize>>,
}

/// What is asked of a way through a chain.
#[derive(Clone, Copy)]
enum Asked {
    Nothing,
    Figures,
}

/// How often each figure stands at each moment; what has none of the seven is left out.
type Expected = Vec<Scores>;

/// Which part of the penalty on squares lies on sizes besides.
const SIZES: f64 = 1.0 / 6.0;

/// The habit that makes the analysts' figures likeliest; half the penalty times the square
/// of every weight is added to the loss, and a sixth of it times the size.
pub fn learn(chains: &[Chain], penalty: f64) -> Habit {
    let notes: Vec<&[(Feature, f64)]> = chains.iter().flat_map(features).collect();
    let joins: Vec<Joins> = chains.iter().map(Joins::of).collect();
    descend(&notes, Held { square: penalty, size: penalty * SIZES }, |scores| {
        let mut pulls = Vec::with_capacity(scores.len());
        let mut rest = scores;
        for (chain, joins) in chains.iter().zip(&joins) {
            let (own, later) = rest.split_at(chain.moments.len());
            rest = later;
            let named: Vec<Scores> = own.iter().map(shares).collect();
            let [(_, free), (_, right)] =
                [Asked::Nothing, Asked::Figures].map(|asked| ways(chain, joins, &named, asked));
            for (at, named) in named.iter().enumerate() {
                let raw: Scores = std::array::from_fn(|it| right[at][it] - free[at][it]);
                // The scores count only as shares of all seven.
                let sum: f64 = raw.iter().sum();
                pulls.push(std::array::from_fn(|it| raw[it] - named[it].exp() * sum));
            }
        }
        pulls
    })
}

/// How little a habit expects the figures of chains it has not seen: minus the sum of the
/// logarithms of their likelihoods.
pub fn surprise(habit: &Habit, chains: &[Chain]) -> f64 {
    let of = |chain: &Chain| {
        let named: Vec<Scores> =
            features(chain).map(|features| shares(&habit.scores(features))).collect();
        let joins = Joins::of(chain);
        let likely = |asked| ways(chain, &joins, &named, asked).0;
        likely(Asked::Nothing) - likely(Asked::Figures)
    };
    chains.iter().map(of).sum()
}

fn features(chain: &Chain) -> impl Iterator<Item = &[(Feature, f64)]> {
    chain.moments.iter().map(|moment| &moment.features[..])
}

/// The logarithm of each figure's share under scores.
fn shares(scores: &Scores) -> Scores {
    let most = scores.iter().copied().fold(f64::MIN, f64::max);
    let sum: f64 = scores.iter().map(|score| (score - most).exp()).sum();
    scores.map(|score| score - most - sum.ln())
}

/// The joins of a chain as factors.
struct Joins(Vec<Vec<f64>>);

impl Joins {
    fn of(chain: &Chain) -> Joins {
        let factors = |moment: &Moment| moment.joins.iter().map(|it| it.exp()).collect();
        Joins(chain.moments.iter().map(factors).collect())
    }
}

/// The logarithm of the sum over all ways that do what is asked, and how often each figure
/// stands at each moment among them. A figure that no chord of the stock bears is not
/// asked for.
fn ways(chain: &Chain, Joins(joins): &Joins, named: &[Scores], asked: Asked) -> (f64, Expected) {
    let mut sum = 0.0;
    let mut here: Vec<Vec<f64>> = Vec::with_capacity(named.len());
    let mut before: Vec<Vec<f64>> = Vec::with_capacity(named.len());
    for (at, moment) in chain.moments.iter().enumerate() {
        let wanted = chain.figures[at];
        let does = |figure: Option<usize>| match (asked, wanted) {
            (Asked::Nothing, _) | (_, None) => true,
            (Asked::Figures, wanted) => figure == wanted,
        };
        let any = moment.chords.iter().any(|chord| does(chord.figure));
        let likely = moment.chords.iter().map(|chord| {
            let kept = !any || does(chord.figure);
            let named = chord.figure.map_or(0.0, |it| named[at][it]);
            if kept { (chord.likely + named).exp() } else { 0.0 }
        });
        let likely: Vec<f64> = likely.collect();
        let mut reached = likely.clone();
        if let Some(last) = before.last() {
            for (to, reached) in reached.iter_mut().enumerate() {
                let ways = last.iter().zip(joins[at].chunks_exact(likely.len()));
                *reached *= ways.map(|(last, joins)| last * joins[to]).sum::<f64>();
            }
        }
        sum += scaled(&mut reached).ln();
        here.push(likely);
        before.push(reached);
    }
    let mut expected = vec![[0.0; FIGURES]; named.len()];
    let mut after = vec![1.0; here.last().map_or(0, Vec::len)];
    for (at, moment) in chain.moments.iter().enumerate().rev() {
        let mut stands: Vec<f64> = before[at].iter().zip(&after).map(|(a, b)| a * b).collect();
        scaled(&mut stands);
        for (chord, stands) in moment.chords.iter().zip(&stands) {
            if let Some(figure) = chord.figure {
                expected[at][figure] += stands;
            }
        }
        if at > 0 {
            let onward: Vec<f64> = here[at].iter().zip(&after).map(|(a, b)| a * b).collect();
            let from = joins[at].chunks_exact(onward.len());
            after = from.map(|joins| joins.iter().zip(&onward).map(|(a, b)| a * b).sum()).collect();
            scaled(&mut after);
        }
    }
    (sum, expected)
}

/// Scales numbers to the sum one; gives the sum they had.
fn scaled(numbers: &mut [f64]) -> f64 {
    let sum = numbers.iter().sum::<f64>().max(f64::MIN_POSITIVE);
    for number in numbers {
        *number /= sum;
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;
    use tastata::harmony::Standing;

    /// Two notes, each 5/3 or 6, that like to have the same figure.
    fn pair(figures: [usize; 2]) -> Chain {
        let moment = |note: usize, joins: Vec<f64>| Moment {
            note,
            features: vec![(Feature::Degree(false, note as i32), 1.0)],
            chords: [0, 1].map(|it| Standing { figure: Some(it), likely: 0.0 }).to_vec(),
            joins,
        };
        let moments = vec![moment(0, Vec::new()), moment(1, vec![1.0, 0.0, 0.0, 1.0])];
        Chain { moments, figures: figures.map(Some).to_vec() }
    }

    #[test]
    fn sums_over_ways_are_those_of_writing_all_of_them_out() {
        let chain = pair([0, 1]);
        let named = [[-1.0; FIGURES], [-0.5, -2.0, 0.0, 0.0, 0.0, 0.0, 0.0]];
        let way = |first: usize, second: usize| -> f64 {
            let joined: f64 = if first == second { 1.0 } else { 0.0 };
            (named[0][first] + named[1][second] + joined).exp()
        };
        let all = way(0, 0) + way(0, 1) + way(1, 0) + way(1, 1);
        let (sum, expected) = ways(&chain, &Joins::of(&chain), &named, Asked::Nothing);
        assert!((sum - all.ln()).abs() < 1e-12);
        assert!((expected[0][0] - (way(0, 0) + way(0, 1)) / all).abs() < 1e-12);
        assert!((expected[1][1] - (way(0, 1) + way(1, 1)) / all).abs() < 1e-12);
        let (sum, expected) = ways(&chain, &Joins::of(&chain), &named, Asked::Figures);
        assert!((sum - way(0, 1).ln()).abs() < 1e-12);
        assert!((expected[0][0] - 1.0).abs() < 1e-12 && expected[1][0].abs() < 1e-12);
    }

    #[test]
    fn what_the_joins_say_is_not_learned_again() {
        // Two times in three the second note has the figure of the first, which is always
        // 5/3. The joins alone say it oftener, so that the habit leans the other way: by
        // one, less the logarithm of two to one.
        let chains: Vec<Chain> = (0..40).flat_map(|_| [[0, 0], [0, 0], [0, 1]]).map(pair).collect();
        let scores = learn(&chains, 1e-3).scores(&[(Feature::Degree(false, 1), 1.0)]);
        assert!((scores[1] - scores[0] - (1.0 - 2_f64.ln())).abs() < 0.05, "{scores:?}");
        assert!(surprise(&learn(&chains, 1.0), &chains) < surprise(&Habit::default(), &chains));
    }
}
