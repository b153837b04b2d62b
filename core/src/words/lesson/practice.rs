//! Playing along and drills, in words.

use super::{cadence, count};
use crate::bass::BassMotion;
use crate::harmony::Direction;
use crate::lesson::Waiting;
use crate::lesson::drill::{EarAnswer, EarQuestion, Item, KeyOrder, Question};
use crate::pitch::{Degree, Key, Mode, Tonality};
use crate::words::Lang;
use crate::words::harmony::ordinal;

/// What a player is waited for, as one sentence; keys are named as `spelled` in.
pub fn waiting(waiting: &Waiting, spelled: Tonality, lang: Lang) -> String {
    let _ = lang;
    let name = |key: &Key| spelled.spell(*key).to_string();
    match waiting {
        Waiting::Rest => "Play the next chord, in your own time.".to_string(),
        Waiting::Done => "That was the last chord.".to_string(),
        Waiting::Rolling { missing, foreign, wrong_bass } => {
            let mut parts = Vec::new();
            if let Some(key) = wrong_bass {
                parts.push(format!("{} is lowest, and it is not the bass", name(key)));
            }
            if !foreign.is_empty() {
                let keys: Vec<String> = foreign.iter().map(name).collect();
                let verb = if keys.len() == 1 { "does" } else { "do" };
                parts.push(format!("{} {verb} not belong here", keys.join(" and ")));
            }
            if !missing.is_empty() {
                let tones: Vec<String> = missing.iter().map(ToString::to_string).collect();
                parts.push(format!("{} still missing", tones.join(" and ")));
            }
            if parts.is_empty() {
                return "Strike the bass to begin this chord.".to_string();
            }
            format!("{}.", parts.join("; "))
        }
    }
}

/// A drill's question as one or two sentences.
pub fn drill_question(question: &Question, lang: Lang) -> String {
    let _ = lang;
    let home = question.sketch.tonality.map_or(String::new(), |home| home.to_string());
    match question.item {
        Item::Octave { leaves, degree, .. } => {
            let way = match leaves {
                Direction::Up => "rises",
                Direction::Down => "falls",
            };
            format!("In {home} the {} {way} by step. Which chord does it take?", ordinal(degree))
        }
        Item::Motion { motion, .. } => {
            format!("In {home}, play the bass that {} and harmonise it.", motion_name(motion, lang))
        }
        Item::Cadence { cadence: kind, .. } => format!("In {home}, play {}.", cadence(kind)),
    }
}

/// What the ear is asked.
pub fn ear_prompt(question: &EarQuestion, lang: Lang) -> &'static str {
    let _ = lang;
    match question.choices.get(question.answer) {
        Some(EarAnswer::Motion(_)) => "How does the bass move?",
        Some(EarAnswer::Degree(_)) => "After the cadence: which degree is in the bass?",
        Some(EarAnswer::Cadence(_)) => "Which cadence is this?",
        None => "",
    }
}

/// One choice of the ear's question.
pub fn ear_choice(choice: EarAnswer, lang: Lang) -> String {
    let _ = lang;
    match choice {
        EarAnswer::Motion(motion) => format!("it {}", motion_name(motion, lang)),
        EarAnswer::Degree(degree) => degree_name(degree),
        EarAnswer::Cadence(kind) => cadence(kind).to_string(),
    }
}

fn degree_name(degree: Degree) -> String {
    format!("the {}", ordinal(degree))
}

/// How a motion goes, to follow "the bass".
fn motion_name(motion: BassMotion, lang: Lang) -> &'static str {
    let _ = lang;
    match motion {
        BassMotion::StepsUp => "rises by step",
        BassMotion::StepsDown => "falls by step",
        BassMotion::ThirdsDownSecondsUp => "falls a third and rises a second",
        BassMotion::FourthsDownSecondsUp => "falls a fourth and rises a second",
        BassMotion::FourthsUpFifthsDown => "rises a fourth and falls a fifth",
        BassMotion::FifthsUpFourthsDown => "rises a fifth and falls a fourth",
        BassMotion::ThirdsUpSecondsDown => "rises a third and falls a second",
        BassMotion::ThirdsDownFourthsUp => "falls a third and rises a fourth",
        BassMotion::ThirdsDown => "falls in thirds",
        BassMotion::RepeatedRising => "strikes each note twice, rising by step",
        BassMotion::TiedFalling => "ties each note over, falling by step",
        BassMotion::ChromaticUp => "rises by semitones",
        BassMotion::ChromaticDown => "falls by semitones",
    }
}

/// An item's name in a list.
pub fn drill_item(item: Item, lang: Lang) -> String {
    let _ = lang;
    let named = |mode: Mode| match mode {
        Mode::Major => "major",
        Mode::Minor => "minor",
    };
    match item {
        Item::Octave { mode, leaves, degree } => {
            let way = match leaves {
                Direction::Up => "rising",
                Direction::Down => "falling",
            };
            format!("the {} {way} in {}", ordinal(degree), named(mode))
        }
        Item::Motion { mode, motion } => {
            format!("a bass that {} in {}", motion_name(motion, lang), named(mode))
        }
        Item::Cadence { mode, cadence: kind } => format!("{} in {}", cadence(kind), named(mode)),
    }
}

/// The name of an order of keys.
pub fn key_order(order: KeyOrder, lang: Lang) -> &'static str {
    match (lang, order) {
        (_, KeyOrder::FifthsUp) => "by fifths up",
        (_, KeyOrder::FifthsDown) => "by fifths down",
        (_, KeyOrder::SemitonesUp) => "by semitones",
        (_, KeyOrder::TonesUp) => "by whole tones",
        (_, KeyOrder::Shuffled(_)) => "in any order",
    }
}

/// How much there is to practise today, as one sentence.
pub fn drill_due(due: usize, lang: Lang) -> String {
    match (lang, due) {
        (_, 0) => "Nothing is due today.".to_string(),
        (_, due) => format!("{} due today.", count(due, "thing", "things")),
    }
}
