//! A moment: one chord as the outer voices hear it.

use crate::figures::Stage;
use crate::frame::OuterPair;
use crate::harmony::{Chord, Duty};
use crate::pitch::{Interval, Pitch, PitchClass};

/// One chord with a soprano over it, as the laws see it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Moment<'a> {
    /// Bass and soprano.
    pub(crate) pair: OuterPair,
    /// What the soprano owes; `None` where it is no tone of the chord.
    pub(crate) duty: Option<Duty>,
    /// What the bass owes.
    pub(crate) bass_duty: Duty,
    /// The chord.
    pub(crate) chord: &'a Chord,
    /// Whether the soprano rests (*tasto solo*).
    pub(crate) rests: bool,
}

impl<'a> Moment<'a> {
    /// The moment of this soprano over this chord.
    pub(crate) fn new(chord: &'a Chord, soprano: Pitch) -> Moment<'a> {
        let duty_of = |class: PitchClass| {
            chord.tones.iter().find(|tone| tone.class == class).map(|tone| tone.duty)
        };
        Moment {
            pair: OuterPair { bass: chord.bass, soprano },
            duty: duty_of(soprano.class()),
            bass_duty: duty_of(chord.bass.class()).unwrap_or(Duty::Free),
            chord,
            rests: rests(chord),
        }
    }

    /// The soprano's move from here.
    pub(super) fn soprano_to(&self, next: &Moment) -> Interval {
        next.pair.soprano - self.pair.soprano
    }

    /// The bass's move from here.
    pub(super) fn bass_to(&self, next: &Moment) -> Interval {
        next.pair.bass - self.pair.bass
    }

    /// Whether a class is still here with the same duty.
    pub(super) fn keeps(&self, class: PitchClass, duty: Duty) -> bool {
        self.chord.tones.iter().any(|tone| tone.class == class && tone.duty == duty)
    }
}

/// Whether the soprano rests over this chord: the bass plays alone.
pub(crate) fn rests(chord: &Chord) -> bool {
    chord.figures == Stage::TastoSolo || chord.tones.iter().all(|tone| tone.number == 1)
}

/// Whether either voice rests, so that there is no move between the two.
pub(super) fn apart(from: &Moment, to: &Moment) -> bool {
    from.rests || to.rests
}
