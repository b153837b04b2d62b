//! Teaching without a browser: a set in the making, the work on one, answers
//! looked at, a class side by side; playing along and practising.

mod class;
mod draft;
mod play;
mod practice;
mod review;
#[cfg(test)]
mod tests;
mod veil;
mod work;

pub use class::{Against, Class};
pub use draft::{Draft, Form, MOST_EXERCISES};
pub use play::Play;
pub use practice::{Drill, Ear, EarKind, KeysRound, Practice, Stand};
pub use review::{Beside, Reader, Review};
pub use veil::Veil;
pub use work::Work;

/// What lies on the desk.
#[derive(Default)]
pub enum Desk {
    /// The person's own sketch, and nothing else.
    #[default]
    Own,
    /// Exercises to be done.
    Work(Box<Work>),
    /// Answers to be looked at.
    Review(Box<Review>),
    /// Something to be practised.
    Practice(Box<Practice>),
}

impl Desk {
    /// The work, if there is some.
    pub fn work(&mut self) -> Option<&mut Work> {
        match self {
            Desk::Work(work) => Some(work),
            Desk::Own | Desk::Review(_) | Desk::Practice(_) => None,
        }
    }

    /// The answers looked at, if there are some.
    pub fn review(&mut self) -> Option<&mut Review> {
        match self {
            Desk::Review(review) => Some(review),
            Desk::Own | Desk::Work(_) | Desk::Practice(_) => None,
        }
    }

    /// What is practised, if anything.
    pub fn practice(&mut self) -> Option<&mut Practice> {
        match self {
            Desk::Practice(practice) => Some(practice),
            Desk::Own | Desk::Work(_) | Desk::Review(_) => None,
        }
    }
}
