//! The stock of chords: for each mode and bass degree the chords that can stand
//! there, spelled out once, relative to the tonic, and shared by all tonalities.

mod rows;

use super::chord::Duty;
use super::sonority::Sonority;
use crate::figures::FiguredTone;
use crate::order;
use crate::pitch::{Degree, Interval, Mode, PitchClass, Step, Tonality};
use std::sync::LazyLock;

/// What kind of chord a row of the stock is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Kind {
    /// Of the scale.
    Plain,
    /// A suspension and its resolution.
    Suspension,
    /// The six-four over the 5th that resolves there.
    SixFour,
    /// Over a bass that stays.
    Pedal,
    /// A seventh that the bass itself holds over.
    Held,
    /// The dominant of another degree.
    Secondary,
    /// From the other mode on the same tonic.
    Borrowed,
    /// The sixth on the lowered 2nd.
    Neapolitan,
    /// An augmented sixth above the bass.
    AugmentedSixth,
    /// A diminished seventh.
    Diminished,
}

/// A chord of the stock, all classes as places on the line of fifths from the tonic.
#[derive(Debug)]
pub(super) struct Shape {
    /// Its figures within the scale, as the row writes them.
    pub(super) text: &'static str,
    pub(super) kind: Kind,
    /// How daring, in the range [0, 4].
    pub(super) daring: u8,
    /// How far from the plainest chord of its degree; 10 is one clear step.
    pub(super) cost: i32,
    pub(super) stages: Vec<Layer>,
    /// Which of the seven common figures it comes to rest on: 5/3, 6, 6/4, 7, 6/5,
    /// 4/3, 4/2.
    pub(super) figure: Option<usize>,
}

/// One sonority of a shape with what it owes, as sets of places on the line of fifths.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Layer {
    /// Numbers above the bass with their places, ascending.
    pub(super) tones: Vec<(u8, i32)>,
    pub(super) sets: Sets,
}

/// Sets of places on the line of fifths, each a bit; see [`bit`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub(super) struct Sets {
    /// The bass alone.
    pub(super) bass: u64,
    /// All tones, the bass included.
    pub(super) sounding: u64,
    /// Those that must fall.
    pub(super) falls: u64,
    /// Those that must rise.
    pub(super) rises: u64,
    /// Those that must have sounded before.
    pub(super) prepared: u64,
    /// The numbers above the bass, bit n for number n.
    pub(super) numbers: u16,
    /// Whether it only makes sense over a bass held from the chord before.
    pub(super) over_held: bool,
    /// Whether it is one of the daring ones.
    pub(super) spiced: bool,
}

/// The bit of a place on the line of fifths; none for places no score reaches.
pub(super) fn bit(place: i32) -> u64 {
    if (-31..=31).contains(&place) { 1 << (place + 31) } else { 0 }
}

/// Moves a set along the line of fifths.
pub(super) fn shifted(set: u64, by: i32) -> u64 {
    match by {
        0..=63 => set << by,
        -63..0 => set >> -by,
        _ => 0,
    }
}

/// The four keys of a diminished seventh, a bit for each of the twelve, however its
/// notes are spelled; `None` for any other set of notes.
pub(super) fn diminished_keys(sounding: u64) -> Option<u64> {
    if sounding.count_ones() != 4 {
        return None;
    }
    let mut left = sounding;
    let mut keys = 0u64;
    while left != 0 {
        let place = left.trailing_zeros() as i32 - 31;
        left &= left - 1;
        keys |= 1 << (7 * place).rem_euclid(12);
    }
    [0b0010_0100_1001, 0b0100_1001_0010, 0b1001_0010_0100].contains(&keys).then_some(keys)
}

impl Sets {
    /// The same sets seen from another tonic.
    pub(super) fn shifted(self, by: i32) -> Sets {
        Sets {
            bass: shifted(self.bass, by),
            sounding: shifted(self.sounding, by),
            falls: shifted(self.falls, by),
            rises: shifted(self.rises, by),
            prepared: shifted(self.prepared, by),
            numbers: self.numbers,
            over_held: self.over_held,
            spiced: self.spiced,
        }
    }

    /// The sets of a sonority with absolute places, its duties read in `local`.
    pub(super) fn of(sonority: &Sonority, local: Tonality, next: Option<&Sonority>) -> Sets {
        let mut sets = Sets { bass: bit(sonority.bass.fifths()), ..Sets::default() };
        for tone in sonority.tones(local, next) {
            let place = bit(tone.class.fifths());
            sets.sounding |= place;
            sets.numbers |= if tone.number > 1 { 1 << tone.number } else { 0 };
            match tone.duty {
                Duty::Free => {}
                Duty::Rises => sets.rises |= place,
                Duty::Falls => sets.falls |= place,
                Duty::Suspended => {
                    sets.falls |= place;
                    sets.prepared |= place;
                }
            }
        }
        sets
    }

    /// Whether exactly these numbers stand above the bass.
    pub(super) fn is(self, numbers: &[u8]) -> bool {
        self.numbers == numbers.iter().fold(0, |set, number| set | 1 << number)
    }
}

/// The farthest a bass may lie from the tonic and still be in the stock.
const REACH: i32 = 12;

struct Stock {
    shapes: Vec<Shape>,
    /// Ranges of `shapes` by place of the bass, from `-REACH` up.
    ranges: Vec<std::ops::Range<usize>>,
}

static MAJOR: LazyLock<Stock> = LazyLock::new(|| stock(Mode::Major, rows::MAJOR));
static MINOR: LazyLock<Stock> = LazyLock::new(|| stock(Mode::Minor, rows::MINOR));

/// The chords that can stand on a bass `place` fifths from the tonic, with the
/// number of the first among all of the mode's.
pub(super) fn shapes(mode: Mode, place: i32) -> (usize, &'static [Shape]) {
    let stock = of(mode);
    let range = usize::try_from(place + REACH).ok().and_then(|at| stock.ranges.get(at));
    let range = range.cloned().unwrap_or(0..0);
    (range.start, &stock.shapes[range])
}

/// The shape of a number, as [`shapes`] counts them.
pub(super) fn shape(mode: Mode, number: usize) -> Option<&'static Shape> {
    of(mode).shapes.get(number)
}

/// The number of the shape with these figures on a bass `place` fifths from the tonic.
pub(super) fn find(mode: Mode, place: i32, figures: &str) -> Option<usize> {
    let (start, shapes) = shapes(mode, place);
    shapes.iter().position(|shape| shape.text == figures).map(|at| start + at)
}

fn of(mode: Mode) -> &'static Stock {
    match mode {
        Mode::Major => &MAJOR,
        Mode::Minor => &MINOR,
    }
}

fn stock(mode: Mode, rows: &[rows::Row]) -> Stock {
    let tonality = Tonality::new(PitchClass::new(Step::C, 0), mode);
    let mut placed: Vec<(i32, Shape)> = rows
        .iter()
        .filter_map(|&(degree, figures, kind, daring, cost)| {
            let bass = bass_of(degree, tonality)?;
            let sonorities = sonorities(figures, bass, tonality)?;
            let stages = sonorities.iter().enumerate().map(|(at, sonority)| Layer {
                tones: sonority.tones.iter().map(|t| (t.number, t.class.fifths())).collect(),
                sets: Sets::of(sonority, tonality, sonorities.get(at + 1)),
            });
            let mut stages: Vec<Layer> = stages.collect();
            for layer in &mut stages {
                layer.sets.over_held = kind == Kind::Pedal;
            }
            let figure = sonorities.last().and_then(|last| figure(&last.numbers()));
            Some((bass.fifths(), Shape { text: figures, kind, daring, cost, stages, figure }))
        })
        .collect();
    order::by_key(&mut placed, |(place, _)| *place);
    let ranges = (-REACH..=REACH).map(|place| {
        let start = placed.partition_point(|(other, _)| *other < place);
        start..placed.partition_point(|(other, _)| *other <= place)
    });
    let ranges = ranges.collect();
    Stock { shapes: placed.into_iter().map(|(_, shape)| shape).collect(), ranges }
}

/// Which common figure numbers above a bass are, suspensions taken as resolved.
fn figure(numbers: &[u8]) -> Option<usize> {
    Some(match numbers {
        [3, 5] | [4, 5] | [3, 5, 9] => 0,
        [3, 6] | [3, 7] => 1,
        [4, 6] => 2,
        [3, 5, 7] | [4, 5, 7] => 3,
        [3, 5, 6] => 4,
        [3, 4, 6] => 5,
        [2, 4, 6] => 6,
        _ => return None,
    })
}

/// The class of a degree such as `5`, `#4` or `-7`.
fn bass_of(degree: &str, tonality: Tonality) -> Option<PitchClass> {
    let (change, number) = match (degree.strip_prefix('#'), degree.strip_prefix('-')) {
        (Some(number), _) => (1, number),
        (_, Some(number)) => (-1, number),
        _ => (0, degree),
    };
    let own = tonality.scale(Degree::new(number.parse().ok()?)?);
    Some(PitchClass::new(own.step, own.alter + change))
}

/// The sonorities of the stages of a row, such as `7 6` or `9 5/3`.
pub(super) fn sonorities(
    text: &str,
    bass: PitchClass,
    tonality: Tonality,
) -> Option<Vec<Sonority>> {
    let stages = text.split(' ').map(|stage| sonority(stage, bass, tonality));
    let mut stages: Vec<Sonority> = stages.collect::<Option<_>>()?;
    // The seventh of 7-6 has no fifth.
    if let (true, Some(first)) = (text.starts_with("7 6"), stages.first_mut()) {
        first.tones.retain(|tone| tone.number != 5);
    }
    Some(stages)
}

/// The sonority of figures within the scale, such as `6+/4/3` or `7-`.
fn sonority(text: &str, bass: PitchClass, tonality: Tonality) -> Option<Sonority> {
    let mut written = Vec::new();
    for sign in text.split('/') {
        let (number, change) = match (sign.strip_suffix('+'), sign.strip_suffix('-')) {
            (Some(number), _) => (number, 1),
            (_, Some(number)) => (number, -1),
            _ => (sign, 0),
        };
        written.push((number.parse::<u8>().ok()?, change));
    }
    let mut numbers: Vec<u8> = written.iter().map(|&(number, _)| number).collect();
    order::sort(&mut numbers);
    let full = crate::figures::implied(&numbers)?;
    let tones = full.iter().map(|&number| {
        let step = (bass.in_octave(3) + Interval::new(i32::from(number) - 1, 0)).step;
        let own = tonality.class_of(step);
        let change = written.iter().find(|it| it.0 == number).map_or(0, |it| it.1);
        FiguredTone { number, class: PitchClass::new(step, own.alter + change) }
    });
    Some(Sonority { bass, tones: tones.collect() })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_reads() {
        for (mode, rows) in [(Mode::Major, rows::MAJOR), (Mode::Minor, rows::MINOR)] {
            assert_eq!(of(mode).shapes.len(), rows.len());
            for row in rows {
                assert!(row.3 <= 4);
                let same = rows.iter().filter(|other| (other.0, other.1) == (row.0, row.1));
                assert_eq!(same.count(), 1, "{row:?}");
            }
        }
    }

    #[test]
    fn no_chord_of_the_stock_has_an_impossible_interval() {
        let possible = |number: u8, semitones: i32| match number {
            2 => (1..=3).contains(&semitones),
            3 => (2..=4).contains(&semitones),
            4 => (4..=6).contains(&semitones),
            5 => (6..=8).contains(&semitones),
            6 => (8..=10).contains(&semitones),
            7 => (9..=11).contains(&semitones),
            9 => (1..=2).contains(&semitones),
            _ => false,
        };
        for mode in [Mode::Major, Mode::Minor] {
            for place in -REACH..=REACH {
                let bass = PitchClass::from_fifths(place);
                for layer in shapes(mode, place).1.iter().flat_map(|shape| &shape.stages) {
                    for &(number, tone) in &layer.tones {
                        let above = PitchClass::from_fifths(tone).chroma() - bass.chroma();
                        let above = above.rem_euclid(12);
                        assert!(possible(number, above), "{mode:?} {bass} {number}: {above}");
                    }
                }
            }
        }
    }
}
