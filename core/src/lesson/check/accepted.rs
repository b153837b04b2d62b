//! Which chords belong over the notes of a given bass.
//!
//! A note's ways are the model's, those of every published version of the octave
//! rule in place, and its rows by degree for a note left by step or leap (the
//! rule holds by degree and direction, not for scales alone: Nicolas, *MTO*
//! 25.4, 2019). A 5th before the tonic takes the sonorities of a simple,
//! compound or double cadence ("Cadences: the basics", essaysonmusic.com; the
//! six-four form from memory), however many of its bass notes carry them.

use super::Case;
use super::figures::AcceptedStage;
use crate::figures::{Figures, Stage, expand_all, read_figures};
use crate::harmony::{Chord, Direction, Harmony, Version, harmonise, octave_rule};
use crate::lesson::ask::Measure;
use crate::lesson::tonal::{classes, fifth, tidy};
use crate::pitch::{Mode, PitchClass, Tonality};
use crate::sketch::Sketch;
use std::ops::Range;

/// One accepted way over a group of notes.
pub(super) struct Accepted {
    /// Its sonorities in order.
    pub(super) stages: Vec<AcceptedStage>,
}

impl Accepted {
    /// Whether these sonorities are this way's.
    pub(super) fn sounds(&self, sounding: &[Vec<PitchClass>]) -> bool {
        self.stages.len() == sounding.len()
            && self.stages.iter().zip(sounding).all(|(stage, has)| stage.classes == *has)
    }

    fn of(chords: &[&Chord]) -> Accepted {
        let stage = |chord: &&Chord| AcceptedStage {
            classes: classes(chord),
            figures: chord.figures.clone(),
        };
        Accepted { stages: chords.iter().map(stage).collect() }
    }

    /// Figures over a class under a signature.
    fn figured(figures: &Figures, bass: PitchClass, home: Tonality) -> Accepted {
        let stages = expand_all(figures, bass, home);
        let stages = stages.into_iter().zip(figures.stages()).map(|(sounds, figures)| {
            let all = sounds.tones.iter().map(|tone| tone.class).chain([bass]);
            AcceptedStage { classes: tidy(all.collect()), figures: figures.clone() }
        });
        Accepted { stages: stages.collect() }
    }
}

/// The notes of the given bass in groups, each with its accepted ways, the
/// expected one first. A group is one note, or all notes of a 5th before the tonic.
pub(super) fn accepted(case: &Case<'_>, measure: Measure) -> Vec<(Range<usize>, Vec<Accepted>)> {
    let given = &case.exercise.sketch;
    let model = case.exercise.model.as_ref().map(|model| harmonise(&model.sketch));
    let own = harmonise(given);
    let home = own.home;
    // What some pieces happen to use is no rule that an answer may lean on.
    let published = Version::ALL.into_iter().filter(|version| !version.is_counted());
    let versions: Vec<Harmony> = published
        .map(|version| {
            let mut sketch = given.clone();
            sketch.harmony.version = version;
            harmonise(&sketch)
        })
        .collect();
    let ways = |group: &Range<usize>| {
        let from = |harmony: &Harmony| {
            let over = harmony.chords.iter().filter(|chord| group.contains(&chord.note));
            Accepted::of(&over.collect::<Vec<_>>())
        };
        let mut ways: Vec<Accepted> = model.iter().map(from).collect();
        if measure == Measure::Accepted || model.is_none() {
            ways.push(from(&own));
        }
        if measure == Measure::Accepted {
            ways.extend(versions.iter().map(from));
            ways.extend(by_rule(given, group, home));
        }
        ways
    };
    groups(given, home).into_iter().map(|group| (group.clone(), ways(&group))).collect()
}

/// The bass in groups.
fn groups(sketch: &Sketch, home: Tonality) -> Vec<Range<usize>> {
    let class = |i: usize| sketch.notes.get(i).map(|note| note.pitch.class());
    let mut groups = Vec::new();
    let mut at = 0;
    while at < sketch.notes.len() {
        let mut end = at + 1;
        if class(at) == Some(fifth(home)) {
            while class(end) == class(at) {
                end += 1;
            }
            if class(end) != Some(home.tonic) {
                end = at + 1;
            }
        }
        groups.push(at..end);
        at = end;
    }
    groups
}

/// What the rules say of a group apart from its surroundings.
fn by_rule(sketch: &Sketch, group: &Range<usize>, home: Tonality) -> Vec<Accepted> {
    let at = |i: usize| sketch.notes.get(i).map(|note| note.pitch);
    let Some(bass) = at(group.start) else { return Vec::new() };
    let class = bass.class();
    let next = at(group.end);
    if class == fifth(home) && next.is_some_and(|next| next.class() == home.tonic) {
        return cadences(class, home, group.len());
    }
    let degree = home.degree_of(class.step);
    let raised = class.alter.saturating_sub(home.class_of(class.step).alter);
    let directions: &[Direction] = match next.map(|next| (next - bass).steps) {
        Some(1 | -6) => &[Direction::Up],
        Some(-1 | 6) => &[Direction::Down],
        _ => &[Direction::Up, Direction::Down],
    };
    let cells = Version::ALL.into_iter().flat_map(|version| {
        let cell = move |&direction| octave_rule(version, home.mode, direction, degree);
        directions.iter().map(cell)
    });
    let cells = cells.filter(|cell| i8::from(cell.raised) == raised).map(|cell| cell.stage);
    let mut stages: Vec<Stage> = cells.collect();
    if directions.len() == 2 && raised == 0 {
        // Common practice: a note left by leap takes the plain chord of the scale,
        // or the sixth where the plain chord is diminished or weak.
        let minor_fifth = home.mode == Mode::Minor && degree.number() == 5;
        let text = match degree.number() {
            1 | 4 => &["5/3"][..],
            5 if minor_fifth => &["5/3+"],
            5 => &["5/3"],
            2 | 6 => &["5/3", "6"],
            _ => &["6"],
        };
        stages.extend(text.iter().filter_map(|text| first_stage(text)));
    }
    let figures = stages.into_iter().filter_map(|stage| Figures::new(vec![stage]));
    figures.map(|figures| Accepted::figured(&figures, class, home)).collect()
}

fn first_stage(text: &str) -> Option<Stage> {
    read_figures(text).ok()?.stages().first().cloned()
}

/// The sonorities of the cadences, which may be spread over `notes` bass notes.
fn cadences(fifth: PitchClass, home: Tonality, notes: usize) -> Vec<Accepted> {
    let third = if home.mode == Mode::Minor { "+" } else { "3" };
    let plain = format!("5/{third}");
    let seventh = format!("7/{third}");
    let mut ways = Vec::new();
    for last in [&plain, &seventh] {
        ways.push(last.clone());
        ways.push(format!("5/4-{last}"));
        ways.push(format!("6/4-{last}"));
        ways.push(format!("{plain}-6/4-5/4-{last}"));
        ways.push(format!("{seventh}-6/4-5/4-{last}"));
        ways.push(format!("{plain}-{last}"));
        // A chord struck anew on every note.
        ways.push(vec![last.as_str(); notes].join("-"));
    }
    let figures = ways.iter().filter_map(|text| read_figures(text).ok());
    figures.map(|figures| Accepted::figured(&figures, fifth, home)).collect()
}
