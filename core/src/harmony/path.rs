//! The best chords over a whole bass: exact dynamic programming over tonality,
//! degree and chord.
//!
//! A state is a tonality and a chord of its stock over the note's bass. Staying
//! in a tonality costs the step from chord to chord; a chord that belongs to two
//! tonalities may be read anew in the second at the price of the change, and
//! there is a dearer change without a common chord. Cost: O(notes x tonalities x
//! chords²), linear in the length of the bass.

use super::costs;
use super::joins::{Joins, ends};
use super::lexicon::{self, Sets, Shape, shapes};
use super::line::Line;
use super::motions::Stretch;
use super::octave_rule::Version;
use super::ruling::{Local, Ruling, rulings};
use super::sonority::Sonority;
use super::usage::{self, Manner, Memo, Rhythm};
use crate::figures::{FiguredTone, Stage};
use crate::pitch::{Mode, PitchClass, Tonality};
use std::cell::LazyCell;

/// Farthest signature from home that is considered.
const REACH: i32 = 5;
/// A chord outside the stock, where the stock has none.
const OUTSIDE_STOCK: i32 = 40;
/// A chord this likely in the usage is offered however daring it is.
const HEARD: f64 = 0.02;
/// From this wish for daring on, a diminished seventh of the stock may be respelled.
const RESPELLS: u8 = 3;
/// How many of the cheapest readings of a chord may turn into others.
const SOURCES: usize = 3;

/// What the search is asked.
pub(super) struct Question<'a> {
    pub(super) line: &'a Line,
    pub(super) stretches: &'a [Option<Stretch>],
    pub(super) home: Tonality,
    /// The tonality each spot is expected in, and the one it is reached in where that
    /// differs; empty where nothing is expected.
    pub(super) led: Vec<(Tonality, Option<Tonality>)>,
    pub(super) version: Version,
    pub(super) daring: u8,
    /// The tonality of each spot, where it is fixed.
    pub(super) fixed: &'a [Option<Tonality>],
    /// The lengths of the spots; missing where nobody said.
    pub(super) rhythms: &'a [Rhythm],
    /// What is followed where no rule is.
    pub(super) manner: &'a Manner,
    pub(super) memo: Memo,
}

/// The chord found for a spot.
pub(super) struct Found {
    pub(super) tonality: Tonality,
    pub(super) chord: FoundChord,
    /// The tonality it is reached in, where that differs, and what joins the two.
    pub(super) from: Option<(Tonality, Joint)>,
}

/// What joins two tonalities.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Joint {
    /// A chord of both.
    Common,
    /// A diminished seventh whose keys are spelled anew in the second.
    Respelled,
    /// Nothing.
    None,
}

/// Where a found chord comes from.
#[derive(Clone, Copy)]
pub(super) enum FoundChord {
    /// The person's figures.
    Given,
    /// The person's figures, a diminished seventh, spelled as the stock's shape of
    /// this number.
    Turned(usize),
    /// The stock's shape of this number in its mode.
    Stock(usize),
    /// Neither fits: a plain chord by the signature.
    Plain,
}

#[derive(Clone, Copy)]
struct State {
    key: usize,
    chord: FoundChord,
    /// Cost of reaching it, its own emission included.
    cost: i32,
    /// The state of the spot before from which it is reached in its own tonality.
    back: usize,
    /// The state of the same spot it is a re-reading of, where that is cheaper.
    hinge: Option<usize>,
    /// How that re-reading is heard.
    joint: Joint,
}

/// A chord that can stand over a spot.
pub(super) struct Open {
    key: usize,
    pub(super) chord: FoundChord,
    emission: i32,
    pub(super) first: Sets,
    pub(super) last: Sets,
}

/// What it costs to change among the tonalities considered, worked out once.
struct Changes {
    keys: usize,
    costs: Vec<i32>,
}

impl Changes {
    fn among(keys: &[Local]) -> Changes {
        let from = |from: &Local| {
            let from = from.tonality;
            keys.iter().map(move |to| costs::change(from, to.tonality))
        };
        Changes { keys: keys.len(), costs: keys.iter().flat_map(from).collect() }
    }

    fn cost(&self, from: usize, to: usize) -> i32 {
        self.costs.get(from * self.keys + to).copied().unwrap_or(0)
    }
}

/// The best reading of the whole line and its cost.
pub(super) fn solve(question: &Question) -> (Vec<Found>, i32) {
    let keys = tonalities(question);
    let changes = Changes::among(&keys);
    let spots = &question.line.spots;
    let mut all: Vec<Vec<State>> = Vec::with_capacity(spots.len());
    let mut before: Vec<Open> = Vec::new();
    for at in 0..spots.len() {
        let open = candidates(question, &keys, at);
        let states = match all.last() {
            None => first_states(question, &keys, &open),
            Some(last) => next_states(question, at, (&keys, &changes), (&before, last), &open),
        };
        all.push(states);
        before = open;
    }
    let end = |it: (usize, &State)| {
        let (index, state) = it;
        let away = keys.get(state.key).is_some_and(|key| key.tonality != question.home);
        let open = before.get(index).map_or(0, |open| costs::end(&open.last));
        let away = if away && question.fixed.is_empty() { costs::FOREIGN_END } else { 0 };
        (state.cost.saturating_add(open + away), index)
    };
    let Some((cost, index)) = all.last().and_then(|last| last.iter().enumerate().map(end).min())
    else {
        return (Vec::new(), 0);
    };
    (trace(&keys, &all, index), cost)
}

/// The tonalities of a line by the counted usage, for the rules to be led by: a rule
/// fits every scale alike, and tells little of where the tonality turns.
pub(super) fn led(question: &Question) -> Vec<(Tonality, Option<Tonality>)> {
    let counted = Question {
        version: Version::Chorales,
        led: Vec::new(),
        memo: Memo::default(),
        ..*question
    };
    let (found, _) = solve(&counted);
    found.into_iter().map(|it| (it.tonality, it.from.map(|(from, _)| from))).collect()
}

/// The chords that can stand over a spot in a tonality.
pub(super) fn standing(question: &Question, at: usize, local: Local) -> Vec<Open> {
    candidates(question, &[local], at)
}

fn trace(keys: &[Local], all: &[Vec<State>], mut index: usize) -> Vec<Found> {
    let mut found = Vec::with_capacity(all.len());
    for at in (0..all.len()).rev() {
        let Some(&state) = all[at].get(index) else { break };
        let Some(key) = keys.get(state.key) else { break };
        let mut from = None;
        let mut reached = state;
        if let Some(source) = state.hinge {
            let Some(&source) = all[at].get(source) else { break };
            from = keys.get(source.key).map(|key| (key.tonality, state.joint));
            reached = source;
        }
        if at > 0
            && let Some(earlier) = all[at - 1].get(reached.back)
            && earlier.key != reached.key
        {
            from = keys.get(earlier.key).map(|key| (key.tonality, Joint::None));
        }
        found.push(Found { tonality: key.tonality, chord: state.chord, from });
        index = reached.back;
    }
    found.reverse();
    found
}

/// The tonalities within reach of home, home first.
fn tonalities(question: &Question) -> Vec<Local> {
    let home = question.home;
    let mut keys = vec![home];
    if !question.led.is_empty() {
        keys.extend(question.led.iter().flat_map(|it| [Some(it.0), it.1]).flatten());
    } else if question.fixed.is_empty() || question.fixed.iter().any(Option::is_none) {
        // A respelled diminished seventh opens the farthest keys.
        let reach = if question.daring >= RESPELLS { REACH + 1 } else { REACH };
        for signature in home.signature() - reach..=home.signature() + reach {
            keys.push(Tonality::new(PitchClass::from_fifths(signature), Mode::Major));
            keys.push(Tonality::new(PitchClass::from_fifths(signature + 3), Mode::Minor));
        }
    }
    keys.extend(question.fixed.iter().flatten());
    let mut seen = Vec::new();
    keys.retain(|key| {
        let new = !seen.contains(key);
        seen.push(*key);
        new
    });
    keys.into_iter().map(Local::new).collect()
}

/// The chords that can stand over a spot, in every tonality.
fn candidates(question: &Question, keys: &[Local], at: usize) -> Vec<Open> {
    let spot = &question.line.spots[at];
    let fixed = question.fixed.get(at).copied().flatten();
    let mut open = Vec::new();
    for (key, local) in keys.iter().enumerate() {
        if fixed.is_some_and(|fixed| fixed != local.tonality) {
            continue;
        }
        match &spot.given {
            Some(given) => open.push(given_state(question, at, key, local, given)),
            None => stock_states(question, at, key, local, &mut open),
        }
    }
    if open.is_empty() {
        // Nothing in the stock: a plain chord in the fixed tonality, or at home.
        let key = fixed.and_then(|it| keys.iter().position(|key| key.tonality == it)).unwrap_or(0);
        if let Some(local) = keys.get(key) {
            let sonority = plain(spot.pitch.class(), local.tonality);
            let sets = Sets::of(&sonority, local.tonality, None);
            let chord = FoundChord::Plain;
            open.push(Open { key, chord, emission: OUTSIDE_STOCK, first: sets, last: sets });
        }
    }
    open
}

/// The chord of a note no stock knows: 5/3 by the signature.
pub(super) fn plain(bass: PitchClass, tonality: Tonality) -> Sonority {
    Sonority::of(&Stage::Signs(Vec::new()), bass, tonality)
}

fn given_state(
    question: &Question,
    at: usize,
    key: usize,
    local: &Local,
    given: &[Sonority],
) -> Open {
    let sets = |at: usize| {
        let sonority = given.get(at);
        sonority.map_or(Sets::default(), |it| Sets::of(it, local.tonality, given.get(at + 1)))
    };
    let first = sets(0);
    let last = if given.len() > 1 { sets(given.len() - 1) } else { first };
    // Figures are evidence of the tonality in which they are usual.
    let spot = &question.line.spots[at];
    let (start, shapes) = shapes(local.tonality.mode, spot.place - local.tonic);
    let known = shapes.iter().enumerate().find(|(_, shape)| {
        let layer = shape.stages.first();
        layer.is_some_and(|layer| layer.sets.shifted(local.tonic).sounding == first.sounding)
    });
    // A diminished seventh is known by its keys, however it is spelled.
    let keys_of = |sets: &Sets| lexicon::diminished_keys(sets.sounding);
    let turned = match (known, given, keys_of(&first)) {
        (None, [_], Some(keys)) => shapes.iter().enumerate().find(|(_, shape)| {
            let [layer] = shape.stages.as_slice() else { return false };
            keys_of(&layer.sets.shifted(local.tonic)) == Some(keys)
        }),
        _ => None,
    };
    if let Some((offset, shape)) = turned
        && let Some(layer) = shape.stages.first()
    {
        let sets = layer.sets.shifted(local.tonic);
        let emission = shape.cost
            + 3 * i32::from(shape.daring)
            + costs::RESPELLED
            + coming(question, at, local);
        let chord = FoundChord::Turned(start + offset);
        return Open { key, chord, emission, first: sets, last: sets };
    }
    let usual = known.map(|(offset, shape)| {
        if let Some(usage) = usage_here(question, at, local) {
            let costs = usage.costs(&question.memo);
            return costs.get(offset).copied().unwrap_or(costs::UNUSUAL);
        }
        let rules = rules(question, at, local);
        let ruled = rules.iter().find(|rule| rule.figures == shape.text);
        shape.cost + 3 * i32::from(shape.daring) - ruled.map_or(0, |rule| rule.strength)
    });
    let emission = usual.unwrap_or(costs::UNUSUAL)
        + coming(question, at, local)
        + costs::given(&first, local.scale)
        + costs::given(&last, local.scale);
    Open { key, chord: FoundChord::Given, emission, first, last }
}

fn stock_states(question: &Question, at: usize, key: usize, local: &Local, open: &mut Vec<Open>) {
    let spot = &question.line.spots[at];
    let (start, shapes) = shapes(local.tonality.mode, spot.place - local.tonic);
    if shapes.is_empty() {
        return;
    }
    // Where the usage is followed the rules are seldom asked.
    let rules = LazyCell::new(|| rules(question, at, local));
    let usage = usage_here(question, at, local);
    let coming = coming(question, at, local);
    let habitual = usage.as_ref().map(|it| it.costs(&question.memo));
    // A bass note that only daring chords can carry still gets the least daring.
    let least = shapes.iter().map(|shape| shape.daring).min().unwrap_or(0);
    let limit = question.daring.max(least);
    for (offset, shape) in shapes.iter().enumerate() {
        let heard = || usage.as_ref().is_some_and(|it| it.likelihood(offset) > HEARD);
        let ruled = || rules.iter().any(|rule| rule.figures == shape.text);
        if shape.daring > limit && !heard() && !ruled() {
            continue;
        }
        let (first, last) = ends(shape);
        let chord = FoundChord::Stock(start + offset);
        let emission = match &usage {
            None => emission(shape, &rules, question.daring),
            Some(_) => {
                let wanted = costs::wanted(i32::from(question.daring), i32::from(shape.daring));
                let cost = habitual.as_ref().and_then(|it| it.get(offset)).copied();
                let cost = cost.unwrap_or(costs::UNUSUAL);
                cost - wanted
            }
        };
        let (first, last) = (first.shifted(local.tonic), last.shifted(local.tonic));
        let emission = emission + coming;
        open.push(Open { key, chord, emission, first, last });
    }
}

/// What it costs to be in a tonality here: by the usage, how basses move among the
/// degrees tells where they are at home; the rules are led by what that has found.
fn coming(question: &Question, at: usize, local: &Local) -> i32 {
    if !question.version.is_counted() {
        let led = question.led.get(at);
        let astray = led.is_some_and(|it| it.0 != local.tonality && it.1 != Some(local.tonality));
        return if astray { costs::ASTRAY } else { 0 };
    }
    let spots = &question.line.spots;
    let place = |at: usize| spots.get(at).map(|spot| spot.place - local.tonic);
    let before = at.checked_sub(1).and_then(place).unwrap_or(usage::START);
    let Some(here) = place(at) else { return 0 };
    usage::coming(question.manner, local.tonality.mode, here, before)
}

/// The rulings for a spot in a tonality.
pub(super) fn rules(question: &Question, at: usize, local: &Local) -> Vec<Ruling> {
    let stretch = question.stretches.get(at).and_then(Option::as_ref);
    rulings(question.line, stretch, at, local, question.version, question.daring)
}

/// What the counted usage says of a spot, where that is what is followed.
pub(super) fn usage_here<'a>(
    question: &Question<'a>,
    at: usize,
    local: &Local,
) -> Option<usage::Here<'a>> {
    if !question.version.is_counted() {
        return None;
    }
    let spots = &question.line.spots;
    let place = |at: usize| spots.get(at).map(|spot| spot.place - local.tonic);
    let back = |by: usize| at.checked_sub(by).and_then(place).unwrap_or(usage::START);
    let on = |by: usize| place(at + by).unwrap_or(usage::END);
    let around = [back(2), back(1), on(1), on(2)];
    let rhythm = question.rhythms.get(at).copied().unwrap_or_default();
    Some(usage::here(question.manner, local.tonality.mode, place(at)?, around, rhythm))
}

/// What a shape costs where it stands: its own plainness, less what the rules
/// of the place say for it, less what is asked for in daring.
fn emission(shape: &Shape, rules: &[Ruling], daring: u8) -> i32 {
    let daring = i32::from(daring);
    let wanted = costs::wanted(daring, i32::from(shape.daring));
    let ruled = rules.iter().find(|rule| rule.figures == shape.text);
    let ruled = ruled.map_or(0, |rule| costs::ruled(rule.strength, daring));
    shape.cost - wanted - ruled
}

fn first_states(question: &Question, keys: &[Local], open: &[Open]) -> Vec<State> {
    let state = |open: &Open| {
        let away = keys.get(open.key).is_some_and(|key| key.tonality != question.home);
        let away = if away && question.fixed.is_empty() { costs::FOREIGN_START } else { 0 };
        let cost = open.emission + costs::begin(&open.first) + away;
        State { key: open.key, chord: open.chord, cost, back: 0, hinge: None, joint: Joint::Common }
    };
    open.iter().map(state).collect()
}

fn next_states(
    question: &Question,
    at: usize,
    (keys, changes): (&[Local], &Changes),
    (before, last): (&[Open], &[State]),
    open: &[Open],
) -> Vec<State> {
    let pairs: Vec<Option<&usage::Pairs>> = match question.version {
        Version::Chorales => {
            let spots = &question.line.spots;
            let pairs = |key: &Local| {
                let (from, to) = (spots[at - 1].place - key.tonic, spots[at].place - key.tonic);
                usage::pairs(question.manner, key.tonality.mode, from, to)
            };
            keys.iter().map(pairs).collect()
        }
        _ => vec![None; keys.len()],
    };
    let joins: Vec<&Joins> = keys.iter().map(|key| Joins::of(key.tonality.mode)).collect();
    // The earlier chords by their numbers in the stock, close together for the loop below.
    let number = |open: &Open| match open.chord {
        FoundChord::Stock(number) => Some(number),
        _ => None,
    };
    let numbers: Vec<(i32, Option<usize>)> =
        std::iter::zip(last, before).map(|(state, open)| (state.cost, number(open))).collect();
    let ranges = |of: &[Open]| {
        let mut ranges = vec![0..0; keys.len()];
        for (index, open) in of.iter().enumerate() {
            let range: &mut std::ops::Range<usize> = &mut ranges[open.key];
            *range = if range.end == 0 { index..index + 1 } else { range.start..index + 1 };
        }
        ranges
    };
    let earlier = ranges(before);
    // The cheapest state of each tonality, for changes without a common chord.
    let mut best: Vec<(i32, usize)> = earlier
        .iter()
        .filter_map(|range| range.clone().map(|index| (last[index].cost, index)).min())
        .collect();
    best.sort_unstable();
    best.truncate(SOURCES);
    let mut states: Vec<State> = open
        .iter()
        .map(|open| {
            let mut cheapest = (i32::MAX, 0);
            let pairs = pairs[open.key];
            let to = number(open).map(|it| (it, joins[open.key].to(it, pairs.is_some())));
            for index in earlier[open.key].clone() {
                let (cost, from) = numbers[index];
                let step = match (from, to) {
                    (Some(from), Some((to, joins))) => {
                        let pair = pairs.map_or(0, |pairs| pairs.cost(from, to));
                        pair + joins.get(from).copied().unwrap_or(0)
                    }
                    _ => costs::step(&before[index].last, &open.first),
                };
                if cost + step < cheapest.0 {
                    cheapest = (cost + step, index);
                }
            }
            for &(cost, index) in &best {
                let from = &before[index];
                if from.key != open.key {
                    let turned = cost + changes.cost(from.key, open.key) + costs::NO_HINGE;
                    // Most turns are too dear whatever the step.
                    if turned + costs::LEAST_STEP <= cheapest.0 {
                        let step = costs::step(&from.last, &open.first);
                        cheapest = cheapest.min((turned + step, index));
                    }
                }
            }
            State {
                key: open.key,
                chord: open.chord,
                cost: cheapest.0,
                back: cheapest.1,
                hinge: None,
                joint: Joint::Common,
            }
        })
        .collect();
    read_anew(question, (keys, changes), open, &mut states);
    for (state, open) in states.iter_mut().zip(open) {
        state.cost = state.cost.saturating_add(open.emission);
    }
    states
}

/// Lets a chord reached in one tonality be left in another, a diminished seventh
/// also by the other spellings of its keys. The states hold the cost of arrival only.
fn read_anew(
    question: &Question,
    (keys, changes): (&[Local], &Changes),
    open: &[Open],
    states: &mut [State],
) {
    let turns = |open: &Open| {
        let given = matches!(open.chord, FoundChord::Given | FoundChord::Turned(_));
        given || question.daring >= RESPELLS
    };
    let same = |index: usize| {
        let open = &open[index];
        let turned = turns(open).then(|| lexicon::diminished_keys(open.first.sounding)).flatten();
        turned.map_or((open.first.sounding, open.last.sounding), |keys| (keys, keys))
    };
    let mut order: Vec<((u64, u64), i32, usize)> =
        (0..open.len()).map(|index| (same(index), states[index].cost, index)).collect();
    order.sort_unstable();
    for group in order.chunk_by(|a, b| a.0 == b.0) {
        for &(_, _, target) in group {
            for &(_, cost, source) in group.iter().take(SOURCES) {
                let (from, to) = (open[source].key, open[target].key);
                if from == to {
                    continue;
                }
                let (leaves, enters) = (open[source].first.sounding, open[target].first.sounding);
                // A hinge is heard when the chord belongs to both scales.
                let (joint, price) = if leaves == enters {
                    let foreign = leaves & !(keys[from].scale & keys[to].scale);
                    (Joint::Common, if foreign == 0 { 0 } else { costs::FOREIGN_HINGE })
                } else {
                    (Joint::Respelled, costs::RESPELLED)
                };
                let cost = cost.saturating_add(changes.cost(from, to) + price);
                if cost < states[target].cost {
                    states[target].cost = cost;
                    states[target].hinge = Some(source);
                    states[target].joint = joint;
                }
            }
        }
    }
}

/// The sonorities of a found chord of the stock over its bass.
pub(super) fn sonorities(found: &Found, bass: PitchClass) -> Vec<Sonority> {
    let tonic = found.tonality.tonic.fifths();
    let (FoundChord::Stock(number) | FoundChord::Turned(number)) = found.chord else {
        return vec![plain(bass, found.tonality)];
    };
    let Some(shape) = lexicon::shape(found.tonality.mode, number) else {
        return vec![plain(bass, found.tonality)];
    };
    let layer = |layer: &lexicon::Layer| {
        let tone = |&(number, place): &(u8, i32)| FiguredTone {
            number,
            class: PitchClass::from_fifths(place + tonic),
        };
        Sonority { bass, tones: layer.tones.iter().map(tone).collect() }
    };
    shape.stages.iter().map(layer).collect()
}
