//! Which sopranos are offered: the best, and others that sound different.
//!
//! The k best lines of a long bass differ from one another by a note or two. So
//! "another one" is found by solving again with a price on every note that an
//! earlier choice sings: the cheapest line that goes its own way.

use super::candidates::candidates;
use super::costs::{AGREES, Cost, FAULT};
use super::rules::Moment;
use super::solver::{Line, cheapest};
use super::trellis::Trellis;
use crate::harmony::Chord;
use crate::pitch::Pitch;
use crate::sketch::Sketch;

/// The most sopranos offered.
pub(super) const MOST_CHOICES: usize = 8;
/// A choice must differ from every earlier one over at least one chord in this many.
const DIFFERS_ONCE_IN: usize = 4;
/// A choice may be dearer than the best by this much a chord, in hairs of taste.
const DEARER_EACH: Cost = 9;
/// And by this much in all.
const DEARER_IN_ALL: Cost = 60;

/// A soprano with its price under the rules and tastes in force.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RankedSoprano {
    /// The soprano over each chord.
    pub soprano: Vec<Pitch>,
    /// How many faults it draws, a rule broken twice counted twice.
    pub faults: u64,
    /// What its cautions and tastes cost, in hairs of taste.
    pub taste: u64,
}

/// The `k` best sopranos, best first, exactly; fewer if there are fewer. Many
/// differ by one note: [`super::frame`] offers different ones.
pub fn best_sopranos(sketch: &Sketch, chords: &[Chord], k: usize) -> Vec<RankedSoprano> {
    let layers = candidates(sketch, chords);
    let trellis = Trellis::new(&sketch.frame, &layers);
    let ranked = |line: Line| RankedSoprano {
        soprano: sung(&layers, &line),
        faults: line.cost / FAULT,
        taste: line.cost % FAULT,
    };
    cheapest(&trellis, &[], k).into_iter().map(ranked).collect()
}

/// The best soprano and others that differ audibly from it and from each other,
/// `most` of them at most.
pub(super) fn different_sopranos(
    layers: &[Vec<Moment>],
    trellis: &Trellis,
    most: usize,
) -> Vec<Vec<Pitch>> {
    let mut extra: Vec<Vec<Cost>> = trellis.widths.iter().map(|&width| vec![0; width]).collect();
    let mut chosen: Vec<Line> = Vec::new();
    while chosen.len() < most.min(MOST_CHOICES) {
        let Some(mut line) = cheapest(trellis, &extra, 1).pop() else { break };
        line.cost -= paid(&extra, &line.taken);
        if !chosen.is_empty() && !is_welcome(&chosen, &line) {
            break;
        }
        for (layer, &c) in extra.iter_mut().zip(&line.taken) {
            layer[c] += AGREES;
        }
        chosen.push(line);
    }
    chosen.iter().map(|line| sung(layers, line)).collect()
}

fn paid(extra: &[Vec<Cost>], taken: &[usize]) -> Cost {
    extra.iter().zip(taken).map(|(layer, &c)| layer[c]).sum()
}

fn is_welcome(chosen: &[Line], line: &Line) -> bool {
    let Some(best) = chosen.first() else { return true };
    let chords = line.taken.len();
    let limit = best.cost + DEARER_IN_ALL + DEARER_EACH * chords as Cost;
    let differ = |a: &Line| a.taken.iter().zip(&line.taken).filter(|(a, b)| a != b).count();
    line.cost <= limit
        && chosen
            .iter()
            .all(|earlier| differ(earlier) * DIFFERS_ONCE_IN >= chords.max(DIFFERS_ONCE_IN))
}

fn sung(layers: &[Vec<Moment>], line: &Line) -> Vec<Pitch> {
    layers.iter().zip(&line.taken).map(|(layer, &c)| layer[c].pair.soprano).collect()
}
