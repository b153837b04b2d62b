//! How counted usage is weighed into what people name: a small table learned from
//! human analyses.
//!
//! The counts tell which chords sound; an analyst names some of them and passes over
//! others, the more so by how long a bass note lasts and whether it stays. The
//! table gives each of seven figures a score from what the counts say of all seven
//! and from the degree, its neighbours and its length: a multinomial logistic
//! regression inside the search for chords, learned by the binary `habit` of the tests from the analyses that the
//! music21 library ships. `tests/harmony.md` tells how it does on pieces it has not
//! seen.

use super::hash::Table;
use crate::pitch::Mode;
use std::fmt::Write as _;

/// The figures told apart: 5/3, 6, 6/4, 7, 6/5, 4/3, 4/2.
pub const FIGURES: usize = 7;

/// Something that holds of a bass note, to be scored.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Feature {
    /// What the counts say of one figure.
    Counted(u8),
    /// The degree: minor, and its place in fifths from the tonic.
    Degree(bool, i32),
    /// The degree and the place of the note after.
    After(bool, i32, i32),
    /// The degree and the place of the note before.
    Before(bool, i32, i32),
    /// How long it lasts and whether it comes off the beat.
    Length(Rhythm),
    /// Whether its bass comes from the same note, and goes on to the same.
    Stays(bool, bool),
    /// How far the bass comes, in fifths.
    From(i32),
    /// How far it goes on.
    To(i32),
    /// How far it comes and goes on.
    Turn(i32, i32),
    /// How far it goes on, and from there.
    Onward(i32, i32),
    /// How long it lasts, and how far it comes.
    LengthFrom(Rhythm, i32),
    /// How long it lasts, and how far it goes on.
    LengthTo(Rhythm, i32),
}

/// How long a bass note lasts and where it begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Rhythm {
    /// 0 where it is not known; 1 to an eighth, 2 to a quarter, 3 to a half, 4 more.
    pub length: u8,
    /// Whether it begins between quarters.
    pub off: bool,
}

impl Rhythm {
    fn packed(self) -> u64 {
        u64::from(self.length) << 1 | u64::from(self.off)
    }

    fn key(self) -> String {
        format!("{} {}", self.length, i32::from(self.off))
    }
}

/// The table: for each feature what it adds to the score of each figure.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Habit {
    rows: Table<(Feature, [f64; FIGURES])>,
}

impl Habit {
    /// A table from its rows.
    pub fn of(rows: impl IntoIterator<Item = (Feature, [f64; FIGURES])>) -> Habit {
        Habit { rows: rows.into_iter().map(|row| (packed(row.0), row)).collect() }
    }

    /// The scores of the figures under weighted features.
    pub fn scores(&self, features: &[(Feature, f64)]) -> [f64; FIGURES] {
        let mut scores = [0.0; FIGURES];
        for (feature, weight) in features {
            let Some((_, row)) = self.rows.get(&packed(*feature)) else { continue };
            for (score, add) in scores.iter_mut().zip(row) {
                *score += weight * add;
            }
        }
        scores
    }

    /// Reads what [`Habit::print`] prints; lines that are none are passed over.
    pub fn read(text: &str) -> Habit {
        let row = |line: &str| {
            let (key, numbers) = line.split_once(" : ")?;
            let mut row = [0.0; FIGURES];
            let mut numbers = numbers.split(' ');
            for slot in &mut row {
                *slot = f64::from(numbers.next()?.parse::<i32>().ok()?) / SCALE;
            }
            Some((feature(key)?, row))
        };
        Habit::of(text.lines().filter_map(row))
    }

    /// The rows as text, in hundredths, those left out that say less than `least` of
    /// every figure.
    pub fn print(&self, least: i32) -> String {
        let mut rows: Vec<_> = self.rows.values().collect();
        rows.sort_by_key(|(feature, _)| *feature);
        let mut out = String::new();
        for (feature, row) in rows {
            let hundredths = row.map(|it| (it * SCALE).round() as i32);
            if hundredths.iter().all(|it| it.abs() < least) {
                continue;
            }
            let numbers: Vec<String> = hundredths.iter().map(ToString::to_string).collect();
            let _ = writeln!(out, "{} : {}", key(feature), numbers.join(" "));
        }
        out
    }
}

const SCALE: f64 = 100.0;

/// A feature as one number.
fn packed(feature: Feature) -> u64 {
    let place = |it: i32| u64::from(it as u8);
    match feature {
        Feature::Counted(figure) => u64::from(figure),
        Feature::Degree(minor, here) => 1 << 32 | u64::from(minor) << 24 | place(here),
        Feature::After(minor, here, after) => {
            2 << 32 | u64::from(minor) << 24 | place(here) << 8 | place(after)
        }
        Feature::Before(minor, here, before) => {
            3 << 32 | u64::from(minor) << 24 | place(here) << 8 | place(before)
        }
        Feature::Length(rhythm) => 4 << 32 | rhythm.packed(),
        Feature::Stays(came, goes) => 5 << 32 | u64::from(came) << 1 | u64::from(goes),
        Feature::From(from) => 6 << 32 | place(from),
        Feature::To(to) => 7 << 32 | place(to),
        Feature::Turn(from, to) => 8 << 32 | place(from) << 8 | place(to),
        Feature::Onward(to, on) => 9 << 32 | place(to) << 8 | place(on),
        Feature::LengthFrom(rhythm, from) => 10 << 32 | rhythm.packed() << 8 | place(from),
        Feature::LengthTo(rhythm, to) => 11 << 32 | rhythm.packed() << 8 | place(to),
    }
}

fn key(feature: &Feature) -> String {
    let mode = |minor: &bool| if *minor { "m" } else { "M" };
    match feature {
        Feature::Counted(figure) => format!("c {figure}"),
        Feature::Degree(minor, here) => format!("d {} {here}", mode(minor)),
        Feature::After(minor, here, after) => format!("a {} {here} {after}", mode(minor)),
        Feature::Before(minor, here, before) => format!("b {} {here} {before}", mode(minor)),
        Feature::Length(rhythm) => format!("l {}", rhythm.key()),
        Feature::Stays(came, goes) => format!("s {} {}", i32::from(*came), i32::from(*goes)),
        Feature::From(from) => format!("f {from}"),
        Feature::To(to) => format!("t {to}"),
        Feature::Turn(from, to) => format!("u {from} {to}"),
        Feature::Onward(to, on) => format!("o {to} {on}"),
        Feature::LengthFrom(rhythm, from) => format!("g {} {from}", rhythm.key()),
        Feature::LengthTo(rhythm, to) => format!("h {} {to}", rhythm.key()),
    }
}

fn feature(key: &str) -> Option<Feature> {
    let words: Vec<&str> = key.split(' ').collect();
    let number = |at: usize| words.get(at)?.parse::<i32>().ok();
    let minor = words.get(1).is_some_and(|word| *word == "m");
    let rhythm = || Some(Rhythm { length: u8::try_from(number(1)?).ok()?, off: number(2)? == 1 });
    Some(match *words.first()? {
        "c" => Feature::Counted(u8::try_from(number(1)?).ok()?),
        "d" => Feature::Degree(minor, number(2)?),
        "a" => Feature::After(minor, number(2)?, number(3)?),
        "b" => Feature::Before(minor, number(2)?, number(3)?),
        "l" => Feature::Length(rhythm()?),
        "s" => Feature::Stays(number(1)? == 1, number(2)? == 1),
        "f" => Feature::From(number(1)?),
        "t" => Feature::To(number(1)?),
        "u" => Feature::Turn(number(1)?, number(2)?),
        "o" => Feature::Onward(number(1)?, number(2)?),
        "g" => Feature::LengthFrom(rhythm()?, number(3)?),
        "h" => Feature::LengthTo(rhythm()?, number(3)?),
        _ => return None,
    })
}

/// How a bass moves at a note, in fifths.
#[derive(Clone, Copy)]
pub(super) struct Ways {
    /// How far it comes.
    pub(super) from: i32,
    /// How far it goes on.
    pub(super) to: i32,
    /// How far from there.
    pub(super) on: i32,
}

/// The features of a bass note by its degree and how the bass moves.
pub(super) fn by_motions(
    mode: Mode,
    here: i32,
    Ways { from, to, on }: Ways,
    rhythm: Rhythm,
) -> Vec<(Feature, f64)> {
    let features = [
        Feature::Degree(mode == Mode::Minor, here),
        Feature::From(from),
        Feature::To(to),
        Feature::Turn(from, to),
        Feature::Onward(to, on),
        Feature::Length(rhythm),
        Feature::Stays(from == 0, to == 0),
    ];
    features.map(|feature| (feature, 1.0)).to_vec()
}

/// The same, also by its neighbours' degrees: `counted` are the logarithms of what the
/// counts say of each figure, `around` the places before and after.
pub(super) fn by_degrees(
    mode: Mode,
    here: i32,
    (before, after): (i32, i32),
    ways: Ways,
    rhythm: Rhythm,
    counted: [f64; FIGURES],
) -> Vec<(Feature, f64)> {
    let minor = mode == Mode::Minor;
    let mut features = by_motions(mode, here, ways, rhythm);
    let figures = counted.into_iter().enumerate();
    features.extend(figures.map(|(at, counted)| (Feature::Counted(at as u8), counted)));
    let others = [
        Feature::After(minor, here, after),
        Feature::Before(minor, here, before),
        Feature::LengthFrom(rhythm, ways.from),
        Feature::LengthTo(rhythm, ways.to),
    ];
    features.extend(others.map(|feature| (feature, 1.0)));
    features
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_reads_back_what_it_prints() {
        let rows = [
            (Feature::Counted(3), [1.0, -0.25, 0.0, 0.5, 0.0, 0.0, -2.0]),
            (Feature::Degree(true, -4), [0.1; FIGURES]),
            (Feature::After(false, 5, 101), [-0.5; FIGURES]),
            (Feature::Before(true, 0, 100), [0.07; FIGURES]),
            (Feature::Length(Rhythm { length: 2, off: true }), [0.3; FIGURES]),
            (Feature::Stays(false, true), [0.9; FIGURES]),
            (Feature::From(-3), [0.2; FIGURES]),
            (Feature::To(99), [0.2; FIGURES]),
            (Feature::Turn(-3, 1), [0.2; FIGURES]),
            (Feature::Onward(4, 99), [0.2; FIGURES]),
            (Feature::LengthFrom(Rhythm { length: 3, off: false }, -2), [0.2; FIGURES]),
            (Feature::LengthTo(Rhythm { length: 0, off: false }, 99), [0.2; FIGURES]),
        ];
        let habit = Habit::of(rows);
        assert_eq!(Habit::read(&habit.print(5)), habit);
        assert_eq!(Habit::read("nonsense\nc 9 : 1 2"), Habit::default());
    }
}
