//! Practising: the sheet that begins it, and the desk while it goes on.

use super::super::audio::Follow;
use super::super::controls::{press, value_of_select};
use super::super::reader::{lang, say, tell};
use super::super::{Page, dom, glossary, shelf, wishes, with};
use super::desk;
use crate::app::{Desk, Drill, Ear, EarKind, KeysRound, Play, Practice, Stand};
use tastata::lesson::drill::{Grade, KeyOrder};
use tastata::reading::read;
use tastata::words;
use tastata::words::page::said;
use web_sys::{Element, MouseEvent};

const DECK: &str = "tastata.deck";
const DAY: f64 = 86_400_000.0;
const MINUTE: f64 = 60_000.0;
const ORDERS: [KeyOrder; 5] = [
    KeyOrder::FifthsUp,
    KeyOrder::FifthsDown,
    KeyOrder::SemitonesUp,
    KeyOrder::TonesUp,
    KeyOrder::Shuffled(0),
];

/// The desk's buttons that only practising shows.
const ONLY_HERE: [&str; 7] = [
    "desk-again",
    "desk-show",
    "desk-known",
    "desk-barely",
    "desk-missed",
    "desk-next",
    "desk-meet",
];

pub(super) fn fill() {
    for (i, order) in ORDERS.into_iter().enumerate() {
        wishes::option("practise-order", &i.to_string(), words::key_order(order, lang()));
    }
}

pub(super) fn wire() {
    wire_sheet();
    wire_desk();
}

fn wire_sheet() {
    press("practise", open);
    press("practise-here", || {
        super::super::share::close();
        open();
    });
    press("practise-close", close);
    press("practise-along", || {
        close();
        with(Page::begin_along);
    });
    press("practise-keys", || {
        close();
        let order = value_of_select("practise-order").parse().ok();
        let order = order.and_then(|i: usize| ORDERS.get(i)).copied();
        let order = match order.unwrap_or(KeyOrder::FifthsUp) {
            KeyOrder::Shuffled(_) => KeyOrder::Shuffled(chance()),
            order => order,
        };
        with(move |page| {
            let home = page.app.reading().harmony.home;
            let round = KeysRound::start(page.app.sketch(), home, order);
            page.practise(Practice::Keys(round));
            page.begin_along();
        });
    });
    press("practise-drill", || {
        close();
        with(|page| {
            let kept = shelf::read(DECK).unwrap_or_default();
            let version = page.app.sketch().harmony.version;
            page.practise(Practice::Drill(Drill::start(&kept, today(), version)));
        });
    });
    for (id, kind) in [
        ("practise-ear-motion", EarKind::Motion),
        ("practise-ear-degree", EarKind::Degree),
        ("practise-ear-cadence", EarKind::Cadence),
    ] {
        press(id, move || {
            close();
            with(move |page| {
                page.practise(Practice::Ear(Ear::start(kind, chance())));
                page.hear_question();
            });
        });
    }
}

fn wire_desk() {
    dom::on_id("desk-choices", "click", |event: MouseEvent| {
        let button = dom::closest(&event, "[data-choice]");
        let choice = button.and_then(|it| dom::data_number(&it, "data-choice"));
        if let Some(choice) = choice {
            with(move |page| page.choose_answer(choice));
        }
    });
    press("desk-again", || with(Page::hear_question));
    press("desk-show", || {
        with(|page| {
            if let Some(Practice::Drill(drill)) = page.teaching.desk.practice() {
                drill.show();
            }
            page.teaching.play = None;
            page.lay_out();
            page.hear_question();
        });
    });
    for (id, grade) in [
        ("desk-known", Grade::Known),
        ("desk-barely", Grade::Barely),
        ("desk-missed", Grade::Missed),
    ] {
        press(id, move || with(move |page| page.grade(grade)));
    }
    press("desk-next", || {
        with(|page| {
            match page.teaching.desk.practice() {
                Some(Practice::Ear(ear)) => ear.next(),
                Some(Practice::Keys(round)) => {
                    round.next();
                    page.lay_out();
                    page.begin_next_key();
                    return;
                }
                _ => {}
            }
            page.lay_out();
            page.hear_question();
        });
    });
    press("desk-meet", || {
        with(|page| {
            if let Some(Practice::Drill(drill)) = page.teaching.desk.practice() {
                drill.meet();
            }
            page.keep_deck();
            page.lay_out();
        });
    });
}

fn open() {
    dom::open_sheet("practise-sheet");
    let kept = shelf::read(DECK).unwrap_or_default();
    let due = tastata::lesson::drill::Deck::read(&kept).due(today()).len();
    let said = if kept.trim().is_empty() {
        say(said::FIVE_TO_BEGIN).to_owned()
    } else {
        words::drill_due(due, lang())
    };
    dom::set_text("practise-due", &said);
}

fn close() {
    dom::close_sheet("practise-sheet");
}

/// The day where the person is, counted from 1970 on.
fn today() -> u32 {
    let away = js_sys::Date::new_0().get_timezone_offset() * MINUTE;
    ((js_sys::Date::now() - away) / DAY).max(0.0) as u32
}

fn chance() -> u32 {
    (js_sys::Math::random() * f64::from(u32::MAX)) as u32
}

impl Practice {
    /// The chords to be played along, if there are some.
    pub(super) fn to_play(&self) -> Option<Play> {
        match self {
            Practice::Keys(round) => round.play(),
            Practice::Drill(drill) => drill.question().and_then(|it| Play::of(&it.sketch)),
            Practice::Ear(_) => None,
        }
    }

    /// Whether the staff shows no more than was played.
    pub(super) fn is_untold(&self) -> bool {
        match self {
            Practice::Keys(_) => true,
            Practice::Drill(drill) => drill.stand() == Stand::Asked && drill.choices().is_empty(),
            Practice::Ear(_) => false,
        }
    }
}

impl Page {
    fn practise(&mut self, practice: Practice) {
        self.put_on_desk(Desk::Practice(Box::new(practice)));
        self.keep_deck();
    }

    fn keep_deck(&mut self) {
        if let Some(Practice::Drill(drill)) = self.teaching.desk.practice() {
            shelf::write(DECK, &drill.kept());
        }
    }

    /// What stands on the staff while this is practised.
    pub(super) fn lay_out_practice(&mut self) {
        let Some(practice) = self.teaching.desk.practice() else { return };
        let (sketch, veil, note) = match practice {
            Practice::Keys(round) => {
                let tonality = round.key();
                (tastata::sketch::Sketch { tonality, ..Default::default() }, None, None)
            }
            Practice::Drill(drill) => {
                let note = drill.question().and_then(|question| question.note);
                let (sketch, veil) = drill.sketch();
                (sketch, veil, note)
            }
            Practice::Ear(ear) => (ear.sketch(), None, None),
        };
        self.app.present(sketch, veil);
        if let Some(note) = note {
            self.choose_chord(note);
        }
    }

    /// Plays what the ear is asked about, or the answer of a drill.
    fn hear_question(&mut self) {
        let asked = match &self.teaching.desk {
            Desk::Practice(practice) => match &**practice {
                Practice::Ear(ear) => {
                    // The keys would tell what the ear should.
                    let follow =
                        if ear.chosen().is_some() { Follow::Piece } else { Follow::Nothing };
                    Some((ear.question().sketch.clone(), follow))
                }
                Practice::Drill(drill) if drill.stand() != Stand::Asked => {
                    drill.question().map(|question| (question.sketch.clone(), Follow::Piece))
                }
                _ => None,
            },
            _ => None,
        };
        if let Some((sketch, follow)) = asked {
            self.hear(read(&sketch).performance, 0, follow);
        }
    }

    fn choose_answer(&mut self, choice: usize) {
        match self.teaching.desk.practice() {
            Some(Practice::Drill(drill)) => drill.choose(choice),
            Some(Practice::Ear(ear)) => ear.choose(choice),
            _ => return,
        }
        self.lay_out();
        self.hear_question();
        // The choices are taken away; what comes next stands beside them.
        dom::focus(":is(#desk-known, #desk-missed, #desk-next):not([hidden])");
    }

    fn grade(&mut self, grade: Grade) {
        if let Some(Practice::Drill(drill)) = self.teaching.desk.practice() {
            drill.grade(grade);
        }
        self.teaching.play = None;
        self.keep_deck();
        self.lay_out();
    }

    fn begin_next_key(&mut self) {
        let ready = matches!(self.teaching.desk.practice(), Some(Practice::Keys(round)) if round.key().is_some());
        if ready {
            self.begin_along();
        } else {
            self.teaching.play = None;
            self.show();
        }
    }

    /// What was practised is played to its end.
    pub(super) fn practised_through(&mut self) {
        if let Some(Practice::Drill(drill)) = self.teaching.desk.practice() {
            drill.show();
        }
        self.show();
    }
}

/// Shows what is practised on the desk.
pub(super) fn show(practice: &Practice, play: Option<&Play>) {
    for id in ["desk-find", "desk-key-label", "desk-beside-label", "desk-see", "report"] {
        dom::set_hidden(id, true);
    }
    let hidden: &[&str] = &[
        "desk-check",
        "desk-hint",
        "desk-hear-bass",
        "desk-hear-model",
        "desk-model",
        "desk-hand-in",
        "desk-send-back",
        "desk-before",
        "desk-after",
        "desk-play",
    ];
    for id in hidden.iter().chain(&ONLY_HERE) {
        dom::set_hidden(id, true);
    }
    match practice {
        Practice::Keys(round) => show_round(round, play),
        Practice::Drill(drill) => show_drill(drill),
        Practice::Ear(ear) => show_ear(ear),
    }
}

fn show_round(round: &KeysRound, play: Option<&Play>) {
    let (at, count) = round.progress();
    choices(&[], None, 0);
    dom::set_text("desk-said", "");
    let Some(key) = round.key() else {
        dom::set_text("desk-title", say(said::THROUGH_KEYS));
        dom::set_text("desk-task", say(said::KEYS_DONE));
        return;
    };
    dom::set_text("desk-title", &tell(said::THROUGH_KEYS_AT, [&(at + 1), &count]));
    dom::set_text("desk-task", &tell(said::NOW_IN, [&lang().tonality(key)]));
    dom::set_hidden("desk-next", false);
    let done = play.is_some_and(Play::is_done);
    dom::set_text("desk-next", say(if done { said::NEXT_KEY } else { said::SKIP_KEY }));
    dom::set_hidden("desk-play", play.is_some());
}

fn show_drill(drill: &Drill) {
    dom::set_text("desk-title", say(said::DRILL_TODAY));
    dom::set_text("desk-said", &words::drill_due(drill.due(), lang()));
    let Some(question) = drill.question() else {
        dom::set_text("desk-task", say(said::DUE_DONE));
        dom::set_hidden("desk-meet", false);
        choices(&[], None, 0);
        return;
    };
    glossary::set_marked("desk-task", &words::drill_question(question, lang()));
    let names: Vec<String> =
        drill.choices().iter().map(|stage| words::figures_shown(stage, lang())).collect();
    let chosen = match drill.stand() {
        Stand::Chosen(choice) => Some(choice),
        Stand::Asked | Stand::Shown => None,
    };
    choices(&names, chosen, question.answer);
    let answered = drill.stand() != Stand::Asked;
    dom::set_hidden("desk-show", answered);
    dom::set_hidden("desk-play", answered || !names.is_empty());
    dom::set_hidden("desk-again", !answered);
    let wrong = drill.was_right() == Some(false);
    dom::set_hidden("desk-known", !answered || wrong);
    dom::set_hidden("desk-barely", !answered || wrong);
    dom::set_hidden("desk-missed", !answered);
    dom::set_text("desk-missed", say(if wrong { said::GO_ON } else { said::NOT_YET }));
}

fn show_ear(ear: &Ear) {
    let (right, asked) = ear.score();
    dom::set_text("desk-title", say(said::BY_EAR));
    dom::set_text("desk-task", words::ear_prompt(ear.question(), lang()));
    let names = ear.question().choices.iter().map(|it| words::ear_choice(*it, lang()));
    choices(&names.collect::<Vec<_>>(), ear.chosen(), ear.question().answer);
    let said = match ear.chosen() {
        None => String::new(),
        Some(choice) if choice == ear.question().answer => tell(said::EAR_RIGHT, [&right, &asked]),
        Some(_) => tell(said::EAR_OTHER, [&right, &asked]),
    };
    dom::set_text("desk-said", &said);
    dom::set_hidden("desk-again", false);
    dom::set_hidden("desk-next", ear.chosen().is_none());
    dom::set_text("desk-next", say(said::NEXT_ONE));
}

/// The choices as buttons; once one is taken the right one is marked, and the one
/// taken if it was wrong.
pub(super) fn choices(names: &[String], chosen: Option<usize>, answer: usize) {
    let Some(list) = dom::get::<Element>("desk-choices") else { return };
    dom::set_hidden("desk-choices", names.is_empty());
    let key = format!("{names:?}{chosen:?}");
    if list.get_attribute("data-key").as_ref() == Some(&key) {
        return;
    }
    dom::set_attr(&list, "data-key", &key);
    dom::clear(&list);
    for (i, name) in names.iter().enumerate() {
        let sign = match chosen {
            Some(_) if i == answer => "✓ ",
            Some(choice) if i == choice => "✕ ",
            _ => "",
        };
        let Some(button) = dom::text("button", "quiet", &format!("{sign}{name}")) else { return };
        dom::set_attr(&button, "data-choice", &i.to_string());
        if chosen.is_some() {
            dom::set_attr(&button, "disabled", "");
        }
        let _ = list.append_child(&button);
    }
}

/// Takes away what only practising shows.
pub(super) fn hide() {
    choices(&[], None, 0);
    for id in ONLY_HERE {
        dom::set_hidden(id, true);
    }
    for id in ["desk-before", "desk-after"] {
        dom::set_hidden(id, false);
    }
    desk::hide_play();
}
