//! Counts how chorales harmonise their basses: reads what `tests/oracle/usage.py`
//! prints on standard input, finds the tonality of each chord by the harmony's own
//! reading of it, and prints the counts that `core/src/harmony/usage` keeps:
//! `python tests/oracle/usage.py | cargo run -p tastata-tests --bin usage`.
//! With `again` the tonalities are found by the counts there are, which sharpens
//! them; with `rows` it prints the chords in the form of the analyses instead.

use std::collections::BTreeMap;
use std::io::Read;

use tastata::figures::{Figures, Sign, Stage, accidental_of};
use tastata::harmony::{Chord, HarmonyWishes, Version, harmonise};
use tastata::pitch::{Mode, Pitch, PitchClass, Tonality};
use tastata::sketch::{Sketch, SketchNote};

/// A bass and all classes over it.
type Row = (PitchClass, Vec<PitchClass>);

fn class(text: &str) -> PitchClass {
    Tonality::parse(text).expect("a class").tonic
}

fn main() {
    let wanted: Vec<String> = std::env::args().skip(1).collect();
    let again = wanted.iter().any(|it| it == "again");
    let version = if again { Version::Chorales } else { Version::Campion };
    let mut text = String::new();
    std::io::stdin().read_to_string(&mut text).expect("rows");
    let mut pieces: Vec<(String, i32, Vec<Row>)> = Vec::new();
    for line in text.lines() {
        let columns: Vec<&str> = line.split('\t').collect();
        let [piece, signature, bass, classes] = columns[..] else { continue };
        let row = (class(bass), classes.split(' ').map(class).collect());
        match pieces.last_mut().filter(|it| it.0 == piece) {
            Some(it) => it.2.push(row),
            None => pieces.push((piece.to_string(), signature.parse().expect("number"), vec![row])),
        }
    }
    let mut read: Vec<Option<Placed>> = Vec::new();
    for (name, signature, rows) in pieces {
        let Some((last, _)) = rows.last() else { continue };
        let home = [Mode::Major, Mode::Minor]
            .map(|mode| Tonality::new(*last, mode))
            .into_iter()
            .min_by_key(|it| (it.signature() - signature).abs())
            .expect("two");
        let mut low = Pitch::new(tastata::pitch::Step::C, 0, 3);
        let notes = rows.iter().map(|(bass, classes)| {
            low = bass.nearest(low);
            if low.octave > 3 {
                low = bass.in_octave(3);
            }
            let signs = classes.iter().filter(|it| *it != bass).map(|it| {
                let number = (it.step.index() - bass.step.index()).rem_euclid(7) as u8 + 1;
                Sign { number, accidental: accidental_of(*it, home.class_of(it.step)) }
            });
            let mut signs: Vec<Sign> = signs.collect();
            // The missing fifth, so that the figures mean the chord.
            let numbers: Vec<u8> = signs.iter().map(|it| it.number).collect();
            let missing = match numbers.as_slice() {
                [3, 7] | [7, 3] => Some(5),
                _ => None,
            };
            signs.extend(missing.map(|number| Sign { number, accidental: None }));
            SketchNote { figures: Figures::new(vec![Stage::Signs(signs)]), ..SketchNote::bare(low) }
        });
        let sketch = Sketch {
            tonality: Some(home),
            notes: notes.collect(),
            harmony: HarmonyWishes { version, ..HarmonyWishes::default() },
            ..Sketch::default()
        };
        let harmony = harmonise(&sketch);
        for (chord, (bass, classes)) in harmony.chords.iter().zip(&rows) {
            read.push(chord_of(&name, chord, *bass, classes));
        }
    }
    if wanted.iter().any(|it| it == "rows") {
        for it in read.iter().flatten() {
            it.print();
        }
    } else {
        counts(&read);
    }
}

/// A chord with its tonality.
struct Placed {
    piece: String,
    bass: PitchClass,
    figure: &'static str,
    /// Its figures within the scale, as the stock writes them.
    text: String,
    root: PitchClass,
    tonality: Tonality,
    classes: Vec<PitchClass>,
}

fn chord_of(
    piece: &str,
    chord: &Chord,
    bass: PitchClass,
    classes: &[PitchClass],
) -> Option<Placed> {
    let mut numbers: Vec<u8> =
        chord.tones.iter().map(|it| it.number).filter(|&it| it > 1).collect();
    numbers.sort_unstable();
    let (figure, root, always, altered): (&str, u8, &[u8], &[u8]) = match numbers.as_slice() {
        [3, 5] | [3] | [5] => ("53", 1, &[5, 3], &[]),
        [3, 6] | [6] => ("6", 6, &[6], &[3]),
        [4, 6] | [4] => ("64", 4, &[6, 4], &[]),
        [3, 5, 7] | [3, 7] | [5, 7] => ("7", 1, &[7], &[5, 3]),
        [3, 5, 6] | [5, 6] => ("65", 6, &[6, 5], &[3]),
        [3, 4, 6] | [3, 4] => ("43", 4, &[6, 4, 3], &[]),
        [2, 4, 6] | [2, 4] | [2, 6] => ("42", 2, &[6, 4, 2], &[]),
        _ => return None,
    };
    let at = |number: u8| chord.tones.iter().find(|it| it.number == number).map(|it| it.class);
    let change =
        |number: u8| at(number).map_or(0, |it| it.alter - chord.tonality.class_of(it.step).alter);
    let sign = |number: &u8| match change(*number) {
        1 => format!("{number}+"),
        -1 => format!("{number}-"),
        _ => number.to_string(),
    };
    let altered = altered.iter().filter(|number| change(**number) != 0);
    let text: Vec<String> = always.iter().chain(altered).map(sign).collect();
    Some(Placed {
        piece: piece.to_string(),
        bass,
        figure,
        text: text.join("/"),
        root: at(root).unwrap_or(bass),
        tonality: chord.tonality,
        classes: classes.to_vec(),
    })
}

impl Placed {
    fn print(&self) {
        let plain = |it: PitchClass| it.to_string().replace('♯', "#").replace('♭', "b");
        let tonic = plain(self.tonality.tonic);
        let tonality = match self.tonality.mode {
            Mode::Major => tonic,
            Mode::Minor => tonic[..1].to_lowercase() + &tonic[1..],
        };
        let classes: Vec<String> = self.classes.iter().map(|it| plain(*it)).collect();
        let (piece, bass, figure) = (&self.piece, plain(self.bass), self.figure);
        let root = plain(self.root);
        println!("{piece}\t{bass}\t{figure}\t{root}\t{tonality}\t{}", classes.join(" "));
    }
}

/// Fewest cases a row is kept for.
const LEAST: u32 = 4;

/// Prints the counts. Rows: `0 mode degree`, `1 mode degree after`, `2 mode degree
/// before after`, `3 mode degree after later`, `4 mode degree before`, `5 mode degree
/// before earlier`, each with figures and their counts; `n mode before degree count`;
/// `p mode before degree` with pairs of figures. Places are fifths from the tonic,
/// `^` before the first note, `$` after the last.
fn counts(read: &[Option<Placed>]) {
    let mut rows: BTreeMap<String, BTreeMap<String, u32>> = BTreeMap::new();
    for (at, it) in read.iter().enumerate() {
        let Some(it) = it else { continue };
        let near = |at: Option<usize>| {
            let other = at.and_then(|at| read.get(at)).and_then(Option::as_ref);
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
            *rows.entry(key).or_default().entry(entry).or_default() += 1;
        };
        add(format!("0 {mode} {here}"), it.text.clone());
        add(format!("1 {mode} {here} {to}"), it.text.clone());
        add(format!("2 {mode} {here} {from} {to}"), it.text.clone());
        add(format!("3 {mode} {here} {to} {later}"), it.text.clone());
        add(format!("4 {mode} {here} {from}"), it.text.clone());
        add(format!("5 {mode} {here} {from} {earlier}"), it.text.clone());
        add(format!("n {mode} {from}"), here.clone());
        if let Some(before) = before.filter(|before| before.tonality == it.tonality) {
            add(format!("p {mode} {from} {here}"), format!("{}>{}", before.text, it.text));
        }
    }
    for (key, entries) in rows {
        if entries.values().sum::<u32>() < LEAST {
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
        println!("{key} : {}", entries.join(" "));
    }
}
