//! The rulebook explained: why each rule is there, and who says so.
//!
//! The sources are cited from memory of the books unless the sentence says
//! otherwise; "common practice" has no single source.

use super::Lang;
use crate::frame::Rule;

/// Why the rule is there, as one sentence or two.
pub fn rule_explained(rule: Rule, lang: Lang) -> &'static str {
    match lang {
        _ => match rule {
            Rule::ConsecutiveOctaves => {
                "Two octaves or unisons running make one voice of two: the soprano only doubles \
                 the bass. Both voices must have moved, the same way."
            }
            Rule::ConsecutiveFifths => {
                "Two perfect fifths running tie the voices together and sound hollow. Both voices \
                 must have moved, the same way; a fifth and a twelfth count alike, a diminished \
                 fifth does not count."
            }
            Rule::ContraryOctaves => {
                "An octave followed by a unison or a fifteenth is still two octaves, only less \
                 plain because the voices move against each other."
            }
            Rule::ContraryFifths => {
                "A fifth followed by a twelfth is still two fifths, only less plain because the \
                 voices move against each other."
            }
            Rule::DiminishedToPerfect => {
                "A diminished fifth wants to close in to a third; going the same way into a \
                 perfect fifth it is left hanging. The reverse, perfect to diminished, is good."
            }
            Rule::HiddenOctaves => {
                "When both voices go the same way into an octave and the soprano leaps, the ear \
                 fills in the octaves between."
            }
            Rule::HiddenFifths => {
                "When both voices go the same way into a fifth and the soprano leaps, the ear \
                 fills in the fifths between."
            }
            Rule::MaskedConsecutives => {
                "A change over a held bass note is only an ornament: the ear joins the fifths or \
                 octaves on either side of it."
            }
            Rule::UnrisenLeadingNote => {
                "A leading note, an augmented fourth or sixth leans upward; on top, where all \
                 hear it, it must rise a step. It may wait as a note of the next chord, or sink \
                 a semitone in a chain of dominants."
            }
            Rule::UnfallenSeventh => {
                "A seventh or a diminished fifth leans downward; on top it must fall a step. It \
                 may wait as a note of the next chord, or rise where the bass takes the note it \
                 would fall to."
            }
            Rule::UnpreparedSuspension => {
                "A suspension is a note held over from the chord before; struck afresh it is \
                 merely harsh."
            }
            Rule::UnresolvedSuspension => "A suspension is a debt: it is paid by a step down.",
            Rule::BassDuty => {
                "A leading note or a dissonance in the bass wants its own step as much as one on \
                 top. A leading note may also walk on down the scale, or leap as a root in a \
                 sequence of fifths."
            }
            Rule::DoubledDuty => {
                "A note that has one way to go, sung by both outer voices, makes octaves of \
                 them or must break its word."
            }
            Rule::AugmentedStep => {
                "An augmented second or another augmented step is hard to sing and breaks the \
                 line in two."
            }
            Rule::TritoneLeap => "A leap of three whole tones is hard to hear and to sing.",
            Rule::DiminishedLeap => {
                "A diminished leap is expressive as long as it turns back at once by a step; \
                 otherwise it is left in the air."
            }
            Rule::SeventhLeap => "A leap of a seventh is a step in the wrong octave.",
            Rule::WideLeap => "A leap past the octave makes two voices out of one.",
            Rule::LeapsTogether => {
                "When both outer voices leap a fifth or more the same way, the whole chord \
                 lurches. An octave leap of the bass does not count."
            }
            Rule::VoiceCrossing => "The soprano is the upper voice and the bass the lower.",
            Rule::VoiceOverlap => {
                "When a voice goes past where the other has just been, the ear takes one for the \
                 other."
            }
            Rule::CrossRelation => {
                "A note and its chromatic neighbour in different voices contradict each other; in \
                 one voice they make a line."
            }
            Rule::OutsideCompass => "The note lies outside the compass you gave the soprano.",
            Rule::ForeignNote => {
                "You fixed a note that the chord does not contain. It stays, as a dissonance of \
                 your own."
            }
            Rule::SameNote => {
                "A soprano that stays on one note over five or more moving bass notes is no line."
            }
            Rule::Circling => {
                "A soprano that goes to and fro between two notes over five chords or more goes \
                 nowhere."
            }
        },
    }
}

/// Where the rule comes from.
pub fn rule_source(rule: Rule) -> &'static str {
    match rule {
        Rule::ConsecutiveOctaves | Rule::ConsecutiveFifths => {
            "Fux, Gradus ad Parnassum (1725), first rule of motion; for full playing the Roman \
             manuscript E.25, ch. 26."
        }
        Rule::HiddenOctaves | Rule::HiddenFifths => {
            "Fux, Gradus ad Parnassum (1725), third rule of motion; excused for a stepwise soprano \
             by common practice."
        }
        Rule::ContraryOctaves
        | Rule::ContraryFifths
        | Rule::MaskedConsecutives
        | Rule::DoubledDuty
        | Rule::VoiceCrossing
        | Rule::VoiceOverlap
        | Rule::CrossRelation
        | Rule::SameNote
        | Rule::Circling => "Common practice, no single source.",
        Rule::DiminishedToPerfect => {
            "C.P.E. Bach, Versuch II (1762); Heinichen, Der General-Bass (1728)."
        }
        Rule::UnrisenLeadingNote | Rule::UnfallenSeventh | Rule::BassDuty => {
            "C.P.E. Bach, Versuch II (1762)."
        }
        Rule::UnpreparedSuspension | Rule::UnresolvedSuspension => {
            "Fux, Gradus ad Parnassum (1725); Fenaroli, Regole musicali (1775)."
        }
        Rule::AugmentedStep => "Fux, Gradus ad Parnassum (1725); C.P.E. Bach, Versuch II (1762).",
        Rule::TritoneLeap | Rule::SeventhLeap | Rule::WideLeap => {
            "Fux, Gradus ad Parnassum (1725)."
        }
        Rule::DiminishedLeap => {
            "Kirnberger, Die Kunst des reinen Satzes (1771); C.P.E. Bach, Versuch II (1762)."
        }
        Rule::LeapsTogether => "Fux, Gradus ad Parnassum (1725); C.P.E. Bach, Versuch II (1762).",
        Rule::OutsideCompass | Rule::ForeignNote => "Your own wish.",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::{rule_advice, rule_name};

    #[test]
    fn names_have_no_full_stop_and_sentences_have_one() {
        for rule in Rule::ALL {
            let name = rule_name(rule, Lang::English);
            assert!(!name.ends_with('.') && name.starts_with(char::is_lowercase), "{name}");
            for text in [
                rule_explained(rule, Lang::English),
                rule_advice(rule, Lang::English),
                rule_source(rule),
            ] {
                assert!(text.ends_with('.') && text.starts_with(char::is_uppercase), "{text}");
            }
        }
    }

    #[test]
    fn names_are_told_apart() {
        for (i, rule) in Rule::ALL.into_iter().enumerate() {
            let others = &Rule::ALL[..i];
            assert!(
                others
                    .iter()
                    .all(|&o| rule_name(o, Lang::English) != rule_name(rule, Lang::English))
            );
        }
    }
}
