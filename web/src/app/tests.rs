//! The app driven without a browser: each thing a person does, and its undoing.

use super::*;
use tastata::bass::NoteValue;
use tastata::pitch::Step;
use tastata::sketch::Hold;

fn typed(text: &str) -> App {
    let mut app = App::of(Sketch::default());
    app.update(Intent::TypeBass(text.to_owned()));
    app.update(Intent::Settle);
    app
}

fn pitches(app: &App) -> String {
    app.sketch().notes.iter().map(|n| n.pitch.to_string()).collect::<Vec<_>>().join(" ")
}

fn select(app: &mut App, note: usize) {
    app.update(Intent::Select(Some(Place { note, stage: 0 })));
}

#[test]
fn the_opening_is_ready_to_play() {
    let app = App::opening();
    assert!(app.sketch().notes.len() > 4);
    assert!(!app.reading().performance.touches.is_empty());
    assert!(!app.can_undo());
}

#[test]
fn a_bass_typed_over_the_opening_finds_its_own_key() {
    let mut app = App::opening();
    assert_eq!(app.reading().harmony.home.to_string(), "D minor");
    app.update(Intent::TypeBass("G3 A3 B3 C4 D4 E4 F#4 G4".to_owned()));
    assert_eq!(app.reading().harmony.home.to_string(), "G major");
}

#[test]
fn typing_is_one_step_of_undo() {
    let mut app = App::of(Sketch::default());
    for text in ["C", "C3", "C3 D", "C3 D3"] {
        app.update(Intent::TypeBass(text.to_owned()));
    }
    assert_eq!(pitches(&app), "C3 D3");
    app.update(Intent::Undo);
    assert_eq!(pitches(&app), "");
    app.update(Intent::Redo);
    assert_eq!(pitches(&app), "C3 D3");
}

#[test]
fn what_cannot_be_read_is_pointed_at_and_kept() {
    let app = typed("C3 quaver D3");
    assert_eq!(pitches(&app), "C3 D3");
    assert_eq!(app.view().bass_text, "C3 quaver D3");
    assert!(!app.view().text_remarks.is_empty());
}

#[test]
fn unread_words_are_not_lost_silently() {
    let mut app = typed("C3 quaver D3");
    app.update(Intent::wish(|sketch| sketch.title = "T".to_owned()));
    assert_eq!(app.view().bass_text, "C3 quaver D3");
    select(&mut app, 1);
    app.update(Intent::Delete);
    assert_eq!(app.view().bass_text, "C3");
    assert_eq!(app.view().left_out, ["quaver"]);
}

#[test]
fn a_length_that_is_chosen_stands_in_the_text_and_outlives_typing() {
    let mut app = typed("C3 D3");
    app.update(Intent::wish(|sketch| {
        sketch.notes[1].value = NoteValue::parse("2");
        sketch.notes[1].rest = NoteValue::parse("4");
    }));
    assert_eq!(app.view().bass_text, "C3 D3=2 r=4");
    let typed_on = format!("{} E3", app.view().bass_text);
    app.update(Intent::TypeBass(typed_on));
    assert_eq!(app.sketch().notes[1].value, NoteValue::parse("2"));
    assert_eq!(app.sketch().notes[1].rest, NoteValue::parse("4"));
}

#[test]
fn keys_add_change_and_only_sound() {
    let mut app = App::of(Sketch::default());
    app.update(Intent::Press(Key::clamped(48)));
    assert_eq!(pitches(&app), "");
    app.update(Intent::Keys(Keys::AddBass));
    for key in [48, 50, 52] {
        app.update(Intent::Press(Key::clamped(key)));
    }
    assert_eq!(pitches(&app), "C3 D3 E3");
    select(&mut app, 0);
    app.update(Intent::Press(Key::clamped(43)));
    assert_eq!(pitches(&app), "C3 G2 D3 E3");
    app.update(Intent::Keys(Keys::ChangeBass));
    app.update(Intent::Press(Key::clamped(45)));
    assert_eq!(pitches(&app), "C3 A2 D3 E3");
}

#[test]
fn delete_insert_and_shift_keep_a_selection() {
    let mut app = typed("C3 D3 E3");
    select(&mut app, 2);
    app.update(Intent::Delete);
    assert_eq!(pitches(&app), "C3 D3");
    assert_eq!(app.view().selected, Some(Place { note: 1, stage: 0 }));
    app.update(Intent::Shift(-1));
    assert_eq!(pitches(&app), "D3 C3");
    app.update(Intent::Shift(-1));
    assert_eq!(pitches(&app), "D3 C3");
    app.update(Intent::InsertAfter);
    assert_eq!(pitches(&app), "D3 D3 C3");
    for _ in 0..4 {
        app.update(Intent::Delete);
    }
    assert_eq!(pitches(&app), "");
    assert_eq!(app.view().selected, None);
    for _ in 0..6 {
        app.update(Intent::Undo);
    }
    assert_eq!(pitches(&app), "C3 D3 E3");
}

#[test]
fn a_drag_is_one_step_and_pins_the_soprano() {
    let mut app = typed("C3 D3 E3 F3 G3 C3");
    let before = app.sketch().clone();
    let start = app.reading().frame.soprano[2];
    for by in [1, 2, -1] {
        let to = snapped(app.reading(), 2, start.diatonic() + by * 2).expect("a chord note");
        app.update(Intent::MoveSoprano { chord: 2, to, drag: Some(7) });
        assert_eq!(app.reading().frame.soprano[2], to);
    }
    let pin = app.sketch().notes[2].soprano[0].expect("a pin");
    assert_eq!(pin.hold, Hold::Pinned);
    app.update(Intent::Settle);
    app.update(Intent::Undo);
    assert_eq!(*app.sketch(), before);
}

#[test]
fn the_rest_stays_put_when_asked() {
    let mut app = typed("C3 D3 E3 F3 G3 C3");
    app.update(Intent::Rest(Rest::StaysPut));
    let before = app.reading().frame.soprano.clone();
    select(&mut app, 2);
    app.update(Intent::NudgeSoprano(1));
    let after = &app.reading().frame.soprano;
    assert_ne!(after[2], before[2]);
    for i in [0, 1, 3, 4, 5] {
        assert_eq!(after[i], before[i], "chord {i}");
    }
    app.update(Intent::FreeSoprano);
    assert_eq!(app.reading().frame.soprano, before);
}

#[test]
fn pins_survive_typing_beside_them() {
    let mut app = typed("C3 D3 E3 C3");
    app.update(Intent::Pin(1));
    let pinned = app.sketch().notes[1].soprano.clone();
    app.update(Intent::TypeBass("C3 D3 F3 E3 C3".to_owned()));
    assert_eq!(app.sketch().notes[1].soprano, pinned);
    app.update(Intent::TypeBass("B2 C3 D3 F3 E3 C3".to_owned()));
    assert_eq!(app.sketch().notes[2].soprano, pinned);
    app.update(Intent::Pin(2));
    assert!(app.sketch().notes[2].soprano.iter().all(Option::is_none));
}

#[test]
fn extremes_are_survived() {
    let lowest = Pitch::new(Step::C, 0, -1);
    let highest = Pitch::new(Step::G, 0, 9);
    for note in [lowest, highest] {
        let mut app = typed("C3");
        app.update(Intent::MoveBass { note: 0, pitch: note, drag: None });
        app.update(Intent::NudgeSoprano(1));
        app.update(Intent::MoveSoprano { chord: 0, to: lowest, drag: None });
        app.update(Intent::MoveSoprano { chord: 9, to: lowest, drag: None });
        app.update(Intent::MoveBass { note: 99, pitch: note, drag: None });
        app.update(Intent::Step(5));
        app.update(Intent::Step(-5));
    }
    let long = "C3 D3 E3 F3 G3 A3 B3 C4 ".repeat(400);
    let app = typed(&long);
    assert_eq!(app.sketch().notes.len(), MOST_NOTES);
}

#[test]
fn handfuls_are_changed_by_hand_and_given_back() {
    let mut app = typed("C3 D3 E3 C3");
    let before = app.reading().hands.handfuls[1].clone();
    select(&mut app, 1);
    app.update(Intent::Keys(Keys::Handful));
    let inner = before.right[0];
    app.update(Intent::Press(inner.key().expect("a key")));
    let after = app.reading().hands.handfuls[1].clone();
    assert!(!after.right.contains(&inner), "{after:?}");
    app.update(Intent::Press(inner.key().expect("a key")));
    let back = &app.reading().hands.handfuls[1];
    assert!(back.left.contains(&inner) || back.right.contains(&inner), "{back:?}");
    app.update(Intent::FreeHandful);
    assert_eq!(app.reading().hands.handfuls[1], before);
    assert!(app.sketch().notes[1].handfuls.is_empty());
}
