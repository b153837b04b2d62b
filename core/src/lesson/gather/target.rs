//! What a chord asks of the keyboard.

use super::keyset::KeySet;
use crate::harmony::{Chord, Tone};
use crate::order;
use crate::pitch::{Key, Pitch, PitchClass};

/// A chord waited for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Target {
    /// The class of its bass.
    pub bass: PitchClass,
    /// Its tones, the bass first.
    pub tones: Vec<Tone>,
    /// Whether the bass is a new note and not a later stage of the one before.
    pub(super) fresh_bass: bool,
    /// Whether it has the same bass and notes as the chord before.
    pub(super) same_as_before: bool,
}

impl Target {
    /// Whether the key sounds one of its tones.
    pub(super) fn allows(&self, key: Key) -> bool {
        self.is_bass(key) || self.tones.iter().any(|tone| sounds(tone.class, key))
    }

    /// Whether the key sounds its bass.
    pub(super) fn is_bass(&self, key: Key) -> bool {
        sounds(self.bass, key)
    }

    /// The tones it cannot do without that are not among these keys.
    pub(super) fn missing(&self, keys: KeySet) -> Vec<PitchClass> {
        let there = |class: PitchClass| keys.keys().any(|key| sounds(class, key));
        let needed = self.tones.iter().filter(|tone| !tone.omittable || tone.class == self.bass);
        needed.map(|tone| tone.class).filter(|&class| !there(class)).collect()
    }

    pub(super) fn is_complete(&self, keys: KeySet) -> bool {
        self.missing(keys).is_empty()
    }
}

fn sounds(class: PitchClass, key: Key) -> bool {
    class.chroma() == key.number().rem_euclid(12)
}

/// The targets of a row of chords.
pub(super) fn targets(chords: &[Chord]) -> Vec<Target> {
    let mut targets: Vec<Target> = Vec::with_capacity(chords.len());
    for (i, chord) in chords.iter().enumerate() {
        let before = i.checked_sub(1).and_then(|before| chords.get(before));
        let mut target = Target {
            bass: chord.bass.class(),
            tones: chord.tones.clone(),
            fresh_bass: before.is_none_or(|before| before.note != chord.note),
            same_as_before: false,
        };
        target.same_as_before = targets.last().is_some_and(|before| alike(before, &target));
        targets.push(target);
    }
    targets
}

fn alike(one: &Target, other: &Target) -> bool {
    let chromas = |target: &Target| {
        let all = target.tones.iter().map(|tone| tone.class.chroma());
        let mut all: Vec<i32> = all.collect();
        order::sort(&mut all);
        all.dedup();
        all
    };
    one.bass.chroma() == other.bass.chroma() && chromas(one) == chromas(other)
}

/// A key as a chord spells it; foreign ones by the tonality of the moment.
pub(super) fn spelled(chord: &Chord, key: Key) -> Pitch {
    let own = std::iter::once(chord.bass.class()).chain(chord.tones.iter().map(|t| t.class));
    let class = own.into_iter().find(|&class| sounds(class, key));
    let Some(class) = class else { return chord.tonality.spell(key) };
    let natural = key.number() - class.step.semitones() - i32::from(class.alter);
    class.in_octave((natural.div_euclid(12) - 1).clamp(-2, 10) as i8)
}
