//! How fast the instrument is: seconds of sound per second of one core, by the
//! number of strings sounding at once.
//!
//! `cargo bench -p tastata-tests --bench sound`; results are kept in `sound.md`.

use criterion::{BenchmarkId, Criterion, Throughput, criterion_group, criterion_main};
use std::hint::black_box;
use tastata::hands::Hand;
use tastata::pitch::{Key, Mode, Pitch, PitchClass, Step, Tonality};
use tastata::prelude::prelude;
use tastata::reading::read;
use tastata::roll::{Micros, NoteKind, Performance, Touch};
use tastata::sound::{Renderer, SoundWishes, Voice, strike};

#[path = "shared/processor.rs"]
mod processor;

use processor::ProcessorTime;

const RATE: u32 = 48_000;

/// Some keys held for a whole second and longer.
fn held(count: usize) -> Performance {
    let touch = |i: usize| Touch {
        key: Key::clamped(24 + (i * 37 % 84) as i32),
        pitch: Pitch::new(Step::C, 0, 4),
        hand: Hand::Left,
        chord: 0,
        down: Micros(0),
        up: Micros::from_ms(4000),
        velocity: 80,
        kind: NoteKind::Chord,
    };
    let touches = (0..count).map(touch).collect();
    Performance { touches, end: Micros::from_ms(4000), ..Performance::default() }
}

/// Renders one second in slices as a page does.
fn second(performance: &Performance, wishes: &SoundWishes) -> f32 {
    let mut renderer = Renderer::new(performance, wishes, RATE, Micros(0));
    let (mut left, mut right) = (vec![0.0; 4800], vec![0.0; 4800]);
    for _ in 0..10 {
        renderer.render(&mut left, &mut right);
    }
    left[0]
}

fn by_polyphony(criterion: &mut Criterion<ProcessorTime>) {
    let mut group = criterion.benchmark_group("one second by keys held");
    group.throughput(Throughput::Elements(u64::from(RATE)));
    group.sample_size(20);
    for voice in [Voice::Plucked8, Voice::Plucked84, Voice::Struck, Voice::Organ] {
        for count in [1, 8, 16, 32, 64, 84] {
            let performance = held(count);
            let wishes = SoundWishes { voice, ..SoundWishes::default() };
            group.bench_function(BenchmarkId::new(format!("{voice:?}"), count), |bencher| {
                bencher.iter(|| second(black_box(&performance), &wishes));
            });
        }
    }
    group.finish();
}

fn a_prelude(criterion: &mut Criterion<ProcessorTime>) {
    let tonality = Tonality::new(PitchClass::new(Step::D, 0), Mode::Minor);
    let sketch = prelude(tonality, 40, 1);
    let performance = read(&sketch).performance;
    let mut group = criterion.benchmark_group("a prelude");
    group.sample_size(10);
    group.bench_function("whole", |bencher| {
        bencher.iter(|| {
            let mut renderer =
                Renderer::new(black_box(&performance), &sketch.sound, RATE, Micros(0));
            let (mut left, mut right) = (vec![0.0; 4800], vec![0.0; 4800]);
            let mut count = 0;
            while renderer.render(&mut left, &mut right) {
                count += 1;
            }
            count
        });
    });
    group.bench_function("its length is 40 s; its reading alone", |bencher| {
        bencher.iter(|| read(black_box(&sketch)).performance.end);
    });
    group.finish();
}

fn a_key(criterion: &mut Criterion<ProcessorTime>) {
    let wishes = SoundWishes::default();
    criterion.bench_function("striking a key, 1.5 s", |bencher| {
        bencher.iter(|| strike(black_box(Key::clamped(48)), &wishes, RATE, 1.5));
    });
}

criterion_group! {
    name = benches;
    config = Criterion::default().with_measurement(ProcessorTime::begin());
    targets = by_polyphony, a_prelude, a_key
}
criterion_main!(benches);
