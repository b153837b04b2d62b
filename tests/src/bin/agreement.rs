//! Prints how far the harmony agrees with human analyses, beside three baselines:
//! `cargo run --release -p tastata-tests --bin agreement`. With a piece's name,
//! also its notes one by one where harmony and analyst differ.

use anyhow::Result;
use tastata::harmony::Version;
use tastata_tests::analyses::{
    Guess, Piece, Score, Told, always_triads, guesses, most_common, octave_rule_only, pieces,
};

fn main() -> Result<()> {
    let wanted: Vec<String> = std::env::args().skip(1).collect();
    println!("| collection | harmony | told | exact | class | root | notes |");
    println!("|---|---|---|---|---|---|---|");
    for collection in ["chorales", "madrigals"] {
        if wanted.first().is_some_and(|only| only == "chorales") && collection == "madrigals" {
            continue;
        }
        let pieces = pieces(collection)?;
        let row = |name: &str, told: &str, of: &dyn Fn(usize, &Piece) -> Vec<Guess>| {
            let mut score = Score::default();
            for (at, piece) in pieces.iter().enumerate() {
                score.add(piece, &of(at, piece));
            }
            println!(
                "| {collection} | {name} | {told} | {:.1} | {:.1} | {:.1} | {} |",
                score.percent(score.exact),
                score.percent(score.class),
                score.percent(score.root),
                score.notes
            );
        };
        let everywhere = "each note's tonality";
        row("always 5/3", "nothing", &|_, piece| always_triads(piece));
        row("octave rule, else 5/3", everywhere, &|_, piece| octave_rule_only(piece));
        row("most common, held out", everywhere, &|at, _| most_common(&pieces, at));
        for version in [Version::Campion, Version::Gasparini, Version::Chorales] {
            let name = format!("ours, {version:?}");
            row(&name, everywhere, &|_, piece| guesses(piece, Told::Everywhere, version));
            row(&name, "opening tonality", &|_, piece| guesses(piece, Told::Opening, version));
        }
        for piece in pieces.iter().filter(|piece| wanted.contains(&piece.name)) {
            let ours = guesses(piece, Told::Everywhere, Version::Chorales);
            for (event, guess) in piece.events.iter().zip(ours) {
                let mark = if event.figure == guess.figure { " " } else { "x" };
                let (analyst, ours) = (event.figure, guess.figure);
                println!(
                    "{mark} {:<3} {:<9} {analyst:?} {ours:?}",
                    event.bass.to_string(),
                    event.tonality.to_string()
                );
            }
        }
    }
    Ok(())
}
