//! How long the parts of a change take, for whoever measures the page: told to the
//! list `tastata.timing` where a bench has put one, as name and milliseconds by
//! turns. Without the list nothing is measured.

use super::dom;
use js_sys::{Array, Reflect};
use wasm_bindgen::{JsCast, JsValue};

/// The list that wants to know, if there is one.
pub(super) struct Timing(Option<(Array, web_sys::Performance)>);

impl Timing {
    /// Looks for the list.
    pub(super) fn open() -> Timing {
        Timing(found())
    }

    /// Does a part of the work and tells how long it took.
    pub(super) fn of<T>(&self, name: &str, work: impl FnOnce() -> T) -> T {
        let Some((list, clock)) = &self.0 else { return work() };
        let before = clock.now();
        let done = work();
        list.push(&JsValue::from_str(name));
        list.push(&JsValue::from_f64(clock.now() - before));
        done
    }
}

fn found() -> Option<(Array, web_sys::Performance)> {
    let window = dom::window()?;
    let tastata = Reflect::get(&window, &"tastata".into()).ok()?;
    let list = Reflect::get(&tastata, &"timing".into()).ok()?.dyn_into().ok()?;
    Some((list, window.performance()?))
}
