//! The few things the page asks of the document, by element id.

use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Document, Element, Event, EventTarget, HtmlDialogElement, HtmlElement, Window};

pub(super) fn window() -> Option<Window> {
    web_sys::window()
}

pub(super) fn document() -> Option<Document> {
    window()?.document()
}

/// Milliseconds on a clock that only goes forward; 0 where the browser has none.
pub(super) fn milliseconds() -> f64 {
    window().and_then(|it| it.performance()).map_or(0.0, |clock| clock.now())
}

/// The element that holds all others.
pub(super) fn root() -> Option<Element> {
    document()?.document_element()
}

/// The element of this id, as the kind asked for.
pub(super) fn get<T: JsCast>(id: &str) -> Option<T> {
    document()?.get_element_by_id(id)?.dyn_into().ok()
}

/// The text of an element; empty where there is none.
pub(super) fn text_of(id: &str) -> String {
    get::<Element>(id).and_then(|it| it.text_content()).unwrap_or_default()
}

/// Writes text, touching the document only if it differs.
pub(super) fn set_text(id: &str, text: &str) {
    if let Some(element) = get::<Element>(id)
        && element.text_content().as_deref() != Some(text)
    {
        element.set_text_content(Some(text));
    }
}

/// Sets an attribute, touching the document only if it differs.
pub(super) fn set_attr(element: &Element, name: &str, value: &str) {
    if element.get_attribute(name).as_deref() != Some(value) {
        let _ = element.set_attribute(name, value);
    }
}

pub(super) fn set_attr_of(id: &str, name: &str, value: &str) {
    if let Some(element) = get::<Element>(id) {
        set_attr(&element, name, value);
    }
}

pub(super) fn set_hidden(id: &str, hidden: bool) {
    if let Some(element) = get::<HtmlElement>(id)
        && element.hidden() != hidden
    {
        element.set_hidden(hidden);
    }
}

/// Gives the whole page a class, or takes it away: the body, and the root, which scrolls.
pub(super) fn mark_page(class: &str, on: bool) {
    let body = document().and_then(|d| d.body()).map(Element::from);
    for element in [root(), body].into_iter().flatten() {
        let _ = element.class_list().toggle_with_force(class, on);
    }
}

/// Opens a dialog before the page, unless it is open.
pub(super) fn open_sheet(id: &str) {
    if let Some(sheet) = get::<HtmlDialogElement>(id)
        && !sheet.open()
    {
        let _ = sheet.show_modal();
    }
}

pub(super) fn close_sheet(id: &str) {
    if let Some(sheet) = get::<HtmlDialogElement>(id) {
        sheet.close();
    }
}

/// A new element with a class, not yet in the document.
pub(super) fn make(tag: &str, class: &str) -> Option<Element> {
    let element = document()?.create_element(tag).ok()?;
    if !class.is_empty() {
        element.set_class_name(class);
    }
    Some(element)
}

/// A new element with a class and text, not yet in the document.
pub(super) fn text(tag: &str, class: &str, text: &str) -> Option<Element> {
    let element = make(tag, class)?;
    element.set_text_content(Some(text));
    Some(element)
}

/// Empties an element.
pub(super) fn clear(element: &Element) {
    element.set_text_content(None);
}

/// Fills an element anew, touching the document only if it differs: what has the keyboard's focus
/// keeps it.
pub(super) fn refill(id: &str, fill: impl FnOnce(&Element)) {
    let Some(element) = get::<Element>(id) else { return };
    let Some(new) = make(&element.tag_name(), "") else { return };
    fill(&new);
    if new.inner_html() == element.inner_html() {
        return;
    }
    clear(&element);
    while let Some(child) = new.first_child() {
        if element.append_child(&child).is_err() {
            break;
        }
    }
}

/// Calls `act` on every event of this name; lives as long as the page.
pub(super) fn on<E: JsCast>(target: &EventTarget, name: &str, mut act: impl FnMut(E) + 'static) {
    let closure = Closure::<dyn FnMut(Event)>::new(move |event: Event| {
        if let Ok(event) = event.dyn_into::<E>() {
            act(event);
        }
    });
    let _ = target.add_event_listener_with_callback(name, closure.as_ref().unchecked_ref());
    closure.forget();
}

/// Calls `act` on every event of this name at the target or below it, also on
/// events that do not rise.
pub(super) fn on_capture(target: &EventTarget, name: &str, act: impl FnMut() + 'static) {
    let closure = Closure::<dyn FnMut()>::new(act);
    let callback = closure.as_ref().unchecked_ref();
    let _ = target.add_event_listener_with_callback_and_bool(name, callback, true);
    closure.forget();
}

pub(super) fn on_id<E: JsCast>(id: &str, name: &str, act: impl FnMut(E) + 'static) {
    if let Some(element) = get::<Element>(id) {
        on(&element, name, act);
    }
}

/// Puts the keyboard focus on the first element that a selector finds.
pub(super) fn focus(selector: &str) {
    let found = document().and_then(|d| d.query_selector(selector).ok().flatten());
    if let Some(element) = found.and_then(|it| it.dyn_into::<HtmlElement>().ok()) {
        let _ = element.focus();
    }
}

/// Whether the keyboard focus is on this element.
pub(super) fn has_focus(id: &str) -> bool {
    document().and_then(|d| d.active_element()).is_some_and(|e| e.id() == id)
}

/// The nearest element at or above the event's target that matches.
pub(super) fn closest(event: &Event, selector: &str) -> Option<Element> {
    event.target()?.dyn_into::<Element>().ok()?.closest(selector).ok()?
}

/// A number kept in a data attribute.
pub(super) fn data_number(element: &Element, name: &str) -> Option<usize> {
    element.get_attribute(name)?.parse().ok()
}

/// Whether the person asked the system for reduced motion.
pub(super) fn prefers_stillness() -> bool {
    window()
        .and_then(|w| w.match_media("(prefers-reduced-motion: reduce)").ok().flatten())
        .is_some_and(|query| query.matches())
}
