//! Playing along on the keys of the screen, a computer or a MIDI keyboard: the
//! cursor goes on when a chord is there, and each move is told.

use super::super::controls::press;
use super::super::keyboard::outer_keys;
use super::super::reader::{lang, say, tell};
use super::super::{Page, dom, notice, with};
use crate::app::{Desk, Intent, Play};
use tastata::frame::Severity;
use tastata::lesson::{Feedback, KeyEvent, Telling};
use tastata::phrase;
use tastata::pitch::Key;
use tastata::words;
use tastata::words::page::said;

pub(super) fn wire() {
    press("along-back", || {
        with(|page| {
            if let Some(play) = &mut page.teaching.play {
                play.back();
            }
            page.teaching.struck.clear();
            page.teaching.lingers = false;
            page.follow_player();
        });
    });
    press("along-keep", || with(Page::keep_played));
    press("along-stop", || {
        with(|page| {
            page.teaching.play = None;
            page.show();
        });
    });
}

impl Page {
    /// Plays along with the piece on the page, or with the exercise on the desk.
    pub(super) fn begin_along(&mut self) {
        let play = match &self.teaching.desk {
            Desk::Work(work) => work.to_play(),
            Desk::Practice(practice) => practice.to_play(),
            Desk::Own | Desk::Review(_) => Play::of(self.app.sketch()),
        };
        if play.is_none() {
            notice::say(say(said::NO_CHORD_YET));
        }
        self.stop();
        self.teaching.play = play;
        self.teaching.struck.clear();
        self.teaching.lingers = false;
        self.follow_player();
    }

    /// A key went down; says whether it was taken as playing along.
    pub(in super::super) fn along_down(&mut self, key: Key) -> bool {
        self.along(KeyEvent::Down(key))
    }

    /// A key came up.
    pub(in super::super) fn along_up(&mut self, key: Key) {
        self.along(KeyEvent::Up(key));
    }

    /// The pedal went down or came up.
    pub(in super::super) fn along_pedal(&mut self, down: bool) {
        self.along(if down { KeyEvent::PedalDown } else { KeyEvent::PedalUp });
    }

    /// Whether keys are taken as playing along.
    pub(in super::super) fn plays_along(&self) -> bool {
        self.teaching.play.is_some()
    }

    fn along(&mut self, event: KeyEvent) -> bool {
        let Some(play) = &mut self.teaching.play else { return false };
        let completed = play.hear(event);
        if let KeyEvent::Down(key) = event {
            self.teaching.struck.push(key);
        }
        if completed.is_some() {
            let faults = play.last_move();
            let told: Vec<String> =
                faults.iter().map(|fault| words::fault(fault, lang())).collect();
            notice::announce(&told.join(". "));
        }
        let was_lingering = self.teaching.lingers;
        self.teaching.lingers = (completed.is_some() || was_lingering) && self.soprano_is_to_come();
        if (completed.is_some() || was_lingering) && !self.teaching.lingers {
            self.go_on_along();
        } else {
            show(self);
        }
        if matches!(event, KeyEvent::Up(_)) {
            self.look_along();
        }
        // What is struck after the last chord was there still belongs to it.
        let done = self.teaching.play.as_ref().is_some_and(Play::is_done);
        if done && completed.is_none() && matches!(event, KeyEvent::Down(_)) {
            self.follow_player();
            self.played_through();
        }
        true
    }

    /// Moves the cursor on.
    fn go_on_along(&mut self) {
        self.teaching.struck.clear();
        self.teaching.lingers = false;
        let done = self.teaching.play.as_ref().is_some_and(Play::is_done);
        self.follow_player();
        if done {
            self.played_through();
        }
    }

    /// Whether the chord on the keys is complete, but its soprano, marked out of
    /// sight of the bass, was not struck yet. Where all keys are in view, whoever
    /// wants it on top strikes it anyway.
    fn soprano_is_to_come(&self) -> bool {
        let Some(play) = &self.teaching.play else { return false };
        let last = play.progress().0.checked_sub(1);
        self.keyboard.is_narrow(&self.app)
            && !self.shows_only_what_is_played()
            && outer_keys(&self.app).is_some_and(|(chord, _, soprano)| {
                Some(chord) == last && !self.teaching.struck.contains(&soprano)
            })
    }

    /// Brings into view what is to be struck next: the bass, then what is above it.
    fn look_along(&mut self) {
        if !self.keyboard.is_narrow(&self.app) || self.shows_only_what_is_played() {
            return;
        }
        let handful = self
            .app
            .selected_chord()
            .and_then(|chord| self.app.reading().hands.handfuls.get(chord));
        let keys = handful.into_iter().flat_map(|it| it.left.iter().chain(&it.right));
        let mut rest = keys.filter_map(|pitch| pitch.key());
        let struck = &self.teaching.struck;
        if let Some(next) = rest.find(|key| !struck.contains(key)) {
            self.keyboard.bring(next, &self.app);
        }
    }

    /// Puts the cursor on the chord that is waited for.
    fn follow_player(&mut self) {
        let Some(play) = &self.teaching.play else {
            self.show();
            return;
        };
        let (at, count) = play.progress();
        if self.shows_only_what_is_played() {
            let played = play.played_alone();
            self.app.present(played, None);
            self.show();
        } else if at < count {
            self.choose_chord(at);
            self.show();
            self.look_along();
        } else {
            self.show();
        }
    }

    /// Whether the staff shows the piece only as far as it was played.
    fn shows_only_what_is_played(&self) -> bool {
        match &self.teaching.desk {
            Desk::Work(work) => work.key().is_some(),
            Desk::Practice(practice) => practice.is_untold(),
            Desk::Own | Desk::Review(_) => false,
        }
    }

    /// All chords are played.
    fn played_through(&mut self) {
        match &self.teaching.desk {
            Desk::Work(work) if work.key().is_some() => self.keep_played_in_key(),
            Desk::Practice(_) => self.practised_through(),
            _ => {}
        }
    }

    /// Keeps what was played in the key that is worked in; the player may go on.
    fn keep_played_in_key(&mut self) {
        let (Desk::Work(work), Some(play)) = (&mut self.teaching.desk, &self.teaching.play) else {
            return;
        };
        work.changed(&play.played_alone(), js_sys::Date::now());
        self.keep_work();
    }

    /// Takes what was played into the sketch; undo brings back what was there.
    fn keep_played(&mut self) {
        let Some(play) = self.teaching.play.take() else { return };
        if let Desk::Work(work) = &mut self.teaching.desk
            && work.key().is_some()
        {
            work.changed(&play.played_alone(), js_sys::Date::now());
            self.keep_work();
            self.show();
            notice::say(say(said::KEPT_IN_KEY));
            return;
        }
        self.act(Intent::Open(Box::new(play.played())));
        notice::say(say(said::KEPT_IN_PIECE));
    }
}

/// Shows where the player is, or takes the bar away.
pub(super) fn show(page: &Page) {
    dom::set_hidden("along", page.teaching.play.is_none());
    dom::mark_page("accompanied", page.teaching.play.is_some());
    let Some(play) = &page.teaching.play else { return };
    // Where the teacher wants no help, only the place is told.
    let quiet = match &page.teaching.desk {
        Desk::Work(work) => work.exercise().feedback == Feedback::AtEnd,
        Desk::Own | Desk::Review(_) | Desk::Practice(_) => false,
    };
    let names_notes = match &page.teaching.desk {
        Desk::Work(work) => work.exercise().telling == Telling::AtOnce,
        Desk::Own | Desk::Review(_) | Desk::Practice(_) => true,
    };
    let (at, count) = play.progress();
    let place = match play.is_done() {
        true if quiet => say(said::ALL_PLAYED).to_owned(),
        true => match play.faults() {
            0 => say(said::PLAYED_CLEAN).to_owned(),
            1 => say(said::PLAYED_ONE).to_owned(),
            n => tell(said::PLAYED_MORE, [&n]),
        },
        false => tell(said::CHORD_OF, [&(at + usize::from(!page.teaching.lingers)), &count]),
    };
    let waiting = match names_notes {
        true => words::waiting(play.waiting(), play.home(), lang()),
        false => words::waiting_untold(play.waiting(), play.home(), lang()),
    };
    let waiting = match page.teaching.lingers {
        true => lang()
            .say(phrase!(
                "The chord is there: now the soprano, marked S.",
                "L’accordo c’è: ora il soprano, segnato S.",
                "Der Akkord ist da: jetzt der Sopran, mit S bezeichnet.",
                "L’accord y est : maintenant le soprano, marqué S.",
                "El acorde está: ahora el soprano, marcado S."
            ))
            .to_owned(),
        false => waiting,
    };
    let said = if quiet || play.is_done() { place } else { format!("{place} {waiting}") };
    dom::set_text("along-said", &said);
    let faults = if quiet { Vec::new() } else { play.last_move() };
    let told = faults.iter().map(|fault| {
        let sign = if fault.severity == Severity::Fault { "✕" } else { "!" };
        format!("{sign} {}", words::fault(fault, lang()))
    });
    dom::set_text("along-faults", &told.collect::<Vec<_>>().join("  "));
    super::super::controls::enable("along-back", at > 0);
    super::super::controls::enable("along-keep", at > 0);
    let kept = !matches!(page.teaching.desk, Desk::Practice(_) | Desk::Review(_));
    dom::set_hidden("along-keep", !kept);
}
