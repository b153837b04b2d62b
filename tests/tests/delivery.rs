//! How a performance is delivered, measured from its touches alone: breaths, the silence before what
//! nobody expects, the drift of the pace, the shape of a stroke, unequal hands, flourishes, lengths of
//! preludes.
//!
//! Where no source is named the bounds are common practice, and the numbers ours.

use tastata::bass::read_bass;
use tastata::hands::Hand;
use tastata::harmony::Chord;
use tastata::pitch::{Mode, Pitch, PitchClass, Tonality};
use tastata::prelude::{LONGEST, SHORTEST, prelude};
use tastata::reading::{Reading, read};
use tastata::roll::{NoteKind, Stroke, StrokePlan, Touch};
use tastata::sketch::Sketch;

fn tonalities() -> impl Iterator<Item = Tonality> {
    (-4..=4).flat_map(|fifths| {
        [Mode::Major, Mode::Minor].map(|mode| Tonality::new(PitchClass::from_fifths(fifths), mode))
    })
}

/// Preludes of a minute and a half in all keys.
fn preludes() -> Vec<(Sketch, Reading)> {
    let sketch = |(seed, tonality)| prelude(tonality, 90, seed);
    (1..)
        .zip(tonalities())
        .map(sketch)
        .map(|sketch| {
            let reading = read(&sketch);
            (sketch, reading)
        })
        .collect()
}

fn of_chord(reading: &Reading, chord: usize) -> impl Iterator<Item = &Touch> {
    reading.performance.touches.iter().filter(move |touch| touch.chord == chord)
}

/// Seconds from the last key going down in a chord to the first of the next.
fn stillness(reading: &Reading, chord: usize) -> Option<f64> {
    let last = of_chord(reading, chord).map(|touch| touch.down).max()?;
    Some(reading.performance.starts.get(chord + 1)?.as_secs() - last.as_secs())
}

/// Seconds before the next chord in which no key is down.
fn silence(reading: &Reading, chord: usize) -> f64 {
    let next = reading.performance.starts.get(chord + 1).map_or(0.0, |start| start.as_secs());
    let before = reading.performance.touches.iter().filter(|touch| touch.chord <= chord);
    next - before.map(|touch| touch.up.as_secs()).fold(0.0, f64::max)
}

/// Whether a chord is the tonic that its dominant has just led to.
fn comes_home(chords: &[Chord], at: usize) -> bool {
    let Some(before) = at.checked_sub(1).and_then(|before| chords.get(before)) else {
        return false;
    };
    let here = &chords[at];
    let dominant = before.degree.number() == 5
        && before.tones.iter().any(|tone| tone.class == before.tonality.leading());
    dominant && here.bass.class() == before.tonality.tonic
}

/// Whether a chord has a note that its key does not know, or is a diminished seventh.
fn unheard_of(chord: &Chord) -> bool {
    let foreign = chord.tones.iter().any(|tone| {
        tone.class != chord.tonality.leading() && !chord.tonality.is_diatonic(tone.class)
    });
    let mut thirds: Vec<i32> =
        chord.tones.iter().map(|tone| tone.class.chroma().rem_euclid(3)).collect();
    thirds.dedup();
    foreign || (chord.tones.len() == 4 && thirds.len() == 1)
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or(0.0)
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len().max(1) as f64
}

#[test]
fn it_breathes_after_cadences_and_not_after_every_chord() {
    let (mut home, mut all, mut long, mut seconds) = (Vec::new(), Vec::new(), 0, 0.0);
    for (_, reading) in preludes() {
        let chords = &reading.harmony.chords;
        for at in 0..chords.len().saturating_sub(1) {
            let Some(still) = stillness(&reading, at) else { continue };
            // A tonic that stands on belongs to the arrival.
            if comes_home(chords, at) && chords[at + 1].bass != chords[at].bass {
                home.push(still);
            }
            all.push(still);
            long += usize::from(still > 0.7);
            assert!(still < 4.0, "nothing happens for {still} s");
        }
        seconds += reading.performance.end.as_secs();
    }
    let per_minute = long as f64 / seconds * 60.0;
    let (home, usual) = (median(home), median(all));
    println!(
        "still for {home:.2} s after a cadence, {usual:.2} s usually; {per_minute:.1} long breaths a minute"
    );
    assert!(home > 3.0 * usual, "{home} s after a cadence, {usual} s usually");
    // A phrase of speech or song lasts from a few seconds to a quarter of a minute.
    assert!((2.0..=12.0).contains(&per_minute), "{per_minute} long breaths a minute");
}

#[test]
fn silence_falls_before_what_nobody_expects_and_after_a_close_only() {
    let (mut surprises, mut closes) = (Vec::new(), Vec::new());
    for (_, reading) in preludes() {
        let chords = &reading.harmony.chords;
        for at in 0..chords.len().saturating_sub(1) {
            let silence = silence(&reading, at);
            if silence < 0.15 {
                continue;
            }
            if unheard_of(&chords[at + 1]) {
                surprises.push(silence);
            } else {
                let close = (at.saturating_sub(1)..=at).any(|at| comes_home(chords, at));
                assert!(close, "{silence} s of silence before chord {}", at + 1);
                closes.push(silence);
            }
        }
    }
    // And where one is set on purpose: a diminished seventh after two plain chords.
    let bass = read_bass("C3:5/3 F3:5/3 C3:5/3 F#3:7b/5 G3:5/3 C3:5/3", None);
    let notes = bass.notes.iter().map(|note| note.to_sketch()).collect();
    let reading = read(&Sketch { notes, ..Sketch::default() });
    assert!(unheard_of(&reading.harmony.chords[3]), "{:?}", reading.harmony.chords[3]);
    let (before, elsewhere) = (silence(&reading, 2), silence(&reading, 0));
    println!(
        "{} surprises after {:.2} s, {} closes before {:.2} s; set on purpose {before:.2} s",
        surprises.len(),
        mean(&surprises),
        closes.len(),
        mean(&closes)
    );
    assert!(before > 0.25 && elsewhere < 0.05, "{before} s before it, {elsewhere} s elsewhere");
    assert!(surprises.len() >= 5 && closes.len() >= 5);
}

/// Plain chords rolled up once without ornament.
fn plain(seed: u32) -> Reading {
    let bass = read_bass(&"C3:5/3 E3:6 F3:5/3 D3:6 ".repeat(16), None);
    let notes = bass.notes.iter().map(|note| note.to_sketch()).collect();
    let mut sketch = Sketch { notes, ..Sketch::default() };
    sketch.roll.plan = StrokePlan::Even(Stroke::Sweep);
    (sketch.roll.times, sketch.roll.spice, sketch.roll.seed) = (0, 0, seed);
    read(&sketch)
}

/// Seconds from note to note of a chord.
fn steps(reading: &Reading, chord: usize) -> Vec<f64> {
    let downs: Vec<f64> = of_chord(reading, chord).map(|touch| touch.down.as_secs()).collect();
    downs.windows(2).map(|two| two[1] - two[0]).collect()
}

/// Gilden, Thornton and Mallon, "1/f Noise in Human Cognition", *Science* 267 (1995; from memory):
/// what people do again and again drifts; errors next to one another are alike.
#[test]
fn the_pace_drifts() {
    let takes: Vec<Vec<f64>> = (0..24)
        .map(|seed| {
            let reading = plain(seed);
            (0..64).map(|chord| mean(&steps(&reading, chord)).ln()).collect()
        })
        .collect();
    let usual: Vec<f64> =
        (0..64).map(|chord| mean(&takes.iter().map(|it| it[chord]).collect::<Vec<_>>())).collect();
    let alike = |apart: usize| {
        let off = |take: &[f64], chord: usize| take[chord] - usual[chord];
        let products = takes.iter().flat_map(|take| {
            (0..64 - apart)
                .map(move |chord| (take, chord))
                .map(|(take, chord)| off(take, chord) * off(take, chord + apart))
        });
        mean(&products.collect::<Vec<_>>())
    };
    let spread = alike(0).sqrt();
    let (next, far) = (alike(1) / alike(0), alike(9) / alike(0));
    println!(
        "the pace of a chord varies by {:.1} %; alike by {next:.2} with the next, {far:.2} nine later",
        100.0 * spread
    );
    assert!((0.02..0.15).contains(&spread), "{spread}");
    assert!(next > 0.2 && next > far + 0.1, "{next} with the next, {far} with the ninth");
}

/// B. H. Repp, *Music Perception* 10/2 (1992; from memory): a gesture quickens and slackens.
#[test]
fn a_stroke_quickens_and_slackens() {
    let (mut first, mut middle, mut last) = (Vec::new(), Vec::new(), Vec::new());
    let mut shaped = (0, 0);
    for seed in 0..12 {
        let reading = plain(seed);
        for chord in 0..60 {
            let steps = steps(&reading, chord);
            if steps.len() < 5 {
                continue;
            }
            let (begin, end) = (steps[0], steps[steps.len() - 1]);
            let quickest = steps.iter().copied().fold(f64::INFINITY, f64::min);
            shaped.0 += usize::from(begin > 1.15 * quickest && end > 1.02 * quickest);
            shaped.1 += 1;
            first.push(begin);
            middle.push(quickest);
            last.push(end);
        }
    }
    let (first, middle, last) = (mean(&first), mean(&middle), mean(&last));
    println!(
        "a step lasts {:.0} ms at first, {:.0} at the quickest, {:.0} at last",
        1e3 * first,
        1e3 * middle,
        1e3 * last
    );
    assert!(first > 1.5 * middle && last > 1.1 * middle, "{first} {middle} {last}");
    assert!(10 * shaped.0 > 8 * shaped.1, "{} of {}", shaped.0, shaped.1);
}

#[test]
fn the_hands_are_unequal_and_the_soprano_sings() {
    let (mut soprano, mut right, mut left) = (Vec::new(), Vec::new(), Vec::new());
    for (_, reading) in preludes() {
        for (chord, handful) in reading.hands.handfuls.iter().enumerate() {
            let top = handful.right.last().copied();
            for touch in of_chord(&reading, chord).filter(|touch| touch.kind == NoteKind::Chord) {
                let force = f64::from(touch.velocity);
                match touch.hand {
                    _ if Some(touch.pitch) == top => soprano.push(force),
                    Hand::Right => right.push(force),
                    Hand::Left if handful.left.first() != Some(&touch.pitch) => left.push(force),
                    Hand::Left => {}
                }
            }
        }
    }
    let (soprano, right, left) = (mean(&soprano), mean(&right), mean(&left));
    println!("force: soprano {soprano:.0}, right hand {right:.0}, left hand {left:.0}");
    assert!(soprano > right + 3.0 && right > left + 3.0);
}

/// The opening unfolds the tonic over the keyboard, and so does the close (C.P.E. Bach, *Versuch* II
/// ch. 41, 1762, from memory: it dwells on the tonic at both ends).
#[test]
fn preludes_open_and_close_with_a_flourish() {
    let (mut opened, mut closed, mut count) = (0, 0, 0);
    for (_, reading) in preludes() {
        let last = reading.harmony.chords.len() - 1;
        let flourish = |chord: usize| {
            let added = of_chord(&reading, chord).filter(|touch| {
                matches!(touch.kind, NoteKind::Detour | NoteKind::Run | NoteKind::Ornament)
            });
            added.count() >= 3
        };
        let dwelt = |chord: usize| {
            let lowest = of_chord(&reading, chord).map(|touch| touch.pitch).min();
            let highest = of_chord(&reading, chord).map(|touch| touch.pitch).max();
            let octaves = |low: Pitch, high: Pitch| (high - low).semitones >= 24;
            lowest.zip(highest).is_some_and(|(low, high)| octaves(low, high))
        };
        opened += usize::from(flourish(0) && dwelt(0));
        closed += usize::from(flourish(last) && dwelt(last));
        count += 1;
    }
    println!("of {count} preludes {opened} open and {closed} close with a flourish");
    assert!(4 * opened >= 3 * count && 4 * closed >= 2 * count, "{opened} and {closed} of {count}");
}

/// A tenth more or less is what is promised; to the ear that is the same length.
#[test]
fn preludes_last_as_long_as_was_asked() {
    let mut worst = (0.0_f64, 0, String::new());
    for (seed, tonality) in (11..).zip(tonalities()) {
        for seconds in [SHORTEST, 30, 45, 60, 120, 180, LONGEST] {
            let sketch = prelude(tonality, seconds, seed);
            let lasts = read(&sketch).performance.end.as_secs();
            let off = lasts / f64::from(seconds) - 1.0;
            if off.abs() > worst.0.abs() {
                worst = (off, seconds, tonality.to_string());
            }
            assert!(off.abs() <= 0.1, "{lasts} s instead of {seconds} in {tonality}");
        }
    }
    println!("at worst {:+.1} %, for {} s in {}", 100.0 * worst.0, worst.1, worst.2);
}

/// A prelude holds what it is made of: the octave of the scale in the bass, a daring turn, a pedal on
/// the fifth, the close (C.P.E. Bach, *Versuch* II ch. 41, 1762; from memory).
#[test]
fn preludes_hold_scale_daring_turn_and_pedal() {
    let (mut scales, mut daring, mut count) = (0, 0, 0);
    for (sketch, reading) in preludes() {
        let steps: Vec<i32> = sketch
            .notes
            .windows(2)
            .map(|two| two[1].pitch.diatonic() - two[0].pitch.diatonic())
            .collect();
        // At least half an octave by step.
        scales +=
            usize::from(steps.windows(4).any(|four| {
                four.iter().all(|&step| step == 1) || four.iter().all(|&step| step == -1)
            }));
        daring += usize::from(reading.harmony.chords.iter().any(unheard_of));
        count += 1;
    }
    println!("of {count} preludes {scales} go along the scale, {daring} dare something");
    assert!(scales == count && daring == count, "{scales} and {daring} of {count}");
}
