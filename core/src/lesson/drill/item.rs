//! The things that are drilled.

use crate::bass::BassMotion;
use crate::harmony::{Cadence, Direction};
use crate::pitch::{Degree, Mode};

/// One thing to know by heart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Item {
    /// The chord of a degree left upward or downward by step.
    Octave {
        /// Major or minor.
        mode: Mode,
        /// Which way the bass leaves.
        leaves: Direction,
        /// The degree.
        degree: Degree,
    },
    /// A bass motion.
    Motion {
        /// Major or minor.
        mode: Mode,
        /// Which.
        motion: BassMotion,
    },
    /// A cadence.
    Cadence {
        /// Major or minor.
        mode: Mode,
        /// Which.
        cadence: Cadence,
    },
}

const MODES: [Mode; 2] = [Mode::Major, Mode::Minor];

impl Item {
    /// Everything there is to drill, from the first lesson to the last: the octave
    /// rule rising and falling, cadences, motions; major before minor.
    pub fn all() -> Vec<Item> {
        let mut all = Vec::new();
        for mode in MODES {
            for leaves in [Direction::Up, Direction::Down] {
                let degrees = (1..=7).filter_map(Degree::new);
                let mut row: Vec<Item> =
                    degrees.map(|degree| Item::Octave { mode, leaves, degree }).collect();
                if leaves == Direction::Down {
                    row.reverse();
                }
                all.extend(row);
            }
            let fits = |cadence: &Cadence| *cadence != Cadence::Phrygian || mode == Mode::Minor;
            all.extend(
                Cadence::ALL.into_iter().filter(fits).map(|it| Item::Cadence { mode, cadence: it }),
            );
            all.extend(BassMotion::ALL.map(|motion| Item::Motion { mode, motion }));
        }
        all
    }

    /// A short name that never changes, for keeping progress.
    pub fn code(self) -> String {
        let letter = |mode: Mode| match mode {
            Mode::Major => 'M',
            Mode::Minor => 'm',
        };
        match self {
            Item::Octave { mode, leaves, degree } => {
                let way = match leaves {
                    Direction::Up => 'u',
                    Direction::Down => 'd',
                };
                format!("o{}{way}{}", letter(mode), degree.number())
            }
            Item::Motion { mode, motion } => format!("b{}{}", letter(mode), motion_code(motion)),
            Item::Cadence { mode, cadence } => {
                format!("c{}{}", letter(mode), cadence_code(cadence))
            }
        }
    }

    /// The item of a code.
    pub fn from_code(code: &str) -> Option<Item> {
        Item::all().into_iter().find(|item| item.code() == code)
    }
}

/// A number once given is never given to anything else.
const fn motion_code(motion: BassMotion) -> u8 {
    match motion {
        BassMotion::StepsUp => 0,
        BassMotion::StepsDown => 1,
        BassMotion::ThirdsDownSecondsUp => 2,
        BassMotion::FourthsDownSecondsUp => 3,
        BassMotion::FourthsUpFifthsDown => 4,
        BassMotion::FifthsUpFourthsDown => 5,
        BassMotion::ThirdsUpSecondsDown => 6,
        BassMotion::ThirdsDownFourthsUp => 7,
        BassMotion::ThirdsDown => 8,
        BassMotion::RepeatedRising => 9,
        BassMotion::TiedFalling => 10,
        BassMotion::ChromaticUp => 11,
        BassMotion::ChromaticDown => 12,
    }
}

/// As [`motion_code`].
const fn cadence_code(cadence: Cadence) -> u8 {
    match cadence {
        Cadence::Simple => 0,
        Cadence::Compound => 1,
        Cadence::Double => 2,
        Cadence::Half => 3,
        Cadence::Phrygian => 4,
        Cadence::Deceptive => 5,
        Cadence::Evaded => 6,
    }
}
