//! How long the chosen bass note lasts and rests, for a bass that is measured.

use super::controls::chosen;
use super::reader::say;
use super::{Page, dom, wishes, with};
use crate::app::Intent;
use tastata::bass::NoteValue;
use tastata::sketch::SketchNote;
use tastata::words::Phrase;
use tastata::words::page::said;
use web_sys::HtmlSelectElement;

/// The usual lengths, longest first, as they are typed.
const VALUES: [(Phrase, &str); 7] = [
    (said::WHOLE, "1"),
    (said::HALF_DOTTED, "2."),
    (said::HALF, "2"),
    (said::QUARTER_DOTTED, "4."),
    (said::QUARTER, "4"),
    (said::EIGHTH, "8"),
    (said::SIXTEENTH, "16"),
];

pub(super) fn fill() {
    for (id, none) in [("note-value", said::UNSAID), ("note-rest", said::NO_REST)] {
        wishes::option(id, "", say(none));
        for (name, typed) in VALUES {
            wishes::option(id, typed, say(name));
        }
    }
}

pub(super) fn show(note: Option<&SketchNote>) {
    let show = |id: &str, value: Option<NoteValue>| {
        let typed = value.map(|it| it.to_string()).unwrap_or_default();
        wishes::choose(id, &typed);
        // A length that is not among the usual ones is shown as it is typed.
        let lacks = |it: &HtmlSelectElement| it.value() != typed;
        if dom::get::<HtmlSelectElement>(id).is_some_and(|it| lacks(&it)) {
            wishes::option(id, &typed, &typed);
            wishes::choose(id, &typed);
        }
    };
    show("note-value", note.and_then(|it| it.value));
    show("note-rest", note.and_then(|it| it.rest));
}

pub(super) fn wire() {
    chosen("note-value", |typed| {
        let value = NoteValue::parse(&typed);
        wish(move |note| note.value = value);
    });
    chosen("note-rest", |typed| {
        let rest = NoteValue::parse(&typed);
        wish(move |note| note.rest = rest);
    });
}

fn wish(change: impl Fn(&mut SketchNote) + 'static) {
    with(move |page: &mut Page| {
        let Some(place) = page.app.view().selected else { return };
        page.act(Intent::wish(move |sketch| {
            if let Some(note) = sketch.notes.get_mut(place.note) {
                change(note);
            }
        }));
    });
}
