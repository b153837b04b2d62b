//! Checking answers: each ask says what is done, what is not and where.

use tastata::figures::read_figures;
use tastata::frame::{Motion, Position, Rule, RuleSwitches, Severity, Strictness};
use tastata::hands::{HandTrouble, Handful};
use tastata::harmony::Cadence;
use tastata::lesson::{
    Answer, Ask, Asked, Exercise, Feedback, Finding, FindingKind, Found, Measure, Model,
    MotionLimit, Naming, Opens, Outcome, Part, Parts, Progress, Report, check, check_model,
    close_chords, freeze, in_tonality, make, outer_voices,
};
use tastata::pitch::Tonality;
use tastata::reading::read;
use tastata::roll::Stroke;
use tastata::sketch::{Hold, Pin, Sketch, SketchNote};
use tastata::words::{Lang, ask, finding, finding_advice, report_summary};
use tastata_tests::lesson::{sketch, with_soprano};
use tastata_tests::outer::pitch;

fn exercise(given: Sketch, asked: Ask) -> Exercise {
    Exercise { sketch: given, asks: vec![asked], ..Exercise::default() }
}

fn answered(exercise: &Exercise, sketch: Sketch) -> Report {
    check(exercise, &Answer { sketch, ..Answer::default() })
}

/// The findings as sentences.
fn said(report: &Report) -> Vec<String> {
    report.findings().map(|it| finding(it, Lang::English)).collect()
}

fn outcome(report: &Report) -> Outcome {
    report.results[0].outcome
}

const SCALE: &str = "C major: C3 D3 E3 F3 G3 A3 B3 C4";

#[test]
fn figures_are_measured_by_their_notes() {
    let given = sketch(SCALE);
    let task = exercise(given.clone(), Ask::Figures(Measure::Accepted));
    let check = |bass: &str, expected: &[&str]| {
        let report = answered(&task, sketch(&format!("C major: {bass}")));
        assert_eq!(said(&report), expected, "{bass}");
        report
    };
    // The 4/3 written short or in full, a plain 6 on the 2nd and 7th (Gasparini
    // 1708), the 5/3 on the 4th.
    for good in [
        "C3:5/3 D3:4/3 E3:6 F3:6/5 G3:5/3 A3:6 B3:6/5 C4:5/3",
        "C3:. D3:6/4/3 E3:6/3 F3:6/5/3 G3:5 A3:6 B3:5b C4:8",
        "C3:5/3 D3:6 E3:6 F3:5/3 G3:5/3 A3:6 B3:6 C4:5/3",
    ] {
        assert_eq!(outcome(&check(good, &[])), Outcome::Done);
    }
    let report = check(
        "C3:5/3 D3:5/3 E3:6 F3 G3:6/4 A3:6 B3:6/5 C4:5/3",
        &[
            "Note 2: 5/3 does not belong here; 4/3 does.",
            "Note 4 has no figures yet.",
            "Note 5: 6/4 does not belong here; 5/3 does.",
        ],
    );
    assert_eq!(outcome(&report), Outcome::NotYet);
    assert_eq!(report.results[0].findings[0].chords, Some((1, 1)));
    assert_eq!(outcome(&answered(&task, given)), Outcome::Blank);
}

/// Simple, compound and double cadence, on one long bass note or on several
/// ("Cadences: the basics", essaysonmusic.com).
#[test]
fn a_cadence_may_be_figured_in_every_way_it_is_made() {
    let one = exercise(sketch("C major: C3 F3 G3 C3"), Ask::Figures(Measure::Accepted));
    for fifth in ["5/3", "7", "4-3", "5/4-5/3", "6/4-5/3", "6/4-7", "5/3-6/4-5/4-5/3"] {
        let report = answered(&one, sketch(&format!("C major: C3:. F3:6/5 G3:{fifth} C3:.")));
        assert_eq!(said(&report), [""; 0], "{fifth}");
    }
    let two = exercise(sketch("A minor: A2 E3 E3 A2"), Ask::Figures(Measure::Accepted));
    for fifths in ["E3:4 E3:#", "E3:6/4 E3:5/#", "E3:# E3:7/#", "E3:# E3:#"] {
        let report = answered(&two, sketch(&format!("A minor: A2:. {fifths} A2:.")));
        assert_eq!(said(&report), [""; 0], "{fifths}");
    }
    let report = answered(&two, sketch("A minor: A2:. E3:4 E3:4 A2:."));
    assert_eq!(said(&report), ["Note 3: 4 does not belong here; ♯ does."]);
}

#[test]
fn the_model_may_be_the_only_measure() {
    let given = sketch("C major: C3 D3 E3");
    let mut task = exercise(given, Ask::Figures(Measure::AsModel));
    let finished = sketch("C major: C3:5/3 D3:7-6 E3:6");
    task.model = Some(Model { sketch: finished.clone(), opens: Opens::Anytime });
    assert!(answered(&task, finished).is_done());
    let report = answered(&task, sketch("C major: C3:5/3 D3:4/3 E3:6"));
    assert_eq!(said(&report), ["From note 2: one chord, where the cadence or figure wants 2."]);
    task.asks = vec![Ask::Figures(Measure::Complete)];
    assert!(answered(&task, sketch("C major: C3:7 D3:7 E3:7")).is_done());
    task.asks = vec![Ask::Figures(Measure::Accepted)];
    assert!(answered(&task, sketch("C major: C3:5/3 D3:4/3 E3:6")).is_done());
}

#[test]
fn what_was_given_stays() {
    let given = with_soprano(sketch("C major: C3:5/3 D3 E3"), "E5");
    let task = exercise(given, Ask::Figures(Measure::Accepted));
    let check = |bass: &str, soprano: &str, expected: &[&str]| {
        let report = answered(&task, with_soprano(sketch(&format!("C major: {bass}")), soprano));
        assert_eq!(said(&report), expected, "{bass} {soprano}");
    };
    check("C3:5/3 D3:6 E3:6", "E5", &[]);
    check("C3:5/3 D3:6 E3:6", "G5", &["Note 1: the given soprano note was changed."]);
    check("C3:6 D3:6 E3:6", "E5", &["Note 1: the given figure was changed."]);
    check("C3:5/3 D2:6 E3:6", "E5", &["Note 2: the given bass note was changed."]);
    check("C3:5/3 D3:6", "E5", &["Note 3: the given bass note was changed."]);
    check("C3:5/3 D3:6 E3:6 F3:5/3", "E5", &["Note 4: the given bass note was changed."]);
}

#[test]
fn a_soprano_is_clean_and_moves_as_asked() {
    let given = sketch("C major: C3:5/3 D3:6 E3:6 F3:5/3 G3:5/3 C3:5/3");
    let asked =
        Ask::Soprano { position: Some(Position::Third), motions: MotionLimit::ContraryOrTenths };
    let task = exercise(given.clone(), asked.clone());
    let check = |soprano: &str, expected: &[&str]| {
        let report = answered(&task, with_soprano(given.clone(), soprano));
        assert_eq!(said(&report), expected, "{soprano}");
        report
    };
    assert!(check("E4 F4 G4 A4 B4 C5", &[]).is_done());
    check("E4 F4 G4 A4 B4 -", &["Chord 6: no soprano note of yours yet."]);
    check(
        "G4 F4 G4 A4 B4 C5",
        &["The soprano does not start in second position, the third on top."],
    );
    let report = check(
        "E4 F4 G4 A4 D5 C5",
        &[
            "Chords 4–5: similar motion, where only contrary motion and tenths are allowed.",
            "Hidden fifths with a leaping soprano, chords 4–5: F–A to G–D.",
            "Chords 5–6: similar motion, where only contrary motion and tenths are allowed.",
        ],
    );
    assert_eq!((report.faults(), report.cautions()), (2, 1));
    assert_eq!(outcome(&answered(&task, given)), Outcome::Blank);
}

/// The exercise's rules count, whatever the answer's own say.
#[test]
fn the_teachers_rules_count() {
    let given = sketch("C major: C3:5/3 D3:5/3");
    let fifths = with_soprano(given.clone(), "G4 A4");
    let asked = Ask::Soprano { position: None, motions: MotionLimit::Any };
    let mut lenient = fifths.clone();
    let off = RuleSwitches::default().with(Rule::ConsecutiveFifths, Strictness::Off);
    lenient.frame.rules = off;
    let strict = exercise(given.clone(), asked.clone());
    assert_eq!(
        said(&answered(&strict, lenient)),
        ["Consecutive fifths between outer voices, chords 1–2: C–G to D–A."]
    );
    let mut task = exercise(given, asked);
    task.sketch.frame.rules = off;
    assert!(answered(&task, fifths).is_done());
}

#[test]
fn planted_faults_are_found_by_place_and_name() {
    // Fifths at chords 1–2 and 2–3, an unrisen leading note at 5–6.
    let given = with_soprano(
        sketch("C major: C3:5/3 D3:5/3 E3:5/3 F3:5/3 G3:5/3 C3:5/3"),
        "G4 A4 B4 A4 B4 G4",
    );
    let planted = read(&given).frame.faults;
    let planted: Vec<_> = planted.iter().filter(|it| it.severity == Severity::Fault).collect();
    let places: Vec<_> = planted.iter().map(|it| (it.rule, it.from, it.to)).collect();
    assert_eq!(
        places,
        [
            (Rule::ConsecutiveFifths, 0, 1),
            (Rule::ConsecutiveFifths, 1, 2),
            (Rule::UnrisenLeadingNote, 4, 5),
        ]
    );
    let check = |naming, marks: &[(usize, Option<Rule>)], expected: &[&str]| {
        let task = exercise(given.clone(), Ask::FindFaults(naming));
        let found = marks.iter().map(|&(chord, rule)| Found { chord, rule }).collect();
        let report = check(&task, &Answer { found, ..Answer::start(&task) });
        assert_eq!(said(&report), expected, "{marks:?}");
        report
    };
    let fifths = Some(Rule::ConsecutiveFifths);
    let leading = Some(Rule::UnrisenLeadingNote);
    let all = [(1, fifths), (2, fifths), (5, leading)];
    assert!(check(Naming::Named, &all, &[]).is_done());
    // Both marks at either end of their faults, the middle chord claimed by the other.
    assert!(check(Naming::Named, &[(1, fifths), (0, fifths), (4, leading)], &[]).is_done());
    assert!(check(Naming::Place, &[(0, None), (1, None), (4, fifths)], &[]).is_done());
    check(
        Naming::Named,
        &[(1, fifths), (3, fifths), (5, fifths)],
        &[
            "Not found: consecutive fifths between outer voices, chords 2–3: D–A to E–B.",
            "Chord 4: no “consecutive fifths between outer voices” there.",
            "Chords 5–6: there is a fault, but not “consecutive fifths between outer voices”: \
             leading note in the soprano does not rise, chords 5–6: G–B to C–G.",
        ],
    );
    let blank = check(
        Naming::Named,
        &[],
        &[
            "Not found: consecutive fifths between outer voices, chords 1–2: C–G to D–A.",
            "Not found: consecutive fifths between outer voices, chords 2–3: D–A to E–B.",
            "Not found: leading note in the soprano does not rise, chords 5–6: G–B to C–G.",
        ],
    );
    assert_eq!(outcome(&blank), Outcome::Blank);
}

#[test]
fn close_chords_are_opened() {
    let given = with_soprano(sketch("C major: C3:5/3 G2:5/3 C3:5/3"), "E5 D5 E5");
    let reading = read(&given);
    let close = close_chords(&reading.harmony.chords, &reading.frame.soprano);
    let names = |notes: &[tastata::pitch::Pitch]| {
        notes.iter().map(|note| note.to_string()).collect::<Vec<_>>().join(" ")
    };
    assert_eq!((names(&close[0].left), names(&close[0].right)), ("C3".into(), "G4 E5".into()));
    assert_eq!((names(&close[1].left), names(&close[1].right)), ("G2".into(), "B4 D5".into()));
    let task = exercise(given.clone(), Ask::Handfuls { least: 3 });
    let opened = |hands: &[(&str, &str)]| {
        let mut sketch = given.clone();
        let pitches = |text: &str| text.split_whitespace().map(pitch).collect();
        for (note, (left, right)) in sketch.notes.iter_mut().zip(hands) {
            let handful = Handful { left: pitches(left), right: pitches(right) };
            note.handfuls = vec![Some(handful)];
        }
        answered(&task, sketch)
    };
    let good = [("C3 G3 C4", "E4 G4 E5"), ("G2 D3 G3", "D4 B4 D5"), ("C3 G3 C4", "E4 G4 E5")];
    let report = opened(&good);
    assert_eq!(said(&report), [""; 0]);
    assert!(report.is_done());
    assert_eq!(said(&opened(&good[..2])), ["Chord 3: no handful of yours yet."]);
    let thin = [good[0], ("G2 D3", "G4 B4 D5"), good[2]];
    assert_eq!(said(&opened(&thin)), ["Chord 2: the left hand has 2 notes of the 3 asked for."]);
    let wide = [("C3 G3 E4", "G4 C5 E5"), good[1], good[2]];
    let report = opened(&wide);
    assert!(
        matches!(
            &report.results[0].findings[..],
            [Finding { chords: Some((0, 0)), kind: FindingKind::Hand(remark), .. }]
                if matches!(remark.kind, HandTrouble::TooWide { .. })
        ),
        "{:?}",
        said(&report)
    );
    let foreign = [("C3 F3 C4", "E4 G4 E5"), good[1], good[2]];
    assert_eq!(said(&opened(&foreign)), ["Chord 1: F is no note of the chord."]);
    assert_eq!(outcome(&opened(&[])), Outcome::Blank);
}

#[test]
fn acciaccaturas_are_counted() {
    let mut given = sketch("A minor: A2:. D3:6 E3:7/# A2:.");
    given.roll.spice = 0;
    let task = exercise(given.clone(), Ask::Roll { acciaccaturas: 2 });
    assert_eq!(outcome(&answered(&task, given.clone())), Outcome::Blank);
    let mut swept = given.clone();
    swept.notes[0].stroke.stroke = Some(Stroke::Sweep);
    assert_eq!(said(&answered(&task, swept)), ["There are no acciaccaturas of the 2 asked for."]);
    let mut spiced = given;
    spiced.roll.spice = 100;
    let report = answered(&task, spiced);
    assert_eq!(said(&report), [""; 0]);
    assert!(report.is_done());
}

#[test]
fn a_phrase_is_finished_by_its_cadence() {
    let given = sketch("C major: C3 E3 F3");
    let cadences = [
        ("G3 C3", Some(Cadence::Simple)),
        ("G3:7 C3", Some(Cadence::Simple)),
        ("G3 G3 C3", Some(Cadence::Compound)),
        ("G3:4-3 C3", Some(Cadence::Compound)),
        ("G3:6/4-5/3 C3", Some(Cadence::Compound)),
        ("G3 G3 G3 G3 C3", Some(Cadence::Double)),
        ("G3:5/3-6/4-5/4-5/3 C3", Some(Cadence::Double)),
        ("G3:b C3", None),
        ("G3 C3:6", None),
        ("G3", None),
        ("D3 C3", None),
    ];
    for wanted in [Cadence::Simple, Cadence::Compound, Cadence::Double] {
        let task = exercise(given.clone(), Ask::Finish(wanted));
        for (ending, cadence) in cadences {
            let report = answered(&task, sketch(&format!("C major: C3 E3 F3 {ending}")));
            let no = |it: &Finding| matches!(it.kind, FindingKind::NoCadence { .. });
            assert_eq!(report.findings().any(no), cadence != Some(wanted), "{ending} {wanted:?}");
            if cadence == Some(wanted) {
                assert!(report.is_done(), "{ending}: {:?}", said(&report));
            }
        }
        assert_eq!(outcome(&answered(&task, given.clone())), Outcome::Blank);
    }
}

#[test]
fn a_bass_is_played_in_other_keys() {
    let given = sketch("C major: C3:5/3 F3:6/5 G3:5/3 C3:5/3");
    let keys: Vec<Tonality> = ["D", "Ab"].iter().filter_map(|key| Tonality::parse(key)).collect();
    let task = exercise(given.clone(), Ask::Keys(keys.clone()));
    let played = |key: Tonality| {
        let moved = in_tonality(&given, key);
        freeze(&moved, &read(&moved), Parts::ALL)
    };
    let answer = |keys: Vec<Sketch>| Answer { keys, ..Answer::start(&task) };
    let both = answer(vec![played(keys[1]), played(keys[0])]);
    let report = check(&task, &both);
    assert_eq!(said(&report), [""; 0]);
    assert!(report.is_done());
    // Another octave is no matter.
    let mut low = both.clone();
    low.keys[0].notes[1].pitch = pitch("Db2");
    assert!(check(&task, &low).is_done(), "{:?}", said(&check(&task, &low)));
    assert_eq!(
        said(&check(&task, &answer(vec![played(keys[0])]))),
        ["Nothing was played in A♭ major yet."]
    );
    let mut wrong = both.clone();
    wrong.keys[1].notes[2].pitch = pitch("G3");
    assert_eq!(said(&check(&task, &wrong)), ["In D major, note 3: G in the bass instead of A."]);
    let mut short = both.clone();
    short.keys[1].notes.pop();
    assert_eq!(said(&check(&task, &short)), ["In D major, note 4: the bass stops before D."]);
    // The third of the dominant left flat in one hand.
    let mut flat = both.clone();
    let note = &mut flat.keys[1].notes[2];
    let handful = note.handfuls[0].as_mut().expect("a handful");
    let mut changed = 0;
    for note in handful.left.iter_mut().chain(&mut handful.right) {
        if (note.step, note.alter) == (tastata::pitch::Step::C, 1) {
            note.alter = 0;
            changed += 1;
        }
    }
    if let Some(Some(pin)) = note.soprano.first_mut()
        && pin.pitch.step == tastata::pitch::Step::C
    {
        pin.pitch.alter = 0;
    }
    assert!(changed > 0);
    let report = check(&task, &flat);
    assert!(
        said(&report).contains(
            &"In D major, chord 3: C♯ belongs to the chord and found no finger within your span."
                .to_string()
        ),
        "{:?}",
        said(&report)
    );
    let mut unplayed = both;
    unplayed.keys[0].notes[3].soprano.clear();
    assert_eq!(said(&check(&task, &unplayed)), ["In A♭ major, chord 4 was not played."]);
}

#[test]
fn free_work_is_told_all() {
    let given = sketch("C major: C3");
    let task = exercise(given.clone(), Ask::Free);
    assert_eq!(outcome(&answered(&task, given)), Outcome::Blank);
    assert!(answered(&task, sketch("C major: C3 D3 E3 F3 G3 C3")).is_done());
    let faulty = with_soprano(sketch("C major: C3:5/3 D3:5/3"), "G4 A4");
    assert_eq!(answered(&task, faulty).faults(), 1);
}

/// Every exercise made from a sketch can be done as the model does it.
#[test]
fn the_model_does_what_it_asks() {
    let piece = sketch("D minor: D3 C#3 D3 E3 F3 G3 A3 Bb3 A3 G3 F3 E3 D3 G2 A2 D2");
    let keys: Vec<Tonality> = ["e", "g", "f#"].iter().filter_map(|k| Tonality::parse(k)).collect();
    for asked in [
        Ask::Figures(Measure::Accepted),
        Ask::Figures(Measure::AsModel),
        Ask::Soprano { position: None, motions: MotionLimit::Any },
        Ask::Handfuls { least: 2 },
        Ask::Roll { acciaccaturas: 1 },
        Ask::Keys(keys),
        Ask::Finish(Cadence::Simple),
    ] {
        let task = make(&piece, vec![asked.clone()]);
        let report = check_model(&task).expect("a model");
        assert!(report.is_done(), "{asked:?}: {:?}", said(&report));
        assert_eq!(report.differences, []);
        // And what is given alone does not do.
        let blank = check(&task, &Answer::start(&task));
        assert_eq!(outcome(&blank), Outcome::Blank, "{asked:?}");
        assert!(!ask(&asked, Lang::English).is_empty());
    }
}

#[test]
fn what_is_asked_is_not_given() {
    let piece = with_soprano(sketch("C major: C3 D3:7-6 E3 F3 G3 C3"), "E5");
    let bits = |asks| make(&piece, asks);
    let figures = bits(vec![Ask::Figures(Measure::Accepted)]);
    assert!(figures.sketch.notes.iter().all(|note| note.figures.is_none()));
    assert_eq!(figures.given, Parts::NONE.with(Part::Bass));
    let soprano = Ask::Soprano { position: None, motions: MotionLimit::Any };
    let task = bits(vec![soprano.clone()]);
    assert!(task.sketch.notes.iter().all(|note| note.figures.is_some() && note.soprano.is_empty()));
    assert!(task.given.has(Part::Figures) && !task.given.has(Part::Soprano));
    let both = bits(vec![soprano, Ask::Figures(Measure::Accepted)]);
    assert!(both.sketch.notes.iter().all(|n| n.figures.is_none() && n.soprano.is_empty()));
    let finish = bits(vec![Ask::Finish(Cadence::Simple)]);
    assert_eq!(finish.sketch.notes.len(), 4);
    let find = bits(vec![Ask::FindFaults(Naming::Named)]);
    assert!(find.model.is_none() && find.sketch.notes.iter().all(|n| !n.soprano.is_empty()));
}

#[test]
fn differences_from_the_model_are_shown() {
    let task = make(&sketch("C major: C3 D3 E3 F3 G3 C3"), vec![Ask::Figures(Measure::Accepted)]);
    let model = task.model.as_ref().expect("a model").sketch.clone();
    assert_eq!(answered(&task, model.clone()).differences, []);
    let mut other = model.clone();
    other.notes[1].figures = read_figures("6").ok();
    let report = answered(&task, other);
    assert!(report.is_done());
    assert_eq!(report.differences[0].chord, 1);
    let said = tastata::words::difference(&report.differences[0], Lang::English);
    assert!(said.starts_with("Chord 2: 6 where the model has 4/3"), "{said}");
    assert!(report_summary(&report, Lang::English).starts_with("Done. No faults. "));
}

#[test]
fn the_model_opens_when_it_may() {
    let at = |opens, progress| {
        let model = Some(Model { sketch: Sketch::default(), opens });
        Exercise { model, ..Exercise::default() }.open_model(progress).is_some()
    };
    use Progress::{HandedIn, Started, Tried};
    let row = |opens| [Started, Tried, HandedIn].map(|progress| at(opens, progress));
    assert_eq!(row(Opens::Anytime), [true, true, true]);
    assert_eq!(row(Opens::AfterTrying), [false, true, true]);
    assert_eq!(row(Opens::AfterHandIn), [false, false, true]);
    assert!(Feedback::Live.shows(Started, Asked::No));
    assert!(!Feedback::OnRequest.shows(Tried, Asked::No));
    assert!(Feedback::OnRequest.shows(Started, Asked::Now));
    assert!(!Feedback::AtEnd.shows(Tried, Asked::Now));
    assert!(Feedback::AtEnd.shows(HandedIn, Asked::No));
}

#[test]
fn a_fault_is_heard_alone() {
    let reading = read(&with_soprano(sketch("C major: C3 D3 E3 F3"), "G4 A4 C5 A4"));
    let heard = outer_voices(&reading, 1, 2);
    let names: Vec<_> = heard.touches.iter().map(|t| (t.chord, t.pitch.to_string())).collect();
    let names: Vec<_> = names.iter().map(|(chord, name)| (*chord, name.as_str())).collect();
    assert_eq!(names, [(1, "D3"), (1, "A4"), (2, "E3"), (2, "C5")]);
    assert!(heard.touches.iter().all(|touch| touch.down < touch.up && touch.up <= heard.end));
    assert!(outer_voices(&reading, 9, 3).touches.is_empty());
}

/// Nothing panics, whatever the answer has become.
#[test]
fn any_answer_gets_a_report() {
    let mut draw = tastata_tests::lesson::Draw(29);
    for _ in 0..150 {
        let hand_in = draw.hand_in();
        for (exercise, answer) in hand_in.set.exercises.iter().zip(&hand_in.answers) {
            let Some(answer) = answer else { continue };
            let report = check(exercise, answer);
            for it in report.findings() {
                assert!(!finding(it, Lang::English).is_empty());
                assert!(!finding_advice(it, Lang::English).is_empty());
            }
            assert!(!report_summary(&report, Lang::English).is_empty());
            let _ = (check_model(exercise), Motion::Still);
        }
    }
    let strange = SketchNote {
        soprano: vec![Some(Pin { pitch: pitch("C9"), hold: Hold::Pinned })],
        ..SketchNote::bare(pitch("C0"))
    };
    let task = exercise(Sketch { notes: vec![strange; 3], ..Sketch::default() }, Ask::Free);
    let _ = check(&task, &Answer::default());
}
