//! The signs themselves.

/// How a figure is altered against the signature.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Accidental {
    /// A double flat.
    DoubleFlat,
    /// A flat.
    Flat,
    /// A natural.
    Natural,
    /// A sharp.
    Sharp,
    /// A double sharp.
    DoubleSharp,
    /// A stroke through the figure or a plus beside it: a semitone above what
    /// the signature gives.
    Raised,
}

/// One figure. A lone accidental is a sign with number 3 that is printed bare.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Sign {
    /// The interval above the bass, in the range [2, 9].
    pub number: u8,
    /// Its accidental, if any.
    pub accidental: Option<Accidental>,
}

/// The figures of one sonority, from the top down as printed.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Stage {
    /// Figures; an empty list is a bare note that means 5/3.
    Signs(Vec<Sign>),
    /// A dash: the upper notes stay while the bass moves.
    Hold,
    /// *Tasto solo*: the bass alone.
    TastoSolo,
}

/// All the figures of one bass note, in the order played.
///
/// Invariant: at least one stage.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Figures {
    stages: Vec<Stage>,
}

impl Figures {
    /// Figures of one or more stages; `None` for no stage at all.
    pub fn new(stages: Vec<Stage>) -> Option<Figures> {
        (!stages.is_empty()).then_some(Figures { stages })
    }

    /// The stages in the order played; never empty.
    pub fn stages(&self) -> &[Stage] {
        &self.stages
    }
}
