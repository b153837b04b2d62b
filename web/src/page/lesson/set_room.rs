//! The set in the making: its exercises in order, and what can be done with it.

use super::super::controls::{chosen, press};
use super::super::reader::{self, lang, say, tell};
use super::super::{Page, dom, wishes, with};
use super::{desk, form, sheet};
use crate::app::{Draft, Form};
use tastata::files::Linked;
use tastata::frame::Severity;
use tastata::lesson::{Ask, Exercise, Outcome, check_model};
use tastata::phrase;
use tastata::reading::read;
use tastata::words::page::said;
use tastata::words::{self, NoteNames, Tongue};
use web_sys::{Element, Event, HtmlInputElement, MouseEvent};

/// Fills the choices of language.
pub(super) fn fill() {
    for id in ["set-tongue", "set-notes"] {
        wishes::option(id, "", say(said::READERS_OWN));
    }
    reader::offer("set-tongue", "set-notes");
}

pub(super) fn wire() {
    chosen("set-tongue", |code| {
        with(move |page| {
            page.teaching.draft.set.speech.tongue = Tongue::from_code(&code);
            page.keep_draft();
        });
    });
    chosen("set-notes", |code| {
        with(move |page| {
            page.teaching.draft.set.speech.notes = NoteNames::from_code(&code);
            page.keep_draft();
        });
    });
    dom::on_id("set-title", "change", |_: Event| {
        let title = super::super::controls::value_of("set-title");
        with(move |page| {
            title.trim().clone_into(&mut page.teaching.draft.set.title);
            page.keep_draft();
        });
    });
    dom::on_id("set-list", "click", |event: MouseEvent| {
        let Some(button) = dom::closest(&event, "[data-deed]") else { return };
        let (deed, at) = (button.get_attribute("data-deed"), dom::data_number(&button, "data-at"));
        if let (Some(deed), Some(at)) = (deed, at) {
            with(move |page| page.set_deed(&deed, at));
        }
    });
    press("set-pass", || with(Page::begin_hand_out));
    press("set-try", || {
        with(|page| {
            let set = page.teaching.draft.set.clone();
            if !set.exercises.is_empty() {
                sheet::close();
                page.receive(Linked::Set(set));
            }
        });
    });
    press("set-clear", || {
        with(|page| {
            page.teaching.draft.begin_anew();
            page.keep_draft();
            dom::focus("#set-back");
        });
    });
    press("set-back", || {
        with(|page| {
            page.teaching.draft.bring_back();
            page.keep_draft();
            dom::focus("#set-pass");
        });
    });
}

impl Page {
    fn set_deed(&mut self, deed: &str, at: usize) {
        let draft = &mut self.teaching.draft;
        match deed {
            "up" => draft.shift(at, -1),
            "down" => draft.shift(at, 1),
            "remove" => draft.remove(at),
            _ => {
                let Some(exercise) = draft.set.exercises.get(at) else { return };
                form::fill_in(&Form::of(exercise));
                draft.changing = Some(at);
                sheet::enter("make");
            }
        }
        self.keep_draft();
        // The list is new; the next press should find its button under the focus.
        match deed {
            "up" => dom::focus(&button_of(deed, at.saturating_sub(1))),
            "down" => dom::focus(&button_of(deed, at + 1)),
            "remove" => dom::focus("#set-back"),
            _ => {}
        }
    }
}

fn button_of(deed: &str, at: usize) -> String {
    format!("#set-list [data-deed='{deed}'][data-at='{at}']")
}

pub(super) fn show(draft: &Draft) {
    let exercises = &draft.set.exercises;
    let count = if exercises.is_empty() { String::new() } else { format!("({})", exercises.len()) };
    dom::set_text("set-count", &count);
    let speech = draft.set.speech;
    wishes::choose("set-tongue", speech.tongue.map_or("", Tongue::code));
    wishes::choose("set-notes", speech.notes.map_or("", NoteNames::code));
    dom::set_hidden("set-empty", !exercises.is_empty());
    for id in ["set-pass", "set-try", "set-clear"] {
        super::super::controls::enable(id, !exercises.is_empty());
    }
    dom::set_hidden("set-back", !draft.can_bring_back());
    if let Some(input) = dom::get::<HtmlInputElement>("set-title")
        && !dom::has_focus("set-title")
    {
        input.set_value(&draft.set.title);
    }
    let Some(list) = dom::get::<Element>("set-list") else { return };
    dom::clear(&list);
    for (at, exercise) in exercises.iter().enumerate() {
        if let Some(item) = item(at, exercises.len(), exercise) {
            let _ = list.append_child(&item);
        }
    }
}

fn asks_for_faults(exercise: &Exercise) -> bool {
    exercise.asks.iter().any(|ask| matches!(ask, Ask::FindFaults(_)))
}

fn has_faults(exercise: &Exercise) -> bool {
    let faults = read(&exercise.sketch).frame.faults;
    faults.iter().any(|fault| fault.severity == Severity::Fault)
}

fn item(at: usize, count: usize, exercise: &Exercise) -> Option<Element> {
    let item = dom::make("li", "")?;
    let title = exercise.sketch.title.trim();
    let title = if title.is_empty() { say(said::UNTITLED) } else { title };
    let notes = exercise.sketch.notes.len();
    let head = tell(said::SET_LINE, [&(at + 1), &title, &notes]);
    let _ = item.append_child(&*dom::text("b", "", &head)?);
    let _ = item.append_child(&*dom::text("p", "task", &desk::task(exercise))?);
    let sealed = match &exercise.model {
        None => say(said::WITHOUT_MODEL).to_owned(),
        Some(model) => words::opens(model.opens, lang()).to_owned(),
    };
    let says = format!("{} {sealed}", words::feedback(exercise.feedback, lang()));
    let _ = item.append_child(&*dom::text("p", "hint", &says)?);
    if let Some(report) = check_model(exercise)
        && report.results.iter().any(|result| result.outcome != Outcome::Done)
    {
        let warning = tell(said::MODEL_FAILS, [&words::report_summary(&report, lang())]);
        let _ = item.append_child(&*dom::text("p", "warning", &warning)?);
    }
    if asks_for_faults(exercise) && !has_faults(exercise) {
        let warning = lang().say(phrase!(
            "There is no fault to be found yet. Plant some: on the page, fix soprano notes that break a rule, then make the exercise.",
            "Non c’è ancora nessun errore da trovare. Nascondine: sulla pagina fissa note del soprano che infrangono una regola, poi crea l’esercizio.",
            "Noch ist kein Fehler zu finden. Um welche zu verstecken, auf der Seite Soprantöne festhalten, die eine Regel brechen, dann die Aufgabe stellen.",
            "Il n’y a encore aucune faute à trouver. Cachez-en : sur la page, fixez des notes de soprano qui enfreignent une règle, puis créez l’exercice.",
            "Aún no hay ninguna falta que encontrar. Esconde alguna: en la página, fija notas del soprano que rompan una regla y crea luego el ejercicio."
        ));
        let _ = item.append_child(&*dom::text("p", "warning", warning)?);
    }
    let row = dom::make("div", "row")?;
    let deeds = [
        ("up", "▲", say(said::EARLIER), at > 0),
        ("down", "▼", say(said::LATER), at + 1 < count),
        ("change", say(said::CHANGE), say(said::CHANGE_EXERCISE), true),
        ("remove", say(said::REMOVE), say(said::REMOVE_EXERCISE), true),
    ];
    for (deed, text, label, possible) in deeds {
        let button = dom::text("button", "quiet", text)?;
        dom::set_attr(&button, "data-deed", deed);
        dom::set_attr(&button, "data-at", &at.to_string());
        dom::set_attr(&button, "aria-label", &format!("{label}: {}", at + 1));
        if !possible {
            dom::set_attr(&button, "disabled", "");
        }
        let _ = row.append_child(&button);
    }
    let _ = item.append_child(&row);
    Some(item)
}
