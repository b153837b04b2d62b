//! Passing a link on: a set to a class, answers to the teacher, comments back. As
//! text, as a QR code, through the device's own ways of sending, or as this page
//! with the thing inside.

use super::super::controls::{press, value_of};
use super::super::reader::{lang, say, tell};
use super::super::{Page, dom, notice, share, shelf, store, take, with};
use crate::app::Desk;
use js_sys::{Function, Object, Reflect};
use tastata::files;
use tastata::words;
use tastata::words::page::said;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlInputElement, HtmlTextAreaElement};

const TEACHER: &str = "tastata.teacher";

/// What is passed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
enum What {
    #[default]
    Set,
    Answers,
    Comments,
}

/// What is being passed on, and its link once there is one.
#[derive(Default)]
pub(super) struct Passing {
    what: What,
    link: String,
}

pub(super) fn wire() {
    press("pass-make", || with(Page::make_link));
    press("pass-copy", || share::copy_link("pass-link", "pass-note"));
    press("pass-share", send);
    press("pass-large", || dom::open_sheet("qr-large"));
    press("qr-large-close", || dom::close_sheet("qr-large"));
    press("pass-save", || {
        with(|page| {
            if let Ok(svg) = files::qr_svg(&store::address(&page.teaching.passing.link)) {
                let _ = take::download("tastata-qr.svg", "image/svg+xml", svg.as_bytes());
            }
        });
    });
    press("pass-page", || {
        with(|page| {
            if share::save_page(&page.teaching.passing.link).is_none() {
                dom::set_text("pass-note", say(said::COULD_NOT_SAVE));
            }
        });
    });
    dom::on_id("pass-base", "change", |_: Event| {
        let base = value_of("pass-base");
        let understood = store::set_base(&base);
        with(move |page| {
            show_link(&page.teaching.passing.link);
            if !understood {
                dom::set_text("pass-base-note", say(said::BASE_WRONG));
            }
        });
    });
    press("pass-close", || dom::close_sheet("pass"));
}

impl Page {
    /// The set in the making, to be handed out.
    pub(super) fn begin_hand_out(&mut self) {
        let link = files::encode_set(&self.teaching.draft.set);
        self.begin(What::Set, say(said::HAND_OUT), "");
        self.pass(link);
    }

    /// The answers, to be handed in under a name.
    pub(super) fn begin_hand_in(&mut self) {
        let Desk::Work(work) = &self.teaching.desk else { return };
        let name = work.student.clone();
        self.begin(What::Answers, say(said::HAND_IN), &name);
    }

    /// The comments, to go back.
    pub(super) fn begin_send_back(&mut self) {
        let name = shelf::read(TEACHER).unwrap_or_default();
        self.begin(What::Comments, say(said::SEND_BACK), &name);
    }

    fn begin(&mut self, what: What, title: &str, name: &str) {
        self.teaching.passing = Passing { what, link: String::new() };
        dom::set_text("pass-title", title);
        dom::set_hidden("pass-who", what == What::Set);
        dom::set_hidden("pass-room", true);
        dom::set_text("pass-note", "");
        if let Some(input) = dom::get::<HtmlInputElement>("pass-name") {
            input.set_value(name);
        }
        dom::open_sheet("pass");
    }

    fn make_link(&mut self) {
        let name = value_of("pass-name").trim().to_owned();
        let link = match (&mut self.teaching.desk, self.teaching.passing.what) {
            (Desk::Work(work), What::Answers) => {
                work.student = name;
                work.handed_in();
                files::encode_hand_in(&work.hand_in())
            }
            (Desk::Review(review), What::Comments) => {
                shelf::write(TEACHER, &name);
                review.send_back(&name)
            }
            _ => return,
        };
        self.keep_work();
        self.pass(link);
        self.show();
    }

    fn pass(&mut self, link: String) {
        show_link(&link);
        self.teaching.passing.link = link;
        dom::set_hidden("pass-room", false);
        dom::set_hidden("pass-share", sharing().is_none());
        if let Some(input) = dom::get::<HtmlInputElement>("pass-base") {
            input.set_value(&store::own_base());
        }
    }
}

/// Shows the link as text and as a QR code.
fn show_link(link: &str) {
    let address = store::address(link);
    if let Some(text) = dom::get::<HtmlTextAreaElement>("pass-link") {
        text.set_value(&address);
    }
    let nowhere = address.starts_with("file:");
    let note = if nowhere { say(said::FROM_FILE_CLASS) } else { "" };
    dom::set_text("pass-base-note", note);
    let svg = if nowhere { Ok(String::new()) } else { files::qr_svg(&address) };
    for id in ["pass-large", "pass-save", "pass-qr"] {
        dom::set_hidden(id, nowhere || svg.is_err());
    }
    match svg {
        Ok(svg) => {
            for id in ["pass-qr", "qr-large-code"] {
                if let Some(holder) = dom::get::<Element>(id) {
                    holder.set_inner_html(&svg);
                }
            }
            let long = tell(said::LINK_LENGTH, [&address.len()]);
            dom::set_text("pass-note", &long);
        }
        Err(error) => dom::set_text("pass-note", &words::qr_error(error, lang())),
    }
}

/// The device's own way of sending, where it has one.
fn sharing() -> Option<Function> {
    let navigator = dom::window()?.navigator();
    Reflect::get(&navigator, &"share".into()).ok()?.dyn_into().ok()
}

fn send() {
    let (Some(send), Some(window)) = (sharing(), dom::window()) else { return };
    let data = Object::new();
    let url = dom::get::<HtmlTextAreaElement>("pass-link").map(|it| it.value()).unwrap_or_default();
    let _ = Reflect::set(&data, &"title".into(), &"Tastata".into());
    let _ = Reflect::set(&data, &"url".into(), &url.into());
    // A person who thinks better of it has done no wrong; nothing is said.
    if send.call1(&window.navigator(), &data).is_err() {
        notice::say(say(said::SHARE_REFUSED));
    }
}
