//! The module inside a browser, with all the checks of a debug build: it starts in the page's own
//! markup, and neither a button nor a text brings it down. Run by `tests/run`.
#![cfg(target_arch = "wasm32")]

use wasm_bindgen::JsCast;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use web_sys::{Document, Element, Event, HtmlElement, HtmlTextAreaElement};

wasm_bindgen_test_configure!(run_in_browser);

/// The template of the page, of which the body is shown.
const TEMPLATE: &str = include_str!("../../www/index.html");

fn document() -> Document {
    web_sys::window().and_then(|window| window.document()).expect("a browser has a document")
}

/// Starts the module with `markup` in the document, beside what the test runner has there.
fn start_in(markup: &str) {
    for old in all("#stage") {
        old.remove();
    }
    let stage = document().create_element("div").expect("elements can be made");
    stage.set_id("stage");
    stage.set_inner_html(markup);
    let body = document().body().expect("the document has a body");
    body.append_child(&stage).expect("the body takes it");
    tastata_web::page::start();
}

/// Starts the module in the page's own markup, with nothing kept from before.
fn open() {
    if let Some(Ok(Some(storage))) = web_sys::window().map(|window| window.local_storage()) {
        storage.clear().expect("storage can be cleared");
    }
    let body = TEMPLATE.split_once("<body>").and_then(|(_, rest)| rest.split_once("</body>"));
    start_in(body.expect("the template has a body").0);
}

fn all(selector: &str) -> Vec<Element> {
    let list = document().query_selector_all(selector).expect("the selector is well formed");
    (0..list.length()).filter_map(|i| list.item(i)?.dyn_into().ok()).collect()
}

fn chords() -> usize {
    all("#staff [data-part=soprano]").len()
}

/// Types `text` over the bass, which is in view then: systems far from the window are not drawn, and a
/// button may have set the window scrolling.
fn type_bass(text: &str) {
    let field = document().get_element_by_id("bass").expect("the page has a field for the bass");
    field.scroll_into_view();
    let field: HtmlTextAreaElement = field.dyn_into().expect("it is a text field");
    field.set_value(text);
    field.dispatch_event(&Event::new("input").expect("events can be made")).expect("it is sent");
}

#[wasm_bindgen_test]
fn without_its_markup_it_does_nothing_and_does_not_fall() {
    start_in("<p>Another page.</p>");
}

#[wasm_bindgen_test]
fn it_shows_a_staff_for_what_is_typed() {
    open();
    assert!(chords() > 4, "The page does not open with an example");
    type_bass("C3 D3 E3 F3 G3 C3");
    assert_eq!(chords(), 6);
}

#[wasm_bindgen_test]
fn no_text_brings_it_down() {
    open();
    let long = "C3 G3 ".repeat(40);
    for text in [
        "",
        " ",
        "\n\n",
        "H",
        "C99",
        "C-9",
        "C3 6/5/4/3/2",
        "C3 9999",
        "Cbbbbbb3",
        "♭♯♮",
        "C3 (",
        "C3 -- D3",
        "<img src=x>",
        "\u{0}\u{ffff}",
        "é́́",
        "🎹",
        "C3 c3 C,,, c''''",
        &long,
    ] {
        type_bass(text);
    }
    type_bass("C3 D3");
    assert_eq!(chords(), 2, "After all that it does not listen any more");
}

#[wasm_bindgen_test]
fn no_button_brings_it_down() {
    open();
    type_bass("C3 D3 E3 F3 G3 C3");
    for _ in 0..2 {
        for button in all(".top button, .projectbar button, main button, .dock button") {
            if let Ok(button) = button.dyn_into::<HtmlElement>() {
                button.click();
            }
        }
    }
    type_bass("C3 D3");
    assert_eq!(chords(), 2, "After all that it does not listen any more");
}

#[wasm_bindgen_test]
fn after_a_failure_the_sketch_is_offered() {
    open();
    type_bass("C3 D3 E3 C3");
    tastata_web::page::rescue("something broke");
    let dialog = document().get_element_by_id("rescue").expect("the page has a rescue");
    assert!(dialog.has_attribute("open"));
    let link = document().get_element_by_id("rescue-link").expect("it holds a link");
    let link: HtmlTextAreaElement = link.dyn_into().expect("it is a text field");
    let (_, fragment) = link
        .value()
        .split_once('#')
        .map(|(a, b)| (a.to_owned(), b.to_owned()))
        .expect("a fragment");
    let sketch = tastata::files::decode(&fragment).expect("the link opens");
    assert_eq!(sketch.notes.len(), 4);
    dialog.remove_attribute("open").expect("it closes");
}
