//! The octave rule against its published tables, on every tonic and spelling.

use tastata::bass::read_bass;
use tastata::harmony::{Harmony, HarmonyWishes, Version, harmonise};
use tastata::pitch::{Interval, Mode, Pitch, PitchClass, Step, Tonality};
use tastata::sketch::{Sketch, SketchNote};

fn harmonised(pitches: &[Pitch], tonality: Option<Tonality>, version: Version) -> Harmony {
    harmonise(&Sketch {
        tonality,
        notes: pitches.iter().map(|&pitch| SketchNote::bare(pitch)).collect(),
        harmony: HarmonyWishes { version, ..HarmonyWishes::default() },
        ..Sketch::default()
    })
}

/// The chords as intervals above their bass, named by quality and number
/// (`m3 P5`), from the lowest number up.
fn intervals(harmony: &Harmony) -> Vec<String> {
    harmony
        .chords
        .iter()
        .map(|chord| {
            let tones = chord.tones.iter().filter(|tone| tone.number != 1);
            let names = tones.map(|tone| {
                let number = i32::from(tone.number);
                let above =
                    Pitch::from_diatonic(chord.bass.diatonic() + number - 1, tone.class.alter);
                name((above - chord.bass).semitones, tone.number)
            });
            names.collect::<Vec<_>>().join(" ")
        })
        .collect()
}

fn name(semitones: i32, number: u8) -> String {
    let quality = match (number, semitones) {
        (2, 1) | (3, 3) | (6, 8) | (7, 10) => "m",
        (2, 2) | (3, 4) | (6, 9) | (7, 11) => "M",
        (4, 5) | (5, 7) => "P",
        (4, 6) | (6, 10) => "A",
        (5, 6) | (7, 9) => "d",
        _ => "?",
    };
    format!("{quality}{number}")
}

const UP_MAJOR: [(i32, i32); 8] =
    [(0, 0), (1, 2), (2, 4), (3, 5), (4, 7), (5, 9), (6, 11), (7, 12)];
const UP_MINOR: [(i32, i32); 8] =
    [(0, 0), (1, 2), (2, 3), (3, 5), (4, 7), (5, 9), (6, 11), (7, 12)];
const DOWN_MINOR: [(i32, i32); 8] =
    [(7, 12), (6, 10), (5, 8), (4, 7), (3, 5), (2, 3), (1, 2), (0, 0)];

fn scale(tonic: PitchClass, steps: &[(i32, i32)]) -> Vec<Pitch> {
    let start = tonic.in_octave(2);
    steps.iter().map(|&(letters, semitones)| start + Interval::new(letters, semitones)).collect()
}

/// Every tonic that has a signature, flat and sharp spellings apart.
fn tonics() -> impl Iterator<Item = (PitchClass, PitchClass)> {
    (-7..=7).map(|sharps| (PitchClass::from_fifths(sharps), PitchClass::from_fifths(sharps + 3)))
}

fn check(version: Version, major: bool, steps: &[(i32, i32)], expected: &[&str]) {
    for (major_tonic, minor_tonic) in tonics() {
        let (tonic, mode) =
            if major { (major_tonic, Mode::Major) } else { (minor_tonic, Mode::Minor) };
        let tonality = Tonality::new(tonic, mode);
        let harmony = harmonised(&scale(tonic, steps), Some(tonality), version);
        assert_eq!(intervals(&harmony), expected, "{tonality} {version:?}");
        assert!(harmony.chords.iter().all(|chord| chord.tonality == tonality));
    }
}

/// Campion, *Traité d'accompagnement* (1716); Rameau, *Traité de l'harmonie* (1722);
/// Fenaroli, *Regole musicali* (1775): one row. What was found of it, figure for
/// figure, is in `harmony_published`; here it is checked on every tonic.
#[test]
fn campion_rameau_fenaroli() {
    let falling: Vec<_> = UP_MAJOR.iter().rev().copied().collect();
    for version in [Version::Campion, Version::Rameau, Version::Fenaroli] {
        #[rustfmt::skip]
        check(version, true, &UP_MAJOR, &[
            "M3 P5", "m3 P4 M6", "m3 m6", "M3 P5 M6", "M3 P5", "m3 m6", "m3 d5 m6", "M3 P5",
        ]);
        #[rustfmt::skip]
        check(version, true, &falling, &[
            "M3 P5", "m3 m6", "m3 P4 M6", "M3 P5", "M2 A4 M6", "m3 m6", "m3 P4 M6", "M3 P5",
        ]);
        #[rustfmt::skip]
        check(version, false, &UP_MINOR, &[
            "m3 P5", "m3 P4 M6", "M3 M6", "m3 P5 M6", "M3 P5", "m3 m6", "m3 d5 m6", "m3 P5",
        ]);
        #[rustfmt::skip]
        check(version, false, &DOWN_MINOR, &[
            "m3 P5", "M3 M6", "M3 A4 M6", "M3 P5", "M2 A4 M6", "M3 M6", "m3 P4 M6", "m3 P5",
        ]);
    }
}

/// Gasparini, *L'armonico pratico al cimbalo* (1708), p. 51 ff.: plainer; figures
/// from memory with low confidence.
#[test]
fn gasparini() {
    let falling: Vec<_> = UP_MAJOR.iter().rev().copied().collect();
    #[rustfmt::skip]
    check(Version::Gasparini, true, &UP_MAJOR, &[
        "M3 P5", "m3 M6", "m3 m6", "M3 P5", "M3 P5", "m3 m6", "m3 m6", "M3 P5",
    ]);
    #[rustfmt::skip]
    check(Version::Gasparini, true, &falling, &[
        "M3 P5", "m3 m6", "m3 M6", "M3 P5", "M2 A4 M6", "m3 m6", "m3 M6", "M3 P5",
    ]);
}

/// Heinichen, *Der General-Bass in der Composition* (1728): his plain 6 instead of
/// the raised one on the falling 6th, p. 765, after Christensen (1992): found.
#[test]
fn heinichen_refuses_the_raised_sixth() {
    let falling: Vec<_> = UP_MAJOR.iter().rev().copied().collect();
    #[rustfmt::skip]
    check(Version::Heinichen, true, &falling, &[
        "M3 P5", "m3 m6", "m3 m6", "M3 P5", "M2 A4 M6", "m3 m6", "m3 M6", "M3 P5",
    ]);
}

/// Gettysburg College, unit 4.1, prints the augmented sixth on the falling 6th of
/// minor: found.
#[test]
fn the_augmented_sixth_is_a_second_tradition() {
    #[rustfmt::skip]
    check(Version::AugmentedSixth, false, &DOWN_MINOR, &[
        "m3 P5", "M3 M6", "M3 A4 A6", "M3 P5", "M2 A4 M6", "M3 M6", "m3 P4 M6", "m3 P5",
    ]);
}

/// The tonality is found from the scale alone, on every tonic.
#[test]
fn the_key_of_a_plain_octave_is_found() {
    for (major, minor) in tonics() {
        let found = |tonic, steps: &[(i32, i32)]| {
            harmonised(&scale(tonic, steps), None, Version::Campion).home
        };
        assert_eq!(found(major, &UP_MAJOR), Tonality::new(major, Mode::Major));
        assert_eq!(found(minor, &UP_MINOR), Tonality::new(minor, Mode::Minor));
        assert_eq!(found(minor, &DOWN_MINOR), Tonality::new(minor, Mode::Minor));
    }
}

fn classes(text: &str) -> Vec<String> {
    let read = read_bass(text, None);
    let harmony = harmonise(&Sketch {
        tonality: read.tonality,
        notes: read.notes.iter().map(|note| note.to_sketch()).collect(),
        ..Sketch::default()
    });
    let chord = |chord: &tastata::harmony::Chord| {
        chord.tones.iter().map(|tone| tone.class.to_string()).collect::<Vec<_>>().join(" ")
    };
    harmony.chords.iter().map(chord).collect()
}

/// The chord follows where the bass goes next: 4 falling to 3, rising to 5 or
/// leaping to 1; 6 falling to 5 or leaving by leap ("When the Rule of the Octave
/// Does Not Apply", essaysonmusic.com; Nicolas, *MTO* 25.4, 2019).
#[test]
fn the_chord_follows_where_the_bass_goes() {
    assert_eq!(classes("C major: c f e c")[1], "F G B D");
    assert_eq!(classes("C major: c f g c")[1], "F A C D");
    assert_eq!(classes("C major: c f c")[1], "F A C");
    assert_eq!(classes("C major: c a g c")[1], "A C D F♯");
    assert_eq!(classes("C major: c a b c")[1], "A C F");
    assert_eq!(classes("C major: c e a f g c")[2], "A C E");
}

/// Simple and compound cadence ("Cadences: the basics", essaysonmusic.com); double
/// cadence in four sonorities, figures from memory (Sanguinetti 2012, p. 106).
#[test]
fn the_bass_of_a_cadence_decides_its_stages() {
    assert_eq!(classes("C major: c g c"), ["C E G", "G B D F", "C E G"]);
    assert_eq!(classes("C major: c g g c"), ["C E G", "G C D", "G B D", "C E G"]);
    assert_eq!(classes("A minor: a e e a"), ["A C E", "E A B", "E G♯ B", "A C E"]);
    let double = classes("C major: c g g g g c");
    assert_eq!(double[1..5], ["G B D", "G C E", "G C D", "G B D"]);
}

/// What a person figured is what sounds, stage by stage.
#[test]
fn given_figures_are_obeyed() {
    assert_eq!(classes("C major: c d:7-6 e c"), ["C E G", "D F C", "D F B", "E G C", "C E G"]);
    assert_eq!(classes("C major: c d:# g"), ["C E G", "D F♯ A", "G B D"]);
    assert_eq!(classes("C major: c d:t.s. e:_"), ["C E G", "D", "E D"]);
    assert_eq!(classes("C major: c (d) e").len(), 2);
    assert_eq!(classes("").len(), 0);
}

/// Nothing panics on notes no keyboard has.
#[test]
fn strange_notes_get_chords() {
    for alter in [-5i8, -2, 0, 2, 5] {
        for octave in [i8::MIN, -1, 0, 9, i8::MAX] {
            for step in Step::ALL {
                let pitches = vec![Pitch::new(step, alter, octave); 3];
                assert!(!harmonised(&pitches, None, Version::Campion).chords.is_empty());
            }
        }
    }
}
