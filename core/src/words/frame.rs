//! The rules of the outer voices in words: names, advice, faults in sentences.

use super::Lang;
use crate::frame::{Fault, InnerParallel, Motions, OuterPair, Perfect, PinConflict, Rule};

/// The fault as one sentence, chords counted from 1:
/// "consecutive fifths between outer voices, chords 4–5: A–E to B–F♯".
pub fn fault(fault: &Fault, lang: Lang) -> String {
    let name = rule_name(fault.rule, lang);
    let pair =
        |pair: crate::frame::OuterPair| format!("{}–{}", pair.bass.class(), pair.soprano.class());
    if fault.from == fault.to {
        format!("{name}, chord {}: {}", fault.from + 1, pair(fault.first))
    } else {
        let (from, to) = (fault.from + 1, fault.to + 1);
        format!("{name}, chords {from}–{to}: {} to {}", pair(fault.first), pair(fault.last))
    }
}

fn pair(pair: OuterPair) -> String {
    format!("{}–{}", pair.bass.class(), pair.soprano.class())
}

/// Two inner voices in parallels as one phrase, chords counted from 1; information,
/// not a fault.
pub fn inner_parallel(parallel: &InnerParallel, lang: Lang) -> String {
    let name = match (lang, parallel.kind) {
        (_, Perfect::Fifth) => "fifths in the inner voices",
        (_, Perfect::Octave) => "octaves in the inner voices",
    };
    let (lower, upper) = (parallel.lower, parallel.upper);
    let before = pair(OuterPair { bass: lower.0, soprano: upper.0 });
    let after = pair(OuterPair { bass: lower.1, soprano: upper.1 });
    format!("{name}, chords {}–{}: {before} to {after}", parallel.from + 1, parallel.from + 2)
}

/// The balance of motions as one sentence.
pub fn motion_summary(motions: &Motions, lang: Lang) -> String {
    let _ = lang;
    let kinds = [
        (motions.contrary, "contrary"),
        (motions.tenths, "in tenths"),
        (motions.sixths, "in sixths"),
        (motions.other_parallel, "parallel otherwise"),
        (motions.oblique, "oblique"),
        (motions.similar, "similar"),
    ];
    let said = kinds.iter().filter(|(count, _)| *count > 0);
    let said: Vec<String> = said.map(|(count, name)| format!("{count} {name}")).collect();
    if said.is_empty() {
        return "The outer voices do not move.".into();
    }
    let safe = motions.similar + motions.other_parallel == 0;
    let verdict = if safe { " No move can make consecutive fifths or octaves." } else { "" };
    format!("Moves: {}.{verdict}", said.join(", "))
}

/// The quarrel as one sentence, chords counted from 1.
pub fn pin_conflict(conflict: &PinConflict, lang: Lang) -> String {
    let free = conflict.free + 1;
    match (lang, conflict.chords.as_slice()) {
        (_, [_] | []) => format!(
            "No clean line goes through the fixed soprano note over chord {free}; freeing it mends it."
        ),
        (_, [first, .., last]) => {
            let (first, last) = (first + 1, last + 1);
            format!(
                "The fixed soprano notes over chords {first} to {last} leave no clean line between \
                 them; freeing the one over chord {free} mends it."
            )
        }
    }
}

/// The rule's name in the trade's words, without a capital or a full stop.
pub fn rule_name(rule: Rule, lang: Lang) -> &'static str {
    match lang {
        _ => match rule {
            Rule::ConsecutiveOctaves => "consecutive octaves between outer voices",
            Rule::ConsecutiveFifths => "consecutive fifths between outer voices",
            Rule::ContraryOctaves => "consecutive octaves by contrary motion",
            Rule::ContraryFifths => "consecutive fifths by contrary motion",
            Rule::DiminishedToPerfect => "diminished fifth to perfect fifth",
            Rule::HiddenOctaves => "hidden octaves with a leaping soprano",
            Rule::HiddenFifths => "hidden fifths with a leaping soprano",
            Rule::MaskedConsecutives => "consecutives with only an ornament between",
            Rule::UnrisenLeadingNote => "leading note in the soprano does not rise",
            Rule::UnfallenSeventh => "dissonance in the soprano does not fall",
            Rule::UnpreparedSuspension => "unprepared suspension in the soprano",
            Rule::UnresolvedSuspension => "unresolved suspension in the soprano",
            Rule::BassDuty => "leading note or dissonance in the bass goes astray",
            Rule::DoubledDuty => "leading note or dissonance doubled by the outer voices",
            Rule::AugmentedStep => "augmented step in the soprano",
            Rule::TritoneLeap => "tritone leap in the soprano",
            Rule::DiminishedLeap => "diminished leap that does not turn back",
            Rule::SeventhLeap => "leap of a seventh in the soprano",
            Rule::WideLeap => "leap past the octave in the soprano",
            Rule::LeapsTogether => "outer voices leap together",
            Rule::VoiceCrossing => "soprano below the bass",
            Rule::VoiceOverlap => "outer voices overlap",
            Rule::CrossRelation => "cross relation between outer voices",
            Rule::OutsideCompass => "soprano outside its compass",
            Rule::ForeignNote => "soprano note foreign to its chord",
            Rule::SameNote => "soprano stays on one note",
            Rule::Circling => "soprano circles between two notes",
        },
    }
}

/// How to mend a breach of the rule, as one sentence.
pub fn rule_advice(rule: Rule, lang: Lang) -> &'static str {
    match lang {
        _ => match rule {
            Rule::ConsecutiveOctaves | Rule::ConsecutiveFifths => {
                "Let the soprano move against the bass, or take the tenth."
            }
            Rule::ContraryOctaves | Rule::ContraryFifths => {
                "Take a third or a sixth for one of the two chords."
            }
            Rule::DiminishedToPerfect => {
                "Let the diminished fifth close in to a third, its upper note falling."
            }
            Rule::HiddenOctaves | Rule::HiddenFifths => {
                "Bring the soprano in by step, or against the bass."
            }
            Rule::MaskedConsecutives => {
                "Treat the ornament as absent and choose another soprano note for the next chord."
            }
            Rule::UnrisenLeadingNote => {
                "Let the soprano rise a step, or give this note to an inner voice."
            }
            Rule::UnfallenSeventh => {
                "Let the soprano fall a step, or give this note to an inner voice."
            }
            Rule::UnpreparedSuspension => "Hold the same note over from the chord before.",
            Rule::UnresolvedSuspension => "Let the soprano fall a step in the next chord.",
            Rule::BassDuty => {
                "Move the bass by step where it wants to go, or give it a plainer chord."
            }
            Rule::DoubledDuty => "Put another note of the chord on top.",
            Rule::AugmentedStep => "Go the other way round, or use the other form of the scale.",
            Rule::TritoneLeap => {
                "Fill the leap, or leap the other way by a diminished fifth and turn back."
            }
            Rule::DiminishedLeap => "Follow the leap with a step back inside it.",
            Rule::SeventhLeap => "Take the step the other way, or an octave.",
            Rule::WideLeap => "Bring the soprano nearer in the chord before or after.",
            Rule::LeapsTogether => "Let one voice stay or move by step.",
            Rule::VoiceCrossing => "Raise the soprano by an octave.",
            Rule::VoiceOverlap => {
                "Keep the soprano above where the bass has just been and is going."
            }
            Rule::CrossRelation => "Let one voice make the chromatic step itself.",
            Rule::OutsideCompass => {
                "Choose a lower or higher octave, or widen the soprano's compass."
            }
            Rule::ForeignNote => {
                "Move the note to one of the chord's, or change the figures so that it belongs."
            }
            Rule::SameNote => "Let the soprano move on while the bass moves.",
            Rule::Circling => "Let the line rise or fall to somewhere.",
        },
    }
}
