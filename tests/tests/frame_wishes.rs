//! What is wished of the outer voices, and pins, on small examples.

use tastata::figures::read_figures;
use tastata::frame::{Frame, Position, Rule, Smoothness, SopranoCompass, frame, snap};
use tastata::hands::Compass;
use tastata::harmony::{Chord, harmonise};
use tastata::pitch::{Key, Pitch};
use tastata::sketch::{Hold, Pin, Sketch, SketchNote};
use tastata::words::{Lang, pin_conflict};
use tastata_tests::outer::{C_MAJOR, pitch, scale_chord};

fn sketch(bass: &str) -> Sketch {
    let notes = bass.split(' ').map(|text| SketchNote::bare(pitch(text))).collect();
    Sketch { tonality: Some(C_MAJOR), notes, ..Sketch::default() }
}

fn solved(sketch: &Sketch) -> Frame {
    frame(sketch, &harmonise(sketch).chords)
}

fn sung(frame: &Frame) -> String {
    frame.soprano.iter().map(Pitch::to_string).collect::<Vec<_>>().join(" ")
}

fn pinned(text: &str) -> Vec<Option<Pin>> {
    vec![Some(Pin { pitch: pitch(text), hold: Hold::Pinned })]
}

#[test]
fn the_position_is_the_opening_interval() {
    let mut sketch = sketch("C3 D3 E3 F3 G3 A3 B3 C4");
    for (position, number) in [(Position::Octave, 1), (Position::Third, 3), (Position::Fifth, 5)] {
        sketch.frame.position = Some(position);
        let first = solved(&sketch).soprano[0];
        assert_eq!((first - pitch("C3")).simple_number(), number);
    }
}

#[test]
fn a_position_that_the_chord_lacks_is_no_obstacle() {
    let mut sketch = sketch("B2 C3");
    sketch.frame.position = Some(Position::Fifth);
    sketch.notes[0].figures = Some(read_figures("6").expect("figures"));
    let chord = &harmonise(&sketch).chords[0];
    let first = solved(&sketch).soprano[0];
    assert_ne!((first - pitch("B2")).simple_number(), 5);
    assert!(chord.tones.iter().any(|tone| tone.class == first.class()), "{first}");
}

#[test]
fn the_soprano_keeps_to_its_compass_and_the_keyboard() {
    let mut sketch = sketch("C3 D3 E3 F3 G3 A3 B3 C4 G3 C3");
    sketch.frame.compass = SopranoCompass { low: Key::clamped(72), high: Key::clamped(79) };
    assert!(solved(&sketch).soprano.iter().all(|s| (72..=79).contains(&s.semitones())));
    sketch.frame.compass = SopranoCompass { low: Key::clamped(72), high: Key::clamped(90) };
    sketch.hands.compass = Compass { low: Key::clamped(36), high: Key::clamped(77) };
    assert!(solved(&sketch).soprano.iter().all(|s| (72..=77).contains(&s.semitones())));
}

#[test]
fn a_bass_above_the_compass_has_its_soprano_above_it() {
    let sketch = sketch("C6 D6 E6");
    let frame = solved(&sketch);
    for (note, soprano) in sketch.notes.iter().zip(&frame.soprano) {
        assert!(soprano.semitones() > note.pitch.semitones());
    }
    assert!(frame.faults.iter().any(|fault| fault.rule == Rule::OutsideCompass));
}

#[test]
fn flowing_sopranos_step_more_than_bold_ones() {
    let mut sketch = sketch("C3 A2 F2 D3 G2 E3 A2 F3 D3 G3 C3");
    let mut travel = |smoothness| {
        sketch.frame.smoothness = smoothness;
        let soprano = solved(&sketch).soprano;
        soprano.windows(2).map(|two| (two[1] - two[0]).steps.abs()).sum::<i32>()
    };
    assert!(travel(Smoothness::Flowing) <= travel(Smoothness::Usual));
    assert!(travel(Smoothness::Usual) <= travel(Smoothness::Bold));
    assert!(travel(Smoothness::Flowing) < travel(Smoothness::Bold));
}

#[test]
fn a_resting_note_gives_way_when_its_chord_changes() {
    let mut sketch = sketch("C3 G2 C3");
    let rest = |text| vec![Some(Pin { pitch: pitch(text), hold: Hold::Resting })];
    sketch.notes[1].soprano = rest("D5");
    assert_eq!(solved(&sketch).soprano[1], pitch("D5"));
    sketch.notes[1].soprano = rest("E5");
    let frame = solved(&sketch);
    assert_ne!(frame.soprano[1], pitch("E5"));
    assert!(!frame.faults.iter().any(|fault| fault.rule == Rule::ForeignNote));
    sketch.notes[1].soprano = pinned("E5");
    let frame = solved(&sketch);
    assert_eq!(frame.soprano[1], pitch("E5"));
    assert!(frame.faults.iter().any(|fault| fault.rule == Rule::ForeignNote));
}

#[test]
fn a_pin_on_the_key_of_a_chord_tone_takes_its_spelling() {
    let mut sketch = sketch("C3 G2 C3");
    sketch.notes[1].soprano = pinned("Cb5");
    assert_eq!(solved(&sketch).soprano[1], pitch("B4"));
}

#[test]
fn quarrelling_pins_are_named() {
    let mut sketch = sketch("C3 D3 E3 F3");
    sketch.notes[0].soprano = pinned("C5");
    sketch.notes[1].soprano = pinned("D5");
    let frame = solved(&sketch);
    assert!(frame.faults.iter().any(|fault| fault.rule == Rule::ConsecutiveOctaves));
    let said: Vec<String> =
        frame.conflicts.iter().map(|conflict| pin_conflict(conflict, Lang::English)).collect();
    assert_eq!(said.len(), 1);
    assert!(said[0].contains("chords 1 to 2"), "{said:?}");
}

#[test]
fn a_dragged_note_snaps_to_the_nearest_chord_note() {
    let chord: Chord = scale_chord(C_MAJOR, 0, pitch("C3"), &[1, 3, 5]);
    let cases =
        [("D5", "E5"), ("C#5", "C5"), ("F5", "E5"), ("A5", "G5"), ("B4", "C5"), ("G4", "G4")];
    for (from, to) in cases {
        assert_eq!(snap(&chord, pitch(from)), pitch(to), "{from}");
    }
}

#[test]
fn a_romanesca_is_sung_as_before() {
    // No rule asks for just this line; it stands here so that a change of taste is seen.
    assert_eq!(sung(&solved(&sketch("C3 G2 A2 E2 F2 C2 F2 G2 C2"))), "C5 D5 C5 B4 A4 C5 D5 B4 C5");
}
