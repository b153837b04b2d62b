//! A score of our own carries its sketch along, so that coming back it keeps what
//! a score cannot say.

use super::Brought;
use crate::bass::passing;
use crate::figures::{Figures, Stage};
use crate::files::link::decode;
use crate::harmony::harmonise;
use crate::sketch::Weight;

/// Puts the carried sketch in place of the read one, if the score still has its
/// bass. Title, tonality and figures that were changed in the score are taken from
/// there; so a score that was changed elsewhere says what it says.
pub(super) fn restore(brought: &mut Brought, link: &str, title: &str) {
    let Ok(mut kept) = decode(link) else { return };
    let Some(read) = brought.parts.get_mut(brought.lowest) else { return };
    let read = &mut read.sketch;
    let same = kept.notes.len() == read.notes.len()
        && kept.notes.iter().zip(&read.notes).all(|(kept, read)| kept.pitch == read.pitch);
    if !same {
        return;
    }
    let harmony = harmonise(&kept);
    if read.tonality.is_some_and(|tonality| tonality != harmony.home) {
        kept.tonality = read.tonality;
    }
    kept.title = title.to_string();
    let passed = [&kept.notes, &read.notes].map(|notes| passing(notes));
    for (index, (kept, read)) in kept.notes.iter_mut().zip(&read.notes).enumerate() {
        let chords = harmony.chords.iter().filter(|chord| chord.note == index);
        let written: Vec<&Stage> =
            chords.map(|chord| &chord.figures).filter(|stage| printed(stage)).collect();
        let found: Vec<&Stage> = read.figures.iter().flat_map(Figures::stages).collect();
        if written != found {
            kept.figures.clone_from(&read.figures);
        }
        // In the scores of others no note of ours has a length, so what passes is marked.
        let [before, now] = passed.each_ref().map(|it| it.get(index).copied().unwrap_or(false));
        if before != now {
            kept.weight = if now { Weight::Passing } else { Weight::Structural };
        }
    }
    *read = kept;
}

fn printed(stage: &Stage) -> bool {
    !matches!(stage, Stage::Signs(signs) if signs.is_empty())
}
