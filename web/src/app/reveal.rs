//! How much of the piece a class sees: the bass first, the rest step by step.

/// What is shown when projecting, each step with all before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Reveal {
    /// The bass alone.
    Bass,
    /// And its figures.
    Figures,
    /// And the soprano.
    Soprano,
    /// And the handfuls.
    Handfuls,
    /// And how they are rolled.
    Roll,
}

impl Reveal {
    /// All steps, in order.
    pub const ALL: [Reveal; 5] =
        [Reveal::Bass, Reveal::Figures, Reveal::Soprano, Reveal::Handfuls, Reveal::Roll];

    /// The step after this, or this at the end.
    pub fn next(self) -> Reveal {
        Reveal::ALL.into_iter().find(|&it| it > self).unwrap_or(self)
    }

    /// The step before this, or this at the start.
    pub fn back(self) -> Reveal {
        Reveal::ALL.into_iter().rev().find(|&it| it < self).unwrap_or(self)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stepping_stops_at_both_ends() {
        assert_eq!(Reveal::Bass.back(), Reveal::Bass);
        assert_eq!(Reveal::Bass.next(), Reveal::Figures);
        assert_eq!(Reveal::Roll.next(), Reveal::Roll);
        assert_eq!(Reveal::Roll.back(), Reveal::Handfuls);
    }
}
