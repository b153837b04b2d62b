//! How the manner of madrigals plays: the octave both ways, cadences and sequences, in
//! every tonality. It is a habit and no published table, so that what is checked are the
//! maxims of the time: each note bears its fifth or its sixth; the degrees that sound
//! *mi* (the 3rd and the 7th of major, the raised 7th of minor) bear the sixth, and the
//! 5th of minor before its tonic has the major third (F. Bianciardi, *Breve regola*, 1607;
//! M. Locke, *Melothesia*, 1673; both from memory).

use tastata::bass::read_bass;
use tastata::frame::Severity;
use tastata::harmony::{Chord, HarmonyWishes, Reason, Version};
use tastata::pitch::{Degree, Interval, Mode, PitchClass, Tonality};
use tastata::reading::{Reading, read};
use tastata::sketch::{Sketch, SketchNote};
use tastata::words::{Lang, Tongue, reason};

/// Basses in C major and in A minor, by what they show.
const MAJOR: [(&str, &str); 8] = [
    ("octave", "C3 D3 E3 F3 G3 A3 B3 C4 B3 A3 G3 F3 E3 D3 C3"),
    ("simple cadence", "C3 F3 G3 C3"),
    ("compound cadence", "C3 F3 D3 G3 G3 C3"),
    ("falling fifths", "C4 F3 B3 E3 A3 D3 G3 C3"),
    ("falling fourths, rising seconds", "C4 G3 A3 E3 F3 C3 D3 G3 C3"),
    ("falling thirds, rising seconds", "C4 A3 B3 G3 A3 F3 G3 E3 F3 G3 C3"),
    ("rising thirds, falling seconds", "C3 E3 D3 F3 E3 G3 F3 A3 G3 C3"),
    ("falling thirds", "C4 A3 F3 D3 G3 C3"),
];
const MINOR: [(&str, &str); 7] = [
    ("octave", "A2 B2 C3 D3 E3 F#3 G#3 A3 G3 F3 E3 D3 C3 B2 A2"),
    ("simple cadence", "A2 D3 E3 A2"),
    ("compound cadence", "A2 D3 B2 E3 E3 A2"),
    ("Phrygian cadence", "A3 G3 F3 E3"),
    ("falling fifths", "A3 D3 G3 C3 F3 B2 E3 A2"),
    ("falling fourths, rising seconds", "A3 E3 F3 C3 D3 A2 B2 E3 A2"),
    ("falling thirds", "A3 F3 D3 B2 E3 A2"),
];

fn played(text: &str, tonality: Tonality, up: Interval) -> Reading {
    let bass = read_bass(text, None).notes;
    read(&Sketch {
        tonality: Some(tonality),
        notes: bass.iter().map(|note| SketchNote::bare(note.pitch + up)).collect(),
        harmony: HarmonyWishes { version: Version::Madrigals, ..HarmonyWishes::default() },
        ..Sketch::default()
    })
}

/// All basses on every tonic from five flats to five sharps, with how far they are moved.
fn everywhere(mut check: impl FnMut(&str, Mode, Reading)) {
    for (mode, basses) in [(Mode::Major, &MAJOR[..]), (Mode::Minor, &MINOR[..])] {
        for signature in -5..=5 {
            let fifths = if mode == Mode::Major { signature } else { signature + 3 };
            let tonality = Tonality::new(PitchClass::from_fifths(fifths), mode);
            let start = if mode == Mode::Major { 0 } else { 3 };
            let from = PitchClass::from_fifths(start).in_octave(3);
            let up = tonality.tonic.nearest(from) - from;
            for (name, text) in basses {
                let reading = played(text, tonality, up);
                let notes = text.split(' ').count();
                assert!(reading.harmony.chords.len() >= notes, "{tonality} {name}");
                check(&format!("{tonality}, {name}"), mode, reading);
            }
        }
    }
}

fn numbers(chord: &Chord) -> Vec<u8> {
    let mut all: Vec<u8> = chord.tones.iter().map(|it| it.number).filter(|&it| it > 1).collect();
    all.sort_unstable();
    all
}

#[test]
fn it_plays_without_faults() {
    everywhere(|name, _, reading| {
        let faults: Vec<_> =
            reading.frame.faults.iter().filter(|it| it.severity == Severity::Fault).collect();
        assert!(faults.is_empty(), "{name}: {faults:?}");
    });
}

#[test]
fn chords_are_plain_and_begin_and_end_at_rest() {
    everywhere(|name, mode, reading| {
        let chords = &reading.harmony.chords;
        for (at, chord) in chords.iter().enumerate() {
            let resolves = || {
                let next = chords.get(at + 1);
                next.is_some_and(|next| next.bass == chord.bass && numbers(next) == [3, 5])
            };
            match numbers(chord).as_slice() {
                [3, 5] | [3, 6] => {}
                [4, 6] if resolves() => {}
                other => panic!("{name}: {other:?} over {}", chord.bass),
            }
        }
        let (first, last) = (&chords[0], &chords[chords.len() - 1]);
        assert_eq!((numbers(first), numbers(last)), (vec![3, 5], vec![3, 5]), "{name}");
        // A piece in minor does not begin as if it were major.
        let third = first.tones.iter().find(|tone| tone.number == 3).expect("a third");
        let above = third.class.in_octave(4).semitones() - first.bass.semitones();
        assert_eq!(above.rem_euclid(12), if mode == Mode::Major { 4 } else { 3 }, "{name}");
    });
}

#[test]
fn mi_bears_the_sixth_and_dominants_their_leading_note() {
    everywhere(|name, mode, reading| {
        let tonality = reading.harmony.home;
        let chords = &reading.harmony.chords;
        let dominant = tonality.scale(Degree::new(5).expect("a degree"));
        for pair in chords.windows(2) {
            let [chord, next] = pair else { continue };
            let home = next.bass.class() == tonality.tonic;
            if chord.bass.class() == dominant && home && numbers(chord) == [3, 5] {
                let leads = chord.tones.iter().any(|tone| tone.class == tonality.leading());
                assert!(leads, "{name}");
            }
            if name.ends_with("octave") {
                let third = mode == Mode::Major && chord.degree.number() == 3;
                let mi = third || chord.bass.class() == tonality.leading();
                assert!(!mi || numbers(chord) == [3, 6], "{name}: {}", chord.bass);
            }
        }
        if name.ends_with("Phrygian cadence") {
            let [.., sixth, last] = chords.as_slice() else { panic!("{name}") };
            assert_eq!(numbers(sixth), [3, 6], "{name}");
            assert!(last.tones.iter().any(|tone| tone.class == tonality.leading()), "{name}");
        }
    });
}

#[test]
fn each_tonality_has_the_same_chords_and_every_language_its_reasons() {
    let home = [("C major", Mode::Major), ("A minor", Mode::Minor)].map(|(name, mode)| {
        let tonality = Tonality::parse(name).expect("a tonality");
        (mode, tonality)
    });
    for (mode, tonality) in home {
        let basses = if mode == Mode::Major { &MAJOR[..] } else { &MINOR[..] };
        for (name, text) in basses {
            let own = played(text, tonality, Interval::new(0, 0));
            let moved = Tonality::new(PitchClass::from_fifths(tonality.tonic.fifths() + 2), mode);
            let other = played(text, moved, Interval::new(1, 2));
            let figures = |it: &Reading| it.harmony.chords.iter().map(numbers).collect::<Vec<_>>();
            assert_eq!(figures(&own), figures(&other), "{name}");
            for chord in &own.harmony.chords {
                let counted = |it: &Reason| matches!(it, Reason::Usage { .. });
                for lang in Tongue::ALL.map(Lang::of) {
                    let said = reason(chord, lang);
                    assert!(said.ends_with('.') && !said.contains("{"), "{said}");
                    assert!(!counted(&chord.reason) || said.contains("1600"), "{said}");
                }
            }
        }
    }
}
