//! What a drag leaves for later, so that each of its steps fits a frame: striking the
//! notes waits for the frame to be drawn; keeping the sketch, the full reading, the list
//! of remarks and the card wait until the finger pauses or lifts.

use super::{Page, dom, with};
use std::cell::Cell;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;

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

/// Settles what is owed unless another step comes soon.
pub(super) fn when_it_pauses() {
    let step = STEPS.get().wrapping_add(1);
    STEPS.set(step);
    let paused = Closure::once_into_js(move || {
        if STEPS.get() == step {
            with(Page::settle_up);
        }
    });
    later(&paused, PAUSE_MS);
}

fn later(task: &wasm_bindgen::JsValue, milliseconds: i32) {
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

    /// Keeps, reads and shows all that a drag has left for later.
    pub(super) fn settle_up(&mut self) {
        let owed = self.owes;
        self.keep_owed();
        if self.app.read_up() || owed {
            self.show();
        }
    }
}
