//! Keeping the sketch: in the address when shared, in the browser as it changes.

use super::reader::{lang, say};
use super::shelf::{read, read_shared, write, write_shared};
use super::{dom, embed, notice, rescue, with};
use crate::app::App;
use std::cell::RefCell;
use tastata::files::{self, Linked};
use tastata::sketch::Sketch;
use tastata::words;
use tastata::words::page::said;
use wasm_bindgen::JsCast;
use web_sys::Element;

const OWN: &str = "tastata.sketch";
const BASE: &str = "tastata.base";

thread_local! {
    /// The sketch this copy of the page was saved with, empty in the original.
    static INSIDE: RefCell<String> = const { RefCell::new(String::new()) };
}

/// A sketch put aside, by why it was.
#[derive(Clone, Copy)]
pub(super) enum Aside {
    /// The person's own, for one that came by link.
    ForLink,
    /// What another tab of the page had kept when this one kept its own.
    OfOtherTab,
}

impl Aside {
    fn name(self) -> &'static str {
        match self {
            Aside::ForLink => "tastata.aside",
            Aside::OfOtherTab => "tastata.others",
        }
    }
}

/// What the page opens with, and what to tell the person about it.
pub(super) struct Opened {
    pub(super) app: App,
    pub(super) notice: Option<String>,
    /// Whether the person's own sketch was put aside for a linked one.
    pub(super) put_aside: bool,
    /// Exercises or answers that came by link or inside the page.
    pub(super) lesson: Option<Linked>,
}

/// Opens the sketch in the address, else the one kept in this browser, else the
/// one saved inside the page, else the example. A linked sketch never
/// overwrites the person's own: that is put aside.
pub(super) fn open() -> Opened {
    let inside = dom::get::<Element>("kept-sketch").and_then(|e| e.text_content());
    INSIDE.set(inside.unwrap_or_default().trim().to_owned());
    let own = read_shared(&own_name());
    let kept = || {
        let inside = INSIDE.with_borrow(|inside| files::decode(inside).ok());
        let own = own.as_deref().and_then(|text| files::decode(text).ok());
        own.or(inside).map_or_else(App::opening, App::of)
    };
    let opened = |app| Opened { app, notice: None, put_aside: false, lesson: None };
    let linked = fragment();
    if let Some(link) = embed::link(&linked) {
        embed::enter(link);
        return match files::decode(link) {
            Ok(sketch) => opened(App::of(sketch)),
            Err(error) => {
                let why = words::link_error(error, lang()).to_owned();
                Opened { notice: Some(why), ..opened(App::of(Sketch::default())) }
            }
        };
    }
    if linked.is_empty() {
        let lesson = INSIDE.with_borrow(|inside| files::open(inside).ok());
        let lesson = lesson.filter(|it| !matches!(it, Linked::Sketch(_)));
        return Opened { lesson, ..opened(kept()) };
    }
    match files::open(&linked) {
        Ok(Linked::Sketch(sketch)) => {
            let other = own.filter(|own| *own != linked);
            if let Some(own) = &other {
                write(Aside::ForLink.name(), own);
            }
            Opened { put_aside: other.is_some(), ..opened(App::of(sketch)) }
        }
        Ok(lesson) => Opened { lesson: Some(lesson), ..opened(kept()) },
        Err(error) => {
            let why = words::link_error(error, lang()).to_owned();
            Opened { notice: Some(why), ..opened(kept()) }
        }
    }
}

/// The sketch last put aside.
pub(super) fn put_aside(aside: Aside) -> Option<Sketch> {
    files::decode(&read(aside.name())?).ok()
}

/// Keeps the sketch in this browser, and in the document, so that the browser's
/// own Save command takes it along. What another tab has kept meanwhile is put
/// aside and offered.
pub(super) fn keep(sketch: &Sketch) {
    let text = files::encode(sketch);
    rescue::remember(&address(&text));
    put_inside(&text);
    if let Some(others) = write_shared(&own_name(), &text) {
        write(Aside::OfOtherTab.name(), &others);
        notice::offer(Aside::OfOtherTab, say(said::OTHER_TAB), say(said::TAKE_UP_OTHERS));
    }
}

/// Has the sketch at hand for a rescue, and for the browser's own Save command,
/// before anything is changed.
pub(super) fn remember(sketch: &Sketch) {
    let text = files::encode(sketch);
    rescue::remember(&address(&text));
    put_inside(&text);
}

/// What a copy of the page opens with that is saved by the browser's own command.
pub(super) fn put_inside(link: &str) {
    dom::set_text("kept-sketch", link);
}

/// The page as packed, with what a link holds inside.
pub(super) fn page_with(link: &str) -> Option<String> {
    let window = dom::window()?;
    let tastata = js_sys::Reflect::get(&window, &"tastata".into()).ok()?;
    let original = js_sys::Reflect::get(&tastata, &"original".into()).ok()?;
    let original =
        original.dyn_into::<js_sys::Function>().ok()?.call0(&tastata).ok()?.as_string()?;
    const OPENING: &str = "id=\"kept-sketch\">";
    let start = original.rfind(OPENING)? + OPENING.len();
    let end = start + original.get(start..)?.find("</script>")?;
    let (head, tail) = (original.get(..start)?, original.get(end..)?);
    Some([head, link, tail].concat())
}

/// Where this copy of the page keeps its sketch: copies saved with different
/// sketches inside do not overwrite each other's.
fn own_name() -> String {
    INSIDE.with_borrow(|inside| match inside.as_str() {
        "" => OWN.to_owned(),
        // The link's own checksum stands at its end.
        text => format!("{OWN}.{}", text.get(text.len().saturating_sub(12)..).unwrap_or(text)),
    })
}

/// The full address of a link.
pub(super) fn address(link: &str) -> String {
    let here = || dom::window().and_then(|w| w.location().href().ok()).unwrap_or_default();
    let base = Some(own_base()).filter(|base| !base.is_empty()).unwrap_or_else(here);
    let base = base.split('#').next().unwrap_or_default().to_owned();
    format!("{base}#{link}")
}

/// The web address a person gave for this page; empty where none was given.
pub(super) fn own_base() -> String {
    read(BASE).unwrap_or_default()
}

/// Keeps the web address of this page for links, or forgets it where it is empty.
/// Says whether it was understood.
pub(super) fn set_base(base: &str) -> bool {
    let base = base.trim();
    let understood = base.is_empty() || base.starts_with("https://") || base.starts_with("http://");
    if understood {
        write(BASE, base);
    }
    understood
}

/// Takes what stands behind the # out of the address, without a step in the history.
pub(super) fn forget_address() {
    let Some(window) = dom::window() else { return };
    let here = window.location().href().unwrap_or_default();
    let base = here.split('#').next().unwrap_or_default();
    if let Ok(history) = window.history() {
        let _ = history.replace_state_with_url(&wasm_bindgen::JsValue::NULL, "", Some(base));
    }
}

/// What stands behind the # of the address.
pub(super) fn fragment() -> String {
    let hash = dom::window().and_then(|w| w.location().hash().ok()).unwrap_or_default();
    hash.trim_start_matches('#').to_owned()
}

/// A link pasted into the address while the page is open.
pub(super) fn open_address() {
    let fragment = fragment();
    if fragment.is_empty() {
        return;
    }
    // A player begins anew, and so does a page that becomes one.
    if embed::is_on() || embed::link(&fragment).is_some() {
        if let Some(window) = dom::window() {
            let _ = window.location().reload();
        }
        return;
    }
    match files::open(&fragment) {
        Ok(linked) => with(|page| page.receive(linked)),
        Err(error) => notice::say(words::link_error(error, lang())),
    }
}
