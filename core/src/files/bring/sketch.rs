//! Sketches from the lowest lines of parts.

use super::line::{self, Step, Timing};
use super::part::{Key, Part, Piece, QUARTER};
use super::{BringError, BringRemark, Brought, BroughtPart, FileKind, MAX_NOTES, PartName, key};
use crate::order;
use crate::pitch::Pitch;
use crate::sketch::{Sketch, SketchNote, Weight};

/// A sketch of each part that has notes, and of all together where there are several.
pub(super) fn of_piece(
    piece: Piece,
    kind: FileKind,
    timing: Timing,
    name: &str,
) -> Result<Brought, BringError> {
    let title = if piece.title.trim().is_empty() { stem(name) } else { piece.title.trim() };
    let mut parts: Vec<Part> =
        piece.parts.into_iter().filter(|part| !part.notes.is_empty()).collect();
    let lowest = lowest(&parts).ok_or(BringError::NoNotes(kind))?;
    if parts.len() > 1 {
        parts.push(together(&parts));
    }
    let mut remarks = Vec::new();
    let parts = parts.iter().map(|part| {
        let mut line = line::lowest(part, timing);
        if line.len() > MAX_NOTES && remarks.is_empty() {
            remarks.push(BringRemark::Shortened);
        }
        line.truncate(MAX_NOTES);
        BroughtPart { name: part.name.clone(), sketch: of_line(&line, part, kind, title) }
    });
    let parts = parts.collect();
    Ok(Brought { kind, parts, lowest, remarks })
}

fn of_line(line: &[Step], part: &Part, kind: FileKind, title: &str) -> Sketch {
    let mut pitches: Vec<Pitch> = line.iter().map(|step| step.pitch).collect();
    let tonality = match kind {
        // Keys have no spelling of their own.
        FileKind::Midi => {
            let keys: Vec<_> = pitches.iter().filter_map(|pitch| pitch.key()).collect();
            let found = key::of_keys(&keys);
            let tonality = match part.key {
                Key::Open => found,
                stated => key::of_bass(stated, &pitches).unwrap_or(found),
            };
            for pitch in &mut pitches {
                *pitch = pitch.key().map_or(*pitch, |key| tonality.spell(key));
            }
            Some(tonality)
        }
        _ => key::of_bass(part.key, &pitches),
    };
    let weights = weights(line, &pitches);
    let notes = line.iter().zip(pitches).zip(weights).map(|((step, pitch), weight)| SketchNote {
        figures: step.figures.clone(),
        weight,
        ..SketchNote::bare(pitch)
    });
    Sketch { title: title.to_string(), tonality, notes: notes.collect(), ..Sketch::default() }
}

/// Small notes pass, and so do quick ones: no longer than half the commonest
/// length, begun off the beat, without figures, and between neighbours a step away.
/// Common practice, no source.
fn weights(line: &[Step], pitches: &[Pitch]) -> Vec<Weight> {
    let usual = commonest(line);
    let step = |a: usize, b: usize| match (pitches.get(a), pitches.get(b)) {
        (Some(a), Some(b)) => (a.diatonic() - b.diatonic()).abs() == 1,
        _ => false,
    };
    let weigh = |(i, it): (usize, &Step)| {
        let quick = (it.end - it.at) * 2 <= usual && it.at.rem_euclid(QUARTER) != 0;
        let between = i > 0 && step(i - 1, i) && step(i, i + 1);
        let passes = it.small || (quick && between && it.figures.is_none());
        if passes { Weight::Passing } else { Weight::Unmarked }
    };
    line.iter().enumerate().map(weigh).collect()
}

fn commonest(line: &[Step]) -> i64 {
    let mut lengths: Vec<i64> =
        line.iter().filter(|step| !step.small).map(|step| step.end - step.at).collect();
    order::sort(&mut lengths);
    let runs = lengths.chunk_by(|a, b| a == b);
    runs.max_by_key(|run| run.len()).and_then(|run| run.first().copied()).unwrap_or(0)
}

/// The part that lies lowest, those with few notes left aside.
fn lowest(parts: &[Part]) -> Option<usize> {
    let most = parts.iter().map(|part| part.notes.len()).max()?;
    let height = |part: &Part| {
        let sum: i64 = part.notes.iter().map(|note| i64::from(note.pitch.semitones())).sum();
        // In hundredths, since averages differ by fractions.
        100 * sum / part.notes.len().max(1) as i64
    };
    let full = parts.iter().enumerate().filter(|(_, part)| part.notes.len() * 8 >= most);
    full.min_by_key(|(_, part)| height(part)).map(|(index, _)| index)
}

fn together(parts: &[Part]) -> Part {
    let key = parts.iter().map(|part| part.key).find(|key| *key != Key::Open);
    // The same staves of a part carry the same figures; the first with any has them all.
    let figures = parts.iter().map(|part| &part.figures).find(|figures| !figures.is_empty());
    Part {
        name: PartName::All,
        key: key.unwrap_or(Key::Open),
        notes: parts.iter().flat_map(|part| part.notes.iter().cloned()).collect(),
        figures: figures.cloned().unwrap_or_default(),
    }
}

/// A file's name without folder and ending.
fn stem(name: &str) -> &str {
    let name = name.rsplit(['/', '\\']).next().unwrap_or(name);
    name.rsplit_once('.').map_or(name, |(stem, _)| stem).trim()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_name_of_a_file_is_a_title() {
        assert_eq!(stem("C:\\music\\my bass.musicxml"), "my bass");
        assert_eq!(stem("a/b/bass"), "bass");
        assert_eq!(stem(".mid"), "");
    }
}
