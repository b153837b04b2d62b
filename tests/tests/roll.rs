//! Properties of every performance, over made-up basses with full handfuls:
//! strokes start on the bass, every note sounds, nothing lies beyond the keyboard
//! or the hand, no added note outstays its bound or makes the outer voices faulty.

use tastata::frame::{Motion, OuterPair, frame, motion};
use tastata::hands::{Compass, Hand, Handful, Hands, LowKeys, hardships};
use tastata::harmony::{Chord, harmonise};
use tastata::pitch::{Interval, Key, Mode, Pitch, PitchClass, Tonality};
use tastata::roll::{Held, Micros, NoteKind, Performance, Stroke, StrokePlan, Touch, Why, roll};
use tastata::sketch::{Sketch, SketchNote};

/// Made-up numbers from a full-period congruential sequence.
struct Draw(u64);

impl Draw {
    fn below(&mut self, below: u64) -> u64 {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % below
    }
}

const STROKES: [Stroke; 8] = [
    Stroke::Sweep,
    Stroke::HandAfterHand,
    Stroke::InsideOut,
    Stroke::BrokenThirds,
    Stroke::TurningBack,
    Stroke::RepeatedBass,
    Stroke::BassAlone,
    Stroke::Drawn([70, 20, 100, 50, 80, 0, 40, 10]),
];

/// A walking and leaping bass in a key, with pauses on its fifth and a close.
fn bass(tonality: Tonality, length: u64, draw: &mut Draw) -> Vec<SketchNote> {
    let tonic = tonality.tonic.at_or_above(Pitch::from_diatonic(14, 0));
    let mut place = 0_i32;
    let mut places = vec![0];
    for _ in 0..length {
        place += [1, 1, -1, -1, 2, -3, 4, -4][draw.below(8) as usize];
        place = place.clamp(-2, 9);
        places.push(place);
    }
    places.extend([3, 4, 0]);
    let pitch = |place: i32| {
        let natural = tonic + Interval::new(place, 0);
        Pitch::from_diatonic(natural.diatonic(), tonality.class_of(natural.step).alter)
    };
    places.into_iter().map(|place| SketchNote::bare(pitch(place))).collect()
}

fn sketches(count: usize) -> Vec<Sketch> {
    let mut draw = Draw(12_345);
    let sketch = |_| {
        let mode = if draw.below(2) == 0 { Mode::Major } else { Mode::Minor };
        let tonality = Tonality::new(PitchClass::from_fifths(draw.below(9) as i32 - 4), mode);
        let mut sketch = Sketch { tonality: Some(tonality), ..Sketch::default() };
        let length = draw.below(24);
        sketch.notes = bass(tonality, length, &mut draw);
        for note in &mut sketch.notes {
            if draw.below(3) == 0 {
                note.stroke.times = Some(draw.below(6) as u8);
                note.stroke.stroke = Some(STROKES[draw.below(8) as usize]);
                note.stroke.dwell = Some(draw.below(300) as u16);
            }
        }
        sketch.roll.times = draw.below(6) as u8;
        sketch.roll.speed = draw.below(500) as u16;
        sketch.roll.seed = draw.below(1 << 31) as u32;
        sketch.roll.spice = draw.below(120) as u8;
        sketch.roll.plan = match draw.below(3) {
            0 => StrokePlan::Speech,
            1 => StrokePlan::Varied,
            _ => StrokePlan::Even(STROKES[draw.below(8) as usize]),
        };
        sketch.roll.held = Held::ALL[draw.below(3) as usize];
        sketch.hands.compass = Compass::FIVE_OCTAVES;
        sketch
    };
    (0..count).map(sketch).collect()
}

/// Full handfuls without the hands' solver: the bass and what lies above it within
/// an octave, three notes under the soprano within an octave.
fn handfuls(chords: &[Chord], soprano: &[Pitch]) -> Hands {
    let octave = |low: Pitch, high: Pitch| (high - low).steps <= 7;
    let handful = |(chord, &soprano): (&Chord, &Pitch)| {
        let near = |from: Pitch| {
            let above = chord.tones.iter().map(move |tone| tone.class.at_or_above(from));
            above.chain([chord.bass + Interval::OCTAVE])
        };
        let mut right: Vec<Pitch> = near(soprano - Interval::OCTAVE)
            .filter(|&pitch| pitch < soprano && octave(pitch, soprano))
            .collect();
        right.push(soprano);
        right.retain(|&pitch| pitch > chord.bass);
        right.sort();
        right.dedup_by_key(|pitch| pitch.key());
        right.drain(..right.len().saturating_sub(4));
        let lowest = right.first().copied().unwrap_or(soprano);
        let mut left: Vec<Pitch> = near(chord.bass)
            .filter(|&pitch| pitch > chord.bass && pitch < lowest && octave(chord.bass, pitch))
            .collect();
        left.push(chord.bass);
        left.sort();
        left.dedup_by_key(|pitch| pitch.key());
        left.truncate(4);
        Handful { left, right }
    };
    Hands { handfuls: chords.iter().zip(soprano).map(handful).collect(), remarks: Vec::new() }
}

struct Played {
    sketch: Sketch,
    chords: Vec<Chord>,
    hands: Hands,
    performance: Performance,
}

fn play(sketch: Sketch) -> Played {
    let chords = harmonise(&sketch).chords;
    let soprano = frame(&sketch, &chords).soprano;
    let hands = handfuls(&chords, &soprano);
    let performance = roll(&sketch, &chords, &hands);
    Played { sketch, chords, hands, performance }
}

fn all(count: usize) -> Vec<Played> {
    sketches(count).into_iter().map(play).collect()
}

/// Half white keys from the bottom of the keyboard.
fn place(key: Key) -> i32 {
    const PLACES: [i32; 12] = [0, 1, 2, 3, 4, 6, 7, 8, 9, 10, 11, 12];
    key.number() / 12 * 14 + PLACES[key.index() % 12]
}

/// Whether a chord's note is struck in it, or, where notes are kept, lies under the
/// hand from before.
fn sounds(performance: &Performance, chord: usize, key: Key, held: Held) -> bool {
    let start = performance.starts[chord];
    performance.touches.iter().any(|touch| {
        let struck = touch.chord == chord && touch.kind == NoteKind::Chord;
        let kept = held == Held::Kept && touch.chord < chord && touch.up > start;
        touch.key == key && (struck || kept)
    })
}

#[test]
fn strokes_start_on_the_bass_and_every_note_sounds() {
    for Played { sketch, hands, performance, .. } in all(60) {
        assert_eq!(performance.starts.len(), hands.handfuls.len());
        assert_eq!(performance.dwells.len(), hands.handfuls.len());
        assert!(performance.starts.windows(2).all(|two| two[0] < two[1]));
        let touches = &performance.touches;
        assert!(
            touches.windows(2).all(|two| (two[0].down, two[0].key) < (two[1].down, two[1].key))
        );
        for touch in touches {
            assert!(touch.down < touch.up && touch.up <= performance.end);
            assert!(sketch.hands.compass.contains(touch.key));
            assert_eq!(touch.pitch.key(), Some(touch.key));
            assert!((1..=127).contains(&touch.velocity));
        }
        for (index, handful) in hands.handfuls.iter().enumerate() {
            let struck: Vec<&Touch> = touches.iter().filter(|t| t.chord == index).collect();
            let keys = handful.left.iter().chain(&handful.right).filter_map(|pitch| pitch.key());
            let keys: Vec<Key> = keys.filter(|&key| sketch.hands.compass.contains(key)).collect();
            for key in &keys {
                let held = sketch.roll.held;
                assert!(sounds(&performance, index, *key, held), "chord {index} lacks {key:?}");
            }
            if let (Some(first), Some(lowest)) = (struck.first(), keys.iter().min()) {
                assert_eq!(first.key, *lowest, "chord {index} does not start on its bass");
                assert_eq!(first.down, performance.starts[index]);
            }
        }
    }
}

#[test]
fn no_key_is_struck_while_down_and_no_hand_is_overstretched() {
    for Played { sketch, hands, performance, .. } in all(60) {
        let touches = &performance.touches;
        for (i, touch) in touches.iter().enumerate() {
            let again = touches[i + 1..].iter().find(|later| later.key == touch.key);
            assert!(again.is_none_or(|later| touch.up < later.down), "a key struck while down");
            let held: Vec<&Touch> = touches[..=i]
                .iter()
                .filter(|t| t.hand == touch.hand && t.up > touch.down)
                .collect();
            assert!(held.len() <= 5, "more than five fingers");
            let places = held.iter().map(|t| place(t.key));
            let spread = places.clone().max().unwrap_or(0) - places.min().unwrap_or(0);
            let handful = &hands.handfuls[touch.chord];
            let (own, size) = match touch.hand {
                Hand::Left => (&handful.left, sketch.hands.left),
                Hand::Right => (&handful.right, sketch.hands.right),
            };
            let keys = own.iter().filter_map(|pitch| pitch.key()).map(place);
            let needed = keys.clone().max().unwrap_or(0) - keys.min().unwrap_or(0);
            assert!(spread <= size.reach().max(needed), "{touch:?} stretches to {spread}");
        }
    }
}

#[test]
fn added_notes_keep_their_bounds() {
    for Played { chords, hands, performance, .. } in all(60) {
        let why = |index: usize| {
            performance.added.iter().find(|added| added.touch == index).map(|added| added.why)
        };
        for (index, touch) in performance.touches.iter().enumerate() {
            let handful = &hands.handfuls[touch.chord];
            let held = handful.left.iter().chain(&handful.right);
            let in_handful = held.clone().any(|pitch| pitch.key() == Some(touch.key));
            assert_eq!(why(index).is_some(), touch.kind != NoteKind::Chord, "{touch:?}");
            let inside = held.clone().any(|pitch| *pitch < touch.pitch)
                && held.clone().any(|pitch| touch.pitch < *pitch);
            let length = touch.up.0 - touch.down.0;
            match touch.kind {
                NoteKind::Chord => assert!(in_handful, "{touch:?}"),
                NoteKind::Acciaccatura => {
                    assert!(length <= 80_000, "an acciaccatura of {length} µs");
                    assert!(inside && !in_handful);
                    // The chord note it belongs to follows while it still sounds.
                    let next = &performance.touches[index + 1];
                    assert!(next.chord == touch.chord && next.down.0 - touch.down.0 <= 30_000);
                    let chord = &chords[touch.chord];
                    assert!(chord.tones.iter().all(|tone| tone.class != touch.pitch.class()));
                }
                NoteKind::Passing | NoteKind::Neighbour => assert!(inside && !in_handful),
                NoteKind::Ornament => {
                    assert!(matches!(why(index), Some(Why::Trill | Why::Mordent)));
                }
                NoteKind::Run => match touch.hand {
                    Hand::Left => {
                        let right = handful.right.first();
                        assert!(right.is_none_or(|lowest| touch.pitch < *lowest));
                    }
                    Hand::Right => {
                        let left = handful.left.last();
                        assert!(left.is_none_or(|highest| touch.pitch > *highest));
                    }
                },
                NoteKind::Suspension => {
                    let before = &hands.handfuls[touch.chord - 1];
                    assert_eq!(before.right.last(), Some(&touch.pitch), "not prepared");
                    let soprano = handful.right.last().copied().expect("a soprano");
                    assert_eq!((touch.pitch - soprano).steps, 1, "does not fall by step");
                    let above = (touch.pitch - handful.left[0]).steps.rem_euclid(7);
                    assert!(matches!(above, 1 | 3 | 6), "no dissonance: {above}");
                    // It falls at once: the soprano is the next touch.
                    assert_eq!(performance.touches[index + 1].pitch, soprano);
                    assert!(
                        length <= 4 * 420_000 && touch.up <= performance.touches[index + 1].down
                    );
                }
                NoteKind::Detour => {
                    assert_eq!(touch.hand, Hand::Right);
                    let soprano = handful.right.last().copied().expect("a soprano");
                    assert!(touch.pitch > soprano && !in_handful);
                    let chord = &chords[touch.chord];
                    assert!(chord.tones.iter().any(|tone| tone.class == touch.pitch.class()));
                    // It comes back to the soprano.
                    let later = performance.touches[index..].iter().take(8);
                    assert!(later.clone().any(|t| t.pitch == soprano && t.chord == touch.chord));
                }
                NoteKind::Anticipation => {
                    let next = &hands.handfuls[touch.chord + 1];
                    assert_eq!(next.right.last(), Some(&touch.pitch));
                }
            }
        }
    }
}

/// Outer pairs as the ear follows them: at every touch of an outer voice, the
/// lowest and highest note the chord, its runs and ornaments have reached.
fn outer_line(performance: &Performance, hands: &Hands) -> Vec<(usize, OuterPair)> {
    let mut line: Vec<(usize, OuterPair)> = Vec::new();
    for (index, handful) in hands.handfuls.iter().enumerate() {
        let (Some(&bass), Some(&soprano)) = (handful.left.first(), handful.right.last()) else {
            continue;
        };
        let mut pair = OuterPair { bass, soprano };
        let late = performance
            .touches
            .iter()
            .find(|touch| touch.chord == index && touch.kind == NoteKind::Suspension);
        pair.soprano = late.map_or(soprano, |touch| touch.pitch);
        line.push((index, pair));
        for touch in performance.touches.iter().filter(|touch| touch.chord == index) {
            match touch.kind {
                NoteKind::Run if touch.hand == Hand::Left => pair.bass = touch.pitch,
                NoteKind::Run
                | NoteKind::Ornament
                | NoteKind::Anticipation
                | NoteKind::Suspension
                | NoteKind::Detour => pair.soprano = touch.pitch,
                NoteKind::Chord if Some(&touch.pitch) == handful.right.last() => {
                    pair.soprano = touch.pitch;
                }
                NoteKind::Chord
                | NoteKind::Acciaccatura
                | NoteKind::Passing
                | NoteKind::Neighbour => continue,
            }
            line.push((index, pair));
        }
    }
    line
}

fn consecutives(from: OuterPair, to: OuterPair) -> bool {
    let (first, second) = (from.soprano - from.bass, to.soprano - to.bass);
    let same = (first.is_perfect_fifth() && second.is_perfect_fifth())
        || (first.is_perfect_octave() && second.is_perfect_octave());
    same && matches!(motion(from, to), Motion::Similar | Motion::Parallel)
}

#[test]
fn added_notes_draw_no_consecutives_between_the_outer_voices() {
    // With acciaccaturas it is enough to avoid two fifths and two octaves between
    // bass and soprano: anonymous Roman manuscript "E.25", ch. 26.
    let mut ornamented = 0;
    for Played { hands, performance, .. } in all(80) {
        let line = outer_line(&performance, &hands);
        for two in line.windows(2) {
            let ((from, first), (to, second)) = (two[0], two[1]);
            // Between two bare chords it is the frame's affair.
            let bare = |index: usize, pair: OuterPair| {
                let handful = &hands.handfuls[index];
                handful.left.first() == Some(&pair.bass)
                    && handful.right.last() == Some(&pair.soprano)
            };
            if bare(from, first) && bare(to, second) {
                continue;
            }
            ornamented += 1;
            assert!(!consecutives(first, second), "chords {from} to {to}: {first:?} {second:?}");
        }
    }
    assert!(ornamented > 200, "only {ornamented} moves were tested");
}

/// The same over whole preludes at full spice, under hands as the page finds them.
#[test]
fn preludes_at_full_spice_draw_no_consecutives_either() {
    let (mut ornamented, mut added) = (0, 0);
    for (seed, fifths) in (1..).zip(-4..=4) {
        for mode in [Mode::Major, Mode::Minor] {
            let tonality = Tonality::new(PitchClass::from_fifths(fifths), mode);
            let mut sketch = tastata::prelude::prelude(tonality, 90, seed);
            sketch.roll.spice = 100;
            let reading = tastata::reading::read(&sketch);
            let hard = hardships(&sketch.hands, &reading.performance);
            assert!(hard.is_empty(), "{tonality}: {hard:?}");
            added += reading.performance.added.len();
            for two in outer_line(&reading.performance, &reading.hands).windows(2) {
                let ((from, first), (to, second)) = (two[0], two[1]);
                let bare = |chord: usize, pair: OuterPair| {
                    let handful = &reading.hands.handfuls[chord];
                    handful.left.first() == Some(&pair.bass)
                        && handful.right.last() == Some(&pair.soprano)
                };
                if !bare(from, first) || !bare(to, second) {
                    ornamented += 1;
                    assert!(!consecutives(first, second), "{tonality}, chords {from} to {to}");
                }
            }
        }
    }
    println!("{added} added notes, {ornamented} ornamented moves of the outer voices");
    assert!(ornamented > 500, "only {ornamented} moves were tested");
}

#[test]
fn without_spice_nothing_is_added() {
    for mut sketch in sketches(30) {
        sketch.roll.spice = 0;
        let played = play(sketch);
        assert!(played.performance.added.is_empty());
        assert!(played.performance.touches.iter().all(|touch| touch.kind == NoteKind::Chord));
    }
}

/// Style bounds of the default spice. Each bound names its source beside it; where it
/// says common practice the numbers are ours.
#[test]
fn ornaments_stay_within_their_style() {
    let (mut chords, mut dominants) = (0_usize, 0_usize);
    let mut counts = [0_usize; 8];
    for mut sketch in sketches(80) {
        sketch.roll.spice = 35;
        sketch.roll.times = 2;
        for note in &mut sketch.notes {
            note.stroke = Default::default();
        }
        let played = play(sketch);
        let number = played.chords.len();
        chords += number;
        for index in 0..number {
            let of = |kind: NoteKind| {
                let touches = played.performance.touches.iter();
                touches.filter(|touch| touch.chord == index && touch.kind == kind).count()
            };
            // At most one acciaccatura to a hand (Gasparini, Heinichen; from memory).
            assert!(of(NoteKind::Acciaccatura) <= 2);
            assert!(of(NoteKind::Passing) <= 3 && of(NoteKind::Neighbour) <= 1);
            assert!(of(NoteKind::Run) <= 8 && of(NoteKind::Ornament) <= 10);
            let chord = &played.chords[index];
            let next = played.chords.get(index + 1);
            let home = next.is_none_or(|next| next.bass.class() == chord.tonality.tonic);
            let trill = of(NoteKind::Ornament) > 2;
            assert!(!trill || (chord.degree.number() == 5 && home), "a trill off the cadence");
            dominants += usize::from(chord.degree.number() == 5 && home);
            let kinds = [
                NoteKind::Acciaccatura,
                NoteKind::Passing,
                NoteKind::Neighbour,
                NoteKind::Run,
                NoteKind::Ornament,
                NoteKind::Anticipation,
                NoteKind::Suspension,
                NoteKind::Detour,
            ];
            for (count, kind) in counts.iter_mut().zip(kinds) {
                *count += usize::from(of(kind) > 0);
            }
        }
    }
    println!("of {chords} chords, {dominants} cadential: {counts:?}");
    let share = |count: usize, of: usize| 100 * count / of;
    // "Full of acciaccaturas", yet not every chord: Gasparini 1708, ch. 9, and
    // Heinichen 1728, I ch. 6, "with care" (from memory): a tenth to a half of all.
    assert!((10..=50).contains(&share(counts[0], chords)), "{counts:?} of {chords}");
    // Passing and neighbour notes allowed where the roll is up (C.P.E. Bach 1762, ch. 41;
    // from memory); how many is common practice.
    assert!((5..=60).contains(&share(counts[1], chords)), "{counts:?} of {chords}");
    assert!((1..=30).contains(&share(counts[2], chords)), "{counts:?} of {chords}");
    // Runs join chords, they do not replace them (common practice).
    assert!((5..=40).contains(&share(counts[3], chords)), "{counts:?} of {chords}");
    // Trills at cadences (C.P.E. Bach 1753, ch. 2.3; from memory).
    assert!((3..=100).contains(&share(counts[4], dominants)), "{counts:?} of {dominants}");
    // Anticipations belong to cadences alone (common practice; C.P.E. Bach 1753, ch. 2, from
    // memory, puts such graces where a phrase comes to rest).
    assert!(counts[5] <= dominants && share(counts[5], dominants) <= 40, "{counts:?}");
    // Suspensions and detours are exceptions (common practice).
    assert!((1..=20).contains(&share(counts[6], chords)), "{counts:?} of {chords}");
    assert!((1..=20).contains(&share(counts[7], chords)), "{counts:?} of {chords}");
}

/// C.P.E. Bach, *Versuch* I ch. 3 § 26 (1759): the harmony of long notes is broken
/// several times up and down. Saint-Lambert 1707, ch. 9 (from memory): some chords
/// several times, some almost dry. The bounds are common practice.
#[test]
fn strokes_are_counted_as_the_style_has_them() {
    let (mut dry, mut several, mut dense, mut dominants, mut plain) = (0, 0, 0, 0, 0);
    for mut sketch in sketches(60) {
        sketch.roll = Default::default();
        for note in &mut sketch.notes {
            note.stroke = Default::default();
        }
        sketch.roll.spice = 0;
        let played = play(sketch);
        for (index, chord) in played.chords.iter().enumerate() {
            let struck = played.performance.touches.iter().filter(|t| t.chord == index).count();
            let handful = &played.hands.handfuls[index];
            let notes = handful.left.len() + handful.right.len();
            if notes < 4 {
                continue;
            }
            // Never less than once through, never more than five times up and down.
            assert!(notes <= struck && struck <= 10 * notes, "{struck} strikes of {notes} notes");
            let leading = chord.tonality.leading();
            let dominant =
                chord.degree.number() == 5 && chord.tones.iter().any(|tone| tone.class == leading);
            dry += usize::from(struck == notes);
            several += usize::from(struck > notes);
            if dominant {
                dominants += 1;
                dense += usize::from(struck > 2 * notes);
            } else {
                plain += usize::from(struck > 2 * notes);
            }
        }
    }
    let all = dry + several;
    println!("{dry} of {all} once through; {dense} of {dominants} dominants dense, {plain} others");
    assert!(100 * dry / all <= 40 && 100 * dry / all >= 3, "{dry} of {all} almost dry");
    // Dense at the dominant, plain elsewhere.
    assert!(100 * dense / dominants >= 60, "{dense} of {dominants}");
    assert!(100 * plain / (all - dominants) <= 30, "{plain} others");
}

#[test]
fn runs_go_up_and_down_by_the_scale_of_the_moment() {
    let mut ways = [[0_usize; 2]; 2];
    for mut sketch in sketches(80) {
        sketch.roll.spice = 100;
        let played = play(sketch);
        let touches = &played.performance.touches;
        for two in touches.windows(2).filter(|two| two[0].chord == two[1].chord) {
            if two[0].kind != NoteKind::Run || two[1].kind != NoteKind::Run {
                continue;
            }
            let step = two[1].pitch - two[0].pitch;
            assert_eq!(step.steps.abs(), 1, "a run leaps");
            assert!((1..=2).contains(&step.semitones.abs()), "an augmented step in a run");
            ways[two[0].hand as usize][usize::from(step.steps > 0)] += 1;
        }
    }
    println!("steps of runs, left and right, down and up: {ways:?}");
    assert!(ways.iter().flatten().all(|&count| count > 10), "{ways:?}");
}

#[test]
fn runs_in_minor_rise_raised_and_fall_lowered() {
    // The melodic minor scale, common practice: over the tonic of A minor a run up
    // passes F♯ and G♯, a run down G and F.
    let tonality = Tonality::parse("A minor").or(Tonality::parse("a")).expect("a tonality");
    let (mut up, mut down) = (0, 0);
    for seed in 0..400 {
        let mut sketch = Sketch { tonality: Some(tonality), ..Sketch::default() };
        let a = tonality.tonic.at_or_above(Pitch::from_diatonic(14, 0));
        for place in [0, 7, 0, 3, 4, 0] {
            let natural = a + Interval::new(place, 0);
            let alter = tonality.class_of(natural.step).alter;
            let pitch = Pitch::from_diatonic(natural.diatonic(), alter);
            // Plain chords on the tonic, which a held bass would not have.
            let figures = (place % 7 == 0).then(|| tastata::figures::read_figures("5/3"));
            let figures = figures.map(|figures| figures.expect("figures"));
            sketch.notes.push(SketchNote { figures, ..SketchNote::bare(pitch) });
        }
        (sketch.roll.spice, sketch.roll.seed) = (100, seed);
        let played = play(sketch);
        // Over a tonic that holds no leading note itself.
        let tonic = |chord: usize| {
            let chord: &Chord = &played.chords[chord];
            chord.bass.class() == tonality.tonic
                && chord.tones.iter().all(|tone| tone.class != tonality.leading())
        };
        let runs = played.performance.touches.iter().filter(|t| t.kind == NoteKind::Run);
        for touch in runs.filter(|t| t.hand == Hand::Left && t.chord < 2 && tonic(t.chord)) {
            let name = touch.pitch.class().to_string();
            match touch.chord {
                0 => up += usize::from(matches!(name.as_str(), "F♯" | "G♯")),
                _ => down += usize::from(matches!(name.as_str(), "F" | "G")),
            }
            let lowered = touch.chord == 0 && matches!(name.as_str(), "F" | "G");
            let raised = touch.chord == 1 && matches!(name.as_str(), "F♯" | "G♯");
            assert!(!lowered && !raised, "{name} on the wrong way");
        }
    }
    assert!(up > 20 && down > 20, "{up} up, {down} down");
}

#[test]
fn what_the_next_chord_has_too_is_kept_when_wished() {
    let mut saved = 0;
    for mut sketch in sketches(40) {
        sketch.roll = Default::default();
        sketch.roll.held = Held::Collected;
        let struck = play(sketch.clone());
        sketch.roll.held = Held::Kept;
        let kept = play(sketch);
        let first = |played: &Played, chord: usize| {
            let touches = played.performance.touches.iter();
            touches.filter(|t| t.chord == chord && t.kind == NoteKind::Chord).count()
        };
        for (index, handful) in kept.hands.handfuls.iter().enumerate() {
            for key in handful.left.iter().chain(&handful.right).filter_map(|p| p.key()) {
                let held = sounds(&kept.performance, index, key, Held::Kept);
                assert!(held, "chord {index} lacks {key:?}");
            }
            saved += first(&struck, index).saturating_sub(first(&kept, index));
        }
    }
    assert!(saved > 40, "only {saved} strikes were saved");
}

#[test]
fn notes_let_go_do_not_pile_up() {
    let mut sketch = sketches(3).remove(2);
    sketch.roll = Default::default();
    sketch.roll.held = Held::LetGo;
    let touches = play(sketch).performance.touches;
    for (i, touch) in touches.iter().enumerate() {
        let next = touches[i + 1..].iter().find(|later| later.hand == touch.hand);
        assert!(next.is_none_or(|next| touch.up <= next.down), "a finger stays");
    }
}

#[test]
fn added_notes_lie_on_a_short_octave_or_are_left_out() {
    for low_keys in [LowKeys::ShortC, LowKeys::ShortG] {
        let mut added = 0;
        for mut sketch in sketches(60) {
            sketch.hands.low_keys = low_keys;
            sketch.roll.spice = 100;
            sketch.hands.compass = match low_keys {
                LowKeys::ShortC => Compass::FOUR_OCTAVES,
                LowKeys::ShortG | LowKeys::Chromatic => {
                    Compass { low: Key::clamped(31), high: Key::clamped(84) }
                }
            };
            let reading = tastata::reading::read(&sketch);
            let missing: &[i32] = match low_keys {
                // From memory: C♯, D♯, F♯ and G♯ of the great octave.
                LowKeys::ShortC => &[37, 39, 42, 44],
                // From memory: GG♯, BB♭, C♯ and D♯.
                LowKeys::ShortG => &[32, 34, 37, 39],
                LowKeys::Chromatic => &[],
            };
            for touch in &reading.performance.touches {
                added += usize::from(touch.kind != NoteKind::Chord);
                assert!(!missing.contains(&touch.key.number()), "{touch:?} has no key");
            }
            assert!(hardships(&sketch.hands, &reading.performance).is_empty());
        }
        assert!(added > 300, "{added}");
    }
}

#[test]
fn the_same_seed_plays_the_same_and_another_differs() {
    for mut sketch in sketches(10) {
        let first = play(sketch.clone()).performance;
        assert_eq!(first, play(sketch.clone()).performance);
        sketch.roll.seed ^= 1;
        assert_ne!(first, play(sketch).performance);
    }
}

#[test]
fn spice_does_not_move_the_time_of_the_strokes() {
    for mut sketch in sketches(20) {
        sketch.roll.spice = 0;
        let plain = play(sketch.clone()).performance;
        sketch.roll.spice = 1;
        let hint = play(sketch).performance;
        assert_eq!(plain.dwells, hint.dwells);
    }
}

#[test]
fn speed_scales_the_whole_and_dwell_one_chord() {
    let mut sketch = sketches(1).remove(0);
    sketch.roll = Default::default();
    sketch.roll.spice = 0;
    for note in &mut sketch.notes {
        note.stroke = Default::default();
    }
    let usual = play(sketch.clone()).performance;
    sketch.roll.speed = 50;
    let slow = play(sketch.clone()).performance;
    let last = usual.starts.len() - 1;
    let ratio = slow.starts[last].0 as f64 / usual.starts[last].0 as f64;
    assert!((ratio - 2.0).abs() < 0.05, "{ratio}");
    sketch.roll.speed = 100;
    sketch.notes[1].stroke.dwell = Some(400);
    let dwelt = play(sketch).performance;
    assert_eq!(dwelt.dwells[1].0, 4 * usual.dwells[1].0);
    assert!(dwelt.starts[2] > usual.starts[2] && dwelt.starts[1] == usual.starts[1]);
}

#[test]
fn nothing_and_far_too_much_are_played_gracefully() {
    let empty = play(Sketch::default()).performance;
    assert!(empty.touches.is_empty() && empty.end == Micros(0));
    let mut sketch = Sketch::default();
    for i in 0..500 {
        sketch.notes.push(SketchNote::bare(Pitch::from_diatonic(14 + (i * 5) % 11, 0)));
    }
    sketch.roll.times = 4;
    sketch.roll.spice = 100;
    let much = play(sketch).performance;
    assert_eq!(much.starts.len(), 500);
    let mut off = Sketch::default();
    off.notes.push(SketchNote::bare(Pitch::from_diatonic(-30, 0)));
    off.notes.push(SketchNote::bare(Pitch::from_diatonic(120, 0)));
    let off = play(off).performance;
    assert_eq!(off.starts.len(), 2);
}

/// Bass notes that pass are heard: alone, by the left hand, between the two chords.
#[test]
fn passing_bass_notes_sound_between_the_chords() {
    let read = tastata::bass::read_bass("C3! (D3) E3! (F3) G3!", None);
    let notes = read.notes.iter().map(|note| note.to_sketch()).collect();
    let sketch = Sketch { notes, ..Sketch::default() };
    let reading = tastata::reading::read(&sketch);
    assert_eq!(reading.harmony.chords.len(), 3);
    for (chord, pitch) in [(0, "D3"), (1, "F3")] {
        let performance = &reading.performance;
        let mut own = performance.touches.iter().filter(|touch| touch.chord == chord);
        let last = own.next_back().expect("touches");
        assert_eq!(last.pitch.to_string(), pitch);
        assert_eq!((last.hand, last.kind), (Hand::Left, NoteKind::Passing));
        assert!(last.down < performance.starts[chord + 1]);
    }
}
