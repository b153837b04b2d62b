//! What is asked, as the task on the page where the teacher wrote none.

use super::{cadence, count, position};
use crate::lesson::{Ask, Measure, MotionLimit, Naming};
use crate::words::Lang;

/// The ask as one or two sentences.
pub fn ask(ask: &Ask, lang: Lang) -> String {
    match lang {
        _ => english(ask),
    }
}

fn english(ask: &Ask) -> String {
    match ask {
        Ask::Figures(measure) => {
            let how = match measure {
                Measure::Complete => "Any chords that you can play will do.",
                Measure::Accepted => "Follow the octave rule and the cadences.",
                Measure::AsModel => "Find the very chords of the model.",
            };
            format!("Harmonise this bass: figure every note. {how}")
        }
        Ask::Soprano { position: start, motions } => {
            let start = start.map_or(String::new(), |it| format!(" in {}", position(it)));
            let how = match motions {
                MotionLimit::ContraryOrTenths => {
                    " Move only against the bass or in tenths with it."
                }
                MotionLimit::Any => "",
            };
            format!("Give this bass a soprano{start}.{how}")
        }
        Ask::FindFaults(Naming::Named) => {
            "Find the faults planted in the outer voices: point at each and name its rule."
                .to_string()
        }
        Ask::FindFaults(Naming::Place) => {
            "Find the faults planted in the outer voices: point at each.".to_string()
        }
        Ask::Handfuls { least } => format!(
            "Open these close chords into two handfuls, with at least {} in each hand.",
            count(usize::from((*least).clamp(1, 5)), "note", "notes")
        ),
        Ask::Roll { acciaccaturas: 0 } => "Roll these chords.".to_string(),
        Ask::Roll { acciaccaturas } => format!(
            "Roll these chords, with at least {}.",
            count(usize::from(*acciaccaturas), "acciaccatura", "acciaccaturas")
        ),
        Ask::Keys(keys) => {
            let keys: Vec<String> = keys.iter().map(|key| key.to_string()).collect();
            match keys.split_last() {
                None => "Play this in any key.".to_string(),
                Some((only, [])) => format!("Play this in {only}."),
                Some((last, rest)) => format!("Play this in {} and {last}.", rest.join(", ")),
            }
        }
        Ask::Finish(kind) => format!("Finish the phrase with {}.", cadence(*kind)),
        Ask::Free => "Go on from here as you like.".to_string(),
    }
}
