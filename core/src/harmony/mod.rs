//! Which chord stands over each bass note, and why.

mod bare;
mod chord;
mod key;
mod octave_rule;
mod sonority;

pub use chord::{
    Cadence, Chord, Duty, Harmony, HarmonyRemark, HarmonyTrouble, HarmonyWishes, Reason, Tone,
};
pub use octave_rule::{Direction, OctaveCell, Version, octave_rule};

use crate::figures;
use crate::pitch::{Pitch, Tonality};
use crate::sketch::{Sketch, SketchNote, Weight};
use bare::{Choice, Place};
use sonority::Sonority;

/// Harmonises the bass of a sketch. An empty bass gives no chords; a passing
/// note has no chord of its own, so chords are matched to notes by
/// [`Chord::note`]. Given figures are read under the home signature.
pub fn harmonise(sketch: &Sketch) -> Harmony {
    let notes = &sketch.notes;
    let home = sketch
        .tonality
        .unwrap_or_else(|| key::find(&notes.iter().map(|note| note.pitch).collect::<Vec<_>>()));
    let mut harmony = Harmony { home, chords: Vec::new(), remarks: Vec::new() };
    let mut before: Option<Sonority> = None;
    for at in 0..notes.len() {
        let note = &notes[at];
        if note.weight == Weight::Passing {
            if before.is_some() {
                continue;
            }
            let kind = HarmonyTrouble::NothingToPassFrom;
            harmony.remarks.push(HarmonyRemark { note: at, kind });
        }
        let choice = match &note.figures {
            Some(_) => given(note, at, before.as_ref(), &mut harmony),
            None => bare::choose(&place(notes, at, before.clone()), home, sketch.harmony.version),
        };
        let stages = &choice.stages;
        for (stage, (sonority, reason)) in stages.iter().enumerate() {
            let next = stages.get(stage + 1).map(|(sonority, _)| sonority);
            let figures = match &note.figures {
                Some(figures) => figures.stages().get(stage).cloned(),
                None => None,
            };
            harmony.chords.push(Chord {
                note: at,
                stage,
                bass: note.pitch,
                tones: sonority.tones(choice.tonality, next),
                tonality: choice.tonality,
                degree: choice.tonality.degree_of(note.pitch.step),
                figures: figures.unwrap_or_else(|| sonority.figures(home)),
                reason: reason.clone(),
            });
        }
        before = choice.stages.into_iter().last().map(|(sonority, _)| sonority);
    }
    harmony
}

/// The figures a person gave, spelled out.
fn given(note: &SketchNote, at: usize, before: Option<&Sonority>, harmony: &mut Harmony) -> Choice {
    let home = harmony.home;
    let bass = note.pitch.class();
    let Some(given) = &note.figures else {
        return Choice { tonality: home, stages: Vec::new() };
    };
    let held = before.map(|before| before.over(bass));
    let mut stages = Vec::new();
    for (stage, expansion) in figures::expand_all(given, bass, home).into_iter().enumerate() {
        let nothing = expansion.remarks.contains(&figures::FigureRemark::NothingToHold);
        if let (true, Some(held)) = (nothing, &held) {
            stages.push((held.clone(), Reason::Given));
            continue;
        }
        for remark in expansion.remarks {
            let kind = HarmonyTrouble::Figures { stage, remark };
            harmony.remarks.push(HarmonyRemark { note: at, kind });
        }
        stages.push((Sonority { bass, tones: expansion.tones }, Reason::Given));
    }
    Choice { tonality: home, stages }
}

/// The surroundings of a bare note.
fn place(notes: &[SketchNote], at: usize, before: Option<Sonority>) -> Place {
    let bass = notes[at].pitch;
    let same = |note: &&SketchNote| note.pitch.class() == bass.class() && note.figures.is_none();
    let heard = |note: &&SketchNote| note.weight != Weight::Passing;
    let ahead = notes[at..].iter().filter(heard).take_while(same).count();
    let behind = notes[..at].iter().rev().filter(heard).take_while(same).count();
    let next = notes[at..].iter().filter(heard).map(|note| note.pitch);
    Place {
        bass,
        next: next.into_iter().find(|next: &Pitch| next.class() != bass.class()),
        run: (ahead.max(1) + behind, behind),
        first: at == 0,
        before,
    }
}

/// The tonality of a bass on its own, as [`harmonise`] finds it.
pub fn find_tonality(bass: &[Pitch]) -> Tonality {
    key::find(bass)
}
