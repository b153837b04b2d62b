//! Spelled pitches, intervals, keyboard keys and tonalities.
//!
//! The spelled pitch is the truth and the keyboard key is derived: C♯ and D♭
//! are unequal here and meet only on a [`Key`]. Middle C is C4, key 60. The
//! word *key* always means a key of the keyboard; C major is a [`Tonality`].

mod class;
mod interval;
mod key;
mod spelled;
mod tonality;

pub use class::{PitchClass, Step};
pub use interval::Interval;
pub use key::Key;
pub use spelled::Pitch;
pub use tonality::{Degree, Mode, Tonality};
