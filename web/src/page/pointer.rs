//! Fingers and mice: dragging outer notes on the staff and on the keyboard,
//! striking keys (several at once), and moving the keyboard's window.

use super::{Page, act, contour, dom, keyboard, speech, with};
use crate::app::{Intent, Keys, Landing, Place, placed, snapped};
use std::cell::RefCell;
use std::collections::HashMap;
use tastata::hands::{Edit, Hand};
use tastata::pitch::{Key, Pitch};
use tastata::sketch::Sketch;
use web_sys::{Element, MouseEvent, PointerEvent};

/// CSS pixels a finger moves for one step of the staff, at least: a fingertip is
/// coarser than the steps of a small staff.
const FINGER_STEP: f64 = 6.5;

/// What one finger is doing.
#[derive(Clone, Copy, Debug)]
enum Doing {
    /// Dragging an outer note on the staff: the diatonic place and height it began at.
    Staff { part: Part, chord: usize, diatonic: i32, y: f64, step: f64, last: i32 },
    /// Dragging a marked note along the keyboard, from the key where it was taken.
    Mark { part: Part, chord: usize, from: Key, last: Key },
    /// Holding a key down, or sliding over the keys.
    Key { last: Key },
    /// Pulling a chord's dwelling up or down.
    Dwell { chord: usize, y: f64, percent: u16 },
    /// Moving the window over the compass.
    Window,
}

/// The note that is dragged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    Bass,
    Soprano,
    /// An inner note, by the key it now is on.
    Inner(Hand, Key),
}

thread_local! {
    static FINGERS: RefCell<HashMap<i32, Doing>> = RefCell::new(HashMap::new());
}

pub(super) fn wire() {
    dom::on_id("staff", "pointerdown", |event: PointerEvent| staff_down(&event));
    dom::on_id("staff", "pointermove", |event: PointerEvent| moved(&event));
    dom::on_id("staff", "click", |event: MouseEvent| staff_click(&event));
    dom::on_id("keyboard", "pointerdown", |event: PointerEvent| keyboard_down(&event));
    dom::on_id("keyboard", "pointermove", |event: PointerEvent| moved(&event));
    dom::on_id("overview", "pointerdown", |event: PointerEvent| window_down(&event));
    dom::on_id("overview", "pointermove", |event: PointerEvent| moved(&event));
    for id in ["staff", "keyboard", "overview"] {
        for end in ["pointerup", "pointercancel"] {
            dom::on_id(id, end, |event: PointerEvent| lifted(&event));
        }
    }
}

fn take_hold(id: &str, event: &PointerEvent, doing: Doing) {
    if let Some(element) = dom::get::<Element>(id) {
        let _ = element.set_pointer_capture(event.pointer_id());
    }
    FINGERS.with_borrow_mut(|fingers| fingers.insert(event.pointer_id(), doing));
}

fn staff_down(event: &PointerEvent) {
    if event.button() != 0 {
        return;
    }
    if contour::begin(event) {
        return;
    }
    if let Some(grip) = dom::closest(event, "[data-dwell]") {
        dwell_down(event, &grip);
        return;
    }
    let Some(grip) = dom::closest(event, "[data-part]") else { return };
    let part = match grip.get_attribute("data-part").as_deref() {
        Some("bass") => Part::Bass,
        Some("soprano") => Part::Soprano,
        _ => match inner(&grip) {
            Some(part) => part,
            None => return,
        },
    };
    let Some(chord) = dom::data_number(&grip, "data-chord") else { return };
    event.prevent_default();
    let (id, y) = (event.pointer_id(), f64::from(event.client_y()));
    let least = if event.pointer_type() == "mouse" { 1.0 } else { FINGER_STEP };
    if let Some(element) = dom::get::<Element>("staff") {
        let _ = element.set_pointer_capture(id);
    }
    with(move |page| {
        let Some(pitch) = page.pitch_of(part, chord) else { return };
        let diatonic = pitch.diatonic();
        let step = page.staff.step().max(least);
        let doing = Doing::Staff { part, chord, diatonic, y, step, last: diatonic };
        FINGERS.with_borrow_mut(|fingers| fingers.insert(id, doing));
        page.choose_chord(chord);
        page.strike(pitch);
    });
}

fn dwell_down(event: &PointerEvent, grip: &Element) {
    let Some(chord) = dom::data_number(grip, "data-dwell") else { return };
    event.prevent_default();
    let (id, y) = (event.pointer_id(), f64::from(event.client_y()));
    if let Some(element) = dom::get::<Element>("staff") {
        let _ = element.set_pointer_capture(id);
    }
    with(move |page| {
        page.choose_chord(chord);
        let percent = page.app.view().selected.and_then(|place| {
            page.app.sketch().notes.get(place.note).and_then(|note| note.stroke.dwell)
        });
        let doing = Doing::Dwell { chord, y, percent: percent.unwrap_or(100) };
        FINGERS.with_borrow_mut(|fingers| fingers.insert(id, doing));
    });
}

/// The inner note of this drawing.
fn inner(grip: &Element) -> Option<Part> {
    let key = Key::new(i32::try_from(dom::data_number(grip, "data-key")?).ok()?)?;
    let hand = if grip.class_list().contains("left") { Hand::Left } else { Hand::Right };
    // The spelling is looked up where the handful is known.
    Some(Part::Inner(hand, key))
}

/// A tap beside the outer notes chooses the chord and lets it sound.
fn staff_click(event: &MouseEvent) {
    if dom::get::<Element>("staff").is_some_and(|s| s.class_list().contains("drawing")) {
        return;
    }
    if let Some(note) =
        dom::closest(event, ".passing").and_then(|it| dom::data_number(&it, "data-note"))
    {
        act(Intent::Select(Some(Place { note, stage: 0 })));
        return;
    }
    let Some(target) = dom::closest(event, "[data-chord]") else { return };
    let outer =
        target.get_attribute("data-part").is_some_and(|part| part == "bass" || part == "soprano");
    let Some(chord) = dom::data_number(&target, "data-chord").filter(|_| !outer) else { return };
    with(move |page| {
        page.choose_chord(chord);
        page.hear_chosen();
    });
}

fn keyboard_down(event: &PointerEvent) {
    if event.button() != 0 {
        return;
    }
    event.prevent_default();
    if let Some(element) = dom::get::<web_sys::HtmlElement>("keyboard") {
        let _ = element.focus();
        let _ = element.set_pointer_capture(event.pointer_id());
    }
    let (id, x, y) = (event.pointer_id(), f64::from(event.client_x()), f64::from(event.client_y()));
    with(move |page| {
        let Some(key) = page.keyboard.key_at(x, y, &page.app) else { return };
        // Where a chord is played, every key is struck and none is dragged.
        let plays = page.plays_along() || page.app.view().keys == Keys::Figures;
        let outer = keyboard::outer_keys(&page.app).filter(|_| !plays);
        let doing = match outer {
            Some((chord, _, soprano)) if soprano == key => {
                Doing::Mark { part: Part::Soprano, chord, from: key, last: key }
            }
            Some((chord, bass, _)) if bass == key => {
                Doing::Mark { part: Part::Bass, chord, from: key, last: key }
            }
            _ => match keyboard::inner_mark(&page.app, key).filter(|_| !page.plays_along()) {
                Some((chord, hand)) => {
                    Doing::Mark { part: Part::Inner(hand, key), chord, from: key, last: key }
                }
                None => Doing::Key { last: key },
            },
        };
        FINGERS.with_borrow_mut(|fingers| fingers.insert(id, doing));
        match doing {
            Doing::Key { .. } => page.press(key),
            _ => page.strike_keys(&[key]),
        }
        page.hold_lights();
    });
}

fn window_down(event: &PointerEvent) {
    event.prevent_default();
    take_hold("overview", event, Doing::Window);
    moved(event);
}

fn moved(event: &PointerEvent) {
    let id = event.pointer_id();
    let Some(doing) = FINGERS.with_borrow(|fingers| fingers.get(&id).copied()) else { return };
    let (x, y) = (f64::from(event.client_x()), f64::from(event.client_y()));
    with(move |page| {
        let next = match doing {
            Doing::Staff { part, chord, diatonic, y: from, step, last } => {
                let to = diatonic + ((from - y) / step).round() as i32;
                if to == last {
                    return;
                }
                let part = page.drag_to(part, chord, to, id);
                Doing::Staff { part, chord, diatonic, y: from, last: to, step }
            }
            Doing::Mark { part, chord, from, last } => {
                let Some(key) = page.keyboard.key_at(x, y, &page.app).filter(|&k| k != last) else {
                    return;
                };
                let pitch = page.app.reading().harmony.home.spell(key);
                let part = match (part, page.app.view().landing) {
                    (Part::Soprano | Part::Inner(..), Landing::OnChordNotes) => {
                        page.drag_to(part, chord, pitch.diatonic(), id)
                    }
                    (Part::Bass, _) | (_, Landing::Anywhere) => {
                        page.drag_note(part, chord, Some(pitch), id)
                    }
                };
                Doing::Mark { part, chord, from, last: key }
            }
            Doing::Key { last } => {
                let Some(key) = page.keyboard.key_at(x, y, &page.app).filter(|&k| k != last) else {
                    return;
                };
                if page.plays_along() {
                    page.along_up(last);
                    page.along_down(key);
                }
                page.strike_keys(&[key]);
                Doing::Key { last: key }
            }
            Doing::Dwell { chord, y: from, percent } => {
                page.dwell(chord, speech::pulled(percent, from - y), id);
                doing
            }
            Doing::Window => {
                let Some(strip) = dom::get::<Element>("overview") else { return };
                let rect = strip.get_bounding_client_rect();
                let fraction = (x - rect.left()) / rect.width().max(1.0);
                page.keyboard.look_at(fraction.clamp(0.0, 1.0), &page.app);
                Doing::Window
            }
        };
        FINGERS.with_borrow_mut(|fingers| {
            if let Some(slot) = fingers.get_mut(&id) {
                *slot = next;
            }
        });
        page.hold_lights();
    });
}

fn lifted(event: &PointerEvent) {
    let id = event.pointer_id();
    let Some(doing) = FINGERS.with_borrow_mut(|fingers| fingers.remove(&id)) else { return };
    with(move |page| {
        match doing {
            Doing::Window => {}
            Doing::Key { last } => page.along_up(last),
            // An inner note that was only touched does what its key does: it is taken out.
            Doing::Mark { part: Part::Inner(..), from, last, .. } if from == last => {
                page.act(Intent::Press(last));
            }
            _ => page.act(Intent::Settle),
        }
        page.hold_lights();
    });
}

impl Page {
    /// The pitch a part now has in a chord.
    fn pitch_of(&self, part: Part, chord: usize) -> Option<Pitch> {
        let reading = self.app.reading();
        match part {
            Part::Bass => reading.harmony.chords.get(chord).map(|c| c.bass),
            Part::Soprano => reading.frame.soprano.get(chord).copied(),
            Part::Inner(hand, key) => {
                let handful = reading.hands.handfuls.get(chord)?;
                let notes = match hand {
                    Hand::Left => &handful.left,
                    Hand::Right => &handful.right,
                };
                notes.iter().copied().find(|pitch| pitch.key() == Some(key))
            }
        }
    }

    /// Moves a note to the staff place a finger points at; says what part it is now.
    fn drag_to(&mut self, part: Part, chord: usize, diatonic: i32, finger: i32) -> Part {
        let reading = self.app.reading();
        let home = reading.harmony.home;
        let to = match (part, self.app.view().landing) {
            (Part::Bass, _) => {
                let place = Pitch::from_diatonic(diatonic, 0);
                Some(home.class_of(place.step).in_octave(place.octave))
            }
            (_, Landing::OnChordNotes) => snapped(reading, chord, diatonic),
            (_, Landing::Anywhere) => placed(reading, chord, diatonic),
        };
        self.drag_note(part, chord, to, finger)
    }

    /// Moves a note to a pitch that the keyboard has; says what part it is now.
    fn drag_note(&mut self, part: Part, chord: usize, to: Option<Pitch>, finger: i32) -> Part {
        let drag = Some(drag_number(finger));
        let compass = self.app.sketch().hands.compass;
        let on_keyboard = |p: &Pitch| p.key().is_some_and(|key| compass.contains(key));
        let now = self.pitch_of(part, chord);
        let tone = to.filter(|to| on_keyboard(to) && Some(*to) != now);
        match part {
            Part::Soprano => {
                if let Some(to) = tone {
                    self.act(Intent::MoveSoprano { chord, to, drag });
                }
            }
            Part::Inner(hand, _) => {
                if let (Some(from), Some(to)) = (now, tone) {
                    let edit = Edit::Move { hand, from, to };
                    self.act(Intent::EditHandful { edit, drag });
                    let moved = to.key().map(|key| Part::Inner(hand, key));
                    // A note that would pass an outer one stays where it was.
                    return moved.filter(|&m| self.pitch_of(m, chord).is_some()).unwrap_or(part);
                }
            }
            Part::Bass => {
                if let Some(pitch) = tone {
                    self.drag_bass(chord, pitch, finger);
                }
            }
        }
        part
    }

    /// Makes a chord dwell, in percent of what its harmony asks for.
    fn dwell(&mut self, chord: usize, percent: u16, finger: i32) {
        let Some(note) = self.app.reading().harmony.chords.get(chord).map(|c| c.note) else {
            return;
        };
        let apply = Box::new(move |sketch: &mut Sketch| {
            if let Some(note) = sketch.notes.get_mut(note) {
                note.stroke.dwell = (percent != 100).then_some(percent);
            }
        });
        self.act(Intent::Wish { apply, slider: Some(1000 + drag_number(finger)) });
    }

    fn drag_bass(&mut self, chord: usize, pitch: Pitch, finger: i32) {
        let Some(note) = self.app.reading().harmony.chords.get(chord).map(|c| c.note) else {
            return;
        };
        let drag = Some(drag_number(finger));
        self.act(Intent::MoveBass { note, pitch, drag });
    }

    /// Lights the keys under fingers.
    pub(super) fn hold_lights(&mut self) {
        if self.sound.is_playing() {
            return;
        }
        let mut held: Vec<Key> = FINGERS.with_borrow(|fingers| {
            fingers
                .values()
                .filter_map(|doing| match doing {
                    Doing::Key { last } | Doing::Mark { last, .. } => Some(*last),
                    _ => None,
                })
                .collect()
        });
        held.extend(&self.held);
        held.extend(&self.app.view().played);
        self.keyboard.light(&held);
    }
}

/// Drags are told apart by the finger; a drag ends with the finger's lifting.
fn drag_number(finger: i32) -> u32 {
    finger.unsigned_abs()
}
