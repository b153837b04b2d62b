//! Learns how counted usage is weighed into what analysts name.
//!
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
    let mut places: BTreeMap<Feature, usize> = BTreeMap::new();
    for (feature, _) in cases.iter().flat_map(|case| &case.features) {
        let next = places.len();
        places.entry(*feature).or_insert(next);
    }
    let indexed: Vec<Vec<(usize, f64)>> = cases
        .iter()
        .map(|case| case.features.iter().map(|(it, weight)| (places[it], *weight)).collect())
        .collect();
    // How much each feature weighs in all, so that rare ones move as fast as common.
    let mut mass = vec![penalty; places.len()];
    for (place, weight) in indexed.iter().flatten() {
        mass[*place] += weight * weight;
    }
    let mut weights = vec![[0.0; FIGURES]; places.len()];
    for (feature, place) in &places {
        if let Feature::Counted(figure) = feature {
            weights[*place][usize::from(*figure)] = 1.0;
        }
    }
    let mut speed = vec![[0.0; FIGURES]; places.len()];
    for _ in 0..ROUNDS {
        let mut gradient: Vec<[f64; FIGURES]> =
            weights.iter().map(|row| row.map(|it| -penalty * it)).collect();
        for (case, features) in cases.iter().zip(&indexed) {
            let mut likely = [0.0; FIGURES];
            for (place, weight) in features {
                for (score, it) in likely.iter_mut().zip(&weights[*place]) {
                    *score += weight * it;
                }
            }
            let most = likely.iter().copied().fold(f64::MIN, f64::max);
            let raised = likely.map(|score| (score - most).exp());
            let sum: f64 = raised.iter().sum();
            for (place, weight) in features {
                for (figure, slot) in gradient[*place].iter_mut().enumerate() {
                    let named = if figure == case.figure { 1.0 } else { 0.0 };
                    *slot += weight * (named - raised[figure] / sum);
                }
            }
        }
        for (place, row) in weights.iter_mut().enumerate() {
            for figure in 0..FIGURES {
                let push = STEP * gradient[place][figure] / mass[place];
                speed[place][figure] = 0.8 * speed[place][figure] + push;
                row[figure] += speed[place][figure];
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
