//! The instrument: plucked strings in an old tuning, computed rather than sampled.
//!
//! Every string is a digital waveguide: a loop one period long that a plectrum's
//! or hammer's pulse runs round, losing a little at each turn. Strings sum on a
//! soundboard and sound in a small room. All transcendental functions come from `libm`, so
//! the samples are the same on every machine.

mod bank;
mod biquad;
mod body;
mod burst;
mod course;
mod ends;
mod limiter;
mod pipe;
mod renderer;
mod room;
mod string;
mod table;
mod temperament;
mod voicing;
mod wolf;

pub use renderer::{Renderer, one_key, strike};
pub use table::{TableTrouble, read_table};
pub use temperament::{Temperament, cents, hertz};
pub use wolf::{Consonance, Wolf, howls, wolves};

/// The instrument as wished.
#[derive(Clone, Debug, PartialEq)]
pub struct SoundWishes {
    /// Pitch of a′ (A4) in hertz, in the range [380, 480].
    pub a4: f64,
    /// How the twelve notes are tuned.
    pub temperament: Temperament,
    /// Which instrument.
    pub voice: Voice,
}

impl Default for SoundWishes {
    fn default() -> SoundWishes {
        SoundWishes { a4: 415.0, temperament: Temperament::QuarterComma, voice: Voice::Plucked8 }
    }
}

/// An instrument, or a register of one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Voice {
    /// Plucked strings at eight-foot pitch. Force makes no difference.
    #[default]
    Plucked8,
    /// Eight-foot strings with the four-foot an octave above.
    Plucked84,
    /// Eight-foot strings with the buff stop: soft leather against each string.
    Buff,
    /// Struck strings, as in an early piano; touch decides loudness.
    Struck,
    /// A soft organ, for hearing the lines.
    Organ,
}

impl Voice {
    /// All instruments, in the order they are offered.
    pub const ALL: [Voice; 5] =
        [Voice::Plucked8, Voice::Plucked84, Voice::Buff, Voice::Struck, Voice::Organ];

    /// Whether a harder touch sounds louder.
    pub const fn feels_force(self) -> bool {
        matches!(self, Voice::Struck)
    }

    /// Whether the ends of its strings behind the bridge are free to ring.
    const fn has_free_ends(self) -> bool {
        match self {
            Voice::Plucked8 | Voice::Plucked84 | Voice::Buff => true,
            // There cloth is woven between them.
            Voice::Struck | Voice::Organ => false,
        }
    }
}
