//! What has been struck so far, on one clock: strikes become touches here, and at the end
//! every finger lifts.

use super::hold::{self, Open, Span};
use super::line::{Fingered, Strike};
use super::wishes::Held;
use super::{Added, Micros, Performance, Touch};
use crate::hands::{Hand, HandWishes};
use crate::pitch::Key;

/// Silence of the instrument after the last key-up, in microseconds.
const DECAY: u64 = 1_500_000;

/// A performance in the making.
pub(super) struct Tape<'a> {
    held: Held,
    hands: &'a HandWishes,
    open: Vec<Open>,
    added: Vec<Added>,
    spans: Vec<Span>,
    dwells: Vec<Micros>,
    now: u64,
}

impl Tape<'_> {
    /// Nothing yet, to be held in this way by these hands.
    pub(super) fn new(held: Held, hands: &HandWishes) -> Tape<'_> {
        let (open, added, spans, dwells) = Default::default();
        Tape { held, hands, open, added, spans, dwells, now: 0 }
    }

    /// The keys that stay down into a chord which needs these notes.
    pub(super) fn still_down(&self, chord: usize, needs: &[Fingered]) -> Vec<(Hand, Key)> {
        match self.held {
            Held::Kept => {
                let before = self.spans.last().map(|span| span.kept.as_slice());
                hold::still_down(&self.open, chord, before.unwrap_or_default(), needs, self.hands)
            }
            Held::Collected | Held::LetGo => Vec::new(),
        }
    }

    /// Takes down a chord's strikes, from now on.
    pub(super) fn record(&mut self, chord: usize, kept: Vec<(Hand, Key)>, strikes: &[Strike]) {
        let starts = Micros(self.now);
        for strike in strikes {
            let touch = Touch {
                key: strike.note.key,
                pitch: strike.note.pitch,
                hand: strike.note.hand,
                chord,
                down: Micros(self.now),
                up: Micros(self.now),
                velocity: strike.velocity,
                kind: strike.kind,
            };
            self.added.extend(strike.why.map(|why| Added { touch: self.open.len(), why }));
            self.open.push(Open { touch, brief: strike.brief });
            self.now += strike.wait;
        }
        self.spans.push(Span { starts, leaves: Micros(self.now), kept });
    }

    /// The chord is left after `rest` if nothing was struck in it, and silence follows it.
    pub(super) fn leave(&mut self, rest: u64, silence: u64) {
        self.dwells.push(Micros(rest));
        if let Some(span) = self.spans.last_mut() {
            if span.starts.0 == self.now {
                self.now += rest.max(1);
            }
            span.leaves = Micros(self.now);
        }
        self.now += silence;
    }

    /// Every finger lifts.
    pub(super) fn end(self) -> Performance {
        let touches = hold::lift(&self.open, &self.spans, self.held);
        let starts = self.spans.iter().map(|span| span.starts).collect();
        debug_assert!(touches.windows(2).all(|two| two[0].down < two[1].down));
        let decay = if touches.is_empty() { 0 } else { DECAY };
        let end = Micros(self.now + decay);
        Performance { touches, starts, dwells: self.dwells, added: self.added, end }
    }
}
