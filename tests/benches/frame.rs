//! Outer voices, hands and the whole reading against the length of the bass and the number of answers
//! wanted; and a reading that follows another while the soprano over one chord is moved. Time of the
//! processor, where the system tells it.
//!
//! `cargo bench -p tastata-tests --bench frame`

use criterion::{BenchmarkId, Criterion, Throughput, criterion_group, criterion_main};
use tastata::frame::{best_sopranos, frame};
use tastata::hands::{HandSize, best_handfuls, handfuls};
use tastata::harmony::harmonise;
use tastata::reading::{Rereader, read};
use tastata::sketch::{Hold, Pin};
use tastata_tests::outer::wandering;

#[path = "shared/processor.rs"]
mod processor;

use processor::ProcessorTime;

const LENGTHS: [usize; 4] = [8, 64, 512, 2000];

fn lengths(criterion: &mut Criterion<ProcessorTime>) {
    let mut group = criterion.benchmark_group("length");
    for length in LENGTHS {
        let sketch = wandering(length);
        let chords = harmonise(&sketch).chords;
        let solved = frame(&sketch, &chords);
        group.throughput(Throughput::Elements(length as u64));
        group.bench_function(BenchmarkId::new("frame", length), |bench| {
            bench.iter(|| frame(&sketch, &chords));
        });
        group.bench_function(BenchmarkId::new("hands", length), |bench| {
            bench.iter(|| handfuls(&sketch, &chords, &solved));
        });
        let mut wide = sketch.clone();
        wide.hands.left = HandSize { notes: 5, span: 9 };
        wide.hands.right = wide.hands.left;
        group.bench_function(BenchmarkId::new("whole reading", length), |bench| {
            bench.iter(|| read(&sketch));
        });
        group.bench_function(BenchmarkId::new("a step of a drag", length), |bench| {
            let mut reader = Rereader::default();
            let before = reader.read(&sketch);
            let mut moved = sketch.clone();
            let mut up = false;
            bench.iter(|| {
                up = !up;
                let tones = &chords[length / 2].tones;
                let to = tones[usize::from(up) % tones.len()].class.in_octave(5);
                moved.notes[length / 2].soprano = vec![Some(Pin { pitch: to, hold: Hold::Pinned })];
                reader.read_in_brief(&moved, &before)
            });
        });
        group.bench_function(BenchmarkId::new("five notes within a tenth", length), |bench| {
            bench.iter(|| handfuls(&wide, &chords, &solved));
        });
    }
    group.finish();
}

fn answers(criterion: &mut Criterion<ProcessorTime>) {
    let mut group = criterion.benchmark_group("answers for 64 notes");
    let sketch = wandering(64);
    let chords = harmonise(&sketch).chords;
    let solved = frame(&sketch, &chords);
    for k in [1, 8, 64] {
        group.bench_function(BenchmarkId::new("sopranos", k), |bench| {
            bench.iter(|| best_sopranos(&sketch, &chords, k));
        });
        group.bench_function(BenchmarkId::new("handfuls", k), |bench| {
            bench.iter(|| best_handfuls(&sketch, &chords, &solved, k));
        });
    }
    group.finish();
}

criterion_group! {
    name = benches;
    config = Criterion::default().with_measurement(ProcessorTime::begin()).sample_size(20).measurement_time(std::time::Duration::from_secs(2));
    targets = lengths, answers
}
criterion_main!(benches);
