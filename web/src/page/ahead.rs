//! Drawing ahead of who scrolls. What comes near is drawn plainly, a system after each frame, so
//! that no frame is late; once the page stands still, with all that a finger takes hold of, a
//! system at a time; and what was left far behind is taken away.

use super::pause;
use std::cell::Cell;
use wasm_bindgen::closure::Closure;

/// Milliseconds without scrolling after which the page stands still.
const STILL_MS: i32 = 150;

thread_local! {
    /// Whether a turn is waiting.
    static WAITS: Cell<bool> = const { Cell::new(false) };
    /// How often the page was scrolled so far.
    static SCROLLS: Cell<u32> = const { Cell::new(0) };
    /// Whether it stands still.
    static STILL: Cell<bool> = const { Cell::new(true) };
}

/// Whether the page stands still.
pub(super) fn is_still() -> bool {
    STILL.get()
}

/// The page was scrolled: turn by turn all is done that is to be done for it.
pub(super) fn scrolled() {
    let scroll = SCROLLS.get().wrapping_add(1);
    SCROLLS.set(scroll);
    STILL.set(false);
    go_on();
    let then = Closure::once_into_js(move || {
        if SCROLLS.get() == scroll {
            STILL.set(true);
            go_on();
        }
    });
    pause::later(&then, STILL_MS);
}

/// Turn by turn all is drawn that is to be drawn and is not.
pub(super) fn go_on() {
    if !WAITS.replace(true) {
        pause::after_the_frame(|page| {
            WAITS.set(false);
            if page.staff.draw_ahead(&page.app, STILL.get()) {
                go_on();
            }
        });
    }
}
