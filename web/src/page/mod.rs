//! The page: shows the app, hears fingers and keys, and makes it sound. All
//! changes go one way: an event becomes an intent, `act` updates the app, and
//! what differs is drawn.

mod added;
mod ahead;
mod audio;
mod bars;
mod bass_field;
mod bring;
mod card;
mod computer_keys;
mod contour;
mod controls;
mod deeds;
mod dom;
mod embed;
mod fit;
mod glossary;
mod keyboard;
mod keys;
mod lasting;
mod lesson;
mod make;
mod midi_in;
mod notice;
mod others;
mod patch;
mod pause;
mod plain;
mod pointer;
mod print;
mod projection;
mod reach;
mod reader;
mod remarks;
mod rescue;
mod rules;
mod share;
mod shelf;
mod side;
mod speech;
mod staff;
mod store;
mod strip;
mod stroke_pad;
mod struck;
mod take;
mod timing;
mod tuning;
mod typing;
mod voices;
mod wire;
mod wishes;
mod would;

pub use audio::schedule;

use crate::app::{App, Effect, Intent, Tag};
use audio::{Follow, Sound};
use reader::say;
use staff::Extent;
use std::cell::RefCell;
use std::collections::VecDeque;
use tastata::pitch::Key;
use tastata::roll::Performance;
use tastata::words::page::said;
use timing::Timing;
use wasm_bindgen::prelude::*;

/// The app and what the browser holds for it.
struct Page {
    app: App,
    sound: Sound,
    staff: staff::StaffView,
    keyboard: keyboard::KeyboardView,
    /// Keys held on a MIDI keyboard.
    held: Vec<Key>,
    /// Keys struck on it since all were last let go.
    together: Vec<Key>,
    /// Exercises, answers, a class.
    teaching: lesson::Teaching,
    /// Whether a drag has left something to keep and to show until it pauses.
    owes: bool,
}

thread_local! {
    static PAGE: RefCell<Option<Page>> = const { RefCell::new(None) };
    static WAITING: RefCell<VecDeque<Task>> = const { RefCell::new(VecDeque::new()) };
}

type Task = Box<dyn FnOnce(&mut Page)>;

/// Opens the page: the sketch in the address, else the one kept, else the example.
#[wasm_bindgen]
pub fn start() {
    rescue::install();
    reader::open();
    let opened = store::open();
    store::remember(opened.app.sketch());
    let page = Page {
        app: opened.app,
        sound: Sound::default(),
        staff: staff::StaffView::default(),
        keyboard: keyboard::KeyboardView::default(),
        held: Vec::new(),
        together: Vec::new(),
        teaching: lesson::Teaching::open(),
        owes: false,
    };
    PAGE.with_borrow_mut(|slot| *slot = Some(page));
    staff::StaffView::fill_signs();
    wishes::fill();
    reach::fill();
    make::fill();
    lesson::fill();
    reader::fill();
    wire::all();
    with(|page| {
        page.app.speak(reader::lang());
        page.show();
    });
    if let Some(linked) = opened.lesson {
        with(|page| page.receive(linked));
    }
    if let Some(notice) = opened.notice {
        notice::say(&notice);
    } else if opened.put_aside {
        notice::offer(store::Aside::ForLink, say(said::CAME_BY_LINK), say(said::BACK_TO_OWN));
    }
    dom::set_attr_of("staff", "data-ready", "true");
}

/// Shows the message that offers the sketch for rescue, as after a failure.
#[wasm_bindgen]
pub fn rescue(detail: &str) {
    rescue::show(detail);
}

/// Runs a task on the page; a task asked for while another runs waits its turn.
fn with(task: impl FnOnce(&mut Page) + 'static) {
    WAITING.with_borrow_mut(|waiting| waiting.push_back(Box::new(task)));
    PAGE.with(|slot| {
        let Ok(mut slot) = slot.try_borrow_mut() else { return };
        let Some(page) = slot.as_mut() else { return };
        while let Some(task) = WAITING.with_borrow_mut(VecDeque::pop_front) {
            task(page);
        }
    });
}

/// Does what the person asked and shows the result.
fn act(intent: Intent) {
    with(move |page| page.act(intent));
}

impl Page {
    fn act(&mut self, intent: Intent) {
        if embed::forbids(&intent) {
            return;
        }
        let dragging = matches!(intent.tag(), Some(Tag::Drag(_)));
        if !dragging {
            self.keep_owed();
        }
        let timing = Timing::open();
        let effects = timing.of("read", || self.app.update(intent));
        for effect in effects {
            match effect {
                Effect::Changed => {
                    notice::close();
                    self.stop();
                    self.sound.tune(&self.app.sketch().sound);
                    self.owes = true;
                    if !dragging {
                        self.keep_owed();
                    }
                }
                Effect::Strike(pitches) => {
                    let keys: Vec<Key> = pitches.into_iter().filter_map(|p| p.key()).collect();
                    if dragging {
                        pause::after_the_frame(move |page| page.strike_keys(&keys));
                    } else {
                        self.strike_keys(&keys);
                    }
                }
                Effect::Say(text) => notice::say(say(text)),
            }
        }
        if dragging {
            self.show_moment();
            pause::wait();
        } else {
            self.show();
        }
    }

    /// Draws what differs from what is on the page.
    fn show(&mut self) {
        let timing = Timing::open();
        projection::show(&self.app);
        // First what takes room from the staff.
        timing.of("lesson", || lesson::show(self));
        self.show_music(Extent::Whole);
        self.show_beside();
    }

    /// Draws what stands beside the music and tells of it.
    fn show_beside(&mut self) {
        let timing = Timing::open();
        timing.of("card", || card::show(&self.app));
        let lines = timing.of("lines", || remarks::lines(&self.app));
        timing.of("remarks", || remarks::show(&self.app, &lines));
        rules::show(&self.app);
        others::show(&self.app);
        tuning::show(&self.app);
        contour::show(&self.app);
        reach::show(&self.app);
        voices::show(&self.app);
        would::show(&self.app);
        strip::show(&self.app, &lines);
        timing.of("wishes", || wishes::show(&self.app));
        bars::show(&self.app, self.sound.is_playing());
        timing.of("bass", || bass_field::show(&self.app));
    }

    /// Draws what is under a finger that drags: the chord, the hands on the keys, and in a line
    /// what is wrong. The rest waits until the drag pauses.
    fn show_moment(&mut self) {
        self.show_music(Extent::Touched);
        let timing = Timing::open();
        timing.of("strip", || strip::show(&self.app, &remarks::lines(&self.app)));
    }

    fn show_music(&mut self, extent: Extent) {
        let timing = Timing::open();
        // A window is not made wider while a finger drags.
        if extent != Extent::Touched {
            self.keyboard.measure();
        }
        timing.of("staff", || self.staff.show(&self.app, extent));
        timing.of("keyboard", || self.keyboard.show(&self.app));
    }

    /// Plays from a chord on, or just that chord.
    fn play(&mut self, from: usize, only: bool) {
        self.settle_up();
        let performance = &self.app.reading().performance;
        let (performance, from, follow) = match only {
            true => (audio::alone(performance, from), 0, Follow::Chord),
            false => (performance.clone(), from, Follow::Piece),
        };
        self.hear(performance, from, follow);
    }

    /// Plays a performance.
    fn hear(&mut self, performance: Performance, from: usize, follow: Follow) {
        let started = self.sound.play(performance, &self.app.sketch().sound, from, follow);
        match started {
            Ok(()) => deeds::watch(),
            Err(why) => notice::say(say(why)),
        }
        bars::show(&self.app, self.sound.is_playing());
    }
}
