//! Drills: every answer is what the tables and the reading say, and what is known
//! comes again later and later.

use tastata::bass::BassMotion;
use tastata::figures::{Figures, expand};
use tastata::harmony::{Cadence, Chord, Version, harmonise, octave_rule};
use tastata::lesson::closing_cadence;
use tastata::lesson::drill::{
    Deck, EarAnswer, Grade, Item, KeyOrder, all_keys, ear_cadence, ear_degree, ear_motion,
    question, through_keys,
};
use tastata::pitch::{Mode, Pitch, PitchClass, Tonality};
use tastata::words::{Lang, drill_question, ear_choice, ear_prompt};
use tastata_tests::lesson::sketch;

fn classes(chord: &Chord) -> Vec<PitchClass> {
    let mut all: Vec<PitchClass> = chord.tones.iter().map(|tone| tone.class).collect();
    all.sort();
    all.dedup();
    all
}

/// Each question about a degree: the figures called right are the table's, the
/// program plays the same over the very notes it shows, and no other choice sounds
/// like it.
#[test]
fn degrees_are_asked_and_answered_by_the_table() {
    let mut asked = 0;
    for version in Version::ALL {
        for fifths in -7..=7 {
            for (seed, item) in Item::all().into_iter().enumerate() {
                let Item::Octave { mode, leaves, degree } = item else { continue };
                let relative = if mode == Mode::Major { 0 } else { 3 };
                let tonic = PitchClass::from_fifths(fifths + relative);
                let question = question(item, tonic, version, seed as u32);
                let note = question.note.expect("a note");
                let cell = octave_rule(version, mode, leaves, degree);
                assert_eq!(question.choices[question.answer], cell.stage);
                let home = Tonality::new(tonic, mode);
                let bass = question.sketch.notes[note].pitch.class();
                assert_eq!(home.degree_of(bass.step), degree);
                let raised = bass.alter - home.class_of(bass.step).alter;
                assert_eq!(raised, i8::from(cell.raised), "{item:?} in {home}");
                let sounds: Vec<Vec<PitchClass>> = question
                    .choices
                    .iter()
                    .map(|stage| {
                        let tones = expand(stage, bass, home).tones;
                        let mut all: Vec<_> = tones.iter().map(|tone| tone.class).collect();
                        all.push(bass);
                        all.sort();
                        all.dedup();
                        all
                    })
                    .collect();
                for (i, sound) in sounds.iter().enumerate() {
                    assert!(!sounds[..i].contains(sound), "{item:?} {:?}", question.choices);
                }
                assert!(question.choices.len() >= 3, "{item:?}");
                assert!(!drill_question(&question, Lang::English).is_empty());
                asked += 1;
                // The program itself, in the plain key and the furthest two.
                if !matches!(fifths, -7 | 0 | 7) {
                    continue;
                }
                let read = harmonise(&question.sketch);
                let chord = read.chords.iter().find(|chord| chord.note == note).expect("a chord");
                assert_eq!(
                    classes(chord),
                    sounds[question.answer],
                    "{item:?} in {home} {version:?}"
                );
            }
        }
    }
    assert_eq!(asked, Version::ALL.len() * 15 * 28);
}

/// Cadences and motions are asked whole, in the key asked for.
#[test]
fn cadences_and_motions_are_asked_whole() {
    for tonic in -5..=6 {
        for item in Item::all() {
            let tonic = PitchClass::from_fifths(tonic);
            let question = question(item, tonic, Version::Campion, 1);
            let harmony = harmonise(&question.sketch);
            assert_eq!(harmony.home.tonic, tonic);
            match item {
                Item::Octave { .. } => {}
                Item::Cadence { cadence, .. } => {
                    assert_eq!(
                        closing_cadence(&harmony),
                        Some(cadence),
                        "{item:?} in {}",
                        harmony.home
                    );
                }
                Item::Motion { motion, .. } => {
                    let bass: Vec<Pitch> = question.sketch.notes.iter().map(|n| n.pitch).collect();
                    assert!(moves_as(&bass, motion), "{motion:?}: {bass:?}");
                }
            }
        }
    }
}

/// Whether a bass moves by the letters of a motion, octaves aside; chromatic ones
/// by semitones.
fn moves_as(bass: &[Pitch], motion: BassMotion) -> bool {
    let letters = motion.letters();
    let semitone = |from: Pitch, to: Pitch| (to - from).semitones.rem_euclid(12);
    bass.windows(2).enumerate().all(|(i, pair)| {
        let step = (pair[1] - pair[0]).steps;
        match motion {
            BassMotion::ChromaticUp => semitone(pair[0], pair[1]) == 1,
            BassMotion::ChromaticDown => semitone(pair[0], pair[1]) == 11,
            _ if letters[i % letters.len()] == 0 => pair[0] == pair[1],
            _ => (step - letters[i % letters.len()]).rem_euclid(7) == 0,
        }
    })
}

#[test]
fn the_ear_is_asked_what_is_true() {
    let mut answers = std::collections::HashSet::new();
    for seed in 0..600 {
        for question in [ear_motion(seed), ear_degree(seed), ear_cadence(seed)] {
            let bass: Vec<Pitch> = question.sketch.notes.iter().map(|note| note.pitch).collect();
            let home = question.sketch.tonality.expect("a tonality");
            let harmony = harmonise(&question.sketch);
            for (i, choice) in question.choices.iter().enumerate() {
                let is_true = match *choice {
                    EarAnswer::Motion(motion) => moves_as(&bass, motion),
                    EarAnswer::Degree(degree) => {
                        bass.last().expect("a note").step == home.scale(degree).step
                    }
                    EarAnswer::Cadence(cadence) => closing_cadence(&harmony) == Some(cadence),
                };
                assert_eq!(is_true, i == question.answer, "seed {seed}: {choice:?} of {bass:?}");
                assert!(!ear_choice(*choice, Lang::English).is_empty());
            }
            assert!(question.choices.len() >= 3);
            assert!(!ear_prompt(&question, Lang::English).is_empty());
            answers.insert(question.choices[question.answer]);
        }
    }
    // Everything comes up.
    assert_eq!(answers.len(), 13 + 7 + 7);
    assert_eq!(ear_motion(5), ear_motion(5));
}

#[test]
fn what_is_known_comes_later_and_later() {
    let mut deck = Deck::default();
    assert_eq!(deck.meet(3, 100), 3);
    assert_eq!(deck.due(99), []);
    assert_eq!(deck.due(100).len(), 3);
    let item = deck.cards[0].item;
    let mut day = 100;
    let mut gaps = Vec::new();
    for _ in 0..7 {
        deck.grade(item, Grade::Known, day);
        let due = deck.cards[0].due;
        gaps.push(due - day);
        day = due;
    }
    assert_eq!(gaps, [1, 2, 4, 8, 16, 32, 32]);
    deck.grade(item, Grade::Barely, day);
    assert_eq!((deck.cards[0].level, deck.cards[0].due), (5, day + 16));
    deck.grade(item, Grade::Missed, day);
    assert_eq!((deck.cards[0].level, deck.cards[0].due, deck.cards[0].misses), (0, day, 1));
    // The missed one comes after what was due before it.
    let order: Vec<Item> = deck.due(day).iter().map(|card| card.item).collect();
    assert_eq!(order.last(), Some(&item));
    // Everything is met in the end, each thing once.
    while deck.meet(10, day) > 0 {}
    assert_eq!(deck.cards.len(), Item::all().len());
}

#[test]
fn progress_is_kept_as_text() {
    let mut deck = Deck::default();
    deck.meet(1000, 7);
    for (i, item) in Item::all().into_iter().enumerate() {
        let grades = [Grade::Known, Grade::Barely, Grade::Missed];
        deck.grade(item, grades[i % 3], 7 + i as u32);
    }
    let text = deck.print();
    assert_eq!(Deck::read(&text), deck);
    // A line spoilt, a line from a newer program, a line twice.
    let mut lines: Vec<&str> = text.lines().collect();
    lines[0] = "oMu1 x 3 0";
    lines.push("zz9 1 2 3");
    lines.push("oMu2 4 99999 0");
    let kept = Deck::read(&lines.join("\n"));
    assert_eq!(kept.cards, deck.cards[1..]);
    assert_eq!(Deck::read("\u{0}☃ \n\n-1"), Deck::default());
    let codes: std::collections::HashSet<String> = Item::all().iter().map(|it| it.code()).collect();
    assert_eq!(codes.len(), Item::all().len());
    // A code once given stays.
    assert_eq!(deck.cards[0].item.code(), "oMu1");
    assert_eq!(
        Item::from_code("cm4"),
        Some(Item::Cadence { mode: Mode::Minor, cadence: Cadence::Phrygian })
    );
}

/// In every key the bass sounds as in the first, moved by one interval.
#[test]
fn a_bass_goes_through_all_keys() {
    let piece = sketch("C major: C3 D3:7-6 E3 F3:6/5 F#3:6/5 G3:4-3 C3");
    let first = harmonise(&piece);
    for order in [
        KeyOrder::FifthsUp,
        KeyOrder::FifthsDown,
        KeyOrder::SemitonesUp,
        KeyOrder::TonesUp,
        KeyOrder::Shuffled(3),
    ] {
        let keys = all_keys(Tonality::parse("C").expect("a key"), order);
        for (key, moved) in keys.iter().zip(through_keys(&piece, &keys)) {
            assert_eq!(moved.tonality, Some(*key));
            let harmony = harmonise(&moved);
            let above = |chord: &Chord| {
                let bass = chord.bass.semitones();
                let mut all: Vec<i32> = chord
                    .tones
                    .iter()
                    .map(|tone| (tone.class.chroma() - bass).rem_euclid(12))
                    .collect();
                all.sort_unstable();
                all
            };
            let sounds = |chords: &[Chord]| chords.iter().map(above).collect::<Vec<_>>();
            assert_eq!(sounds(&harmony.chords), sounds(&first.chords), "{key}");
            let figured = moved.notes.iter().map(|n| n.figures.as_ref().map(Figures::stages));
            assert_eq!(figured.flatten().count(), 4);
        }
    }
}
