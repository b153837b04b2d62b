//! Prints how far the harmony agrees with human analyses, beside three baselines:
//! `cargo run --release -p tastata-tests --bin agreement`. With pieces' names, also
//! their notes one by one, analyst first, marked where the two differ.

use anyhow::Result;
use tastata_tests::analyses::{Lengths, Told, comparison, guesses, pieces, table, unseen};
use tastata_tests::figured;

fn main() -> Result<()> {
    let wanted: Vec<String> = std::env::args().skip(1).collect();
    for collection in ["chorales", "madrigals"] {
        let pieces = pieces(collection)?;
        let notes: usize = pieces.iter().map(|piece| piece.events.len()).sum();
        println!("{} {collection}, {notes} bass notes\n", pieces.len());
        println!("| chords by | told | exact | class | root |");
        println!("|---|---|---|---|---|");
        let unseen = unseen(collection, &pieces);
        for line in table(&comparison(&pieces, &unseen)) {
            println!("{line}");
        }
        println!();
        for piece in pieces.iter().filter(|piece| wanted.contains(&piece.name)) {
            println!("{}", piece.name);
            let at = pieces.iter().position(|it| it.name == piece.name).unwrap_or_default();
            let (version, manner) = (unseen.0, &unseen.1[at]);
            let ours = guesses(piece, Told::Everywhere, Lengths::Unknown, version, manner);
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
    println!("Figured basses\n\n| bass | chords by | figured notes | exact | class | root |");
    println!("|---|---|---|---|---|---|");
    for line in figured::table() {
        println!("{line}");
    }
    Ok(())
}
