//! Why a chord is there, in a sentence.

use super::ordinal;
use crate::harmony::{BassMotion, Cadence, Chord, Direction, Duty, Kind, Reason, Version};
use crate::pitch::{Interval, Pitch, PitchClass};
use crate::words::Lang;

/// The chord's reason as one sentence.
pub fn reason(chord: &Chord, lang: Lang) -> String {
    match lang {
        _ => english_reason(chord, &chord.reason),
    }
}

fn english_reason(chord: &Chord, reason: &Reason) -> String {
    let bass = chord.bass.class();
    let key = chord.tonality;
    let degree = ordinal(chord.degree);
    match reason {
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
        Reason::Semitone { to } => format!(
            "{bass} moves on by a semitone to {to}, within one letter; on the {degree} of {key} \
             it takes {}.",
            sounding(chord)
        ),
        Reason::Led { from } => format!(
            "{from} led up to {bass} as to a tonic, so {bass} takes a chord to rest on: {}.",
            sounding(chord)
        ),
        Reason::Motion { motion, place } => sequence(chord, *motion, *place),
        Reason::Pedal { place: 0 } => {
            format!("{bass} is held as a pedal on the tonic; it starts from the plain chord.")
        }
        Reason::Pedal { .. } => format!(
            "{bass} stays in the bass as a pedal on the tonic while the chord above it moves: {}.",
            sounding(chord)
        ),
        Reason::Usage { percent, to } => {
            let going = to.map_or("stops here".to_string(), |to| format!("goes on to {to}"));
            format!(
                "In four-part chorales, {bass} as the {degree} of {key} that {going} has {} about \
                 {percent} times in a hundred.",
                sounding(chord)
            )
        }
        Reason::Stock { kind, kept } => stock(chord, *kind, kept),
        Reason::Hinge { from, was, why } => format!(
            "Hinge: this chord was the {} of {from}; from here {bass} is read as the {degree} of \
             {key}. {}",
            ordinal(*was),
            english_reason(chord, why)
        ),
        Reason::Turn { from, why } => format!(
            "The music leaves {from} for {key} here, without a chord in common. {}",
            english_reason(chord, why)
        ),
        Reason::LeadingBass { to } => format!(
            "{bass} is not in the scale of {key}: it leads up a semitone to {to} as a leading note \
             and takes {}.",
            sounding(chord)
        ),
        Reason::SeventhBass { to } => format!(
            "{bass} is not in the scale of {key}: it is the seventh of a dominant, held in the bass, and \
             falls to {to}."
        ),
        Reason::Borrowed => format!(
            "{bass}, the lowered {degree}, is borrowed from the minor on {} and takes {}.",
            key.tonic,
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
        (Cadence::Half, _) => format!(
            "A half cadence: the bass stops on {bass}, the 5th of {key}, whose third is the \
             leading note {}.",
            key.leading()
        ),
        (Cadence::Phrygian, 0) => format!(
            "A Phrygian cadence: {bass}, the lowered 6th of {key}, takes a sixth that opens \
             outward to the octave as the bass falls to the 5th."
        ),
        (Cadence::Phrygian, _) => {
            format!("The Phrygian cadence stops on {bass}, the 5th of {key}, with a major third.")
        }
        (Cadence::Deceptive, 0) => format!(
            "{bass}, the 5th of {key}, promises {tonic} but rises to the 6th instead: a deceptive \
             cadence."
        ),
        (Cadence::Deceptive, _) => format!(
            "The deceptive cadence lands on {bass}, the 6th of {key}, with a plain chord where \
             {tonic} was expected."
        ),
        (Cadence::Evaded, _) => format!(
            "The cadence is evaded: the bass slips from the 5th to {bass}, which carries the \
             dominant on as {} and must fall to the 3rd.",
            sounding(chord)
        ),
    }
}

fn sequence(chord: &Chord, motion: BassMotion, place: usize) -> String {
    let what = match motion {
        BassMotion::StepsUp => "climbs by step",
        BassMotion::StepsDown => "falls by step",
        BassMotion::ThirdsDownSecondsUp => "falls a third and rises a second, over and over",
        BassMotion::FourthsDownSecondsUp => "falls a fourth and rises a second, over and over",
        BassMotion::FourthsUpFifthsDown => "moves round in fourths up and fifths down",
        BassMotion::FifthsUpFourthsDown => "climbs in fifths up and fourths down",
        BassMotion::ThirdsUpSecondsDown => "rises a third and falls a second, over and over",
        BassMotion::ThirdsDownFourthsUp => "falls a third and rises a fourth, over and over",
        BassMotion::ThirdsDown => "falls by thirds",
        BassMotion::RepeatedRising => "strikes each note twice and climbs by step",
        BassMotion::TiedFalling => "ties each note over and falls by step",
        BassMotion::ChromaticUp => "climbs by semitones",
        BassMotion::ChromaticDown => "falls by semitones",
    };
    let bass = chord.bass.class();
    let chord = sounding(chord);
    if place == 0 {
        format!(
            "A sequence begins on {bass}: the bass {what}, so each round has the same chords, here {chord}."
        )
    } else {
        format!("The sequence goes on, for the bass {what}: {bass} takes {chord}.")
    }
}

fn stock(chord: &Chord, kind: Kind, kept: &[PitchClass]) -> String {
    let bass = chord.bass.class();
    let key = chord.tonality;
    let degree = ordinal(chord.degree);
    let what = match kind {
        Kind::Plain => {
            format!("{bass}, the {degree} of {key}, takes {} of the scale", sounding(chord))
        }
        Kind::Suspension => format!(
            "Over {bass} a note of the chord before is held back and then falls by step: {}",
            sounding(chord)
        ),
        Kind::SixFour => format!(
            "Over {bass}, the 5th of {key}, sixth and fourth lean on the chord and fall into it"
        ),
        Kind::Pedal => format!("{bass} stays while the chord above it moves: {}", sounding(chord)),
        Kind::Held => format!(
            "The bass holds {bass} over as the seventh of {}, and must fall by step",
            sounding(chord)
        ),
        Kind::Secondary => match target(chord) {
            Some(to) => format!(
                "{} is, for a moment, the dominant of {to}: its leading note is borrowed from there",
                capital(&sounding(chord))
            ),
            None => format!("{} borrows a leading note", capital(&sounding(chord))),
        },
        Kind::Borrowed => format!(
            "{} is borrowed from the other mode on {}",
            capital(&sounding(chord)),
            key.tonic
        ),
        Kind::Neapolitan => format!(
            "The Neapolitan chord: {} with the lowered 2nd of {key}, which falls",
            sounding(chord)
        ),
        Kind::AugmentedSixth => format!(
            "An augmented sixth over {bass}: it opens outward by semitones to the octave of the 5th"
        ),
        Kind::Diminished => format!(
            "A diminished seventh: {}, whose every note leans a semitone or so into the next chord",
            sounding(chord)
        ),
    };
    match kept {
        [] => format!("{what}."),
        [only] => format!("{what}; {only} stays from the chord before."),
        [first, rest @ ..] => {
            let rest: Vec<String> = rest.iter().map(ToString::to_string).collect();
            format!("{what}; {first} and {} stay from the chord before.", rest.join(", "))
        }
    }
}

/// The tonic a secondary dominant points to: a semitone above its rising note.
fn target(chord: &Chord) -> Option<PitchClass> {
    let rising = chord.tones.iter().find(|tone| tone.duty == Duty::Rises)?;
    Some(rising.class + Interval::new(1, 1))
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}

fn after(version: Version) -> &'static str {
    match version {
        Version::Campion => " (Campion, 1716)",
        Version::Rameau => " (Rameau, 1722)",
        Version::Fenaroli => " (Fenaroli, 1775)",
        Version::Gasparini => " (Gasparini, 1708)",
        Version::Heinichen => " (Heinichen, 1728)",
        Version::Chorales => "",
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
