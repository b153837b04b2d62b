//! Teaching on the page: what a link brings goes on the desk above the staff; the
//! teacher's sheet makes sets and collects answers; one sheet passes links on; a
//! player is followed, and drills are asked.

mod along;
mod collect;
mod desk;
mod figure_keys;
mod find;
mod form;
mod pass;
mod practise;
mod report;
mod set_room;
mod sheet;
mod thumb;

use super::reader::{self, say};
pub(super) use desk::{show, task};

use super::{Page, dom, notice, shelf, store};
use crate::app::{App, Class, Desk, Draft, Intent, Keys, Play, PutBy, Reader, Review, Work};
use pass::Passing;
use tastata::files::{self, Linked};
use tastata::lesson::{Ask, Exercise, Speech};
use tastata::pitch::Key;
use tastata::words::page::said;

/// What the page holds for teaching.
#[derive(Default)]
pub(super) struct Teaching {
    pub(super) desk: Desk,
    draft: Draft,
    class: Class,
    /// The person's own sketch, while something else is on the desk.
    own: Option<PutBy>,
    passing: Passing,
    /// Whether the model stands on the staff in place of the work.
    model_shown: bool,
    /// Somebody playing along, the keys struck since the cursor last moved, and
    /// whether it waits for the soprano on a keyboard that shows only a part.
    play: Option<Play>,
    struck: Vec<Key>,
    lingers: bool,
}

impl Teaching {
    /// What was kept in this browser.
    pub(super) fn open() -> Teaching {
        Teaching { draft: sheet::kept(), ..Teaching::default() }
    }
}

/// Fills the choices.
pub(super) fn fill() {
    form::fill();
    find::fill();
    figure_keys::fill();
    practise::fill();
    set_room::fill();
}

/// What is said of chosen things, when they are chosen again in another language.
pub(super) fn say_anew() {
    form::say_asked();
}

pub(super) fn wire() {
    desk::wire();
    along::wire();
    practise::wire();
    find::wire();
    figure_keys::wire();
    report::wire();
    sheet::wire();
    form::wire();
    set_room::wire();
    collect::wire();
    pass::wire();
    thumb::wire();
}

impl Page {
    /// Opens what a link holds. The person's own sketch is put by, never overwritten.
    pub(super) fn receive(&mut self, linked: Linked) {
        let desk = match linked {
            Linked::Sketch(sketch) => {
                self.leave_desk();
                self.act(Intent::Open(Box::new(sketch)));
                return;
            }
            Linked::Set(set) => Work::start(set).map(|mut work| {
                if let Some(kept) = shelf::read_shared(&work.name()) {
                    work.resume(&kept);
                }
                Desk::Work(Box::new(work))
            }),
            Linked::HandIn(hand_in) => Review::of(hand_in).map(|it| Desk::Review(Box::new(it))),
            Linked::Commented(commented) => {
                Review::back(commented).map(|it| Desk::Review(Box::new(it)))
            }
        };
        let Some(desk) = desk else {
            notice::say(say(said::EMPTY_SET));
            return;
        };
        self.put_on_desk(desk);
    }

    fn put_on_desk(&mut self, desk: Desk) {
        if matches!(self.teaching.desk, Desk::Own) {
            self.teaching.own = Some(self.app.put_by());
        }
        self.teaching.desk = desk;
        store::put_inside(&self.inside());
        self.lay_out();
    }

    /// Shows the exercise on the desk afresh.
    fn lay_out(&mut self) {
        self.stop();
        self.teaching.model_shown = false;
        self.teaching.play = None;
        let speech = self.asked_speech();
        reader::heed(self, speech);
        match &mut self.teaching.desk {
            Desk::Own => {}
            Desk::Work(work) => {
                thumb::fold(work.is_begun());
                work.arrive(js_sys::Date::now());
                self.app.present(work.sketch(), Some(work.veil()));
                let keys = keys_for(work.exercise(), work.key().is_some());
                self.app.update(Intent::Keys(keys));
                if keys == Keys::Figures {
                    self.choose_chord(0);
                }
            }
            Desk::Review(review) => self.app.present(review.sketch(), review.veil()),
            Desk::Practice(_) => self.lay_out_practice(),
        }
        self.sound.tune(&self.app.sketch().sound);
        self.show();
    }

    /// Puts what is on the desk away and brings the person's own sketch back.
    pub(super) fn leave_desk(&mut self) {
        if matches!(self.teaching.desk, Desk::Own) {
            return;
        }
        self.stop();
        self.teaching.desk = Desk::Own;
        self.teaching.play = None;
        match self.teaching.own.take() {
            Some(own) => self.app.take_up(own),
            None => self.app.present(App::opening().sketch().clone(), None),
        }
        reader::heed(self, Speech::default());
        self.sound.tune(&self.app.sketch().sound);
        store::forget_address();
        store::put_inside(&self.inside());
        self.show();
    }

    /// The language that a teacher asks a student's page for.
    fn asked_speech(&self) -> Speech {
        match &self.teaching.desk {
            Desk::Work(work) => work.set().speech,
            Desk::Review(review) if review.reader() == Reader::Student => {
                review.commented().hand_in.set.speech
            }
            Desk::Own | Desk::Review(_) | Desk::Practice(_) => Speech::default(),
        }
    }

    /// The link of what a copy of the page should open with: the sketch, or what is
    /// on the desk as it came.
    pub(super) fn inside(&self) -> String {
        match &self.teaching.desk {
            Desk::Own => files::encode(self.app.sketch()),
            Desk::Practice(_) => {
                let own = self.teaching.own.as_ref().map(PutBy::sketch);
                files::encode(own.unwrap_or(self.app.sketch()))
            }
            Desk::Work(work) => files::encode_set(work.set()),
            Desk::Review(review) => match review.reader() {
                Reader::Teacher => files::encode_hand_in(&review.commented().hand_in),
                Reader::Student => files::encode_commented(review.commented()),
            },
        }
    }

    /// Keeps a change: of the own sketch, of the work; of answers that are only
    /// looked at nothing is kept.
    pub(super) fn keep(&mut self) {
        match &mut self.teaching.desk {
            Desk::Own => store::keep(self.app.sketch()),
            Desk::Work(_) if self.teaching.model_shown => {}
            Desk::Work(work) => {
                work.changed(self.app.sketch(), js_sys::Date::now());
                self.keep_work();
            }
            Desk::Review(_) | Desk::Practice(_) => {}
        }
    }

    /// Keeps the work in this browser and shows what may be shown of its check.
    fn keep_work(&mut self) {
        let Desk::Work(work) = &self.teaching.desk else { return };
        let shown = self.teaching.model_shown;
        let kept = work.kept();
        let link = kept.split(' ').next().unwrap_or_default();
        super::rescue::remember(&store::address(link));
        if shelf::write_shared(&work.name(), &kept).is_some() {
            notice::say(say(said::WORK_IN_OTHER_TAB));
        }
        let veil = work.veil();
        if !shown {
            self.app.veil(Some(veil));
        }
    }
}

/// What the keys do at the start of an exercise.
fn keys_for(exercise: &Exercise, in_a_key: bool) -> Keys {
    match exercise.asks.first() {
        Some(Ask::Keys(_)) if in_a_key => Keys::AddBass,
        Some(Ask::Figures(_)) => Keys::Figures,
        Some(Ask::Soprano { .. }) => Keys::Soprano,
        Some(Ask::Handfuls { .. }) => Keys::Handful,
        Some(Ask::Finish(_)) => Keys::AddBass,
        _ => Keys::Listen,
    }
}

/// A list's new line with a button that goes to a chord, if it has one.
fn line(text: &str, chord: Option<usize>) -> Option<web_sys::Element> {
    let item = dom::make("li", "")?;
    match chord {
        Some(chord) => {
            let button = dom::text("button", "", text)?;
            dom::set_attr(&button, "data-chord", &chord.to_string());
            let _ = item.append_child(&button);
        }
        None => {
            let _ = item.append_child(&*dom::text("span", "", text)?);
        }
    }
    Some(item)
}
