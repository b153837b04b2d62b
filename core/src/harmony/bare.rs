//! The chord of a bare bass note, from where the bass goes next.

use super::chord::{Cadence, Reason};
use super::octave_rule::{Direction, Version, octave_rule};
use super::sonority::{Sonority, moved, semitones_up};
use crate::figures::{Stage, read_figures};
use crate::pitch::{Mode, Pitch, PitchClass, Tonality};

/// A bare note's chords before they are spelled out.
pub(super) struct Choice {
    pub(super) tonality: Tonality,
    pub(super) stages: Vec<(Sonority, Reason)>,
}

/// A bass note in its surroundings.
pub(super) struct Place {
    pub(super) bass: Pitch,
    /// The next bass note of another class.
    pub(super) next: Option<Pitch>,
    /// How many bare notes of this class stand together here, at least 1, and
    /// which of them this is, from 0.
    pub(super) run: (usize, usize),
    pub(super) first: bool,
    /// The tones sounding before it.
    pub(super) before: Option<Sonority>,
}

/// Chooses the chord of a bare note.
pub(super) fn choose(place: &Place, home: Tonality, version: Version) -> Choice {
    let class = place.bass.class();
    let degree = home.degree_of(class.step);
    let raised = i32::from(class.alter) - i32::from(home.scale(degree).alter);
    let melodic_minor = home.mode == Mode::Minor && raised == 1 && matches!(degree.number(), 6 | 7);
    if raised == 0
        && degree.number() == 5
        && let Some(choice) = cadence(place, home)
    {
        return choice;
    }
    if raised == 0 || melodic_minor {
        scale_note(place, home, version, raised != 0)
    } else {
        chromatic_note(place, home, version, raised)
    }
}

/// The way a bass leaves by step, its register aside; `None` for a leap.
fn step_to(from: Pitch, next: Option<Pitch>) -> Option<Direction> {
    match (next? - from).steps {
        1 | -6 => Some(Direction::Up),
        -1 | 6 => Some(Direction::Down),
        _ => None,
    }
}

fn single(tonality: Tonality, bass: PitchClass, stage: &Stage, reason: Reason) -> Choice {
    Choice { tonality, stages: vec![(Sonority::of(stage, bass, tonality), reason)] }
}

/// The stage of a fixed text of this file.
fn stage(text: &str) -> Stage {
    let figures = read_figures(text).ok();
    let first = figures.and_then(|figures| figures.stages().first().cloned());
    first.unwrap_or(Stage::Signs(Vec::new()))
}

fn scale_note(place: &Place, home: Tonality, version: Version, raised: bool) -> Choice {
    let class = place.bass.class();
    let degree = home.degree_of(class.step);
    if degree.number() == 1 {
        let reason = match (place.next, place.first) {
            (_, true) => Reason::Opening,
            (None, false) => Reason::Closing,
            (Some(_), false) => match step_to(place.bass, place.next) {
                Some(leaves) => Reason::Octave { version, leaves },
                None => Reason::Leap { to: place.next.map_or(class, Pitch::class) },
            },
        };
        return single(home, class, &stage("5/3"), reason);
    }
    if let Some(leaves) = step_to(place.bass, place.next) {
        let cell = octave_rule(version, home.mode, leaves, degree);
        // Rising 6 and 7 of minor are raised, falling ones not; against the grain
        // (raised but falling) both keep a plain 6.
        let stage = if cell.raised == raised { cell.stage } else { stage("6") };
        return single(home, class, &stage, Reason::Octave { version, leaves });
    }
    let reason = match place.next {
        Some(next) => Reason::Leap { to: next.class() },
        None => Reason::Stop,
    };
    let to = place.next.map(|next| home.degree_of(next.step).number());
    let minor = home.mode == Mode::Minor;
    let text = match (degree.number(), to) {
        (2, Some(5)) if minor => "7",
        (2, Some(5)) => "5/3",
        (2, Some(7)) if minor => "6+/4/3",
        (2, Some(7)) => "6/4/3",
        (2, _) if minor => "6+",
        (2, _) => "6",
        (3, _) => "6",
        (4, _) => "5/3",
        (5, _) if minor => "5/3+",
        (5, _) => "5/3",
        (6, _) if raised => "6",
        (6, _) => "5/3",
        (7, _) if minor && !raised => "5/3",
        (7, None) => "6",
        (7, _) => "6/5",
        _ => "5/3",
    };
    single(home, class, &stage(text), reason)
}

/// The 5th before the tonic: as many stages as the bass gives it notes.
fn cadence(place: &Place, home: Tonality) -> Option<Choice> {
    let next = place.next?;
    if next.class() != home.tonic {
        return None;
    }
    let (count, at) = place.run;
    let third = if home.mode == Mode::Minor { "5/3+" } else { "5/3" };
    // A fourth wants the tonic sounding before it; else the six-four, which need
    // not be prepared.
    let prepared = place.before.as_ref().is_some_and(|before| before.has(home.tonic));
    let (kind, text) = match (count, count - at.min(count)) {
        (1, _) => (Cadence::Simple, if home.mode == Mode::Minor { "7/3+" } else { "7" }),
        (2, 2) => (Cadence::Compound, if prepared { "5/4" } else { "6/4" }),
        (2, _) => (Cadence::Compound, third),
        (_, 3) => (Cadence::Double, "6/4"),
        (_, 2) => (Cadence::Double, "5/4"),
        _ => (Cadence::Double, third),
    };
    let stage_number = if count > 3 { at.saturating_sub(count - 4) } else { at };
    let reason = Reason::Cadence { kind, stage: stage_number };
    Some(single(home, place.bass.class(), &stage(text), reason))
}

fn chromatic_note(place: &Place, home: Tonality, version: Version, raised: i32) -> Choice {
    let class = place.bass.class();
    let Some(next) = place.next else {
        return single(home, class, &stage("6"), Reason::Foreign);
    };
    let to = next.class();
    let up = (next.step.index() - class.step.index()).rem_euclid(7) == 1;
    let down = (class.step.index() - next.step.index()).rem_euclid(7) == 1;
    let third = semitones_up(to, home.class_of(moved(to, 2, 4).step));
    let mode = if third == 3 { Mode::Minor } else { Mode::Major };
    if raised > 0 && up && semitones_up(class, to) == 1 {
        // The 7th degree of the note it leads to, rising.
        let local = Tonality::new(to, mode);
        return single(local, class, &stage("6/5"), Reason::LeadingBass { to });
    }
    let parallel = Tonality::new(home.tonic, Mode::Minor);
    if home.mode == Mode::Major && parallel.is_diatonic(class) {
        let seventh = parallel.degree_of(class.step).number() == 7;
        if seventh && down {
            // The 4th degree of its own fifth below, falling to the 3rd.
            let local = Tonality::new(moved(class, -3, -5), Mode::Major);
            return single(local, class, &stage("6/4/2"), Reason::SeventhBass { to });
        }
        let borrowed = scale_note(place, parallel, version, false);
        let stages = borrowed.stages.into_iter().map(|(it, _)| (it, Reason::Borrowed));
        return Choice { tonality: parallel, stages: stages.collect() };
    }
    single(home, class, &stage("6"), Reason::Foreign)
}
