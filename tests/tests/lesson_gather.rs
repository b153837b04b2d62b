//! Playing along: a simulated player with human timing goes through every octave
//! rule in every key, and is followed without a skip.

use std::sync::LazyLock;
use tastata::bass::{OctaveRun, octave};
use tastata::frame::{Rule, Severity};
use tastata::hands::Handful;
use tastata::harmony::{HarmonyWishes, Version};
use tastata::lesson::{Gather, KeyEvent, Waiting};
use tastata::pitch::{Key, Mode, Pitch, PitchClass, Tonality};
use tastata::reading::{Reading, read};
use tastata::sketch::{Sketch, SketchNote};
use tastata_tests::lesson::{Draw, sketch, with_soprano};
use tastata_tests::outer::pitch;
use tastata_tests::player::{CLEAN, HUMAN, Manner, roll};

fn key(pitch: Pitch) -> Key {
    pitch.key().expect("a key")
}

fn keys(handful: &Handful) -> Vec<Key> {
    handful.left.iter().chain(&handful.right).map(|&pitch| key(pitch)).collect()
}

/// Every octave rule up and down in every key that has a signature, read once.
static OCTAVES: LazyLock<Vec<(String, Sketch, Reading)>> = LazyLock::new(|| {
    let mut all = Vec::new();
    for (version, signature) in
        Version::ALL.into_iter().flat_map(|it| (-7..=7).map(move |s| (it, s)))
    {
        for (mode, fifths) in [(Mode::Major, signature), (Mode::Minor, signature + 3)] {
            let tonality = Tonality::new(PitchClass::from_fifths(fifths), mode);
            let bass = octave(tonality, OctaveRun::UpDown, None);
            let sketch = Sketch {
                tonality: Some(tonality),
                notes: bass.into_iter().map(SketchNote::bare).collect(),
                harmony: HarmonyWishes { version, ..HarmonyWishes::default() },
                ..Sketch::default()
            };
            let reading = read(&sketch);
            all.push((format!("{tonality} {version:?}"), sketch, reading));
        }
    }
    all
});

fn octaves(mut each: impl FnMut(&str, &Sketch, &Reading)) {
    OCTAVES.iter().for_each(|(name, sketch, reading)| each(name, sketch, reading));
}

fn foreign_keys(reading: &Reading, chord: usize) -> Vec<Key> {
    let chord = &reading.harmony.chords[chord];
    let next = |it: &Key| {
        let foreign = !chord.tones.iter().any(|t| t.class.chroma() == it.number() % 12);
        foreign && it.number() > chord.bass.semitones()
    };
    (40..76).filter_map(Key::new).filter(next).collect()
}

fn play_through(name: &str, reading: &Reading, manner: Manner, seed: u64) -> Gather {
    let mut draw = Draw(seed);
    let mut gather = Gather::new(&reading.harmony.chords);
    let mut now = 0;
    let mut old: Vec<Key> = Vec::new();
    for (i, handful) in reading.hands.handfuls.iter().enumerate() {
        // Acciaccaturas that lead nowhere: foreign to this chord and the next.
        let later = reading.harmony.chords.get(i + 1);
        let graze: Vec<Key> = foreign_keys(reading, i)
            .into_iter()
            .filter(|key| {
                later.is_none_or(|chord| {
                    !chord.tones.iter().any(|t| t.class.chroma() == key.number() % 12)
                })
            })
            .collect();
        let (events, end, down) = roll(&mut draw, manner, &keys(handful), &old, &graze, now);
        for (_, event) in events {
            let heard = gather.hear(event);
            assert!(heard.chord <= i + 1, "{name}: ahead at chord {i}: {heard:?}");
            assert!(heard.chord >= i, "{name}: behind at chord {i}");
        }
        assert_eq!(gather.complete(), i + 1, "{name}: chord {i} of {handful:?}");
        (now, old) = (end, down);
    }
    gather
}

#[test]
fn a_clean_player_is_followed_note_for_note() {
    octaves(|name, sketch, reading| {
        let gather = play_through(name, reading, CLEAN, 1);
        let played = gather.onto(sketch);
        let again = read(&played);
        assert_eq!(again.frame.soprano, reading.frame.soprano, "{name}");
        let all = |hands: &[Handful]| hands.iter().map(keys).collect::<Vec<_>>();
        assert_eq!(all(&gather.handfuls()), all(&reading.hands.handfuls), "{name}");
        let bass: Vec<Pitch> = played.notes.iter().map(|note| note.pitch).collect();
        assert_eq!(bass, sketch.notes.iter().map(|note| note.pitch).collect::<Vec<_>>());
        assert_eq!(gather.faults(&sketch.frame), reading.frame.faults, "{name}");
    });
}

#[test]
fn a_human_player_is_followed() {
    octaves(|name, _, reading| {
        play_through(name, reading, HUMAN, 0);
        play_through(name, reading, Manner { pedal: true, ..HUMAN }, 100);
    });
}

/// The outer voices are those that were played, however they were rolled, where
/// each chord is rolled once from its bass and old keys are left before: a key held
/// over sounds on, and may be the top of the next chord.
#[test]
fn outer_voices_are_taken_from_what_was_played() {
    let manner = Manner { sweeps: 1, grazes: 0, early: 4, overlap: 0, ..HUMAN };
    octaves(|name, _, reading| {
        let gather = play_through(name, reading, manner, 9);
        assert_eq!(gather.soprano(), reading.frame.soprano, "{name}");
        let bass: Vec<Pitch> = gather.played_chords().iter().map(|chord| chord.bass).collect();
        let expected: Vec<Pitch> = reading.harmony.chords.iter().map(|chord| chord.bass).collect();
        assert_eq!(bass, expected, "{name}");
    });
}

/// A wrong tone held never completes a chord, whichever tone it stands for; when
/// the hands leave it and play right, the way goes on.
#[test]
fn a_wrong_sonority_is_never_taken() {
    octaves(|name, _, reading| {
        let mut draw = Draw(17);
        let mut gather = Gather::new(&reading.harmony.chords);
        let strike = |gather: &mut Gather, keys: &[Key]| {
            for &key in keys {
                gather.hear(KeyEvent::Down(key));
            }
        };
        let lift = |gather: &mut Gather, keys: &[Key]| {
            for &key in keys {
                gather.hear(KeyEvent::Up(key));
            }
        };
        for (i, handful) in reading.hands.handfuls.iter().enumerate() {
            let right = keys(handful);
            let chord = &reading.harmony.chords[i];
            for tone in chord.tones.iter().filter(|tone| !tone.omittable) {
                let foreign = draw.of(&foreign_keys(reading, i));
                let is = |key: &Key| key.number() % 12 == tone.class.chroma();
                // Every key of the tone goes a foreign one, or is left out.
                let mut wrong: Vec<Key> = right.iter().copied().filter(|key| !is(key)).collect();
                let missing = wrong.clone();
                wrong.push(foreign);
                for played in [wrong, missing] {
                    strike(&mut gather, &played);
                    assert_eq!(gather.complete(), i, "{name}: chord {i} without {}", tone.class);
                    lift(&mut gather, &played);
                    assert_eq!(gather.complete(), i, "{name}: chord {i} without {}", tone.class);
                }
            }
            // All that is right and one foreign key held.
            let foreign = draw.of(&foreign_keys(reading, i));
            strike(&mut gather, &[foreign]);
            strike(&mut gather, &right);
            assert_eq!(gather.complete(), i, "{name}: chord {i} with {foreign:?}");
            lift(&mut gather, &[foreign]);
            assert_eq!(gather.complete(), i + 1, "{name}: chord {i}");
            lift(&mut gather, &right);
        }
    });
}

/// What is missing, foreign or under the bass is said.
#[test]
fn the_player_is_told_what_is_waited_for() {
    let reading = read(&sketch("C major: C3:5/3 G2:7 C3:5/3"));
    let mut gather = Gather::new(&reading.harmony.chords);
    let down = |gather: &mut Gather, name: &str| gather.hear(KeyEvent::Down(key(pitch(name))));
    let up = |gather: &mut Gather, name: &str| gather.hear(KeyEvent::Up(key(pitch(name))));
    let class = |name: &str| pitch(&format!("{name}4")).class();
    let rolling = |missing: &[&str], foreign: &[&str], wrong_bass: Option<&str>| Waiting::Rolling {
        missing: missing.iter().map(|name| class(name)).collect(),
        foreign: foreign.iter().map(|name| key(pitch(name))).collect(),
        wrong_bass: wrong_bass.map(|name| key(pitch(name))),
    };
    assert_eq!(down(&mut gather, "E3").waiting, rolling(&["C"], &[], Some("E3")));
    up(&mut gather, "E3");
    assert_eq!(down(&mut gather, "C3").waiting, rolling(&["E"], &[], None));
    // The E was struck before the hands began anew; the fifth may be left out.
    assert_eq!(gather.complete(), 0);
    let heard = down(&mut gather, "E4");
    assert_eq!((heard.completed, heard.waiting), (Some(0), Waiting::Rest));
    assert_eq!(down(&mut gather, "C5").waiting, Waiting::Rest);
    up(&mut gather, "C3");
    up(&mut gather, "C5");
    assert_eq!(down(&mut gather, "G2").waiting, rolling(&["B", "F"], &["E4"], None));
    assert_eq!(down(&mut gather, "B3").waiting, rolling(&["F"], &["E4"], None));
    assert_eq!(down(&mut gather, "F4").waiting, rolling(&[], &["E4"], None));
    assert_eq!(up(&mut gather, "E4").completed, Some(1));
    for name in ["G2", "B3", "F4"] {
        up(&mut gather, name);
    }
    down(&mut gather, "C3");
    assert_eq!(down(&mut gather, "E4").waiting, Waiting::Done);
    assert_eq!(down(&mut gather, "C5").chord, 3);
    let tops: Vec<String> = gather.soprano().iter().map(ToString::to_string).collect();
    assert_eq!(tops, ["C5", "F4", "C5"]);
}

/// A suspension over one bass note: the bass is held, only what moves is struck.
#[test]
fn stages_over_a_held_bass_are_heard() {
    let reading = read(&sketch("C major: C3:5/3 G2:4-3 C3:5/3"));
    let mut gather = Gather::new(&reading.harmony.chords);
    let play = |gather: &mut Gather, text: &str| {
        for word in text.split(' ') {
            let (event, name): (fn(Key) -> KeyEvent, _) = match word.strip_prefix('-') {
                Some(name) => (KeyEvent::Up, name),
                None => (KeyEvent::Down, word),
            };
            gather.hear(event(key(pitch(name))));
        }
        gather.complete()
    };
    assert_eq!(play(&mut gather, "C3 G3 C4 E4"), 1);
    assert_eq!(play(&mut gather, "-C3 -E4 G2 D4"), 2);
    assert_eq!(play(&mut gather, "-C4"), 2);
    assert_eq!(play(&mut gather, "B3"), 3);
    assert_eq!(play(&mut gather, "-G2 -B3 -D4 -G3 C3 C4 E4"), 4);
}

/// Two chords of the same notes: struck again they are one chord, after the hands
/// have left the keys they are two.
#[test]
fn a_repeated_chord_wants_the_hands_lifted() {
    let reading = read(&sketch("C major: C3:5/3 C3:5/3"));
    let mut gather = Gather::new(&reading.harmony.chords);
    let all = ["C3", "E4", "G4"].map(|name| key(pitch(name)));
    for _ in 0..2 {
        for key in all {
            gather.hear(KeyEvent::Up(key));
            gather.hear(KeyEvent::Down(key));
        }
        assert_eq!(gather.complete(), 1);
    }
    for key in all {
        gather.hear(KeyEvent::Up(key));
    }
    for key in all {
        gather.hear(KeyEvent::Down(key));
    }
    assert_eq!(gather.complete(), 2);
}

/// Faults are shown after each move, from what was played.
#[test]
fn faults_follow_each_move() {
    let piece = with_soprano(sketch("C major: C3:5/3 D3:5/3 E3:6"), "G4 A4 C5");
    let reading = read(&piece);
    let mut gather = Gather::new(&reading.harmony.chords);
    let mut seen = Vec::new();
    for chord in ["C3 E4 G4", "D3 F4 A4", "E3 G4 C5"] {
        let keys: Vec<Key> = chord.split(' ').map(|name| key(pitch(name))).collect();
        for &key in &keys {
            gather.hear(KeyEvent::Down(key));
        }
        for &key in &keys {
            gather.hear(KeyEvent::Up(key));
        }
        let faults = gather.faults(&piece.frame);
        let faults = faults.iter().filter(|fault| fault.severity == Severity::Fault);
        seen.push(faults.map(|fault| (fault.rule, fault.from, fault.to)).collect::<Vec<_>>());
    }
    assert_eq!(
        seen,
        [vec![], vec![(Rule::ConsecutiveFifths, 0, 1)], vec![(Rule::ConsecutiveFifths, 0, 1)]]
    );
    gather.back_to(1);
    assert_eq!(gather.complete(), 1);
}

/// Any events at all are heard.
#[test]
fn any_events_are_heard() {
    let mut draw = Draw(31);
    let reading = read(&sketch("C major: C3 D3:7-6 E3 F3:t.s. G3:6/4-5/3 C3"));
    for _ in 0..40 {
        let mut gather = Gather::new(&reading.harmony.chords);
        for _ in 0..300 {
            let key = Key::clamped(draw.below(128) as i32);
            let event = draw.of(&[
                KeyEvent::Down(key),
                KeyEvent::Down(key),
                KeyEvent::Up(key),
                KeyEvent::PedalDown,
                KeyEvent::PedalUp,
            ]);
            gather.hear(event);
        }
        let _ = (gather.handfuls(), gather.soprano());
    }
    let mut empty = Gather::new(&[]);
    assert_eq!(empty.hear(KeyEvent::Down(Key::MIN)).waiting, Waiting::Done);
}
