//! Undo and redo: every sketch that was, streams of changes kept as one step.

use super::Tag;
use std::collections::VecDeque;
use tastata::files::{decode, encode};
use tastata::sketch::Sketch;

/// Bytes that the past may take; beyond, the oldest steps are forgotten. A short piece
/// takes some tens of bytes a step, so this is a day's work.
const MOST_BYTES: usize = 16 * 1024 * 1024;

/// A sketch put away: as its link, which is a hundredth of its size in memory, or whole
/// where it is too long for one.
enum Kept {
    Packed(String),
    Whole(Box<Sketch>),
}

impl Kept {
    fn of(sketch: &Sketch) -> Kept {
        let packed = encode(sketch);
        // Nothing may be lost by it, so it is opened before the sketch is let go.
        if decode(&packed).as_ref() == Ok(sketch) {
            Kept::Packed(packed)
        } else {
            Kept::Whole(Box::new(sketch.clone()))
        }
    }

    fn open(self) -> Option<Sketch> {
        match self {
            Kept::Packed(packed) => decode(&packed).ok(),
            Kept::Whole(sketch) => Some(*sketch),
        }
    }

    fn bytes(&self) -> usize {
        match self {
            Kept::Packed(packed) => packed.len() + size_of::<Kept>(),
            Kept::Whole(sketch) => 200 * (sketch.notes.len() + 4),
        }
    }
}

/// The sketches before and after the present one.
#[derive(Default)]
pub(super) struct History {
    past: VecDeque<Kept>,
    past_bytes: usize,
    future: Vec<Kept>,
    stream: Option<Tag>,
}

impl History {
    pub(super) fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    pub(super) fn can_redo(&self) -> bool {
        !self.future.is_empty()
    }

    /// Remembers the sketch as it was before a change.
    pub(super) fn record(&mut self, before: &Sketch, tag: Option<Tag>) {
        self.future.clear();
        let goes_on = tag.is_some() && tag == self.stream && !self.past.is_empty();
        self.stream = tag;
        if !goes_on {
            self.put_away(before);
        }
    }

    /// Ends a stream: the next change is a step of its own.
    pub(super) fn settle(&mut self) {
        self.stream = None;
    }

    pub(super) fn undo(&mut self, present: &Sketch) -> Option<Sketch> {
        self.settle();
        let kept = self.past.pop_back()?;
        self.past_bytes = self.past_bytes.saturating_sub(kept.bytes());
        let sketch = kept.open()?;
        self.future.push(Kept::of(present));
        Some(sketch)
    }

    pub(super) fn redo(&mut self, present: &Sketch) -> Option<Sketch> {
        self.settle();
        let sketch = self.future.pop()?.open()?;
        self.put_away(present);
        Some(sketch)
    }

    fn put_away(&mut self, sketch: &Sketch) {
        let kept = Kept::of(sketch);
        self.past_bytes += kept.bytes();
        self.past.push_back(kept);
        while self.past_bytes > MOST_BYTES {
            let Some(oldest) = self.past.pop_front() else { break };
            self.past_bytes = self.past_bytes.saturating_sub(oldest.bytes());
        }
    }
}
