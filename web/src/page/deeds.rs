//! What the page does with the chosen chord: hear it, play from it, pin it, say it.

use super::audio::{Follow, Going};
use super::reader::{lang, say, tell};
use super::{Page, audio, dom, notice};
use crate::app::{Intent, Keys, Place};
use std::cell::Cell;
use tastata::frame::{OuterPair, Severity};
use tastata::lesson::outer_voices;
use tastata::pitch::{Key, Pitch};
use tastata::words;
use tastata::words::page::said;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;

impl Page {
    /// Chooses the chord of this index.
    pub(super) fn choose_chord(&mut self, chord: usize) {
        let place = self.app.reading().harmony.chords.get(chord);
        let place = place.map(|c| Place { note: c.note, stage: c.stage });
        if place.is_some() && place != self.app.view().selected {
            self.act(Intent::Select(place));
        }
    }

    /// Plays from the chosen chord, or from the start; stops if it plays.
    pub(super) fn play_or_stop(&mut self) {
        if self.sound.is_playing() {
            self.stop();
        } else {
            self.play(0, false);
        }
    }

    /// Plays from the chosen chord to the end; stops if it plays.
    pub(super) fn play_from_chosen(&mut self) {
        if self.sound.is_playing() {
            self.stop();
        } else {
            let from = self.app.selected_chord().unwrap_or(0);
            self.play(from, false);
        }
    }

    /// Goes to the next chord (1) or the one before (-1) and rolls it.
    pub(super) fn step_and_hear(&mut self, by: i32) {
        self.act(Intent::Step(by));
        self.hear_chosen();
    }

    /// The first press marks where repeating begins, the second where it ends and
    /// starts it, the third stops it.
    pub(super) fn round_pressed(&mut self) {
        let Some(here) = self.app.selected_chord() else { return };
        match self.app.view().round {
            None => self.act(Intent::Round(Some((here, here)))),
            Some((from, to)) if from == to && here != from => {
                self.act(Intent::Round(Some((from.min(here), from.max(here)))));
                self.play_round();
            }
            Some(_) => {
                self.act(Intent::Round(None));
                self.stop();
            }
        }
    }

    /// Plays the chords that are repeated, over and over.
    fn play_round(&mut self) {
        let Some((from, to)) = self.app.view().round else { return };
        let performance = audio::round(&self.app.reading().performance, from, to);
        self.hear(performance, 0, Follow::Piece);
    }

    /// Rolls the chosen chord alone.
    pub(super) fn hear_chosen(&mut self) {
        if let Some(chord) = self.app.selected_chord() {
            self.play(chord, true);
        }
    }

    /// Plays the two voices of the remark that is explained, slowly.
    pub(super) fn hear_told(&mut self) {
        let Some(told) = self.app.view().told else { return };
        let performance = outer_voices(self.app.reading(), told.from, told.to);
        self.hear(performance, 0, Follow::Piece);
    }

    pub(super) fn pin_chosen(&mut self) {
        if let Some(chord) = self.app.selected_chord() {
            self.act(Intent::Pin(chord));
        }
    }

    /// A key was pressed: it sounds, and does what keys do.
    pub(super) fn press(&mut self, key: Key) {
        self.strike_keys(&[key]);
        // Where keys are only listened to there is nothing to be drawn anew.
        if !self.along_down(key) && self.app.view().keys != Keys::Listen {
            self.keyboard.is_played = true;
            self.act(Intent::Press(key));
            self.keyboard.is_played = false;
        }
    }

    /// A key that cannot be held was pressed: it goes down and comes up at once.
    pub(super) fn tap(&mut self, key: Key) {
        self.press(key);
        self.along_up(key);
    }

    /// A key of a MIDI keyboard went down.
    pub(super) fn midi_down(&mut self, key: Key) {
        if self.held.is_empty() {
            self.together.clear();
        }
        if !self.held.contains(&key) {
            self.held.push(key);
        }
        if !self.together.contains(&key) {
            self.together.push(key);
        }
        if self.app.view().keys == Keys::Figures && !self.plays_along() {
            // What is struck before all is let go is one chord, however it is rolled.
            self.strike_keys(&[key]);
            self.act(Intent::PlayChord(self.together.clone()));
        } else {
            self.press(key);
        }
        self.hold_lights();
    }

    /// A key of a MIDI keyboard came up.
    pub(super) fn midi_up(&mut self, key: Key) {
        self.held.retain(|&held| held != key);
        self.along_up(key);
        let named = self.app.view().keys == Keys::Figures && self.app.played_figures().is_some();
        if self.held.is_empty() && named && !self.plays_along() {
            self.act(Intent::Step(1));
        }
        self.hold_lights();
    }

    pub(super) fn strike_keys(&mut self, keys: &[Key]) {
        self.sound.strike(keys.iter().copied(), &self.app.sketch().sound);
    }

    pub(super) fn strike(&mut self, pitch: Pitch) {
        if let Some(key) = pitch.key() {
            self.strike_keys(&[key]);
        }
    }

    pub(super) fn stop(&mut self) {
        // Every edit stops what plays; in silence there is nothing to put back.
        if self.sound.is_playing() {
            self.sound.stop();
            self.after_playing();
        }
    }

    /// Renders ahead; when all has sounded, puts the page back.
    pub(super) fn pump(&mut self) {
        let was_playing = self.sound.is_playing();
        match self.sound.pump() {
            Going::On => {}
            Going::Over if !was_playing => {}
            Going::Over => match self.app.view().round {
                Some((from, to)) if from != to => self.play_round(),
                _ => self.after_playing(),
            },
            Going::Interrupted => {
                self.after_playing();
                notice::say(say(said::INTERRUPTED));
            }
        }
    }

    /// Shows what is heard right now; says whether to look again.
    pub(super) fn light(&mut self) -> bool {
        let Some(moment) = self.sound.moment() else { return false };
        self.staff.follow(&self.app, moment.chord, moment.leads);
        if moment.chord.is_some() {
            self.keyboard.show_chord(&self.app, moment.chord);
        }
        self.keyboard.light(&moment.keys);
        true
    }

    fn after_playing(&mut self) {
        self.keyboard.light(&[]);
        self.staff.follow(&self.app, None, false);
        self.keyboard.show(&self.app);
        super::bars::show(&self.app, false);
    }

    /// Says the chosen chord and its faults to a screen reader.
    pub(super) fn announce_chosen(&self) {
        let Some(index) = self.app.selected_chord() else { return };
        let reading = self.app.reading();
        let Some(chord) = reading.harmony.chords.get(index) else { return };
        let soprano =
            reading.frame.soprano.get(index).map(|p| lang().pitch(*p)).unwrap_or_default();
        let figures = words::figures_spoken(&chord.figures, lang());
        let mut text =
            tell(said::CHORD_SPOKEN, [&(index + 1), &lang().pitch(chord.bass), &figures, &soprano]);
        if let Some(motion) = index.checked_sub(1).and_then(|it| reading.frame.motions.get(it)) {
            let number = reading.frame.soprano.get(index).map_or(0, |soprano| {
                OuterPair { bass: chord.bass, soprano: *soprano }.interval().simple_number()
            });
            let motion = words::motion_name(*motion, number, lang());
            text += &format!(" {}", tell(said::MOTION_SPOKEN, [&motion]));
        }
        for fault in reading.frame.faults.iter().filter(|f| f.from <= index && index <= f.to) {
            let kind = match fault.severity {
                Severity::Fault => say(said::FAULT),
                Severity::Caution => say(said::CAUTION),
            };
            text += &format!(" {kind}{}.", words::fault(fault, lang()));
        }
        notice::announce(&text);
    }
}

thread_local! {
    static WATCHING: Cell<bool> = const { Cell::new(false) };
}

/// Looks at the sound once a frame for as long as it plays.
pub(super) fn watch() {
    if !WATCHING.replace(true) {
        look_next_frame();
    }
}

fn look_next_frame() {
    let look = Closure::once_into_js(|| {
        super::with(|page| {
            if page.light() {
                look_next_frame();
            } else {
                WATCHING.set(false);
            }
        });
    });
    if let Some(window) = dom::window() {
        let _ = window.request_animation_frame(look.unchecked_ref());
    }
}
