//! The order of a rolled chord: sweeps over the notes under the hands.
//!
//! C.P.E. Bach, *Versuch* I ch. 3 § 26 (1759): over long notes the harmony is
//! broken several times up and down. Saint-Lambert 1707, ch. 9 (from memory):
//! some chords repeated several times, some almost dry. The further strokes are
//! our choice. Turning notes are struck once; the last sweep down stops above the
//! bass, because the next chord's bass completes it.

use super::wishes::Stroke;
use crate::order;

/// The way of a sweep.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Way {
    /// From the bass up.
    Up,
    /// From the soprano down.
    Down,
}

/// One sweep over the notes of a chord.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Sweep {
    /// Its way.
    pub(super) way: Way,
    /// Which sweep of the chord it is, from 0.
    pub(super) turn: usize,
    /// Whether it is the chord's last.
    pub(super) last: bool,
    /// Whether the first note stands alone before a breath.
    pub(super) breath: bool,
    /// Places of the notes struck, counted from the bass.
    pub(super) places: Vec<usize>,
}

/// How a chord ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Ending {
    /// Into the next chord's bass.
    LeadsOn,
    /// On its own bass: the last chord.
    Settles,
}

/// The sweeps of a chord of `notes` notes, the lowest `left` of them in the left
/// hand, `times` up and down (0 up once; more than 4 counts as 4).
///
/// Starts on the bass and strikes every note, whatever the stroke.
pub(super) fn sweeps(
    stroke: Stroke,
    times: u8,
    notes: usize,
    left: usize,
    ending: Ending,
) -> Vec<Sweep> {
    let left = left.min(notes);
    let rounds = usize::from(times.clamp(1, 4));
    let mut lines: Vec<(Way, Vec<usize>)> = Vec::new();
    if let Stroke::Drawn(heights) = stroke {
        for round in 0..rounds {
            lines.extend(drawn(heights, notes, round > 0));
        }
    } else {
        let (up, down) = once(stroke, notes, left);
        for round in 0..rounds {
            // Where the sweep down has just reached the bass, it is not struck again.
            let skip = usize::from(round > 0 && stroke != Stroke::RepeatedBass);
            lines.push((Way::Up, up[skip.min(up.len())..].to_vec()));
            if times > 0 {
                let mut down = down.clone();
                // The bass at its end is left to what strikes it next, if anything does.
                let leave = if round + 1 == rounds {
                    ending == Ending::LeadsOn
                } else {
                    stroke == Stroke::RepeatedBass
                };
                if leave {
                    down.pop();
                }
                lines.push((Way::Down, down));
            }
        }
    }
    complete(&mut lines, notes);
    // A note just struck is not struck again at a turn.
    let mut at = None;
    for (_, places) in &mut lines {
        if at.is_some() && places.first().copied() == at {
            places.remove(0);
        }
        at = places.last().copied().or(at);
    }
    lines.retain(|(_, places)| !places.is_empty());
    let count = lines.len();
    let sweeps = lines.into_iter().enumerate().map(|(turn, (way, places))| Sweep {
        way,
        turn,
        last: turn + 1 == count,
        breath: turn == 0 && stroke == Stroke::BassAlone && places.len() > 1,
        places,
    });
    sweeps.collect()
}

/// Leaves out of the first sweep the notes that lie under the hand already; the
/// bass is always struck.
pub(super) fn leave_out(sweeps: &mut [Sweep], lies: impl Fn(usize) -> bool) {
    if let Some(first) = sweeps.first_mut() {
        first.places.retain(|&place| place == 0 || !lies(place));
    }
}

/// Leaves the last sweep before its end, having kept so many percent of it, if it goes
/// down and every note has been struck by then; at least one note of it stays.
pub(super) fn leave_early(sweeps: &mut [Sweep], notes: usize, percent: u64) {
    let Some((last, before)) = sweeps.split_last_mut() else { return };
    let struck = |place: &usize| before.iter().any(|sweep| sweep.places.contains(place));
    if last.way == Way::Down && (0..notes).all(|place| struck(&place)) {
        let keep = (last.places.len() as u64 * percent).div_ceil(100) as usize;
        last.places.truncate(keep.max(1));
    }
}

/// One way up and one way down again, the turning note left out of the latter.
fn once(stroke: Stroke, notes: usize, left: usize) -> (Vec<usize>, Vec<usize>) {
    let plain_up: Vec<usize> = (0..notes).collect();
    let plain_down: Vec<usize> = (0..notes.saturating_sub(1)).rev().collect();
    match stroke {
        Stroke::HandAfterHand if left > 0 && notes > left + 1 => {
            let up = (0..left).chain((left..notes).rev());
            let down = (left + 1..notes).chain((0..left).rev());
            (up.collect(), down.collect())
        }
        Stroke::InsideOut if notes > 3 => {
            let mut inner: Vec<usize> = (1..notes).collect();
            // The middle first; of two equally far the lower.
            order::by_key(&mut inner, |&place| (2 * place).abs_diff(notes));
            let up: Vec<usize> = [0].into_iter().chain(inner).collect();
            let down = up[1..notes - 1].iter().rev().copied().chain([0]).collect();
            (up, down)
        }
        Stroke::BrokenThirds if notes > 3 => {
            let up: Vec<usize> = (0..notes - 2).flat_map(|place| [place, place + 2]).collect();
            let down =
                (0..notes - 2).rev().flat_map(|place| [place, place + 1]).collect::<Vec<_>>();
            let down = down.into_iter().chain([0]).collect();
            (up, down)
        }
        Stroke::TurningBack if notes > 4 => {
            let turn = (2 * notes).div_ceil(3).min(notes - 2);
            let back = turn.saturating_sub(2);
            let up = (0..=turn).chain((back..turn).rev()).chain(back + 1..notes);
            (up.collect(), plain_down)
        }
        Stroke::Sweep
        | Stroke::HandAfterHand
        | Stroke::InsideOut
        | Stroke::BrokenThirds
        | Stroke::TurningBack
        | Stroke::RepeatedBass
        | Stroke::BassAlone
        | Stroke::Drawn(_) => (plain_up, plain_down),
    }
}

/// Sweeps along a drawn line, starting from the bass; a later round leaves out
/// the bass it already stands on.
fn drawn(heights: [u8; 8], notes: usize, again: bool) -> Vec<(Way, Vec<usize>)> {
    let top = notes.saturating_sub(1);
    let mut at = 0;
    let mut lines = vec![(Way::Up, if again { Vec::new() } else { vec![0] })];
    for height in heights {
        let goal = (usize::from(height.min(100)) * top + 50) / 100;
        while at != goal {
            let way = if goal > at { Way::Up } else { Way::Down };
            at = if goal > at { at + 1 } else { at - 1 };
            match lines.last_mut() {
                Some((going, places)) if *going == way => places.push(at),
                _ => lines.push((way, vec![at])),
            }
        }
    }
    lines
}

/// Adds the notes no sweep has struck, going up.
fn complete(lines: &mut Vec<(Way, Vec<usize>)>, notes: usize) {
    let missing: Vec<usize> = (0..notes)
        .filter(|place| !lines.iter().any(|(_, places)| places.contains(place)))
        .collect();
    if !missing.is_empty() {
        lines.push((Way::Up, missing));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn order(stroke: Stroke, notes: usize, times: u8, ending: Ending) -> String {
        let sweeps = sweeps(stroke, times, notes, notes / 2, ending);
        let text = |sweep: &Sweep| {
            sweep.places.iter().map(|place| place.to_string()).collect::<Vec<_>>().join(" ")
        };
        sweeps.iter().map(text).collect::<Vec<_>>().join(" | ")
    }

    #[test]
    fn sweeps_turn_without_repeating_and_lead_on() {
        let on = |notes, times| order(Stroke::Sweep, notes, times, Ending::LeadsOn);
        assert_eq!(on(4, 0), "0 1 2 3");
        assert_eq!(on(4, 1), "0 1 2 3 | 2 1");
        assert_eq!(on(4, 2), "0 1 2 3 | 2 1 0 | 1 2 3 | 2 1");
        assert_eq!(order(Stroke::Sweep, 4, 1, Ending::Settles), "0 1 2 3 | 2 1 0");
        assert_eq!(on(1, 3), "0");
        assert_eq!(on(0, 1), "");
        assert_eq!(on(3, 9), on(3, 4));
    }

    #[test]
    fn further_strokes_go_their_own_way() {
        let on = |stroke| order(stroke, 8, 1, Ending::LeadsOn);
        assert_eq!(on(Stroke::HandAfterHand), "0 1 2 3 7 6 5 4 | 5 6 7 3 2 1");
        assert_eq!(on(Stroke::InsideOut), "0 4 3 5 2 6 1 7 | 1 6 2 5 3 4");
        assert_eq!(on(Stroke::BrokenThirds), "0 2 1 3 2 4 3 5 4 6 5 7 | 5 6 4 5 3 4 2 3 1 2 0 1");
        assert_eq!(on(Stroke::TurningBack), "0 1 2 3 4 5 6 5 4 5 6 7 | 6 5 4 3 2 1");
        let twice = order(Stroke::RepeatedBass, 4, 2, Ending::LeadsOn);
        assert_eq!(twice, "0 1 2 3 | 2 1 | 0 1 2 3 | 2 1");
        assert_eq!(
            on(Stroke::Drawn([100, 0, 50, 0, 0, 0, 0, 0])),
            "0 1 2 3 4 5 6 7 | 6 5 4 3 2 1 0 | 1 2 3 4 | 3 2 1 0"
        );
    }

    #[test]
    fn a_sweep_down_may_be_left_early_and_no_other() {
        let mut twice = sweeps(Stroke::Sweep, 1, 8, 4, Ending::LeadsOn);
        leave_early(&mut twice, 8, 50);
        assert_eq!(twice[1].places, [6, 5, 4]);
        let mut up = sweeps(Stroke::Sweep, 0, 8, 4, Ending::LeadsOn);
        leave_early(&mut up, 8, 50);
        assert_eq!(up[0].places.len(), 8);
        // One that strikes something for the first time stays whole.
        let mut drawn =
            sweeps(Stroke::Drawn([50, 0, 100, 0, 0, 0, 0, 0]), 1, 3, 1, Ending::LeadsOn);
        let whole = drawn.clone();
        leave_early(&mut drawn[..2], 3, 10);
        assert_eq!(drawn, whole);
    }

    #[test]
    fn every_stroke_starts_on_the_bass_and_strikes_every_note() {
        let strokes = [
            Stroke::Sweep,
            Stroke::HandAfterHand,
            Stroke::InsideOut,
            Stroke::BrokenThirds,
            Stroke::TurningBack,
            Stroke::RepeatedBass,
            Stroke::BassAlone,
            Stroke::Drawn([0; 8]),
            Stroke::Drawn([30, 255, 0, 1, 99, 50, 7, 0]),
        ];
        for stroke in strokes {
            for notes in 1..=10 {
                for times in 0..=5 {
                    for left in 0..=notes {
                        for ending in [Ending::LeadsOn, Ending::Settles] {
                            let sweeps = sweeps(stroke, times, notes, left, ending);
                            assert_eq!(sweeps[0].places[0], 0);
                            let all: Vec<usize> =
                                sweeps.iter().flat_map(|sweep| sweep.places.clone()).collect();
                            assert!((0..notes).all(|place| all.contains(&place)), "{stroke:?}");
                            assert!(all.iter().all(|&place| place < notes));
                            assert!(
                                all.windows(2).all(|two| two[0] != two[1]),
                                "{stroke:?} {all:?}"
                            );
                            assert_eq!(sweeps.iter().filter(|sweep| sweep.last).count(), 1);
                        }
                    }
                }
            }
        }
    }
}
