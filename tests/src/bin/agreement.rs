//! Prints how far the harmony agrees with human analyses, beside three baselines:
//! `cargo run --release -p tastata-tests --bin agreement`. With pieces' names, also
//! their notes one by one, analyst first, marked where the two differ.

use anyhow::Result;
use tastata::harmony::{Habit, Version};
use tastata_tests::analyses::{Lengths, Told, comparison, guesses, held_out, pieces, table};

fn main() -> Result<()> {
    let wanted: Vec<String> = std::env::args().skip(1).collect();
    for collection in ["chorales", "madrigals"] {
        let pieces = pieces(collection)?;
        let notes: usize = pieces.iter().map(|piece| piece.events.len()).sum();
        println!("{} {collection}, {notes} bass notes\n", pieces.len());
        println!("| chords by | told | exact | class | root |");
        println!("|---|---|---|---|---|");
        let habits = if collection == "chorales" { held_out(&pieces) } else { Vec::new() };
        for line in table(&comparison(&pieces, &habits)) {
            println!("{line}");
        }
        println!();
        for piece in pieces.iter().filter(|piece| wanted.contains(&piece.name)) {
            println!("{}", piece.name);
            let at = pieces.iter().position(|it| it.name == piece.name).unwrap_or_default();
            let habit = match habits.as_slice() {
                [] => Habit::learned(),
                parts => &parts[at % parts.len()],
            };
            let ours = guesses(piece, Told::Everywhere, Lengths::Unknown, Version::Chorales, habit);
            for (event, guess) in piece.events.iter().zip(ours) {
                let mark = if event.figure == guess.figure { " " } else { "x" };
                println!(
                    "{mark} {:<3} {:<9} {:?} {:?}",
                    event.bass.to_string(),
                    event.tonality.to_string(),
                    event.figure,
                    guess.figure
                );
            }
        }
    }
    Ok(())
}
