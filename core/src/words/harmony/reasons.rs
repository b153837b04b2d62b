//! Why a chord is there, in a sentence.

use super::ordinal;
use crate::harmony::{Cadence, Chord, Direction, Reason, Version};
use crate::pitch::Pitch;
use crate::words::Lang;

/// The chord's reason as one sentence.
pub fn reason(chord: &Chord, lang: Lang) -> String {
    match lang {
        Lang::English => english(chord),
    }
}

fn english(chord: &Chord) -> String {
    let bass = chord.bass.class();
    let key = chord.tonality;
    let degree = ordinal(chord.degree);
    match &chord.reason {
        Reason::Given => format!("You figured this {bass} yourself, and it is played as written."),
        Reason::Opening => format!("The piece opens on the plain chord of {key}, to set the key."),
        Reason::Closing => format!("The piece comes to rest on the plain chord of {key}."),
        Reason::Octave { version, leaves } => {
            let way = match leaves {
                Direction::Up => "rises",
                Direction::Down => "falls",
            };
            format!(
                "{bass} is the {degree} of {key} and {way} by step: the octave rule{} gives it {}.",
                after(*version),
                sounding(chord)
            )
        }
        Reason::Leap { to } => format!(
            "{bass} is the {degree} of {key} and leaps on to {to}, so the octave rule does not \
             apply: it takes {}.",
            sounding(chord)
        ),
        Reason::Stop => {
            format!("The bass stops on {bass}, the {degree} of {key}, with {}.", sounding(chord))
        }
        Reason::Cadence { kind, stage } => cadence(chord, *kind, *stage),
        Reason::LeadingBass { to } => format!(
            "{bass} is not in the scale: it leads up a semitone to {to}, as the 7th of {key} does, \
             and takes {}.",
            sounding(chord)
        ),
        Reason::SeventhBass { to } => format!(
            "{bass} is not in the scale: it is the seventh of a dominant, held in the bass, and \
             falls to {to}."
        ),
        Reason::Borrowed => format!(
            "{bass} is borrowed from {key}, where it is the {degree}, and takes {}.",
            sounding(chord)
        ),
        Reason::Foreign => {
            format!("{bass} belongs to no scale near by, so a chord of the sixth passes over it.")
        }
    }
}

fn cadence(chord: &Chord, kind: Cadence, stage: usize) -> String {
    let bass = chord.bass.class();
    let tonic = chord.tonality.tonic;
    let key = chord.tonality;
    match (kind, stage) {
        (Cadence::Simple, _) => {
            format!("A simple cadence: {bass}, the 5th of {key}, falls home to {tonic}.")
        }
        (Cadence::Compound, 0) => format!(
            "A compound cadence in {key}: {bass} is struck twice, first with {} to be resolved.",
            sounding(chord)
        ),
        (Cadence::Compound, _) => format!(
            "The compound cadence resolves: the chord over {bass} is now complete and falls home \
             to {tonic}."
        ),
        (Cadence::Double, stage) => format!(
            "Stage {} of a double cadence on the long {bass}: {}, before it falls home to {tonic}.",
            stage + 1,
            sounding(chord)
        ),
    }
}

fn after(version: Version) -> &'static str {
    match version {
        Version::Campion => " (Campion, 1716)",
        Version::Rameau => " (Rameau, 1722)",
        Version::Fenaroli => " (Fenaroli, 1775)",
        Version::Gasparini => " (Gasparini, 1708)",
        Version::Heinichen => " (Heinichen, 1728)",
        Version::AugmentedSixth => " (with the later augmented sixth)",
    }
}

/// The chord by its notes: "the chord of the sixth, D–F–B".
fn sounding(chord: &Chord) -> String {
    let mut numbers: Vec<u8> = chord.tones.iter().skip(1).map(|tone| tone.number).collect();
    numbers.sort_unstable();
    let name = match numbers.as_slice() {
        [] => return "no chord, the bass alone".to_string(),
        [3, 5] => "the plain chord",
        [3, 6] => "the sixth chord",
        [4, 6] => "the six-four chord",
        [3, 5, 7] | [3, 7] => "the seventh chord",
        [3, 5, 6] => "the six-five chord",
        [3, 4, 6] => "the four-three chord",
        [2, 4, 6] => "the four-two chord",
        [4, 5] => "a suspended fourth",
        [3, 5, 9] => "a suspended ninth",
        _ => "the chord",
    };
    let bass: Pitch = chord.bass;
    let mut tones: Vec<_> = chord.tones.iter().collect();
    tones.sort_by_key(|tone| tone.number);
    let notes: Vec<String> =
        tones.iter().filter(|tone| tone.number != 1).map(|tone| tone.class.to_string()).collect();
    format!("{name} ({} with {})", bass.class(), notes.join(" "))
}
