//! Sorting that costs the page little code. The standard sorts are written out anew for
//! every type and every key, some eight kilobytes each; lists that are short or seldom
//! sorted go through one sort of numbers instead. Inner loops keep the standard ones.

use std::cmp::Ordering;

/// Sorts, keeping equal items in their order.
pub fn sort<T: Ord>(items: &mut [T]) {
    by(items, T::cmp);
}

/// Sorts by a key, keeping items of equal keys in their order.
pub fn by_key<T, K: Ord>(items: &mut [T], key: impl Fn(&T) -> K) {
    by(items, |a, b| key(a).cmp(&key(b)));
}

/// Sorts by a comparison, keeping equal items in their order.
pub fn by<T>(items: &mut [T], compare: impl Fn(&T, &T) -> Ordering) {
    let mut from = ranked(items.len(), &|a, b| compare(&items[a], &items[b]));
    // Each cycle of the permutation is walked once, so every item is moved once.
    for start in 0..from.len() {
        let mut at = start;
        loop {
            let next = std::mem::replace(&mut from[at], at);
            if next == start {
                break;
            }
            items.swap(at, next);
            at = next;
        }
    }
}

/// The indices 0 to `len` in the order that `compare` asks for.
fn ranked(len: usize, compare: &dyn Fn(usize, usize) -> Ordering) -> Vec<usize> {
    let mut order: Vec<usize> = (0..len).collect();
    order.sort_by(|&a, &b| compare(a, b));
    order
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sorts_as_the_standard_sort_does() {
        let mut seed = 1_u32;
        for len in 0..60 {
            let mut ours: Vec<(u32, usize)> = (0..len)
                .map(|place| {
                    seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                    (seed >> 29, place)
                })
                .collect();
            let mut theirs = ours.clone();
            by_key(&mut ours, |item| item.0);
            theirs.sort_by_key(|item| item.0);
            assert_eq!(ours, theirs);
        }
    }
}
