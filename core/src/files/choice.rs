//! The numbers that stand for our enums in a link. A number once given is never
//! given to anything else.

use crate::figures::Accidental;
use crate::frame::{Position, Preference, Rule, Smoothness, Strictness};
use crate::hands::{LowKeys, Spacing};
use crate::harmony::Version;
use crate::pitch::Mode;
use crate::roll::Held;
use crate::sketch::{Hold, Weight};
use crate::sound::Voice;

/// An enum with a number for each of its variants.
pub(super) trait Choice: Copy + PartialEq {
    /// The variant's number.
    fn code(self) -> u64;
    /// The variant of a number; `None` if this program knows none.
    fn from_code(code: u64) -> Option<Self>;
}

macro_rules! choices {
    ($($kind:ident { $($variant:ident = $code:literal),+ $(,)? })+) => {$(
        impl Choice for $kind {
            fn code(self) -> u64 {
                match self { $($kind::$variant => $code),+ }
            }
            fn from_code(code: u64) -> Option<$kind> {
                Some(match code { $($code => $kind::$variant,)+ _ => return None })
            }
        }
    )+};
}
pub(super) use choices;

choices! {
    Mode { Major = 0, Minor = 1 }
    Weight { Unmarked = 0, Structural = 1, Passing = 2 }
    Hold { Pinned = 0, Resting = 1 }
    Position { Octave = 0, Third = 1, Fifth = 2 }
    Accidental { DoubleFlat = 0, Flat = 1, Natural = 2, Sharp = 3, DoubleSharp = 4, Raised = 5 }
    Voice { Plucked8 = 0, Plucked84 = 1, Buff = 2, Struck = 3, Organ = 4 }
    Version {
        Campion = 0,
        Rameau = 1,
        Fenaroli = 2,
        Gasparini = 3,
        Heinichen = 4,
        AugmentedSixth = 5,
        Chorales = 6,
        Madrigals = 7,
    }
    Preference { Contrary = 0, Tenths = 1 }
    Smoothness { Flowing = 0, Usual = 1, Bold = 2 }
    Strictness { Usual = 0, Off = 1, Caution = 2, Fault = 3 }
    Spacing { Even = 0, Wide = 1 }
    Held { Collected = 0, Kept = 1, LetGo = 2 }
    LowKeys { Chromatic = 0, ShortC = 1, ShortG = 2 }
    Rule {
        ConsecutiveOctaves = 0,
        ConsecutiveFifths = 1,
        ContraryOctaves = 2,
        ContraryFifths = 3,
        DiminishedToPerfect = 4,
        HiddenOctaves = 5,
        HiddenFifths = 6,
        MaskedConsecutives = 7,
        UnrisenLeadingNote = 8,
        UnfallenSeventh = 9,
        UnpreparedSuspension = 10,
        UnresolvedSuspension = 11,
        BassDuty = 12,
        DoubledDuty = 13,
        AugmentedStep = 14,
        TritoneLeap = 15,
        DiminishedLeap = 16,
        SeventhLeap = 17,
        WideLeap = 18,
        LeapsTogether = 19,
        VoiceCrossing = 20,
        VoiceOverlap = 21,
        CrossRelation = 22,
        OutsideCompass = 23,
        ForeignNote = 24,
        SameNote = 25,
        Circling = 26,
    }
}

/// Nothing is 0, and every number moves up by one.
impl<T: Choice> Choice for Option<T> {
    fn code(self) -> u64 {
        self.map_or(0, |choice| choice.code() + 1)
    }

    fn from_code(code: u64) -> Option<Option<T>> {
        match code {
            0 => Some(None),
            _ => T::from_code(code - 1).map(Some),
        }
    }
}
