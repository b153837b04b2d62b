//! The all-voices view: consecutive fifths and octaves between any two voices.
//!
//! For information only: inside a full handful inner voices may move in
//! parallels (Heinichen 1728; the Roman manuscript E.25, ch. 26). Voices are
//! followed from handful to handful low to high; where the number of notes
//! changes, by the least total movement without crossing.

use super::motion::{Motion, OuterPair, motion};
use crate::hands::Handful;
use crate::order;
use crate::pitch::Pitch;

/// Two voices that run in fifths or octaves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct InnerParallel {
    /// Index of the first chord; the second is the next.
    pub from: usize,
    /// Fifths or octaves.
    pub kind: Perfect,
    /// The lower voice, before and after.
    pub lower: (Pitch, Pitch),
    /// The upper voice, before and after.
    pub upper: (Pitch, Pitch),
}

/// A perfect interval.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Perfect {
    /// Fifth or twelfth.
    Fifth,
    /// Octave or unison.
    Octave,
}

/// Consecutive fifths and octaves by similar motion between any two voices but
/// the outer two, which the rulebook watches; in order of place.
pub fn inner_parallels(handfuls: &[Handful]) -> Vec<InnerParallel> {
    let mut found = Vec::new();
    for (from, pair) in handfuls.windows(2).enumerate() {
        let [before, after] = pair else { continue };
        let voices = follow(&notes(before), &notes(after));
        for (i, &lower) in voices.iter().enumerate() {
            for (j, &upper) in voices.iter().enumerate().skip(i + 1) {
                let outer = i == 0 && j + 1 == voices.len();
                if let Some(kind) = parallel(lower, upper).filter(|_| !outer) {
                    found.push(InnerParallel { from, kind, lower, upper });
                }
            }
        }
    }
    found
}

fn notes(handful: &Handful) -> Vec<Pitch> {
    let mut notes: Vec<Pitch> = handful.left.iter().chain(&handful.right).copied().collect();
    order::sort(&mut notes);
    notes
}

fn parallel(lower: (Pitch, Pitch), upper: (Pitch, Pitch)) -> Option<Perfect> {
    let from = OuterPair { bass: lower.0, soprano: upper.0 };
    let to = OuterPair { bass: lower.1, soprano: upper.1 };
    if !matches!(motion(from, to), Motion::Similar | Motion::Parallel) {
        return None;
    }
    let (before, after) = (from.interval(), to.interval());
    if before.is_perfect_fifth() && after.is_perfect_fifth() {
        Some(Perfect::Fifth)
    } else if before.is_perfect_octave() && after.is_perfect_octave() {
        Some(Perfect::Octave)
    } else {
        None
    }
}

/// Pairs the notes of two chords, low to high, so that every note of the thinner
/// chord has a partner, the outer notes theirs, and the movement is least.
fn follow(before: &[Pitch], after: &[Pitch]) -> Vec<(Pitch, Pitch)> {
    if before.len() > after.len() {
        return follow(after, before).into_iter().map(|(a, b)| (b, a)).collect();
    }
    let (thin, full) = (before, after);
    let Some(spare) = full.len().checked_sub(thin.len()).filter(|_| !thin.is_empty()) else {
        return Vec::new();
    };
    // least[i][s]: the least movement of the first `i + 1` thin notes with `s`
    // full ones left out among them; the note before kept `from[i][s]` out.
    let far = |i: usize, s: usize| thin[i].semitones().abs_diff(full[i + s].semitones());
    let mut least: Vec<Vec<u32>> = vec![vec![u32::MAX / 2; spare + 1]; thin.len()];
    let mut from: Vec<Vec<usize>> = vec![vec![0; spare + 1]; thin.len()];
    for i in 0..thin.len() {
        for s in 0..=spare {
            let best = match i {
                0 if s == 0 => Some((0, 0)),
                0 => None,
                _ => (0..=s).map(|t| (least[i - 1][t], t)).min(),
            };
            if let Some((cost, t)) = best {
                least[i][s] = cost.saturating_add(far(i, s)).min(u32::MAX / 2);
                from[i][s] = t;
            }
        }
    }
    // A lone note goes with the bass; otherwise the top notes go together.
    let mut s = if thin.len() == 1 { 0 } else { spare };
    let mut pairs = Vec::with_capacity(thin.len());
    for i in (0..thin.len()).rev() {
        pairs.push((thin[i], full[i + s]));
        s = from[i][s];
    }
    pairs.reverse();
    pairs
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pitch::{PitchClass, Step};

    fn handful(text: &str) -> Handful {
        let pitch = |text: &str| {
            let step = Step::from_letter(text.chars().next()?)?;
            Some(PitchClass::new(step, 0).in_octave(text.get(1..)?.parse().ok()?))
        };
        let mut notes = text.split(' ').filter_map(pitch);
        Handful { left: notes.next().into_iter().collect(), right: notes.collect() }
    }

    fn count(texts: &[&str]) -> usize {
        inner_parallels(&texts.iter().map(|text| handful(text)).collect::<Vec<_>>()).len()
    }

    #[test]
    fn inner_fifths_are_reported_and_outer_ones_left_to_the_rulebook() {
        assert_eq!(count(&["A3 C4 F4 C5", "B3 F4 G4 D5"]), 1);
        assert_eq!(count(&["C3 E4 G4", "D3 F4 A4"]), 0);
        assert_eq!(count(&["C3 G3 E4", "D3 A3 F4"]), 1);
        assert_eq!(count(&["C3 G3 E4", "C3 G3 E4"]), 0);
    }

    #[test]
    fn voices_are_followed_when_their_number_changes() {
        let pitches = |text: &str| notes(&handful(text));
        let pairs = follow(&pitches("C3 G3 E4"), &pitches("D3 E3 A3 D4 F4"));
        let expected: Vec<_> = pitches("C3 G3 E4").into_iter().zip(pitches("D3 A3 F4")).collect();
        assert_eq!(pairs, expected);
        assert_eq!(follow(&pitches("D3 E3 A3 D4 F4"), &pitches("C3 G3 E4")).len(), 3);
        assert_eq!(
            follow(&pitches("C3"), &pitches("D3 F3")),
            [(pitches("C3")[0], pitches("D3")[0])]
        );
        assert_eq!(follow(&[], &pitches("D3")), []);
    }
}
