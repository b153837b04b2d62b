//! The bass as the harmony sees it: its structural notes in their surroundings.

use super::sonority::Sonority;
use crate::pitch::Pitch;

/// A structural bass note.
pub(super) struct Spot {
    /// Which note of the sketch it is.
    pub(super) note: usize,
    pub(super) pitch: Pitch,
    /// Its place on the line of fifths.
    pub(super) place: i32,
    /// The sonorities a person figured, if any.
    pub(super) given: Option<Vec<Sonority>>,
    /// Which of its run of notes of one class it is, from 0, and how many there are.
    pub(super) run: (usize, usize),
    /// The spots of the nearest notes of another class.
    pub(super) before: Option<usize>,
    pub(super) after: Option<usize>,
}

/// The structural notes in order.
pub(super) struct Line {
    pub(super) spots: Vec<Spot>,
}

impl Line {
    /// A line from notes, pitches and given sonorities. Runs and neighbours are
    /// found in one pass over the notes.
    pub(super) fn new(notes: Vec<(usize, Pitch, Option<Vec<Sonority>>)>) -> Line {
        let mut spots: Vec<Spot> = Vec::with_capacity(notes.len());
        for (note, pitch, given) in notes {
            let place = pitch.class().fifths();
            spots.push(Spot { note, pitch, place, given, run: (0, 1), before: None, after: None });
        }
        let mut start = 0;
        while start < spots.len() {
            let class = spots[start].pitch.class();
            let same = spots[start..].iter().take_while(|spot| spot.pitch.class() == class);
            let count = same.count();
            let end = start + count;
            let after = (end < spots.len()).then_some(end);
            for (at, spot) in spots[start..end].iter_mut().enumerate() {
                spot.run = (at, count);
                spot.before = start.checked_sub(1);
                spot.after = after;
            }
            start = end;
        }
        Line { spots }
    }

    /// The letters a bass moves from one spot to the next, its register aside,
    /// in the range [-3, 3]; `None` at the end.
    pub(super) fn letters(&self, from: usize) -> Option<i32> {
        let (here, next) = (self.spots.get(from)?, self.spots.get(from + 1)?);
        Some(letters(here.pitch, next.pitch))
    }

    /// The letters to the next note of another class, in the range [-3, 3].
    pub(super) fn leaves(&self, at: usize) -> Option<i32> {
        let spot = self.spots.get(at)?;
        Some(letters(spot.pitch, self.spots.get(spot.after?)?.pitch))
    }
}

/// Letters from one pitch to another, reduced to the range [-3, 3].
pub(super) fn letters(from: Pitch, to: Pitch) -> i32 {
    (to.step.index() - from.step.index() + 3).rem_euclid(7) - 3
}
