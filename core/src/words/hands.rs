//! What the hands could not honour, in sentences.

use super::Lang;
use crate::hands::{Hand, HandRemark, HandTrouble, Hardship, HardshipKind, Strain};

/// The remark as one sentence, chords counted from 1.
pub fn hand_remark(remark: &HandRemark, lang: Lang) -> String {
    let what = match lang {
        _ => english(&remark.kind),
    };
    format!("chord {}: {what}", remark.chord + 1)
}

/// The caution about wide handfuls, in a few sentences.
pub fn strain(strain: &Strain, lang: Lang) -> String {
    match lang {
        _ => format!(
            "{} of {} handfuls open a hand wider than an octave. Roll them rather than hold them, \
             keep the wrist loose, and rest often. If anything hurts, stop, choose a smaller span, \
             and ask your teacher or a clinician.",
            strain.wide, strain.handfuls
        ),
    }
}

/// What two hands cannot do, as one sentence, chords counted from 1.
pub fn hardship(hardship: &Hardship, lang: Lang) -> String {
    let _ = lang;
    let hand = hand_name(hardship.hand);
    let what = match hardship.kind {
        HardshipKind::TooManyKeys { count } => {
            format!("the {hand} hand holds {count} keys at once")
        }
        HardshipKind::TooWide { needs, limit } => format!(
            "the {hand} hand holds {} at once, past your {}",
            interval(needs.clamp(0, 255) as u8),
            bare_interval(limit.clamp(0, 255) as u8)
        ),
        HardshipKind::HandsCross => "the hands cross".into(),
        HardshipKind::AlreadyDown { key: _ } => {
            format!("the {hand} hand strikes a key that is still down")
        }
        HardshipKind::TooFast { needs, has } => format!(
            "the {hand} hand must shift in {} ms and needs {}",
            has.0 / 1000,
            needs.0.div_ceil(1000)
        ),
    };
    format!("chord {}: {what}", hardship.chord + 1)
}

fn english(trouble: &HandTrouble) -> String {
    match trouble {
        HandTrouble::BassOffKeyboard => "your keyboard does not have the bass note".into(),
        HandTrouble::SopranoOffKeyboard => "your keyboard does not have the soprano note".into(),
        HandTrouble::InnerOffKeyboard { pitch } => format!("your keyboard does not have {pitch}"),
        HandTrouble::HandsCollide => {
            "the soprano leaves no room above the bass, so the hands are in each other's way".into()
        }
        HandTrouble::Incomplete { missing } => {
            format!("{missing} belongs to the chord and found no finger within your span")
        }
        HandTrouble::DoubledDuty { class } => {
            format!("{class} has its own way to go and is better not doubled")
        }
        HandTrouble::Foreign { pitch } => format!("{} is no note of the chord", pitch.class()),
        HandTrouble::TooWide { hand, needs, limit } => format!(
            "the {} hand must reach {}, past your {}; roll it without stretching, or leave a note out",
            hand_name(*hand),
            interval(*needs),
            bare_interval(*limit)
        ),
        HandTrouble::TooMany { hand, count } => {
            format!("{count} notes are too many for the {} hand's five fingers", hand_name(*hand))
        }
        HandTrouble::LeftOut { count: 1 } => {
            "one of your own notes no longer fits between bass and soprano and was left out".into()
        }
        HandTrouble::LeftOut { count } => format!(
            "{count} of your own notes no longer fit between bass and soprano and were left out"
        ),
    }
}

fn hand_name(hand: Hand) -> &'static str {
    match hand {
        Hand::Left => "left",
        Hand::Right => "right",
    }
}

/// The interval a hand spans, with its article, from half white keys, rounded up.
fn interval(half_keys: u8) -> String {
    let name = bare_interval(half_keys);
    let article = if name.starts_with(['o', 'e']) { "an" } else { "a" };
    format!("{article} {name}")
}

/// The interval without an article.
fn bare_interval(half_keys: u8) -> String {
    const NAMES: [&str; 15] = [
        "unison",
        "second",
        "third",
        "fourth",
        "fifth",
        "sixth",
        "seventh",
        "octave",
        "ninth",
        "tenth",
        "eleventh",
        "twelfth",
        "thirteenth",
        "fourteenth",
        "double octave",
    ];
    let steps = usize::from(half_keys).div_ceil(2);
    NAMES.get(steps).map_or_else(|| format!("reach of {} white keys", steps + 1), |&n| n.into())
}
