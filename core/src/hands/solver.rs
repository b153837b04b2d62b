//! The best handfuls over a whole piece, exactly.
//!
//! Each chord has some grips for the left hand and some for the right, and a
//! price for every pair of them. From chord to chord each hand travels by
//! itself, so the dynamic programme moves one hand at a time: exact over all
//! pairs without looking at every pair of pairs. Cost: linear in the chords.

use super::costs::{self, Cost, NEVER};
use super::grip::Grip;
use super::wishes::HandWishes;
use crate::figures::Stage;
use crate::harmony::{Chord, Duty};
use crate::pitch::Pitch;

/// The grips to choose among for one chord; neither list is empty.
pub(super) struct Choice<'a> {
    pub(super) chord: &'a Chord,
    pub(super) left: Vec<Grip>,
    pub(super) right: Vec<Grip>,
}

/// How each state of a chord was reached: `left[l][r']` and `right[l][r]` name
/// the grips before.
struct Back {
    left: Vec<Vec<usize>>,
    right: Vec<Vec<usize>>,
}

/// The grips taken for each chord, as numbers in its lists.
pub(super) fn best(wishes: &HandWishes, choices: &[Choice]) -> Vec<(usize, usize)> {
    let mut prices: Vec<Vec<Cost>> = Vec::new();
    let mut backs: Vec<Back> = Vec::with_capacity(choices.len());
    let mut before: Option<&Choice> = None;
    for choice in choices {
        let mut here = pair_prices(wishes, choice);
        if let Some(last) = before {
            let (reached, back) = travel(last, choice, &prices);
            for (row, more) in here.iter_mut().zip(&reached) {
                for (price, more) in row.iter_mut().zip(more) {
                    *price = (*price + more).min(NEVER);
                }
            }
            backs.push(back);
        }
        prices = here;
        before = Some(choice);
    }
    walk_back(&prices, &backs)
}

fn walk_back(last: &[Vec<Cost>], backs: &[Back]) -> Vec<(usize, usize)> {
    let states = last.iter().enumerate();
    let states = states.flat_map(|(l, row)| row.iter().enumerate().map(move |(r, &p)| (p, l, r)));
    let Some((_, mut l, mut r)) = states.min() else { return Vec::new() };
    let mut taken = vec![(l, r)];
    for back in backs.iter().rev() {
        r = back.right[l][r];
        l = back.left[l][r];
        taken.push((l, r));
    }
    taken.reverse();
    taken
}

/// The cheapest way to each pair of grips from the chord before.
fn travel(from: &Choice, to: &Choice, prices: &[Vec<Cost>]) -> (Vec<Vec<Cost>>, Back) {
    let held = to.chord.figures == Stage::Hold;
    let lefts: Vec<Vec<Cost>> = ways(&from.left, &to.left, held);
    let rights: Vec<Vec<Cost>> = ways(&from.right, &to.right, held);
    // The left hand first: to each new left grip over each old right one.
    let (mut moved, mut left) = (Vec::new(), Vec::new());
    for way in &lefts {
        let olds = 0..from.right.len();
        let row: Vec<(Cost, usize)> = olds
            .map(|old| least(way.iter().zip(prices).map(|(way, row)| way + row[old])))
            .collect();
        moved.push(row.iter().map(|&(price, _)| price).collect::<Vec<Cost>>());
        left.push(row.into_iter().map(|(_, l)| l).collect());
    }
    // Then the right.
    let (mut reached, mut right) = (Vec::new(), Vec::new());
    for row in &moved {
        let row: Vec<(Cost, usize)> = rights
            .iter()
            .map(|way| least(way.iter().zip(row).map(|(way, price)| way + price)))
            .collect();
        reached.push(row.iter().map(|&(price, _)| price).collect());
        right.push(row.into_iter().map(|(_, r)| r).collect());
    }
    (reached, Back { left, right })
}

/// The least price and its place; the first of equals.
fn least(prices: impl Iterator<Item = Cost>) -> (Cost, usize) {
    let mut least = (NEVER, 0);
    for (place, price) in prices.enumerate() {
        if price < least.0 {
            least = (price, place);
        }
    }
    least
}

/// `ways[new][old]`: what a hand's way from one grip to another costs.
fn ways(from: &[Grip], to: &[Grip], held: bool) -> Vec<Vec<Cost>> {
    to.iter().map(|new| from.iter().map(|old| way(old, new, held)).collect()).collect()
}

fn way(old: &Grip, new: &Grip, held: bool) -> Cost {
    let kept = new.keys;
    let unrisen = old.rising & !(kept >> 1 | kept >> 2 | kept);
    let unfallen = old.falling & !(kept << 1 | kept << 2 | kept);
    let unprepared = new.suspended & !old.keys;
    let lost = if held { (old.keys & !kept).count_ones() } else { 0 };
    costs::travel(
        old.middle.zip(new.middle),
        (kept & !old.keys).count_ones(),
        (old.keys.count_ones(), kept.count_ones()),
    ) + Cost::from((unrisen | unfallen).count_ones()) * costs::ASTRAY
        + Cost::from(unprepared.count_ones()) * costs::UNPREPARED
        + Cost::from(lost) * costs::LETS_GO
}

/// `prices[l][r]`: what two grips cost together.
fn pair_prices(wishes: &HandWishes, choice: &Choice) -> Vec<Vec<Cost>> {
    let row = |left: &Grip| {
        choice.right.iter().map(|right| pair_price(wishes, choice.chord, left, right)).collect()
    };
    choice.left.iter().map(row).collect()
}

fn pair_price(wishes: &HandWishes, chord: &Chord, left: &Grip, right: &Grip) -> Cost {
    let gap = match (left.notes.last(), right.notes.first()) {
        (Some(l), Some(r)) if l.semitones() >= r.semitones() => return NEVER,
        (Some(l), Some(r)) => costs::gap(*l, *r, wishes.spacing),
        _ => 0,
    };
    let notes = || left.notes.iter().chain(&right.notes);
    let sonority = chord.tones.iter().map(|tone| {
        let count = notes().filter(|note: &&Pitch| note.class() == tone.class).count() as Cost;
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
