//! The lowest line through a part: at each new onset the lowest note that sounds.

use super::part::{Part, QUARTER, Struck};
use crate::figures::{Figures, Stage, read_figures};
use crate::order;
use crate::pitch::Pitch;

/// One note of the line.
#[derive(Clone, Debug)]
pub(super) struct Step {
    pub(super) at: i64,
    pub(super) end: i64,
    pub(super) pitch: Pitch,
    pub(super) small: bool,
    pub(super) figures: Option<Figures>,
}

/// How exactly notes that belong together begin together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Timing {
    /// As written.
    Exact,
    /// As played: within a sixteenth of a quarter note.
    Played,
}

/// The lowest line. A note that begins above one still sounding is not of it, and
/// of notes that begin together only the lowest is. Cost: O(n log n).
pub(super) fn lowest(part: &Part, timing: Timing) -> Vec<Step> {
    let slack = if timing == Timing::Played { QUARTER / 16 } else { 0 };
    let mut notes: Vec<&Struck> = part.notes.iter().collect();
    // Small notes come before the note they lead to, in their own order.
    order::by_key(&mut notes, |note| (note.at, !note.small));
    let lyrics = lyrics_are_figures(part);
    let mut line: Vec<Step> = Vec::new();
    for note in notes {
        let step = || Step {
            at: note.at,
            end: note.end,
            pitch: note.pitch,
            small: note.small,
            figures: if lyrics { figures_of(&note.lyrics) } else { None },
        };
        if note.small {
            line.push(step());
            continue;
        }
        let height = note.pitch.semitones();
        match line.last_mut().filter(|last| !last.small) {
            Some(last) if note.at - last.at <= slack && note.at < last.end.max(last.at + 1) => {
                if height < last.pitch.semitones() {
                    let figures = last.figures.take();
                    *last = step();
                    last.figures = last.figures.take().or(figures);
                }
            }
            Some(last) if note.at < last.end && height > last.pitch.semitones() => {}
            _ => line.push(step()),
        }
    }
    if !lyrics {
        give_figures(&mut line, part);
    }
    line
}

/// Gives each figure to the note it stands under; those that stand under a rest
/// belong to nothing.
fn give_figures(line: &mut [Step], part: &Part) {
    let mut figures: Vec<_> = part.figures.iter().collect();
    order::by_key(&mut figures, |figured| figured.at);
    let mut figures = figures.into_iter().peekable();
    let ends: Vec<i64> = line.iter().skip(1).map(|next| next.at).chain([i64::MAX]).collect();
    for (step, next) in line.iter_mut().zip(ends) {
        if step.small {
            continue;
        }
        let mut stages: Vec<Stage> = Vec::new();
        while let Some(figured) = figures.next_if(|figured| figured.at < next.min(step.end)) {
            if figured.at >= step.at {
                stages.push(figured.stage.clone());
            }
        }
        while figures.next_if(|figured| figured.at < next && figured.at >= step.end).is_some() {}
        step.figures = Figures::new(stages);
    }
}

/// Whether the words of a part are figures: nearly all of them read as such.
fn lyrics_are_figures(part: &Part) -> bool {
    let worded = part.notes.iter().filter(|note| !note.lyrics.is_empty());
    let (mut all, mut read) = (0, 0);
    for note in worded {
        all += 1;
        read += usize::from(figures_of(&note.lyrics).is_some());
    }
    part.figures.is_empty() && read > 0 && read * 5 >= all * 4
}

/// Lines one under the other are one sonority; words side by side follow one another.
fn figures_of(lines: &[String]) -> Option<Figures> {
    let lines: Vec<Vec<&str>> =
        lines.iter().map(|line| line.split_whitespace().collect()).collect();
    let count = lines.iter().map(Vec::len).max()?;
    let stages: Vec<String> = (0..count)
        .map(|at| {
            let signs: Vec<String> =
                lines.iter().filter_map(|line| line.get(at)).map(|word| sign(word)).collect();
            signs.join("/")
        })
        .collect();
    read_figures(&stages.join("-")).ok()
}

/// Typed under a note where no sharp is at hand, an s stands for one.
fn sign(word: &str) -> String {
    let plain = word.chars().all(|c| c.is_ascii_digit() || c == 's' || c == '/');
    if plain { word.replace('s', "#") } else { word.to_string() }
}

#[cfg(test)]
mod tests {
    use super::super::PartName;
    use super::super::part::Key;
    use super::*;

    fn struck(at: i64, end: i64, octave: i8, lyric: &str) -> Struck {
        let pitch = Pitch::new(crate::pitch::Step::C, 0, octave);
        let lyrics = lyric.split('|').filter(|it| !it.is_empty()).map(str::to_string).collect();
        Struck { at, end, pitch, small: false, lyrics }
    }

    fn octaves(notes: Vec<Struck>, timing: Timing) -> Vec<i8> {
        let part = Part { name: PartName::All, key: Key::Open, notes, figures: Vec::new() };
        lowest(&part, timing).into_iter().map(|step| step.pitch.octave).collect()
    }

    #[test]
    fn the_lowest_note_of_a_chord_and_none_above_a_held_one() {
        let notes = vec![
            struck(0, 40, 4, ""),
            struck(0, 20, 3, ""),
            struck(10, 20, 4, ""),
            struck(20, 40, 3, ""),
            struck(30, 40, 2, ""),
        ];
        assert_eq!(octaves(notes, Timing::Exact), [3, 3, 2]);
    }

    #[test]
    fn a_hand_that_is_not_quite_together_is_one_chord() {
        let notes = || vec![struck(0, 9_000, 4, ""), struck(500, 9_000, 3, "")];
        assert_eq!(octaves(notes(), Timing::Played), [3]);
        assert_eq!(octaves(notes(), Timing::Exact), [4, 3]);
    }

    #[test]
    fn words_that_are_figures_are_taken_as_figures() {
        let text = |lines: &[&str]| {
            let lines: Vec<String> = lines.iter().map(|it| it.to_string()).collect();
            figures_of(&lines).map(|it| crate::figures::print(&it))
        };
        assert_eq!(text(&["6", "5"]).as_deref(), Some("6/5"));
        assert_eq!(text(&["4 3"]).as_deref(), Some("4-3"));
        assert_eq!(text(&["6 5", "4 3"]).as_deref(), Some("6/4-5/3"));
        assert_eq!(text(&["Amen"]), None);
        assert_eq!(text(&[]), None);
    }
}
