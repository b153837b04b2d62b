//! Figured-bass signs: what a player writes over or under a bass note.
//!
//! A bass note carries one or more [`Stage`]s (4-3 is two), each a set of
//! [`Sign`]s. Reading, expanding and printing them lives here; which figures a
//! bare note should have is decided in `harmony`.

mod expand;
mod heard;
mod print;
mod read;
mod rows;
mod sign;
mod table;

pub use expand::{
    Expansion, FigureRemark, FiguredTone, accidental_of, class_of, expand, expand_all,
};
pub use heard::name_chord;
pub use print::{abbreviated, print, print_stage};
pub use read::{FigureError, FigureTrouble, read_figures};
pub use rows::{Row, glyphs};
pub use sign::{Accidental, Figures, Sign, Stage};
pub(crate) use table::played as implied;
