//! What one solving leaves for the next: of a piece that hardly changed, as while a
//! note is dragged, only the neighbourhood of the change is solved anew.

use super::grip::Grip;
use super::solver::{self, Choice, Grips, Step, Taken};
use super::wishes::{HandSize, HandWishes};
use super::{HandRemark, HandTrouble, Handful, Hands, check, costs, free, own};
use crate::frame::Frame;
use crate::harmony::Chord;
use crate::order;
use crate::pitch::Pitch;
use crate::sketch::Sketch;
use std::ops::Range;

/// The last piece solved, as far as the next may have it in common. Empty at first;
/// it changes no answer.
#[derive(Clone, Debug, Default)]
pub struct HandsMemory {
    wishes: HandWishes,
    k: usize,
    places: Vec<Place>,
    steps: Vec<Step>,
}

/// All that a chord's choice of grips depends on, and the grips.
#[derive(Clone, Debug)]
struct Place {
    chord: Chord,
    soprano: Pitch,
    own: Option<(Handful, usize)>,
    grips: Grips,
}

impl Place {
    fn is(&self, chord: &Chord, soprano: Pitch, own: Option<&(Handful, usize)>) -> bool {
        self.soprano == soprano && self.own.as_ref() == own && self.chord == *chord
    }
}

/// The `k` most comfortable ways to open every chord, best first, remembered.
pub(super) fn solve(
    memory: &mut HandsMemory,
    sketch: &Sketch,
    chords: &[Chord],
    frame: &Frame,
    k: usize,
) -> Vec<Hands> {
    let wishes = &sketch.hands;
    if memory.wishes != *wishes || memory.k != k {
        *memory = HandsMemory { wishes: wishes.clone(), k, ..HandsMemory::default() };
    }
    let over: Vec<(&Chord, Pitch)> = chords.iter().zip(frame.soprano.iter().copied()).collect();
    let mut left_out = Vec::new();
    let mut same = Vec::with_capacity(over.len());
    memory.places.truncate(over.len());
    for (i, &(chord, soprano)) in over.iter().enumerate() {
        let own = own(sketch, chord, soprano);
        if let Some((_, count)) = own.as_ref().filter(|(_, count)| *count > 0) {
            left_out.push(HandRemark { chord: i, kind: HandTrouble::LeftOut { count: *count } });
        }
        let kept = memory.places.get(i).is_some_and(|it| it.is(chord, soprano, own.as_ref()));
        same.push(kept);
        if kept {
            continue;
        }
        let (left, right) = match &own {
            Some((own, _)) => (vec![own.left.clone()], vec![own.right.clone()]),
            None => free(sketch, chord, soprano),
        };
        let left = grips(wishes, chord, left, wishes.left);
        let right = grips(wishes, chord, right, wishes.right);
        let place = Place { chord: chord.clone(), soprano, own, grips: Grips { left, right } };
        match memory.places.get_mut(i) {
            Some(slot) => *slot = place,
            None => memory.places.push(place),
        }
    }
    let choices: Vec<Choice> = memory
        .places
        .iter()
        .map(|place| Choice { chord: &place.chord, grips: &place.grips })
        .collect();
    let old = std::mem::take(&mut memory.steps);
    let steps =
        solver::steps(wishes, &choices, k, old, |i| same.get(i).copied().unwrap_or_default());
    let mut all = Vec::new();
    for taken in solver::ways_through(&choices, &steps, k) {
        all.push(told(wishes, frame, &choices, taken, &left_out));
    }
    memory.steps = steps;
    all
}

/// The handfuls taken, with all that is to be said of them.
fn told(
    wishes: &HandWishes,
    frame: &Frame,
    choices: &[Choice],
    taken: Taken,
    left_out: &[HandRemark],
) -> Hands {
    let handful = |(choice, (l, r)): (&Choice, (usize, usize))| Handful {
        left: choice.grips.left[l].notes.clone(),
        right: choice.grips.right[r].notes.clone(),
    };
    let handfuls: Vec<Handful> = choices.iter().zip(taken.grips).map(handful).collect();
    remarked(wishes, frame, choices.iter().map(|choice| choice.chord), handfuls, left_out)
}

/// Handfuls with all that is to be said of them.
fn remarked<'a>(
    wishes: &HandWishes,
    frame: &Frame,
    chords: impl Iterator<Item = &'a Chord>,
    handfuls: Vec<Handful>,
    left_out: &[HandRemark],
) -> Hands {
    let mut remarks = left_out.to_vec();
    let over = chords.zip(&frame.soprano);
    for (i, ((chord, &soprano), handful)) in over.zip(&handfuls).enumerate() {
        let troubles = check::troubles(wishes, chord, soprano, handful);
        remarks.extend(troubles.into_iter().map(|kind| HandRemark { chord: i, kind }));
    }
    order::by_key(&mut remarks, |remark| remark.chord);
    Hands { handfuls, remarks }
}

/// The most comfortable handfuls with those that stay.
pub(super) fn solve_in_brief(
    sketch: &Sketch,
    chords: &[Chord],
    frame: &Frame,
    (chords_before, frame_before, hands_before): (&[Chord], &Frame, &Hands),
) -> Hands {
    let wishes = &sketch.hands;
    let mut left_out = Vec::new();
    let mut handfuls: Vec<Handful> = Vec::with_capacity(chords.len());
    // Chords that are opened anew, first and behind the last of each stretch.
    let mut opened: Vec<Range<usize>> = Vec::new();
    for (i, (chord, &soprano)) in chords.iter().zip(&frame.soprano).enumerate() {
        let own = own(sketch, chord, soprano);
        if let Some((_, count)) = own.as_ref().filter(|(_, count)| *count > 0) {
            left_out.push(HandRemark { chord: i, kind: HandTrouble::LeftOut { count: *count } });
        }
        let stays =
            chords_before.get(i) == Some(chord) && frame_before.soprano.get(i) == Some(&soprano);
        let kept = hands_before.handfuls.get(i).filter(|_| stays).cloned();
        // An own handful that was let go is in the kept one no longer.
        let stands = own.map(|(own, _)| own).or(kept);
        if stands.is_none() {
            match opened.last_mut() {
                Some(stretch) if stretch.end == i => stretch.end += 1,
                _ => opened.push(i..i + 1),
            }
        }
        handfuls.push(stands.unwrap_or(Handful { left: Vec::new(), right: Vec::new() }));
    }
    // A handful that stands is the only one to come from or to go to, so that each stretch
    // between two of them is solved by itself.
    for stretch in opened {
        let around = stretch.start.saturating_sub(1)..(stretch.end + 1).min(handfuls.len());
        let open = |i: usize| {
            let (chord, handful) = (chords.get(i)?, handfuls.get(i)?);
            let (left, right) = match stretch.contains(&i) {
                true => free(sketch, chord, *frame.soprano.get(i)?),
                false => (vec![handful.left.clone()], vec![handful.right.clone()]),
            };
            let left = grips(wishes, chord, left, wishes.left);
            let right = grips(wishes, chord, right, wishes.right);
            Some((chord, Grips { left, right }))
        };
        let all: Vec<(&Chord, Grips)> = around.clone().filter_map(open).collect();
        let choices: Vec<Choice> =
            all.iter().map(|(chord, grips)| Choice { chord, grips }).collect();
        let steps = solver::steps(wishes, &choices, 1, Vec::new(), |_| false);
        let Some(taken) = solver::ways_through(&choices, &steps, 1).pop() else {
            return Hands::default();
        };
        for ((i, (_, grips)), (l, r)) in around.zip(&all).zip(taken.grips) {
            let (left, right) = (grips.left.get(l), grips.right.get(r));
            if let (Some(left), Some(right), Some(slot)) = (left, right, handfuls.get_mut(i)) {
                *slot = Handful { left: left.notes.clone(), right: right.notes.clone() };
            }
        }
    }
    remarked(wishes, frame, chords.iter(), handfuls, &left_out)
}

fn grips(wishes: &HandWishes, chord: &Chord, sets: Vec<Vec<Pitch>>, size: HandSize) -> Vec<Grip> {
    let grip = |notes: Vec<Pitch>| {
        let price = costs::grip(&notes, size);
        Grip::new(wishes, chord, notes, price)
    };
    sets.into_iter().map(grip).collect()
}
