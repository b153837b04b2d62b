//! Teaching: exercises, checking an answer, what a class handed in.
//!
//! A teacher makes an [`Exercise`] from any sketch with [`make`]; several in
//! order are a [`Set`]. A student's [`Answer`] grows from what is given;
//! [`check`] gives a [`Report`] with every finding at its place, and
//! `words::lesson` says it in sentences. A student hands in a [`HandIn`]; a
//! teacher gets a whole class as rows ([`table`]) and sends [`Comment`]s back.
//! All travel as links (`files`). The rules are those of the other rooms; this
//! room only says which of them are asked for.

mod answer;
mod ask;
mod check;
pub mod drill;
mod exercise;
mod gather;
mod hear;
mod in_tonality;
mod make;
mod report;
mod table;
mod tonal;

pub use answer::{Answer, Comment, Commented, Found, HandIn};
pub use ask::{Ask, Measure, MotionLimit, Naming};
pub use check::{check, check_model, closing_cadence};
pub use exercise::{
    Asked, Exercise, Feedback, Hears, Model, Opens, Part, Parts, Progress, Set, Speech, Telling,
    Told,
};
pub use gather::{Gather, Heard, KeyEvent, Target, Waiting};
pub use hear::outer_voices;
pub use in_tonality::in_tonality;
pub use make::{close_chords, freeze, make};
pub use report::{AskResult, Difference, Finding, FindingKind, Outcome, Report};
pub use table::{Cell, Row, SortBy, Status, csv, sort, table};
