//! Harmony against the length of the bass.
//!
//! `cargo bench -p tastata-tests --bench harmony`

use criterion::{BenchmarkId, Criterion, Throughput, criterion_group, criterion_main};
use tastata::bass::read_bass;
use tastata::harmony::{HarmonyWishes, Version, alternatives_in, harmonise};
use tastata::sketch::{Sketch, SketchNote};

const LENGTHS: [usize; 4] = [8, 64, 512, 2000];

/// A bass of our own with scales, leaps, cadences and turns to near tonalities,
/// over and over.
const BASS: &str = "C3 D3 E3 F3 G3 A3 B3 C4 B3 A3 G3 F#3 G3 A3 B3 C4 D3 D3 G3 F3 E3 D3 C3 G2 \
                    C3 A2 D3 E2 A2 G#2 A2 B2 C3 D3 E3 E3 A2";

fn sketch(length: usize, version: Version) -> Sketch {
    let notes = read_bass(BASS, None).notes;
    let notes: Vec<SketchNote> =
        notes.iter().cycle().take(length).map(|note| note.to_sketch()).collect();
    let harmony = HarmonyWishes { version, ..HarmonyWishes::default() };
    Sketch { notes, harmony, ..Sketch::default() }
}

fn lengths(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("length");
    for length in LENGTHS {
        group.throughput(Throughput::Elements(length as u64));
        for (name, version) in [("octave rule", Version::Campion), ("counts", Version::Chorales)] {
            let sketch = sketch(length, version);
            group.bench_function(BenchmarkId::new(name, length), |bench| {
                bench.iter(|| harmonise(&sketch));
            });
        }
        for (name, version) in
            [("alternatives", Version::Campion), ("alternatives by counts", Version::Chorales)]
        {
            let sketch = sketch(length, version);
            let harmony = harmonise(&sketch);
            group.bench_function(BenchmarkId::new(name, length), |bench| {
                bench.iter(|| alternatives_in(&sketch, &harmony, length / 2));
            });
        }
    }
    group.finish();
}

criterion_group!(benches, lengths);
criterion_main!(benches);
