//! What a sheet should be like.

use crate::words::Lang;

/// A sheet of paper, upright.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Paper {
    /// ISO 216 A4.
    #[default]
    A4,
    /// North American Letter.
    Letter,
}

impl Paper {
    /// Width and height in millimetres.
    pub const fn size(self) -> (f64, f64) {
        match self {
            Paper::A4 => (210.0, 297.0),
            Paper::Letter => (215.9, 279.4),
        }
    }
}

/// Whether the figures are printed or left to the student.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Figures {
    /// Printed.
    #[default]
    Shown,
    /// Left out.
    Blank,
}

/// Whether what stands above the bass is printed or left to the student.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Soprano {
    /// Soprano, inner notes and signs are printed.
    #[default]
    Shown,
    /// The bass alone is printed, with room to write.
    Blank,
}

/// Whether pages with the finished piece follow.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum AnswerPages {
    /// The sheet alone.
    #[default]
    LeftOut,
    /// The finished piece on pages of its own, numbered on their own.
    Added,
}

/// What a page brings along.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum PageForm {
    /// The signs and styles it uses: a file of its own.
    #[default]
    File,
    /// Nothing: it stands in a page that has [`crate::staff::symbols`] and the styles.
    Inline,
}

/// All that can be chosen of a sheet.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct SheetWishes {
    /// The paper.
    pub paper: Paper,
    /// The title; the sketch's own where absent.
    pub title: Option<String>,
    /// What is to be done, printed under the title; may be empty.
    pub task: String,
    /// The figures.
    pub figures: Figures,
    /// What stands above the bass.
    pub soprano: Soprano,
    /// The answer.
    pub answer: AnswerPages,
    /// A text, mostly a link, for a QR code in the corner of the first page.
    pub qr: Option<String>,
    /// What each page brings along.
    pub form: PageForm,
    /// The language of what the sheet says besides.
    pub lang: Lang,
}
