//! What the search chooses among, for learning: the chords over each bass note in its
//! tonality, and what joins them, as logarithms of likelihood without the habit.

use super::costs;
use super::joins::Joins;
use super::path::{self, FoundChord, Open, Question};
use super::ruling::Local;
use super::usage::{self, Feature, Memo};
use super::{Manner, fixed_tonalities, key, lengths, structural};
use crate::pitch::Tonality;
use crate::sketch::Sketch;

/// A bass note as the search sees it.
pub struct Moment {
    /// The place of the note in the sketch.
    pub note: usize,
    /// What is known of it, weighted; see [`Feature`].
    pub features: Vec<(Feature, f64)>,
    /// The chords that can stand here.
    pub chords: Vec<Standing>,
    /// What joins each chord of the note before to each of this, by the former and then
    /// the latter; empty at the first.
    pub joins: Vec<f64>,
}

/// A chord that can stand over a bass note.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Standing {
    /// Which of the seven figures it comes to rest on; see [`super::FIGURES`].
    pub figure: Option<usize>,
    /// How likely it is among the chords of its figure, or among all where it has none.
    pub likely: f64,
}

/// The notes of a sketch under fixed tonalities by the version that it wishes; a note
/// whose tonality is not fixed is taken in the home tonality. Empty for a version that
/// follows no counts.
pub fn lattice(sketch: &Sketch, tonalities: &[Option<Tonality>]) -> Vec<Moment> {
    let home = sketch.tonality.unwrap_or_else(|| key::find(&[]));
    let (line, _) = structural(&sketch.notes, home);
    let fixed = fixed_tonalities(&line, tonalities);
    let question = Question {
        line: &line,
        stretches: &[],
        home,
        led: Vec::new(),
        version: sketch.harmony.version,
        daring: 0,
        fixed: &fixed,
        rhythms: &lengths(sketch, &line),
        manner: Manner::of(sketch.harmony.version),
        memo: Memo::default(),
    };
    let tonality = |at: usize| fixed.get(at).copied().flatten().unwrap_or(home);
    let mut moments = Vec::with_capacity(line.spots.len());
    let mut before: Option<(Tonality, Vec<Open>)> = None;
    for (at, spot) in line.spots.iter().enumerate() {
        let tonality = tonality(at);
        let local = Local::new(tonality);
        let Some(usage) = path::usage_here(&question, at, &local) else { continue };
        let open = path::standing(&question, at, Local::new(tonality));
        let (shares, figures) = usage.shares();
        let features = usage.features(figures);
        let (start, shapes) = super::lexicon::shapes(tonality.mode, spot.place - local.tonic);
        let last = at + 1 == line.spots.len();
        let standing = |open: &Open| {
            let begins = if at == 0 { costs::begin(&open.first) } else { 0 };
            let ends = if last { costs::end(&open.last) } else { 0 };
            let bounds = -f64::from(begins + ends) / usage::NAT;
            let offset = number(open).map(|number| number - start);
            let shape = offset.and_then(|it| shapes.get(it));
            let share = offset.and_then(|it| shares.get(it)).copied().unwrap_or(0.0);
            Standing { figure: shape.and_then(|it| it.figure), likely: share + bounds }
        };
        let mut joins = Vec::new();
        if let Some((from, before)) = &before {
            let back = line.spots[at - 1].place - local.tonic;
            let pairs =
                usage::pairs(question.manner, tonality.mode, back, spot.place - local.tonic);
            // As in the search: a new tonality owes only its duties.
            let pairs = pairs.filter(|_| *from == tonality);
            let duties = Joins::of(tonality.mode);
            for (from, to) in before.iter().flat_map(|from| open.iter().map(move |to| (from, to))) {
                let cost = match (pairs, number(from), number(to)) {
                    (Some(pairs), Some(from), Some(to)) => {
                        let duty = duties.to(to, true).get(from).copied().unwrap_or(0);
                        pairs.cost(from, to) + duty
                    }
                    _ => costs::step(&from.last, &to.first),
                };
                joins.push(-f64::from(cost) / usage::NAT);
            }
        }
        let chords = open.iter().map(standing).collect();
        moments.push(Moment { note: spot.note, features, chords, joins });
        before = Some((tonality, open));
    }
    moments
}

fn number(open: &Open) -> Option<usize> {
    match open.chord {
        FoundChord::Stock(number) => Some(number),
        FoundChord::Given | FoundChord::Turned(_) | FoundChord::Plain => None,
    }
}
