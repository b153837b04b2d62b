//! Keeping the sketch: in the address when shared, in the browser as it changes.

use super::{dom, rescue};
use crate::app::App;
use tastata::files::link;
use tastata::sketch::Sketch;
use tastata::words::{self, Lang};
use web_sys::Storage;

const OWN: &str = "tastata.sketch";
const KEPT: &str = "tastata.kept";

/// What the page opens with, and what to tell the person about it.
pub(super) struct Opened {
    pub(super) app: App,
    pub(super) notice: Option<String>,
}

/// Opens the sketch in the address, else the one kept here, else the example.
/// A linked sketch never overwrites the person's own: that is kept aside.
pub(super) fn open() -> Opened {
    let own = read(OWN);
    let fragment = fragment();
    if !fragment.is_empty() {
        return match link::decode(&fragment) {
            Ok(sketch) => {
                if let Some(own) = own.filter(|own| *own != fragment) {
                    write(KEPT, &own);
                }
                Opened { app: App::of(sketch), notice: None }
            }
            Err(error) => {
                let why = words::link_error(&error, Lang::English);
                Opened { app: kept_or_example(own), notice: Some(why) }
            }
        };
    }
    Opened { app: kept_or_example(own), notice: None }
}

/// The sketch put aside when a link was opened.
pub(super) fn put_aside() -> Option<Sketch> {
    link::decode(&read(KEPT)?).ok()
}

/// Keeps the sketch in this browser; when storage is refused the page goes on.
pub(super) fn keep(sketch: &Sketch) {
    let text = link::encode(sketch);
    rescue::remember(&address(&text));
    write(OWN, &text);
}

/// The full address of a sketch's link.
pub(super) fn address(link: &str) -> String {
    let base = dom::window().and_then(|w| w.location().href().ok()).unwrap_or_default();
    let base = base.split('#').next().unwrap_or_default().to_owned();
    format!("{base}#{link}")
}

/// What stands behind the # of the address.
pub(super) fn fragment() -> String {
    let hash = dom::window().and_then(|w| w.location().hash().ok()).unwrap_or_default();
    hash.trim_start_matches('#').to_owned()
}

fn kept_or_example(own: Option<String>) -> App {
    own.and_then(|text| link::decode(&text).ok()).map_or_else(App::opening, App::of)
}

fn storage() -> Option<Storage> {
    dom::window()?.local_storage().ok()?
}

fn read(name: &str) -> Option<String> {
    storage()?.get_item(name).ok()?
}

fn write(name: &str, text: &str) {
    if let Some(storage) = storage() {
        let _ = storage.set_item(name, text);
    }
}
