//! Teacher and student driven without a browser.

use super::*;
use crate::app::{App, Intent, Place};
use tastata::bass::read_bass;
use tastata::figures::read_figures;
use tastata::files::{Linked, encode_hand_in, open};
use tastata::lesson::drill::{Grade, KeyOrder};
use tastata::lesson::{
    Ask, Feedback, Found, Measure, MotionLimit, Naming, Opens, Outcome, Set, SortBy, Status,
};
use tastata::lesson::{KeyEvent, Waiting};
use tastata::pitch::{Key, Tonality};
use tastata::reading::read;
use tastata::sketch::Sketch;

const BASS: &str = "C major: C3 D3 E3 F3 G3 C3";

fn sketch(text: &str) -> Sketch {
    let read = read_bass(text, None);
    Sketch {
        tonality: read.tonality,
        notes: read.notes.iter().map(|note| note.to_sketch()).collect(),
        ..Sketch::default()
    }
}

fn asking(ask: Ask) -> Form {
    Form { asks: vec![ask], model: Some(Opens::AfterHandIn), ..Form::default() }
}

fn set_of(forms: &[Form]) -> Set {
    let mut draft = Draft::default();
    for form in forms {
        assert!(draft.put(form, &sketch(BASS)));
    }
    draft.set
}

fn figure(app: &mut App, note: usize, figures: &str) {
    let figures = Some(read_figures(figures).expect("figures"));
    app.update(Intent::Figures { note, figures });
}

#[test]
fn what_is_asked_is_hidden_until_it_is_made() {
    let work = Work::start(set_of(&[asking(Ask::Figures(Measure::Accepted))])).expect("work");
    let mut app = App::of(Sketch::default());
    app.present(work.sketch(), Some(work.veil()));
    let chords = &app.reading().harmony.chords;
    assert_eq!(chords.len(), 6);
    assert!(chords.iter().all(|chord| tastata::figures::print_stage(&chord.figures) != "6"));
    let touches = &app.reading().performance.touches;
    assert!(touches.iter().all(|t| Some(t.key) == chords[t.chord].bass.key()));
    assert!(app.reading().hands.handfuls.iter().all(|it| it.right.is_empty()));
    figure(&mut app, 1, "6");
    assert_eq!(tastata::figures::print_stage(&app.reading().harmony.chords[1].figures), "6");
    assert!(!app.reading().hands.handfuls[1].right.is_empty());
    assert!(app.reading().hands.handfuls[2].right.is_empty());
}

#[test]
fn a_hidden_soprano_appears_note_by_note() {
    let ask = Ask::Soprano { position: None, motions: MotionLimit::Any };
    let work = Work::start(set_of(&[asking(ask)])).expect("work");
    let mut app = App::of(Sketch::default());
    app.present(work.sketch(), Some(work.veil()));
    let hidden = |app: &App, i: usize| {
        app.reading().frame.soprano[i] == app.reading().harmony.chords[i].bass
    };
    assert!((0..6).all(|i| hidden(&app, i)));
    // Pinning what cannot be seen would give it away or pin nonsense.
    app.update(Intent::Pin(2));
    assert!((0..6).all(|i| hidden(&app, i)));
    app.update(Intent::Select(Some(Place { note: 0, stage: 0 })));
    app.update(Intent::NudgeSoprano(1));
    assert!(!hidden(&app, 0));
    assert!(app.reading().frame.soprano[0].semitones() >= 60);
    assert!((1..6).all(|i| hidden(&app, i)));
}

#[test]
fn a_student_works_checks_and_hands_in() {
    let mut form = asking(Ask::Figures(Measure::Accepted));
    form.hints = "Look at the degree.\n\n  Then at where it goes. ".to_owned();
    let mut work = Work::start(set_of(&[form, asking(Ask::Free)])).expect("work");
    assert_eq!(work.exercise().hints.len(), 2);
    assert!(work.hints().is_empty() && work.model().is_none());
    work.next_hint();
    assert_eq!(work.hints(), ["Look at the degree."]);
    work.arrive(0.0);
    let mut app = App::of(Sketch::default());
    app.present(work.sketch(), Some(work.veil()));
    for (note, figures) in ["5/3", "6", "6", "5/3", "5/3", "5/3"].iter().enumerate() {
        figure(&mut app, note, figures);
        work.changed(app.sketch(), 30_000.0 * (note + 1) as f64);
    }
    assert!(work.report().is_none());
    work.check();
    assert_eq!(work.report().map(|r| r.results[0].outcome), Some(Outcome::Done));
    assert_eq!(work.answer().minutes, 3);
    let mut again = Work::start(work.set().clone()).expect("work");
    again.resume(&work.kept());
    assert_eq!(again.answer(), work.answer());
    assert_eq!(again.hints(), work.hints());
    assert_eq!(again.progress(), work.progress());
    work.student = "Ada <b>".to_owned();
    let link = encode_hand_in(&work.hand_in());
    work.handed_in();
    assert!(work.model().is_some());
    let Ok(Linked::HandIn(hand_in)) = open(&link) else { panic!("a hand-in") };
    let mut review = Review::of(hand_in).expect("answers");
    assert!(review.report().is_some_and(|report| report.is_done()));
    review.comment(Some(1), " Well heard. ");
    review.comment(None, "   ");
    let Ok(Linked::Commented(back)) = open(&review.send_back("T.")) else { panic!("comments") };
    let back = Review::back(back).expect("answers");
    assert_eq!(back.comments().count(), 1);
    review.go(9);
    assert_eq!(review.at(), 1);
    assert!(review.answer().is_none() && review.report().is_none());
}

#[test]
fn feedback_comes_when_the_teacher_chose() {
    let mut live = asking(Ask::FindFaults(Naming::Place));
    live.feedback = Feedback::Live;
    let mut late = live.clone();
    late.feedback = Feedback::AtEnd;
    let mut work = Work::start(set_of(&[live, late])).expect("work");
    work.mark(Found { chord: 1, rule: None }, 0.0);
    assert!(work.report().is_some());
    work.go(1);
    work.mark(Found { chord: 1, rule: None }, 0.0);
    work.check();
    assert!(!work.may_check() && work.report().is_none());
    work.handed_in();
    assert!(work.report().is_some());
    work.mark(Found { chord: 1, rule: None }, 0.0);
    assert!(work.answer().found.is_empty() && work.changed_since_check());
}

#[test]
fn a_set_is_ordered_changed_and_kept() {
    let mut draft = Draft::default();
    draft.put(&asking(Ask::Figures(Measure::Accepted)), &sketch(BASS));
    draft.put(&asking(Ask::Free), &sketch("C3 G3 C3"));
    draft.shift(0, 1);
    draft.shift(0, -1);
    assert_eq!(draft.set.exercises[0].asks, [Ask::Free]);
    draft.changing = Some(1);
    let mut form = Form::of(&draft.set.exercises[1]);
    form.task = "Mind the fourth degree.".to_owned();
    let music = draft.set.exercises[1].sketch.clone();
    draft.put(&form, &Sketch::default());
    assert_eq!(draft.set.exercises[1].sketch, music);
    assert_eq!(draft.set.exercises[1].task, "Mind the fourth degree.");
    assert!(draft.set.exercises[1].model.is_some());
    assert_eq!(Draft::resume(&draft.kept()).set, draft.set);
    assert!(Draft::resume("nonsense").set.exercises.is_empty());
    draft.remove(0);
    draft.remove(7);
    assert_eq!(draft.set.exercises.len(), 1);
}

#[test]
fn what_is_taken_out_of_a_set_can_be_brought_back() {
    let mut draft = Draft::default();
    draft.put(&asking(Ask::Free), &sketch(BASS));
    draft.put(&asking(Ask::Figures(Measure::Accepted)), &sketch(BASS));
    draft.set.title = "Cadences".to_owned();
    assert!(!draft.can_bring_back());
    let whole = draft.set.clone();
    draft.remove(0);
    draft.bring_back();
    assert_eq!(draft.set, whole);
    draft.begin_anew();
    assert!(draft.set.exercises.is_empty() && draft.set.title.is_empty());
    draft.bring_back();
    assert_eq!(draft.set, whole);
    draft.begin_anew();
    draft.put(&asking(Ask::Free), &sketch(BASS));
    assert!(!draft.can_bring_back(), "what is new would be lost");
}

#[test]
fn a_class_is_read_once_each_and_sorted() {
    let set = set_of(&[asking(Ask::Figures(Measure::Accepted))]);
    let link = |name: &str| {
        let mut work = Work::start(set.clone()).expect("work");
        work.student = name.to_owned();
        encode_hand_in(&work.hand_in())
    };
    let text = format!("{}\nhttps://school.example/#{}\n{}", link("Zoe"), link("Abe"), link("Zoe"));
    let mut class = Class::read(&text, &set);
    assert_eq!(class.rows().len(), 2);
    assert_eq!(class.against(), Against::Own);
    class.sort(SortBy::Name);
    assert_eq!(class.rows()[0].student, "Abe");
    assert_eq!(class.open(0).map(|it| it.student), Some("Abe".to_owned()));
    let other = Class::read(&text, &Set::default());
    assert_eq!(other.against(), Against::TheirOwn);
    assert!(other.rows().iter().all(|row| row.status == Status::Ready));
    assert!(Class::read("no links here", &set).rows().is_empty());
}

/// Strikes and leaves the keys of each handful from the bass up.
fn roll(play: &mut Play, sketch: &Sketch, chords: usize) {
    for handful in read(sketch).hands.handfuls.iter().take(chords) {
        let keys: Vec<Key> =
            handful.left.iter().chain(&handful.right).filter_map(|p| p.key()).collect();
        for &key in &keys {
            play.hear(KeyEvent::Down(key));
        }
        for &key in &keys {
            play.hear(KeyEvent::Up(key));
        }
    }
}

#[test]
fn playing_along_goes_on_when_the_chord_is_there() {
    let piece = sketch(BASS);
    let mut play = Play::of(&piece).expect("chords");
    // A long rest on a wrong key is waited out, and told.
    play.hear(KeyEvent::Down(Key::clamped(49)));
    assert_eq!(play.progress(), (0, 6));
    assert!(matches!(play.waiting(), Waiting::Rolling { foreign, .. } if foreign.len() == 1));
    play.hear(KeyEvent::Up(Key::clamped(49)));
    roll(&mut play, &piece, 3);
    assert_eq!(play.progress(), (3, 6));
    assert_eq!(play.played_alone().notes.len(), 3);
    play.back();
    assert_eq!(play.progress(), (2, 6));
    let mut again = Play::of(&piece).expect("chords");
    roll(&mut again, &piece, 6);
    assert!(again.is_done() && again.faults() == 0);
    let played = again.played();
    assert_eq!(played.notes.len(), 6);
    assert!(played.notes.iter().all(|note| note.soprano.first().is_some_and(Option::is_some)));
    assert!(Play::of(&Sketch::default()).is_none());
}

#[test]
fn a_key_played_is_an_answer() {
    let d = Tonality::parse("D major").expect("a key");
    let set = set_of(&[asking(Ask::Keys(vec![d]))]);
    let mut work = Work::start(set).expect("work");
    work.work_in(Some(d));
    let mut play = work.to_play().expect("chords");
    let model = work.exercise().model.clone().expect("a model").sketch;
    let moved = tastata::lesson::in_tonality(&model, d);
    roll(&mut play, &moved, 6);
    assert!(play.is_done());
    work.changed(&play.played_alone(), 0.0);
    work.check();
    let outcome = work.report().map(|report| report.results[0].outcome);
    assert_eq!(outcome, Some(Outcome::Done), "{:?}", work.report());
}

#[test]
fn a_round_goes_through_every_key_once() {
    let c = Tonality::parse("C major").expect("a key");
    let mut round = KeysRound::start(&sketch(BASS), c, KeyOrder::FifthsUp);
    let mut tonics = Vec::new();
    while let Some(key) = round.key() {
        assert!(round.play().is_some());
        tonics.push(key.tonic.chroma());
        round.next();
    }
    tonics.sort_unstable();
    assert_eq!(tonics, (0..12).collect::<Vec<_>>());
    assert!(round.play().is_none());
}

#[test]
fn a_drill_brings_back_what_was_missed_and_keeps_the_rest_for_later() {
    let mut drill = Drill::start("", 100, Default::default());
    assert_eq!(drill.due(), 5);
    let first = drill.question().expect("a question").item;
    let right = drill.question().map(|question| question.answer).expect("an answer");
    drill.choose(right + 1);
    drill.choose(right);
    assert_eq!(drill.was_right(), Some(false));
    drill.grade(Grade::Known);
    assert_eq!(drill.due(), 5);
    for _ in 0..20 {
        let Some(question) = drill.question() else { break };
        let answer = question.answer;
        drill.choose(answer);
        drill.grade(Grade::Known);
    }
    assert_eq!(drill.due(), 0);
    assert!(drill.question().is_none());
    let tomorrow = Drill::start(&drill.kept(), 101, Default::default());
    assert_eq!(tomorrow.due(), 5);
    drill.meet();
    assert_eq!(drill.due(), 5);
    assert_ne!(drill.question().map(|question| question.item), Some(first));
}

#[test]
fn a_question_shows_its_answer_only_afterwards() {
    let mut drill = Drill::start("", 7, Default::default());
    let mut app = App::of(Sketch::default());
    let (shown, veil) = drill.sketch();
    app.present(shown, veil);
    let note = drill.question().and_then(|question| question.note).expect("a note");
    assert!(app.reading().hands.handfuls[note].right.is_empty());
    drill.choose(0);
    let (shown, veil) = drill.sketch();
    app.present(shown, veil);
    assert!(!app.reading().hands.handfuls[note].right.is_empty());
    let mut ear = Ear::start(EarKind::Cadence, 3);
    assert!(ear.sketch().notes.is_empty());
    ear.choose(ear.question().answer);
    ear.choose(9);
    assert_eq!(ear.score(), (1, 1));
    assert!(!ear.sketch().notes.is_empty());
    ear.next();
    assert!(ear.chosen().is_none());
}
