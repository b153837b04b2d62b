//! One note element as it is read, and its place among the notes of its staff.

use super::super::part::Struck;
use crate::pitch::{Interval, Pitch, Step};

/// How far back the note is sought that a tie comes from.
const TIE_REACH: usize = 64;

/// A note element so far.
#[derive(Debug, Default)]
pub(super) struct NoteDraft {
    step: Option<Step>,
    alter: f64,
    octave: Option<i8>,
    duration: f64,
    pub(super) staff: u8,
    pub(super) chord: bool,
    /// A grace note.
    pub(super) small: bool,
    /// A rest, a cue or unpitched.
    silent: bool,
    tied_on: bool,
    tied_from: bool,
    lyrics: Vec<String>,
}

/// How a note is tied.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Tie {
    /// It begins anew.
    Struck,
    /// It goes on from the one before.
    Held,
}

impl Tie {
    pub(super) fn of(note: &NoteDraft) -> Tie {
        if note.tied_from { Tie::Held } else { Tie::Struck }
    }
}

impl NoteDraft {
    /// An element without elements inside.
    pub(super) fn leaf(&mut self, name: &str, content: &str) {
        match name {
            "step" => self.step = content.chars().next().and_then(Step::from_letter),
            "alter" => self.alter = content.parse().unwrap_or(0.0),
            "octave" => self.octave = content.parse().ok(),
            "duration" => self.duration = content.parse().unwrap_or(0.0),
            "staff" => self.staff = content.parse().unwrap_or(1),
            "chord" => self.chord = true,
            "grace" => self.small = true,
            "rest" | "cue" | "unpitched" => self.silent = true,
            _ => {}
        }
    }

    pub(super) fn tie(&mut self, stops: bool) {
        if stops {
            self.tied_from = true;
        } else {
            self.tied_on = true;
        }
    }

    pub(super) fn lyric(&mut self, line: String) {
        if !line.trim().is_empty() {
            self.lyrics.push(line);
        }
    }

    pub(super) fn duration(&self) -> f64 {
        if self.duration.is_finite() { self.duration } else { 0.0 }
    }

    /// The note as it sounds; `None` for what has no pitch or does not count.
    /// Octaves of transposition are left out: a bass is wanted as it is written.
    pub(super) fn struck(
        &self,
        at: i64,
        end: i64,
        (steps, semitones): (Option<i32>, i32),
        ours: bool,
    ) -> Option<Struck> {
        if self.silent || (self.small && !ours) {
            return None;
        }
        let octave = self.octave.filter(|octave| (0..=9).contains(octave))?;
        let alter = self.alter.round().clamp(-3.0, 3.0) as i8;
        let mut pitch = Pitch::new(self.step?, alter, octave);
        let semitones = semitones.clamp(-127, 127) % 12;
        if semitones != 0 {
            let guessed = (f64::from(semitones) * 7.0 / 12.0).round() as i32;
            let steps = steps.map_or(guessed, |steps| steps.clamp(-127, 127) % 7);
            pitch = pitch + Interval::new(steps, semitones);
        }
        let end = end.max(at + i64::from(!self.small));
        Some(Struck { at, end, pitch, small: self.small, lyrics: self.lyrics.clone() })
    }
}

/// Adds a note to its staff; one that is held lengthens the note it comes from.
pub(super) fn add(notes: &mut Vec<Struck>, note: Struck, tie: Tie) {
    if tie == Tie::Held {
        let mut before = notes.iter_mut().rev().take(TIE_REACH);
        let from = before.find(|it| it.end == note.at && it.pitch == note.pitch && !it.small);
        if let Some(from) = from {
            from.end = note.end;
            return;
        }
    }
    notes.push(note);
}
