//! Which systems stand on which page, and where.

use super::lines::broken;
use super::{PageForm, SPACE, print};
use crate::files::qr_svg;
use crate::staff::Drawing;
use crate::words::{self, Lang};

/// Margins on all sides, in millimetres: within what every printer prints.
const MARGIN: f64 = 15.0;
/// Height of the row of page numbers.
const FOOT: f64 = 6.0;
/// Least and most clear space between systems.
const GAP: f64 = 4.0;
const WIDEST_GAP: f64 = 14.0;
/// Side of a module of the QR code that a phone reads well from paper, and the least
/// and greatest side of the whole code, quiet zone included.
const MODULE: f64 = 0.45;
const QR: std::ops::RangeInclusive<f64> = 25.0..=50.0;
/// Sizes of title, task and running title, and the height of a line in its size.
pub(super) const TITLE: f64 = 6.5;
pub(super) const TASK: f64 = 4.2;
pub(super) const SMALL: f64 = 3.4;
pub(super) const LEADING: f64 = 1.3;
/// Most lines of each.
const TITLE_LINES: usize = 3;
const TASK_LINES: usize = 24;

/// A page's size, in millimetres, and what it brings along.
#[derive(Clone, Copy)]
pub(super) struct Page {
    pub(super) width: f64,
    pub(super) height: f64,
    pub(super) form: PageForm,
}

impl Page {
    /// The width between the margins.
    pub(super) fn inner_width(self) -> f64 {
        self.width - 2.0 * MARGIN
    }

    fn bottom(self) -> f64 {
        self.height - MARGIN - FOOT
    }
}

/// What stands above the music.
pub(super) struct Head<'a> {
    pub(super) title: &'a str,
    pub(super) task: &'a str,
    pub(super) qr: Option<&'a str>,
    pub(super) lang: Lang,
}

/// A line of text: its place, size and alignment.
pub(super) struct Text {
    pub(super) x: f64,
    pub(super) y: f64,
    pub(super) size: f64,
    pub(super) anchor: Anchor,
    pub(super) text: String,
}

/// What of a line stands at its place.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Anchor {
    /// Its beginning.
    Start,
    /// Its middle.
    Middle,
}

/// Everything on one page: texts, a QR code and systems with their places.
#[derive(Default)]
pub(super) struct Content<'a> {
    pub(super) texts: Vec<Text>,
    pub(super) qr: Option<(f64, f64, f64, String)>,
    pub(super) systems: Vec<(f64, f64, &'a str)>,
}

/// The finished pages of a drawing.
pub(super) fn pages(drawing: &Drawing, page: Page, head: &Head<'_>) -> Vec<String> {
    let mut contents = Vec::new();
    let (mut content, mut top) = opening(page, head);
    let mut waiting = drawing.systems.iter().peekable();
    while waiting.peek().is_some() {
        let mut taken = Vec::new();
        let mut used = 0.0;
        while let Some(system) = waiting.peek() {
            let height = system.height * SPACE;
            let gap = if taken.is_empty() { 0.0 } else { GAP };
            // A system higher than a page still gets one.
            if !taken.is_empty() && top + used + gap + height > page.bottom() {
                break;
            }
            // The first page may be full of words.
            if taken.is_empty() && contents.is_empty() && top + height > page.bottom() {
                break;
            }
            used += gap + height;
            taken.extend(waiting.next());
        }
        // Full pages end at their foot; a page that is half empty stays so.
        let free = page.bottom() - top - used;
        let joints = taken.len().saturating_sub(1).max(1) as f64;
        let full = waiting.peek().is_some() || free < 0.25 * page.height;
        let more = if full { (free / joints).clamp(0.0, WIDEST_GAP - GAP) } else { 0.0 };
        let mut y = top;
        for system in taken {
            content.systems.push((MARGIN, y, &system.svg));
            y += system.height * SPACE + GAP + more;
        }
        contents.push(content);
        (content, top) = running(head.title);
    }
    let count = contents.len();
    for (i, content) in contents.iter_mut().enumerate().filter(|_| count > 1) {
        content.texts.push(Text {
            x: page.width / 2.0,
            y: page.height - MARGIN,
            size: SMALL,
            anchor: Anchor::Middle,
            text: words::sheet_page(i + 1, count, head.lang),
        });
    }
    contents.iter().map(|content| print::page(page, head.title, content)).collect()
}

/// The head of the first page and where the music may begin.
fn opening<'a>(page: Page, head: &Head<'_>) -> (Content<'a>, f64) {
    let mut content = Content::default();
    let mut top = MARGIN;
    let qr = head.qr.filter(|text| !text.is_empty()).and_then(|text| qr_svg(text).ok());
    let side = qr.as_deref().map_or(0.0, side);
    let beside = if qr.is_some() { side + 4.0 } else { 0.0 };
    let room = page.inner_width() - 2.0 * beside;
    for text in broken(head.title, TITLE, room, TITLE_LINES) {
        top += TITLE * LEADING;
        let (x, y) = (page.width / 2.0, top - 0.3 * TITLE);
        content.texts.push(Text { x, y, size: TITLE, anchor: Anchor::Middle, text });
    }
    if !head.task.is_empty() {
        top += 2.0;
        let room = page.inner_width() - beside;
        for text in broken(head.task, TASK, room, TASK_LINES) {
            top += TASK * LEADING;
            let y = top - 0.3 * TASK;
            content.texts.push(Text { x: MARGIN, y, size: TASK, anchor: Anchor::Start, text });
        }
    }
    if let Some(svg) = qr {
        content.qr = Some((page.width - MARGIN - side, MARGIN, side, svg));
        top = top.max(MARGIN + side);
    }
    if top > MARGIN {
        top += 4.0;
    }
    (content, top)
}

/// The side of a QR code on paper: a unit of its view box is a module.
fn side(svg: &str) -> f64 {
    let rest = svg.split_once("viewBox=\"0 0 ").map_or("", |(_, rest)| rest);
    let modules: f64 = rest.split(' ').next().and_then(|it| it.parse().ok()).unwrap_or(0.0);
    (modules * MODULE).clamp(*QR.start(), *QR.end())
}

/// The head of a further page.
fn running<'a>(title: &str) -> (Content<'a>, f64) {
    let mut content = Content::default();
    let mut top = MARGIN;
    for text in broken(title, SMALL, 150.0, 1) {
        top += SMALL * LEADING + 2.0;
        let y = MARGIN + 0.7 * SMALL;
        content.texts.push(Text { x: MARGIN, y, size: SMALL, anchor: Anchor::Start, text });
    }
    (content, top)
}
