//! Each stage of the work on this machine itself, by the length of the bass.

use std::time::Instant;

use tastata::files::{decode, encode};
use tastata::frame::frame;
use tastata::hands::handfuls;
use tastata::harmony::harmonise;
use tastata::reading::read;
use tastata::roll::roll;
use tastata::sketch::Sketch;
use tastata::staff::{Look, draw};
use tastata_tests::outer::wandering;

use crate::table::{Table, median};

/// Lengths of the bass, in notes.
pub(crate) const LENGTHS: [usize; 4] = [8, 64, 512, 2000];

/// The median of some runs, in milliseconds.
fn time<T>(work: impl Fn() -> T) -> f64 {
    let run = || {
        let begin = Instant::now();
        std::hint::black_box(work());
        begin.elapsed().as_secs_f64() * 1000.0
    };
    median(&(0..9).map(|_| run()).collect::<Vec<_>>())
}

/// Measures every stage at every length.
pub(crate) fn measure() -> Table {
    let mut table = Table::new(["Stage", "8 notes", "64", "512", "2,000"]);
    let mut stage = |name: &str, of: &dyn Fn(&Sketch) -> f64| {
        let times = LENGTHS.map(|length| format!("{:.2}", of(&wandering(length))));
        let [a, b, c, d] = times;
        table.row([name.to_owned(), a, b, c, d]);
    };
    stage("harmony", &|sketch| time(|| harmonise(sketch)));
    stage("outer voices", &|sketch| {
        let chords = harmonise(sketch).chords;
        time(|| frame(sketch, &chords))
    });
    stage("hands", &|sketch| {
        let chords = harmonise(sketch).chords;
        let solved = frame(sketch, &chords);
        time(|| handfuls(sketch, &chords, &solved))
    });
    stage("roll", &|sketch| {
        let reading = read(sketch);
        time(|| roll(sketch, &reading.harmony.chords, &reading.hands))
    });
    stage("whole reading", &|sketch| time(|| read(sketch)));
    stage("staff, all of it drawn", &|sketch| {
        let reading = read(sketch);
        time(|| draw(sketch, &reading, &Look::new(60.0)))
    });
    stage("link written and read", &|sketch| time(|| decode(&encode(sketch))));
    table
}
