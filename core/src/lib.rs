//! Tastata's music: from a plain bass to a rolled, unmeasured prelude.
//!
//! A [`sketch::Sketch`] is all that a person decides; [`reading::read`] derives
//! everything else from it, stage by stage, each room below reading only the
//! rooms above it. Nothing here knows a browser, a clock or a random source:
//! the same sketch gives the same reading on every machine.

mod chance;

pub mod bass;
pub mod figures;
pub mod files;
pub mod frame;
pub mod hands;
pub mod harmony;
pub mod lesson;
pub mod order;
pub mod pitch;
pub mod prelude;
pub mod reading;
pub mod roll;
pub mod sheet;
pub mod sketch;
pub mod sound;
pub mod staff;
pub mod words;
