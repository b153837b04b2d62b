//! Which event means which intent: the bars, the bass field, the card, the wishes.

use super::{act, audio, dom, notice, share, store, strip, wishes, with};
use crate::app::{App, Intent, Keys, Rest, Told};
use tastata::figures;
use tastata::frame::Rule;
use tastata::hands::{Edit, Hand, Way};
use tastata::pitch::Pitch;
use tastata::roll::{ChordStroke, StrokePlan};
use tastata::sketch::Sketch;
use tastata::words::{self, Lang};
use web_sys::{Element, Event, FocusEvent, HashChangeEvent, HtmlButtonElement, HtmlInputElement};
use web_sys::{HtmlSelectElement, HtmlTextAreaElement, MouseEvent};

/// Wires everything, once.
pub(super) fn all() {
    bars();
    bass();
    card();
    outer_voices();
    harmony_hands_and_sound();
    sheets();
    super::make::wire();
    super::rules::wire();
    super::pointer::wire();
    super::typing::wire();
    audio::keep_pumping();
    if let Some(window) = dom::window() {
        dom::on(&window, "resize", |_: Event| with(|page| page.show()));
        // Scrolling anywhere: the listener stands above whatever scrolls.
        dom::on_capture(&window, "scroll", || with(|page| page.staff.fill()));
        dom::on(&window, "hashchange", |_: HashChangeEvent| open_address());
    }
    if let Some(document) = dom::document() {
        // A phone opens the sound only at the end of a touch, and puts it to sleep
        // when a call comes in: every touch, press and key wakes it.
        for name in ["pointerup", "click", "keydown"] {
            dom::on(&document, name, |_: Event| with(|page| page.sound.rouse()));
        }
    }
}

/// Shows what the bars say: undo, play, what keys do, and the typed bass.
pub(super) fn show_bars(app: &App, playing: bool) {
    enable("undo", app.can_undo());
    enable("redo", app.can_redo());
    dom::set_attr_of("play", "aria-pressed", if playing { "true" } else { "false" });
    dom::set_text("play-word", if playing { "Stop" } else { "Play" });
    dom::set_text("play-glyph", if playing { "■" } else { "▶" });
    for (name, keys) in ROLES {
        if let Some(button) = role_button(name) {
            let chosen = app.view().keys == keys;
            dom::set_attr(&button, "aria-checked", if chosen { "true" } else { "false" });
            dom::set_attr(&button, "tabindex", if chosen { "0" } else { "-1" });
        }
    }
    if let Some(field) = dom::get::<HtmlTextAreaElement>("bass") {
        let text = &app.view().bass_text;
        // What is being typed is never rewritten under the caret.
        if !dom::has_focus("bass") && field.value() != *text {
            field.set_value(text);
        }
    }
    show_text_remarks(app);
}

const ROLES: [(&str, Keys); 5] = [
    ("listen", Keys::Listen),
    ("add", Keys::AddBass),
    ("change", Keys::ChangeBass),
    ("soprano", Keys::Soprano),
    ("handful", Keys::Handful),
];

fn bars() {
    press("undo", || act(Intent::Undo));
    press("redo", || act(Intent::Redo));
    press("play", || with(|page| page.play_or_stop()));
    press("strip-chord", strip::to_card);
    press("strip-faults", || with(|page| page.next_fault()));
    press("fold", || {
        let folded = dom::document()
            .and_then(|d| d.query_selector(".dock").ok().flatten())
            .is_some_and(|dock| dock.class_list().toggle("folded").unwrap_or_default());
        dom::set_attr_of("fold", "aria-expanded", if folded { "false" } else { "true" });
        dom::set_text("fold", if folded { "▴" } else { "▾" });
        with(|page| page.show());
    });
    dom::on_id("keyrole", "click", |event: MouseEvent| {
        let name = dom::closest(&event, "[data-keys]").and_then(|b| b.get_attribute("data-keys"));
        if let Some((_, keys)) = ROLES.into_iter().find(|(n, _)| name.as_deref() == Some(*n)) {
            act(Intent::Keys(keys));
        }
    });
    dom::on_id("keyrole", "keydown", |event: web_sys::KeyboardEvent| {
        let by = match event.key().as_str() {
            "ArrowRight" | "ArrowDown" => 1,
            "ArrowLeft" | "ArrowUp" => ROLES.len() - 1,
            _ => return,
        };
        event.prevent_default();
        event.stop_propagation();
        with(move |page| {
            let now = ROLES.iter().position(|(_, k)| *k == page.app.view().keys).unwrap_or(0);
            let (name, keys) = ROLES[(now + by) % ROLES.len()];
            page.act(Intent::Keys(keys));
            if let Some(button) = role_button(name) {
                let _ = button.focus();
            }
        });
    });
    dom::on_id("title", "change", |_: Event| {
        let title = value_of("title");
        act(Intent::wish(move |sketch| sketch.title = title));
    });
    press("example", || act(Intent::Example));
    press("clear", || {
        act(Intent::StartEmpty);
        notice::say("The page is empty; Undo brings your sketch back.");
    });
}

fn bass() {
    dom::on_id("bass", "input", |_: Event| {
        if let Some(field) = dom::get::<HtmlTextAreaElement>("bass") {
            act(Intent::TypeBass(field.value()));
        }
    });
    dom::on_id("bass", "blur", |_: FocusEvent| act(Intent::Settle));
    chosen("tonality", |value| {
        let index: Option<usize> = value.parse().ok();
        let tonality = index.and_then(|i| wishes::tonalities().nth(i));
        act(Intent::wish(move |sketch| sketch.tonality = tonality));
    });
}

fn card() {
    press("card-close", || act(Intent::Select(None)));
    press("hear", || with(|page| page.hear_chosen()));
    press("from-here", || with(|page| page.play_from_chosen()));
    press("soprano-down", || act(Intent::NudgeSoprano(-1)));
    press("soprano-up", || act(Intent::NudgeSoprano(1)));
    press("pin", || with(|page| page.pin_chosen()));
    press("bass-down", || with(|page| page.nudge_bass(-1)));
    press("bass-up", || with(|page| page.nudge_bass(1)));
    for (id, hand, way) in [
        ("left-down", Hand::Left, Way::Down),
        ("left-up", Hand::Left, Way::Up),
        ("right-down", Hand::Right, Way::Down),
        ("right-up", Hand::Right, Way::Up),
    ] {
        let edit = Edit::Shift { hand, way };
        press(id, move || act(Intent::EditHandful { edit, drag: None }));
    }
    press("free-hands", || act(Intent::FreeHandful));
    press("earlier", || act(Intent::Shift(-1)));
    press("later", || act(Intent::Shift(1)));
    press("insert", || act(Intent::InsertAfter));
    press("delete", || act(Intent::Delete));
    dom::on_id("figures", "change", |_: Event| figures_typed());
    chosen("chord-times", |value| {
        let times: Option<u8> = value.parse().ok();
        chord_wish(None, move |stroke| stroke.times = times);
    });
    chosen("chord-stroke", |value| {
        let index: Option<usize> = value.parse().ok();
        let chosen = index.and_then(|i| wishes::STROKES.get(i)).map(|(_, stroke)| *stroke);
        chord_wish(None, move |stroke| stroke.stroke = chosen);
    });
    slider("chord-dwell", 3, |value: u16, slider| {
        chord_wish(slider, move |stroke| stroke.dwell = (value != 100).then_some(value));
    });
    dom::on_id("remarks", "click", |event: MouseEvent| remark_pressed(&event));
}

/// A press in the list of remarks: on a line, on a pin to free, on voices to hear.
fn remark_pressed(event: &MouseEvent) {
    let free = dom::closest(event, "[data-free]").and_then(|b| dom::data_number(&b, "data-free"));
    if let Some(chord) = free {
        act(Intent::Pin(chord));
        return;
    }
    if dom::closest(event, "[data-hear]").is_some() {
        with(|page| page.hear_told());
        return;
    }
    let Some(line) = dom::closest(event, "[data-chord]") else { return };
    let number = |name: &str| dom::data_number(&line, name);
    let rule = number("data-rule").and_then(|n| Rule::ALL.get(n)).copied();
    let (from, to) = (number("data-from"), number("data-chord"));
    with(move |page| {
        if let Some(chord) = to {
            page.choose_chord(chord);
        }
        if let (Some(rule), Some(from), Some(to)) = (rule, from, to) {
            let told = Some(Told { rule, from, to });
            let told = told.filter(|_| page.app.view().told != told);
            page.act(Intent::Tell(told));
        }
    });
}

fn figures_typed() {
    let text = value_of("figures");
    let note = |page: &mut super::Page| page.app.view().selected.map(|place| place.note);
    if text.trim().is_empty() {
        with(move |page| {
            if let Some(note) = note(page) {
                page.act(Intent::Figures { note, figures: None });
            }
        });
        return;
    }
    match figures::read_figures(&text) {
        Ok(figures) => with(move |page| {
            dom::set_text("figures-note", "");
            if let Some(note) = note(page) {
                page.act(Intent::Figures { note, figures: Some(figures) });
            }
        }),
        Err(error) => {
            dom::set_text("figures-note", &words::figure_trouble(error.kind, Lang::English));
        }
    }
}

fn outer_voices() {
    named("position", &wishes::POSITIONS, |sketch, it| sketch.frame.position = it);
    named("preference", &wishes::PREFERENCES, |sketch, it| sketch.frame.preference = it);
    named("smoothness", &wishes::LINES, |sketch, it| sketch.frame.smoothness = it);
    press("another", || {
        with(|page| {
            let choices = page.app.reading().frame.choices.max(1);
            page.act(Intent::wish(move |sketch| {
                let next = (sketch.frame.choice as usize + 1) % choices;
                sketch.frame.choice = u8::try_from(next).unwrap_or(0);
            }));
        });
    });
    dom::on_id("motions", "change", |_: Event| {
        let on = dom::get::<HtmlInputElement>("motions").is_some_and(|input| input.checked());
        act(Intent::ShowMotions(on));
    });
    press("free", || act(Intent::FreeSoprano));
    for radio in ["rest-anew", "rest-put"] {
        dom::on_id(radio, "change", |_: Event| {
            let put = dom::get::<HtmlInputElement>("rest-put").is_some_and(|r| r.checked());
            act(Intent::Rest(if put { Rest::StaysPut } else { Rest::SetAnew }));
        });
    }
}

fn harmony_hands_and_sound() {
    number("left-notes", |sketch, n: u8| sketch.hands.left.notes = n);
    number("right-notes", |sketch, n: u8| sketch.hands.right.notes = n);
    number("span", |sketch, n: u8| {
        sketch.hands.left.span = n;
        sketch.hands.right.span = n;
    });
    named("spacing", &wishes::SPACINGS, |sketch, it| sketch.hands.spacing = it);
    named("low-keys", &wishes::LOW_KEYS, |sketch, it| sketch.hands.low_keys = it);
    number("compass", |sketch, i: usize| {
        if let Some((_, compass)) = wishes::COMPASSES.get(i) {
            sketch.hands.compass = *compass;
        }
    });
    number("times", |sketch, n: u8| sketch.roll.times = n);
    number("version", |sketch, i: usize| {
        if let Some((_, version)) = wishes::VERSIONS.get(i) {
            sketch.harmony.version = *version;
        }
    });
    number("temperament", |sketch, i: usize| {
        if let Some((_, temperament)) = wishes::TUNINGS.get(i) {
            sketch.sound.temperament = *temperament;
        }
    });
    number("a4", |sketch, hertz: f64| sketch.sound.a4 = hertz);
    slider("pace", 1, |speed: u16, slider| {
        let apply = Box::new(move |sketch: &mut Sketch| sketch.roll.speed = speed);
        act(Intent::Wish { apply, slider });
    });
    slider("spice", 2, |spice: u8, slider| {
        let apply = Box::new(move |sketch: &mut Sketch| sketch.roll.spice = spice);
        act(Intent::Wish { apply, slider });
    });
    chosen("plan", |value| {
        let plan = match value.as_str() {
            "speech" => Some(StrokePlan::Speech),
            "varied" => Some(StrokePlan::Varied),
            index => index
                .parse::<usize>()
                .ok()
                .and_then(|i| wishes::STROKES.get(i))
                .map(|(_, stroke)| StrokePlan::Even(*stroke)),
        };
        if let Some(plan) = plan {
            act(Intent::wish(move |sketch| sketch.roll.plan = plan));
        }
    });
    number("voice", |sketch, i: usize| {
        if let Some((_, voice)) = wishes::VOICES.get(i) {
            sketch.sound.voice = *voice;
        }
    });
    press("take", || {
        act(Intent::wish(|sketch| sketch.roll.seed = sketch.roll.seed.wrapping_add(1)));
    });
}

fn sheets() {
    press("share", || with(|page| share::open(&page.app)));
    press("share-close", share::close);
    press("copy", share::copy);
    press("save-page", || {
        with(|page| {
            if share::save_page(&page.app).is_none() {
                notice::say(
                    "This browser did not let the page be saved; use its own Save command.",
                );
            }
        });
    });
    press("notice-close", notice::close);
    press("notice-act", || {
        notice::close();
        if let Some(sketch) = store::put_aside() {
            act(Intent::Open(Box::new(sketch)));
        }
    });
    press("rescue-reload", || {
        if let Some(window) = dom::window() {
            let _ = window.location().reload();
        }
    });
}

/// A link pasted into the address while the page is open.
fn open_address() {
    let fragment = store::fragment();
    if fragment.is_empty() {
        return;
    }
    match tastata::files::decode(&fragment) {
        Ok(sketch) => act(Intent::Open(Box::new(sketch))),
        Err(error) => notice::say(words::link_error(error, Lang::English)),
    }
}

fn show_text_remarks(app: &App) {
    let Some(place) = dom::get::<Element>("bass-note") else { return };
    let view = app.view();
    let key: String = view
        .text_remarks
        .iter()
        .map(|r| format!("{:?}{}", r.at, view.bass_text.get(r.at.clone()).unwrap_or_default()))
        .chain(view.left_out.iter().cloned())
        .collect();
    if place.get_attribute("data-key").unwrap_or_default() == key {
        return;
    }
    dom::set_attr(&place, "data-key", &key);
    dom::clear(&place);
    for remark in view.text_remarks.iter().take(4) {
        let Some(line) = dom::make("span", "text-remark") else { return };
        let before = view.bass_text.get(..remark.at.start).unwrap_or_default();
        let lead: String =
            before.chars().rev().take(12).collect::<Vec<_>>().into_iter().rev().collect();
        let wrong = view.bass_text.get(remark.at.clone()).unwrap_or_default();
        let _ = line.append_with_str_1(&lead);
        if let Some(mark) = dom::make("mark", "") {
            mark.set_text_content(Some(wrong));
            let _ = line.append_child(&mark);
        }
        let sentence = words::text_trouble(remark.kind, Lang::English);
        let _ = line.append_with_str_1(&format!(" — {sentence} "));
        let _ = place.append_child(&line);
    }
    if !view.left_out.is_empty() {
        let words = view.left_out.join(" ");
        let _ = place.append_with_str_1(&format!("Left out when the bass was changed: {words}"));
    }
}

/// Changes how the chosen chord is rolled.
fn chord_wish(slider: Option<u32>, change: impl FnOnce(&mut ChordStroke) + 'static) {
    with(move |page| {
        let Some(place) = page.app.view().selected else { return };
        let apply = Box::new(move |sketch: &mut Sketch| {
            if let Some(note) = sketch.notes.get_mut(place.note) {
                change(&mut note.stroke);
            }
        });
        page.act(Intent::Wish { apply, slider });
    });
}

/// A slider: every move counts, and all moves until it is let go are one step.
fn slider<T: std::str::FromStr + 'static>(
    id: &'static str,
    number: u32,
    mut set: impl FnMut(T, Option<u32>) + 'static,
) {
    dom::on_id(id, "input", move |_: Event| {
        if let Ok(value) = value_of(id).parse() {
            set(value, Some(number));
        }
    });
    dom::on_id(id, "change", |_: Event| act(Intent::Settle));
}

fn named<T: Copy + 'static>(
    id: &'static str,
    list: &'static [(&'static str, T)],
    set: fn(&mut Sketch, T),
) {
    chosen(id, move |value| {
        if let Some(&(_, it)) = list.iter().find(|(name, _)| *name == value) {
            act(Intent::wish(move |sketch| set(sketch, it)));
        }
    });
}

fn number<T: std::str::FromStr + 'static>(id: &'static str, set: fn(&mut Sketch, T)) {
    chosen(id, move |value| {
        if let Ok(value) = value.parse::<T>() {
            act(Intent::wish(move |sketch| set(sketch, value)));
        }
    });
}

fn chosen(id: &'static str, mut act: impl FnMut(String) + 'static) {
    dom::on_id(id, "change", move |_: Event| {
        if let Some(select) = dom::get::<HtmlSelectElement>(id) {
            act(select.value());
        }
    });
}

fn press(id: &str, mut act: impl FnMut() + 'static) {
    dom::on_id(id, "click", move |_: MouseEvent| act());
}

fn value_of(id: &str) -> String {
    dom::get::<HtmlInputElement>(id).map(|input| input.value()).unwrap_or_default()
}

fn enable(id: &str, enabled: bool) {
    if let Some(button) = dom::get::<HtmlButtonElement>(id)
        && button.disabled() == enabled
    {
        button.set_disabled(!enabled);
    }
}

fn role_button(name: &str) -> Option<web_sys::HtmlElement> {
    use wasm_bindgen::JsCast;
    let selector = format!("[data-keys=\"{name}\"]");
    dom::document()?.query_selector(&selector).ok()??.dyn_into().ok()
}

/// The pitch a bass note goes to when moved by steps of the scale.
pub(super) fn by_steps(app: &App, note: usize, by: i32) -> Option<Pitch> {
    let now = app.sketch().notes.get(note)?.pitch;
    let to = Pitch::from_diatonic(now.diatonic() + by, 0);
    let home = app.reading().harmony.home;
    Some(home.class_of(to.step).in_octave(to.octave))
}
