//! Other chords that work over a bass note, from plain to daring.
//!
//! Each chord of the stock that its degree can carry is put in place as if it
//! were given, and the bass around it is read anew; what that costs more than the
//! best reading says how well it joins its neighbours. Our choice: a window of
//! eight notes each way, beyond which nothing is felt.

use super::chord::{Harmony, Reason};
use super::lexicon::{self, Kind};
use super::line::Line;
use super::path::{self, Found, FoundChord, Question};
use super::sonority::{Sonority, printed};
use super::{fixed_tonalities, kept, motions, structural};
use crate::figures::{Figures, Stage};
use crate::order;
use crate::pitch::Tonality;
use crate::sketch::Sketch;

/// Notes read anew on each side.
const WINDOW: usize = 8;
/// A chord that strains its neighbours more than this is not offered.
const STRAIN_MAX: i32 = 72;

/// A chord that could stand over a note.
#[derive(Clone, Debug, PartialEq)]
pub struct Alternative {
    /// Its figures, under the home signature, ready to be given to the note.
    pub figures: Figures,
    /// How daring, in the range [0, 4].
    pub boldness: u8,
    /// How much worse than the best it joins its neighbours; 10 is one clear step.
    pub strain: i32,
    /// What kind of chord it is and what it keeps; the words say it with the note.
    pub reason: Reason,
    /// The chord as it would stand there, first stage first.
    pub chords: Vec<super::Chord>,
}

/// The chords that work over note `note` of a sketch, from plain to daring and,
/// as daring, the smoothest first. The chord that already stands there is left
/// out; there are none for a passing note or a note that does not exist.
pub fn alternatives(sketch: &Sketch, note: usize) -> Vec<Alternative> {
    let harmony = super::harmonise(sketch);
    let home = harmony.home;
    let (line, _) = structural(&sketch.notes, home);
    let Some(place) = line.spots.iter().position(|spot| spot.note == note) else {
        return Vec::new();
    };
    let Some(here) = harmony.chords.iter().find(|chord| chord.note == note) else {
        return Vec::new();
    };
    let present: Vec<Stage> = present(&harmony, note);
    let bass = line.spots[place].pitch.class();
    let mut found: Vec<Alternative> = Vec::new();
    let mut tonalities = vec![here.tonality];
    if home != here.tonality {
        tonalities.push(home);
    }
    let window = Window::around(sketch, &harmony, &line, place);
    let best = window.cost(None);
    for tonality in tonalities {
        let distance = bass.fifths() - tonality.tonic.fifths();
        let (first, shapes) = lexicon::shapes(tonality.mode, distance);
        for (offset, shape) in shapes.iter().enumerate() {
            let chord = FoundChord::Stock(first + offset);
            let sonorities = path::sonorities(&Found { tonality, chord, from: None }, bass);
            let stages = printed(&sonorities, window.before.as_ref(), home);
            let known = found.iter().any(|it| it.figures.stages() == stages.as_slice());
            if known || stages == present || unresolved_pedal(shape.kind, &line, place) {
                continue;
            }
            let strain = window.cost(Some(&sonorities)) - best;
            let Some(figures) = Figures::new(stages.clone()) else { continue };
            if strain > STRAIN_MAX {
                continue;
            }
            let before = window.before.as_ref();
            let reason = Reason::Stock { kind: shape.kind, kept: kept(&sonorities, before) };
            let chord = |(stage, sonority): (usize, &Sonority)| super::Chord {
                note,
                stage,
                bass: line.spots[place].pitch,
                tones: sonority.tones(tonality, sonorities.get(stage + 1)),
                tonality,
                degree: tonality.degree_of(bass.step),
                figures: stages[stage].clone(),
                reason: reason.clone(),
            };
            let chords = sonorities.iter().enumerate().map(chord).collect();
            let boldness = shape.daring;
            found.push(Alternative { figures, boldness, strain, reason: reason.clone(), chords });
        }
    }
    order::by_key(&mut found, |it| (it.boldness, it.strain));
    found
}

/// The figures that now stand over a note.
fn present(harmony: &Harmony, note: usize) -> Vec<Stage> {
    let chords = harmony.chords.iter().filter(|chord| chord.note == note);
    chords.map(|chord| chord.figures.clone()).collect()
}

/// A chord over a held bass is no use where the bass is not held.
fn unresolved_pedal(kind: Kind, line: &Line, place: usize) -> bool {
    kind == Kind::Pedal && line.spots[place].run.0 == 0
}

/// A stretch of the line around one note, read with the tonality at its ends.
struct Window {
    notes: Vec<(usize, crate::pitch::Pitch, Option<Vec<Sonority>>)>,
    /// The note in question, counted from the window's start.
    place: usize,
    opens: Tonality,
    version: super::Version,
    daring: u8,
    /// The sonority before the note.
    before: Option<Sonority>,
}

impl Window {
    fn around(sketch: &Sketch, harmony: &Harmony, line: &Line, place: usize) -> Window {
        let start = place.saturating_sub(WINDOW);
        let end = (place + WINDOW + 1).min(line.spots.len());
        let of = |note: usize| harmony.chords.iter().filter(move |chord| chord.note == note);
        let sonorities = |note: usize| -> Vec<Sonority> { of(note).map(Sonority::from).collect() };
        let spots = line.spots[start..end].iter().enumerate();
        let notes = spots.map(|(at, spot)| {
            // The ends stand as they are, so that only the neighbourhood moves.
            let rim = (at == 0 && start > 0) || (start + at + 1 == end && end < line.spots.len());
            let given = if rim { Some(sonorities(spot.note)) } else { spot.given.clone() };
            (spot.note, spot.pitch, given)
        });
        let first = line.spots.get(start).and_then(|spot| of(spot.note).next());
        let before = place.checked_sub(1).and_then(|at| line.spots.get(at));
        Window {
            notes: notes.collect(),
            place: place - start,
            opens: first.map_or(harmony.home, |chord| chord.tonality),
            version: sketch.harmony.version,
            daring: sketch.harmony.daring.min(super::DARING_MAX),
            before: before.and_then(|spot| sonorities(spot.note).into_iter().last()),
        }
    }

    /// The cost of the window with a chord put in place, or as it is.
    fn cost(&self, put: Option<&[Sonority]>) -> i32 {
        let mut notes = self.notes.clone();
        if let (Some(note), Some(sonorities)) = (notes.get_mut(self.place), put) {
            note.2 = Some(sonorities.to_vec());
        }
        let line = Line::new(notes);
        let stretches = motions::stretches(&line);
        let question = Question {
            line: &line,
            stretches: &stretches,
            home: self.opens,
            version: self.version,
            daring: self.daring,
            fixed: &fixed_tonalities(&line, &[]),
        };
        path::solve(&question).1
    }
}
