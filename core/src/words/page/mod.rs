//! The texts of the page: those that stand in it, and those it says on occasion.

pub mod said;
mod texts;

pub use texts::page_texts;
