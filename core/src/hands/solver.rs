//! The best handfuls over a whole piece, exactly.
//!
//! Each chord has some grips for the left hand and some for the right, and a
//! price for every pair of them. From chord to chord each hand travels by
//! itself, so the dynamic programme moves one hand at a time: exact over all
//! pairs without looking at every pair of pairs.
//!
//! Prices are kept as differences from the cheapest, so a step that starts from the
//! same differences over the same grips is the same step. That lets the steps of a
//! piece that hardly changed be taken over.

use super::costs::{self, Cost, NEVER};
use super::grip::Grip;
use super::wishes::HandWishes;
use crate::figures::Stage;
use crate::frame::ways::Ways;
use crate::harmony::{Chord, Duty};

/// The grips to choose among for one chord; neither list is empty.
#[derive(Clone, Debug)]
pub(super) struct Choice<'a> {
    pub(super) chord: &'a Chord,
    pub(super) grips: &'a Grips,
}

/// The grips of both hands.
#[derive(Clone, Debug, Default)]
pub(super) struct Grips {
    pub(super) left: Vec<Grip>,
    pub(super) right: Vec<Grip>,
}

/// The grips taken for each chord, as numbers in its lists, with their price.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Taken {
    pub(super) grips: Vec<(usize, usize)>,
    pub(super) cost: Cost,
}

/// How each pair of grips of a chord is reached: the left hand first, to each new
/// left grip over each old right one (`left`), then the right (`right`, levelled).
#[derive(Clone, Debug)]
pub(super) struct Step {
    left: Ways,
    right: Ways,
    /// What levelling took off.
    off: Cost,
}

impl Step {
    fn new(left: Ways, mut right: Ways) -> Step {
        let off = right.level();
        Step { left, right, off }
    }
}

/// Every step of a piece. `old` are the steps of another piece, solved for as many
/// answers under the same wishes; they are taken over where `same` says that the
/// choice at a place is what it was and nothing before it weighs otherwise.
pub(super) fn steps(
    wishes: &HandWishes,
    choices: &[Choice],
    k: usize,
    old: Vec<Step>,
    same: impl Fn(usize) -> bool,
) -> Vec<Step> {
    let mut steps: Vec<Step> = Vec::with_capacity(choices.len());
    let mut old = old.into_iter().map(Some).collect::<Vec<_>>();
    // Whether the step before is what it was, and so is the choice it stood on.
    let mut stands = true;
    for (i, choice) in choices.iter().enumerate() {
        let same_here = same(i);
        let same_before = i == 0 || same(i - 1);
        let kept = old.get_mut(i).and_then(Option::take);
        let step = match (kept, i.checked_sub(1)) {
            (Some(kept), _) if stands && same_here && same_before => kept,
            (kept, before) => {
                let prices = pair_prices(wishes, choice);
                let step = match before.and_then(|b| Some((choices.get(b)?, steps.get(b)?))) {
                    Some((from, last)) => travel(from, choice, &last.right, &prices, k),
                    None => {
                        let mut right = Ways::with_capacity(prices.len(), 1);
                        prices.iter().for_each(|&price| right.push(price));
                        Step::new(Ways::default(), right)
                    }
                };
                stands = same_here && kept.is_some_and(|kept| kept.right == step.right);
                step
            }
        };
        steps.push(step);
    }
    steps
}

/// The `k` most comfortable ways through steps solved for at least as many.
pub(super) fn ways_through(choices: &[Choice], steps: &[Step], k: usize) -> Vec<Taken> {
    let off: Cost = steps.iter().fold(0, |sum, step| sum.saturating_add(step.off));
    let ends = steps.last().map(|last| last.right.cheapest(k)).unwrap_or_default();
    let ends = ends.into_iter().map(|(cost, pair, rank)| (cost.saturating_add(off), pair, rank));
    let possible = ends.filter(|(cost, ..)| *cost < NEVER);
    possible.map(|(cost, pair, rank)| walk_back(choices, steps, pair, rank, cost)).collect()
}

fn walk_back(
    choices: &[Choice],
    steps: &[Step],
    mut pair: usize,
    mut rank: usize,
    cost: Cost,
) -> Taken {
    let mut grips = Vec::with_capacity(steps.len());
    for (i, step) in steps.iter().enumerate().rev() {
        let rights = choices[i].grips.right.len();
        let (l, r) = (pair / rights, pair % rights);
        grips.push((l, r));
        if i > 0 {
            let olds = choices[i - 1].grips.right.len();
            let by_right = step.right.of(pair)[rank];
            let old_right = by_right.earlier as usize;
            let by_left = step.left.of(l * olds + old_right)[by_right.rank as usize];
            pair = by_left.earlier as usize * olds + old_right;
            rank = by_left.rank as usize;
        }
    }
    grips.reverse();
    Taken { grips, cost }
}

/// The cheapest ways to each pair of grips from the chord before.
fn travel(from: &Choice, to: &Choice, before: &Ways, prices: &[Cost], k: usize) -> Step {
    let held = to.chord.figures == Stage::Hold;
    let (from, to) = (from.grips, to.grips);
    let olds = from.right.len();
    let mut left = Ways::with_capacity(to.left.len() * olds, k);
    let mut heads = vec![0; from.left.len()];
    for new in &to.left {
        let ways: Vec<Cost> = from.left.iter().map(|old| way(old, new, held)).collect();
        for old_right in 0..olds {
            let list = |l: usize| before.of(l * olds + old_right);
            left.merge(&mut heads, list, |l| ways[l], 0, k);
        }
    }
    let ways: Vec<Vec<Cost>> = to
        .right
        .iter()
        .map(|new| from.right.iter().map(|old| way(old, new, held)).collect())
        .collect();
    let mut right = Ways::with_capacity(prices.len(), k);
    let mut heads = vec![0; olds];
    for l in 0..to.left.len() {
        for (r, ways) in ways.iter().enumerate() {
            let list = |old_right: usize| left.of(l * olds + old_right);
            let price = prices[l * to.right.len() + r];
            // Hands that cannot be need no ways in, but keep their place.
            let k = if price < NEVER { k } else { 0 };
            right.merge(&mut heads, list, |old| ways[old], price, k);
        }
    }
    Step::new(left, right)
}

/// What a hand's way from one grip to another costs.
fn way(old: &Grip, new: &Grip, held: bool) -> Cost {
    let kept = new.keys;
    let unrisen = old.rising & !(kept >> 1 | kept >> 2 | kept);
    let unfallen = old.falling & !(kept << 1 | kept << 2 | kept);
    let lost = if held { old.keys & !kept } else { 0 };
    costs::travel(
        old.middle.zip(new.middle),
        count(kept & !old.keys),
        (old.notes.len(), new.notes.len()),
    ) + count(unrisen | unfallen) * costs::ASTRAY
        + count(new.suspended & !old.keys) * costs::UNPREPARED
        + count(lost) * costs::LETS_GO
}

/// How many keys; mostly none, and then without counting.
fn count(keys: u128) -> Cost {
    if keys == 0 { 0 } else { Cost::from(keys.count_ones()) }
}

/// What two grips cost together, `l * rights + r`.
fn pair_prices(wishes: &HandWishes, choice: &Choice) -> Vec<Cost> {
    let Grips { left, right } = choice.grips;
    let pairs = left.iter().flat_map(|l| right.iter().map(move |r| (l, r)));
    pairs.map(|(l, r)| pair_price(wishes, choice.chord, l, r)).collect()
}

fn pair_price(wishes: &HandWishes, chord: &Chord, left: &Grip, right: &Grip) -> Cost {
    let gap = match (left.notes.last(), right.notes.first()) {
        (Some(l), Some(r)) if l.semitones() >= r.semitones() => {
            // Outer voices that cross leave no other way than one note each.
            if left.notes.len() + right.notes.len() > 2 {
                return NEVER;
            }
            costs::HANDS_COLLIDE
        }
        (Some(l), Some(r)) => costs::gap(*l, *r, wishes.spacing),
        _ => 0,
    };
    let counts = left.counts.iter().zip(&right.counts);
    let sonority = chord.tones.iter().zip(counts).map(|(tone, (l, r))| {
        let count = Cost::from(l + r);
        let again = count.saturating_sub(1);
        match tone.duty {
            _ if count == 0 && tone.omittable => costs::OMITTED,
            _ if count == 0 => costs::MISSING,
            Duty::Free => 0,
            Duty::Rises | Duty::Falls => again * costs::DOUBLED_DUTY,
            Duty::Suspended => again * costs::DOUBLED_SUSPENSION,
        }
    });
    left.price + right.price + gap + sonority.sum::<Cost>()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hands::grip::{left_sets, right_sets};
    use crate::harmony::harmonise;
    use crate::pitch::Pitch;
    use crate::sketch::{Sketch, SketchNote};

    /// The `k` most comfortable ways through a piece, best first; fewer if there are
    /// fewer.
    fn best(wishes: &HandWishes, choices: &[Choice], k: usize) -> Vec<Taken> {
        ways_through(choices, &steps(wishes, choices, k, Vec::new(), |_| false), k)
    }

    /// The price of a way through, straight from the description.
    fn price(wishes: &HandWishes, choices: &[Choice], grips: &[(usize, usize)]) -> Cost {
        let mut cost = 0;
        let mut before: Option<(&Grip, &Grip)> = None;
        for (choice, &(l, r)) in choices.iter().zip(grips) {
            let (left, right) = (&choice.grips.left[l], &choice.grips.right[r]);
            cost += pair_price(wishes, choice.chord, left, right);
            if let Some((old_left, old_right)) = before {
                let held = choice.chord.figures == Stage::Hold;
                cost += way(old_left, left, held) + way(old_right, right, held);
            }
            before = Some((left, right));
        }
        cost
    }

    fn every_way(choices: &[Choice]) -> Vec<Vec<(usize, usize)>> {
        let mut all = vec![Vec::new()];
        for choice in choices {
            let pairs: Vec<_> = (0..choice.grips.left.len())
                .flat_map(|l| (0..choice.grips.right.len()).map(move |r| (l, r)))
                .collect();
            let longer = |grips: &Vec<(usize, usize)>| {
                let grips = grips.clone();
                pairs.iter().map(move |&p| [grips.as_slice(), &[p]].concat()).collect::<Vec<_>>()
            };
            all = all.iter().flat_map(longer).collect();
        }
        all
    }

    #[test]
    fn the_k_best_are_those_of_brute_force() {
        let mut seed: u32 = 5;
        let mut roll = |sides: u32| {
            seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            ((seed >> 8) % sides) as i32
        };
        let wishes = HandWishes::default();
        for _ in 0..2000 {
            let mut sketch = Sketch::default();
            for _ in 0..1 + roll(3) {
                let pitch = Pitch::from_diatonic(15 + roll(10), 0);
                sketch.notes.push(SketchNote::bare(pitch));
            }
            let chords = harmonise(&sketch).chords;
            let grips: Vec<Grips> = chords
                .iter()
                .map(|chord| {
                    let soprano = chord.tones[0].class.in_octave(5);
                    // A few grips a hand keep brute force short.
                    let mut grips = |sets: Vec<Vec<Pitch>>, size| {
                        let skip = roll(4) as usize;
                        let sets = sets.into_iter().step_by(1 + skip).take(5);
                        sets.map(|notes| {
                            let price = costs::grip(&notes, size);
                            Grip::new(&wishes, chord, notes, price)
                        })
                        .collect()
                    };
                    let left = grips(left_sets(&wishes, chord, soprano), wishes.left);
                    let right = grips(right_sets(&wishes, chord, soprano), wishes.right);
                    Grips { left, right }
                })
                .collect();
            let both = chords.iter().zip(&grips);
            let choices: Vec<Choice> = both.map(|(chord, grips)| Choice { chord, grips }).collect();
            let k = 1 + roll(12) as usize;
            let mut prices: Vec<Cost> = every_way(&choices)
                .iter()
                .map(|grips| price(&wishes, &choices, grips))
                .filter(|cost| *cost < NEVER)
                .collect();
            prices.sort_unstable();
            prices.truncate(k);
            let found = best(&wishes, &choices, k);
            assert_eq!(found.iter().map(|taken| taken.cost).collect::<Vec<_>>(), prices);
            for (i, taken) in found.iter().enumerate() {
                assert_eq!(price(&wishes, &choices, &taken.grips), taken.cost);
                assert!(found[..i].iter().all(|other| other.grips != taken.grips));
            }
        }
    }
}
