//! Other chords that work over a bass note, from plain to daring.
//!
//! Each chord of the stock that its degree can carry is put in place as if it
//! were given, and the bass around it is read anew; what that costs more than the
//! best reading says how well it joins its neighbours. Our choice: a window of
//! eight notes each way, beyond which nothing is felt, so that the length of the
//! bass does not matter. The keys of a diminished seventh are offered in each
//! spelling that their bass allows, since each leads elsewhere.

use super::chord::{Chord, Harmony, Reason};
use super::lexicon::{self, Kind, Shape};
use super::line::Line;
use super::path::{self, Found, FoundChord, Question};
use super::sonority::{Sonority, moved, printed};
use super::usage::{Manner, Memo, Rhythm};
use super::{given, kept, motions};
use crate::bass;
use crate::figures::{Figures, Stage};
use crate::order;
use crate::pitch::{Mode, Pitch, PitchClass, Tonality};
use crate::sketch::Sketch;
use std::ops::Range;

/// Notes read anew on each side.
const WINDOW: usize = 8;
/// A chord that strains its neighbours more than this is not offered.
const STRAIN_MAX: i32 = 90;
/// How daring it is to spell a diminished seventh anew.
const RESPELLED: u8 = 4;
/// How daring a deceptive move is at the least.
const DECEPTIVE: u8 = 1;
/// Farthest signature from the tonality of the moment to which one is turned: the
/// four tonalities of a diminished seventh lie three signatures apart.
const REACH: i32 = 9;

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
    pub chords: Vec<Chord>,
}

/// The chords that work over note `note` of a sketch, from plain to daring and,
/// as daring, the smoothest first. The chord that already stands there is left
/// out; there are none for a passing note or a note that does not exist. Cost: one
/// reading of the whole bass; [`alternatives_in`] is spared it.
pub fn alternatives(sketch: &Sketch, note: usize) -> Vec<Alternative> {
    alternatives_in(sketch, &super::harmonise(sketch), note)
}

/// The same where the harmony of the sketch is known. Cost: that of reading the
/// notes near by once for each chord tried, however long the bass.
pub fn alternatives_in(sketch: &Sketch, harmony: &Harmony, note: usize) -> Vec<Alternative> {
    let Some(window) = Window::around(sketch, harmony, note) else { return Vec::new() };
    let home = harmony.home;
    let bass = window.bass.class();
    let present: Vec<Stage> = window.chords.iter().map(|chord| chord.figures.clone()).collect();
    let here = window.tonality;
    let best = window.cost(None);
    let mut found: Vec<Alternative> = Vec::new();
    let mut offer = |tonality: Tonality, number: usize, shape: &Shape, turned: bool| {
        let chord = FoundChord::Stock(number);
        let sonorities = path::sonorities(&Found { tonality, chord, from: None }, bass);
        let stages = printed(&sonorities, window.before.as_ref(), home);
        let known = found.iter().any(|it| it.figures.stages() == stages.as_slice());
        if known || stages == present || (shape.kind == Kind::Pedal && !window.held) {
            return;
        }
        let strain = window.cost(Some(&sonorities)) - best;
        let Some(figures) = Figures::new(stages.clone()) else { return };
        if strain > STRAIN_MAX {
            return;
        }
        let deceives = window.deceives(&sonorities, tonality, shape.kind);
        let reason = if turned {
            Reason::Enharmonic { to: tonality }
        } else if let Some(to) = deceives {
            Reason::Deceptive { to }
        } else {
            let kept = kept(&sonorities, window.before.as_ref());
            Reason::Stock { kind: shape.kind, kept }
        };
        let chord = |(stage, sonority): (usize, &Sonority)| Chord {
            note,
            stage,
            bass: window.bass,
            tones: sonority.tones(tonality, sonorities.get(stage + 1)),
            tonality,
            degree: tonality.degree_of(bass.step),
            figures: stages[stage].clone(),
            reason: reason.clone(),
        };
        let chords = sonorities.iter().enumerate().map(chord).collect();
        let least = if deceives.is_some() { DECEPTIVE } else { 0 };
        let boldness = if turned { RESPELLED } else { shape.daring.max(least) };
        found.push(Alternative { figures, boldness, strain, reason: reason.clone(), chords });
    };
    for tonality in [Some(here), (home != here).then_some(home)].into_iter().flatten() {
        let (first, shapes) = stock(tonality, bass);
        for (offset, shape) in shapes.iter().enumerate() {
            offer(tonality, first + offset, shape, false);
        }
    }
    for tonality in turns(here) {
        let (first, shapes) = stock(tonality, bass);
        let sevenths = shapes.iter().enumerate().filter(|(_, shape)| {
            let layer = shape.stages.first();
            layer.is_some_and(|it| lexicon::diminished_keys(it.sets.sounding).is_some())
        });
        for (offset, shape) in sevenths {
            offer(tonality, first + offset, shape, true);
        }
    }
    order::by_key(&mut found, |it| (it.boldness, it.strain));
    found
}

/// The stock over a bass in a tonality, with the number of its first shape.
fn stock(tonality: Tonality, bass: PitchClass) -> (usize, &'static [Shape]) {
    lexicon::shapes(tonality.mode, bass.fifths() - tonality.tonic.fifths())
}

/// The minor tonalities to which a diminished seventh may turn, the nearest first.
fn turns(here: Tonality) -> Vec<Tonality> {
    let signature = here.signature();
    let mut all: Vec<i32> = (signature - REACH..=signature + REACH).collect();
    order::by_key(&mut all, |it| (it - signature).abs());
    let minor = |at: i32| Tonality::new(PitchClass::from_fifths(at + 3), Mode::Minor);
    all.into_iter().map(minor).filter(|it| *it != here).collect()
}

/// A stretch of the line around one note, read with the tonality at its ends.
struct Window {
    notes: Vec<(usize, Pitch, Option<Vec<Sonority>>)>,
    /// The note in question, counted from the window's start.
    place: usize,
    bass: Pitch,
    /// The chords that stand over it, and their tonality.
    chords: Vec<Chord>,
    tonality: Tonality,
    opens: Tonality,
    version: super::Version,
    daring: u8,
    /// The sonority before the note.
    before: Option<Sonority>,
    /// Whether its bass is held from the note before.
    held: bool,
    rhythms: Vec<Rhythm>,
}

impl Window {
    fn around(sketch: &Sketch, harmony: &Harmony, note: usize) -> Option<Window> {
        let chords = &harmony.chords;
        let first = chords.partition_point(|chord| chord.note < note);
        let here = chords.get(first).filter(|chord| chord.note == note)?;
        // The chords of each structural note near by, as ranges.
        let mut spans: Vec<Range<usize>> = vec![span(chords, first)];
        let place = (1..=WINDOW)
            .take_while(|_| {
                let start = spans[0].start;
                let earlier = start.checked_sub(1).map(|at| span(chords, at));
                earlier.is_some_and(|it| {
                    spans.insert(0, it);
                    true
                })
            })
            .count();
        while spans.len() < place + 1 + WINDOW
            && let Some(end) = spans.last().map(|it| it.end).filter(|&end| end < chords.len())
        {
            spans.push(span(chords, end));
        }
        let sonorities =
            |span: &Range<usize>| chords[span.clone()].iter().map(Sonority::from).collect();
        let last = spans.len() - 1;
        let notes = spans.iter().enumerate().map(|(at, it)| {
            let chord = &chords[it.start];
            // The ends stand as they are, so that only the neighbourhood moves.
            let rim = (at == 0 && it.start > 0) || (at == last && it.end < chords.len());
            let given = if rim {
                Some(sonorities(it))
            } else {
                let figures = sketch.notes.get(chord.note).and_then(|it| it.figures.as_ref());
                figures.map(|figures| given(figures, chord.bass.class(), harmony.home))
            };
            (chord.note, chord.bass, given)
        });
        let all_rhythms = bass::rhythms(&sketch.notes);
        let before = place.checked_sub(1).and_then(|at| spans.get(at));
        let held = before.is_some_and(|it| chords[it.start].bass.class() == here.bass.class());
        Some(Window {
            notes: notes.collect(),
            place,
            bass: here.bass,
            chords: chords[spans[place].clone()].to_vec(),
            tonality: here.tonality,
            opens: chords[spans[0].start].tonality,
            version: sketch.harmony.version,
            daring: sketch.harmony.daring.min(super::DARING_MAX),
            before: before.and_then(|it| chords.get(it.end - 1)).map(Sonority::from),
            held,
            rhythms: spans
                .iter()
                .map(|it| all_rhythms.get(chords[it.start].note).copied().unwrap_or_default())
                .collect(),
        })
    }

    /// The root on which a chord stands in place of the tonic, after a dominant whose
    /// leading note still finds its tonic there.
    fn deceives(&self, put: &[Sonority], tonality: Tonality, kind: Kind) -> Option<PitchClass> {
        let (tonic, leading) = (tonality.tonic, tonality.leading());
        let before = self.before.as_ref().filter(|it| it.has(leading) && !self.held)?;
        let dominant = [moved(tonic, 4, 7), leading].contains(&before.root()?);
        let first = put.first().filter(|it| it.has(tonic) && !it.has(leading))?;
        let root = first.root()?;
        let turns = matches!(kind, Kind::Plain | Kind::Borrowed | Kind::Secondary);
        (dominant && turns && root != tonic).then_some(root)
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
            led: Vec::new(),
            version: self.version,
            daring: self.daring,
            fixed: &[],
            rhythms: &self.rhythms,
            manner: Manner::of(self.version),
            memo: Memo::default(),
        };
        path::solve(&question).1
    }
}

/// The chords over the same note as the chord at `at`.
fn span(chords: &[Chord], at: usize) -> Range<usize> {
    let note = chords[at].note;
    let same = |chord: &&Chord| chord.note == note;
    let start = at - chords[..at].iter().rev().take_while(same).count();
    start..at + chords[at..].iter().take_while(same).count()
}
