//! Drills: one bass through all keys, what to practise today, and what the ear
//! tells.
//!
//! Every answer is read off the rooms that make the music (the octave rule's
//! table, the motions, the reading of the very notes that are shown or heard), so
//! a drill can never teach what the program does not do.

mod boxes;
mod ear;
mod item;
mod keys;
mod question;

pub use boxes::{Card, Day, Deck, Grade};
pub use ear::{EarAnswer, EarQuestion, ear_cadence, ear_degree, ear_motion};
pub use item::Item;
pub use keys::{KeyOrder, all_keys, through_keys};
pub use question::{Question, question};
