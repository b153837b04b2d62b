//! Figured-bass signs: what a player writes over or under a bass note.
//!
//! A bass note carries one or more [`Stage`]s (4-3 is two), each a set of
//! [`Sign`]s. Reading, expanding and printing them lives here; which figures a
//! bare note should have is decided in `harmony`.

mod sign;

pub use sign::{Accidental, Figures, Sign, Stage};
