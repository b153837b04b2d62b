//! What the rules of the trade prescribe for a bass note in a tonality: cadences
//! first, then sequences, pedals, the octave rule, and the plain chord of a
//! degree that is left by leap.

use super::chord::{Cadence, Reason};
use super::lexicon::{self, bit};
use super::line::Line;
use super::motions::Stretch;
use super::octave_rule::{Direction, Version, cell};
use crate::bass::BassMotion;
use crate::pitch::{Mode, Tonality};

/// A prescription: figures within the scale, how strongly, and why.
pub(super) struct Ruling {
    pub(super) figures: &'static str,
    pub(super) strength: i32,
    pub(super) reason: Reason,
}

/// Strengths, on the scale of the stock's costs. Our choice: a cadence or a
/// sequence outweighs the octave rule, and that outweighs the habit of a leap.
const CADENCE: i32 = 28;
const SEQUENCE: i32 = 28;
const PEDAL: i32 = 26;
const OCTAVE: i32 = 24;
const LEAP: i32 = 18;
const CHROMATIC: i32 = 14;

/// A tonality with what is asked of it often.
pub(super) struct Local {
    pub(super) tonality: Tonality,
    pub(super) tonic: i32,
    /// The scale, in minor with both forms of the 6th and 7th, on the line of fifths.
    pub(super) scale: u64,
}

impl Local {
    pub(super) fn new(tonality: Tonality) -> Local {
        let tonic = tonality.tonic.fifths();
        let lowest = tonality.signature() - 1;
        let mut scale = (lowest..lowest + 7).fold(0, |set, place| set | bit(place));
        if tonality.mode == Mode::Minor {
            scale |= bit(tonic + 3) | bit(tonic + 5);
        }
        Local { tonality, tonic, scale }
    }

    /// The degree of a place by its letter and how far it is raised, if it lies
    /// within a semitone of the scale.
    pub(super) fn degree(&self, place: i32) -> (i32, i32) {
        let own = match self.tonality.mode {
            Mode::Major => -1,
            Mode::Minor => -4,
        };
        let from_lowest = place - self.tonic - own;
        let letter = match self.tonality.mode {
            Mode::Major => [4, 1, 5, 2, 6, 3, 7],
            Mode::Minor => [6, 3, 7, 4, 1, 5, 2],
        };
        (letter[from_lowest.rem_euclid(7) as usize], from_lowest.div_euclid(7))
    }
}

/// The rulings for a spot, the strongest first.
pub(super) fn rulings(
    line: &Line,
    stretch: Option<&Stretch>,
    at: usize,
    local: &Local,
    version: Version,
    daring: u8,
) -> Vec<Ruling> {
    let Some(spot) = line.spots.get(at) else { return Vec::new() };
    let (degree, raised) = local.degree(spot.place);
    let minor = local.tonality.mode == Mode::Minor;
    let in_scale = local.scale & bit(spot.place) != 0;
    if !in_scale {
        return chromatic(line, at, local).into_iter().collect();
    }
    let inside = stretch.is_some_and(|stretch| at + 1 < stretch.last);
    if inside && let Some(it) = sequence(line, stretch, at, local, daring) {
        return vec![it];
    }
    if (degree, raised) == (5, 0) {
        let cadence = cadence(line, at, local);
        if !cadence.is_empty() {
            return cadence;
        }
    }
    if let Some(it) = sequence(line, stretch, at, local, daring) {
        return vec![it];
    }
    if let Some(it) = by_semitone(line, at, local) {
        return vec![it];
    }
    if let Some(it) = turning(line, at, local, (degree, raised)) {
        return vec![it];
    }
    if degree == 1 {
        return vec![on_tonic(line, at, minor, version)];
    }
    let leaves = match line.leaves(at) {
        Some(1) => Some(Direction::Up),
        Some(-1) => Some(Direction::Down),
        _ => None,
    };
    if let Some(leaves) = leaves {
        let (on_raised, figures) = cell(version, local.tonality.mode, leaves, degree);
        // Against the grain (a raised 6th or 7th of minor falling, a lowered one
        // rising) both keep a plain 6.
        let figures = if on_raised == (raised == 1) { figures } else { "6" };
        let reason = Reason::Octave { version, leaves };
        return vec![Ruling { figures, strength: OCTAVE, reason }];
    }
    vec![by_leap(line, at, local, (degree, raised))]
}

/// The 1st degree: held, at an end of the piece, or left.
fn on_tonic(line: &Line, at: usize, minor: bool, version: Version) -> Ruling {
    let spot = &line.spots[at];
    let (place, count) = spot.run;
    if count >= 3 {
        return pedal(place, count, minor);
    }
    let reason = match spot.after.and_then(|next| line.spots.get(next)) {
        _ if at == 0 => Reason::Opening,
        None => Reason::Closing,
        Some(next) => match line.leaves(at) {
            Some(1) => Reason::Octave { version, leaves: Direction::Up },
            Some(-1) => Reason::Octave { version, leaves: Direction::Down },
            _ => Reason::Leap { to: next.pitch.class() },
        },
    };
    Ruling { figures: "5/3", strength: OCTAVE, reason }
}

/// The plain chord of a degree that is left by leap, or not at all.
fn by_leap(line: &Line, at: usize, local: &Local, (degree, raised): (i32, i32)) -> Ruling {
    let minor = local.tonality.mode == Mode::Minor;
    let next = line.spots[at].after.and_then(|next| line.spots.get(next));
    let to = next.map(|next| local.degree(next.place));
    let lowered_seventh = minor && to == Some((7, 0));
    let to = to.map(|(degree, _)| degree);
    let reason = match next {
        Some(next) => Reason::Leap { to: next.pitch.class() },
        None if degree == 5 => Reason::Cadence { kind: Cadence::Half, stage: 0 },
        None => Reason::Stop,
    };
    let figures = match (degree, to) {
        (2, Some(5)) if minor => "7",
        (2, Some(5)) => "5/3",
        (2, Some(7)) if minor => "6+/4/3",
        (2, Some(7)) => "6/4/3",
        (2, _) if minor => "6+",
        (2, _) => "6",
        // To the lowered 7th of minor as from the 1st to the 5th of the related major.
        (3, _) if lowered_seventh => "5/3",
        (3, _) => "6",
        (4, _) => "5/3",
        (5, _) if minor => "5/3+",
        (6, _) if raised == 1 => "6",
        (6, _) => "5/3",
        (7, _) if minor && raised == 0 => "5/3",
        (7, None) => "6",
        (7, _) => "6/5",
        _ => "5/3",
    };
    Ruling { figures, strength: LEAP, reason }
}

/// The 5th falling home: as many stages as the bass gives it notes.
fn cadence(line: &Line, at: usize, local: &Local) -> Vec<Ruling> {
    let spot = &line.spots[at];
    let Some(next) = spot.after.and_then(|next| line.spots.get(next)) else { return Vec::new() };
    if next.place != local.tonic {
        return Vec::new();
    }
    let minor = local.tonality.mode == Mode::Minor;
    let (count, stage) = (spot.run.1, spot.run.0);
    let third = if minor { "5/3+" } else { "5/3" };
    let seventh = if minor { "7/3+" } else { "7" };
    let last = next.after.is_none();
    let rule = |figures, kind, stage, less| Ruling {
        figures,
        strength: CADENCE - less,
        reason: Reason::Cadence { kind, stage },
    };
    let double = |figures, from_end: usize| vec![rule(figures, Cadence::Double, 4 - from_end, 0)];
    match (count, count - stage.min(count)) {
        (1, _) if last => vec![rule(seventh, Cadence::Simple, 0, 0)],
        (1, _) => vec![rule(third, Cadence::Simple, 0, 0)],
        // The fourth wants preparing; the six-four stands in where it is not.
        (2, 2) => vec![rule("5/4", Cadence::Compound, 0, 0), rule("6/4", Cadence::Compound, 0, 4)],
        (2, _) => vec![rule(third, Cadence::Compound, 1, 0)],
        (_, 3) => double("6/4", 3),
        (_, 2) => double("5/4", 2),
        (_, from_end) => double(third, from_end.min(4)),
    }
}

/// Notes reached or left by a semitone that is not of the scale. The falling ones
/// after the usual lament (from memory): in D minor d 5/3, c♯ 6, c 6/4+/2, b 6,
/// b♭ 6, a with a major third.
fn by_semitone(line: &Line, at: usize, local: &Local) -> Option<Ruling> {
    let spot = &line.spots[at];
    let minor = local.tonality.mode == Mode::Minor;
    let (degree, raised) = local.degree(spot.place);
    let before = spot.before.and_then(|before| line.spots.get(before));
    let after = spot.after.and_then(|after| line.spots.get(after));
    let fell = before.is_some_and(|before| spot.place - before.place == -7);
    let falls = after.is_some_and(|after| after.place - spot.place == -7);
    let climbs = after.is_some_and(|after| after.place - spot.place == 7);
    let to = after.map_or(spot.pitch.class(), |after| after.pitch.class());
    let rule = |figures, reason| Some(Ruling { figures, strength: OCTAVE, reason });
    let semitone = Reason::Semitone { to };
    match (degree, raised) {
        (7, 0) if minor && fell && line.leaves(at) == Some(-1) => rule("6/4+/2", semitone),
        (6 | 7, _) | (3, 0) if falls => rule("6", semitone),
        (1, 0) | (2, 0) | (4, 0) | (5, 0) if climbs => {
            rule(if minor && degree == 5 { "5/3+" } else { "5/3" }, semitone)
        }
        _ => {
            let before = before.filter(|before| {
                let outside = local.scale & bit(before.place) == 0;
                outside && spot.place - before.place == -5
            })?;
            let led = matches!((degree, raised), (2 | 3 | 6, 0)) && !minor
                || (degree, raised) == (4, 0) && minor;
            led.then_some(())?;
            rule("5/3", Reason::Led { from: before.pitch.class() })
        }
    }
}

/// Deceptive, evaded and Phrygian turns, recognised by the notes around them.
fn turning(line: &Line, at: usize, local: &Local, (degree, raised): (i32, i32)) -> Option<Ruling> {
    let minor = local.tonality.mode == Mode::Minor;
    let spot = &line.spots[at];
    let there = |index: Option<usize>| {
        index.and_then(|index| line.spots.get(index)).map(|spot| local.degree(spot.place))
    };
    let before = there(spot.before);
    let after = there(spot.after);
    let second = spot.after.and_then(|next| line.spots[next].after);
    let natural_six = (6, 0);
    let rule = |figures, kind, stage| {
        let reason = Reason::Cadence { kind, stage };
        Some(Ruling { figures, strength: CADENCE, reason })
    };
    let third = if minor { "5/3+" } else { "5/3" };
    let moves_on = |from_six: Option<(i32, i32)>| !matches!(from_six, Some((7 | 5, _)));
    match degree {
        5 if raised == 0 && after == Some(natural_six) && line.leaves(at) == Some(1) => {
            moves_on(there(second)).then(|| rule(third, Cadence::Deceptive, 0)).flatten()
        }
        6 if raised == 0 && before == Some((5, 0)) && moves_on(after) => {
            rule("5/3", Cadence::Deceptive, 1)
        }
        4 if raised == 0
            && before == Some((5, 0))
            && matches!(after, Some((3, 0)))
            && line.leaves(at) == Some(-1) =>
        {
            let figures = if minor { "6/4+/2" } else { "6/4/2" };
            rule(figures, Cadence::Evaded, 1)
        }
        6 if minor && raised == 0 && after == Some((5, 0)) && second.is_none() => {
            rule("6", Cadence::Phrygian, 0)
        }
        5 if minor && before == Some(natural_six) && spot.after.is_none() => {
            rule(third, Cadence::Phrygian, 1)
        }
        _ => None,
    }
}

fn sequence(
    line: &Line,
    stretch: Option<&Stretch>,
    at: usize,
    local: &Local,
    daring: u8,
) -> Option<Ruling> {
    let stretch = stretch?;
    if stretch.classes & !local.scale != 0 {
        return None;
    }
    let place = at - stretch.start;
    let figures = if daring >= 1 { stretch.row.rich } else { stretch.row.plain };
    // The first note of a tied bass is not yet the resolution of anything.
    let figures = match (stretch.row.motion, place) {
        (BassMotion::TiedFalling, 0) => "5/3",
        // Its octave prepares the first fourth.
        (BassMotion::FifthsUpFourthsDown, 0) => "5/3",
        // Its sixth prepares the first seventh.
        (BassMotion::StepsDown, 0) if !figures.is_empty() => "5/3 6",
        _ => figures.get(place % figures.len().max(1)).copied()?,
    };
    // A chain that the degree cannot carry leaves it to the other rules.
    let spot = line.spots.get(at)?;
    lexicon::find(local.tonality.mode, spot.place - local.tonic, figures)?;
    let reason = Reason::Motion { motion: stretch.row.motion, place };
    Some(Ruling { figures, strength: SEQUENCE, reason })
}

fn pedal(place: usize, count: usize, minor: bool) -> Ruling {
    let dominant = if minor { "7+/4/2" } else { "7/4/2" };
    let figures = match (place, count) {
        (1, 3) | (2, 4..) => dominant,
        (1, 4..) => "6/4",
        _ => "5/3",
    };
    Ruling { figures, strength: PEDAL, reason: Reason::Pedal { place } }
}

/// A bass note outside the scale.
fn chromatic(line: &Line, at: usize, local: &Local) -> Option<Ruling> {
    let spot = &line.spots[at];
    let (degree, raised) = local.degree(spot.place);
    let next = spot.after.and_then(|next| line.spots.get(next));
    let rises = next.is_some_and(|next| {
        let up = line.leaves(at) == Some(1);
        up && next.place - spot.place == -5
    });
    let falls = next.is_some_and(|_| line.leaves(at) == Some(-1));
    let minor = local.tonality.mode == Mode::Minor;
    let to = next.map(|next| next.pitch.class());
    let rule = |figures, reason| Some(Ruling { figures, strength: CHROMATIC, reason });
    match (degree, raised, to) {
        (1 | 4 | 5, 1, Some(to)) if rises && !minor => rule("6/5", Reason::LeadingBass { to }),
        (2, 1, Some(to)) if rises && !minor => rule("6/5/3+", Reason::LeadingBass { to }),
        (3, 1, Some(to)) if rises && minor => rule("6/5", Reason::LeadingBass { to }),
        (4, 1, Some(to)) if rises && minor => rule("6/5/3+", Reason::LeadingBass { to }),
        (7, -1, Some(to)) if falls && !minor => rule("6/4/2", Reason::SeventhBass { to }),
        (3 | 6 | 7, -1, _) if !minor => rule("6", Reason::Borrowed),
        _ => None,
    }
}
