//! Playing along: the page follows the player from chord to chord and never
//! hurries; what is missing, what does not belong and what the move broke is told.

use tastata::frame::{Fault, Severity};
use tastata::lesson::{Gather, KeyEvent, Waiting};
use tastata::pitch::Tonality;
use tastata::reading::read;
use tastata::sketch::Sketch;

/// A player's way through a piece.
#[derive(Clone, Debug)]
pub struct Play {
    gather: Gather,
    sketch: Sketch,
    home: Tonality,
    count: usize,
    waiting: Waiting,
}

impl Play {
    /// The way through a sketch, nothing played yet; none where it has no chords.
    pub fn of(sketch: &Sketch) -> Option<Play> {
        let harmony = read(sketch).harmony;
        let count = harmony.chords.len();
        let gather = Gather::new(&harmony.chords);
        let (sketch, home) = (sketch.clone(), harmony.home);
        (count > 0).then_some(Play { gather, sketch, home, count, waiting: Waiting::Rest })
    }

    /// Takes one event in; gives the chord that it completed.
    pub fn hear(&mut self, event: KeyEvent) -> Option<usize> {
        let heard = self.gather.hear(event);
        self.waiting = heard.waiting;
        heard.completed
    }

    /// Goes back to the chord before, to play it again.
    pub fn back(&mut self) {
        self.gather.back_to(self.gather.complete().saturating_sub(1));
        self.waiting = Waiting::Rest;
    }

    /// How many chords are played, and how many there are.
    pub fn progress(&self) -> (usize, usize) {
        (self.gather.complete(), self.count)
    }

    /// Whether all is played.
    pub fn is_done(&self) -> bool {
        self.gather.complete() == self.count
    }

    /// What is waited for.
    pub fn waiting(&self) -> &Waiting {
        &self.waiting
    }

    /// The tonality in which keys are named.
    pub fn home(&self) -> Tonality {
        self.home
    }

    /// All faults and cautions of the outer voices as they were played.
    pub fn remarks(&self) -> Vec<Fault> {
        self.gather.faults(&self.sketch.frame)
    }

    /// What was wrong with the last move.
    pub fn last_move(&self) -> Vec<Fault> {
        let last = self.gather.complete().checked_sub(1);
        self.remarks().into_iter().filter(|fault| Some(fault.to) == last).collect()
    }

    /// How many faults were played.
    pub fn faults(&self) -> usize {
        self.remarks().iter().filter(|fault| fault.severity == Severity::Fault).count()
    }

    /// The whole piece with what was played in it.
    pub fn played(&self) -> Sketch {
        self.gather.onto(&self.sketch)
    }

    /// What was played, without what comes after.
    pub fn played_alone(&self) -> Sketch {
        let mut played = self.played();
        let last = self.gather.played_chords().last().map_or(0, |chord| chord.note + 1);
        played.notes.truncate(last);
        played
    }
}
