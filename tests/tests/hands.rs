//! Properties of the handfuls over random chords, outer voices and hands.

use proptest::prelude::*;
use tastata::frame::{Frame, frame};
use tastata::hands::{
    Compass, HandSize, HandTrouble, HandWishes, Handful, Hands, LowKeys, Spacing, handfuls,
};
use tastata::harmony::Chord;
use tastata::pitch::{Key, Mode, Pitch, PitchClass, Step, Tonality};
use tastata::sketch::{Sketch, SketchNote};
use tastata_tests::outer::{C_MAJOR, pitch, scale_chord};

const FIGURES: [&[u8]; 8] = [
    &[1],
    &[1, 3, 5],
    &[1, 3, 6],
    &[1, 3, 5, 6],
    &[1, 3, 4, 6],
    &[1, 2, 4, 6],
    &[1, 3, 5, 7],
    &[1, 4, 5],
];

fn chords() -> impl Strategy<Value = Vec<Chord>> {
    let tonality = (-6..=6, prop_oneof![Just(Mode::Major), Just(Mode::Minor)])
        .prop_map(|(fifths, mode)| Tonality::new(PitchClass::from_fifths(fifths), mode));
    (tonality, prop::collection::vec((5..36i32, 0..FIGURES.len()), 1..8)).prop_map(
        |(tonality, notes)| {
            let over = |(note, (diatonic, figures)): (usize, (i32, usize))| {
                let step = Step::wrapped(diatonic);
                let bass = Pitch::from_diatonic(diatonic, tonality.class_of(step).alter);
                scale_chord(tonality, note, bass, FIGURES[figures])
            };
            notes.into_iter().enumerate().map(over).collect()
        },
    )
}

fn wishes() -> impl Strategy<Value = HandWishes> {
    let size = || (0..8u8, 0..13u8).prop_map(|(notes, span)| HandSize { notes, span });
    let compass = prop_oneof![
        Just(Compass::FOUR_OCTAVES),
        Just(Compass::FIVE_OCTAVES),
        Just(Compass::KEYS_61),
        Just(Compass::KEYS_88),
        (0..128, 0..128).prop_map(|(a, b)| Compass { low: Key::clamped(a), high: Key::clamped(b) }),
    ];
    let spacing = prop_oneof![Just(Spacing::Even), Just(Spacing::Wide)];
    let low_keys =
        prop_oneof![Just(LowKeys::Chromatic), Just(LowKeys::ShortC), Just(LowKeys::ShortG)];
    (size(), size(), spacing, compass, low_keys).prop_map(
        |(left, right, spacing, compass, low_keys)| HandWishes {
            left,
            right,
            spacing,
            compass,
            low_keys,
        },
    )
}

fn sketch_of(chords: &[Chord], hands: HandWishes) -> Sketch {
    let notes = chords.iter().map(|chord| SketchNote::bare(chord.bass)).collect();
    Sketch { notes, hands, ..Sketch::default() }
}

fn is_rising(notes: &[Pitch]) -> bool {
    notes.windows(2).all(|pair| pair[0].semitones() < pair[1].semitones())
}

/// White keys from one key up to another, counted on a drawing of the keyboard:
/// a raised key stands half a white key above its lower neighbour.
fn half_white_keys(low: Pitch, high: Pitch) -> i32 {
    let at = |pitch: Pitch| {
        let key = pitch.key().expect("a key").number();
        let white = |key: i32| !matches!(key % 12, 1 | 3 | 6 | 8 | 10);
        (0..key).filter(|&key| white(key)).count() as i32 * 2 - i32::from(!white(key))
    };
    at(high) - at(low)
}

fn says(hands: &Hands, chord: usize, found: impl Fn(&HandTrouble) -> bool) -> bool {
    hands.remarks.iter().any(|remark| remark.chord == chord && found(&remark.kind))
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever the chords, hands and keyboard: each hand low to high, the bass
    /// below, the soprano on top, the hands apart, or a remark that says why not.
    #[test]
    fn handfuls_are_playable_or_say_why_not(chords in chords(), wishes in wishes()) {
        let sketch = sketch_of(&chords, wishes.clone());
        let frame = frame(&sketch, &chords);
        let hands = handfuls(&sketch, &chords, &frame);
        prop_assert_eq!(hands.handfuls.len(), chords.len());
        for (i, ((chord, &soprano), handful)) in
            chords.iter().zip(&frame.soprano).zip(&hands.handfuls).enumerate()
        {
            prop_assert_eq!(handful.left.first(), Some(&chord.bass));
            prop_assert!(is_rising(&handful.left) && is_rising(&handful.right));
            prop_assert!(handful.left.len() <= 5 && handful.right.len() <= 5);
            if chord.tones.len() == 1 {
                prop_assert!(handful.right.is_empty() && handful.left.len() == 1);
                continue;
            }
            let collide = says(&hands, i, |kind| *kind == HandTrouble::HandsCollide);
            if !collide {
                prop_assert_eq!(handful.right.last(), Some(&soprano));
                let top = handful.left[handful.left.len() - 1];
                prop_assert!(top.semitones() < handful.right[0].semitones());
            }
            let notes = || handful.left.iter().chain(&handful.right);
            for tone in &chord.tones {
                let found = notes().any(|note| note.class() == tone.class);
                let excused = says(&hands, i, |kind| {
                    *kind == HandTrouble::Incomplete { missing: tone.class }
                });
                prop_assert!(found || tone.omittable || excused);
                prop_assert!(!(found && excused));
            }
            for note in notes() {
                prop_assert!(chord.tones.iter().any(|tone| tone.class == note.class()));
            }
            let inner = handful.left.iter().skip(1);
            let inner = inner.chain(handful.right.iter().rev().skip(1));
            let (low, high) = (wishes.compass.low, wishes.compass.high);
            for note in inner {
                let key = note.key().expect("a key");
                prop_assert!(low.min(high) <= key && key <= low.max(high));
            }
            if wishes.low_keys == LowKeys::Chromatic {
                for (notes, size) in [(&handful.left, wishes.left), (&handful.right, wishes.right)] {
                    if let (Some(&low), Some(&high)) = (notes.first(), notes.last()) {
                        let span = i32::from(size.span.clamp(4, 11)) * 2;
                        prop_assert!(half_white_keys(low, high) <= span);
                    }
                }
            }
        }
    }

    /// Nothing is missing when a common chord has its usual room.
    #[test]
    fn with_room_enough_nothing_is_missing(
        degrees in prop::collection::vec((14..22i32, 1..FIGURES.len()), 1..12),
    ) {
        let chords: Vec<Chord> = degrees
            .iter()
            .enumerate()
            .map(|(i, &(diatonic, figures))| {
                scale_chord(C_MAJOR, i, Pitch::from_diatonic(diatonic, 0), FIGURES[figures])
            })
            .collect();
        let sketch = sketch_of(&chords, HandWishes::default());
        let frame = frame(&sketch, &chords);
        let hands = handfuls(&sketch, &chords, &frame);
        let incomplete =
            |remark: &&tastata::hands::HandRemark| matches!(remark.kind, HandTrouble::Incomplete { .. });
        prop_assert_eq!(hands.remarks.iter().find(incomplete), None);
    }

    /// The person's own handful stands as given, between the outer voices of today.
    #[test]
    fn ones_own_handful_stands(chords in chords(), keys in prop::collection::vec(20..100i32, 0..6)) {
        let mut sketch = sketch_of(&chords, HandWishes::default());
        let notes: Vec<Pitch> = keys.iter().map(|&k| C_MAJOR.spell(Key::clamped(k))).collect();
        let (left, right) = notes.split_at(notes.len() / 2);
        let own = Handful { left: left.to_vec(), right: right.to_vec() };
        sketch.notes[0].handfuls = vec![Some(own)];
        let frame = frame(&sketch, &chords);
        let hands = handfuls(&sketch, &chords, &frame);
        let first = &hands.handfuls[0];
        prop_assert_eq!(first.left.first(), Some(&chords[0].bass));
        prop_assert!(is_rising(&first.left) && is_rising(&first.right));
        let inner = first.left.iter().skip(1).chain(first.right.iter().rev().skip(1));
        for pitch in inner {
            prop_assert!(notes.contains(pitch), "{} is not the person's", pitch);
        }
        let outer = (chords[0].bass.semitones(), frame.soprano[0].semitones());
        let between = |pitch: &&Pitch| outer.0 < pitch.semitones() && pitch.semitones() < outer.1;
        for pitch in left.iter().skip(1).filter(between) {
            prop_assert!(first.left.contains(pitch), "{} was taken away", pitch);
        }
    }
}

fn both(handful: &Handful) -> String {
    let text = |notes: &[Pitch]| notes.iter().map(Pitch::to_string).collect::<Vec<_>>().join(" ");
    format!("{} | {}", text(&handful.left), text(&handful.right))
}

fn one(chord: Chord, soprano: &str, hands: HandWishes) -> (String, Hands) {
    let sketch = sketch_of(std::slice::from_ref(&chord), hands);
    let chords = [chord];
    let frame = Frame::of(&sketch, &chords, vec![pitch(soprano)], 1);
    let hands = handfuls(&sketch, &chords, &frame);
    (both(&hands.handfuls[0]), hands)
}

#[test]
fn low_thirds_are_avoided() {
    let low = scale_chord(C_MAJOR, 0, pitch("C2"), &[1, 3, 5]);
    let (text, hands) = one(low, "G4", HandWishes::default());
    assert_eq!(text, "C2 G2 C3 | G3 C4 E4 G4");
    assert_eq!(hands.remarks, []);
}

#[test]
fn sevenths_and_leading_notes_are_not_doubled() {
    let dominant = scale_chord(C_MAJOR, 0, pitch("B2"), &[1, 3, 5, 6]);
    let (text, hands) = one(dominant, "D5", HandWishes::default());
    assert_eq!(hands.remarks, [], "{text}");
    assert_eq!(text.matches('B').count(), 1, "{text}");
    assert_eq!(text.matches('F').count(), 1, "{text}");
}

#[test]
fn what_cannot_be_played_is_said() {
    let wishes = HandWishes { compass: Compass::FOUR_OCTAVES, ..HandWishes::default() };
    let low = scale_chord(C_MAJOR, 0, pitch("A1"), &[1, 3, 5]);
    let (_, hands) = one(low, "E4", wishes);
    assert!(says(&hands, 0, |kind| *kind == HandTrouble::BassOffKeyboard));
    let narrow = scale_chord(C_MAJOR, 0, pitch("C4"), &[1, 3, 5]);
    let (text, hands) = one(narrow, "G4", HandWishes::default());
    assert_eq!(text, "C4 | E4 G4");
    assert_eq!(hands.remarks, []);
    let crossed = scale_chord(C_MAJOR, 0, pitch("C4"), &[1, 3, 5]);
    let (text, hands) = one(crossed, "G3", HandWishes::default());
    assert_eq!(text, "C4 | G3");
    assert!(says(&hands, 0, |kind| *kind == HandTrouble::HandsCollide));
}
