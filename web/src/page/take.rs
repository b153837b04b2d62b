//! Taking a piece away: as MIDI, score, sound, picture or text.

use super::controls::{press, value_of_select};
use super::reader::{say, tell};
use super::share::copy;
use super::{Page, dom, with};
use crate::app::App;
use std::cell::RefCell;
use tastata::files::{self, Depth, MidiForm, Wav};
use tastata::roll::Micros;
use tastata::sound::Renderer;
use tastata::staff::{self, Look};
use tastata::words::page::said;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, Url};

/// Frames per second of a sound file.
const RATE: u32 = 44_100;
/// Seconds of sound rendered between two breaths of the page.
const SLICE: f64 = 0.25;
/// Staff spaces of a system in a picture.
const PICTURE_WIDTH: f64 = 92.0;
/// Pixels of a staff space in a picture.
const PICTURE_SPACE: f64 = 10.0;

thread_local! {
    static RENDERING: RefCell<Option<Rendering>> = const { RefCell::new(None) };
}

/// A sound file on its way.
struct Rendering {
    renderer: Renderer,
    wav: Wav,
    done: f64,
    whole: f64,
    name: String,
}

pub(super) fn wire() {
    for (id, form) in [("take-midi", MidiForm::Performance), ("take-blocks", MidiForm::Blocks)] {
        press(id, move || {
            with(move |page| {
                let bytes = files::midi(page.app.sketch(), page.app.reading(), form);
                offer(&page.app, "mid", "audio/midi", &bytes);
            });
        });
    }
    press("take-score", || {
        with(|page| {
            let text = files::musicxml(page.app.sketch(), page.app.reading());
            offer(&page.app, "musicxml", "application/vnd.recordare.musicxml+xml", text.as_bytes());
        });
    });
    press("take-packed", || {
        with(|page| {
            let bytes = files::mxl(page.app.sketch(), page.app.reading());
            offer(&page.app, "mxl", "application/vnd.recordare.musicxml", &bytes);
        });
    });
    press("take-picture", || {
        with(|page| {
            let drawing =
                staff::draw(page.app.sketch(), page.app.reading(), &Look::new(PICTURE_WIDTH));
            let svg = staff::to_svg(&drawing, PICTURE_SPACE);
            offer(&page.app, "svg", "image/svg+xml", svg.as_bytes());
        });
    });
    press("take-text", || {
        with(|page| {
            let text = files::to_text(page.app.sketch());
            offer(&page.app, "txt", "text/plain;charset=utf-8", text.as_bytes());
        });
    });
    press("take-sound", || with(|page| page.begin_sound_file()));
    press("cancel-sound", || {
        RENDERING.set(None);
        show_progress(None);
    });
    press("copy-text", || {
        with(move |page| {
            copy(files::to_text(page.app.sketch()), "take-note", say(said::TEXT_COPIED))
        });
    });
}

impl Page {
    fn begin_sound_file(&mut self) {
        if RENDERING.with_borrow(Option::is_some) {
            return;
        }
        let performance = &self.app.reading().performance;
        if performance.touches.is_empty() {
            dom::set_text("take-note", say(said::NOTHING_TO_HEAR));
            return;
        }
        let renderer = Renderer::new(performance, &self.app.sketch().sound, RATE, Micros(0));
        let whole = performance.end.as_secs();
        let name = file_name(&self.app, "wav");
        let depth = match value_of_select("sound-depth").as_str() {
            "24" => Depth::TwentyFour,
            _ => Depth::Sixteen,
        };
        let wav = Wav::of_depth(RATE, depth);
        RENDERING.set(Some(Rendering { renderer, wav, done: 0.0, whole, name }));
        dom::set_text("take-note", "");
        show_progress(Some(0.0));
        next_slice();
    }
}

/// Renders one slice, then lets the page breathe.
fn next_slice() {
    let later = Closure::once_into_js(|| {
        let Some(mut it) = RENDERING.take() else { return };
        let frames = (SLICE * f64::from(RATE)) as usize;
        let (mut left, mut right) = (vec![0.0; frames], vec![0.0; frames]);
        let more = it.renderer.render(&mut left, &mut right);
        it.wav.push(&left, &right);
        it.done += SLICE;
        if more {
            show_progress(Some(it.done / it.whole.max(1.0)));
            RENDERING.set(Some(it));
            next_slice();
        } else {
            show_progress(None);
            let _ = download(&it.name, "audio/wav", &it.wav.finish());
        }
    });
    if let Some(window) = dom::window() {
        let _ = window.set_timeout_with_callback(later.unchecked_ref());
    }
}

fn show_progress(part: Option<f64>) {
    dom::set_hidden("sound-progress", part.is_none());
    let percent = (part.unwrap_or_default() * 100.0).clamp(0.0, 99.0);
    dom::set_text("sound-percent", &tell(said::RENDERING, [&format!("{percent:.0}")]));
}

fn offer(app: &App, ending: &str, kind: &str, bytes: &[u8]) {
    let _ = download(&file_name(app, ending), kind, bytes);
}

/// The title made fit for a file's name.
fn file_name(app: &App, ending: &str) -> String {
    let title = app.sketch().title.trim();
    let kept: String =
        title.chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).take(60).collect();
    let kept = kept.trim_matches('-');
    format!("{}.{ending}", if kept.is_empty() { "prelude" } else { kept })
}

/// Hands the person a file.
pub(super) fn download(name: &str, kind: &str, bytes: &[u8]) -> Option<()> {
    let parts = js_sys::Array::of1(&js_sys::Uint8Array::from(bytes));
    let bag = BlobPropertyBag::new();
    bag.set_type(kind);
    let blob = Blob::new_with_u8_array_sequence_and_options(&parts, &bag).ok()?;
    let url = Url::create_object_url_with_blob(&blob).ok()?;
    let anchor: HtmlAnchorElement = dom::make("a", "")?.dyn_into().ok()?;
    anchor.set_href(&url);
    anchor.set_download(name);
    anchor.click();
    // Some browsers fetch the file only after the press has ended.
    let later = Closure::once_into_js(move || {
        let _ = Url::revoke_object_url(&url);
    });
    let _ = dom::window()?
        .set_timeout_with_callback_and_timeout_and_arguments_0(later.unchecked_ref(), 10_000);
    Some(())
}
