//! Anything at all may stand in a sketch: the outer voices, the hands and the performance
//! answer and never panic.

use proptest::prelude::*;
use tastata::frame::{
    Contour, ContourPoint, Frame, FrameWishes, Position, Preference, RuleSwitches, Smoothness,
    SopranoCompass, best_sopranos, frame, inner_parallels, snap,
};
use tastata::hands::{
    Compass, HandSize, HandWishes, Handful, LowKeys, Spacing, handfuls, hardships, strain,
};
use tastata::harmony::{Chord, Duty, Tone};
use tastata::pitch::{Key, Pitch, PitchClass, Step};
use tastata::reading::read;
use tastata::roll::roll;
use tastata::sketch::{Hold, Pin, Sketch, SketchNote};
use tastata_tests::outer::{C_MAJOR, chord};

fn step() -> impl Strategy<Value = Step> {
    (0..7i32).prop_map(Step::wrapped)
}

/// Mostly sensible pitches, some absurd.
fn pitch() -> impl Strategy<Value = Pitch> {
    prop_oneof![
        4 => (step(), -1..=1i8, 1..6i8).prop_map(|(s, a, o)| Pitch::new(s, a, o)),
        1 => (step(), -100..=100i8, any::<i8>()).prop_map(|(s, a, o)| Pitch::new(s, a, o)),
    ]
}

fn key() -> impl Strategy<Value = Key> {
    (0..128).prop_map(Key::clamped)
}

fn tones() -> impl Strategy<Value = Vec<Tone>> {
    let duty =
        prop_oneof![Just(Duty::Free), Just(Duty::Rises), Just(Duty::Falls), Just(Duty::Suspended),];
    let class = (step(), -3..=3i8).prop_map(|(step, alter)| PitchClass { step, alter });
    let tone = (class, 1..=9u8, duty, any::<bool>());
    let tone =
        tone.prop_map(|(class, number, duty, omittable)| Tone { class, number, duty, omittable });
    prop::collection::vec(tone, 0..7)
}

fn notes() -> impl Strategy<Value = Vec<(SketchNote, Vec<Tone>)>> {
    let pin = (pitch(), prop_oneof![Just(Hold::Pinned), Just(Hold::Resting)])
        .prop_map(|(pitch, hold)| Pin { pitch, hold });
    let pins = prop::collection::vec(prop::option::weighted(0.3, pin), 0..3);
    let hand = || prop::collection::vec(pitch(), 0..8);
    let handful = (hand(), hand()).prop_map(|(left, right)| Handful { left, right });
    let handfuls = prop::collection::vec(prop::option::weighted(0.2, handful), 0..3);
    let note = (pitch(), pins, handfuls, tones()).prop_map(|(bass, soprano, handfuls, tones)| {
        (SketchNote { soprano, handfuls, ..SketchNote::bare(bass) }, tones)
    });
    prop::collection::vec(note, 0..10)
}

fn wishes() -> impl Strategy<Value = (FrameWishes, HandWishes)> {
    let position = prop::option::of(prop_oneof![
        Just(Position::Octave),
        Just(Position::Third),
        Just(Position::Fifth)
    ]);
    let preference = prop_oneof![Just(Preference::Contrary), Just(Preference::Tenths)];
    let smoothness =
        prop_oneof![Just(Smoothness::Flowing), Just(Smoothness::Usual), Just(Smoothness::Bold)];
    let point = (any::<u16>(), key()).prop_map(|(place, height)| ContourPoint { place, height });
    let points = prop::collection::vec(point, 0..4);
    let frame = (position, any::<u8>(), preference, smoothness, key(), key(), points, any::<u64>());
    let frame =
        frame.prop_map(|(position, choice, preference, smoothness, low, high, points, bits)| {
            FrameWishes {
                position,
                choice,
                preference,
                smoothness,
                compass: SopranoCompass { low, high },
                contour: Contour { points },
                rules: RuleSwitches::from_bits(bits),
            }
        });
    let size = || (any::<u8>(), any::<u8>()).prop_map(|(notes, span)| HandSize { notes, span });
    let low_keys =
        prop_oneof![Just(LowKeys::Chromatic), Just(LowKeys::ShortC), Just(LowKeys::ShortG)];
    let spacing = prop_oneof![Just(Spacing::Even), Just(Spacing::Wide)];
    let hands = (size(), size(), spacing, key(), key(), low_keys).prop_map(
        |(left, right, spacing, low, high, low_keys)| HandWishes {
            left,
            right,
            spacing,
            compass: Compass { low, high },
            low_keys,
        },
    );
    (frame, hands)
}

fn whole(sketch: &Sketch, chords: &[Chord]) -> Frame {
    let solved = frame(sketch, chords);
    assert_eq!(solved.soprano.len(), chords.len());
    assert_eq!(solved.choices == 0, chords.is_empty());
    let hands = handfuls(sketch, chords, &solved);
    assert_eq!(hands.handfuls.len(), chords.len());
    inner_parallels(&hands.handfuls);
    strain(&sketch.hands, &hands.handfuls);
    hardships(&sketch.hands, &roll(sketch, chords, &hands));
    best_sopranos(sketch, chords, 5);
    chords.iter().for_each(|chord| {
        snap(chord, chord.bass);
    });
    solved
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_chords_get_an_answer(notes in notes(), wishes in wishes()) {
        let chords: Vec<Chord> = notes
            .iter()
            .enumerate()
            .map(|(i, (note, tones))| chord(C_MAJOR, i, 0, note.pitch, tones.clone()))
            .collect();
        let notes = notes.into_iter().map(|(note, _)| note).collect();
        let (frame, hands) = wishes;
        let sketch = Sketch { notes, frame, hands, ..Sketch::default() };
        let first = whole(&sketch, &chords);
        prop_assert_eq!(first, whole(&sketch, &chords));
    }

    #[test]
    fn any_sketch_is_read(notes in notes(), wishes in wishes()) {
        let notes = notes.into_iter().map(|(note, _)| note).collect();
        let (frame, hands) = wishes;
        let sketch = Sketch { notes, frame, hands, ..Sketch::default() };
        prop_assert_eq!(read(&sketch), read(&sketch));
    }
}

#[test]
fn long_basses_are_read() {
    for length in [500, 2000] {
        let mut sketch = Sketch { tonality: Some(C_MAJOR), ..Sketch::default() };
        for i in 0..length {
            let diatonic = 21 + [0, 1, 2, -3, 4, -2, 1][i * i % 7];
            sketch.notes.push(SketchNote::bare(Pitch::from_diatonic(diatonic, 0)));
        }
        let reading = read(&sketch);
        assert!(reading.frame.soprano.len() >= length);
        assert_eq!(reading.hands.handfuls.len(), reading.harmony.chords.len());
    }
}
