//! Properties of every performance: strokes start on the bass, every note of the
//! handful sounds, nothing lies beyond the keyboard, no key is struck while down.

use tastata::hands::Compass;
use tastata::pitch::{Pitch, Step};
use tastata::reading::{Reading, read};
use tastata::roll::Performance;
use tastata::sketch::{Sketch, SketchNote};

/// Made-up sketches from a full-period congruential sequence.
fn sketches() -> impl Iterator<Item = Sketch> {
    let mut state = 12_345_u64;
    let mut draw = move |below: u64| {
        state =
            state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) % below
    };
    (0..60).map(move |_| {
        let mut sketch = Sketch::default();
        for _ in 0..draw(24) {
            let diatonic = 7 * 2 + draw(18) as i32;
            let mut note = SketchNote::bare(Pitch::from_diatonic(diatonic, draw(3) as i8 - 1));
            if draw(3) == 0 {
                note.stroke.times = Some(draw(6) as u8);
            }
            sketch.notes.push(note);
        }
        sketch.roll.times = draw(6) as u8;
        sketch.roll.speed = draw(500) as u16;
        sketch.roll.seed = draw(1 << 31) as u32;
        sketch.hands.compass = Compass::FOUR_OCTAVES;
        sketch
    })
}

fn check(sketch: &Sketch, reading: &Reading) {
    let performance = &reading.performance;
    assert_eq!(performance.starts.len(), reading.hands.handfuls.len());
    assert!(performance.starts.windows(2).all(|two| two[0] < two[1]));
    let touches = &performance.touches;
    assert!(touches.windows(2).all(|t| (t[0].down, t[0].key) <= (t[1].down, t[1].key)));
    for touch in touches {
        assert!(touch.down < touch.up && touch.up <= performance.end);
        assert!(sketch.hands.compass.contains(touch.key));
        assert_eq!(touch.pitch.key(), Some(touch.key));
        assert!((1..=127).contains(&touch.velocity));
    }
    for (index, handful) in reading.hands.handfuls.iter().enumerate() {
        let struck: Vec<_> = touches.iter().filter(|touch| touch.chord == index).collect();
        let wanted = handful.left.iter().chain(&handful.right);
        let wanted: Vec<_> = wanted
            .filter_map(|pitch| pitch.key())
            .filter(|&key| sketch.hands.compass.contains(key))
            .collect();
        for key in &wanted {
            assert!(struck.iter().any(|touch| touch.key == *key), "chord {index} lacks a note");
        }
        if let (Some(first), Some(lowest)) = (struck.first(), wanted.iter().min()) {
            assert_eq!(first.key, *lowest, "chord {index} does not start on its bass");
            assert_eq!(first.down, performance.starts[index]);
        }
    }
    for (i, touch) in touches.iter().enumerate() {
        let again = touches[i + 1..].iter().find(|later| later.key == touch.key);
        assert!(again.is_none_or(|later| touch.up < later.down), "a key struck while down");
    }
}

#[test]
fn every_performance_is_playable_and_complete() {
    for sketch in sketches() {
        check(&sketch, &read(&sketch));
    }
}

#[test]
fn the_same_seed_plays_the_same_and_another_differs() {
    let mut sketch = Sketch::default();
    for diatonic in [21, 18, 19, 14] {
        sketch.notes.push(SketchNote::bare(Pitch::from_diatonic(diatonic, 0)));
    }
    let first = read(&sketch).performance;
    assert_eq!(first, read(&sketch).performance);
    sketch.roll.seed += 1;
    let second = read(&sketch).performance;
    assert_ne!(first, second);
    let keys = |p: &Performance| p.touches.iter().map(|t| t.key).collect::<Vec<_>>();
    assert_eq!(keys(&first), keys(&second));
}

#[test]
fn speed_scales_the_whole() {
    let mut sketch = Sketch::default();
    for step in [Step::C, Step::D, Step::E] {
        sketch.notes.push(SketchNote::bare(Pitch::new(step, 0, 3)));
    }
    let usual = read(&sketch).performance.starts[2].0 as f64;
    sketch.roll.speed = 50;
    let slow = read(&sketch).performance.starts[2].0 as f64;
    assert!((slow / usual - 2.0).abs() < 0.1, "{slow} against {usual}");
}
