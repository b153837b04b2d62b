//! The desk above the staff: the task, hints, what can be done now, and what a
//! check said in a line.

use super::super::audio::Follow;
use super::super::controls::{chosen, enable, press};
use super::super::reader::{lang, say, tell};
use super::super::{Page, bars, dom, glossary, notice, wishes, with};
use super::{along, find, practise, report, thumb};
use crate::app::{Beside, Desk, Reader, Review, Veil, Work};
use tastata::figures::{Figures, Stage};
use tastata::lesson::{Ask, Exercise, Feedback, Hears};
use tastata::pitch::Tonality;
use tastata::reading::read;
use tastata::roll::Performance;
use tastata::sketch::Sketch;
use tastata::words;
use tastata::words::page::said;
use web_sys::{Element, HtmlElement};

const BESIDE: [(&str, Beside); 3] =
    [("answer", Beside::Answer), ("given", Beside::Given), ("model", Beside::Model)];

pub(super) fn wire() {
    press("desk-before", || with(|page| page.turn(-1)));
    press("desk-after", || with(|page| page.turn(1)));
    press("desk-leave", || with(Page::leave_desk));
    press("desk-play", || with(Page::begin_along));
    press("desk-hint", || {
        with(|page| {
            if let Some(work) = page.teaching.desk.work() {
                work.next_hint();
                thumb::fold(false);
                if let Some(hint) = work.hints().last() {
                    notice::announce(hint);
                }
            }
            page.keep_work();
            page.show();
        });
    });
    press("desk-see", || {
        if let Some(report) = dom::get::<HtmlElement>("report") {
            report.scroll_into_view();
        }
    });
    press("desk-check", || with(Page::check_work));
    press("desk-hear-bass", || with(|page| page.hear_given(bass_alone)));
    press("desk-hear-model", || {
        with(|page| page.hear_given(|exercise| Some(exercise.model.as_ref()?.sketch.clone())));
    });
    press("desk-model", || with(Page::open_model));
    press("desk-hand-in", || with(Page::begin_hand_in));
    press("desk-send-back", || with(Page::begin_send_back));
    chosen("desk-key", |value| {
        with(move |page| {
            if let Some(work) = page.teaching.desk.work() {
                work.work_in(Tonality::parse(&value));
            }
            page.lay_out();
        });
    });
    chosen("desk-beside", |value| {
        let beside = BESIDE.iter().find(|(name, _)| *name == value).map(|(_, it)| *it);
        with(move |page| {
            if let (Some(review), Some(beside)) = (page.teaching.desk.review(), beside) {
                review.look_at(beside);
            }
            page.lay_out();
        });
    });
}

impl Page {
    /// Goes to the next exercise (1) or the one before (-1).
    fn turn(&mut self, by: i32) {
        let to = |at: usize| (at as i64 + i64::from(by)).max(0) as usize;
        match &mut self.teaching.desk {
            Desk::Own | Desk::Practice(_) => {}
            Desk::Work(work) => work.go(to(work.at())),
            Desk::Review(review) => review.go(to(review.at())),
        }
        self.lay_out();
    }

    fn check_work(&mut self) {
        let Some(work) = self.teaching.desk.work() else { return };
        work.check();
        if let Some(report) = work.report() {
            notice::announce(&words::report_summary(report, lang()));
        }
        self.keep_work();
        self.show();
    }

    /// Plays something of the exercise without showing it.
    fn hear_given(&mut self, what: impl FnOnce(&Exercise) -> Option<Sketch>) {
        let exercise = match &self.teaching.desk {
            Desk::Own | Desk::Practice(_) => return,
            Desk::Work(work) => work.exercise(),
            Desk::Review(review) => review.exercise(),
        };
        if let Some(sketch) = what(exercise) {
            self.hear(read(&sketch).performance, 0, Follow::Keys);
        }
    }

    /// Puts the model on the staff to be looked at, or the work back.
    fn open_model(&mut self) {
        let Some(work) = self.teaching.desk.work() else { return };
        let Some(model) = work.model().cloned() else { return };
        let shown = self.teaching.model_shown;
        self.lay_out();
        if !shown {
            self.teaching.model_shown = true;
            self.app.present(model, None);
            self.show();
        }
    }

    /// How an answer sounds: only what the student made of it.
    pub(super) fn answer_performance(exercise: &Exercise, sketch: &Sketch) -> Performance {
        Veil::of(exercise).reading(sketch).performance
    }
}

/// The bass without any chord.
fn bass_alone(exercise: &Exercise) -> Option<Sketch> {
    let mut sketch = exercise.sketch.clone();
    for note in &mut sketch.notes {
        note.figures = Figures::new(vec![Stage::TastoSolo]);
        note.handfuls.clear();
        note.soprano.clear();
    }
    Some(sketch)
}

/// Shows the desk, or takes it away.
pub(in super::super) fn show(page: &Page) {
    let desk = &page.teaching.desk;
    let working = !matches!(desk, Desk::Own);
    dom::set_hidden("desk", !working);
    if let Some(body) = dom::document().and_then(|d| d.body()) {
        let list = body.class_list();
        let _ = list.toggle_with_force("working", working);
        let practising = matches!(desk, Desk::Practice(_));
        let _ = list.toggle_with_force("practising", practising);
        let asked = matches!(desk, Desk::Work(work) if asks_figures(work.exercise()));
        let _ = list.toggle_with_force("figuring", asked);
        let given = match desk {
            Desk::Work(work) => bass_is_given(work),
            Desk::Review(_) => true,
            Desk::Own | Desk::Practice(_) => false,
        };
        let _ = list.toggle_with_force("bassgiven", given);
    }
    roles(desk);
    thumb::show(page);
    along::show(page);
    if !matches!(desk, Desk::Practice(_)) {
        practise::hide();
    }
    match desk {
        Desk::Own => report::hide(),
        Desk::Work(work) => show_work(work, page.teaching.model_shown),
        Desk::Review(review) => show_review(review),
        Desk::Practice(practice) => practise::show(practice, page.teaching.play.as_ref()),
    }
}

/// Offers what the keys can do for this work, and all of it elsewhere.
fn roles(desk: &Desk) {
    let used = |name: &str| match desk {
        Desk::Work(work) => uses(work, name),
        Desk::Review(_) => false,
        Desk::Own | Desk::Practice(_) => true,
    };
    for name in ["add", "change", "soprano", "handful", "figures"] {
        if let Some(button) = bars::role_button(name) {
            button.set_hidden(!used(name));
        }
    }
}

/// Whether the keys do this in the exercise that is worked on.
fn uses(work: &Work, name: &str) -> bool {
    let asks = &work.exercise().asks;
    let any = |asked: fn(&Ask) -> bool| asks.iter().any(asked);
    any(|ask| matches!(ask, Ask::Free))
        || match name {
            "add" | "change" => !bass_is_given(work),
            "soprano" => any(|ask| matches!(ask, Ask::Soprano { .. })),
            "handful" => any(|ask| matches!(ask, Ask::Handfuls { .. })),
            _ => asks_figures(work.exercise()),
        }
}

/// Takes the button for playing along away.
pub(super) fn hide_play() {
    dom::set_hidden("desk-play", true);
}

/// Whether the whole bass is given, so that there is nothing to add to it.
fn bass_is_given(work: &Work) -> bool {
    let grows = |ask: &Ask| matches!(ask, Ask::Finish(_) | Ask::Free);
    work.key().is_none() && !work.exercise().asks.iter().any(grows)
}

/// Whether figures are to be written.
fn asks_figures(exercise: &Exercise) -> bool {
    let writes = |ask: &Ask| matches!(ask, Ask::Figures(_) | Ask::Finish(_) | Ask::Free);
    exercise.asks.iter().any(writes)
}

/// What a person is to do: the teacher's words, then what is checked.
pub(in super::super) fn task(exercise: &Exercise) -> String {
    let asks = exercise.asks.iter().map(|ask| words::ask(ask, lang()));
    let asks = asks.collect::<Vec<_>>().join(" ");
    match exercise.task.as_str() {
        "" => asks,
        task => format!("{task}\n{asks}"),
    }
}

fn place(at: usize, count: usize, title: &str) -> String {
    let title = if title.is_empty() { String::new() } else { format!(" · {title}") };
    format!("{}{title}", tell(said::EXERCISE_OF, [&(at + 1), &count]))
}

fn show_work(work: &Work, model_shown: bool) {
    let exercise = work.exercise();
    let count = work.set().exercises.len();
    dom::set_text("desk-title", &place(work.at(), count, &work.set().title));
    for id in ["desk-before", "desk-after"] {
        dom::set_hidden(id, count == 1);
    }
    enable("desk-before", work.at() > 0);
    enable("desk-after", work.at() + 1 < count);
    glossary::set_marked("desk-task", &task(exercise));
    hints(work.hints());
    dom::set_hidden("desk-hint", work.hints().len() >= exercise.hints.len());
    let checks = work.may_check() && exercise.feedback != Feedback::Live && !model_shown;
    dom::set_hidden("desk-check", !checks);
    dom::set_hidden("desk-hear-bass", exercise.hears == Hears::OwnWork);
    let hears_model = exercise.hears == Hears::Model && exercise.model.is_some();
    dom::set_hidden("desk-hear-model", !hears_model);
    dom::set_hidden("desk-model", work.model().is_none());
    dom::set_text(
        "desk-model",
        say(if model_shown { said::BACK_TO_WORK } else { said::OPEN_MODEL }),
    );
    dom::set_attr_of("desk-model", "aria-pressed", if model_shown { "true" } else { "false" });
    dom::set_hidden("desk-hand-in", false);
    dom::set_hidden("desk-send-back", true);
    dom::set_hidden("desk-beside-label", true);
    keys(work);
    dom::set_hidden("desk-play", !work.can_play());
    find::show(work);
    let said = match (work.report(), exercise.feedback) {
        (Some(_), _) if work.changed_since_check() => say(said::CHANGED_SINCE).to_owned(),
        (Some(report), _) => words::report_summary(report, lang()),
        (None, feedback) => words::feedback(feedback, lang()).to_owned(),
    };
    dom::set_text("desk-said", &said);
    dom::set_hidden("desk-see", work.report().is_none() || model_shown);
    report::show_work(work, model_shown);
}

fn keys(work: &Work) {
    dom::set_hidden("desk-key-label", work.keys().is_empty());
    let names: Vec<String> = work.keys().iter().map(|key| key.to_string()).collect();
    let Some(select) = dom::get::<Element>("desk-key") else { return };
    let listed = names.join(",");
    if select.get_attribute("data-key").as_ref() != Some(&listed) {
        dom::set_attr(&select, "data-key", &listed);
        dom::clear(&select);
        wishes::option("desk-key", "", say(said::GIVEN_KEY));
        for (key, name) in work.keys().iter().zip(&names) {
            wishes::option("desk-key", name, &lang().tonality(*key));
        }
    }
    wishes::choose("desk-key", &work.key().map(|key| key.to_string()).unwrap_or_default());
}

fn hints(hints: &[String]) {
    let Some(list) = dom::get::<Element>("desk-hints") else { return };
    dom::clear(&list);
    for hint in hints {
        if let Some(item) = dom::text("li", "", hint) {
            let _ = list.append_child(&item);
        }
    }
}

fn show_review(review: &Review) {
    let hand_in = &review.commented().hand_in;
    let name = match hand_in.student.trim() {
        "" => say(said::ANONYMOUS),
        name => name,
    };
    let title = format!("{name} · {}", place(review.at(), review.count(), &hand_in.set.title));
    dom::set_text("desk-title", &title);
    enable("desk-before", review.at() > 0);
    enable("desk-after", review.at() + 1 < review.count());
    glossary::set_marked("desk-task", &task(review.exercise()));
    hints(&[]);
    for id in ["desk-hint", "desk-check", "desk-hear-bass", "desk-hear-model", "desk-model"] {
        dom::set_hidden(id, true);
    }
    for id in ["desk-hand-in", "desk-key-label", "desk-find"] {
        dom::set_hidden(id, true);
    }
    dom::set_hidden("desk-send-back", review.reader() != Reader::Teacher);
    dom::set_hidden("desk-beside-label", false);
    let beside = BESIDE.iter().find(|(_, it)| *it == review.beside()).map_or("", |(name, _)| name);
    wishes::choose("desk-beside", beside);
    let made = match review.answer() {
        None => say(said::NOT_BEGUN).to_owned(),
        Some(answer) => {
            let summary = review.report().map(|it| words::report_summary(it, lang()));
            let time = match answer.minutes {
                0 | 1 => say(said::WITHIN_MINUTE).to_owned(),
                n => tell(said::IN_MINUTES, [&n]),
            };
            format!("{} {time}", summary.unwrap_or_default())
        }
    };
    dom::set_text("desk-said", &made);
    dom::set_hidden("desk-see", false);
    report::show_review(review);
}
