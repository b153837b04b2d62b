//! What a check found, and how to mend it.

use super::{cadence, count, figures, position};
use crate::frame::Motion;
use crate::hands::{Hand, HandRemark};
use crate::lesson::{Finding, FindingKind, Found, Part};
use crate::words::{Lang, fault, hand_remark, harmony_remark, rule_advice, rule_name};

/// The finding as one sentence with its place, chords and notes counted from 1.
pub fn finding(finding: &Finding, lang: Lang) -> String {
    let said = match lang {
        _ => english(finding, lang),
    };
    let mut letters = said.chars();
    let first = letters.next().map(|c| c.to_uppercase().to_string()).unwrap_or_default();
    let stop = if said.ends_with('.') { "" } else { "." };
    format!("{first}{}{stop}", letters.as_str())
}

fn english(finding: &Finding, lang: Lang) -> String {
    let at = match finding.chords {
        Some((from, to)) if from == to => format!("chord {}", from + 1),
        Some((from, to)) => format!("chords {}–{}", from + 1, to + 1),
        None => "the piece".to_string(),
    };
    match &finding.kind {
        FindingKind::Outer(broken) => fault(broken, lang),
        FindingKind::Hand(remark) => hand_remark(remark, lang),
        FindingKind::Figures(remark) => harmony_remark(remark, lang),
        FindingKind::GivenChanged { part, note } => {
            let part = match part {
                Part::Bass => "bass note",
                Part::Figures => "figure",
                Part::Soprano => "soprano note",
                Part::Handfuls => "handful",
                Part::Roll => "roll",
            };
            format!("note {}: the given {part} was changed", note + 1)
        }
        FindingKind::NoFigures { note } => format!("note {} has no figures yet", note + 1),
        FindingKind::WrongChord { note, stage: _, has, wanted } => format!(
            "note {}: {} does not belong here; {} does",
            note + 1,
            figures(has),
            figures(wanted)
        ),
        FindingKind::WrongStages { note, has, wanted } => format!(
            "from note {}: {}, where the cadence or figure wants {wanted}",
            note + 1,
            count(*has, "chord", "chords"),
        ),
        FindingKind::NoSoprano => format!("{at}: no soprano note of yours yet"),
        FindingKind::WrongPosition { wanted } => {
            format!("the soprano does not start in {}", position(*wanted))
        }
        FindingKind::Motion(motion) => {
            format!("{at}: {}, where only contrary motion and tenths are allowed", moves(*motion))
        }
        FindingKind::NoHandful => format!("{at}: no handful of yours yet"),
        FindingKind::ThinHand { hand, has, wanted } => format!(
            "{at}: the {} hand has {} of the {wanted} asked for",
            hand_name(*hand),
            count(*has, "note", "notes")
        ),
        FindingKind::FewAcciaccaturas { has, wanted } => format!(
            "there {} of the {wanted} asked for",
            match has {
                0 => "are no acciaccaturas".to_string(),
                1 => "is one acciaccatura".to_string(),
                _ => format!("are {has} acciaccaturas"),
            }
        ),
        FindingKind::KeyMissing(key) => format!("nothing was played in {key} yet"),
        FindingKind::KeyBass { tonality, note, has, wanted } => {
            let place = format!("in {tonality}, note {}", note + 1);
            match (has, wanted) {
                (Some(has), Some(wanted)) => {
                    format!("{place}: {has} in the bass instead of {wanted}")
                }
                (None, Some(wanted)) => format!("{place}: the bass stops before {wanted}"),
                (Some(has), None) => format!("{place}: the bass goes on to {has} past the end"),
                (None, None) => place,
            }
        }
        FindingKind::KeyUnplayed { tonality, chord } => {
            format!("in {tonality}, chord {} was not played", chord + 1)
        }
        FindingKind::KeyChord { tonality, chord, trouble } => {
            let remark = HandRemark { chord: *chord, kind: trouble.clone() };
            format!("in {tonality}, {}", hand_remark(&remark, lang))
        }
        FindingKind::KeyOuter { tonality, fault: broken } => {
            format!("in {tonality}: {}", fault(broken, lang))
        }
        FindingKind::NoCadence { wanted, has } => match has {
            Some(has) => {
                format!("the phrase ends with {}, not with {}", cadence(*has), cadence(*wanted))
            }
            None => format!("the phrase does not end with {} yet", cadence(*wanted)),
        },
        FindingKind::Missed(broken) => format!("not found: {}", fault(broken, lang)),
        FindingKind::Misnamed { found, fault: broken } => match found.rule {
            Some(rule) => {
                format!(
                    "{at}: there is a fault, but not “{}”: {}",
                    rule_name(rule, lang),
                    fault(broken, lang)
                )
            }
            None => {
                format!("{at}: there is a fault, but it was not named: {}", fault(broken, lang))
            }
        },
        FindingKind::NoFaultThere(Found { chord, rule }) => match rule {
            Some(rule) => format!("chord {}: no “{}” there", chord + 1, rule_name(*rule, lang)),
            None => format!("chord {}: no fault there", chord + 1),
        },
    }
}

fn moves(motion: Motion) -> &'static str {
    match motion {
        Motion::Contrary => "contrary motion",
        Motion::Oblique => "one voice stays while the other moves",
        Motion::Similar => "similar motion",
        Motion::Parallel => "parallel motion, not in tenths",
        Motion::Still => "neither voice moves",
    }
}

fn hand_name(hand: Hand) -> &'static str {
    match hand {
        Hand::Left => "left",
        Hand::Right => "right",
    }
}

/// What to do about it, as one sentence.
pub fn finding_advice(finding: &Finding, lang: Lang) -> String {
    let _ = lang;
    let said = match &finding.kind {
        FindingKind::Outer(broken)
        | FindingKind::KeyOuter { tonality: _, fault: broken }
        | FindingKind::Missed(broken)
        | FindingKind::Misnamed { found: _, fault: broken } => rule_advice(broken.rule, lang),
        FindingKind::Hand(_) => {
            "Give a note to the other hand, move one by an octave, or leave a doubling out."
        }
        FindingKind::Figures(_) => "Write the figures so that they can be played in one way only.",
        FindingKind::GivenChanged { .. } => "Put it back as it was given; only the rest is yours.",
        FindingKind::NoFigures { .. } => {
            "Look where the bass goes next and figure the note; write 5/3 for the plain chord."
        }
        FindingKind::WrongChord { .. } => {
            "Look at the degree and at where the bass goes next: by step the octave rule tells, \
             by leap the plain chord of the degree."
        }
        FindingKind::WrongStages { .. } => {
            "Count the sonorities: one for a plain note or a simple cadence, two for a compound, \
             four for a double."
        }
        FindingKind::NoSoprano => "Put a note of the chord on top.",
        FindingKind::WrongPosition { .. } => "Start with another note of the first chord on top.",
        FindingKind::Motion(_) => "Turn the soprano against the bass, or take the tenth above it.",
        FindingKind::NoHandful => "Share the notes of the chord between your hands.",
        FindingKind::ThinHand { .. } => {
            "Double a note of the chord that is free to be doubled, within your span."
        }
        FindingKind::FewAcciaccaturas { .. } => {
            "Add spice to chords that have a third or fourth to fill, the minor ones and the \
             dominant first."
        }
        FindingKind::KeyMissing(_) => "Choose the key and play the bass again from its tonic.",
        FindingKind::KeyBass { .. } => "Count the degrees from the new tonic.",
        FindingKind::KeyUnplayed { .. } => "Play this chord with both hands.",
        FindingKind::KeyChord { .. } => "Look at the figures, and at the accidentals of the key.",
        FindingKind::NoCadence { .. } => {
            "Bring the bass to the 5th and home to the tonic, and give the 5th as many \
             sonorities as the cadence has."
        }
        FindingKind::NoFaultThere(_) => {
            "Listen to the two voices there alone, slowly: each moves as it may."
        }
    };
    said.to_string()
}
