//! Times the reading of files: `cargo run --release -p tastata-tests --example bring -- FILE...`
//! prints the largest with the memory it takes and the slowest, each with its size and time, and
//! the number of files read.

use std::path::Path;
use std::time::{Duration, Instant};
use tastata::files::read_file;

/// The most memory this process has held so far, in KB, where the system tells.
fn most_memory() -> Option<u64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|line| line.starts_with("VmHWM:"))?;
    line.split_whitespace().nth(1)?.parse().ok()
}

/// How long a file takes to read and how many notes its parts have; `None` if it is not read.
fn time(path: &str) -> std::io::Result<Option<(Duration, usize)>> {
    let bytes = std::fs::read(path)?;
    let before = Instant::now();
    let read = read_file(path, &bytes);
    let took = before.elapsed();
    let notes = |part: &tastata::files::BroughtPart| part.sketch.notes.len();
    Ok(read.ok().map(|brought| (took, brought.parts.iter().map(notes).sum())))
}

fn main() -> std::io::Result<()> {
    let size = |path: &str| Path::new(path).metadata().map_or(0, |it| it.len());
    let mut paths: Vec<String> = std::env::args().skip(1).collect();
    // The largest first, while the process has held nothing else.
    paths.sort_by_key(|path| std::cmp::Reverse(size(path)));
    let before = most_memory();
    let (mut count, mut whole) = (0, Duration::ZERO);
    let mut slowest: Option<(Duration, usize, &str)> = None;
    for (i, path) in paths.iter().enumerate() {
        let Some((took, notes)) = time(path)? else {
            println!("not read: {path}");
            continue;
        };
        if i == 0 {
            let more = before.zip(most_memory()).map(|(before, after)| after - before);
            println!("largest {path}: {} bytes, {notes} notes, {took:?}, {more:?} KB", size(path));
        }
        count += 1;
        whole += took;
        slowest = slowest.max(Some((took, notes, path)));
    }
    if let Some((took, notes, path)) = slowest {
        println!("slowest {path}: {} bytes, {notes} notes, {took:?}", size(path));
    }
    println!("{count} read in {whole:?}");
    Ok(())
}
