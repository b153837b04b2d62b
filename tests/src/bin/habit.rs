//! Prints the habit that `core/src/harmony/usage/habit.txt` keeps, learned from all
//! the chorale analyses: `cargo run --release -p tastata-tests --bin habit`.

use anyhow::Result;
use tastata_tests::analyses::{learned, pieces};

fn main() -> Result<()> {
    let pieces = pieces("chorales")?;
    print!("{}", learned(&pieces.iter().collect::<Vec<_>>()).print());
    Ok(())
}
