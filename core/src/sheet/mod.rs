//! The printed sheet: the piece on paper, worth handing out.
//!
//! [`pages`] breaks a drawing of the room `staff` into pages between its systems:
//! title, task and QR code on the first, a running title on the others, a number
//! at the foot where there are several, and the answer on pages of its own. Every
//! page is one self-contained SVG file in millimetres, black on white.

mod layout;
mod lines;
mod link;
mod print;
mod wishes;

pub use link::fragment;
pub use wishes::{AnswerPages, Figures, PageForm, Paper, SheetWishes, Soprano};

use crate::reading::Reading;
use crate::sketch::Sketch;
use crate::staff::{Layer, Layers, Look, draw};
use crate::words;

/// Height of a staff space on paper, in millimetres: a staff of 7 mm.
const SPACE: f64 = 1.75;
/// Clear space between columns where a student writes, in staff spaces.
const WRITING_AIR: f64 = 3.0;

/// The sheet's pages in order, each a whole SVG file. There is always one. A text
/// that no QR code holds (see [`crate::files::qr_svg`]) is left out.
/// Cost: O(notes). Allocates: 30 kB a page and 3 kB a chord.
pub fn pages(sketch: &Sketch, reading: &Reading, wishes: &SheetWishes) -> Vec<String> {
    let title = wishes.title.as_deref().unwrap_or(&sketch.title).trim();
    let (width, height) = wishes.paper.size();
    let paper = layout::Page { width, height, form: wishes.form };
    let lang = wishes.lang;
    let task = layout::Head { title, task: wishes.task.trim(), qr: wishes.qr.as_deref(), lang };
    let mut show = Layers::usual().without(Layer::Faults).without(Layer::Pins);
    let whole = show;
    let mut look = Look::new(paper.inner_width() / SPACE);
    if wishes.figures == Figures::Blank {
        show = show.without(Layer::Figures);
    }
    if wishes.soprano == Soprano::Blank {
        let made = [Layer::Soprano, Layer::Inner, Layer::Rolls, Layer::Hands];
        show = made.into_iter().fold(show, Layers::without);
    }
    if show != whole {
        look.air = WRITING_AIR;
    }
    look.show = show;
    let mut pages = layout::pages(&draw(sketch, reading, &look), paper, &task);
    if wishes.answer == AnswerPages::Added {
        look.show = whole;
        look.air = 0.0;
        let title = words::sheet_answer(title, wishes.lang);
        let head = layout::Head { title: &title, task: "", qr: None, lang };
        pages.extend(layout::pages(&draw(sketch, reading, &look), paper, &head));
    }
    pages
}

/// Pages as one HTML file that prints each on a sheet of its own.
pub fn document(title: &str, pages: &[String], paper: Paper) -> String {
    let (width, height) = paper.size();
    print::document(title, pages, width, height)
}
