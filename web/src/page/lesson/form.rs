//! The form of one exercise: from the page's controls to the app's form and back.

use super::super::controls::{is_checked, press, text_of, value_of, value_of_select};
use super::super::reader::{lang, say, tell};
use super::super::{Page, dom, wishes, with};
use super::sheet;
use crate::app::{Desk, Form, MOST_EXERCISES};
use std::cell::Cell;
use tastata::bass::read_tonality;
use tastata::frame::{Rule, Strictness};
use tastata::harmony::Cadence;
use tastata::lesson::{
    Ask, Feedback, Hears, Measure, MotionLimit, Naming, Opens, Part, Parts, Telling, make,
};
use tastata::pitch::Tonality;
use tastata::sketch::Sketch;
use tastata::words;
use tastata::words::page::page_texts;
use tastata::words::page::said;
use web_sys::{Event, HtmlInputElement, HtmlTextAreaElement};

const FEEDBACK: [Feedback; 3] = [Feedback::OnRequest, Feedback::Live, Feedback::AtEnd];
const TELLING: [Telling; 3] = [Telling::InSteps, Telling::PlaceAlone, Telling::AtOnce];
const HEARS: [Hears; 3] = [Hears::Bass, Hears::OwnWork, Hears::Model];
const OPENS: [Opens; 3] = [Opens::AfterHandIn, Opens::AfterTrying, Opens::Anytime];
const MEASURES: [Measure; 3] = [Measure::Complete, Measure::Accepted, Measure::AsModel];
const CADENCES: [(&str, Cadence); 3] =
    [("simple", Cadence::Simple), ("compound", Cadence::Compound), ("double", Cadence::Double)];
const ASKS: [&str; 8] =
    ["figures", "soprano", "find", "handfuls", "roll", "keys", "finish", "free"];
const GIVEN: [(&str, Part); 4] = [
    ("give-figures", Part::Figures),
    ("give-soprano", Part::Soprano),
    ("give-handfuls", Part::Handfuls),
    ("give-roll", Part::Roll),
];

thread_local! {
    static BEGUN: Cell<bool> = const { Cell::new(false) };
}

pub(super) fn fill() {
    for (i, it) in FEEDBACK.iter().enumerate() {
        let text = words::feedback(*it, lang());
        wishes::option("make-feedback", &i.to_string(), text);
    }
    for (i, it) in TELLING.iter().enumerate() {
        wishes::option("make-telling", &i.to_string(), words::telling(*it, lang()));
    }
    for (i, it) in HEARS.iter().enumerate() {
        wishes::option("make-hears", &i.to_string(), words::hears(*it, lang()));
    }
    for (i, it) in OPENS.iter().enumerate() {
        wishes::option("make-opens", &i.to_string(), words::opens(*it, lang()));
    }
    dom::set_text("make-sealed", words::sealed(lang()));
    // Once: what a teacher has written stays when the language changes.
    if !BEGUN.replace(true) {
        fill_in(&Form {
            asks: vec![Ask::Figures(Measure::default())],
            model: Some(Opens::default()),
            telling: Telling::InSteps,
            ..Form::default()
        });
    }
}

pub(super) fn wire() {
    for ask in ASKS {
        dom::on_id(&format!("ask-{ask}"), "change", |_: Event| asks_changed());
    }
    press("make-put", || match asked() {
        Ok(asks) if asks.is_empty() => {
            dom::set_text("make-note", say(said::ASK_FIRST));
        }
        Ok(asks) => with(move |page| page.put_exercise(asks)),
        Err(unread) => dom::set_text(
            "make-note",
            &tell(
                said::NO_KEY,
                [
                    &unread,
                    &page_texts(lang()).get("ask-keys-order.hint").copied().unwrap_or_default(),
                ],
            ),
        ),
    });
    press("make-stop", || {
        with(|page| {
            page.teaching.draft.changing = None;
            page.show_teaching();
        });
    });
}

thread_local! {
    /// What was given when the boxes last followed what is asked.
    static FOLLOWED: Cell<Option<Parts>> = const { Cell::new(None) };
}

/// What is asked hides what would give it away, where the teacher has not chosen otherwise.
fn asks_changed() {
    let Ok(asks) = asked() else { return };
    let given = make(&Sketch::default(), asks).given;
    let followed = FOLLOWED.replace(Some(given));
    for (id, part) in GIVEN {
        if followed.is_none_or(|followed| followed.has(part) == is_checked(id)) {
            set_checked(id, given.has(part));
        }
    }
    say_asked();
}

/// The words that stand for the teacher's own while there are none.
pub(super) fn say_asked() {
    let Ok(asks) = asked() else { return };
    let typed = dom::get::<HtmlTextAreaElement>("make-task");
    if let Some(task) = typed {
        let says: Vec<String> = asks.iter().map(|ask| words::ask(ask, lang())).collect();
        task.set_placeholder(&says.join(" "));
    }
}

impl Page {
    fn put_exercise(&mut self, asks: Vec<Ask>) {
        let changing = self.teaching.draft.changing.is_some();
        if self.app.sketch().notes.is_empty() && !changing {
            dom::set_text("make-note", say(said::NO_BASS_YET));
            return;
        }
        let given = GIVEN.into_iter().filter(|(id, _)| is_checked(id));
        let given = given.map(|(_, part)| part).fold(Parts::NONE.with(Part::Bass), Parts::with);
        let form = Form {
            asks,
            task: text_of("make-task"),
            hints: text_of("make-hints"),
            given: Some(given),
            feedback: pick("make-feedback", &FEEDBACK),
            telling: pick("make-telling", &TELLING),
            hears: pick("make-hears", &HEARS),
            model: is_checked("make-model").then(|| pick("make-opens", &OPENS)),
        };
        let sketch = self.finished_sketch();
        if !self.teaching.draft.put(&form, &sketch) {
            let full = tell(said::SET_FULL, [&MOST_EXERCISES]);
            dom::set_text("make-note", &full);
            return;
        }
        dom::set_text("make-note", "");
        for id in ["make-task", "make-hints"] {
            set_text_of(id, "");
        }
        self.keep_draft();
        sheet::enter("set");
    }

    /// The sketch that exercises are made from: the person's own.
    fn finished_sketch(&self) -> Sketch {
        match (&self.teaching.desk, &self.teaching.own) {
            (Desk::Own, _) | (_, None) => self.app.sketch().clone(),
            (_, Some(own)) => own.sketch().clone(),
        }
    }
}

pub(super) fn show(page: &Page) {
    let sketch = page.finished_sketch();
    let changing = page.teaching.draft.changing;
    let from = match changing {
        Some(at) => tell(said::CHANGING, [&(at + 1)]),
        None => {
            let title = sketch.title.trim();
            let title = if title.is_empty() { say(said::THE_SKETCH) } else { title };
            match sketch.notes.len() {
                1 => tell(said::MADE_FROM_ONE, [&title]),
                n => tell(said::MADE_FROM, [&title, &n]),
            }
        }
    };
    dom::set_text("make-from", &from);
    let rules = sketch.frame.rules;
    let own = Rule::ALL.into_iter().filter(|r| rules.strictness(*r) != Strictness::Usual).count();
    let says = match own {
        0 => say(said::RULES_USUAL).to_owned(),
        1 => say(said::RULES_ONE).to_owned(),
        n => tell(said::RULES_MORE, [&n]),
    };
    let says = format!("{says} {}", say(said::RULES_WHERE));
    dom::set_text("make-rules", if changing.is_some() { "" } else { &says });
    dom::set_text(
        "make-put",
        say(if changing.is_some() { said::SAVE_CHANGE } else { said::ADD_TO_SET }),
    );
    dom::set_hidden("make-stop", changing.is_none());
}

/// The asks chosen, in order; `Err` with a key that could not be read.
fn asked() -> Result<Vec<Ask>, String> {
    let mut asks = Vec::new();
    for name in ASKS.into_iter().filter(|name| is_checked(&format!("ask-{name}"))) {
        asks.push(match name {
            "figures" => {
                let measure = value_of_select("ask-measure").parse().ok();
                let measure = measure.and_then(|i: usize| MEASURES.get(i)).copied();
                Ask::Figures(measure.unwrap_or_default())
            }
            "soprano" => Ask::Soprano {
                position: named("ask-position", &wishes::POSITIONS).flatten(),
                motions: match value_of_select("ask-motion").as_str() {
                    "any" => MotionLimit::Any,
                    _ => MotionLimit::ContraryOrTenths,
                },
            },
            "find" => Ask::FindFaults(match value_of_select("ask-naming").as_str() {
                "place" => Naming::Place,
                _ => Naming::Named,
            }),
            "handfuls" => {
                Ask::Handfuls { least: value_of_select("ask-least").parse().unwrap_or(2) }
            }
            "roll" => {
                Ask::Roll { acciaccaturas: value_of_select("ask-spice").parse().unwrap_or(2) }
            }
            "keys" => Ask::Keys(keys(&value_of("ask-keys-order"))?),
            "finish" => Ask::Finish(named("ask-cadence", &CADENCES).unwrap_or(Cadence::Simple)),
            _ => Ask::Free,
        });
    }
    Ok(asks)
}

fn keys(text: &str) -> Result<Vec<Tonality>, String> {
    let words = text.split([',', ';']).map(str::trim).filter(|word| !word.is_empty());
    words.map(|word| read_tonality(word, lang().notes).ok_or_else(|| word.to_owned())).collect()
}

/// Puts a form into the page's controls.
pub(super) fn fill_in(form: &Form) {
    for name in ASKS {
        set_checked(&format!("ask-{name}"), false);
    }
    for ask in &form.asks {
        let name = match ask {
            Ask::Figures(measure) => {
                let at = MEASURES.iter().position(|it| it == measure).unwrap_or(1);
                wishes::choose("ask-measure", &at.to_string());
                "figures"
            }
            Ask::Soprano { position, motions } => {
                choose("ask-position", &wishes::POSITIONS, position);
                let motion = if *motions == MotionLimit::Any { "any" } else { "narrow" };
                wishes::choose("ask-motion", motion);
                "soprano"
            }
            Ask::FindFaults(naming) => {
                let naming = if *naming == Naming::Place { "place" } else { "named" };
                wishes::choose("ask-naming", naming);
                "find"
            }
            Ask::Handfuls { least } => {
                wishes::choose("ask-least", &least.to_string());
                "handfuls"
            }
            Ask::Roll { acciaccaturas } => {
                wishes::choose("ask-spice", &acciaccaturas.to_string());
                "roll"
            }
            Ask::Keys(keys) => {
                let keys: Vec<String> = keys.iter().map(|key| lang().tonality(*key)).collect();
                wishes::input("ask-keys-order", &keys.join(", "));
                "keys"
            }
            Ask::Finish(cadence) => {
                choose("ask-cadence", &CADENCES, cadence);
                "finish"
            }
            Ask::Free => "free",
        };
        set_checked(&format!("ask-{name}"), true);
    }
    FOLLOWED.set(None);
    asks_changed();
    if let Some(given) = form.given {
        for (id, part) in GIVEN {
            set_checked(id, given.has(part));
        }
    }
    set_text_of("make-task", &form.task);
    set_text_of("make-hints", &form.hints);
    put("make-feedback", &FEEDBACK, form.feedback);
    put("make-telling", &TELLING, form.telling);
    put("make-hears", &HEARS, form.hears);
    put("make-opens", &OPENS, form.model.unwrap_or_default());
    set_checked("make-model", form.model.is_some());
}

fn named<T: Copy>(id: &str, list: &[(&str, T)]) -> Option<T> {
    let value = value_of_select(id);
    list.iter().find(|(name, _)| *name == value).map(|(_, it)| *it)
}

fn choose<T: PartialEq>(id: &str, list: &[(&str, T)], it: &T) {
    if let Some((name, _)) = list.iter().find(|(_, other)| other == it) {
        wishes::choose(id, name);
    }
}

fn pick<T: Copy + Default>(id: &str, list: &[T]) -> T {
    let index: Option<usize> = value_of_select(id).parse().ok();
    index.and_then(|i| list.get(i)).copied().unwrap_or_default()
}

fn put<T: PartialEq>(id: &str, list: &[T], it: T) {
    let at = list.iter().position(|other| *other == it).unwrap_or_default();
    wishes::choose(id, &at.to_string());
}

fn set_checked(id: &str, checked: bool) {
    if let Some(input) = dom::get::<HtmlInputElement>(id) {
        input.set_checked(checked);
    }
}

fn set_text_of(id: &str, value: &str) {
    if let Some(text) = dom::get::<HtmlTextAreaElement>(id) {
        text.set_value(value);
    }
}
