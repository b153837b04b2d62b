//! Prints the habit that `core/src/harmony/usage/habit.txt` keeps, learned from all
//! the chorale analyses: `cargo run --release -p tastata-tests --bin habit`. With
//! `choose` it prints instead the penalties chosen for each part and for all.

use anyhow::Result;
use tastata_tests::analyses::{CHOSEN_FOR_ALL, PARTS, learned, others, penalty_for, pieces};

fn main() -> Result<()> {
    let pieces = pieces("chorales")?;
    let all: Vec<_> = pieces.iter().collect();
    if std::env::args().any(|it| it == "choose") {
        for part in 0..PARTS {
            println!("without part {part}: {}", penalty_for(&others(&pieces, part)));
        }
        println!("of all: {}", penalty_for(&all));
    } else {
        print!("{}", learned(&all, CHOSEN_FOR_ALL).print());
    }
    Ok(())
}
