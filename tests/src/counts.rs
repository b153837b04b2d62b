//! Counts of how pieces harmonise their basses, as `core/src/harmony/usage` keeps them.

use std::collections::BTreeMap;

use tastata::pitch::{Mode, PitchClass, Tonality};

/// A chord to be counted.
pub struct Counted {
    /// The piece it is in.
    pub piece: String,
    /// Its bass.
    pub bass: PitchClass,
    /// Its figures within the scale, as the stock of chords writes them.
    pub text: String,
    /// The tonality it stands in.
    pub tonality: Tonality,
}

/// A figure such as `65` as the stock of chords writes it within the scale, such as
/// `6+/5`; `at` gives the class of a number above the bass.
pub fn written(figure: &str, tonality: Tonality, at: impl Fn(u8) -> Option<PitchClass>) -> String {
    let (always, altered): (&[u8], &[u8]) = match figure {
        "53" => (&[5, 3], &[]),
        "6" => (&[6], &[3]),
        "64" => (&[6, 4], &[]),
        "7" => (&[7], &[5, 3]),
        "65" => (&[6, 5], &[3]),
        "43" => (&[6, 4, 3], &[]),
        _ => (&[6, 4, 2], &[]),
    };
    let change =
        |number: u8| at(number).map_or(0, |it| it.alter - tonality.class_of(it.step).alter);
    let sign = |number: &u8| match change(*number) {
        1 => format!("{number}+"),
        -1 => format!("{number}-"),
        _ => number.to_string(),
    };
    let altered = altered.iter().filter(|number| change(**number) != 0);
    let text: Vec<String> = always.iter().chain(altered).map(sign).collect();
    text.join("/")
}

/// The rows of the kinds asked for, each with at least so many cases. Rows: `0 mode degree`,
/// `1 mode degree after`, `2 mode degree before after`, `3 mode degree after later`,
/// `4 mode degree before`, `5 mode degree before earlier`, `6 mode degree ^` of openings, each
/// with figures and their counts; `n mode before degree count`; `p mode before degree` with
/// pairs of figures. Places are fifths from the tonic, `^` before the first note, `$` after the
/// last.
pub fn counts(read: &[Option<&Counted>], kinds: &str, least: u32) -> Vec<String> {
    let mut lines = Vec::new();
    let mut rows: BTreeMap<String, BTreeMap<String, u32>> = BTreeMap::new();
    for (at, it) in read.iter().enumerate() {
        let Some(it) = it else { continue };
        let near = |at: Option<usize>| {
            let other = at.and_then(|at| read.get(at)).copied().flatten();
            other.filter(|other| other.piece == it.piece)
        };
        let place = |bass: PitchClass| (bass.fifths() - it.tonality.tonic.fifths()).to_string();
        let (before, after) = (near(at.checked_sub(1)), near(Some(at + 1)));
        let (earlier, later) = (near(at.checked_sub(2)), near(Some(at + 2)));
        let from = before.map_or("^".to_string(), |it| place(it.bass));
        let to = after.map_or("$".to_string(), |it| place(it.bass));
        let earlier = earlier.map_or("^".to_string(), |it| place(it.bass));
        let later = later.map_or("$".to_string(), |it| place(it.bass));
        let here = place(it.bass);
        let mode = match it.tonality.mode {
            Mode::Major => "M",
            Mode::Minor => "m",
        };
        let mut add = |key: String, entry: String| {
            if key.starts_with(|kind| kinds.contains(kind)) {
                *rows.entry(key).or_default().entry(entry).or_default() += 1;
            }
        };
        add(format!("0 {mode} {here}"), it.text.clone());
        add(format!("1 {mode} {here} {to}"), it.text.clone());
        add(format!("2 {mode} {here} {from} {to}"), it.text.clone());
        add(format!("3 {mode} {here} {to} {later}"), it.text.clone());
        add(format!("4 {mode} {here} {from}"), it.text.clone());
        add(format!("5 {mode} {here} {from} {earlier}"), it.text.clone());
        if before.is_none() {
            add(format!("6 {mode} {here} {from}"), it.text.clone());
        }
        add(format!("n {mode} {from}"), here.clone());
        if let Some(before) = before.filter(|before| before.tonality == it.tonality) {
            add(format!("p {mode} {from} {here}"), format!("{}>{}", before.text, it.text));
        }
    }
    for (key, entries) in rows {
        if entries.values().sum::<u32>() < least {
            continue;
        }
        // Single cases in the longer rows say little and weigh much.
        let rare = if key.starts_with(['2', '3', '5', 'p']) { 1 } else { 0 };
        let mut entries: Vec<(String, u32)> =
            entries.into_iter().filter(|(_, count)| *count > rare).collect();
        if entries.is_empty() {
            continue;
        }
        entries.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
        let entries: Vec<String> =
            entries.into_iter().map(|(entry, count)| format!("{entry} {count}")).collect();
        lines.push(format!("{key} : {}", entries.join(" ")));
    }
    lines
}
