//! Standard bass motions, by the letters they move.
//!
//! Fenaroli, *Partimenti ossia basso numerato*, book III, in the order of
//! Sanguinetti, *The Art of Partimento* (2012), pp. 135-158: from memory.

/// A standard bass motion.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum BassMotion {
    /// Rises by step, 5-6 on each note where it is figured so.
    StepsUp,
    /// Falls by step, 7-6 on each note where it is figured so.
    StepsDown,
    /// Falls a third, rises a second.
    ThirdsDownSecondsUp,
    /// Falls a fourth, rises a second.
    FourthsDownSecondsUp,
    /// Rises a fourth, falls a fifth.
    FourthsUpFifthsDown,
    /// Rises a fifth, falls a fourth.
    FifthsUpFourthsDown,
    /// Rises a third, falls a second.
    ThirdsUpSecondsDown,
    /// Falls a third, rises a fourth.
    ThirdsDownFourthsUp,
    /// Falls in thirds.
    ThirdsDown,
    /// Each note struck twice, rising by step.
    RepeatedRising,
    /// Each note tied over, falling by step.
    TiedFalling,
    /// Rises by semitones.
    ChromaticUp,
    /// Falls by semitones.
    ChromaticDown,
}

impl BassMotion {
    /// All motions.
    pub const ALL: [BassMotion; 13] = [
        BassMotion::StepsUp,
        BassMotion::StepsDown,
        BassMotion::ThirdsDownSecondsUp,
        BassMotion::FourthsDownSecondsUp,
        BassMotion::FourthsUpFifthsDown,
        BassMotion::FifthsUpFourthsDown,
        BassMotion::ThirdsUpSecondsDown,
        BassMotion::ThirdsDownFourthsUp,
        BassMotion::ThirdsDown,
        BassMotion::RepeatedRising,
        BassMotion::TiedFalling,
        BassMotion::ChromaticUp,
        BassMotion::ChromaticDown,
    ];

    /// The letters moved, in turn, over and over.
    pub const fn letters(self) -> &'static [i32] {
        match self {
            BassMotion::StepsUp | BassMotion::ChromaticUp => &[1],
            BassMotion::StepsDown | BassMotion::ChromaticDown => &[-1],
            BassMotion::ThirdsDownSecondsUp => &[-2, 1],
            BassMotion::FourthsDownSecondsUp => &[-3, 1],
            BassMotion::FourthsUpFifthsDown => &[3, -4],
            BassMotion::FifthsUpFourthsDown => &[4, -3],
            BassMotion::ThirdsUpSecondsDown => &[2, -1],
            BassMotion::ThirdsDownFourthsUp => &[-2, 3],
            BassMotion::ThirdsDown => &[-2],
            BassMotion::RepeatedRising => &[0, 1],
            BassMotion::TiedFalling => &[0, -1],
        }
    }
}
