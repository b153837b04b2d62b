//! Playing along: keys struck in free time are gathered into handfuls by harmony,
//! not by clock.
//!
//! The player rolls each chord as often, as slowly and in whatever order they
//! like. A chord is there once every tone it cannot do without has been struck for
//! it (or is held over), its bass lies lowest and no finger rests on a foreign
//! key. A note struck and left at once is an acciaccatura and does no harm; only a
//! key that stays down can be wrong. What is struck afterwards still belongs to the
//! chord, until the next one begins: at the last stroke of the next bass before the
//! first tone that only the next chord has. No time is taken in: the order alone
//! decides.
//!
//! # Limits
//! The trade rolls from the bass. Where a player does not, tones that both chords
//! share and that are struck before the new bass are counted with the old chord.
//! Two chords of the same notes over the same bass cannot be told from one chord
//! struck twice, so between them the hands must leave the keys.

mod keyset;
mod target;

pub use target::Target;

use crate::frame::{Fault, Frame, FrameWishes, faults};
use crate::hands::Handful;
use crate::harmony::Chord;
use crate::pitch::{Key, Pitch, PitchClass};
use crate::sketch::{Hold, Pin, Sketch};
use keyset::KeySet;

/// The most strokes remembered of one chord; older ones are forgotten.
const MEMORY: usize = 400;

/// Something that happens on a keyboard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KeyEvent {
    /// A key goes down.
    Down(Key),
    /// A key comes up.
    Up(Key),
    /// The damper pedal goes down.
    PedalDown,
    /// The damper pedal comes up.
    PedalUp,
}

/// A player's way through a bass.
#[derive(Clone, Debug)]
pub struct Gather {
    chords: Vec<Chord>,
    targets: Vec<Target>,
    gathered: Vec<Gathered>,
    /// Strokes since the last chord was complete, oldest first.
    tail: Vec<Key>,
    /// Keys under fingers, and keys that only the pedal holds.
    fingers: KeySet,
    sustained: KeySet,
    pedal: bool,
    /// Whether the hands have left the keys since the last chord was complete.
    lifted: bool,
    /// How long the tail was when the hands last left the keys, and when they
    /// last did before beginning anew from the bass.
    rest: usize,
    anew: usize,
}

/// A chord that was played.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Gathered {
    keys: KeySet,
    bass: Key,
}

/// Where the player is after an event.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Heard {
    /// How many chords are complete: the index of the chord waited for.
    pub chord: usize,
    /// What is waited for.
    pub waiting: Waiting,
    /// The chord that this event completed, if any.
    pub completed: Option<usize>,
}

/// What is waited for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Waiting {
    /// The next chord, of which nothing was played yet.
    Rest,
    /// The rest of a chord that was begun.
    Rolling {
        /// Tones that have not been struck.
        missing: Vec<PitchClass>,
        /// Keys held down that do not belong.
        foreign: Vec<Key>,
        /// The lowest key held, where it is not the bass.
        wrong_bass: Option<Key>,
    },
    /// Nothing: all is played.
    Done,
}

impl Gather {
    /// A way through these chords, nothing played yet.
    pub fn new(chords: &[Chord]) -> Gather {
        Gather {
            chords: chords.to_vec(),
            targets: target::targets(chords),
            gathered: Vec::new(),
            tail: Vec::new(),
            fingers: KeySet::EMPTY,
            sustained: KeySet::EMPTY,
            pedal: false,
            lifted: false,
            rest: 0,
            anew: 0,
        }
    }

    /// What is waited for, chord by chord.
    pub fn targets(&self) -> &[Target] {
        &self.targets
    }

    /// How many chords are complete.
    pub fn complete(&self) -> usize {
        self.gathered.len()
    }

    /// Takes one event in.
    pub fn hear(&mut self, event: KeyEvent) -> Heard {
        let before = self.gathered.len();
        match event {
            KeyEvent::Down(key) => self.down(key),
            KeyEvent::Up(key) => {
                self.fingers = self.fingers.without(key);
                if self.pedal {
                    self.sustained = self.sustained.with(key);
                }
            }
            KeyEvent::PedalDown => self.pedal = true,
            KeyEvent::PedalUp => {
                self.pedal = false;
                self.sustained = KeySet::EMPTY;
            }
        }
        if self.fingers.is_empty() && self.sustained.is_empty() {
            self.lifted = true;
            self.rest = self.tail.len();
        }
        self.advance(Held::Blocks);
        Heard {
            chord: self.gathered.len(),
            waiting: self.waiting(),
            completed: (self.gathered.len() > before).then_some(before),
        }
    }

    /// Goes back to a chord, to play it and what follows again. The keys now down
    /// are forgotten until they are struck again.
    pub fn back_to(&mut self, chord: usize) {
        self.gathered.truncate(chord);
        self.forget_tail();
        self.fingers = KeySet::EMPTY;
        self.sustained = KeySet::EMPTY;
        self.lifted = true;
    }

    fn down(&mut self, key: Key) {
        // A player who already strikes the bass after next has left the chord, old
        // fingers or not: what was struck for it was right.
        let next = self.targets.get(self.gathered.len());
        let after = self.targets.get(self.gathered.len() + 1);
        if let (Some(next), Some(after)) = (next, after)
            && after.is_bass(key)
            && !next.allows(key)
        {
            self.advance(Held::Forgiven);
        }
        // Hands that left the keys and begin again from the bass begin anew.
        if let Some(next) = self.targets.get(self.gathered.len())
            && next.is_bass(key)
            && self.is_low(key)
            && self.tail.iter().all(|&other| !next.is_bass(other) || key <= other)
        {
            self.anew = self.rest;
        }
        self.fingers = self.fingers.with(key);
        self.sustained = self.sustained.without(key);
        if self.tail.len() == MEMORY {
            self.tail.remove(0);
            self.rest = self.rest.saturating_sub(1);
            self.anew = self.anew.saturating_sub(1);
        }
        self.tail.push(key);
    }

    /// Completes the next chord if it is there.
    fn advance(&mut self, held: Held) {
        let Some(next) = self.targets.get(self.gathered.len()) else {
            return;
        };
        if next.same_as_before && !self.lifted {
            return;
        }
        let found = self.starts(next).into_iter().find_map(|start| {
            let keys = self.collected(next, start);
            let bass = self.complete_with(next, start, keys, held)?;
            Some((start, keys, bass))
        });
        let Some((start, keys, bass)) = found else { return };
        let keys = keys.only(|key| next.allows(key) && bass <= key);
        self.gathered = self.with_tail(start);
        self.forget_tail();
        self.lifted = self.fingers.is_empty();
        self.gathered.push(Gathered { keys: keys.with(bass), bass });
    }

    /// The chords gathered, the last with what was struck for it before `start`.
    fn with_tail(&self, start: usize) -> Vec<Gathered> {
        let mut all = self.gathered.clone();
        let target = all.len().checked_sub(1).and_then(|last| self.targets.get(last));
        if let (Some(target), Some(last)) = (target, all.last_mut()) {
            for &key in self.tail.iter().take(start) {
                if target.allows(key) && last.bass <= key {
                    last.keys = last.keys.with(key);
                }
            }
        }
        all
    }

    /// The chords gathered as they stand now.
    fn so_far(&self) -> Vec<Gathered> {
        let next = self.targets.get(self.gathered.len());
        let begun = next.filter(|_| self.waiting() != Waiting::Rest);
        let start = begun.and_then(|next| self.starts(next).first().copied());
        self.with_tail(start.unwrap_or(self.tail.len()))
    }

    /// Where in the tail the next chord may begin, likeliest first.
    fn starts(&self, next: &Target) -> Vec<usize> {
        let now = self.gathered.len().checked_sub(1).and_then(|last| self.targets.get(last));
        let only_next = |key: &Key| next.allows(*key) && now.is_none_or(|now| !now.allows(*key));
        let basslike = |key: &Key| next.is_bass(*key) && self.is_low(*key);
        let held = self.fingers.only(|key| basslike(&key)).lowest();
        let held_bass = held.and_then(|held| self.tail.iter().rposition(|&key| key == held));
        let first_new = self.tail.iter().position(only_next);
        let bass_before_new = first_new
            .and_then(|first| self.tail.iter().take(first + 1).rposition(basslike).or(Some(first)));
        let last_bass = self.tail.iter().rposition(basslike);
        let first_of_all = now.is_none().then_some(0);
        // Over a bass that is held on, only what moves is struck.
        let moved = (!next.fresh_bass).then_some(first_new.unwrap_or(self.tail.len()));
        // A lower bass that was struck first and left early is the bass all the same.
        let struck = |start: Option<usize>| start.and_then(|start| self.tail.get(start).copied());
        let left_early = bass_before_new
            .filter(|_| struck(bass_before_new).is_some_and(|key| Some(key) < struck(held_bass)))
            .filter(|_| struck(bass_before_new).is_some_and(|key| next.is_bass(key)));
        let starts = [left_early, held_bass, bass_before_new, last_bass, first_of_all, moved];
        starts.into_iter().flatten().map(|start| start.max(self.anew)).collect()
    }

    fn forget_tail(&mut self) {
        self.tail.clear();
        self.rest = 0;
        self.anew = 0;
    }

    /// Whether a key lies in the lower half of the handful before.
    fn is_low(&self, key: Key) -> bool {
        let Some(last) = self.gathered.last() else { return true };
        let top = last.keys.highest().unwrap_or(last.bass);
        2 * key.number() <= (last.bass.number() + top.number()).max(2 * last.bass.number() + 24)
    }

    /// All keys that sound for the next chord if it began at `start`.
    fn collected(&self, next: &Target, start: usize) -> KeySet {
        let struck = self.tail.iter().skip(start).copied().filter(|&key| next.allows(key));
        let struck = struck.fold(KeySet::EMPTY, KeySet::with);
        struck.and(self.fingers.only(|key| next.allows(key)))
    }

    /// The bass key, if the chord is complete with these keys.
    fn complete_with(&self, next: &Target, start: usize, keys: KeySet, held: Held) -> Option<Key> {
        let struck: KeySet =
            self.tail.iter().skip(start).copied().fold(KeySet::EMPTY, KeySet::with);
        let counts = |key: Key| held == Held::Blocks || struck.has(key);
        let foreign = self.fingers.only(|key| !next.allows(key) && counts(key));
        if !foreign.is_empty() {
            return None;
        }
        let sounding = keys.and(self.sustained.only(|key| next.allows(key)));
        if !next.is_complete(sounding) {
            return None;
        }
        // What was struck lower and has been left is forgiven; what is held is not.
        let bass = keys.only(|key| next.is_bass(key)).lowest()?;
        let under = self.fingers.only(|key| key < bass && counts(key));
        under.is_empty().then_some(bass)
    }

    fn waiting(&self) -> Waiting {
        let Some(next) = self.targets.get(self.gathered.len()) else { return Waiting::Done };
        let now = self.gathered.len().checked_sub(1).and_then(|last| self.targets.get(last));
        let known = |key: Key| now.is_some_and(|now| now.allows(key));
        let new = self.tail.iter().any(|&key| !known(key));
        let start = self.starts(next).first().copied().unwrap_or(self.tail.len());
        let moved = self
            .tail
            .get(start)
            .is_some_and(|key| self.fingers.lowest().is_none_or(|lowest| *key <= lowest));
        if !new && !moved {
            return Waiting::Rest;
        }
        let keys = self.collected(next, start);
        let sounding = keys.and(self.sustained.only(|key| next.allows(key)));
        let lowest = self.fingers.lowest().filter(|&key| !next.is_bass(key));
        Waiting::Rolling {
            missing: next.missing(sounding),
            foreign: self.fingers.only(|key| !next.allows(key)).keys().collect(),
            wrong_bass: lowest,
        }
    }

    /// The handfuls played so far, one for each complete chord, split between the
    /// hands at the widest gap.
    pub fn handfuls(&self) -> Vec<Handful> {
        let all = self.so_far();
        all.iter().zip(&self.chords).map(|(gathered, chord)| handful(gathered, chord)).collect()
    }

    /// Faults and cautions of the outer voices as they were played.
    pub fn faults(&self, wishes: &FrameWishes) -> Vec<Fault> {
        let chords = self.played_chords();
        faults(wishes, &chords, &self.soprano())
    }

    /// The chords played so far over the bass notes that were played.
    pub fn played_chords(&self) -> Vec<Chord> {
        let all = self.gathered.iter().zip(&self.chords);
        let over = |(gathered, chord): (&Gathered, &Chord)| {
            let bass = target::spelled(chord, gathered.bass);
            Chord { bass, ..chord.clone() }
        };
        all.map(over).collect()
    }

    /// The highest note of each chord played so far.
    pub fn soprano(&self) -> Vec<Pitch> {
        let all = self.so_far();
        let top = |(gathered, chord): (&Gathered, &Chord)| {
            target::spelled(chord, gathered.keys.highest().unwrap_or(gathered.bass))
        };
        all.iter().zip(&self.chords).map(top).collect()
    }

    /// The frame of what was played so far.
    pub fn frame(&self, sketch: &Sketch) -> Frame {
        Frame::of(sketch, &self.played_chords(), self.soprano(), 1)
    }

    /// The sketch with what was played in it: bass, soprano and handfuls of every
    /// complete chord.
    pub fn onto(&self, sketch: &Sketch) -> Sketch {
        let mut played = sketch.clone();
        let all = self.handfuls().into_iter().zip(self.soprano()).zip(self.played_chords());
        for ((handful, soprano), chord) in all {
            let Some(note) = played.notes.get_mut(chord.note) else { continue };
            if chord.stage == 0 {
                note.pitch = chord.bass;
                note.soprano.clear();
                note.handfuls.clear();
            }
            let rests = crate::frame::rests(&chord);
            let pin = (!rests).then_some(Pin { pitch: soprano, hold: Hold::Pinned });
            note.soprano.resize(chord.stage, None);
            note.soprano.push(pin);
            note.handfuls.resize(chord.stage, None);
            note.handfuls.push(Some(handful));
        }
        played
    }
}

/// Whether keys still held from the chord before stand in the way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Held {
    Blocks,
    Forgiven,
}

fn handful(gathered: &Gathered, chord: &Chord) -> Handful {
    let keys: Vec<Key> = gathered.keys.keys().collect();
    let gap = |i: usize| match (keys.get(i), keys.get(i + 1)) {
        (Some(low), Some(high)) => high.number() - low.number(),
        _ => 0,
    };
    // Both hands have work where there is any, and no hand more than five notes
    // where that can be.
    let count = keys.len();
    let places = 1..count;
    let fits = |&place: &usize| place <= 5 && count - place <= 5;
    let fitting: Vec<usize> = places.clone().filter(fits).collect();
    let places = if fitting.is_empty() { places.collect() } else { fitting };
    let split = places.into_iter().rev().max_by_key(|&place| gap(place - 1)).unwrap_or(count);
    let mut left: Vec<Pitch> = keys.iter().map(|&key| target::spelled(chord, key)).collect();
    let right = left.split_off(split.min(left.len()));
    Handful { left, right }
}
