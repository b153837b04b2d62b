//! Standard bass motions: which stretches of a bass are sequences, and the
//! chords each takes.
//!
//! Fenaroli, *Partimenti ossia basso numerato*, book III, after Sanguinetti, *The
//! Art of Partimento* (2012), pp. 135-158; figures from memory, 5-6 on rising, 7-6
//! on falling and 4/2-6 on tied falling basses found (essaysonmusic.com, after the same).
//! Found too: 6/5 where a bass falls a third before it rises a step, sevenths where it
//! rises a fourth and falls a fifth, 4-3 where it rises a fifth and falls a fourth
//! (*Grammatica di musica*, Naples, G. Eboli, 1823, on the motions of the partimento).

use super::lexicon::bit;
use super::line::Line;
use crate::bass::BassMotion;

/// A motion as data.
pub(super) struct MotionRow {
    pub(super) motion: BassMotion,
    /// Letters moved, in turn, the register aside.
    pub(super) letters: &'static [i32],
    /// Notes at least needed to hear it as a sequence.
    pub(super) least: usize,
    /// Figures over each note of the pattern, plain.
    pub(super) plain: &'static [&'static str],
    /// The same, richer.
    pub(super) rich: &'static [&'static str],
}

#[rustfmt::skip]
pub(super) const MOTIONS: &[MotionRow] = {
    use BassMotion::*;
    &[
        //          motion                         letters         least  plain              rich
        MotionRow { motion: FourthsDownSecondsUp, letters: &[-3, 1], least: 5, plain: &["5/3", "5/3"], rich: &["5/3", "6"] },
        MotionRow { motion: ThirdsDownSecondsUp,  letters: &[-2, 1], least: 5, plain: &["5/3", "6"],   rich: &["5/3", "6/5"] },
        MotionRow { motion: FourthsUpFifthsDown,  letters: &[3],     least: 5, plain: &["5/3"],        rich: &["7"] },
        MotionRow { motion: FifthsUpFourthsDown,  letters: &[-3],    least: 4, plain: &["5/3"],        rich: &["5/4 5/3"] },
        MotionRow { motion: ThirdsUpSecondsDown,  letters: &[2, -1], least: 5, plain: &["5/3", "6"],   rich: &["5/3", "6/5"] },
        MotionRow { motion: ThirdsDownFourthsUp,  letters: &[-2, 3], least: 5, plain: &["5/3", "6"],   rich: &["5/3", "6/5"] },
        MotionRow { motion: ThirdsDown,           letters: &[-2],    least: 4, plain: &["5/3"],        rich: &["5/3"] },
        MotionRow { motion: RepeatedRising,       letters: &[0, 1],  least: 5, plain: &["5/3", "6"],   rich: &["5/3", "6"] },
        // By step the octave rule holds; the chains are for those who want suspensions.
        MotionRow { motion: StepsUp,              letters: &[1],     least: 5, plain: &[],             rich: &["5/3 6"] },
        MotionRow { motion: StepsDown,            letters: &[-1],    least: 5, plain: &[],             rich: &["7 6"] },
        MotionRow { motion: TiedFalling,          letters: &[0, -1], least: 5, plain: &["6", "6/4/2"], rich: &["6", "6/4/2"] },
    ]
};

/// A stretch of a bass that is a sequence.
#[derive(Clone, Copy)]
pub(super) struct Stretch {
    pub(super) row: &'static MotionRow,
    pub(super) start: usize,
    /// The note it leads to.
    pub(super) last: usize,
    /// All its notes on the line of fifths, with the one it leads to.
    pub(super) classes: u64,
}

/// Finds the stretch each spot belongs to, longest first come; spots outside
/// any have none. One pass per motion.
pub(super) fn stretches(line: &Line) -> Vec<Option<Stretch>> {
    let count = line.spots.len();
    let mut found: Vec<Option<Stretch>> = vec![None; count];
    for row in MOTIONS {
        let mut start = 0;
        while start + row.least <= count {
            let mut last = start;
            while line.letters(last) == Some(row.letters[(last - start) % row.letters.len()])
                && repeats_exactly(line, row, last)
            {
                last += 1;
            }
            if last - start + 1 < row.least {
                start += 1;
                continue;
            }
            let spots = &line.spots[start..=last];
            let classes = spots.iter().fold(0, |set, spot| set | bit(spot.place));
            for slot in found[start..last].iter_mut().filter(|slot| slot.is_none()) {
                *slot = Some(Stretch { row, start, last, classes });
            }
            start = last;
        }
    }
    found
}

/// A pattern that repeats a note must repeat it exactly, not chromatically.
fn repeats_exactly(line: &Line, row: &MotionRow, at: usize) -> bool {
    let spots = &line.spots;
    let same_letter = spots.get(at + 1).is_some_and(|next| next.pitch.step == spots[at].pitch.step);
    let same = spots.get(at + 1).is_some_and(|next| next.place == spots[at].place);
    !row.letters.contains(&0) || !same_letter || same
}
