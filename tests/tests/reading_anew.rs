//! Reading sketches that follow one another, with what was worked out before taken over, gives
//! what reading each from the start gives.

use proptest::prelude::*;
use tastata::frame::{Contour, Preference, Rule, Strictness};
use tastata::hands::{HandSize, Handful, LowKeys, Spacing};
use tastata::pitch::{Key, Mode, Pitch, PitchClass, Step, Tonality};
use tastata::reading::{Rereader, read};
use tastata::sketch::{Hold, Pin, Sketch, SketchNote, Weight};
use tastata_tests::outer::C_MAJOR;

/// Something a person does to a sketch; places are counted round.
#[derive(Clone, Debug)]
enum Deed {
    Bass(usize, i32),
    Pin(usize, i32),
    Free(usize),
    Own(usize, Vec<i32>),
    Insert(usize, i32),
    Delete(usize),
    Pass(usize),
    Choice(u8),
    Tenths,
    Daring(u8),
    Rule(usize, bool),
    Arch,
    Size(u8, u8),
    Short,
    Wide,
    Key(i32),
}

fn deeds() -> impl Strategy<Value = Deed> {
    let place = || 0..20usize;
    prop_oneof![
        6 => (place(), 55..84i32).prop_map(|(at, key)| Deed::Pin(at, key)),
        3 => (place(), 14..26i32).prop_map(|(at, to)| Deed::Bass(at, to)),
        2 => place().prop_map(Deed::Free),
        2 => (place(), prop::collection::vec(45..75i32, 0..5)).prop_map(|(at, k)| Deed::Own(at, k)),
        1 => (place(), 14..26i32).prop_map(|(at, to)| Deed::Insert(at, to)),
        1 => place().prop_map(Deed::Delete),
        1 => place().prop_map(Deed::Pass),
        1 => (0..9u8).prop_map(Deed::Choice),
        1 => Just(Deed::Tenths),
        1 => (0..5u8).prop_map(Deed::Daring),
        1 => (0..Rule::ALL.len(), any::<bool>()).prop_map(|(rule, off)| Deed::Rule(rule, off)),
        1 => Just(Deed::Arch),
        1 => (2..6u8, 6..10u8).prop_map(|(notes, span)| Deed::Size(notes, span)),
        1 => Just(Deed::Short),
        1 => Just(Deed::Wide),
        1 => (-5..=5i32).prop_map(Deed::Key),
    ]
}

fn note(diatonic: i32) -> SketchNote {
    SketchNote::bare(Pitch::from_diatonic(diatonic, 0))
}

fn change(sketch: &mut Sketch, deed: Deed) {
    let count = sketch.notes.len();
    let at = |place: usize| place % count.max(1);
    match deed {
        Deed::Insert(place, diatonic) => sketch.notes.insert(at(place), note(diatonic)),
        Deed::Delete(place) if count > 1 => drop(sketch.notes.remove(at(place))),
        Deed::Delete(_) => {}
        Deed::Bass(place, diatonic) => {
            let alter = C_MAJOR.class_of(Step::wrapped(diatonic)).alter;
            sketch.notes[at(place)].pitch = Pitch::from_diatonic(diatonic, alter);
        }
        Deed::Pin(place, key) => {
            let pin = Pin { pitch: C_MAJOR.spell(Key::clamped(key)), hold: Hold::Pinned };
            sketch.notes[at(place)].soprano = vec![Some(pin)];
        }
        Deed::Free(place) => sketch.notes[at(place)].soprano.clear(),
        Deed::Own(place, keys) => {
            let notes: Vec<Pitch> =
                keys.into_iter().map(|key| C_MAJOR.spell(Key::clamped(key))).collect();
            let (left, right) = notes.split_at(notes.len() / 2);
            let own = Handful { left: left.to_vec(), right: right.to_vec() };
            sketch.notes[at(place)].handfuls = vec![Some(own)];
        }
        Deed::Pass(place) => sketch.notes[at(place)].weight = Weight::Passing,
        Deed::Choice(choice) => sketch.frame.choice = choice,
        Deed::Tenths => sketch.frame.preference = Preference::Tenths,
        Deed::Daring(daring) => sketch.harmony.daring = daring,
        Deed::Rule(rule, off) => {
            let strictness = if off { Strictness::Off } else { Strictness::Fault };
            sketch.frame.rules = sketch.frame.rules.with(Rule::ALL[rule], strictness);
        }
        Deed::Arch => {
            sketch.frame.contour = Contour::arch(Key::clamped(64), Key::clamped(79), 600);
        }
        Deed::Size(notes, span) => sketch.hands.left = HandSize { notes, span },
        Deed::Short => sketch.hands.low_keys = LowKeys::ShortC,
        Deed::Wide => sketch.hands.spacing = Spacing::Wide,
        Deed::Key(fifths) => {
            let tonic = PitchClass::from_fifths(fifths);
            sketch.tonality = Some(Tonality::new(tonic, Mode::Major));
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_is_taken_over_changes_nothing(
        bass in prop::collection::vec(14..26i32, 1..14),
        deeds in prop::collection::vec(deeds(), 1..10),
    ) {
        let notes = bass.into_iter().map(note).collect();
        let mut sketch = Sketch { tonality: Some(C_MAJOR), notes, ..Sketch::default() };
        let mut reader = Rereader::default();
        prop_assert_eq!(reader.read(&sketch), read(&sketch));
        for deed in deeds {
            change(&mut sketch, deed);
            prop_assert_eq!(reader.read(&sketch), read(&sketch));
        }
    }

    /// In the moments of a drag the same chords, soprano and faults, and handfuls between them.
    #[test]
    fn what_is_read_in_brief_is_true(
        bass in prop::collection::vec(14..26i32, 1..14),
        deeds in prop::collection::vec(deeds(), 1..10),
    ) {
        let notes = bass.into_iter().map(note).collect();
        let mut sketch = Sketch { tonality: Some(C_MAJOR), notes, ..Sketch::default() };
        let mut reader = Rereader::default();
        let mut reading = reader.read(&sketch);
        for deed in deeds {
            change(&mut sketch, deed);
            let brief = reader.read_in_brief(&sketch, &reading);
            let whole = read(&sketch);
            prop_assert_eq!(&brief.harmony, &whole.harmony);
            // The number of good lines is that of before; where it stands, so does the line.
            if reading.frame.choices == whole.frame.choices || sketch.frame.choice == 0 {
                prop_assert_eq!(&brief.frame.soprano, &whole.frame.soprano);
                prop_assert_eq!(&brief.frame.faults, &whole.frame.faults);
                // Handfuls as full, with the same outer notes; the person's own as they stand.
                for (i, (a, b)) in brief.hands.handfuls.iter().zip(&whole.hands.handfuls).enumerate() {
                    prop_assert_eq!(a.left.first(), b.left.first());
                    prop_assert_eq!(a.right.last(), b.right.last());
                    let chord = &whole.harmony.chords[i];
                    let own = sketch.notes[chord.note].handfuls.get(chord.stage);
                    if own.is_some_and(Option::is_some) {
                        prop_assert_eq!(a, b);
                    }
                }
                prop_assert_eq!(brief.hands.handfuls.len(), whole.hands.handfuls.len());
            }
            prop_assert_eq!(reader.read(&sketch), whole.clone());
            reading = whole;
        }
    }
}

#[test]
fn a_changed_length_is_read_anew() {
    let read_bass = |text: &str| tastata::bass::read_bass(text, None).notes;
    // Between slow notes the quick ones pass, and have no chords of their own.
    let [slow, quick] = ["c3=4 d=4 e=4 f=4 g=4", "c3=4 d=8 e=8 f=4 g=4"].map(|text| Sketch {
        notes: read_bass(text).iter().map(|note| note.to_sketch()).collect(),
        ..Sketch::default()
    });
    let mut rereader = Rereader::default();
    let first = rereader.read(&slow);
    let second = rereader.read(&quick);
    assert_ne!(first.harmony.chords.len(), second.harmony.chords.len());
    assert_eq!(second, read(&quick));
}
