//! A class's answers: pasted or from files, as a table that can be sorted, heard,
//! opened and copied.

use super::super::audio::Follow;
use super::super::controls::{chosen, press, text_of};
use super::super::reader::{lang, say, tell};
use super::super::{Page, dom, share, with};
use super::sheet;
use crate::app::{Against, Class, Desk, Review};
use tastata::lesson::{Cell, Outcome, Row, SortBy, Status};
use tastata::phrase;
use tastata::words;
use tastata::words::page::said;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{
    DragEvent, Element, Event, FileList, HtmlInputElement, HtmlTextAreaElement, MouseEvent,
};

const SORTS: [(&str, SortBy); 4] = [
    ("name", SortBy::Name),
    ("faults", SortBy::Faults),
    ("done", SortBy::Done),
    ("link", SortBy::Link),
];
/// Bytes of a file that is read; a class's links are far fewer.
const MOST_BYTES: f64 = 4_000_000.0;

pub(super) fn wire() {
    press("class-read", read_links);
    dom::on_id("class-files", "change", |_: Event| {
        let Some(input) = dom::get::<HtmlInputElement>("class-files") else { return };
        if let Some(files) = input.files() {
            take(&files);
        }
        input.set_value("");
    });
    dom::on_id("class-links", "dragover", |event: DragEvent| event.prevent_default());
    dom::on_id("class-links", "drop", |event: DragEvent| {
        let files = event.data_transfer().and_then(|it| it.files());
        if let Some(files) = files.filter(|files| files.length() > 0) {
            event.prevent_default();
            take(&files);
        }
    });
    chosen("class-sort", |_| {
        with(|page| {
            page.sort_class();
            show(&page.teaching.class);
        });
    });
    press("class-csv", || {
        with(|page| {
            let class = &page.teaching.class;
            let text = words::class_csv(class.rows(), class.set(), lang());
            share::copy(text, "class-note", say(said::TABLE_COPIED));
        });
    });
    dom::on_id("class-table", "click", |event: MouseEvent| {
        let Some(button) = dom::closest(&event, "[data-row]") else { return };
        let row = dom::data_number(&button, "data-row");
        let exercise = dom::data_number(&button, "data-exercise");
        let Some(row) = row else { return };
        with(move |page| match exercise {
            Some(exercise) => page.hear_answer(row, exercise),
            None => page.open_answers(row),
        });
    });
}

/// Reads the text files and puts what is in them under what was pasted.
fn take(files: &FileList) {
    for file in (0..files.length()).filter_map(|i| files.get(i)) {
        if file.size() > MOST_BYTES {
            dom::set_text("class-note", say(said::CLASS_FILE_LARGE));
            continue;
        }
        let text = file.text();
        spawn_local(async move {
            let text = JsFuture::from(text).await.ok().and_then(|text| text.as_string());
            let field = dom::get::<HtmlTextAreaElement>("class-links");
            match (text, field) {
                (Some(text), Some(field)) => {
                    let before = field.value();
                    field.set_value(format!("{before}\n{text}").trim_start());
                    read_links();
                }
                _ => dom::set_text("class-note", say(said::CLASS_FILE_UNREADABLE)),
            }
        });
    }
}

fn read_links() {
    let text = text_of("class-links");
    with(move |page| {
        page.teaching.class = Class::read(&text, &page.teaching.draft.set);
        page.sort_class();
        let note = note(&page.teaching.class);
        dom::set_text("class-note", &note);
        show(&page.teaching.class);
    });
}

impl Page {
    /// Opens the sheet with these answers read.
    pub(in super::super) fn collect(&mut self, links: &[String]) {
        if let Some(field) = dom::get::<HtmlTextAreaElement>("class-links") {
            field.set_value(&links.join("\n"));
        }
        self.open_teaching();
        sheet::enter("collect");
        read_links();
    }
}

fn note(class: &Class) -> String {
    let rows = class.rows();
    if rows.is_empty() {
        return say(said::NO_ANSWER_LINKS).to_owned();
    }
    let ready = rows.iter().filter(|row| row.status == Status::Ready).count();
    let mut note = lang().count(ready, said::ONE_ANSWER, said::ANSWERS);
    let bad = rows.len() - ready;
    if bad > 0 {
        note += &format!(" {}", lang().count(bad, said::ONE_BAD_LINK, said::BAD_LINKS));
    }
    if class.against() == Against::TheirOwn {
        note = format!("{note} {}", say(said::OTHER_SET));
    }
    note
}

impl Page {
    fn sort_class(&mut self) {
        let value = super::super::controls::value_of_select("class-sort");
        let by = SORTS.iter().find(|(name, _)| *name == value).map_or(SortBy::Name, |(_, by)| *by);
        self.teaching.class.sort(by);
    }

    fn hear_answer(&mut self, row: usize, exercise: usize) {
        let Some(hand_in) = self.teaching.class.open(row) else { return };
        let set = self.teaching.class.set();
        let answer = hand_in.answers.get(exercise).and_then(Option::as_ref);
        if let (Some(exercise), Some(answer)) = (set.exercises.get(exercise), answer) {
            let performance = Page::answer_performance(exercise, &answer.sketch);
            self.hear(performance, 0, Follow::Keys);
        }
    }

    fn open_answers(&mut self, row: usize) {
        let review = self.teaching.class.open(row).and_then(Review::of);
        if let Some(review) = review {
            sheet::close();
            self.put_on_desk(Desk::Review(Box::new(review)));
        }
    }
}

pub(super) fn show(class: &Class) {
    dom::set_hidden("class-room", class.rows().is_empty());
    let Some(table) = dom::get::<Element>("class-table") else { return };
    dom::clear(&table);
    let _ = fill(&table, class);
}

fn fill(table: &Element, class: &Class) -> Option<()> {
    let head = dom::make("tr", "")?;
    let exercises = class.set().exercises.len();
    let numbers = (1..=exercises).map(|n| (tell(said::EXERCISE, [&n]), n.to_string()));
    let alone = |text: &str| (text.to_owned(), String::new());
    let heads = [alone(say(said::NAME))].into_iter().chain(numbers);
    for (text, short) in heads.chain([say(said::FAULTS_HEAD), say(said::MINUTES), ""].map(alone)) {
        let cell = dom::make("th", "")?;
        dom::set_attr(&cell, "scope", "col");
        if short.is_empty() {
            cell.set_text_content(Some(&text));
        } else {
            // A phone has room for the number alone; its name says the rest.
            dom::set_attr(&cell, "aria-label", &text);
            let _ = cell.append_child(&*dom::text("span", "atlarge", &text)?);
            let _ = cell.append_child(&*dom::text("span", "atsmall", &short)?);
        }
        let _ = head.append_child(&cell);
    }
    let top = dom::make("thead", "")?;
    let _ = top.append_child(&head);
    let _ = table.append_child(&top);
    let body = dom::make("tbody", "")?;
    for (place, row) in class.rows().iter().enumerate() {
        let _ = body.append_child(&*line(place, row, exercises)?);
    }
    let _ = table.append_child(&body);
    Some(())
}

fn line(place: usize, row: &Row, exercises: usize) -> Option<Element> {
    let line = dom::make("tr", "")?;
    let name = match row.student.trim() {
        "" => say(said::NO_NAME),
        name => name,
    };
    let head = dom::text("th", "", name)?;
    dom::set_attr(&head, "scope", "row");
    let _ = line.append_child(&head);
    if row.status != Status::Ready {
        let said = dom::text("td", "remark", words::row_status(row.status, lang()))?;
        dom::set_attr(&said, "colspan", &(exercises + 3).to_string());
        let _ = line.append_child(&said);
        return Some(line);
    }
    for (exercise, cell) in row.cells.iter().enumerate() {
        let holder = dom::make("td", "")?;
        let hear = dom::make("button", "quiet cell")?;
        let (sign, word) = told(cell);
        let _ = hear.append_child(&*dom::text("span", "roomy", "▶ ")?);
        let _ = hear.append_child(&*dom::text("span", "", sign)?);
        // The sign and the number say it; the word is in the hint.
        let _ = hear.append_child(&*dom::text("span", "roomy", &format!(" {word}"))?);
        let short = match cell.faults {
            0 => String::new(),
            n => format!(" {n}"),
        };
        let short = dom::text("span", "small", &short)?;
        dom::set_attr(&short, "aria-hidden", "true");
        let _ = hear.append_child(&short);
        dom::set_attr(&hear, "data-row", &place.to_string());
        dom::set_attr(&hear, "data-exercise", &exercise.to_string());
        let label = tell(said::EXERCISE_HEAR, [&(exercise + 1), &word]);
        dom::set_attr(&hear, "aria-label", &label);
        dom::set_attr(&hear, "title", &label);
        if cell.outcome == Outcome::Blank {
            dom::set_attr(&hear, "disabled", "");
        }
        let _ = holder.append_child(&hear);
        let _ = line.append_child(&holder);
    }
    for number in [row.faults().to_string(), row.minutes().to_string()] {
        let _ = line.append_child(&*dom::text("td", "number", &number)?);
    }
    let last = dom::make("td", "")?;
    let open = dom::text("button", "", say(said::OPEN))?;
    dom::set_attr(&open, "data-row", &place.to_string());
    dom::set_attr(&open, "aria-label", &tell(said::OPEN_ANSWERS, [&name]));
    let _ = last.append_child(&open);
    let _ = line.append_child(&last);
    Some(line)
}

/// A cell's sign for the glance, and a few words.
fn told(cell: &Cell) -> (&'static str, String) {
    let word = words::outcome(cell.outcome, lang());
    let sign = match cell.outcome {
        Outcome::Done => "✓",
        Outcome::NotYet => "✕",
        Outcome::Blank => "○",
    };
    let mut said = word.to_owned();
    if cell.outcome == Outcome::NotYet {
        match cell.faults {
            0 => {}
            1 => said += &format!(", {}", say(said::ONE_FAULT)),
            n => said += &format!(", {}", tell(said::FAULTS, [&n])),
        }
        if cell.to_do > 0 {
            let more = phrase!(
                ", {0} to do",
                ", {0} da fare",
                ", {0} noch zu tun",
                ", {0} à faire",
                ", {0} por hacer"
            );
            said += &lang().tell(more, [&cell.to_do]);
        }
    }
    (sign, said)
}
