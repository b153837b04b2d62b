//! Figures as the staff sets them: rows from the top down.

use super::{Accidental, Stage};

/// One row of typeset figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Row {
    /// A digit with its accidental, if any; `Raised` is the stroke or plus.
    Digit {
        /// The figure, in the range [2, 9].
        digit: u8,
        /// Its accidental.
        accidental: Option<Accidental>,
    },
    /// An accidental alone: the third is altered.
    Lone(Accidental),
    /// A continuation line.
    Line,
    /// The words *t.s.*
    TastoSolo,
}

/// The rows of a sonority from the top down; none for a bare note.
pub fn glyphs(stage: &Stage) -> Vec<Row> {
    match stage {
        Stage::Hold => vec![Row::Line],
        Stage::TastoSolo => vec![Row::TastoSolo],
        Stage::Signs(signs) => signs
            .iter()
            .map(|sign| match (sign.number, sign.accidental) {
                (3, Some(accidental)) => Row::Lone(accidental),
                (digit, accidental) => Row::Digit { digit, accidental },
            })
            .collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::super::read_figures;
    use super::*;

    #[test]
    fn rows_stand_from_the_top_down() {
        let figures = read_figures("#/7-_").expect("figures");
        assert_eq!(
            glyphs(&figures.stages()[0]),
            [Row::Digit { digit: 7, accidental: None }, Row::Lone(Accidental::Sharp)]
        );
        assert_eq!(glyphs(&figures.stages()[1]), [Row::Line]);
    }
}
