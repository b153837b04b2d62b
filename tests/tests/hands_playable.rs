//! Every performance that the program produces can be played by two hands: those of sketches,
//! whole preludes, drills, questions for the ear, other chords tried in their place, and outer
//! voices heard alone and slowly.

use proptest::prelude::*;
use tastata::frame::{Rule, example, pairs};
use tastata::hands::{
    Edit, Hand, HandSize, HandTrouble, HandWishes, Handful, Hardship, LowKeys, Way, edited,
    hardships,
};
use tastata::harmony::{Version, alternatives};
use tastata::lesson as hear;
use tastata::lesson::drill::{Item, ear_cadence, ear_degree, ear_motion, question};
use tastata::pitch::{Mode, Pitch, PitchClass, Step, Tonality};
use tastata::prelude::prelude;
use tastata::reading::read;
use tastata::roll::{Held, RollWishes, Stroke, StrokePlan, outer_voices};
use tastata::sketch::{Sketch, SketchNote};
use tastata_tests::outer::{C_MAJOR, pitch, scale_chord};

fn hands() -> impl Strategy<Value = HandWishes> {
    let size = || (2..6u8, 5..11u8).prop_map(|(notes, span)| HandSize { notes, span });
    let low_keys =
        prop_oneof![Just(LowKeys::Chromatic), Just(LowKeys::ShortC), Just(LowKeys::ShortG)];
    (size(), size(), low_keys).prop_map(|(left, right, low_keys)| HandWishes {
        left,
        right,
        low_keys,
        ..HandWishes::default()
    })
}

fn rolls() -> impl Strategy<Value = RollWishes> {
    let stroke = prop_oneof![
        Just(Stroke::Sweep),
        Just(Stroke::HandAfterHand),
        Just(Stroke::InsideOut),
        Just(Stroke::BrokenThirds),
        Just(Stroke::TurningBack),
        Just(Stroke::RepeatedBass),
        Just(Stroke::BassAlone),
        any::<[u8; 8]>().prop_map(Stroke::Drawn),
    ];
    let plan = prop_oneof![
        stroke.prop_map(StrokePlan::Even),
        Just(StrokePlan::Speech),
        Just(StrokePlan::Varied),
    ];
    let held = prop_oneof![Just(Held::Collected), Just(Held::Kept), Just(Held::LetGo)];
    (0..5u8, 25..=400u16, any::<u32>(), plan, 0..=100u8, held).prop_map(
        |(times, speed, seed, plan, spice, held)| RollWishes {
            times,
            speed,
            seed,
            plan,
            spice,
            held,
        },
    )
}

fn sketches() -> impl Strategy<Value = Sketch> {
    let mode = prop_oneof![Just(Mode::Major), Just(Mode::Minor)];
    let bass = prop::collection::vec(13..24i32, 1..16);
    (-5..=5, mode, bass, hands(), rolls(), 0..4u8).prop_map(
        |(fifths, mode, bass, hands, roll, choice)| {
            let tonality = Tonality::new(PitchClass::from_fifths(fifths), mode);
            let mut sketch = Sketch { tonality: Some(tonality), hands, roll, ..Sketch::default() };
            for diatonic in bass {
                let alter = tonality.class_of(Step::wrapped(diatonic)).alter;
                sketch.notes.push(SketchNote::bare(Pitch::from_diatonic(diatonic, alter)));
            }
            sketch.frame.choice = choice;
            sketch
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn performances_are_playable(sketch in sketches()) {
        prop_assert_eq!(unplayable(&sketch), None);
    }

    #[test]
    fn preludes_are_playable(
        tonic in -5..=5,
        mode in prop_oneof![Just(Mode::Major), Just(Mode::Minor)],
        seconds in 20..80u32,
        seed in any::<u32>(),
        hands in hands(),
        roll in rolls(),
    ) {
        let tonality = Tonality::new(PitchClass::from_fifths(tonic), mode);
        let composed = prelude(tonality, seconds, seed);
        prop_assert_eq!(unplayable(&composed), None);
        prop_assert_eq!(unplayable(&Sketch { hands, roll, ..composed }), None);
    }

    #[test]
    fn drills_and_questions_for_the_ear_are_playable(
        number in any::<prop::sample::Index>(),
        tonic in -5..=5,
        seed in any::<u32>(),
        hands in hands(),
        roll in rolls(),
    ) {
        let items = Item::all();
        let tonic = PitchClass::from_fifths(tonic);
        let drill = question(*number.get(&items), tonic, Version::Campion, seed).sketch;
        let asked = [drill, ear_motion(seed).sketch, ear_degree(seed).sketch, ear_cadence(seed).sketch];
        for sketch in asked {
            prop_assert_eq!(unplayable(&sketch), None);
            let (hands, roll) = (hands.clone(), roll.clone());
            prop_assert_eq!(unplayable(&Sketch { hands, roll, ..sketch }), None);
        }
    }

    #[test]
    fn other_chords_tried_are_playable(sketch in sketches(), note in any::<prop::sample::Index>()) {
        let note = note.index(sketch.notes.len());
        for other in alternatives(&sketch, note) {
            let mut tried = sketch.clone();
            tried.notes[note].figures = Some(other.figures);
            prop_assert_eq!(unplayable(&tried), None);
        }
    }

    #[test]
    fn outer_voices_heard_alone_are_playable(sketch in sketches()) {
        let reading = read(&sketch);
        let last = reading.harmony.chords.len();
        let heard = hear::outer_voices(&reading, 0, last);
        let crossed = |chord: usize| {
            let bass = reading.harmony.chords[chord].bass;
            reading.frame.soprano[chord].semitones() < bass.semitones()
        };
        for hardship in hardships(&HandWishes::default(), &heard) {
            prop_assert!(crossed(hardship.chord), "{:?}", hardship);
        }
    }
}

/// What two hands cannot do in a sketch's performance, handfuls aside of which it is said that
/// no hands can take them.
fn unplayable(sketch: &Sketch) -> Option<Hardship> {
    let reading = read(sketch);
    let excused = |chord: usize| {
        reading.hands.remarks.iter().any(|remark| {
            remark.chord == chord
                && matches!(remark.kind, HandTrouble::HandsCollide | HandTrouble::TooWide { .. })
        })
    };
    hardships(&sketch.hands, &reading.performance).into_iter().find(|it| !excused(it.chord))
}

#[test]
fn the_examples_of_the_rules_are_playable() {
    for rule in Rule::ALL.into_iter().filter(|rule| *rule != Rule::VoiceCrossing) {
        let example = example(rule);
        let heard = outer_voices(&pairs(&example.chords, &example.soprano));
        assert_eq!(hardships(&HandWishes::default(), &heard), [], "{rule:?}");
    }
}

fn handful(left: &str, right: &str) -> Handful {
    let notes = |text: &str| text.split_whitespace().map(pitch).collect();
    Handful { left: notes(left), right: notes(right) }
}

#[test]
fn inner_notes_move_and_outer_ones_stay() {
    let chord = scale_chord(C_MAJOR, 0, pitch("C3"), &[1, 3, 5]);
    let start = handful("C3 G3", "C4 E4 G4");
    let after = |edit| edited(&start, &chord, edit);
    let (left, right) = (Hand::Left, Hand::Right);
    let to = |from: &str, to: &str| Edit::Move { hand: left, from: pitch(from), to: pitch(to) };
    assert_eq!(after(to("G3", "E3")), handful("C3 E3", "C4 E4 G4"));
    assert_eq!(after(to("C3", "E3")), start);
    assert_eq!(after(to("G3", "B2")), start);
    let add = |pitch| Edit::Add { hand: left, pitch };
    assert_eq!(after(add(pitch("E3"))), handful("C3 E3 G3", "C4 E4 G4"));
    assert_eq!(after(add(pitch("G3"))), start);
    assert_eq!(after(Edit::Drop { hand: right, pitch: pitch("E4") }), handful("C3 G3", "C4 G4"));
    assert_eq!(after(Edit::Drop { hand: right, pitch: pitch("G4") }), start);
    let shift = |way| Edit::Shift { hand: right, way };
    assert_eq!(after(shift(Way::Down)), handful("C3 G3", "G3 C4 G4"));
    // The upper inner note would meet the soprano and is one with it.
    assert_eq!(after(shift(Way::Up)), handful("C3 G3", "E4 G4"));
}
