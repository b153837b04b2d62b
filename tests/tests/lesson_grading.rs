//! Grading against a labelled set: a published realization passes in every key;
//! each kind of fault, planted in it or in a phrase of its own, is found at its
//! place, with no other.
//!
//! The realization is Hiles's fully voiced octave, 16 chords: pitches read from
//! the score source of the encyclopedia page "Rule of the Octave" (wikiclassic.com).

use tastata::figures::read_figures;
use tastata::frame::{Rule, Severity, Strictness};
use tastata::hands::{HandTrouble, Handful};
use tastata::harmony::Harmony;
use tastata::lesson::{
    Answer, Ask, Exercise, FindingKind, Found, Measure, MotionLimit, Naming, Outcome, Report,
    check, in_tonality,
};
use tastata::pitch::{PitchClass, Tonality};
use tastata::reading::read;
use tastata::sketch::{Hold, Pin, Sketch};
use tastata::words::{Lang, finding};
use tastata_tests::lesson::{sketch, with_soprano};
use tastata_tests::outer::pitch;

/// Bass, figures and the upper three from low to high.
const HILES: [(&str, &str, &str); 16] = [
    ("C3", "5/3", "E4 G4 C5"),
    ("D3", "4/3", "F4 G4 B4"),
    ("E3", "6", "E4 G4 C5"),
    ("F3", "6/5", "D4 A4 C5"),
    ("G3", "5/3", "D4 G4 B4"),
    ("A3", "6", "C4 F4 C5"),
    ("B3", "6/5", "F4 G4 D5"),
    ("C4", "5/3", "E4 G4 C5"),
    ("C4", "5/3", "G4 C5 E5"),
    ("B3", "6", "D4 G4 D5"),
    ("A3", "#6/4/3", "D4 F#4 C5"),
    ("G3", "5/3", "D4 G4 B4"),
    ("F3", "2", "D4 G4 B4"),
    ("E3", "6", "C4 G4 C5"),
    ("D3", "4/3", "F4 G4 B4"),
    ("C3", "5/3", "E4 G4 C5"),
];

/// The published realization: figures, soprano and handfuls.
fn published() -> Sketch {
    let bass: Vec<String> =
        HILES.iter().map(|(bass, figures, _)| format!("{bass}:{figures}")).collect();
    let mut whole = sketch(&format!("C major: {}", bass.join(" ")));
    for (note, (_, _, upper)) in whole.notes.iter_mut().zip(HILES) {
        let right: Vec<_> = upper.split(' ').map(pitch).collect();
        let top = *right.last().expect("a soprano");
        note.soprano = vec![Some(Pin { pitch: top, hold: Hold::Pinned })];
        note.handfuls = vec![Some(Handful { left: vec![note.pitch], right })];
    }
    whole
}

fn given(whole: &Sketch, ask: Ask) -> Exercise {
    let mut start = whole.clone();
    for note in &mut start.notes {
        match ask {
            Ask::Figures(_) => {
                note.figures = None;
                note.soprano.clear();
                note.handfuls.clear();
            }
            Ask::Soprano { .. } => {
                note.soprano.clear();
                note.handfuls.clear();
            }
            _ => note.handfuls.clear(),
        }
    }
    Exercise { sketch: start, asks: vec![ask], ..Exercise::default() }
}

fn graded(task: &Exercise, sketch: &Sketch) -> Report {
    check(task, &Answer { sketch: sketch.clone(), ..Answer::default() })
}

fn said(report: &Report) -> Vec<String> {
    report.findings().map(|it| finding(it, Lang::English)).collect()
}

const FIGURES: Ask = Ask::Figures(Measure::Accepted);
const SOPRANO: Ask = Ask::Soprano { position: None, motions: MotionLimit::Any };
const HANDS: Ask = Ask::Handfuls { least: 1 };

#[test]
fn the_published_realization_passes_in_every_key() {
    for fifths in -7..=7 {
        let key = Tonality::new(PitchClass::from_fifths(fifths), tastata::pitch::Mode::Major);
        let whole = in_tonality(&published(), key);
        for ask in [FIGURES, SOPRANO, HANDS] {
            let report = graded(&given(&whole, ask.clone()), &whole);
            assert_eq!(report.results[0].outcome, Outcome::Done, "{key}: {:?}", said(&report));
            assert_eq!(report.faults(), 0, "{key} {ask:?}");
        }
    }
}

/// Every wrong figure over every note, and every figure left out.
#[test]
fn planted_figures_are_found_at_their_note() {
    let whole = published();
    let task = given(&whole, FIGURES);
    let mut planted = 0;
    for i in 0..HILES.len() {
        for wrong in [Some("9"), Some("7/4/2"), Some("5/4"), Some("7"), Some("7-6"), None] {
            let mut answer = whole.clone();
            answer.notes[i].figures = wrong.and_then(|wrong| read_figures(wrong).ok());
            let report = graded(&task, &answer);
            let found: Vec<_> = report.findings().collect();
            let [only] = found[..] else { panic!("{i} {wrong:?}: {:?}", said(&report)) };
            assert_eq!(only.severity, Severity::Fault);
            let first = found_chord(&read(&answer).harmony, i);
            assert_eq!(only.chords.map(|(from, _)| from), Some(first), "{i} {wrong:?}");
            match (&only.kind, wrong) {
                (FindingKind::NoFigures { note }, None)
                | (FindingKind::WrongChord { note, stage: 0, .. }, Some(_))
                | (FindingKind::WrongStages { note, has: 2, wanted: 1 }, Some("7-6")) => {
                    assert_eq!(*note, i);
                }
                (kind, wrong) => panic!("{i} {wrong:?}: {kind:?}"),
            }
            planted += 1;
        }
    }
    assert_eq!(planted, 16 * 6);
}

fn found_chord(harmony: &Harmony, note: usize) -> usize {
    harmony.chords.iter().position(|chord| chord.note == note).expect("a chord")
}

/// A tone missing and a foreign tone in every handful, and each other trouble once.
#[test]
fn planted_handfuls_are_found_at_their_chord() {
    let whole = published();
    let task = given(&whole, HANDS);
    let one = |answer: &Sketch, i: usize, what: &str| -> HandTrouble {
        let report = graded(&task, answer);
        let faults: Vec<_> =
            report.findings().filter(|it| it.severity == Severity::Fault).collect();
        match faults[..] {
            [only] => match &only.kind {
                FindingKind::Hand(remark) => {
                    assert_eq!((only.chords, remark.chord), (Some((i, i)), i), "{what}");
                    remark.kind.clone()
                }
                kind => panic!("{what}: {kind:?}"),
            },
            _ => panic!("{what}: {:?}", said(&report)),
        }
    };
    let reading = read(&whole);
    let change = |i: usize, change: &dyn Fn(&mut Handful)| {
        let mut answer = whole.clone();
        change(answer.notes[i].handfuls[0].as_mut().expect("a handful"));
        answer
    };
    let (mut missing, mut foreign) = (0, 0);
    for i in 0..HILES.len() {
        let chord = &reading.harmony.chords[i];
        let top = reading.frame.soprano[i];
        let inner = chord.tones.iter().filter(|tone| !tone.omittable && tone.number != 1);
        for tone in inner.filter(|tone| tone.class != top.class()) {
            let answer = change(i, &|it| it.right.retain(|note| note.class() != tone.class));
            let trouble = one(&answer, i, &format!("chord {i} without {}", tone.class));
            assert_eq!(trouble, HandTrouble::Incomplete { missing: tone.class });
            missing += 1;
        }
        // Within the right hand's reach.
        let alien = pitch(if i == 8 { "Eb5" } else { "Eb4" });
        let answer = change(i, &|it| it.right.insert(0, alien));
        assert_eq!(one(&answer, i, "foreign"), HandTrouble::Foreign { pitch: alien });
        foreign += 1;
    }
    assert_eq!((missing, foreign), (17, 16));
    // C3 to E4 in the left hand; then a keyboard that ends below the soprano.
    let wide = change(0, &|it| it.left.push(pitch("E4")));
    let wide = change_right(&wide, 0, "G4 C5");
    assert!(matches!(one(&wide, 0, "wide"), HandTrouble::TooWide { needs: 18, limit: 14, .. }));
    // A key written twice is one key.
    let twice = change_right(&whole, 8, "G4 C5 G4 E5");
    assert!(graded(&task, &twice).is_done());
    let mut small = whole.clone();
    small.hands.compass.high = pitch("D5").key().expect("a key");
    let report = graded(&task, &small);
    let off: Vec<_> = report.findings().filter(|it| it.severity == Severity::Fault).collect();
    assert!(
        matches!(off[..], [only] if only.chords == Some((8, 8))
            && matches!(&only.kind, FindingKind::Hand(it) if it.kind == HandTrouble::SopranoOffKeyboard)),
        "{:?}",
        said(&report)
    );
    // A handful left out, and a hand too thin.
    let mut gone = whole.clone();
    gone.notes[5].handfuls.clear();
    let report = graded(&task, &gone);
    assert_eq!(said(&report), ["Chord 6: no handful of yours yet."]);
    let three = given(&whole, Ask::Handfuls { least: 3 });
    assert_eq!(graded(&three, &whole).faults(), 16);
}

fn change_right(sketch: &Sketch, i: usize, right: &str) -> Sketch {
    let mut sketch = sketch.clone();
    sketch.notes[i].handfuls[0].as_mut().expect("a handful").right =
        right.split(' ').map(pitch).collect();
    sketch
}

/// A phrase in which exactly one rule is broken, at exactly one place. The rules
/// and their sources are those of the rulebook.
struct Planted {
    rule: Rule,
    bass: &'static str,
    soprano: &'static str,
    from: usize,
    to: usize,
    /// A second rule that cannot but be broken with it.
    with: Option<Rule>,
}

const fn planted(
    rule: Rule,
    bass: &'static str,
    soprano: &'static str,
    from: usize,
    to: usize,
) -> Planted {
    Planted { rule, bass, soprano, from, to, with: None }
}

const PLANTED: [Planted; 27] = [
    planted(Rule::ConsecutiveOctaves, "C major: C3:5/3 D3:5/3 E3:6", "C5 D5 G4", 0, 1),
    planted(Rule::ConsecutiveFifths, "C major: C3:5/3 D3:5/3 E3:6", "G4 A4 G4", 0, 1),
    planted(Rule::ContraryOctaves, "C major: E3:6 C3:5/3 F3:5/3", "G4 C5 F4", 1, 2),
    planted(Rule::ContraryFifths, "C major: C3:5/3 F3:5/3 E3:6", "G4 C4 C4", 0, 1),
    Planted {
        with: Some(Rule::UnfallenSeventh),
        ..planted(Rule::DiminishedToPerfect, "C major: B2:6/5 C3:5/3 F3:5/3", "F4 G4 F4", 0, 1)
    },
    planted(Rule::HiddenOctaves, "C major: E3:6 F3:5/3 E3:6", "C5 F5 G5", 0, 1),
    planted(Rule::HiddenFifths, "C major: F3:5/3 G3:5/3 C3:5/3", "A4 D5 E5", 0, 1),
    planted(Rule::MaskedConsecutives, "C major: C3:5-6 D3:5/3", "G4 A4 A4", 0, 2),
    planted(Rule::UnrisenLeadingNote, "C major: F3:5/3 G3:5/3 C3:5/3", "C5 B4 G4", 1, 2),
    planted(Rule::UnfallenSeventh, "C major: C3:5/3 G3:7 C3:5/3", "G5 F5 G5", 1, 2),
    planted(Rule::UnpreparedSuspension, "C major: F3:5/3 G3:4-3 C3:5/3", "A4 C5 B4 C5", 0, 1),
    planted(Rule::UnresolvedSuspension, "C major: C3:5/3 G3:4-3 C3:5/3", "C5 C5 D5 C5", 1, 2),
    planted(Rule::BassDuty, "C major: C3:5/3 B2:6/5 F2:5/3", "E5 D5 C5", 1, 2),
    planted(Rule::DoubledDuty, "C major: D3:5/3 B2:6", "A4 B4", 1, 1),
    planted(Rule::AugmentedStep, "A minor: D3:5/3 F3:5/3 E3:5/#", "A5 F5 G#5", 1, 2),
    planted(Rule::TritoneLeap, "C major: F3:5/3 G3:5/3 C3:5/3", "F4 B4 C5", 0, 1),
    planted(Rule::DiminishedLeap, "C major: D3:5/3 E3:5/3 F3:5/3", "F5 B4 A4", 0, 2),
    planted(Rule::SeventhLeap, "C major: C3:5/3 D3:5/3 C3:5/3", "G4 F5 E5", 0, 1),
    planted(Rule::WideLeap, "C major: C3:5/3 D3:5/3 C3:5/3", "E4 F5 E5", 0, 1),
    planted(Rule::LeapsTogether, "C major: C3:5/3 G3:5/3 C3:5/3", "E4 B4 C5", 0, 1),
    planted(Rule::VoiceCrossing, "C major: C4:5/3 F3:5/3", "G3 A3", 0, 0),
    planted(Rule::VoiceOverlap, "C major: C3:5/3 F4:5/3", "E4 A4", 0, 1),
    planted(Rule::CrossRelation, "C major: C3:5/3 A2:5/#", "E5 C#5", 0, 1),
    planted(Rule::OutsideCompass, "C major: A2:5/3 G2:5/3", "A5 B5", 1, 1),
    planted(Rule::ForeignNote, "C major: C3:5/3 F3:5/3", "D5 C5", 0, 0),
    planted(
        Rule::SameNote,
        "C major: C3:5/3 A2:5/3 F2:5/3 C3:5/3 A2:5/3 G2:5/3",
        "C5 C5 C5 C5 C5 B4",
        0,
        4,
    ),
    planted(Rule::Circling, "C major: C3:5/3 G2:5/3 C3:5/3 G2:5/3 C3:5/3", "C5 B4 C5 B4 C5", 0, 4),
];

/// The phrase of a planted fault, its soprano over every stage.
fn phrase(it: &Planted) -> Sketch {
    let mut phrase = sketch(it.bass);
    let mut tops = it.soprano.split(' ').map(pitch);
    for note in &mut phrase.notes {
        let stages = note.figures.as_ref().map_or(1, |figures| figures.stages().len());
        let pins = tops.by_ref().take(stages);
        note.soprano = pins.map(|pitch| Some(Pin { pitch, hold: Hold::Pinned })).collect();
    }
    // Every rule as usual, this one as strict as it can be.
    phrase.frame.rules = phrase.frame.rules.with(it.rule, Strictness::Fault);
    phrase
}

#[test]
fn every_rule_is_planted_once() {
    for (it, rule) in PLANTED.iter().zip(Rule::ALL) {
        assert_eq!(it.rule, rule);
    }
}

/// "Give a soprano": the fault is found where it is, and no other.
#[test]
fn planted_sopranos_are_found_at_their_place() {
    let mut wrong = Vec::new();
    for it in &PLANTED {
        let phrase = phrase(it);
        let mut start = phrase.clone();
        start.notes.iter_mut().for_each(|note| note.soprano.clear());
        let task = Exercise { sketch: start, asks: vec![SOPRANO], ..Exercise::default() };
        let report = graded(&task, &phrase);
        let severity =
            if it.rule.is_about_stretches() { Severity::Caution } else { Severity::Fault };
        let found: Vec<(Rule, usize, usize)> = report
            .findings()
            .filter(|found| severity <= found.severity)
            .map(|found| match &found.kind {
                FindingKind::Outer(fault) => (fault.rule, fault.from, fault.to),
                kind => panic!("{:?}: {kind:?}", it.rule),
            })
            .collect();
        let mut expected = vec![(it.rule, it.from, it.to)];
        expected.extend(it.with.map(|rule| (rule, it.from, it.to)));
        if found != expected {
            wrong.push((it.rule, said(&report)));
        }
    }
    assert_eq!(wrong, []);
}

/// "Find the faults": named at its place it is found; at another place, under
/// another name or not at all it is not.
#[test]
fn planted_faults_are_marked_right_or_wrong() {
    for it in PLANTED.iter().filter(|it| !it.rule.is_about_stretches() && it.with.is_none()) {
        let task = Exercise {
            sketch: phrase(it),
            asks: vec![Ask::FindFaults(Naming::Named)],
            ..Exercise::default()
        };
        let marked = |marks: &[(usize, Rule)]| {
            let found =
                marks.iter().map(|&(chord, rule)| Found { chord, rule: Some(rule) }).collect();
            check(&task, &Answer { found, ..Answer::start(&task) })
        };
        for chord in it.from..=it.to {
            let report = marked(&[(chord, it.rule)]);
            assert!(report.is_done(), "{:?}: {:?}", it.rule, said(&report));
        }
        // Another rule that is not broken there, not even as a caution.
        let all = read(&task.sketch).frame.faults;
        let other = Rule::ALL.into_iter().find(|rule| all.iter().all(|it| it.rule != *rule));
        let other = other.expect("a rule that is kept");
        let report = marked(&[(it.to, other)]);
        let kinds: Vec<_> = report.findings().map(|found| &found.kind).collect();
        assert!(matches!(kinds[..], [FindingKind::Misnamed { .. }]), "{:?}: {kinds:?}", it.rule);
        let report = marked(&[(it.to, it.rule), (it.from, other)]);
        let kinds: Vec<_> = report.findings().map(|found| &found.kind).collect();
        assert!(matches!(kinds[..], [FindingKind::NoFaultThere(_)]), "{:?}: {kinds:?}", it.rule);
        let far = it.to + 1;
        let report = marked(&[(far, it.rule)]);
        let mut kinds: Vec<_> = report.findings().map(|found| &found.kind).collect();
        kinds.sort_by_key(|kind| matches!(kind, FindingKind::Missed(_)));
        assert!(
            matches!(kinds[..], [FindingKind::NoFaultThere(_), FindingKind::Missed(_)]),
            "{:?}: {kinds:?}",
            it.rule
        );
    }
}

/// A published line with one note moved to a neighbour tone of its chord is told
/// exactly what the rulebook says of it, and never less.
#[test]
fn a_moved_note_is_judged_by_the_rulebook() {
    let whole = published();
    let task = given(&whole, SOPRANO);
    let clean = read(&whole).frame.faults;
    for (i, (_, _, upper)) in HILES.iter().enumerate() {
        let mut answer = whole.clone();
        let pin = answer.notes[i].soprano[0].as_mut().expect("a pin");
        // Down to the next voice of the published chord.
        let below = upper.split(' ').nth(1).expect("a second voice");
        pin.pitch = pitch(below);
        let report = graded(&task, &answer);
        let found: Vec<_> = report
            .findings()
            .map(|it| match &it.kind {
                FindingKind::Outer(fault) => fault.clone(),
                kind => panic!("{kind:?}"),
            })
            .collect();
        assert_eq!(found, read(&answer).frame.faults);
        // Whatever is new touches the moved note, the stretches of the line aside.
        for fault in found.iter().filter(|it| !clean.contains(it)) {
            assert!(
                (fault.from <= i && i <= fault.to) || fault.rule.is_about_stretches(),
                "{i}: {fault:?}"
            );
        }
    }
}

/// With-soprano notation and the pins above are one.
#[test]
fn the_published_soprano_is_pinned() {
    let tops: Vec<&str> = HILES.iter().filter_map(|it| it.2.split(' ').next_back()).collect();
    let plain = with_soprano(sketch("C major: C3"), tops[0]);
    assert_eq!(plain.notes[0].soprano, published().notes[0].soprano);
}
