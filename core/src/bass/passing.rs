//! Which notes of a bass pass under the chord before them.
//!
//! What a person marks holds. Of the rest a note passes by default when it is
//! quick, comes off the beat, has no figures, and lies between neighbours a step
//! away, no rest parting them; or repeats the pitch before it. The beat is found from
//! the lengths: the longest that fills, with longer ones, half of the time. Common
//! practice, no source; notes without a length never pass by themselves.

use super::NoteValue;
use crate::harmony::Rhythm;
use crate::order;
use crate::sketch::{SketchNote, Weight};

/// Lengths that can be the beat, in ticks: whole to eighth, plain and dotted.
const BEATS: [u32; 7] = [768, 576, 384, 288, 192, 144, 96];

/// For each note, whether it passes. Cost: linear in the notes.
pub fn passing(notes: &[SketchNote]) -> Vec<bool> {
    let beat = beat(notes);
    let onsets = onsets(notes);
    let phase = beat.map_or(0, |beat| phase(notes, &onsets, beat));
    let passes = |(at, note): (usize, &SketchNote)| match note.weight {
        Weight::Passing => true,
        Weight::Structural => false,
        Weight::Unmarked => {
            let quick = match (beat, note.value, onsets.get(at).copied().flatten()) {
                (Some(beat), Some(value), Some(onset)) => {
                    value.ticks() * 2 <= beat && !(onset + beat - phase).is_multiple_of(beat)
                }
                _ => false,
            };
            quick && note.figures.is_none() && (between_steps(notes, at) || repeats(notes, at))
        }
    };
    notes.iter().enumerate().map(passes).collect()
}

/// How long each note lasts and where it begins, for the habits of usage.
pub(crate) fn rhythms(notes: &[SketchNote]) -> Vec<Rhythm> {
    let quarter = NoteValue::QUARTER.ticks();
    let onsets = onsets(notes);
    let phase = phase(notes, &onsets, quarter);
    let rhythm = |(note, onset): (&SketchNote, &Option<u32>)| match (note.value, onset) {
        (Some(value), Some(onset)) => {
            let length = match value.ticks() {
                ..=96 => 1,
                97..=192 => 2,
                193..=384 => 3,
                _ => 4,
            };
            Rhythm { length, off: !(onset + quarter - phase).is_multiple_of(quarter) }
        }
        _ => Rhythm::default(),
    };
    notes.iter().zip(&onsets).map(rhythm).collect()
}

/// Whether both neighbours are there, a step away, and joined to it.
fn between_steps(notes: &[SketchNote], at: usize) -> bool {
    let (Some(before), Some(after)) =
        (at.checked_sub(1).and_then(|at| notes.get(at)), notes.get(at + 1))
    else {
        return false;
    };
    let note = &notes[at];
    let step = |one: &SketchNote, other: &SketchNote| {
        (1..=2).contains(&(one.pitch.semitones() - other.pitch.semitones()).abs())
    };
    before.rest.is_none() && note.rest.is_none() && step(before, note) && step(note, after)
}

/// Whether the pitch is struck again, no rest parting the two.
fn repeats(notes: &[SketchNote], at: usize) -> bool {
    let before = at.checked_sub(1).and_then(|at| notes.get(at));
    before.is_some_and(|before| before.rest.is_none() && before.pitch == notes[at].pitch)
}

/// When each note begins, in ticks from the last note without a length; `None`
/// where it has none itself.
fn onsets(notes: &[SketchNote]) -> Vec<Option<u32>> {
    let mut now = 0u32;
    let onset = |note: &SketchNote| match note.value {
        Some(value) => {
            let here = now;
            let rest = note.rest.map_or(0, NoteValue::ticks);
            // Only the place within a beat matters.
            now = (now + value.ticks() + rest) % (NoteValue::WHOLE * 3);
            Some(here)
        }
        None => {
            now = 0;
            None
        }
    };
    notes.iter().map(onset).collect()
}

fn beat(notes: &[SketchNote]) -> Option<u32> {
    let lengths = || notes.iter().filter_map(|note| note.value).map(|it| u64::from(it.ticks()));
    let all: u64 = lengths().sum();
    let fills = |beat: &u32| {
        let long = lengths().filter(|&length| length >= u64::from(*beat));
        all > 0 && 2 * long.sum::<u64>() >= all
    };
    BEATS.into_iter().find(fills)
}

/// Where in the beat the long notes mostly begin, so that an upbeat does not
/// turn the beats about.
fn phase(notes: &[SketchNote], onsets: &[Option<u32>], beat: u32) -> u32 {
    let long = notes.iter().zip(onsets);
    let long = long.filter(|(note, _)| note.value.is_some_and(|it| it.ticks() >= beat));
    let mut phases: Vec<u32> = long.filter_map(|(_, onset)| onset.map(|it| it % beat)).collect();
    order::sort(&mut phases);
    let runs = phases.chunk_by(|a, b| a == b);
    // The earliest of equals.
    let most = runs.rev().max_by_key(|run| run.len());
    most.and_then(|run| run.first().copied()).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::super::read_bass;
    use super::*;

    /// The notes that pass, by place.
    fn places(text: &str) -> Vec<usize> {
        let read = read_bass(text, None);
        assert_eq!(read.remarks, [], "{text}");
        let notes: Vec<SketchNote> = read.notes.iter().map(|note| note.to_sketch()).collect();
        let passes = passing(&notes).into_iter().enumerate();
        passes.filter(|(_, passes)| *passes).map(|(at, _)| at).collect()
    }

    #[test]
    fn quick_notes_between_slow_ones_pass() {
        assert_eq!(places("c=4 d=8 e f=4 g=8 f e=4 c"), [2, 5]);
        // A rest, a leap, figures and a mark keep a note its chord.
        assert_eq!(places("c=4 d=8 e f=4"), [2]);
        assert_eq!(places("c=4 d=16 r=16 e=8 f=4"), []);
        assert_eq!(places("c=4 d=8 e=16 r=16 f=4"), []);
        assert_eq!(places("c=4 e=8 g a=4"), []);
        assert_eq!(places("c=4 d=8 e:6 f=4 g=8 a! b=4"), []);
        // A pitch struck again is no new chord; an octave below it may be.
        assert_eq!(places("c=8 c c c d=4 e f g=8 g2 c=4"), [1, 3]);
        assert_eq!(places("c=8 r=16 c=16 c=8 c! d=4 e f"), []);
        // Marked notes pass without lengths; plain ones never do by themselves.
        assert_eq!(places("c (d) e f g"), [1]);
        assert_eq!(places("c d e f g"), []);
        assert_eq!(places("c=1 d=4 e f e d=1"), [2, 3, 4]);
        // An upbeat does not turn the beats about.
        assert_eq!(places("g=8 c=4 d=8 e f=4 g c"), [3]);
        assert_eq!(places(""), []);
    }
}
