//! A MIDI keyboard: its keys do what the keys on the screen do. Asked for only
//! on a press, and told plainly where a browser has none.

use super::controls::press;
use super::reader::say;
use super::{dom, notice, with};
use js_sys::{Function, Reflect};
use std::cell::RefCell;
use tastata::pitch::Key;
use tastata::words::page::said;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{MidiAccess, MidiInput, MidiMessageEvent};

/// A key going down or up, as MIDI status bytes say without their channel.
const NOTE_ON: u8 = 0x90;
const NOTE_OFF: u8 = 0x80;
/// A controller, and the number of the damper pedal's.
const CONTROL: u8 = 0xb0;
const PEDAL: u8 = 64;

/// The buttons that ask for keyboards.
const BUTTONS: [&str; 2] = ["midi-in", "practise-midi"];

thread_local! {
    /// What the browser gave at the last press; every press is given another.
    static HEARD: RefCell<Option<MidiAccess>> = const { RefCell::new(None) };
}

pub(super) fn wire() {
    for id in BUTTONS {
        press(id, begin);
    }
}

fn begin() {
    let Some(asked) = ask() else {
        told(say(said::NO_MIDI));
        return;
    };
    spawn_local(async move {
        match JsFuture::from(asked).await.map(|access| access.dyn_into::<MidiAccess>()) {
            Ok(Ok(access)) => listen(&access),
            _ => told(say(said::MIDI_REFUSED)),
        }
    });
}

/// Asks the browser for its MIDI keyboards, if it has any notion of them.
fn ask() -> Option<js_sys::Promise> {
    let navigator = dom::window()?.navigator();
    let request = Reflect::get(&navigator, &"requestMIDIAccess".into()).ok()?;
    request.dyn_into::<Function>().ok()?.call0(&navigator).ok()?.dyn_into().ok()
}

fn listen(access: &MidiAccess) {
    // Both accesses would bring the same key, and it would be struck twice.
    if let Some(before) = HEARD.replace(Some(access.clone())) {
        before.set_onstatechange(None);
        attach(&before, None);
    }
    let heard: Function = Closure::<dyn FnMut(MidiMessageEvent)>::new(|event: MidiMessageEvent| {
        if let Ok(bytes) = event.data() {
            message(&bytes);
        }
    })
    .into_js_value()
    .unchecked_into();
    let count = attach(access, Some(&heard));
    let again = access.clone();
    let changed = Closure::<dyn FnMut(JsValue)>::new(move |_| {
        attach(&again, Some(&heard));
    });
    access.set_onstatechange(Some(changed.into_js_value().unchecked_ref()));
    for id in BUTTONS {
        dom::set_attr_of(id, "aria-pressed", "true");
    }
    told(match count {
        0 => say(said::NO_MIDI_YET),
        _ => say(said::MIDI_HEARD),
    });
}

/// Has every connected keyboard heard, or none of them any more; says how many there are.
fn attach(access: &MidiAccess, heard: Option<&Function>) -> usize {
    let mut count = 0;
    let inputs: JsValue = access.inputs().into();
    let Ok(Some(values)) = js_sys::try_iter(&values_of(&inputs)) else { return 0 };
    for input in values.flatten() {
        let Ok(input) = input.dyn_into::<MidiInput>() else { continue };
        input.set_onmidimessage(heard);
        count += 1;
    }
    count
}

fn values_of(map: &JsValue) -> JsValue {
    Reflect::get(map, &"values".into())
        .ok()
        .and_then(|values| values.dyn_into::<Function>().ok())
        .and_then(|values| values.call0(map).ok())
        .unwrap_or_default()
}

fn message(bytes: &[u8]) {
    let &[status, number, force, ..] = bytes else { return };
    let Some(key) = Key::new(i32::from(number)) else { return };
    match status & 0xf0 {
        CONTROL if number == PEDAL => with(move |page| page.along_pedal(force >= 64)),
        NOTE_ON if force > 0 => with(move |page| page.midi_down(key)),
        NOTE_ON | NOTE_OFF => with(move |page| page.midi_up(key)),
        _ => {}
    }
}

/// In the dock, and in the sheet that may stand before it.
fn told(text: &str) {
    notice::say(text);
    dom::set_text("practise-note", text);
}
