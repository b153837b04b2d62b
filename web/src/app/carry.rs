//! Carrying decisions over when the bass is typed anew: notes that are the same
//! at both ends keep their pins and strokes, and so do notes replaced one for one.

use tastata::sketch::SketchNote;

/// The typed notes with what had been decided about them.
pub(super) fn over(old: &[SketchNote], typed: Vec<SketchNote>) -> Vec<SketchNote> {
    let same = |a: &SketchNote, b: &SketchNote| a.pitch == b.pitch;
    let head = old.iter().zip(&typed).take_while(|(a, b)| same(a, b)).count();
    let tail = old[head..]
        .iter()
        .rev()
        .zip(typed[head..].iter().rev())
        .take_while(|(a, b)| same(a, b))
        .count();
    let replaced = old.len() == typed.len();
    let shift = old.len() as i64 - typed.len() as i64;
    let end = typed.len() - tail;
    let from = |i: usize| {
        if i < head || (replaced && i < end) {
            old.get(i)
        } else if i >= end {
            usize::try_from(i as i64 + shift).ok().and_then(|i| old.get(i))
        } else {
            None
        }
    };
    typed
        .into_iter()
        .enumerate()
        .map(|(i, note)| match from(i) {
            Some(kept) => SketchNote {
                pitch: note.pitch,
                figures: note.figures,
                weight: note.weight,
                value: note.value,
                rest: note.rest,
                ..kept.clone()
            },
            None => note,
        })
        .collect()
}
