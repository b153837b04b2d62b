//! Where in time a part has got to.

use super::super::part::QUARTER;
use super::note::NoteDraft;

/// More divisions than any program writes, and a limit to what can be added up.
const MAX_DIVISIONS: f64 = 1e6;
/// The longest note, in quarter notes: longer than any measure.
const MAX_QUARTERS: f64 = 1e4;

/// The place in time, in ticks.
#[derive(Debug)]
pub(super) struct Cursor {
    divisions: f64,
    start: i64,
    now: i64,
    furthest: i64,
    /// Where the last note began, which the rest of its chord shares.
    last: i64,
    /// How far the figures before the next note have got.
    figured: i64,
    /// Steps (if said) and semitones from written to sounding pitch.
    pub(super) transposition: (Option<i32>, i32),
}

impl Default for Cursor {
    fn default() -> Cursor {
        Cursor {
            divisions: 1.0,
            start: 0,
            now: 0,
            furthest: 0,
            last: 0,
            figured: 0,
            transposition: (None, 0),
        }
    }
}

impl Cursor {
    pub(super) fn open_measure(&mut self) {
        (self.now, self.furthest, self.figured) = (self.start, self.start, 0);
    }

    pub(super) fn close_measure(&mut self) {
        self.start = self.furthest.max(self.now);
        (self.now, self.figured) = (self.start, 0);
    }

    pub(super) fn divide(&mut self, content: &str) {
        if let Ok(divisions) = content.parse::<f64>()
            && divisions > 0.0
            && divisions <= MAX_DIVISIONS
        {
            self.divisions = divisions;
        }
    }

    pub(super) fn now(&self) -> i64 {
        self.now
    }

    fn ticks(&self, duration: f64) -> i64 {
        let quarters = (duration / self.divisions).clamp(0.0, MAX_QUARTERS);
        (quarters * QUARTER as f64).round() as i64
    }

    /// Moves without a note; never before the measure.
    pub(super) fn shift(&mut self, duration: f64, direction: f64) {
        let ticks = self.ticks(duration);
        self.now = if direction < 0.0 {
            (self.now - ticks).max(self.start)
        } else {
            self.now.saturating_add(ticks)
        };
        self.furthest = self.furthest.max(self.now);
        self.figured = 0;
    }

    /// Where figures stand that last this long.
    pub(super) fn figure(&mut self, duration: f64) -> i64 {
        let at = self.now.saturating_add(self.figured);
        self.figured = self.figured.saturating_add(self.ticks(duration));
        at
    }

    /// Begin and end of a note, and on past it.
    pub(super) fn note(&mut self, note: &NoteDraft) -> (i64, i64) {
        if note.small {
            return (self.now, self.now);
        }
        let at = if note.chord { self.last } else { self.now };
        let end = at.saturating_add(self.ticks(note.duration()));
        if !note.chord {
            (self.last, self.now, self.figured) = (at, end, 0);
        }
        self.furthest = self.furthest.max(self.now);
        (at, end)
    }
}
