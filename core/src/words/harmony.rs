//! Why a chord is there, in a sentence.

use super::Lang;
use crate::harmony::{Chord, Reason};

/// The chord's reason as one sentence.
pub fn reason(chord: &Chord, lang: Lang) -> String {
    match (lang, &chord.reason) {
        (Lang::English, Reason::Triad { .. }) => {
            format!("A plain chord on the {} of {}.", chord.bass.class(), chord.tonality)
        }
    }
}
