//! Undo and redo: whole sketches, streams of changes kept as one step.

use super::Tag;
use tastata::sketch::Sketch;

/// Steps kept; older ones are forgotten.
const DEPTH: usize = 300;

/// The sketches before and after the present one.
#[derive(Default)]
pub(super) struct History {
    past: Vec<Sketch>,
    future: Vec<Sketch>,
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
    pub(super) fn record(&mut self, before: Sketch, tag: Option<Tag>) {
        self.future.clear();
        let goes_on = tag.is_some() && tag == self.stream && !self.past.is_empty();
        self.stream = tag;
        if goes_on {
            return;
        }
        self.past.push(before);
        if self.past.len() > DEPTH {
            self.past.remove(0);
        }
    }

    /// Ends a stream: the next change is a step of its own.
    pub(super) fn settle(&mut self) {
        self.stream = None;
    }

    pub(super) fn undo(&mut self, present: &Sketch) -> Option<Sketch> {
        self.settle();
        let sketch = self.past.pop()?;
        self.future.push(present.clone());
        Some(sketch)
    }

    pub(super) fn redo(&mut self, present: &Sketch) -> Option<Sketch> {
        self.settle();
        let sketch = self.future.pop()?;
        self.past.push(present.clone());
        Some(sketch)
    }
}
