//! Prints what `core/src/harmony/usage` keeps of the analyses: the habit of the
//! chorales in `chorales_habit.txt`, or with `madrigals` all of `madrigals.txt`, learned
//! from all of them: `cargo run --release -p tastata-tests --bin habit`. With
//! `choose` it prints instead the penalties chosen for each part and for all.

use anyhow::Result;
use tastata::harmony::Version;
use tastata_tests::analyses::{CHOSEN_FOR_ALL, PARTS, cases, others, penalty_for, pieces};
use tastata_tests::habit::learn;
use tastata_tests::madrigals;

/// Rows that say less of every figure, in hundredths, are left out.
const LEAST: i32 = 5;

fn main() -> Result<()> {
    let wanted: Vec<String> = std::env::args().skip(1).collect();
    let asked = |word: &str| wanted.iter().any(|it| it == word);
    if asked("madrigals") {
        let pieces = pieces("madrigals")?;
        if asked("choose") {
            println!("without each book, and of all: {:?}", madrigals::choices(&pieces));
        } else {
            let all: Vec<_> = pieces.iter().collect();
            print!("{}", madrigals::learned(&all, madrigals::CHOSEN_FOR_ALL));
        }
        return Ok(());
    }
    let pieces = pieces("chorales")?;
    let all: Vec<_> = pieces.iter().collect();
    if asked("choose") {
        for part in 0..PARTS {
            println!(
                "without part {part}: {}",
                penalty_for(&others(&pieces, part), Version::Chorales)
            );
        }
        println!("of all: {}", penalty_for(&all, Version::Chorales));
    } else {
        print!("{}", learn(&cases(&all, Version::Chorales), CHOSEN_FOR_ALL).print(LEAST));
    }
    Ok(())
}
