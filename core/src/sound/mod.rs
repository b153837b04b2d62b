//! The instrument: plucked strings in an old tuning, computed rather than sampled.
//!
//! Every string is a digital waveguide: a loop one period long that a plectrum's
//! pulse runs round, losing a little at each turn. Strings sum on a soundboard
//! and sound in a small room. All transcendental functions come from `libm`, so
//! the samples are the same on every machine.

mod biquad;
mod body;
mod burst;
mod limiter;
mod renderer;
mod room;
mod string;
mod temperament;
mod voicing;

pub use renderer::{Renderer, strike};
pub use temperament::{Temperament, cents, hertz};

/// The instrument as wished.
#[derive(Clone, Debug, PartialEq)]
pub struct SoundWishes {
    /// Pitch of a′ (A4) in hertz, in the range [380, 480].
    pub a4: f64,
    /// How the twelve notes are tuned.
    pub temperament: Temperament,
}

impl Default for SoundWishes {
    fn default() -> SoundWishes {
        SoundWishes { a4: 415.0, temperament: Temperament::QuarterComma }
    }
}
