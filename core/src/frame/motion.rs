//! Motion: how bass and soprano move from one chord to the next.
//!
//! A voice moves when its key changes; a chromatic semitone is a move, a mere
//! change of spelling is not.

use crate::pitch::{Interval, Pitch};

/// Bass and soprano sounding together.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct OuterPair {
    /// The bass.
    pub bass: Pitch,
    /// The soprano.
    pub soprano: Pitch,
}

impl OuterPair {
    /// The interval from bass up to soprano; negative where they cross.
    pub fn interval(self) -> Interval {
        self.soprano - self.bass
    }
}

/// How the outer voices move from one chord to the next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Motion {
    /// In opposite directions.
    Contrary,
    /// One stays, the other moves.
    Oblique,
    /// In the same direction, the interval changing.
    Similar,
    /// In the same direction keeping the interval's number (tenths, sixths).
    Parallel,
    /// Neither moves.
    Still,
}

/// How the outer voices move between two pairs.
pub fn motion(from: OuterPair, to: OuterPair) -> Motion {
    let bass = (to.bass.semitones() - from.bass.semitones()).signum();
    let soprano = (to.soprano.semitones() - from.soprano.semitones()).signum();
    match (bass, soprano) {
        (0, 0) => Motion::Still,
        (0, _) | (_, 0) => Motion::Oblique,
        _ if bass != soprano => Motion::Contrary,
        _ if from.interval().simple_number() == to.interval().simple_number() => Motion::Parallel,
        _ => Motion::Similar,
    }
}

/// The balance of motions in a piece, each counted once a move.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct Motions {
    /// Contrary moves.
    pub contrary: usize,
    /// Parallel thirds or tenths.
    pub tenths: usize,
    /// Parallel sixths.
    pub sixths: usize,
    /// Parallel moves in any other interval.
    pub other_parallel: usize,
    /// Oblique moves.
    pub oblique: usize,
    /// Similar moves.
    pub similar: usize,
    /// Places where neither voice moves.
    pub still: usize,
}

/// Counts the motions between successive pairs.
pub fn motions(pairs: &[OuterPair]) -> Motions {
    let mut count = Motions::default();
    for (from, to) in pairs.iter().zip(pairs.iter().skip(1)) {
        let place = match motion(*from, *to) {
            Motion::Contrary => &mut count.contrary,
            Motion::Oblique => &mut count.oblique,
            Motion::Similar => &mut count.similar,
            Motion::Still => &mut count.still,
            Motion::Parallel => match to.interval().simple_number() {
                3 => &mut count.tenths,
                6 => &mut count.sixths,
                _ => &mut count.other_parallel,
            },
        };
        *place += 1;
    }
    count
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pitch::Step;

    fn pair(bass: Pitch, soprano: Pitch) -> OuterPair {
        OuterPair { bass, soprano }
    }

    #[test]
    fn a_chromatic_semitone_is_a_move() {
        let from = pair(Pitch::new(Step::C, 0, 3), Pitch::new(Step::G, 0, 4));
        let to = pair(Pitch::new(Step::C, 1, 3), Pitch::new(Step::G, 1, 4));
        assert_eq!(motion(from, to), Motion::Parallel);
    }

    #[test]
    fn a_change_of_spelling_is_none() {
        let from = pair(Pitch::new(Step::C, 1, 3), Pitch::new(Step::E, 0, 4));
        let to = pair(Pitch::new(Step::D, -1, 3), Pitch::new(Step::F, 0, 4));
        assert_eq!(motion(from, to), Motion::Oblique);
    }

    #[test]
    fn tenths_and_sixths_are_counted_apart() {
        let c = Pitch::new(Step::C, 0, 3);
        let d = Pitch::new(Step::D, 0, 3);
        let pairs = [
            pair(c, Pitch::new(Step::E, 0, 4)),
            pair(d, Pitch::new(Step::F, 0, 4)),
            pair(c, Pitch::new(Step::A, 0, 4)),
            pair(d, Pitch::new(Step::B, 0, 4)),
            pair(d, Pitch::new(Step::G, 0, 4)),
        ];
        let expected =
            Motions { tenths: 1, contrary: 1, sixths: 1, oblique: 1, ..Motions::default() };
        assert_eq!(motions(&pairs), expected);
    }
}
