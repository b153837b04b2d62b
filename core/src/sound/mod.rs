//! The instrument: plucked strings in an old tuning, computed rather than sampled.

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

/// A tuning by name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Temperament {
    /// Equal temperament.
    Equal,
    /// Quarter-comma meantone.
    QuarterComma,
    /// Sixth-comma meantone (syntonic).
    SixthComma,
    /// Werckmeister III, 1691.
    Werckmeister3,
    /// Kirnberger III, 1779.
    Kirnberger3,
    /// Vallotti.
    Vallotti,
    /// Young, second of 1799/1800.
    Young2,
}
