//! Prints what `core/src/harmony/usage` keeps of the analyses: the habit of the
//! chorales in `chorales_habit.txt`, or with `madrigals` all of `madrigals.txt`, learned
//! from all of them: `cargo run --release -p tastata-tests --bin habit`. With
//! `choose` it prints instead the penalties chosen for each part and for all.

use anyhow::Result;
use tastata::harmony::Version;
use tastata_tests::analyses::{
    BY_CHAINS, CHOSEN_FOR_ALL, PARTS, PENALTIES, Piece, learned, others, penalty_for, pieces,
};
use tastata_tests::madrigals;

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
        let sets = (0..PARTS).map(|part| others(&pieces, part)).chain([all.clone()]);
        let penalty =
            |set: Vec<&Piece>| penalty_for(&set, Version::Chorales, BY_CHAINS, &PENALTIES);
        let chosen: Vec<f64> = std::thread::scope(|scope| {
            let choosing: Vec<_> = sets.map(|set| scope.spawn(move || penalty(set))).collect();
            choosing.into_iter().filter_map(|it| it.join().ok()).collect()
        });
        println!("without each part, and of all: {chosen:?}");
    } else {
        print!("{}", learned(&all, CHOSEN_FOR_ALL));
    }
    Ok(())
}
