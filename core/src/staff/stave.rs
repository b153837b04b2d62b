//! The two staves and heights on them.

/// One of the two five-line staves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Stave {
    /// The upper, with a G clef.
    Treble,
    /// The lower, with an F clef.
    Bass,
}

impl Stave {
    /// Both, top down.
    pub const BOTH: [Stave; 2] = [Stave::Treble, Stave::Bass];

    /// Letters above C0 of the top line: F5 or A3.
    pub const fn top_line(self) -> i32 {
        match self {
            Stave::Treble => 38,
            Stave::Bass => 26,
        }
    }

    /// Letters above C0 of the bottom line: E4 or G2.
    pub const fn bottom_line(self) -> i32 {
        self.top_line() - 8
    }

    /// Staff spaces down from the top line to this many letters above C0;
    /// negative above the staff.
    pub fn down(self, diatonic: i32) -> f64 {
        f64::from(self.top_line() - diatonic) * 0.5
    }
}
