//! Harmony over whole lines: sequences, cadences, pedals, modulation, passing
//! notes, daring, alternatives, transposing.

use tastata::bass::{BassMotion, OctaveRun, motion, octave, read_bass, transpose};
use tastata::figures::{print as print_figures, print_stage};
use tastata::hands::Compass;
use tastata::harmony::{
    Alternative, Cadence, Chain, Harmony, HarmonyWishes, Kind, Pattern, Reason, alternatives,
    harmonise, harmonise_in, patterns,
};
use tastata::pitch::{Degree, Interval, Mode, Pitch, PitchClass, Step, Tonality};
use tastata::sketch::{Sketch, SketchNote, Weight};
use tastata::words::{self, Lang, reason};

fn sketch(text: &str) -> Sketch {
    let read = read_bass(text, None);
    assert_eq!(read.remarks, [], "{text}");
    Sketch {
        tonality: read.tonality,
        notes: read.notes.iter().map(|note| note.to_sketch()).collect(),
        ..Sketch::default()
    }
}

fn of_pitches(pitches: &[Pitch], tonality: Tonality) -> Sketch {
    Sketch {
        tonality: Some(tonality),
        notes: pitches.iter().map(|&pitch| SketchNote::bare(pitch)).collect(),
        ..Sketch::default()
    }
}

/// The chords' figures in order; a plain chord is a dot.
fn figures(harmony: &Harmony) -> String {
    harmony.chords.iter().map(|it| print_stage(&it.figures)).collect::<Vec<_>>().join(" ")
}

fn check(text: &str, expected: &str) -> Harmony {
    let harmony = harmonise(&sketch(text));
    assert_eq!(figures(&harmony), expected, "{text}");
    harmony
}

/// Bass motions after Fenaroli, book III, and Sanguinetti (2012), pp. 135-158;
/// figures from memory.
#[test]
fn sequences_are_harmonised_as_sequences() {
    check("C major: c g2 a2 e2 f2 c2 g2 c3", ". . . . . . 7 .");
    check("C major: c a2 b2 g2 a2 f2 g2 e2 f2 g2 c3", ". 6 . 6 . 6 . 6 6/5 7 .");
    check("C major: c f2 b2 e2 a2 d2 g2 c2", ". . . . . . 7 .");
    check("C major: c c b2 b2 a2 a2 g2 g2 f2 g2 c3", ". 4/2 6 4/2 6 4/2 6 4/2 6/5 7 .");
    check("C major: c c d d e e f f g c", ". 6 . 6 . 6 . 6 7 .");
    let harmony = harmonise(&sketch("C major: c g2 a2 e2 f2 c2 g2 c3"));
    let is_motion = |reason: &Reason| {
        matches!(reason, Reason::Motion { motion: BassMotion::FourthsDownSecondsUp, .. })
    };
    assert!(harmony.chords[..5].iter().all(|chord| is_motion(&chord.reason)));
}

/// As under the theme of the Folia, figured by Corelli (op. 5 no. 12): in minor the 3rd and
/// the lowered 7th are the tonic and the fifth of the related major.
#[test]
fn the_third_of_minor_leaps_to_the_lowered_seventh_as_a_tonic() {
    check("D minor: d a2 d c f c c# d", ". # . . . . 6/5 .");
}

/// Common practice, no source.
#[test]
fn a_figured_chord_stays_when_its_note_is_struck_again() {
    check("C major: c b2:6/5 b2 c", ". 6/5 6/5 .");
    check("C major: c f:6 f2 g c", ". 6 6 7 .");
    // What waits to resolve does not stay, nor what is marked or parted by a rest.
    check("C major: c g:4 g c", ". 4 3 .");
    check("C major: c g:6/4 g c", ". 6/4 5/3 .");
    check("C major: c=4 b2:6 b2! c", ". 6 6/5 .");
}

/// Chromatic basses, from memory of the same books: rising, 6/5 on the raised note
/// and a plain chord on the next; falling, the lament to a major third on the 5th.
#[test]
fn chromatic_basses() {
    check("C major: c c# d d# e f f# g c", ". 6/5 . 6/5/# . . 6/5 7 .");
    check("D minor: d c# c b2 bb2 a2", ". 6 #4/2 6 6 #");
}

/// Cadences by their Neapolitan names (essaysonmusic.com, "Cadences: the basics";
/// Sanguinetti 2012, p. 106), deceptive, evaded and Phrygian from memory.
#[test]
fn cadences_are_recognised() {
    let kinds = |text: &str| {
        let harmony = harmonise(&sketch(text));
        let cadence = |reason: &Reason| match reason {
            Reason::Cadence { kind, .. } => Some(*kind),
            _ => None,
        };
        let mut kinds: Vec<Cadence> =
            harmony.chords.iter().filter_map(|chord| cadence(&chord.reason)).collect();
        kinds.dedup();
        kinds
    };
    assert_eq!(kinds("C major: c f g c"), [Cadence::Simple]);
    assert_eq!(kinds("C major: c f g g c"), [Cadence::Compound]);
    assert_eq!(kinds("C major: c g g g g c"), [Cadence::Double]);
    assert_eq!(kinds("C major: c d e f g"), [Cadence::Half]);
    assert_eq!(kinds("A minor: a g2 f2 e2"), [Cadence::Phrygian]);
    assert_eq!(kinds("C major: c f g a f c")[0], Cadence::Deceptive);
    assert_eq!(kinds("C major: c g2 f2 e2 d2 c2"), [Cadence::Evaded]);
}

/// Tonic pedal, from memory: 5/3, 7/4/2, 5/3 and 5/3, 6/4, 7/4/2, 5/3.
#[test]
fn pedals_move_over_a_held_bass() {
    check("C major: c c c f g c", ". 7/4/2 . 6/5 7 .");
    check("C minor: c c c c f g c", ". 6/4 n7/4/2 . 6/5 7/n .");
}

#[test]
fn a_modulation_turns_on_a_hinge_that_belongs_to_both() {
    let bass = "C major: c d e f g g c d f# g b c5 d d g e f# g d g c f# g c d g g f e f d g g c";
    let harmony = harmonise(&sketch(bass));
    let g_major = Tonality::new(PitchClass::new(Step::G, 0), Mode::Major);
    assert_eq!(harmony.chords.last().map(|chord| chord.tonality), Some(harmony.home));
    let mut hinges = 0;
    for pair in harmony.chords.windows(2) {
        if let Reason::Hinge { from, .. } = &pair[1].reason {
            hinges += 1;
            assert_ne!(*from, pair[1].tonality);
        } else if !matches!(pair[1].reason, Reason::Turn { .. }) {
            assert_eq!(pair[0].tonality, pair[1].tonality);
        }
    }
    assert_eq!(hinges, 2);
    assert!(harmony.chords.iter().any(|chord| chord.tonality == g_major));
}

/// Figures that a person gives are evidence of the tonality around them.
#[test]
fn given_figures_steer_the_reading() {
    let harmony = harmonise(&sketch("C major: c d:# g a:# d g c d:7/# g"));
    for (note, chord) in harmony.chords.iter().enumerate() {
        assert_eq!(chord.note, note);
    }
    assert_eq!(print_stage(&harmony.chords[1].figures), "#");
}

#[test]
fn passing_notes_have_no_chord_of_their_own() {
    let mut it = sketch("C major: c d e f g c");
    it.notes[1].weight = Weight::Passing;
    it.notes[3].weight = Weight::Passing;
    let harmony = harmonise(&it);
    let notes: Vec<usize> = harmony.chords.iter().map(|chord| chord.note).collect();
    assert_eq!(notes, [0, 2, 4, 5]);
}

#[test]
fn fixed_tonalities_are_kept() {
    let it = sketch("C major: c d e f g a b c");
    let f_major = Tonality::new(PitchClass::new(Step::F, 0), Mode::Major);
    let harmony = harmonise_in(&it, &[Some(f_major); 8]);
    assert!(harmony.chords.iter().all(|chord| chord.tonality == f_major));
}

/// More daring never touches given figures, and does change the rest.
#[test]
fn daring_moves_a_piece_and_keeps_what_is_given() {
    let mut it = sketch("C major: c d e f:6 g a b c b a g f e d:6 g g c");
    let counts: Vec<usize> = (0..=4)
        .map(|daring| {
            it.harmony = HarmonyWishes { daring, ..HarmonyWishes::default() };
            let harmony = harmonise(&it);
            for note in [3, 13] {
                let chord = harmony.chords.iter().find(|chord| chord.note == note);
                assert_eq!(chord.map(|chord| print_stage(&chord.figures)).as_deref(), Some("6"));
            }
            harmony.chords.iter().filter(|it| matches!(it.reason, Reason::Stock { .. })).count()
        })
        .collect();
    assert!(counts.is_sorted(), "{counts:?}");
    assert!(counts[4] > counts[0], "{counts:?}");
}

#[test]
fn alternatives_run_from_plain_to_daring_and_can_be_given() {
    let it = sketch("C major: c d e f g c");
    let others = alternatives(&it, 3);
    assert!(others.len() >= 5);
    assert!(others.iter().map(|other| other.boldness).is_sorted());
    let kinds: Vec<Kind> = others
        .iter()
        .filter_map(|other| match &other.reason {
            Reason::Stock { kind, .. } => Some(*kind),
            _ => None,
        })
        .collect();
    assert!(kinds.contains(&Kind::Plain) && kinds.contains(&Kind::Borrowed), "{kinds:?}");
    for other in others {
        let mut given = it.clone();
        given.notes[3].figures = Some(other.figures.clone());
        let harmony = harmonise(&given);
        assert_eq!(harmony.remarks, []);
        let chords = harmony.chords.iter().filter(|chord| chord.note == 3);
        for (chord, offered) in chords.zip(&other.chords) {
            let mut played: Vec<PitchClass> = chord.tones.iter().map(|it| it.class).collect();
            let mut offered: Vec<PitchClass> = offered.tones.iter().map(|it| it.class).collect();
            played.sort();
            offered.sort();
            assert_eq!(played, offered, "{:?}", other.figures);
        }
    }
    assert_eq!(alternatives(&it, 99), []);
}

/// Harmonising and transposing may change places.
#[test]
fn transposing_keeps_the_harmony() {
    let basses = [
        "C major: c d e f g a b c b a g f e d c f g:6/4-5/3 c",
        "A minor: a b c d e f# g# a g f e:# d c b a d:6/5 e:7/# a",
        "F major: f g a bb b:6/b5 c d:#6 c a f c f",
    ];
    for text in basses {
        let it = sketch(text);
        let before = harmonise(&it);
        for fifths in -14..=14 {
            let mut moved = it.clone();
            let tonic = PitchClass::from_fifths(fifths);
            transpose(&mut moved, before.home, tonic, Compass::FIVE_OCTAVES);
            let after = harmonise(&moved);
            assert_eq!(after.home.tonic.chroma(), tonic.chroma());
            assert!(after.home.signature().abs() <= 7);
            let by: Interval = moved.notes[0].pitch - it.notes[0].pitch;
            assert_eq!(before.chords.len(), after.chords.len(), "{text} {tonic}");
            for (old, new) in before.chords.iter().zip(&after.chords) {
                let moved: Vec<PitchClass> = old.tones.iter().map(|tone| tone.class + by).collect();
                let found: Vec<PitchClass> = new.tones.iter().map(|tone| tone.class).collect();
                assert_eq!(moved, found, "{text} {tonic}");
            }
        }
    }
}

/// Ready blocks in every tonality are harmonised within it and close in it.
#[test]
fn ready_basses_stay_in_their_tonality() {
    for fifths in -7..=7 {
        for (mode, raise) in [(Mode::Major, 0), (Mode::Minor, 3)] {
            let tonality = Tonality::new(PitchClass::from_fifths(fifths + raise), mode);
            let bass = octave(tonality, OctaveRun::UpDown, Some(Cadence::Double));
            let harmony = harmonise(&of_pitches(&bass, tonality));
            assert!(harmony.chords.iter().all(|chord| chord.tonality == tonality), "{tonality}");
            for kind in BassMotion::ALL {
                let bass = motion(kind, tonality, Degree::wrapped(0), 4);
                let harmony = harmonise(&of_pitches(&bass, tonality));
                assert_eq!(harmony.chords.len(), bass.len(), "{kind:?} {tonality}");
            }
        }
    }
}

/// Every chord has a sentence that names its bass, on basses of every kind, and
/// every chord's tones lie where its figures say.
#[test]
fn every_chord_says_why() {
    let mut state = 7u64;
    let mut next = |below: u64| {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        state % below
    };
    for round in 0..250u8 {
        let notes: Vec<SketchNote> = (0..=next(24))
            .map(|_| {
                let alter = [0, 0, 0, 0, 0, 1, -1, 2][next(8) as usize];
                let octave = 2 + next(2) as i8;
                SketchNote::bare(Pitch::new(Step::ALL[next(7) as usize], alter, octave))
            })
            .collect();
        let it = Sketch {
            notes,
            harmony: HarmonyWishes { daring: round % 5, ..HarmonyWishes::default() },
            ..Sketch::default()
        };
        let harmony = harmonise(&it);
        for chord in &harmony.chords {
            let said = reason(chord, Lang::English);
            let pieces = ["piece", "diminished seventh", "Neapolitan"];
            let named = said.contains(&chord.bass.class().to_string());
            assert!(named || pieces.iter().any(|it| said.contains(it)), "{said}");
            assert!(said.ends_with('.') && !said.contains(".."), "{said}");
            for tone in &chord.tones {
                let letters = tone.class.step.index() - chord.bass.step.index();
                assert_eq!((i32::from(tone.number) - 1 - letters).rem_euclid(7), 0);
            }
        }
    }
}

/// Chains over a bass by step: 5-6 rising, 7-6 falling, 5/3 and 6 by turns falling
/// (Fenaroli, book III; Sanguinetti 2012, pp. 135-158: found, essaysonmusic.com).
/// Taken with a wish for suspensions, offered without it.
#[test]
fn chains_of_suspensions() {
    let mut it = sketch("C major: c d e f g a b c");
    it.harmony.daring = 1;
    let harmony = harmonise(&it);
    assert!(figures(&harmony).starts_with("5 6 5 6 5 6 5 6"), "{}", figures(&harmony));
    let mut it = sketch("C major: c5 b a g f e d c");
    it.harmony.daring = 1;
    let harmony = harmonise(&it);
    assert!(figures(&harmony).starts_with("5 6 7 6 7 6 7 6 7 6"), "{}", figures(&harmony));
    let steps = |chord: &tastata::harmony::Chord| {
        matches!(chord.reason, Reason::Motion { motion: BassMotion::StepsDown, .. })
    };
    assert!(harmony.chords.iter().take(10).all(steps));

    let it = sketch("C major: c5 b a g f e d c");
    let harmony = harmonise(&it);
    let offered: Vec<Pattern> = patterns(&it, &harmony, 3);
    let chain = |wanted: Chain| {
        offered.iter().find(|it| matches!(it, Pattern::Chain { chain, .. } if *chain == wanted))
    };
    let mut taken = it.clone();
    chain(Chain::SevenSix).expect("a chain").apply(&mut taken);
    assert_eq!(figures(&harmonise(&taken)), "5 6 7 6 7 6 7 6 7 6 7 6 7 6 .");
    let mut taken = it.clone();
    chain(Chain::Alternate).expect("a chain").apply(&mut taken);
    let harmony = harmonise(&taken);
    assert_eq!(figures(&harmony), ". 6 . 6 . 6 . .");
    assert_eq!(harmony.remarks, []);
    assert_eq!(chain(Chain::FiveSix), None);
    // In minor, too, and written under another signature.
    for text in ["A minor: a b c d e", "C minor: c d eb f g", "G major: g a b c d"] {
        let it = sketch(text);
        for pattern in patterns(&it, &harmonise(&it), 1) {
            let mut taken = it.clone();
            pattern.apply(&mut taken);
            assert_eq!(harmonise(&taken).remarks, [], "{text} {pattern:?}");
            assert!(!words::pattern(&pattern, &it, Lang::English).is_empty());
        }
    }
}

/// Semitones put between the notes of a scale (C.P.E. Bach 1762, ch. 41: from memory).
#[test]
fn a_semitone_is_offered_between_tones() {
    let it = sketch("C major: c d e f g c");
    let harmony = harmonise(&it);
    let fills = |note| {
        let all = patterns(&it, &harmony, note).into_iter();
        all.filter(|it| matches!(it, Pattern::Fill { .. })).collect::<Vec<_>>()
    };
    let mut taken = it.clone();
    fills(0)[0].apply(&mut taken);
    assert_eq!(taken.notes[1].pitch.to_string(), "C♯3");
    let harmony = harmonise(&taken);
    assert!(matches!(harmony.chords[1].reason, Reason::LeadingBass { .. }));
    assert_eq!(fills(2), [], "from e to f there is none");
    assert_eq!(fills(5), []);
}

/// The keys of a diminished seventh have four spellings over one bass, each leading
/// elsewhere; given, they turn the music where it goes.
#[test]
fn a_diminished_seventh_turns_by_its_spelling() {
    let it = sketch("C minor: c d eb c b2 c ab2 g2 c");
    let others = alternatives(&it, 4);
    let turned: Vec<String> = others
        .iter()
        .filter(|it| matches!(it.reason, Reason::Enharmonic { .. }))
        .map(|it| it.chords[0].tones.iter().map(|tone| tone.class.to_string()).collect::<Vec<_>>())
        .map(|tones| tones.join(" "))
        .collect();
    assert!(turned.contains(&"B D F G♯".to_string()), "{turned:?}");
    assert!(turned.contains(&"B D E♯ G♯".to_string()), "{turned:?}");
    assert!(
        others
            .iter()
            .all(|it| { !matches!(it.reason, Reason::Enharmonic { .. }) || it.boldness == 4 })
    );
    // The seventh of C minor, written so, goes on to a cadence in A minor.
    let it = sketch("C minor: c f g c b2:7 a2 d e:# a2 d e:7/# a2 f d e e:# a2");
    let harmony = harmonise(&it);
    let a_minor = Tonality::new(PitchClass::new(Step::A, 0), Mode::Minor);
    let turn = &harmony.chords[4];
    assert!(
        matches!(turn.reason, Reason::Respelled { from, .. } if from == harmony.home),
        "{:?}",
        turn.reason
    );
    assert_eq!(turn.tonality, a_minor);
    assert!(turn.tones.iter().any(|tone| tone.class == a_minor.leading()));
}

/// The daring moves, each where it belongs, among what is offered.
#[test]
fn every_daring_move_is_offered_somewhere() {
    let offered = |text: &str, note: usize| -> Vec<Kind> {
        let others = alternatives(&sketch(text), note).into_iter();
        let kind = |reason: &Reason| match reason {
            Reason::Stock { kind, .. } => Some(*kind),
            _ => None,
        };
        others.filter_map(|other| kind(&other.reason)).collect()
    };
    assert!(offered("C minor: c f g c", 1).contains(&Kind::Neapolitan));
    assert!(offered("C major: c f g c", 1).contains(&Kind::Neapolitan));
    assert!(offered("C minor: c ab2 g2 c", 1).contains(&Kind::AugmentedSixth));
    assert!(offered("C major: c ab2 g2 c", 1).contains(&Kind::AugmentedSixth));
    assert!(offered("C major: c d g c", 1).contains(&Kind::Secondary));
    assert!(offered("C major: c f g c", 1).contains(&Kind::Borrowed));
    assert!(offered("C minor: c b2 c", 1).contains(&Kind::Diminished));
    assert!(offered("C major: c e f c", 1).contains(&Kind::Secondary));
}

/// After a dominant the chords that stand where the tonic is awaited are offered as what
/// they are, past the plain ones (common practice, no source).
#[test]
fn deceptive_moves_are_offered_after_a_dominant() {
    let offered = |text: &str, note: usize| -> Vec<(String, String)> {
        let deceptive = |it: &Alternative| match it.reason {
            Reason::Deceptive { to } => {
                assert!(it.boldness >= 1);
                Some((print_figures(&it.figures), to.to_string()))
            }
            _ => None,
        };
        alternatives(&sketch(text), note).iter().filter_map(deceptive).collect()
    };
    let has = |text: &str, note: usize, figures: &str, root: &str| {
        let all = offered(text, note);
        assert!(all.contains(&(figures.to_string(), root.to_string())), "{text}: {all:?}");
    };
    // Over the tonic itself, after the 5th and after the leading note.
    has("C major: c g c f g c", 2, "6", "A");
    has("C major: c b2 c f g c", 2, "6", "A");
    has("A minor: a2 e a2 d e a2", 2, "6", "F");
    // Over the 6th, where a sixth stands on the 4th.
    has("C major: c g a f g c", 2, "6", "F");
    // Nothing deceives where nothing was promised, or where the tonic comes.
    assert_eq!(offered("C major: c f c f g c", 2), []);
    assert_eq!(offered("C major: c f g c", 2), []);
}

/// What a person marks, and what the lengths say, decides which notes pass.
#[test]
fn quick_notes_pass_by_default() {
    let chords = |text: &str| -> Vec<usize> {
        harmonise(&sketch(text)).chords.iter().map(|chord| chord.note).collect()
    };
    assert_eq!(chords("C major: c=4 d=8 e f=4 g c=2"), [0, 1, 3, 4, 5]);
    assert_eq!(chords("C major: c=2 d=8 e f g a=2 g c"), [0, 1, 5, 6, 7]);
    assert_eq!(chords("C major: c=4 d=8 e! f=4 g c=2"), [0, 1, 2, 3, 4, 5]);
    assert_eq!(chords("C major: c=4 (d=8) e f=4 g c=2"), [0, 3, 4, 5]);
    assert_eq!(chords("C major: c d e f g c"), [0, 1, 2, 3, 4, 5]);
}

/// What no scale near by knows is played by the signature, and the sentence names just
/// the chord that is played.
#[test]
fn a_note_of_no_scale_is_said_to_take_what_it_takes() {
    let harmony = harmonise(&sketch("C major: c3 b##2 c3"));
    let chord = &harmony.chords[1];
    assert_eq!(chord.reason, Reason::Foreign);
    let numbers: Vec<u8> = chord.tones.iter().map(|tone| tone.number).collect();
    assert_eq!(numbers, [1, 3, 5]);
    let said = reason(chord, Lang::English);
    assert!(said.starts_with("B♯♯ belongs to no scale near by, so it takes the plain"), "{said}");
}
