//! Figures and modes as MusicXML writes them.

use super::super::part::Key;
use crate::figures::{Accidental, Sign, Stage};
use crate::pitch::{Mode, PitchClass, Tonality};

/// More figures than stand over one note.
const MAX_SIGNS: usize = 12;

/// A figured-bass element so far.
#[derive(Debug, Default)]
pub(super) struct FigureDraft {
    pub(super) duration: f64,
    rows: Vec<Row>,
}

/// One figure from the top down.
#[derive(Debug, Default)]
struct Row {
    number: Option<u8>,
    accidental: Option<Accidental>,
    extended: bool,
}

impl FigureDraft {
    pub(super) fn open(&mut self) {
        if self.rows.len() < MAX_SIGNS {
            self.rows.push(Row::default());
        }
    }

    pub(super) fn extend(&mut self) {
        if let Some(row) = self.rows.last_mut() {
            row.extended = true;
        }
    }

    pub(super) fn lasts(&mut self, content: &str) {
        self.duration = content.parse().ok().filter(|it: &f64| it.is_finite()).unwrap_or(0.0);
    }

    pub(super) fn leaf(&mut self, name: &str, content: &str) {
        let Some(row) = self.rows.last_mut() else { return };
        match name {
            "figure-number" => row.number = content.parse().ok(),
            "prefix" | "suffix" => row.accidental = accidental(content).or(row.accidental),
            _ => {}
        }
    }

    /// The figures, if any are such as are known here. A figure that is only drawn
    /// on is a dash, and a nought is the bass alone.
    pub(super) fn stage(self) -> Option<Stage> {
        let number = |row: &Row| match (row.number, row.accidental) {
            (Some(number), _) => Some(number),
            (None, Some(_)) => Some(3),
            (None, None) => None,
        };
        if self.rows.iter().any(|row| row.number == Some(0)) {
            return Some(Stage::TastoSolo);
        }
        let signs: Vec<Sign> = self
            .rows
            .iter()
            .filter_map(|row| Some(Sign { number: number(row)?, accidental: row.accidental }))
            .filter(|sign| (2..=9).contains(&sign.number))
            .collect();
        if !signs.is_empty() {
            return Some(Stage::Signs(signs));
        }
        self.rows.iter().any(|row| row.extended).then_some(Stage::Hold)
    }
}

fn accidental(name: &str) -> Option<Accidental> {
    Some(match name {
        "flat-flat" => Accidental::DoubleFlat,
        "flat" => Accidental::Flat,
        "natural" => Accidental::Natural,
        "sharp" => Accidental::Sharp,
        "double-sharp" | "sharp-sharp" => Accidental::DoubleSharp,
        "plus" | "slash" | "back-slash" | "vertical" | "cross" => Accidental::Raised,
        _ => return None,
    })
}

/// A direction that asks for the bass alone.
pub(super) fn is_tasto_solo(words: &str) -> bool {
    let words = words.to_lowercase();
    matches!(words.trim(), "t.s." | "t. s." | "tasto solo" | "tasto")
}

/// What a signature with a named mode says. The church modes are minor or major by
/// their third.
pub(super) fn mode(fifths: i32, name: &str) -> Key {
    let (above, mode) = match name.to_lowercase().as_str() {
        "major" | "ionian" => (0, Mode::Major),
        "minor" | "aeolian" => (3, Mode::Minor),
        "dorian" => (2, Mode::Minor),
        "phrygian" => (4, Mode::Minor),
        "lydian" => (-1, Mode::Major),
        "mixolydian" => (1, Mode::Major),
        _ => return Key::Signature(fifths),
    };
    Key::Stated(Tonality::new(PitchClass::from_fifths(fifths + above), mode))
}
