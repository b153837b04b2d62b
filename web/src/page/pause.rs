//! When what a drag changes is done. At each step: the reading in brief, and the picture of
//! what is under the finger. Once the finger is slow: the rest of what is seen, in short turns.
//! Once it pauses: the full reading and where everything stands; then keeping the sketch and
//! all that stands beside the music, and the staff, system by system. Each is a turn of its
//! own, so that a finger that goes on finds the page free, and what is left is dropped for what
//! the next step leaves. A finger that lifts has all of it at once.

use super::staff::Extent;
use super::{Page, dom, with};
use std::cell::Cell;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;

/// Milliseconds without a step after which a drag is slow.
const SLOW_MS: i32 = 60;
/// Milliseconds without a step after which a drag has paused.
const PAUSE_MS: i32 = 120;

thread_local! {
    /// Steps taken so far; a pause is told by no further one.
    static STEPS: Cell<u32> = const { Cell::new(0) };
}

/// Does a task once the frame that is being made has been drawn.
pub(super) fn after_the_frame(task: impl FnOnce(&mut Page) + 'static) {
    let drawn = Closure::once_into_js(move || {
        let then = Closure::once_into_js(move || with(task));
        later(&then, 0);
    });
    if let Some(window) = dom::window() {
        let _ = window.request_animation_frame(drawn.unchecked_ref());
    }
}

/// A step was taken: what it leaves for later is done unless another comes soon.
pub(super) fn wait() {
    let step = STEPS.get().wrapping_add(1);
    STEPS.set(step);
    unless_another(step, SLOW_MS, move |page| {
        for system in page.staff.seen() {
            show_in_turns(step, system);
        }
    });
    unless_another(step, PAUSE_MS, move |page| {
        if page.read_up(Extent::Places) {
            unless_another(step, 0, Page::keep_and_tell);
        }
    });
}

/// Draws what a drag has changed in a system, turn by turn.
fn show_in_turns(step: u32, system: usize) {
    unless_another(step, 0, move |page| {
        if page.app.is_brief() && !page.staff.bring_on(&page.app, system) {
            show_in_turns(step, system);
        }
    });
}

/// Does a task after a while, unless another step than this was taken.
fn unless_another(step: u32, milliseconds: i32, task: impl FnOnce(&mut Page) + 'static) {
    let then = Closure::once_into_js(move || {
        if STEPS.get() == step {
            with(task);
        }
    });
    later(&then, milliseconds);
}

/// Does a task after a while.
pub(super) fn later(task: &wasm_bindgen::JsValue, milliseconds: i32) {
    if let Some(window) = dom::window() {
        let task = task.unchecked_ref();
        let _ = window.set_timeout_with_callback_and_timeout_and_arguments_0(task, milliseconds);
    }
}

impl Page {
    /// Keeps what a drag has changed.
    pub(super) fn keep_owed(&mut self) {
        if std::mem::take(&mut self.owes) {
            self.keep();
        }
    }

    /// Reads in full and draws as much of the staff; says whether there was anything left for
    /// later.
    fn read_up(&mut self, extent: Extent) -> bool {
        let read = self.app.read_up();
        if read {
            self.show_music(extent);
        }
        read || self.owes
    }

    /// Keeps, reads and shows all that a drag has left for later.
    pub(super) fn settle_up(&mut self) {
        if self.read_up(Extent::Whole) {
            self.keep_and_tell();
        }
    }

    fn keep_and_tell(&mut self) {
        self.keep_owed();
        self.show_beside();
    }
}
