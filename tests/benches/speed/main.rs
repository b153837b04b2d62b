//! What the program is fast at and what not: every stage on this machine, and the page in Chromium on a
//! processor made to look slower, as on a phone. Prints the tables and writes them to `tests/speed.md`.
//!
//! `cargo bench -p tastata-tests --bench speed [SLOWER]`, SLOWER being how many times slower the
//! processor is made to look, 6 by default. With `opening` only how the page opens is printed. Milliseconds of the
//! clock on the wall: the machine should have nothing else to do. `TASTATA_PAGE` may name a packed page.

mod drag;
mod opening;
mod stages;
mod table;

use anyhow::Result;
use tastata_tests::{Browser, Engine, workspace};

/// How many others were at work when this began, where the system tells it.
fn load() -> String {
    let told = std::fs::read_to_string("/proc/loadavg").unwrap_or_default();
    told.split_whitespace().next().map_or_else(|| "unknown".to_owned(), str::to_owned)
}

fn main() -> Result<()> {
    // Cargo passes flags of its own.
    let slower = std::env::args().skip(1).find_map(|word| word.parse().ok()).unwrap_or(6);
    if std::env::args().any(|word| word == "opening") {
        println!("{}", opening::measure(&Browser::start(Engine::Chromium)?, slower)?);
        return Ok(());
    }
    let load = load();
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    let stages = stages::measure();
    let browser = Browser::start(Engine::Chromium)?;
    let opening = opening::measure(&browser, slower)?;
    let [steps, typed, scrolled] = drag::measure(&browser, slower)?;
    let told = format!(
        "# Speed\n\n\
         Written by `cargo bench -p tastata-tests --bench speed` on {cores} cores; the system's load \
         was {load} when it began. Milliseconds, medians unless said otherwise. Finer benches of \
         single rooms: `frame`, `harmony`, `sound`.\n\n\
         ## On the machine itself, release profile\n\n{stages}\n\
         ## The page in Chromium, the processor made to look {slower} times slower\n\n{opening}\n\
         A soprano note dragged by a step, read and drawn anew under the finger, with sound; \
         what waits until the finger is slow or pauses is left out. The aim is 16 for 64 notes in \
         95 of 100 steps.\n\n{steps}\n\
         The whole bass typed anew.\n\n{typed}\n\
         The staff scrolled by a flick, 48 pixels a frame; a short bass has nothing to scroll.\n\n\
         {scrolled}"
    );
    println!("{told}");
    std::fs::write(workspace().join("tests/speed.md"), told)?;
    Ok(())
}
