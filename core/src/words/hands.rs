//! What the hands could not honour, in sentences.

use super::Lang;
use crate::hands::{Hand, HandRemark, HandTrouble};

/// The remark as one sentence, chords counted from 1.
pub fn hand_remark(remark: &HandRemark, lang: Lang) -> String {
    let what = match lang {
        Lang::English => english(&remark.kind),
    };
    format!("chord {}: {what}", remark.chord + 1)
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
            interval(*limit)
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

/// The interval a hand spans, from half white keys, rounded up.
fn interval(half_keys: u8) -> String {
    const NAMES: [&str; 12] = [
        "unison", "second", "third", "fourth", "fifth", "sixth", "seventh", "octave", "ninth",
        "tenth", "eleventh", "twelfth",
    ];
    let steps = usize::from(half_keys).div_ceil(2);
    match NAMES.get(steps) {
        Some(&name) if matches!(name, "octave" | "eleventh") => format!("an {name}"),
        Some(name) => format!("a {name}"),
        None => format!("{} white keys", steps + 1),
    }
}
