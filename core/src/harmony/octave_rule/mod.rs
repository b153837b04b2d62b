//! The octave rule: the chord of each degree of a bass that moves by step.
//!
//! The rows are data in `table`; here they are looked up. The chord depends on
//! where the bass goes next, not on where it came from: a degree left upward
//! takes the rising chord and one left downward the falling chord whatever
//! precedes it ("When the Rule of the Octave Does Not Apply", essaysonmusic.com,
//! after early 19th-century Neapolitan teaching).

mod table;

use crate::figures::{Figures, Stage, read_figures};
use crate::pitch::{Degree, Mode};

/// Which published version of the octave rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Version {
    /// Campion, *Traité d'accompagnement* (1716).
    #[default]
    Campion,
    /// Rameau, *Traité de l'harmonie* (1722).
    Rameau,
    /// Fenaroli, *Regole musicali* (1775).
    Fenaroli,
    /// Gasparini, *L'armonico pratico al cimbalo* (1708): plainer.
    Gasparini,
    /// Heinichen, *Der General-Bass in der Composition* (1728).
    Heinichen,
    /// As Campion, with the augmented sixth on the falling 6th of minor.
    AugmentedSixth,
    /// Not a rule but a habit: what the four-part chorales of J.S. Bach do, counted.
    Chorales,
    /// The same of madrigals about 1600: plain chords on whatever degree.
    Madrigals,
}

impl Version {
    /// All versions.
    pub const ALL: [Version; 8] = [
        Version::Campion,
        Version::Rameau,
        Version::Fenaroli,
        Version::Gasparini,
        Version::Heinichen,
        Version::AugmentedSixth,
        Version::Chorales,
        Version::Madrigals,
    ];

    /// Whether it is a habit, counted in pieces, and not a rule.
    pub fn is_counted(self) -> bool {
        self != self.rule()
    }

    /// The rule that stands in where a habit is asked for one.
    pub fn rule(self) -> Version {
        match self {
            Version::Chorales => Version::Campion,
            Version::Madrigals => Version::Gasparini,
            _ => self,
        }
    }
}

/// Which way a bass moves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Direction {
    /// Upward.
    Up,
    /// Downward.
    Down,
}

/// One cell of the rule.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OctaveCell {
    /// Whether the degree itself stands a semitone higher (6 and 7 rising in minor).
    pub raised: bool,
    /// Its figures under the signature of the tonality.
    pub stage: Stage,
}

/// The chord of a degree left upward or downward by step.
pub fn octave_rule(
    version: Version,
    mode: Mode,
    direction: Direction,
    degree: Degree,
) -> OctaveCell {
    let (raised, text) = cell(version, mode, direction, i32::from(degree.number()));
    let stage = read_figures(text).ok().and_then(|it: Figures| it.stages().first().cloned());
    OctaveCell { raised, stage: stage.unwrap_or(Stage::Signs(Vec::new())) }
}

/// The same as text within the scale: whether the degree is raised, and the figures.
pub(super) fn cell(
    version: Version,
    mode: Mode,
    direction: Direction,
    degree: i32,
) -> (bool, &'static str) {
    let version = version.rule();
    let row = table::TABLE
        .iter()
        .find(|row| (row.version, row.mode, row.direction) == (version, mode, direction));
    let place = match direction {
        Direction::Up => degree - 1,
        Direction::Down => 8 - degree,
    };
    let cell = usize::try_from(place).ok().and_then(|place| row?.cells.get(place).copied());
    let cell = cell.unwrap_or("5/3");
    let (raised, text) = match cell.strip_prefix('^') {
        Some(text) => (true, text),
        None => (false, cell),
    };
    let full = match text {
        "4/2" => "6/4/2",
        "4+/2" => "6/4+/2",
        _ => text,
    };
    (raised, full)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_version_has_each_row_once_and_every_cell_reads() {
        for version in Version::ALL.into_iter().filter(|it| !it.is_counted()) {
            for mode in [Mode::Major, Mode::Minor] {
                for direction in [Direction::Up, Direction::Down] {
                    let rows = table::TABLE.iter().filter(|row| {
                        (row.version, row.mode, row.direction) == (version, mode, direction)
                    });
                    let rows: Vec<_> = rows.collect();
                    assert_eq!(rows.len(), 1, "{version:?} {mode:?} {direction:?}");
                    for cell in rows[0].cells {
                        let text = cell.strip_prefix('^').unwrap_or(cell);
                        assert!(read_figures(text).is_ok(), "{cell}");
                    }
                }
            }
        }
    }
}
