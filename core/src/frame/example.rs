//! A tiny example of each rule broken, to show beside its explanation.

use super::rules::Rule;
use crate::figures::Stage;
use crate::harmony::{Chord, Duty, Reason, Tone};
use crate::pitch::{Mode, Pitch, PitchClass, Step, Tonality};

/// A few chords and a soprano that breaks one rule.
#[derive(Clone, Debug, PartialEq)]
pub struct Example {
    /// The chords, in C major.
    pub chords: Vec<Chord>,
    /// The soprano over each.
    pub soprano: Vec<Pitch>,
}

/// A tiny example of the rule broken; our own.
pub fn example(rule: Rule) -> Example {
    let pairs = text(rule).split_whitespace().filter_map(read);
    let mut example = Example { chords: Vec::new(), soprano: Vec::new() };
    for pair in pairs {
        let before = example.chords.last().map(|chord| (chord.note, chord.stage));
        let (note, stage) = match before {
            Some((note, stage)) if pair.over_same_note => (note, stage + 1),
            Some((note, _)) => (note + 1, 0),
            None => (0, 0),
        };
        example.chords.push(pair.chord(note, stage));
        example.soprano.push(pair.soprano);
    }
    example
}

/// Bass and soprano of each chord. After a note `^` means that it rises, `v` that
/// it falls, `~` that it is suspended, `!` that it is no tone of the chord; `+`
/// before a pair puts it over the bass note of the one before.
const fn text(rule: Rule) -> &'static str {
    match rule {
        Rule::ConsecutiveOctaves => "C3-C5 D3-D5",
        Rule::ConsecutiveFifths => "C3-G4 D3-A4",
        Rule::ContraryOctaves => "C4-C5 F3-F5",
        Rule::ContraryFifths => "C4-G4 F3-C5",
        Rule::DiminishedToPerfect => "B2-F4 C3-G4",
        Rule::HiddenOctaves => "E3-G4 C4-C5",
        Rule::HiddenFifths => "C3-E4 F3-C5",
        Rule::MaskedConsecutives => "C3-G4 +C3-F4 D3-A4",
        Rule::UnrisenLeadingNote => "G3-B4^ C3-G4",
        Rule::UnfallenSeventh => "G3-F4v C3-G4",
        Rule::UnpreparedSuspension => "F3-A4 G3-C5~",
        Rule::UnresolvedSuspension => "G3-C5~ A3-E5",
        Rule::BassDuty => "F3v-B4 G3-B4",
        Rule::DoubledDuty => "B2^-B4 C3-C5",
        Rule::AugmentedStep => "F3-Ab4 G3-B4",
        Rule::TritoneLeap => "F3-F4 G3-B4",
        Rule::DiminishedLeap => "G3-B4 D3-F5 E3-G5",
        Rule::SeventhLeap => "C3-G4 D3-F5",
        Rule::WideLeap => "C3-E4 F2-A5",
        Rule::LeapsTogether => "C3-E4 A3-C5",
        Rule::VoiceCrossing => "C5-A4",
        Rule::VoiceOverlap => "C4-E4 A3-B3",
        Rule::CrossRelation => "F3-C5 D3-F#4",
        Rule::OutsideCompass => "C3-C6",
        Rule::ForeignNote => "C3-F4!",
        Rule::SameNote => "C3-G4 E3-G4 G3-G4 B3-G4 C4-G4",
        Rule::Circling => "C3-E4 B2-D4 C3-E4 B2-D4 C3-E4",
    }
}

struct Pair {
    over_same_note: bool,
    bass: Pitch,
    bass_duty: Duty,
    soprano: Pitch,
    duty: Option<Duty>,
}

fn read(text: &str) -> Option<Pair> {
    let (over_same_note, text) = text.strip_prefix('+').map_or((false, text), |rest| (true, rest));
    let (low, high) = text.split_once('-')?;
    let (bass, bass_duty) = owing(low)?;
    let (soprano, duty) = owing(high)?;
    Some(Pair { over_same_note, bass, bass_duty: bass_duty.unwrap_or(Duty::Free), soprano, duty })
}

fn owing(text: &str) -> Option<(Pitch, Option<Duty>)> {
    let name = text.trim_end_matches(['^', 'v', '~', '!']);
    let duty = match text.strip_prefix(name)? {
        "^" => Some(Duty::Rises),
        "v" => Some(Duty::Falls),
        "~" => Some(Duty::Suspended),
        "!" => None,
        _ => Some(Duty::Free),
    };
    let mut letters = name.chars();
    let step = Step::from_letter(letters.next()?)?;
    let rest = letters.as_str();
    let octave = rest.trim_start_matches(['#', 'b']);
    let alter = match rest.strip_suffix(octave)? {
        "#" => 1,
        "b" => -1,
        _ => 0,
    };
    Some((Pitch::new(step, alter, octave.parse().ok()?), duty))
}

impl Pair {
    fn chord(&self, note: usize, stage: usize) -> Chord {
        let tonality = Tonality::new(PitchClass::new(Step::C, 0), Mode::Major);
        let tone = |class: PitchClass, duty| Tone {
            class,
            number: (class.at_or_above(self.bass) - self.bass).simple_number(),
            duty,
            omittable: false,
        };
        let mut tones = vec![tone(self.bass.class(), self.bass_duty)];
        if let Some(duty) = self.duty.filter(|_| self.soprano.class() != self.bass.class()) {
            tones.push(tone(self.soprano.class(), duty));
        }
        // The third fills the chord, so that the bass is not alone.
        let third = Step::wrapped(self.bass.step.index() + 2);
        if !tones.iter().any(|tone| tone.class.step == third) {
            tones.push(tone(tonality.class_of(third), Duty::Free));
        }
        Chord {
            note,
            stage,
            bass: self.bass,
            tones,
            tonality,
            degree: tonality.degree_of(self.bass.step),
            figures: Stage::Signs(Vec::new()),
            reason: Reason::Given,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frame::{FrameWishes, faults};

    #[test]
    fn every_example_breaks_its_rule_and_reads_whole() {
        for rule in Rule::ALL {
            let Example { chords, soprano } = example(rule);
            assert_eq!(chords.len(), text(rule).split_whitespace().count(), "{rule:?}");
            let found = faults(&FrameWishes::default(), &chords, &soprano);
            assert!(found.iter().any(|fault| fault.rule == rule), "{rule:?}: {found:?}");
        }
    }
}
