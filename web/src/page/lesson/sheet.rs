//! The teacher's sheet and its three rooms.

use super::super::controls::press;
use super::super::{Page, dom, shelf, with};
use super::{collect, form, set_room};
use crate::app::Draft;
use web_sys::{Element, Event, MouseEvent};

const DRAFT: &str = "tastata.set";
const ROOMS: [&str; 3] = ["make", "set", "collect"];

/// The set in the making that this browser keeps.
pub(super) fn kept() -> Draft {
    Draft::resume(&shelf::read_shared(DRAFT).unwrap_or_default())
}

pub(super) fn wire() {
    press("teach", || with(Page::open_teaching));
    press("teach-here", || {
        super::super::share::close();
        with(Page::open_teaching);
    });
    press("teach-close", close);
    if let Some(window) = dom::window() {
        dom::on(&window, "storage", |_: Event| {
            with(|page| {
                if page.take_over_set() {
                    page.show_teaching();
                }
            });
        });
    }
    dom::on_id("teach-sheet", "click", |event: MouseEvent| {
        let room = dom::closest(&event, "[data-room]").and_then(|it| it.get_attribute("data-room"));
        if let Some(room) = room {
            enter(&room);
        }
    });
}

/// Shows one room of the sheet.
pub(super) fn enter(room: &str) {
    for name in ROOMS {
        dom::set_hidden(&format!("room-{name}"), name != room);
        let selector = format!("#teach-sheet [data-room='{name}']");
        let button = dom::document().and_then(|d| d.query_selector(&selector).ok().flatten());
        if let Some(button) = button {
            dom::set_attr(&button, "aria-pressed", if name == room { "true" } else { "false" });
        }
    }
    if let Some(sheet) = dom::get::<Element>("teach-sheet") {
        sheet.set_scroll_top(0);
    }
}

/// Closes the sheet.
pub(super) fn close() {
    dom::close_sheet("teach-sheet");
}

impl Page {
    pub(super) fn open_teaching(&mut self) {
        self.take_over_set();
        self.show_teaching();
        dom::open_sheet("teach-sheet");
    }

    /// Takes over what another tab has made of the set, which must not be written over; says
    /// whether there is anything new.
    fn take_over_set(&mut self) -> bool {
        let news = shelf::news(DRAFT);
        if let Some(kept) = &news {
            self.teaching.draft.renew(kept);
        }
        news.is_some()
    }

    /// Shows what the sheet's rooms hold.
    pub(super) fn show_teaching(&self) {
        form::show(self);
        set_room::show(&self.teaching.draft);
        collect::show(&self.teaching.class);
    }

    /// Keeps the set in the making and shows it.
    pub(super) fn keep_draft(&self) {
        shelf::write(DRAFT, &self.teaching.draft.kept());
        // Looked at again, for the browser may have refused to keep it.
        let _ = shelf::read_shared(DRAFT);
        self.show_teaching();
    }
}
