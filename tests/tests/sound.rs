//! The rendered sound, measured: pitch of every key in every tuning, level,
//! offset, decay, and the same samples whatever the slices.

use std::f64::consts::TAU;
use tastata::hands::Hand;
use tastata::pitch::{Key, Pitch, Step};
use tastata::roll::{Micros, NoteKind, Performance, Touch};
use tastata::sound::{Renderer, SoundWishes, Temperament, Voice, strike};

/// Cents above C as Barbour, *Tuning and Temperament* (1951), prints them to one
/// decimal; here computed to three from his definitions.
#[rustfmt::skip]
const BARBOUR: [(Temperament, [f64; 12]); 7] = [
    //                            C    C♯      D        E♭       E        F        F♯       G        G♯       A        B♭        B
    (Temperament::Equal,         [0.0, 100.0, 200.0, 300.0, 400.0, 500.0, 600.0, 700.0, 800.0, 900.0, 1000.0, 1100.0]),
    (Temperament::QuarterComma,  [0.0, 76.049, 193.157, 310.265, 386.314, 503.422, 579.471, 696.578, 772.627, 889.735, 1006.843, 1082.892]),
    (Temperament::SixthComma,    [0.0, 88.595, 196.741, 304.888, 393.483, 501.629, 590.224, 698.371, 786.966, 895.112, 1003.259, 1091.854]),
    (Temperament::Werckmeister3, [0.0, 90.225, 192.180, 294.135, 390.225, 498.045, 588.270, 696.090, 792.180, 888.270, 996.090, 1092.180]),
    (Temperament::Kirnberger3,   [0.0, 90.225, 193.157, 294.135, 386.314, 498.045, 590.224, 696.578, 792.180, 889.735, 996.090, 1088.269]),
    (Temperament::Vallotti,      [0.0, 94.135, 196.090, 298.045, 392.180, 501.955, 592.180, 698.045, 796.090, 894.135, 1000.000, 1090.225]),
    (Temperament::Young2,        [0.0, 90.225, 196.090, 294.135, 392.180, 498.045, 588.270, 698.045, 792.180, 894.135, 996.090, 1090.225]),
];

/// The frequency the printed table gives a key.
fn printed_hertz(table: &[f64; 12], a4: f64, key: i32) -> f64 {
    let cents = f64::from(1200 * (key / 12 - 5)) + table[(key % 12) as usize] - table[9];
    a4 * 2.0_f64.powf(cents / 1200.0)
}

fn touch(key: i32, down: u64, up: u64) -> Touch {
    Touch {
        key: Key::clamped(key),
        pitch: Pitch::new(Step::C, 0, 4),
        hand: Hand::Left,
        chord: 0,
        down: Micros::from_ms(down),
        up: Micros::from_ms(up),
        velocity: 76,
        kind: NoteKind::Chord,
    }
}

fn performance(touches: Vec<Touch>) -> Performance {
    let end = touches.iter().map(|touch| touch.up).max().unwrap_or_default();
    Performance { touches, end, ..Performance::default() }
}

/// The first `seconds` of a performance.
fn start(performance: &Performance, wishes: &SoundWishes, rate: u32, seconds: f64) -> Vec<f32> {
    let length = (seconds * f64::from(rate)) as usize;
    let (mut left, mut right) = (vec![0.0; length], vec![0.0; length]);
    Renderer::new(performance, wishes, rate, Micros(0)).render(&mut left, &mut right);
    left.iter().zip(&right).map(|(l, r)| 0.5 * (l + r)).collect()
}

/// All of a performance, in slices of `slice`.
fn whole(
    performance: &Performance,
    wishes: &SoundWishes,
    rate: u32,
    slice: usize,
) -> [Vec<f32>; 2] {
    let mut renderer = Renderer::new(performance, wishes, rate, Micros(0));
    let (mut left, mut right) = (vec![0.0; slice], vec![0.0; slice]);
    let mut all = [Vec::new(), Vec::new()];
    while renderer.render(&mut left, &mut right) {
        all[0].extend_from_slice(&left);
        all[1].extend_from_slice(&right);
    }
    all
}

/// The frequency of the partial near `guess`, in hertz: the straight line through
/// its phase in many short windows, each weighing as much as it is loud. A decaying
/// tone turns its phase just as steadily, what is further off than four bins of
/// the window does not reach in, and the room's answer comes and goes around it.
fn frequency(sound: &[f32], guess: f64, rate: f64) -> f64 {
    let window = ((40.0 / guess).clamp(0.12, 0.5) * rate) as usize;
    let hop = (0.03 * rate) as usize;
    let first = (0.03 * rate) as usize;
    let mut points = Vec::new();
    let mut before = 0.0;
    for from in (first..sound.len() - window).step_by(hop) {
        let (mut re, mut im) = (0.0, 0.0);
        // The oscillator turns by rotation, which is exact enough over a window.
        let (turn_sin, turn_cos) = (TAU * guess / rate).sin_cos();
        let (mut sin, mut cos) = (TAU * guess / rate * from as f64).sin_cos();
        for (i, &x) in sound[from..from + window].iter().enumerate() {
            let t = (i as f64 + 0.5) / window as f64;
            let hann = 0.5 - 0.5 * (TAU * t).cos();
            let x = hann * hann * f64::from(x);
            re += x * cos;
            im -= x * sin;
            (sin, cos) = (sin * turn_cos + cos * turn_sin, cos * turn_cos - sin * turn_sin);
        }
        let phase = im.atan2(re);
        let phase = phase + TAU * ((before - phase) / TAU).round();
        before = phase;
        points.push((from as f64 / rate, phase, re * re + im * im));
    }
    let total: f64 = points.iter().map(|(_, _, weight)| weight).sum();
    let mean = |of: fn(&(f64, f64, f64)) -> f64| {
        points.iter().map(|point| point.2 * of(point)).sum::<f64>() / total
    };
    let (time, phase) = (mean(|point| point.0), mean(|point| point.1));
    let (mut covariance, mut variance) = (0.0, 0.0);
    for (t, p, weight) in &points {
        covariance += weight * (t - time) * (p - phase);
        variance += weight * (t - time) * (t - time);
    }
    guess + covariance / variance / TAU
}

/// The largest error over a range of keys, in cents, with its key. Keys a minor
/// third apart sound together: their fundamentals keep out of one another's way.
fn worst(
    keys: std::ops::RangeInclusive<i32>,
    wishes: &SoundWishes,
    table: &[f64; 12],
    rate: u32,
) -> (f64, i32) {
    let (low, high) = (*keys.start(), *keys.end());
    let mut worst = (0.0, low);
    for octave in (low..=high).step_by(12) {
        for group in 0..3 {
            let keys = (0..4).map(|i| octave + group + 3 * i);
            let keys: Vec<i32> = keys.filter(|&key| key <= high).collect();
            let touches = keys.iter().map(|&key| touch(key, 0, 1000)).collect();
            let sound = start(&performance(touches), wishes, rate, 0.9);
            for key in keys {
                let wanted = printed_hertz(table, wishes.a4, key);
                let found = frequency(&sound, wanted, f64::from(rate));
                let cents = 1200.0 * (found / wanted).log2();
                if cents.abs() > f64::abs(worst.0) {
                    worst = (cents, key);
                }
            }
        }
    }
    worst
}

/// Every key of the five octaves, FF to f‴, at 415 Hz and 48 kHz.
fn tuning_sounds_as_printed(name: Temperament) {
    let found = BARBOUR.iter().find(|(temperament, _)| *temperament == name);
    let (temperament, table) = found.expect("a printed tuning");
    let wishes = SoundWishes { temperament: *temperament, ..SoundWishes::default() };
    let (cents, key) = worst(29..=89, &wishes, table, 48_000);
    println!("{temperament:?}: {cents:+.3} cents at worst, key {key}");
    assert!(cents.abs() < 0.5, "{temperament:?}: {cents} cents on key {key}");
}

#[test]
fn equal_temperament_sounds_as_printed() {
    tuning_sounds_as_printed(Temperament::Equal);
}

#[test]
fn quarter_comma_sounds_as_printed() {
    tuning_sounds_as_printed(Temperament::QuarterComma);
}

#[test]
fn sixth_comma_sounds_as_printed() {
    tuning_sounds_as_printed(Temperament::SixthComma);
}

#[test]
fn werckmeister_sounds_as_printed() {
    tuning_sounds_as_printed(Temperament::Werckmeister3);
}

#[test]
fn kirnberger_sounds_as_printed() {
    tuning_sounds_as_printed(Temperament::Kirnberger3);
}

#[test]
fn vallotti_sounds_as_printed() {
    tuning_sounds_as_printed(Temperament::Vallotti);
}

#[test]
fn young_sounds_as_printed() {
    tuning_sounds_as_printed(Temperament::Young2);
}

/// All but the buff, whose strings fall silent as fast as the room does: there the
/// room bends what is measured, and the strings are measured without it, in `core`.
#[test]
fn other_instruments_pitches_and_rates_are_in_tune() {
    let table = &BARBOUR[1].1;
    for (voice, a4, rate) in [
        (Voice::Plucked8, 392.0, 44_100),
        (Voice::Plucked8, 466.0, 96_000),
        (Voice::Plucked84, 440.0, 48_000),
        (Voice::Struck, 430.0, 44_100),
        (Voice::Organ, 440.0, 44_100),
    ] {
        let wishes = SoundWishes { a4, voice, ..SoundWishes::default() };
        let (cents, key) = worst(29..=88, &wishes, table, rate);
        println!("{voice:?} at {a4} Hz, {rate}: {cents:+.3} cents at worst, key {key}");
        assert!(cents.abs() < 0.5, "{voice:?} at {rate}: {cents} cents on key {key}");
    }
}

#[test]
fn a_table_of_ones_own_sounds_as_typed() {
    // Stretched beyond any usual tuning, to tell it from the others.
    let table =
        [0.0, 60.5, 210.25, 333.0, 380.0, 520.0, 570.0, 720.125, 810.0, 905.0, 990.0, 1111.0];
    let thousandths = table.map(|cents| (cents * 1000.0) as i32);
    let wishes =
        SoundWishes { temperament: Temperament::Custom(thousandths), ..SoundWishes::default() };
    let (cents, key) = worst(48..=71, &wishes, &table, 48_000);
    assert!(cents.abs() < 0.5, "{cents} cents on key {key}");
}

/// Ten-note handfuls rolled up and down four times as fast and hard as can be.
fn storm() -> Performance {
    let mut touches = Vec::new();
    let mut now = 0;
    for chord in 0..2 {
        let keys = [36, 43, 48, 52, 55, 60, 64, 67, 72, 76].map(|key| key + 5 * chord);
        for sweep in 0..8 {
            for i in 0..10 {
                let place = if sweep % 2 == 0 { i } else { 9 - i };
                let key = keys[place];
                touches.push(Touch { velocity: 127, ..touch(key, now, now + 550) });
                now += 30;
            }
        }
    }
    performance(touches)
}

fn decibels(x: f64) -> f64 {
    20.0 * x.max(1e-12).log10()
}

#[test]
fn the_densest_roll_neither_clips_nor_leans_and_dies_away() {
    for voice in Voice::ALL {
        let wishes = SoundWishes { voice, ..SoundWishes::default() };
        let storm = storm();
        let [left, right] = whole(&storm, &wishes, 44_100, 4096);
        let peak = left.iter().chain(&right).fold(0.0_f32, |peak, x| peak.max(x.abs()));
        let mean =
            |side: &[f32]| side.iter().map(|&x| f64::from(x)).sum::<f64>() / side.len() as f64;
        let offset = decibels(mean(&left).abs().max(mean(&right).abs()));
        // Two seconds after the last key is up.
        let end = (storm.end.as_secs() + 2.0) * 44_100.0;
        let tail = left.get(end as usize..).unwrap_or_default();
        let rest = tail.iter().fold(0.0_f32, |peak, x| peak.max(x.abs()));
        let loud = left.iter().map(|&x| f64::from(x * x)).sum::<f64>() / left.len() as f64;
        println!(
            "{voice:?}: peak {:.1} dB, mean power {:.1} dB, offset {offset:.0} dB, after 2 s {:.0} dB",
            decibels(f64::from(peak)),
            10.0 * loud.log10(),
            decibels(f64::from(rest)),
        );
        assert!(peak < 1.0 && peak > 0.2, "{voice:?} peaks at {peak}");
        assert!(offset < -60.0, "{voice:?} leans by {offset} dB");
        assert!(decibels(f64::from(rest)) < -70.0, "{voice:?} still sounds");
        assert!(left.iter().chain(&right).all(|x| x.is_finite()));
    }
}

#[test]
fn slices_of_any_size_give_the_same_samples() {
    let piece = performance(vec![touch(40, 0, 300), touch(64, 111, 400), touch(64, 420, 500)]);
    for voice in Voice::ALL {
        for rate in [44_100, 48_000, 96_000] {
            let wishes = SoundWishes { voice, ..SoundWishes::default() };
            let reference = whole(&piece, &wishes, rate, 1 << 18);
            for slice in [100, 128, 4410] {
                let sliced = whole(&piece, &wishes, rate, slice);
                for (sliced, reference) in sliced.iter().zip(&reference) {
                    let n = sliced.len().min(reference.len());
                    assert!(sliced[..n] == reference[..n], "{voice:?} {rate} {slice}");
                    assert!(sliced[n..].iter().chain(&reference[n..]).all(|&x| x == 0.0));
                }
            }
        }
    }
}

/// Level of the first tenth of a second from `at`, in decibels.
fn level(sound: &[f32], at: f64, rate: f64) -> f64 {
    let from = (at * rate) as usize;
    let piece = &sound[from..from + (0.1 * rate) as usize];
    10.0 * (piece.iter().map(|&x| f64::from(x * x)).sum::<f64>() / piece.len() as f64)
        .max(1e-15)
        .log10()
}

#[test]
fn strings_ring_as_long_as_a_harpsichords() {
    // The c′ of a harpsichord was measured to fall as exp(-2.6 t), which is 60 dB in
    // 2.7 s ("The Physics of Harpsichord Sound", web.ncf.ca/bf250, after Savage and
    // others); for the other keys common practice, no source: bass strings sing for
    // several seconds, the top for about one. A damped string is gone within half a second.
    let wishes = SoundWishes::default();
    for (key, shortest, longest) in
        [(29, 5.0, 14.0), (48, 3.0, 8.0), (60, 2.0, 4.2), (84, 0.7, 2.2)]
    {
        let sound = start(&performance(vec![touch(key, 0, 3000)]), &wishes, 44_100, 1.4);
        let fall = level(&sound, 0.2, 44_100.0) - level(&sound, 1.2, 44_100.0);
        let ring = 60.0 / fall;
        assert!((shortest..longest).contains(&ring), "key {key} rings {ring} s");
        let short = start(&performance(vec![touch(key, 0, 500)]), &wishes, 44_100, 1.4);
        let fall = level(&short, 0.35, 44_100.0) - level(&short, 1.1, 44_100.0);
        assert!(fall > 30.0, "key {key} is damped by {fall} dB");
    }
}

#[test]
fn held_strings_answer_and_damped_ones_do_not() {
    // c is held; c′ is struck and let go. What both make together beyond what each
    // makes alone is the answer of c's second partial to c′.
    let wishes = SoundWishes::default();
    let sound = |touches: Vec<Touch>| start(&performance(touches), &wishes, 44_100, 3.0);
    let answer = |until: u64| {
        let (low, high) = (touch(48, 0, until), touch(60, 1000, 1500));
        let both = sound(vec![low, high]);
        let (low, high) = (sound(vec![low]), sound(vec![high]));
        let rest: Vec<f32> = (0..both.len()).map(|i| both[i] - low[i] - high[i]).collect();
        (level(&rest, 1.9, 44_100.0), level(&high, 1.1, 44_100.0))
    };
    let (held, struck) = answer(2900);
    println!("the answer lies {:.1} dB below the stroke", struck - held);
    assert!((15.0..60.0).contains(&(struck - held)), "{held} dB after {struck} dB");
    // Damped before, it has nothing to answer with.
    let (damped, _) = answer(300);
    assert!(damped < held - 20.0, "{damped} dB damped, {held} dB held");
}

#[test]
fn strings_that_answer_one_another_still_die_away() {
    for voice in [Voice::Plucked84, Voice::Struck] {
        let wishes = SoundWishes { voice, temperament: Temperament::Equal, ..Default::default() };
        let touches = (29..=89).map(|key| touch(key, 0, 14_000)).collect();
        let sound = start(&performance(touches), &wishes, 22_050, 12.0);
        let levels: Vec<f64> = [1.0, 3.0, 6.0, 11.0].map(|at| level(&sound, at, 22_050.0)).to_vec();
        println!("{voice:?}, all keys held: {levels:.1?}");
        assert!(levels.windows(2).all(|two| two[1] < two[0] - 4.0), "{voice:?}: {levels:?}");
    }
}

#[test]
fn keys_are_evenly_loud() {
    // Our choice: within 12 dB over five octaves, a third apart within 5 dB.
    for voice in Voice::ALL {
        let wishes = SoundWishes { voice, ..SoundWishes::default() };
        let levels: Vec<f64> = (29..=89)
            .step_by(4)
            .map(|key| {
                let piece = performance(vec![touch(key, 0, 1000)]);
                level(&start(&piece, &wishes, 44_100, 0.2), 0.05, 44_100.0)
            })
            .collect();
        let low = levels.iter().copied().fold(f64::INFINITY, f64::min);
        let high = levels.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        println!("{voice:?}: {levels:.1?}");
        assert!(high - low < 12.0, "{voice:?}: {levels:?}");
        assert!(levels.windows(2).all(|two| (two[1] - two[0]).abs() < 5.0), "{voice:?}");
    }
}

#[test]
fn a_struck_string_feels_the_force_and_a_plucked_one_does_not() {
    let sound = |voice: Voice, velocity: u8| {
        let wishes = SoundWishes { voice, ..SoundWishes::default() };
        let piece = performance(vec![Touch { velocity, ..touch(60, 0, 500) }]);
        start(&piece, &wishes, 44_100, 0.5)
    };
    assert_eq!(sound(Voice::Plucked8, 30), sound(Voice::Plucked8, 120));
    let difference = level(&sound(Voice::Struck, 120), 0.1, 44_100.0)
        - level(&sound(Voice::Struck, 30), 0.1, 44_100.0);
    assert!(difference > 12.0, "{difference}");
    assert!(Voice::Struck.feels_force() && !Voice::Organ.feels_force());
}

#[test]
fn a_struck_key_sounds_at_once_and_ends_in_silence() {
    for voice in Voice::ALL {
        let wishes = SoundWishes { voice, ..SoundWishes::default() };
        let (left, right) = strike(Key::clamped(57), &wishes, 48_000, 0.8);
        assert_eq!((left.len(), right.len()), (38_400, 38_400));
        assert!(left[..480].iter().any(|x| x.abs() > 1e-3), "{voice:?} is late");
        assert!(left[38_399].abs() < 1e-4 && right[38_399].abs() < 1e-4);
        // No click where the sound was cut: no jump larger than the sound's own.
        let jump =
            |side: &[f32]| side.windows(2).fold(0.0_f32, |m, two| m.max((two[1] - two[0]).abs()));
        assert!(jump(&left[36_000..]) < 0.05, "{voice:?}");
    }
}

/// Level of the partials between 1.8 and 7.5 kHz of a short note, so long after its release.
fn halo(voice: Voice, after: f64) -> f64 {
    let wishes = SoundWishes { voice, ..SoundWishes::default() };
    let rate = 44_100.0;
    let sound = start(&performance(vec![touch(48, 0, 400)]), &wishes, 44_100, 2.0);
    // First differences lift what is high by 6 dB an octave; three times leave nothing low.
    let mut high = sound;
    for _ in 0..3 {
        high = high.windows(2).map(|two| two[1] - two[0]).collect();
    }
    level(&high, 0.4 + after, rate)
}

#[test]
fn the_ends_of_the_strings_ring_on_after_the_dampers() {
    // Just after the pluck, and a fifth and three fifths of a second after the release.
    let fall = [0.2, 0.6].map(|at| halo(Voice::Plucked8, -0.35) - halo(Voice::Plucked8, at));
    println!("0.2 and 0.6 s after the release high partials have fallen by {fall:.1?} dB");
    // A halo: far below the note, and yet more than the room, which alone leaves 59 and 88 dB
    // below (measured without the ends).
    assert!((40.0..55.0).contains(&fall[0]) && (70.0..85.0).contains(&fall[1]), "{fall:?}");
}
