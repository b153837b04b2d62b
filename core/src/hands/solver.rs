//! The best handfuls over a whole piece, exactly.
//!
//! Each chord has some grips for the left hand and some for the right, and a
//! price for every pair of them. From chord to chord each hand travels by
//! itself, so the dynamic programme moves one hand at a time: exact over all
//! pairs without looking at every pair of pairs.

use super::costs::{self, Cost, NEVER};
use super::grip::Grip;
use super::wishes::HandWishes;
use crate::figures::Stage;
use crate::frame::ways::Ways;
use crate::harmony::{Chord, Duty};

/// The grips to choose among for one chord; neither list is empty.
pub(super) struct Choice<'a> {
    pub(super) chord: &'a Chord,
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
/// left grip over each old right one (`left`), then the right (`right`).
struct Step {
    left: Ways,
    right: Ways,
}

/// The `k` most comfortable ways through a piece, best first; fewer if there are
/// fewer. Cost: O(chords × grips³ × k), grips being those of one hand.
pub(super) fn best(wishes: &HandWishes, choices: &[Choice], k: usize) -> Vec<Taken> {
    let mut steps: Vec<Step> = Vec::with_capacity(choices.len());
    let mut before: Option<&Choice> = None;
    for choice in choices {
        let prices = pair_prices(wishes, choice);
        let step = match (before, steps.last()) {
            (Some(old), Some(last)) => travel(old, choice, &last.right, &prices, k),
            _ => {
                let mut right = Ways::with_capacity(prices.len(), 1);
                prices.iter().for_each(|&price| right.push(price));
                Step { left: Ways::default(), right }
            }
        };
        steps.push(step);
        before = Some(choice);
    }
    let ends = steps.last().map(|last| last.right.cheapest(k)).unwrap_or_default();
    let possible = ends.into_iter().filter(|(cost, ..)| *cost < NEVER);
    possible.map(|(cost, pair, rank)| walk_back(choices, &steps, pair, rank, cost)).collect()
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
        let rights = choices[i].right.len();
        let (l, r) = (pair / rights, pair % rights);
        grips.push((l, r));
        if i > 0 {
            let olds = choices[i - 1].right.len();
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
    Step { left, right }
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
    let pairs = choice.left.iter().flat_map(|l| choice.right.iter().map(move |r| (l, r)));
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

    /// The price of a way through, straight from the description.
    fn price(wishes: &HandWishes, choices: &[Choice], grips: &[(usize, usize)]) -> Cost {
        let mut cost = 0;
        let mut before: Option<(&Grip, &Grip)> = None;
        for (choice, &(l, r)) in choices.iter().zip(grips) {
            let (left, right) = (&choice.left[l], &choice.right[r]);
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
            let pairs: Vec<_> = (0..choice.left.len())
                .flat_map(|l| (0..choice.right.len()).map(move |r| (l, r)))
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
        for _ in 0..200 {
            let mut sketch = Sketch::default();
            for _ in 0..1 + roll(3) {
                let pitch = Pitch::from_diatonic(15 + roll(10), 0);
                sketch.notes.push(SketchNote::bare(pitch));
            }
            let chords = harmonise(&sketch).chords;
            let choices: Vec<Choice> = chords
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
                    Choice { chord, left, right }
                })
                .collect();
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
