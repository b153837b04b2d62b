//! Other chords that work over the chosen note, from plain to daring: heard in
//! their place, checked there, and taken with a press.

use super::audio::Follow;
use super::reader::{lang, say, tell};
use super::{Page, audio, dom, with};
use crate::app::{App, Intent};
use std::cell::Cell;
use tastata::frame::Severity;
use tastata::harmony::{Alternative, Pattern, alternatives_in, patterns};
use tastata::reading::{self, Reading};
use tastata::roll::Performance;
use tastata::sketch::Sketch;
use tastata::words;
use tastata::words::page::said;
use web_sys::{Element, Event, MouseEvent};

/// Notes kept on each side when a chord is tried in a long bass.
const AROUND: usize = 12;
/// Notes up to which turns of several notes are tried.
const LONG: usize = 200;
/// Chords offered at most of each degree of daring, so that the daring are not
/// crowded out by the plain.
const MOST: usize = 4;

thread_local! {
    /// The sketch and note whose other chords are listed.
    static LISTED: Cell<Option<(u64, usize)>> = const { Cell::new(None) };
}

pub(super) fn wire() {
    dom::on_id("others-room", "toggle", |_: Event| with(|page| show(&page.app)));
    dom::on_id("others", "click", |event: MouseEvent| {
        let take = dom::closest(&event, "[data-take]").is_some();
        let of = |name: &str| {
            let item = dom::closest(&event, &format!("[{name}]"))?;
            dom::data_number(&item, name)
        };
        if let Some(place) = of("data-other") {
            with(move |page| page.other_pressed(place, take));
        } else if let Some(place) = of("data-turn") {
            with(move |page| page.turn_pressed(place, take));
        }
    });
}

/// Lists the other chords, if the list is open.
pub(super) fn show(app: &App) {
    let open = dom::get::<Element>("others-room").is_some_and(|room| room.has_attribute("open"));
    let chosen = chosen_note(app).filter(|_| open);
    let wanted = chosen.map(|note| (app.revision(), note));
    if LISTED.replace(wanted) == wanted {
        return;
    }
    let Some(list) = dom::get::<Element>("others") else { return };
    dom::clear(&list);
    let Some(note) = chosen else { return };
    let others = others(app, note);
    let turns = turns(app, note);
    if others.is_empty() && turns.is_empty() {
        if let Some(none) = dom::text("li", "hint", say(said::NO_OTHER_CHORD)) {
            let _ = list.append_child(&none);
        }
        return;
    }
    for (place, other) in others.iter().enumerate() {
        let tried = tried(app, note, other);
        if let Some(item) = item(place, other, faults_near(&tried)) {
            let _ = list.append_child(&item);
        }
    }
    for (place, turn) in turns.iter().enumerate() {
        let faults = turned(app, turn).frame.faults;
        let faults = faults.iter().filter(|it| it.severity == Severity::Fault).count();
        let before = app.reading().frame.faults.iter();
        let before = before.filter(|it| it.severity == Severity::Fault).count();
        let said = words::pattern(turn, app.sketch(), lang());
        if let Some(item) = turn_item(place, &said, faults.saturating_sub(before)) {
            let _ = list.append_child(&item);
        }
    }
}

/// Has the list made anew when it is shown next.
pub(super) fn forget() {
    LISTED.set(None);
}

fn chosen_note(app: &App) -> Option<usize> {
    let chord = app.selected_chord()?;
    app.reading().harmony.chords.get(chord).map(|chord| chord.note)
}

fn others(app: &App, note: usize) -> Vec<Alternative> {
    let mut others = alternatives_in(app.sketch(), &app.reading().harmony, note);
    let mut taken = [0; 256];
    others.retain(|other| {
        let taken = &mut taken[usize::from(other.boldness)];
        *taken += 1;
        *taken <= MOST
    });
    others
}

/// Turns of several notes through the chosen one; none in a bass so long that
/// trying them would be felt.
fn turns(app: &App, note: usize) -> Vec<Pattern> {
    if app.sketch().notes.len() > LONG {
        return Vec::new();
    }
    patterns(app.sketch(), &app.reading().harmony, note)
}

fn turned(app: &App, turn: &Pattern) -> Reading {
    let mut sketch = app.sketch().clone();
    turn.apply(&mut sketch);
    reading::read(&sketch)
}

/// A chord tried in its place.
struct Tried {
    reading: Reading,
    note: usize,
}

/// Reads the piece, or the notes around where it is long, with the chord in it.
fn tried(app: &App, note: usize, other: &Alternative) -> Tried {
    let sketch = app.sketch();
    let from = note.saturating_sub(AROUND);
    let to = (note + AROUND + 1).min(sketch.notes.len());
    let mut part = Sketch {
        notes: sketch.notes.get(from..to).unwrap_or_default().to_vec(),
        tonality: Some(app.reading().harmony.home),
        ..sketch.clone()
    };
    if let Some(it) = part.notes.get_mut(note - from) {
        it.figures = Some(other.figures.clone());
    }
    Tried { reading: reading::read(&part), note: note - from }
}

/// Faults of the outer voices into and out of the chord.
fn faults_near(tried: &Tried) -> usize {
    let chords = &tried.reading.harmony.chords;
    let here = |i: &usize| chords.get(*i).is_some_and(|chord| chord.note == tried.note);
    let touches = |from: usize, to: usize| (from..=to).any(|i| here(&i));
    tried
        .reading
        .frame
        .faults
        .iter()
        .filter(|f| f.severity == Severity::Fault && touches(f.from, f.to))
        .count()
}

fn item(place: usize, other: &Alternative, faults: usize) -> Option<Element> {
    let item = dom::make("li", "other")?;
    dom::set_attr(&item, "data-other", &place.to_string());
    let hear = dom::make("button", "quiet hear")?;
    let _ =
        hear.append_child(&*dom::text("b", "", &words::all_figures_shown(&other.figures, lang()))?);
    let degree = "●".repeat(usize::from(other.boldness) + 1);
    let dots = dom::text("span", "dots", &degree)?;
    let label = tell(said::DARING_OF, [&other.boldness]);
    dom::set_attr(&dots, "aria-label", &label);
    dom::set_attr(&dots, "role", "img");
    let _ = hear.append_child(&dots);
    let reason = other.chords.first().map(|chord| words::reason(chord, lang()));
    let _ = hear.append_child(&*dom::text("span", "why", &reason.unwrap_or_default())?);
    finish(&item, &hear, faults)?;
    Some(item)
}

/// A turn of several notes in the list.
fn turn_item(place: usize, said: &str, faults: usize) -> Option<Element> {
    let item = dom::make("li", "other")?;
    dom::set_attr(&item, "data-turn", &place.to_string());
    let hear = dom::make("button", "quiet hear")?;
    let _ = hear.append_child(&*dom::text("span", "why", said)?);
    finish(&item, &hear, faults)?;
    Some(item)
}

/// The faults it would make, and the button that takes it.
fn finish(item: &Element, hear: &Element, faults: usize) -> Option<()> {
    if faults > 0 {
        let said = if faults == 1 {
            format!("✕ {}", say(said::ONE_FAULT_HERE))
        } else {
            format!("✕ {}", tell(said::FAULTS_HERE, [&faults]))
        };
        let _ = hear.append_child(&*dom::text("span", "bad", &said)?);
    }
    let _ = item.append_child(hear);
    let take = dom::text("button", "quiet", say(said::TAKE_IT))?;
    dom::set_attr(&take, "data-take", "");
    let _ = item.append_child(&take);
    Some(())
}

impl Page {
    /// Hears another chord in its place, or takes it.
    fn other_pressed(&mut self, place: usize, take: bool) {
        let Some(note) = chosen_note(&self.app) else { return };
        let Some(other) = others(&self.app, note).into_iter().nth(place) else { return };
        if take {
            self.act(Intent::Figures { note, figures: Some(other.figures) });
            self.hear_chosen();
            return;
        }
        let tried = tried(&self.app, note, &other);
        self.hear(around(&tried), 0, Follow::Keys);
    }
}

impl Page {
    /// Hears a turn of several notes, or takes it.
    fn turn_pressed(&mut self, place: usize, take: bool) {
        let Some(note) = chosen_note(&self.app) else { return };
        let Some(turn) = turns(&self.app, note).into_iter().nth(place) else { return };
        if take {
            self.act(Intent::wish(move |sketch| turn.apply(sketch)));
            self.hear_chosen();
            return;
        }
        let (first, last) = match &turn {
            Pattern::Chain { notes, last, .. } => (notes.first().map_or(*last, |it| it.0), *last),
            Pattern::Fill { after, .. } => (*after, after + 2),
        };
        let reading = turned(&self.app, &turn);
        let chords = &reading.harmony.chords;
        let first = chords.iter().position(|chord| chord.note >= first).unwrap_or_default();
        let last = chords.iter().rposition(|chord| chord.note <= last).unwrap_or_default();
        self.hear(audio::stretch(&reading.performance, first, last), 0, Follow::Keys);
    }
}

/// The performance of the chords before, on and after the note.
fn around(tried: &Tried) -> Performance {
    let chords = &tried.reading.harmony.chords;
    let near = |note: usize| note.abs_diff(tried.note) <= 1;
    let first = chords.iter().position(|chord| near(chord.note)).unwrap_or_default();
    let last = chords.iter().rposition(|chord| near(chord.note)).unwrap_or_default();
    audio::stretch(&tried.reading.performance, first, last)
}
