//! Each clause of the rulebook on a tiny example. Sources stand beside the laws.

use tastata::frame::{
    FrameWishes, InnerParallel, Perfect, Rule, RuleSwitches, Severity, Strictness, faults,
    inner_parallels,
};
use tastata::hands::Handful;
use tastata::harmony::harmonise;
use tastata::pitch::Pitch;
use tastata::sketch::{Sketch, SketchNote};
use tastata_tests::outer::{C_MAJOR, outer, pitch};

/// The rules broken by these outer voices, in order of place.
fn broken(text: &str) -> Vec<Rule> {
    let (chords, soprano) = outer(text);
    faults(&FrameWishes::default(), &chords, &soprano).iter().map(|fault| fault.rule).collect()
}

/// Whether the rule is among those broken.
fn breaks(rule: Rule, text: &str) -> bool {
    broken(text).contains(&rule)
}

#[track_caller]
fn yes(rule: Rule, texts: &[&str]) {
    for text in texts {
        assert!(breaks(rule, text), "{text} should break {rule:?}: {:?}", broken(text));
    }
}

#[track_caller]
fn no(rule: Rule, texts: &[&str]) {
    for text in texts {
        assert!(!breaks(rule, text), "{text} should not break {rule:?}");
    }
}

#[test]
fn consecutives_are_two_perfect_intervals_by_similar_motion() {
    yes(Rule::ConsecutiveFifths, &["C3-G4 D3-A4", "A3-E4 G3-D4", "C3-G3 F3-C5", "C3-G4 C#3-G#4"]);
    yes(Rule::ConsecutiveOctaves, &["C3-C5 D3-D5", "C4-C4 D4-D4", "C3-C4 F3-F5"]);
    // A repeated pair, one voice alone, another interval between, another kind.
    let clean = ["C3-G4 C3-G4", "C3-G4 C3-G5", "C3-G4 D3-B4 E3-B4", "C3-G4 C4-C5"];
    no(Rule::ConsecutiveFifths, &clean);
    no(Rule::ConsecutiveOctaves, &["C3-C5 C3-C5", "C3-C5 C2-C5", "C3-C5 D3-B4", "C3-C5 F3-C5"]);
}

#[test]
fn a_diminished_fifth_is_not_perfect() {
    no(Rule::ConsecutiveFifths, &["C3-G4 B2-F4", "B2-F4 C3-G4", "B2-F4 B3-F5"]);
    yes(Rule::DiminishedToPerfect, &["B2-F4 C3-G4", "F#3-C5 E3-B4"]);
    no(Rule::DiminishedToPerfect, &["C3-G4 B2-F4", "B2-F4 C3-E4", "B3-F4 F3-C5"]);
}

#[test]
fn contrary_consecutives_are_cautions() {
    yes(Rule::ContraryFifths, &["C3-G4 F2-C5", "C3-G5 F3-C5"]);
    yes(Rule::ContraryOctaves, &["C4-C5 F3-F5", "C3-C5 C4-C4"]);
    no(Rule::ConsecutiveFifths, &["C3-G4 F2-C5"]);
    let (chords, soprano) = outer("C3-G4 F2-C5");
    let found = faults(&FrameWishes::default(), &chords, &soprano);
    assert!(found.iter().all(|fault| fault.severity == Severity::Caution));
}

#[test]
fn hidden_consecutives_need_similar_motion_and_a_leaping_soprano() {
    yes(Rule::HiddenOctaves, &["C3-E4 F3-F5", "G3-B4 E3-E4"]);
    yes(Rule::HiddenFifths, &["C3-E4 F3-C5", "E3-C5 D3-A4"]);
    no(Rule::HiddenOctaves, &["G3-B4 C4-C5", "C3-E5 D3-D5", "C3-C5 C3-C4"]);
    no(Rule::HiddenFifths, &["C3-B4 F3-C5", "C3-G4 D3-A4", "C4-E4 F3-C5"]);
}

#[test]
fn an_ornament_over_a_held_bass_does_not_excuse_consecutives() {
    yes(Rule::MaskedConsecutives, &["C3-G4 .C3-A4 D3-A4", "C3-C5 .C3-B4 D3-D5"]);
    // The middle chord has a bass note of its own; the last move is itself plain.
    no(Rule::MaskedConsecutives, &["C3-G4 C3-A4 D3-A4", "C3-G4 E3-G4 D3-A4"]);
    no(Rule::MaskedConsecutives, &["C3-G4 .C3-G4 D3-A4"]);
    yes(Rule::ConsecutiveFifths, &["C3-G4 .C3-G4 D3-A4"]);
}

#[test]
fn leading_notes_rise() {
    yes(Rule::UnrisenLeadingNote, &["G3-B4^ C3-G4", "G3-B4^ A3-A4", "G3-B4^ C3-C4"]);
    no(Rule::UnrisenLeadingNote, &["G3-B4^ C3-C5", "G3-B4 C3-G4", "C3-E4^ F3-F4"]);
    // Held as a tone of the next chord, or sinking in a chain of dominants.
    no(Rule::UnrisenLeadingNote, &["G3-B4^ E3-B4", "G3-B4^ C3-Bb4"]);
}

#[test]
fn sevenths_fall_unless_the_bass_takes_the_resolution() {
    yes(Rule::UnfallenSeventh, &["G3-F4v C3-G4", "G3-F4v C3-C5", "D3-F4v C3-G4"]);
    no(Rule::UnfallenSeventh, &["G3-F4v C3-E4", "G3-F4 C3-G4", "D3-F4v F2-F4"]);
    no(Rule::UnfallenSeventh, &["D3-F4v E3-G4"]);
}

#[test]
fn suspensions_are_prepared_and_resolved() {
    yes(Rule::UnpreparedSuspension, &["F3-A4 G3-C5~", "F3-C4 G3-C5~"]);
    no(Rule::UnpreparedSuspension, &["F3-C5 G3-C5~", "G3-C5~ .G3-B4"]);
    yes(Rule::UnresolvedSuspension, &["G3-C5~ .G3-D5", "G3-C5~ A3-E5"]);
    no(Rule::UnresolvedSuspension, &["G3-C5~ .G3-B4", "G3-C5~ .G3-C5~", "G3-C5~ C3-C5"]);
}

#[test]
fn the_bass_has_duties_too() {
    yes(Rule::BassDuty, &["B2^-G4 F2-A4", "F3v-B4 G3-B4"]);
    // In a sequence of fifths; and where the next chord keeps the note above.
    no(Rule::BassDuty, &["B2^-F4 E3-G4", "B2^-F4 E2-G4", "B2^-G4 G2-G4"]);
    no(Rule::BassDuty, &["B2^-G4 C3-G4", "F3v-B4 E3-C5", "B2^-G4 A2-A4", "F3v-B4 F3-A4"]);
    yes(Rule::DoubledDuty, &["B2^-B4", "F3v-F5"]);
    no(Rule::DoubledDuty, &["B2^-D5", "C3-C5"]);
}

#[test]
fn the_soprano_is_a_melody() {
    yes(Rule::AugmentedStep, &["F3-F4 E3-G#4", "F3-G#4 E3-F4", "C3-C4 E3-G#4"]);
    no(Rule::AugmentedStep, &["F3-F4 E3-Ab4", "F3-F4 E3-F#4", "F3-F4 D3-B4"]);
    yes(Rule::TritoneLeap, &["F3-F4 G3-B4"]);
    no(Rule::TritoneLeap, &["D3-B4 D3-F5"]);
    yes(Rule::DiminishedLeap, &["D3-B4 D3-F5 C3-G5", "D3-B4 D3-F5 C3-C5", "E3-G#4 A3-C5 A3-A4"]);
    no(Rule::DiminishedLeap, &["D3-B4 D3-F5 C3-E5", "E3-G#4 A3-C5 G3-B4", "D3-B4 D3-F5"]);
    yes(Rule::SeventhLeap, &["C3-C4 G3-B4", "C3-C5 G3-D4"]);
    no(Rule::SeventhLeap, &["C3-C4 C3-C5", "E3-G#4 D3-F5"]);
    yes(Rule::WideLeap, &["C3-C4 D3-D5"]);
    no(Rule::WideLeap, &["C3-C4 C3-C5"]);
    yes(Rule::LeapsTogether, &["C3-C4 G3-G4", "C3-E4 A3-C5"]);
    no(Rule::LeapsTogether, &["C3-C4 F3-G4", "C3-C4 C4-G4", "C3-C4 F2-G4", "C3-C4 C3-G4"]);
}

#[test]
fn the_voices_keep_their_places() {
    yes(Rule::VoiceCrossing, &["C5-B4"]);
    no(Rule::VoiceCrossing, &["C5-C5", "C4-D4"]);
    yes(Rule::VoiceOverlap, &["C4-E4 F4-A4", "C4-E4 A3-B3"]);
    no(Rule::VoiceOverlap, &["C4-E4 E4-G4", "C3-E4 D3-F4"]);
    yes(Rule::CrossRelation, &["F3-C5 D3-F#4", "A3-F#4 F3-A4"]);
    no(Rule::CrossRelation, &["F3-C5 F#3-C5", "D3-F4 D3-F#4", "F3-C5 D3-F4"]);
    yes(Rule::OutsideCompass, &["C3-B3", "C3-B5"]);
    no(Rule::OutsideCompass, &["C3-C4", "C3-A5"]);
}

#[test]
fn a_line_that_stays_or_circles_is_one_caution() {
    yes(Rule::SameNote, &["C3-G4 E3-G4 G3-G4 B3-G4 C4-G4"]);
    no(Rule::SameNote, &["C3-G4 E3-G4 G3-G4 B3-G4", "C3-G4 C3-G4 C3-G4 C3-G4 C3-G4"]);
    yes(Rule::Circling, &["C3-E4 G3-D4 C3-E4 G3-D4 C3-E4"]);
    no(Rule::Circling, &["C3-E4 G3-D4 C3-E4 G3-D4 C3-C4"]);
    let (chords, soprano) = outer("C3-G4 E3-G4 G3-G4 B3-G4 C4-G4 E3-G4");
    let found = faults(&FrameWishes::default(), &chords, &soprano);
    let same: Vec<_> = found.iter().filter(|fault| fault.rule == Rule::SameNote).collect();
    assert_eq!(same.len(), 1);
    assert_eq!((same[0].from, same[0].to), (0, 5));
}

#[test]
fn no_rule_looks_across_a_bass_alone() {
    let (mut chords, mut soprano) = outer("C3-G4 E3-E3 D3-A4");
    soprano[1] = chords[1].bass;
    chords[1].figures = tastata::figures::Stage::TastoSolo;
    assert_eq!(faults(&FrameWishes::default(), &chords, &soprano), []);
}

#[test]
fn rules_can_be_switched() {
    let (chords, soprano) = outer("C3-G4 D3-A4");
    let severity = |strictness| {
        let rules = RuleSwitches::default().with(Rule::ConsecutiveFifths, strictness);
        let wishes = FrameWishes { rules, ..FrameWishes::default() };
        faults(&wishes, &chords, &soprano).first().map(|fault| fault.severity)
    };
    assert_eq!(severity(Strictness::Usual), Some(Severity::Fault));
    assert_eq!(severity(Strictness::Caution), Some(Severity::Caution));
    assert_eq!(severity(Strictness::Off), None);
}

#[test]
fn a_fault_is_one_plain_sentence() {
    let (chords, soprano) = outer("C3-E4 D3-F4 F3-G#4 A3-E4 B3-F#4");
    let found = faults(&FrameWishes::default(), &chords, &soprano);
    let last = found.last().expect("a fault");
    assert_eq!(
        tastata::words::fault(last, tastata::words::Lang::English),
        "consecutive fifths between outer voices, chords 4–5: A–E to B–F♯"
    );
}

/// The rising and falling octave as printed, fully voiced, with the figures of Hiles
/// (19th century, in the score source of the encyclopedia page "Rule of the Octave",
/// wikiclassic.com): bass, then the upper three low to high.
const SCALE: [&str; 16] = [
    "C3 E4 G4 C5",
    "D3 F4 G4 B4",
    "E3 E4 G4 C5",
    "F3 D4 A4 C5",
    "G3 D4 G4 B4",
    "A3 C4 F4 C5",
    "B3 F4 G4 D5",
    "C4 E4 G4 C5",
    "C4 G4 C5 E5",
    "B3 D4 G4 D5",
    "A3 D4 F#4 C5",
    "G3 D4 G4 B4",
    "F3 D4 G4 B4",
    "E3 C4 G4 C5",
    "D3 F4 G4 B4",
    "C3 E4 G4 C5",
];

#[test]
fn the_printed_scale_is_clean_outside_and_has_one_pair_of_fifths_inside() {
    let voiced: Vec<Vec<Pitch>> =
        SCALE.iter().map(|chord| chord.split(' ').map(pitch).collect()).collect();
    let notes = voiced.iter().map(|chord| SketchNote::bare(chord[0])).collect();
    let sketch = Sketch { tonality: Some(C_MAJOR), notes, ..Sketch::default() };
    let chords = harmonise(&sketch).chords;
    // The chords are the printed ones, so that what their notes owe is known.
    for (chord, printed) in chords.iter().zip(&voiced) {
        assert!(printed.iter().all(|note| chord.tones.iter().any(|t| t.class == note.class())));
    }
    let soprano: Vec<Pitch> = voiced.iter().map(|chord| chord[3]).collect();
    assert_eq!(faults(&FrameWishes::default(), &chords, &soprano), []);
    let handful = |chord: &Vec<Pitch>| Handful { left: vec![chord[0]], right: chord[1..].to_vec() };
    let handfuls: Vec<Handful> = voiced.iter().map(handful).collect();
    let expected = InnerParallel {
        from: 5,
        kind: Perfect::Fifth,
        lower: (pitch("F4"), pitch("G4")),
        upper: (pitch("C5"), pitch("D5")),
    };
    assert_eq!(inner_parallels(&handfuls), [expected]);
}
