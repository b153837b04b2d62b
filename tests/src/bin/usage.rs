//! Counts how chorales harmonise their basses: reads what `tests/oracle/usage.py`
//! prints on standard input, finds the tonality of each chord by the harmony's own
//! reading of it, and prints the counts that `core/src/harmony/usage` keeps:
//! `python tests/oracle/usage.py | cargo run -p tastata-tests --bin usage`.
//! With `again` the tonalities are found by the counts there are, which sharpens
//! them; with `rows` it prints the chords in the form of the analyses instead.

use std::io::Read;

use tastata::figures::{Figures, Sign, Stage, accidental_of};
use tastata::harmony::{Chord, HarmonyWishes, Version, harmonise};
use tastata::pitch::{Mode, Pitch, PitchClass, Tonality};
use tastata::sketch::{Sketch, SketchNote};
use tastata_tests::counts::{Counted, counts, written};

/// Fewest cases a row is kept for.
const LEAST: u32 = 4;

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
        let read: Vec<Option<&Counted>> =
            read.iter().map(|it| it.as_ref().map(|it| &it.counted)).collect();
        for row in counts(&read, "012345np", LEAST) {
            println!("{row}");
        }
    }
}

/// A chord with its tonality.
struct Placed {
    counted: Counted,
    figure: &'static str,
    root: PitchClass,
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
    let (figure, root) = match numbers.as_slice() {
        [3, 5] | [3] | [5] => ("53", 1),
        [3, 6] | [6] => ("6", 6),
        [4, 6] | [4] => ("64", 4),
        [3, 5, 7] | [3, 7] | [5, 7] => ("7", 1),
        [3, 5, 6] | [5, 6] => ("65", 6),
        [3, 4, 6] | [3, 4] => ("43", 4),
        [2, 4, 6] | [2, 4] | [2, 6] => ("42", 2),
        _ => return None,
    };
    let at = |number: u8| chord.tones.iter().find(|it| it.number == number).map(|it| it.class);
    Some(Placed {
        figure,
        root: at(root).unwrap_or(bass),
        counted: Counted {
            piece: piece.to_string(),
            bass,
            text: written(figure, chord.tonality, at),
            tonality: chord.tonality,
        },
        classes: classes.to_vec(),
    })
}

impl Placed {
    fn print(&self) {
        let plain = |it: PitchClass| it.to_string().replace('♯', "#").replace('♭', "b");
        let Counted { piece, bass, tonality, .. } = &self.counted;
        let tonic = plain(tonality.tonic);
        let tonality = match tonality.mode {
            Mode::Major => tonic,
            Mode::Minor => tonic[..1].to_lowercase() + &tonic[1..],
        };
        let classes: Vec<String> = self.classes.iter().map(|it| plain(*it)).collect();
        let (bass, figure) = (plain(*bass), self.figure);
        let root = plain(self.root);
        println!("{piece}\t{bass}\t{figure}\t{root}\t{tonality}\t{}", classes.join(" "));
    }
}
