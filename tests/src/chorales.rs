//! The distinct four-part chorales that music21 ships, as chords and sopranos, with that library's
//! verdict on every move of their outer voices.
//!
//! Every moment at which either outer voice strikes is a chord of the notes then sounding; a rest in
//! either voice ends a stretch. Only the notes are known, not what they owe, so every tone is free and
//! the rules about duties find nothing.

use anyhow::{Context, Result};
use tastata::harmony::{Chord, Duty, Tone};
use tastata::pitch::{Pitch, PitchClass};

use crate::oracle::oracle;
use crate::outer::{C_MAJOR, chord, pitch};

/// One chorale.
pub struct Chorale {
    /// The file's name in the collection.
    pub name: String,
    /// Its stretches between rests of an outer voice.
    pub stretches: Vec<Stretch>,
}

/// Chords without a rest between.
#[derive(Default)]
pub struct Stretch {
    /// The chords.
    pub chords: Vec<Chord>,
    /// The soprano over each.
    pub soprano: Vec<Pitch>,
    /// What is known of the move into each chord; the first has none.
    pub moves: Vec<Move>,
}

/// A move from one chord to the next.
#[derive(Clone, Copy, Default, PartialEq, Eq)]
pub struct Move {
    /// Whether the soprano note before it bears a fermata.
    pub ends_phrase: bool,
    /// What the other library says.
    pub verdict: Verdict,
}

/// What the other library finds in a move.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Verdict {
    /// Parallel or antiparallel fifths.
    pub fifths: bool,
    /// Parallel or antiparallel octaves or unisons.
    pub octaves: bool,
    /// Whether the voices move in opposite directions.
    pub contrary: bool,
    /// Similar motion into a fifth.
    pub hidden_fifths: bool,
    /// Similar motion into an octave.
    pub hidden_octaves: bool,
}

/// All of them, in the collection's order.
///
/// # Errors
///
/// When the library is not installed or its answer cannot be read.
pub fn chorales() -> Result<Vec<Chorale>> {
    let text = oracle("frame_chorales.py", &[], "")?;
    let mut chorales: Vec<Chorale> = Vec::new();
    for line in text.lines() {
        let words: Vec<&str> = line.split_whitespace().collect();
        match words.as_slice() {
            ["file", name] => {
                let stretches = vec![Stretch::default()];
                chorales.push(Chorale { name: (*name).into(), stretches });
            }
            ["rest"] => {
                let last = chorales.last_mut().context("a rest before any file")?;
                last.stretches.push(Stretch::default());
            }
            ["at", bass, soprano, phrase, verdict, inner @ ..] => {
                let last = chorales.last_mut().and_then(|chorale| chorale.stretches.last_mut());
                let stretch = last.context("a chord before any file")?;
                let has = |word: &str| verdict.split('+').any(|found| found == word);
                stretch.moves.push(Move {
                    ends_phrase: *phrase == "end",
                    verdict: Verdict {
                        fifths: has("fifth"),
                        octaves: has("octave") || has("unison"),
                        contrary: has("contrary"),
                        hidden_fifths: has("hidden-fifth"),
                        hidden_octaves: has("hidden-octave"),
                    },
                });
                let inner = inner.iter().map(|text| pitch(text).class()).collect();
                stretch.push(pitch(bass), pitch(soprano), inner);
            }
            _ => anyhow::bail!("unreadable: {line}"),
        }
    }
    for chorale in &mut chorales {
        chorale.stretches.retain(|stretch| !stretch.chords.is_empty());
    }
    Ok(chorales)
}

impl Stretch {
    fn push(&mut self, bass: Pitch, soprano: Pitch, mut classes: Vec<PitchClass>) {
        classes.insert(0, soprano.class());
        classes.insert(0, bass.class());
        let mut tones: Vec<Tone> = Vec::new();
        for class in classes {
            if !tones.iter().any(|tone| tone.class == class) {
                let number = (class.at_or_above(bass) - bass).simple_number();
                tones.push(Tone { class, number, duty: Duty::Free, omittable: false });
            }
        }
        // A lone octave is still a chord here, not a bass alone.
        if tones.len() == 1 {
            let class = PitchClass::from_fifths(bass.class().fifths() + 1);
            tones.push(Tone { class, number: 5, duty: Duty::Free, omittable: true });
        }
        let (note, stage) = match self.chords.last() {
            Some(before) if before.bass == bass => (before.note, before.stage + 1),
            Some(before) => (before.note + 1, 0),
            None => (0, 0),
        };
        self.chords.push(chord(C_MAJOR, note, stage, bass, tones));
        self.soprano.push(soprano);
    }
}
