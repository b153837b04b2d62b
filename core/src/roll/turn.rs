//! One chord's turn: its handful as a line of strikes, in the strokes that were asked for
//! or that the speech asks for, with everything that is added to it. Each purpose draws
//! from a stream of chance of its own, so that more of one leaves the others as they were.

use super::line::{Scene, Strike};
use super::speech::{self, Saying};
use super::strokes::{self, Ending, Sweep};
use super::wishes::{ChordStroke, RollWishes};
use super::{close, detour, drift, run, spice, suspend, timing, walk};
use crate::chance::Chance;
use crate::hands::Hand;
use crate::pitch::Key;

/// What chance is drawn for.
#[derive(Clone, Copy)]
enum Purpose {
    Stroke,
    Time,
    Spice,
    Flourish,
}

/// A chord and all that decides how it is played.
pub(super) struct Turn<'a> {
    pub(super) index: usize,
    pub(super) scene: &'a Scene<'a>,
    pub(super) saying: Saying,
    pub(super) wishes: &'a RollWishes,
    /// What the player asked for at this chord alone.
    pub(super) own: &'a ChordStroke,
}

impl Turn<'_> {
    /// The strikes in order. Keys in `kept` are still down and are not struck.
    pub(super) fn strikes(&self, kept: &[(Hand, Key)]) -> Vec<Strike> {
        let (scene, saying) = (self.scene, self.saying);
        let mut sweeps = self.sweeps();
        strokes::leave_out(&mut sweeps, |place| {
            scene.notes.get(place).is_some_and(|note| kept.contains(&(note.hand, note.key)))
        });
        let drift = drift::at(self.wishes.seed, self.index);
        let mut time = self.stream(Purpose::Time);
        let mut strikes = timing::strikes(scene, saying, &sweeps, drift, &mut time);
        let mut seasoning = self.stream(Purpose::Spice);
        spice::season(scene, &mut strikes, &mut seasoning);
        let mut flourish = self.stream(Purpose::Flourish);
        let suspended = suspend::suspend(scene, saying.role, &mut strikes, &mut flourish);
        let detoured = detour::detour(scene, saying.role, &mut strikes, &mut flourish);
        if !suspended && !detoured {
            close::close(scene, saying.role, &mut strikes, &mut seasoning);
        }
        if !walk::walk(scene, &mut strikes) {
            run::run(scene, saying.role, &mut strikes, &mut seasoning);
        }
        strikes
    }

    /// The sweeps over the handful: the player's own for this chord, or those of the plan.
    fn sweeps(&self) -> Vec<Sweep> {
        let mut chance = self.stream(Purpose::Stroke);
        let (stroke, times) = speech::stroke(self.wishes, self.saying, &mut chance);
        let keeps = speech::keeps(self.wishes, self.saying, &mut chance);
        let (own, notes) = (self.own, self.scene.notes);
        let ending = if self.scene.next.is_some() { Ending::LeadsOn } else { Ending::Settles };
        let left = notes.iter().filter(|note| note.hand == Hand::Left).count();
        let mut sweeps = strokes::sweeps(
            own.stroke.unwrap_or(stroke),
            own.times.unwrap_or(times),
            notes.len(),
            left,
            ending,
        );
        if own.stroke.is_none() && own.times.is_none() {
            strokes::leave_early(&mut sweeps, notes.len(), keeps);
        }
        sweeps
    }

    fn stream(&self, purpose: Purpose) -> Chance {
        Chance::of(u64::from(self.wishes.seed), self.index as u64 * 8 + purpose as u64)
    }
}
