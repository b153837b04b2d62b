//! Which pins stand in the way of a clean line, and which to free.
//!
//! Every pin may be given up at a price below a fault and above all taste: the
//! cheapest line then gives up the fewest pins that bring the faults down to
//! what they would be without any. For each of these the pins it quarrels with
//! are looked for among its neighbours.

use super::candidates::{Layer, open};
use super::costs::{Cost, FAULT, FORBIDDEN, RELEASE, RELEASE_RESTING};
use super::rules::Moment;
use super::solver::cheapest;
use super::trellis::Trellis;
use crate::harmony::Chord;
use crate::sketch::{Hold, Sketch};

/// The most conflicts reported at once.
const MOST_CONFLICTS: usize = 8;

/// Fixed soprano notes that cannot all stand in a clean line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PinConflict {
    /// The chords whose pins quarrel, in order; one alone where a pin cannot be
    /// had cleanly at all.
    pub chords: Vec<usize>,
    /// The chord whose pin to free for a clean line.
    pub free: usize,
}

/// The quarrels among the pins of a sketch; none where they cost no fault.
pub(super) fn conflicts(sketch: &Sketch, chords: &[Chord]) -> Vec<PinConflict> {
    let layers = open(sketch, chords);
    let pinned: Vec<usize> = (0..layers.len()).filter(|&i| layers[i].pin.is_some()).collect();
    if pinned.is_empty() {
        return Vec::new();
    }
    let moments: Vec<Vec<Moment>> = layers.iter().map(|layer| layer.moments.clone()).collect();
    let trellis = Trellis::new(&sketch.frame, &moments);
    let faults = |held: &[usize]| {
        let extra = prices(&layers, |i, _| if held.contains(&i) { FORBIDDEN } else { 0 });
        cheapest(&trellis, &extra, 1).first().map_or(0, |line| line.cost / FAULT)
    };
    let clean = faults(&[]);
    if faults(&pinned) <= clean {
        return Vec::new();
    }
    let release = prices(&layers, |_, hold| match hold {
        Hold::Pinned => RELEASE,
        Hold::Resting => RELEASE_RESTING,
    });
    let Some(line) = cheapest(&trellis, &release, 1).pop() else { return Vec::new() };
    let freed = pinned
        .iter()
        .copied()
        .filter(|&i| layers[i].pin.is_some_and(|(place, _)| line.taken.get(i) != Some(&place)));
    let quarrel = |free: usize| {
        let before = pinned.iter().copied().rfind(|&i| i < free);
        let after = pinned.iter().copied().find(|&i| i > free);
        let groups = [
            vec![free],
            before.into_iter().chain([free]).collect(),
            [free].into_iter().chain(after).collect(),
            before.into_iter().chain([free]).chain(after).collect(),
        ];
        let group = groups.into_iter().find(|group| faults(group) > clean);
        PinConflict { chords: group.unwrap_or_else(|| pinned.clone()), free }
    };
    freed.take(MOST_CONFLICTS).map(quarrel).collect()
}

/// A price for every candidate but the pinned one, where there is a pin.
fn prices(layers: &[Layer], price: impl Fn(usize, Hold) -> Cost) -> Vec<Vec<Cost>> {
    let over = |(i, layer): (usize, &Layer)| {
        let each = |c| match layer.pin {
            Some((place, hold)) if place != c => price(i, hold),
            _ => 0,
        };
        (0..layer.moments.len()).map(each).collect()
    };
    layers.iter().enumerate().map(over).collect()
}
