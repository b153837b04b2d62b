//! What the hands could not honour, in sentences.

use super::Lang;
use crate::hands::{HandRemark, HandTrouble};

/// The remark as one sentence, chords counted from 1.
pub fn hand_remark(remark: &HandRemark, lang: Lang) -> String {
    let what = match (lang, &remark.kind) {
        (Lang::English, HandTrouble::BassOffKeyboard) => "the bass lies outside your keyboard",
        (Lang::English, HandTrouble::SopranoOffKeyboard) => {
            "the soprano lies outside your keyboard"
        }
        (Lang::English, HandTrouble::Incomplete) => "no finger is left for a note of the chord",
    };
    format!("chord {}: {what}", remark.chord + 1)
}
