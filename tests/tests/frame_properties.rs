//! Properties of the rulebook and the solver over random basses.

use proptest::prelude::*;
use tastata::frame::{
    ContourPoint, FrameWishes, Preference, Rule, Severity, SopranoCompass, best_sopranos, faults,
    frame, motions, pairs,
};
use tastata::harmony::{Chord, Duty, Tone};
use tastata::pitch::{Key, Mode, Pitch, PitchClass, Step, Tonality};
use tastata::sketch::{Hold, Pin, Sketch, SketchNote};
use tastata_tests::outer::{C_MAJOR, chord, scale_chord};

fn tonality() -> impl Strategy<Value = Tonality> {
    let mode = prop_oneof![Just(Mode::Major), Just(Mode::Minor)];
    (-6..=6, mode).prop_map(|(fifths, mode)| Tonality::new(PitchClass::from_fifths(fifths), mode))
}

const FIGURES: [&[u8]; 8] = [
    &[1, 3, 5],
    &[1, 3, 5],
    &[1, 3, 6],
    &[1, 3, 5, 6],
    &[1, 3, 4, 6],
    &[1, 2, 4, 6],
    &[1, 3, 5, 7],
    &[1, 4, 6],
];

/// A bass in the scale under random figures.
fn chords(lengths: std::ops::Range<usize>) -> impl Strategy<Value = Vec<Chord>> {
    (tonality(), prop::collection::vec((14..26i32, 0..FIGURES.len()), lengths)).prop_map(
        |(tonality, notes)| {
            let notes = notes.into_iter().enumerate();
            let over = |(note, (diatonic, figures)): (usize, (i32, usize))| {
                let step = Step::wrapped(diatonic);
                let bass = Pitch::from_diatonic(diatonic, tonality.class_of(step).alter);
                scale_chord(tonality, note, bass, FIGURES[figures])
            };
            notes.map(over).collect()
        },
    )
}

fn sketch_of(chords: &[Chord]) -> Sketch {
    let notes = chords.iter().map(|chord| SketchNote::bare(chord.bass)).collect();
    Sketch { notes, ..Sketch::default() }
}

fn fault_count(sketch: &Sketch, chords: &[Chord], soprano: &[Pitch]) -> usize {
    let found = faults(&sketch.frame, chords, soprano);
    found.iter().filter(|fault| fault.severity == Severity::Fault).count()
}

/// Every chord tone of each chord within a compass and above the bass.
fn tones_within(chords: &[Chord], compass: SopranoCompass) -> Vec<Vec<Pitch>> {
    let over = |chord: &Chord| {
        let mut pitches = Vec::new();
        for tone in &chord.tones {
            let octaves = (0..9).map(|octave| tone.class.in_octave(octave));
            pitches.extend(octaves.filter(|pitch| {
                pitch.key().is_some_and(|key| compass.contains(key))
                    && pitch.semitones() > chord.bass.semitones()
            }));
        }
        pitches
    };
    chords.iter().map(over).collect()
}

fn all_lines(tones: &[Vec<Pitch>]) -> Vec<Vec<Pitch>> {
    let mut lines = vec![Vec::new()];
    for here in tones {
        let longer = |line: &Vec<Pitch>| {
            let line = line.clone();
            here.iter().map(move |&pitch| [line.as_slice(), &[pitch]].concat()).collect::<Vec<_>>()
        };
        lines = lines.iter().flat_map(longer).collect();
    }
    lines
}

fn pair_chord(note: usize, bass: Pitch, soprano: Pitch) -> Chord {
    let tone = |pitch: Pitch, number| Tone {
        class: pitch.class(),
        number,
        duty: Duty::Free,
        omittable: false,
    };
    chord(C_MAJOR, note, 0, bass, vec![tone(bass, 1), tone(soprano, 3)])
}

fn has_consecutives(chords: &[Chord], soprano: &[Pitch]) -> bool {
    let found = faults(&FrameWishes::default(), chords, soprano);
    let rules = [Rule::ConsecutiveFifths, Rule::ConsecutiveOctaves];
    found.iter().any(|fault| rules.contains(&fault.rule))
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// The trade's guarantee, first half: a soprano that always moves against
    /// the bass draws no consecutive fifths or octaves, whatever its intervals.
    #[test]
    fn contrary_motion_throughout_is_safe(
        start in (14..22i32, 28..40i32),
        moves in prop::collection::vec((prop_oneof![Just(-1), Just(1)], 1..5i32, 1..5i32, -1..=1i8, -1..=1i8), 1..30),
    ) {
        let (mut low, mut high) = start;
        let mut lines = vec![(Pitch::from_diatonic(low, 0), Pitch::from_diatonic(high, 0))];
        for (way, bass, soprano, flat, sharp) in moves {
            let (to_low, to_high) = (low + way * bass, high - way * soprano);
            let next = (Pitch::from_diatonic(to_low, flat), Pitch::from_diatonic(to_high, sharp));
            // Accidentals may turn a step round: only moves that stay contrary are made.
            let last = lines[lines.len() - 1];
            let sense = |from: Pitch, to: Pitch| (to.semitones() - from.semitones()).signum();
            if sense(last.0, next.0) == way && sense(last.1, next.1) == -way {
                (low, high) = (to_low, to_high);
                lines.push(next);
            }
        }
        let chords: Vec<Chord> =
            lines.iter().enumerate().map(|(i, &(b, s))| pair_chord(i, b, s)).collect();
        let soprano: Vec<Pitch> = lines.iter().map(|&(_, s)| s).collect();
        prop_assert!(!has_consecutives(&chords, &soprano));
    }

    /// Second half: nor does a soprano in tenths, major or minor, with the bass.
    #[test]
    fn parallel_tenths_are_safe(
        tonality in tonality(),
        bass in prop::collection::vec(10..30i32, 1..40),
        octaves in 1..3i32,
    ) {
        let in_scale = |diatonic: i32| {
            Pitch::from_diatonic(diatonic, tonality.class_of(Step::wrapped(diatonic)).alter)
        };
        let soprano: Vec<Pitch> = bass.iter().map(|&d| in_scale(d + 2 + 7 * octaves)).collect();
        let chords: Vec<Chord> = bass
            .iter()
            .zip(&soprano)
            .enumerate()
            .map(|(i, (&d, &s))| pair_chord(i, in_scale(d), s))
            .collect();
        for pair in pairs(&chords, &soprano) {
            prop_assert!((pair.soprano - pair.bass).is_third());
        }
        prop_assert!(!has_consecutives(&chords, &soprano));
    }

    /// The solver draws as few faults as any line there is: brute force decides.
    #[test]
    fn no_line_has_fewer_faults_than_the_solver(chords in chords(1..5)) {
        let sketch = sketch_of(&chords);
        let tones = tones_within(&chords, SopranoCompass::default());
        prop_assume!(tones.iter().all(|tones| !tones.is_empty()));
        let least = all_lines(&tones)
            .iter()
            .map(|line| fault_count(&sketch, &chords, line))
            .min();
        let solved = frame(&sketch, &chords);
        let mine = solved.faults.iter().filter(|f| f.severity == Severity::Fault).count();
        prop_assert_eq!(Some(mine), least);
    }

    /// Every choice offered has no more faults than the best, and differs.
    #[test]
    fn every_choice_is_good_and_different(chords in chords(2..12)) {
        let mut sketch = sketch_of(&chords);
        let best = frame(&sketch, &chords);
        let least = fault_count(&sketch, &chords, &best.soprano);
        let mut seen = Vec::new();
        for choice in 0..best.choices {
            sketch.frame.choice = choice as u8;
            let other = frame(&sketch, &chords);
            prop_assert_eq!(fault_count(&sketch, &chords, &other.soprano), least);
            prop_assert!(!seen.contains(&other.soprano));
            seen.push(other.soprano);
        }
    }

    /// The k best come in order, without repeats, each with its true faults; and
    /// all of them together are all the lines there are.
    #[test]
    fn the_k_best_come_in_order(chords in chords(1..4), k in 1..40usize) {
        let compass = SopranoCompass { low: Key::clamped(64), high: Key::clamped(81) };
        let mut sketch = sketch_of(&chords);
        sketch.frame.compass = compass;
        let tones = tones_within(&chords, compass);
        prop_assume!(tones.iter().all(|tones| !tones.is_empty()));
        let count: usize = tones.iter().map(Vec::len).product();
        let all = best_sopranos(&sketch, &chords, count + 1);
        prop_assert_eq!(all.len(), count);
        let prices: Vec<_> = all.iter().map(|line| (line.faults, line.taste)).collect();
        prop_assert!(prices.is_sorted());
        let mut lines: Vec<_> = all.iter().map(|line| line.soprano.clone()).collect();
        lines.sort();
        lines.dedup();
        prop_assert_eq!(lines.len(), count);
        for line in &all {
            prop_assert_eq!(line.faults as usize, fault_count(&sketch, &chords, &line.soprano));
        }
        let few = best_sopranos(&sketch, &chords, k);
        let few: Vec<_> = few.iter().map(|line| (line.faults, line.taste)).collect();
        prop_assert_eq!(&few[..], &prices[..k.min(count)]);
    }

    /// Pins are honoured whatever they are, even foreign or crossing ones.
    #[test]
    fn pins_stay(chords in chords(1..10), pins in prop::collection::vec((0..10usize, 30..100i32), 1..5)) {
        let mut sketch = sketch_of(&chords);
        for (place, key) in pins {
            let place = place % chords.len();
            let pitch = C_MAJOR.spell(Key::clamped(key));
            sketch.notes[place].soprano = vec![Some(Pin { pitch, hold: Hold::Pinned })];
        }
        let solved = frame(&sketch, &chords);
        for (note, sung) in sketch.notes.iter().zip(&solved.soprano) {
            if let Some(Some(pin)) = note.soprano.first() {
                prop_assert!(pin.pitch.same_key(*sung));
            }
        }
    }

    /// Conflicts are reported whenever pins cost faults, and freeing the named
    /// pins brings the faults down to what they are without pins.
    #[test]
    fn freeing_the_named_pins_mends_the_line(
        chords in chords(1..9),
        pins in prop::collection::vec((0..9usize, 55..82i32), 1..6),
    ) {
        let free = sketch_of(&chords);
        let mut sketch = free.clone();
        for (place, key) in pins {
            let place = place % chords.len();
            let pitch = C_MAJOR.spell(Key::clamped(key));
            sketch.notes[place].soprano = vec![Some(Pin { pitch, hold: Hold::Pinned })];
        }
        let count = |sketch: &Sketch| {
            let solved = frame(sketch, &chords);
            (fault_count(sketch, &chords, &solved.soprano), solved.conflicts)
        };
        let (with, conflicts) = count(&sketch);
        let (without, none) = count(&free);
        prop_assert_eq!(none, vec![]);
        prop_assert!(with <= without || !conflicts.is_empty());
        for conflict in &conflicts {
            prop_assert!(conflict.chords.contains(&conflict.free));
            sketch.notes[conflict.free].soprano.clear();
        }
        prop_assert!(count(&sketch).0 <= without);
    }

    /// A wished contour can only bring the line nearer to it, among lines with as
    /// few faults.
    #[test]
    fn a_contour_draws_the_line_nearer(
        chords in chords(2..20),
        points in prop::collection::vec((0..=1000u16, 60..82i32), 1..4),
    ) {
        let free = sketch_of(&chords);
        let mut sketch = free.clone();
        let point = |(place, key)| ContourPoint { place, height: Key::clamped(key) };
        sketch.frame.contour.points = points.into_iter().map(point).collect();
        let off = |soprano: &[Pitch]| -> i32 {
            let heights = (0..chords.len()).map(|i| sketch.frame.contour.height(i, chords.len()));
            let pairs = soprano.iter().zip(heights);
            pairs.map(|(s, height)| (s.semitones() - height.expect("a height")).abs()).sum()
        };
        let (wished, plain) = (frame(&sketch, &chords), frame(&free, &chords));
        prop_assert!(off(&wished.soprano) <= off(&plain.soprano));
    }

    /// Liking tenths better than contrary motion gives no fewer tenths for each
    /// contrary move it saves.
    #[test]
    fn a_preference_shifts_the_balance(chords in chords(2..20)) {
        let mut sketch = sketch_of(&chords);
        let mut weigh = |preference| {
            sketch.frame.preference = preference;
            let solved = frame(&sketch, &chords);
            let count = motions(&pairs(&chords, &solved.soprano));
            2 * count.contrary as i32 - count.tenths as i32
        };
        prop_assert!(weigh(Preference::Tenths) <= weigh(Preference::Contrary));
    }
}
