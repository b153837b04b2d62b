//! Sketches from the lowest lines of parts.

use super::line::{self, Step, Timing};
use super::part::{Key, Part, Piece, QUARTER};
use super::{BringError, BringRemark, Brought, BroughtPart, FileKind, MAX_NOTES, PartName, key};
use crate::bass::NoteValue;
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
        BroughtPart { name: part.name.clone(), sketch: of_line(&line, part, (kind, timing), title) }
    });
    let parts = parts.collect();
    Ok(Brought { kind, parts, lowest, remarks })
}

fn of_line(line: &[Step], part: &Part, (kind, timing): (FileKind, Timing), title: &str) -> Sketch {
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
    let lengths = lengths(line, timing);
    let notes = line.iter().zip(pitches).zip(lengths).map(|((step, pitch), (value, rest))| {
        let weight = if step.small { Weight::Passing } else { Weight::Unmarked };
        let figures = step.figures.clone();
        SketchNote { figures, weight, value, rest, ..SketchNote::bare(pitch) }
    });
    Sketch { title: title.to_string(), tonality, notes: notes.collect(), ..Sketch::default() }
}

/// How long each note of the line lasts and the rest after it. Both are cut to the
/// nearest tick of [`NoteValue`] from the beginning of the piece, so that nothing
/// drifts; small notes have no length. Lengths that MIDI files were played with
/// are rounded to a quarter of a beat.
fn lengths(line: &[Step], timing: Timing) -> Vec<(Option<NoteValue>, Option<NoteValue>)> {
    let grid = match timing {
        Timing::Exact => 1,
        Timing::Played => NoteValue::QUARTER.ticks() / 4,
    };
    let ticks = |at: i64| {
        let unit = 4 * QUARTER * i64::from(grid);
        let at = at.max(0) * i64::from(NoteValue::WHOLE);
        (at + unit / 2) / unit * i64::from(grid)
    };
    let value = |from: i64, to: i64| {
        let ticks = u32::try_from(ticks(to) - ticks(from)).ok()?;
        NoteValue::from_ticks(ticks)
    };
    let length = |(i, it): (usize, &Step)| {
        if it.small {
            return (None, None);
        }
        let next = line.get(i + 1..).and_then(|rest| rest.iter().find(|next| !next.small));
        // What is cut off by the next note, or by less than a beat short of it.
        let end = next.map_or(it.end, |next| {
            let short = next.at - it.end;
            if short < 0 || (timing == Timing::Played && short < QUARTER) {
                next.at
            } else {
                it.end
            }
        });
        let rest = next.and_then(|next| value(end, next.at));
        (value(it.at, end), rest)
    };
    line.iter().enumerate().map(length).collect()
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
