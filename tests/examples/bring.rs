//! Times the reading of files: `cargo run --release -p tastata-tests --example bring -- FILE...`
//! prints the slowest with its size, and the number of files read.

use std::time::{Duration, Instant};
use tastata::files::read_file;

fn main() -> std::io::Result<()> {
    let mut slowest = (Duration::ZERO, String::new(), 0, 0);
    let mut count = 0;
    for path in std::env::args().skip(1) {
        let bytes = std::fs::read(&path)?;
        let before = Instant::now();
        let read = read_file(&path, &bytes);
        let took = before.elapsed();
        let Ok(brought) = read else {
            println!("not read: {path}");
            continue;
        };
        let notes = brought.parts.iter().map(|part| part.sketch.notes.len()).sum();
        slowest = slowest.max((took, path, bytes.len(), notes));
        count += 1;
    }
    let (took, path, size, notes) = slowest;
    println!("{count} read; slowest {path}: {size} bytes, {notes} notes in all parts, {took:?}");
    Ok(())
}
