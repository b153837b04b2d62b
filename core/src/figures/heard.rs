//! Names a chord that is played: the figures whose tones are exactly the keys struck
//! over a bass, spelled with as few signs against the signature as can be.
//!
//! The sonorities are those of the table; where two name the same keys, the one that
//! needs fewer accidentals is taken, then the one listed first, plain ones before
//! rare ones (our choice). A 7 may lack its fifth and a 6/4/2 its sixth, as in play
//! (common practice, no source).

use super::expand::{accidental_of, class_of, expand, own_class, possible, semitones_above};
use super::{FigureRemark, Sign, Stage, abbreviated, table};
use crate::pitch::{PitchClass, Tonality};

/// Semitones by which all signs together may leave the signature: an augmented sixth
/// over a lowered bass needs two. Beyond that any keys would make some figures.
const FARTHEST: u32 = 2;
/// What is played of a sonority, and the sonority it stands for.
const SHORTENED: [(&[u8], &[u8]); 2] = [(&[3, 7], &[3, 5, 7]), (&[2, 4], &[2, 4, 6])];

/// The figures of a chord that sounds these keys over a bass: `chromas` are their
/// semitones above C, in the range [0, 11], the bass's own among them or not. `None`
/// where no figures say exactly that.
pub fn name_chord(bass: PitchClass, chromas: &[i32], tonality: Tonality) -> Option<Stage> {
    let mut wanted: Vec<i32> = Vec::new();
    for chroma in chromas.iter().map(|chroma| chroma.rem_euclid(12)) {
        if chroma != bass.chroma() && !wanted.contains(&chroma) {
            wanted.push(chroma);
        }
    }
    let rows = table::TABLE.iter().map(|(_, full)| (*full, *full)).chain(SHORTENED);
    let mut best: Option<(u32, Stage)> = None;
    for (sounded, full) in rows.filter(|(sounded, _)| sounded.len() == wanted.len()) {
        let Some((cost, signs)) = fitted(sounded, &wanted, bass, tonality) else { continue };
        let Some(stage) = written(full, &signs, &wanted, bass, tonality) else { continue };
        if cost <= FARTHEST && best.as_ref().is_none_or(|(least, _)| cost < *least) {
            best = Some((cost, stage));
        }
    }
    best.map(|(_, stage)| stage)
}

/// A sign for each number so that together they sound the keys wanted, and how far
/// they are from the signature; `None` where they cannot.
fn fitted(
    numbers: &[u8],
    wanted: &[i32],
    bass: PitchClass,
    tonality: Tonality,
) -> Option<(u32, Vec<Sign>)> {
    let Some((&number, rest)) = numbers.split_first() else {
        return wanted.is_empty().then(|| (0, Vec::new()));
    };
    let own = own_class(number, bass, tonality);
    let mut best: Option<(u32, Vec<Sign>)> = None;
    for (at, &chroma) in wanted.iter().enumerate() {
        let alter = (chroma - own.step.semitones() + 6).rem_euclid(12) - 6;
        let Some(class) = i8::try_from(alter).ok().filter(|alter| alter.abs() <= 2) else {
            continue;
        };
        let class = PitchClass::new(own.step, class);
        let accidental = accidental_of(class, own);
        if !possible(number, semitones_above(number, bass, class))
            || class_of(own, accidental) != class
        {
            continue;
        }
        let others: Vec<i32> =
            wanted.iter().enumerate().filter(|(i, _)| *i != at).map(|(_, it)| *it).collect();
        let Some((cost, mut signs)) = fitted(rest, &others, bass, tonality) else { continue };
        let cost = cost + u32::from(class.alter.abs_diff(own.alter));
        if best.as_ref().is_none_or(|(least, _)| cost < *least) {
            signs.insert(0, Sign { number, accidental });
            best = Some((cost, signs));
        }
    }
    best
}

/// The signs as a player writes them, if read back they sound the keys wanted.
fn written(
    full: &[u8],
    signs: &[Sign],
    wanted: &[i32],
    bass: PitchClass,
    tonality: Tonality,
) -> Option<Stage> {
    let all: Vec<Sign> = full
        .iter()
        .map(|&number| {
            let given = signs.iter().find(|sign| sign.number == number).copied();
            given.unwrap_or(Sign { number, accidental: None })
        })
        .collect();
    let stage = abbreviated(&all);
    let read = expand(&stage, bass, tonality);
    let odd = |remark: &FigureRemark| *remark != FigureRemark::Unlisted;
    if read.remarks.iter().any(odd) {
        return None;
    }
    let there = |chroma: &i32| read.tones.iter().any(|tone| tone.class.chroma() == *chroma);
    wanted.iter().all(there).then_some(stage)
}

#[cfg(test)]
mod tests {
    use super::super::print_stage;
    use super::*;

    fn named(key: &str, bass: &str, struck: &str) -> String {
        let class = |name: &str| Tonality::parse(name).expect("a note").tonic;
        let chromas: Vec<i32> = struck.split(' ').map(|name| class(name).chroma()).collect();
        let tonality = Tonality::parse(key).expect("a tonality");
        let stage = name_chord(class(bass), &chromas, tonality);
        stage.as_ref().map_or("nothing".to_owned(), print_stage)
    }

    #[test]
    fn a_chord_is_named_by_its_figures() {
        for (bass, struck, figures) in [
            ("C", "C E G", "."),
            ("C", "G E", "."),
            ("E", "C E G", "6"),
            ("G", "C E", "6/4"),
            ("G", "G C D", "5/4"),
            ("B", "D F G", "6/5"),
            ("D", "F G B", "4/3"),
            ("F", "G B D", "4/2"),
            ("F", "G B", "4/2"),
            ("G", "B D F", "7"),
            ("G", "B F", "7"),
            ("A", "C D F#", "#6/4/3"),
            ("E", "G# B", "#"),
            ("F", "A D#", "#6"),
            ("C", "E G Bb", "b7"),
            ("C", "E G D", "9"),
            ("C", "C", "nothing"),
            ("C", "E", "nothing"),
            ("C", "C# D D#", "nothing"),
            ("D", "F F# Bb B", "nothing"),
        ] {
            assert_eq!(named("C", bass, struck), figures, "{struck} over {bass}");
        }
        assert_eq!(named("A minor", "E", "G# B D"), "7/#");
        assert_eq!(named("C minor", "G", "B D"), "n");
        assert_eq!(named("D minor", "C#", "E G Bb"), "7");
    }

    #[test]
    fn every_sonority_of_the_table_is_named_so_that_it_sounds_the_same() {
        for key in ["C", "D", "Bb", "F# minor", "C minor"] {
            let tonality = Tonality::parse(key).expect("a tonality");
            for (_, full) in table::TABLE {
                let signs: Vec<Sign> =
                    full.iter().map(|&number| Sign { number, accidental: None }).collect();
                let bass = tonality.tonic;
                let read = expand(&Stage::Signs(signs), bass, tonality);
                let chromas: Vec<i32> = read.tones.iter().map(|it| it.class.chroma()).collect();
                let stage = name_chord(bass, &chromas, tonality).expect("a name");
                let again = expand(&stage, bass, tonality);
                let mut heard: Vec<i32> = again.tones.iter().map(|it| it.class.chroma()).collect();
                let mut wanted = chromas.clone();
                heard.sort_unstable();
                wanted.sort_unstable();
                assert_eq!(heard, wanted, "{full:?} in {key}: {}", print_stage(&stage));
            }
        }
    }
}
