//! Learns how counted usage is weighed into what analysts name.
//!
//! Here note by note, in `chains` within the search for chords.
//! A multinomial logistic regression over the features the harmony gives of each
//! bass note, with a penalty on large weights. Plain descent along the gradient,
//! each feature's step divided by how often it occurs; the same numbers on every
//! machine and run.

use std::collections::BTreeMap;

use tastata::harmony::{FIGURES, Feature, Habit};

/// What is known of one bass note, and the figure the analyst named.
pub struct Case {
    /// Features with their weights.
    pub features: Vec<(Feature, f64)>,
    /// The figure, in the range [0, 6].
    pub figure: usize,
}

/// Rounds of descent.
const ROUNDS: usize = 300;
/// Length of a step.
const STEP: f64 = 0.5;

/// The habit that makes the cases likeliest; half the penalty times the square of
/// every weight is added to the loss.
pub fn learn(cases: &[Case], penalty: f64) -> Habit {
    let features: Vec<&[(Feature, f64)]> = cases.iter().map(|it| &it.features[..]).collect();
    descend(&features, Held { square: penalty, size: 0.0 }, |scores| {
        let pull = |(case, scores): (&Case, &Scores)| {
            let most = scores.iter().copied().fold(f64::MIN, f64::max);
            let raised = scores.map(|score| (score - most).exp());
            let sum: f64 = raised.iter().sum();
            std::array::from_fn(|figure| {
                let named = if figure == case.figure { 1.0 } else { 0.0 };
                named - raised[figure] / sum
            })
        };
        std::iter::zip(cases, scores).map(pull).collect()
    })
}

/// A number for each figure.
pub(crate) type Scores = [f64; FIGURES];

/// How weights are held back.
#[derive(Clone, Copy)]
pub(crate) struct Held {
    /// Half of it times the square of every weight is added to the loss.
    pub(crate) square: f64,
    /// It times the size of every weight is added, but of those of the counts: what says
    /// little becomes nothing (the elastic net; H. Zou and T. Hastie, 2005).
    pub(crate) size: f64,
}

/// The weights for notes with these features towards which `pull` leads: from the scores
/// of all notes it says how much each should rise.
pub(crate) fn descend(
    notes: &[&[(Feature, f64)]],
    held: Held,
    pull: impl Fn(&[Scores]) -> Vec<Scores>,
) -> Habit {
    let penalty = held.square;
    let mut places: BTreeMap<Feature, usize> = BTreeMap::new();
    for (feature, _) in notes.iter().copied().flatten() {
        let next = places.len();
        places.entry(*feature).or_insert(next);
    }
    let indexed: Vec<Vec<(usize, f64)>> = notes
        .iter()
        .map(|features| features.iter().map(|(it, weight)| (places[it], *weight)).collect())
        .collect();
    // How much each feature weighs in all, so that rare ones move as fast as common.
    let mut mass = vec![penalty; places.len()];
    for (place, weight) in indexed.iter().flatten() {
        mass[*place] += weight * weight;
    }
    let mut weights = vec![[0.0; FIGURES]; places.len()];
    let mut sizes = vec![held.size; places.len()];
    for (feature, place) in &places {
        if let Feature::Counted(figure) = feature {
            weights[*place][usize::from(*figure)] = 1.0;
            sizes[*place] = 0.0;
        }
    }
    let mut speed = vec![[0.0; FIGURES]; places.len()];
    let mut scores = vec![[0.0; FIGURES]; notes.len()];
    for _ in 0..ROUNDS {
        for (scores, features) in scores.iter_mut().zip(&indexed) {
            *scores = [0.0; FIGURES];
            for (place, weight) in features {
                for (score, it) in scores.iter_mut().zip(&weights[*place]) {
                    *score += weight * it;
                }
            }
        }
        let mut gradient: Vec<Scores> =
            weights.iter().map(|row| row.map(|it| -penalty * it)).collect();
        for (pull, features) in pull(&scores).iter().zip(&indexed) {
            for (place, weight) in features {
                for (slot, pull) in gradient[*place].iter_mut().zip(pull) {
                    *slot += weight * pull;
                }
            }
        }
        for (place, row) in weights.iter_mut().enumerate() {
            for figure in 0..FIGURES {
                let push = STEP * gradient[place][figure] / mass[place];
                speed[place][figure] = 0.8 * speed[place][figure] + push;
                row[figure] += speed[place][figure];
                let less = STEP * sizes[place] / mass[place];
                if less > 0.0 {
                    row[figure] = row[figure].signum() * (row[figure].abs() - less).max(0.0);
                    if row[figure] == 0.0 {
                        speed[place][figure] = 0.0;
                    }
                }
            }
        }
    }
    Habit::of(places.into_iter().map(|(feature, place)| (feature, weights[place])))
}

/// How little a habit expects the figures of cases it has not seen: minus the sum of
/// the logarithms of their likelihoods.
pub fn surprise(habit: &Habit, cases: &[Case]) -> f64 {
    let of = |case: &Case| {
        let scores = habit.scores(&case.features);
        let most = scores.iter().copied().fold(f64::MIN, f64::max);
        let sum: f64 = scores.iter().map(|score| (score - most).exp()).sum();
        most + sum.ln() - scores[case.figure]
    };
    cases.iter().map(of).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_always_holds_is_learned() {
        let case = |degree: i32, figure| Case {
            features: vec![(Feature::Degree(false, degree), 1.0)],
            figure,
        };
        let cases: Vec<Case> = (0..40).flat_map(|_| [case(0, 0), case(4, 1), case(5, 4)]).collect();
        let habit = learn(&cases, 3.0);
        for (degree, figure) in [(0, 0), (4, 1), (5, 4)] {
            let scores = habit.scores(&[(Feature::Degree(false, degree), 1.0)]);
            let best = (0..FIGURES).max_by(|&a, &b| scores[a].total_cmp(&scores[b]));
            assert_eq!(best, Some(figure));
        }
    }
}
