//! The trellis: every price the solver can meet, laid out once.
//!
//! A line's price is the sum of a price for each note, each move and each three
//! notes in succession; the three kinds come from the rules in force and from
//! taste, both looked up in `costs`.

use super::costs::{self, Cost};
use super::motion::{Motion, motion};
use super::rules::{ChordLaw, Law, LineLaw, Moment, MoveLaw, Rule, Severity};
use super::wishes::FrameWishes;
use crate::figures::Stage;
use crate::harmony::Tone;

/// Prices of notes, moves and triples over the candidates of a piece.
#[derive(Clone, Debug, Default)]
pub(super) struct Trellis {
    /// How many candidates each chord has; none is 0.
    pub(super) widths: Vec<usize>,
    /// `notes[i][c]`: candidate `c` over chord `i`.
    pub(super) notes: Vec<Vec<Cost>>,
    /// `moves[i][p * width + c]`: from `p` over chord `i - 1` to `c` over `i`;
    /// `moves[0]` is empty.
    pub(super) moves: Vec<Vec<Cost>>,
    /// `triples[i][(p * width + c) * width of i - 2 + z]`: from `z` over chord
    /// `i - 2` through `p` to `c`; the first two are empty.
    pub(super) triples: Vec<Vec<Cost>>,
}

/// A rule in force with the price of breaking it once.
struct Priced<F> {
    law: F,
    price: Cost,
}

/// The laws in force, sorted by how much they look at.
struct Book {
    chord: Vec<Priced<ChordLaw>>,
    moves: Vec<Priced<MoveLaw>>,
    line: Vec<Priced<LineLaw>>,
}

impl Book {
    fn of(wishes: &FrameWishes) -> Book {
        let mut book = Book { chord: Vec::new(), moves: Vec::new(), line: Vec::new() };
        for rule in Rule::ALL {
            let price = match wishes.rules.severity(rule) {
                None => continue,
                Some(Severity::Caution) => costs::caution(rule),
                Some(Severity::Fault) => costs::FAULT + costs::caution(rule),
            };
            match rule.law() {
                Law::Chord(law) => book.chord.push(Priced { law, price }),
                Law::Move(law) => book.moves.push(Priced { law, price }),
                Law::Line(law) | Law::Stretch(law, _) => book.line.push(Priced { law, price }),
            }
        }
        book
    }
}

impl Trellis {
    /// Lays out the prices of these candidates. Cost: for each chord the product
    /// of three neighbouring widths.
    pub(super) fn new(wishes: &FrameWishes, layers: &[Vec<Moment>]) -> Trellis {
        Trellis::anew(wishes, layers, Trellis::default(), |_| false)
    }

    /// The same, taking over the prices of another trellis laid out under the same
    /// wishes for as many chords, where `same` says that chord and candidates at a
    /// place are what they were.
    pub(super) fn anew(
        wishes: &FrameWishes,
        layers: &[Vec<Moment>],
        mut old: Trellis,
        same: impl Fn(usize) -> bool,
    ) -> Trellis {
        let book = Book::of(wishes);
        let count = layers.len();
        let mut trellis = Trellis {
            widths: layers.iter().map(Vec::len).collect(),
            notes: Vec::with_capacity(count),
            moves: Vec::with_capacity(count),
            triples: Vec::with_capacity(count),
        };
        let kept = |old: &mut Vec<Vec<Cost>>, i: usize, back: usize| {
            let stands = (i.saturating_sub(back)..=i).all(&same);
            old.get_mut(i).filter(|_| stands).map(std::mem::take)
        };
        for (i, layer) in layers.iter().enumerate() {
            let before = if i > 0 { layers.get(i - 1) } else { None }.map_or(&[][..], |l| l);
            let earlier = if i > 1 { layers.get(i - 2) } else { None }.map_or(&[][..], |l| l);
            let place = Place { index: i, count };
            let notes = kept(&mut old.notes, i, 0).unwrap_or_else(|| {
                layer.iter().map(|m| note_price(&book, wishes, m, place)).collect()
            });
            let pairs = before.iter().flat_map(|from| layer.iter().map(move |to| (from, to)));
            let moves = kept(&mut old.moves, i, 1).unwrap_or_else(|| {
                pairs.clone().map(|(f, t)| move_price(&book, wishes, f, t)).collect()
            });
            let triples = kept(&mut old.triples, i, 2).unwrap_or_else(|| {
                let triples = pairs.flat_map(|(p, c)| earlier.iter().map(move |z| (z, p, c)));
                triples.map(|(z, p, c)| triple_price(&book, z, p, c)).collect()
            });
            trellis.notes.push(notes);
            trellis.moves.push(moves);
            trellis.triples.push(triples);
        }
        trellis
    }
}

#[derive(Clone, Copy)]
struct Place {
    index: usize,
    count: usize,
}

fn note_price(book: &Book, wishes: &FrameWishes, moment: &Moment, place: Place) -> Cost {
    let rules = book.chord.iter().filter(|rule| (rule.law)(moment, wishes.compass));
    let rules: Cost = rules.map(|rule| rule.price).sum();
    let (opens, closes) = (place.index == 0, place.index + 1 == place.count);
    let sonority = if opens || closes { 0 } else { costs::sonority(moment.pair.interval()) };
    rules
        + sonority
        + room_price(moment)
        + height_price(wishes, moment, place)
        + if closes { close_price(moment) } else { 0 }
}

/// The hands need room for the whole chord between the outer voices.
fn room_price(moment: &Moment) -> Cost {
    if moment.rests {
        return 0;
    }
    let (bass, soprano) = (moment.pair.bass, moment.pair.soprano);
    let gap = soprano.semitones() - bass.semitones();
    let hears = |tone: &&Tone| {
        let above = tone.class.at_or_above(bass).semitones();
        tone.omittable || tone.class == soprano.class() || above < soprano.semitones()
    };
    let shut_out = moment.chord.tones.iter().filter(|tone| !hears(tone)).count();
    costs::CRAMPED * (costs::ROOMY - gap).max(0) as Cost
        + costs::STRAYS * (gap - costs::FAR).max(0) as Cost
        + costs::SHUTS_OUT * shut_out as Cost
}

/// A wished contour is paid for besides the easy middle, so that wishing one can
/// only bring the line nearer to it.
fn height_price(wishes: &FrameWishes, moment: &Moment, place: Place) -> Cost {
    let soprano = moment.pair.soprano.semitones();
    let off = |centre: i32| u64::from(soprano.abs_diff(centre));
    let wished = wishes.contour.height(place.index, place.count);
    let centre = (wishes.compass.low.number() + wishes.compass.high.number()) / 2;
    wished.map_or(0, |height| off(height) * costs::OFF_CONTOUR)
        + off(centre).saturating_sub(costs::EASY_REACH) * costs::OFF_CENTRE
}

/// Home on a tonic chord is the tonic on top.
fn close_price(moment: &Moment) -> Cost {
    let tonic = moment.chord.tonality.tonic;
    if moment.pair.bass.class() != tonic || moment.pair.soprano.class() == tonic {
        0
    } else if moment.pair.interval().simple_number() == 3 {
        costs::ENDS_ON_THIRD
    } else {
        costs::ENDS_ELSEWHERE
    }
}

fn move_price(book: &Book, wishes: &FrameWishes, from: &Moment, to: &Moment) -> Cost {
    let rules = book.moves.iter().filter(|rule| (rule.law)(from, to));
    let rules: Cost = rules.map(|rule| rule.price).sum();
    if from.rests || to.rests {
        return rules;
    }
    let steps = to.pair.soprano.diatonic() - from.pair.soprano.diatonic();
    let stays = from.pair.soprano.same_key(to.pair.soprano);
    let held = to.chord.figures == Stage::Hold && !stays;
    let bass_moves = !from.pair.bass.same_key(to.pair.bass);
    let how = motion(from.pair, to.pair);
    let motion = match how {
        Motion::Oblique if !bass_moves && steps.abs() > 1 => costs::LEAPS_OVER_HELD_BASS,
        Motion::Oblique if !bass_moves => 0,
        _ => costs::motion(how, to.pair.interval(), steps, wishes.preference),
    };
    rules
        + motion
        + costs::step(steps, wishes.smoothness)
        + if held { costs::LEAVES_HELD_CHORD } else { 0 }
}

fn triple_price(book: &Book, first: &Moment, middle: &Moment, last: &Moment) -> Cost {
    let rules = book.line.iter().filter(|rule| (rule.law)(first, middle, last));
    let rules: Cost = rules.map(|rule| rule.price).sum();
    if first.rests || middle.rests || last.rests {
        return rules;
    }
    let one = middle.pair.soprano.diatonic() - first.pair.soprano.diatonic();
    let two = last.pair.soprano.diatonic() - middle.pair.soprano.diatonic();
    let on = one.abs() >= 3 && one.signum() == two.signum();
    let taste = match two.abs() {
        _ if !on => 0,
        0 => 0,
        1 => costs::DOES_NOT_TURN_BACK,
        _ => costs::LEAPS_ON,
    };
    rules + taste
}
