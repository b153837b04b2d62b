//! The manner of madrigals, learned from their analyses. What is learned is small: how often
//! each chord stands on each degree by where the bass goes, and at the opening; where basses
//! go; and the habit. To measure it, the madrigals are parted into their books, so that no part
//! of a cycle is foretold by another part of it.

use tastata::harmony::{Manner, Version};

use crate::analyses::{BY_NOTES, Piece, cases, penalty_for};
use crate::counts::{Counted, counts, written};
use crate::habit::learn;

/// Fewest cases a row of the counts is kept for.
const LEAST: u32 = 12;

/// Rows of the habit that say less of every figure, in hundredths, are left out, so that
/// the page stays small.
const LEAST_SAID: i32 = 20;

/// The penalties tried.
const PENALTIES: [f64; 6] = [2.0, 3.0, 5.0, 8.0, 12.0, 18.0];

/// The penalty that [`penalty_for`] finds for the madrigals outside books III, IV and
/// V: `habit choose` prints them.
const CHOSEN: [f64; 3] = [8.0, 8.0, 8.0];
/// The same for all together.
pub const CHOSEN_FOR_ALL: f64 = 8.0;

/// The rows learned from pieces: counts, then the habit.
pub fn learned(pieces: &[&Piece], penalty: f64) -> String {
    let counted: Vec<Counted> = pieces.iter().flat_map(|piece| counted(piece)).collect();
    let counted: Vec<Option<&Counted>> = counted.iter().map(Some).collect();
    let mut text = counts(&counted, "016n", LEAST).join("\n");
    text.push('\n');
    text + &learn(&cases(pieces, Version::Madrigals), penalty).print(LEAST_SAID)
}

fn counted(piece: &Piece) -> Vec<Counted> {
    let of = |event: &crate::analyses::Event| {
        let at = |number: u8| {
            let number_of = |it: &tastata::pitch::PitchClass| {
                (it.step.index() - event.bass.step.index()).rem_euclid(7) as u8 + 1
            };
            event.classes.iter().find(|it| number_of(it) == number).copied()
        };
        Counted {
            piece: piece.name.clone(),
            bass: event.bass,
            text: written(event.figure.name(), event.tonality, at),
            tonality: event.tonality,
        }
    };
    piece.events.iter().map(of).collect()
}

/// Which book a piece is in, from 0: `madrigal.4.12` is in the second of them.
fn book(piece: &Piece) -> usize {
    let number = piece.name.split('.').nth(1).and_then(|it| it.parse::<usize>().ok());
    number.unwrap_or(3).saturating_sub(3).min(CHOSEN.len() - 1)
}

/// The pieces outside each book.
pub fn others(pieces: &[Piece]) -> [Vec<&Piece>; 3] {
    std::array::from_fn(|part| pieces.iter().filter(|piece| book(piece) != part).collect())
}

/// For each piece, the manner learned from the other books.
pub fn held_out(pieces: &[Piece]) -> Vec<Manner> {
    let others = others(pieces);
    let manners: Vec<Manner> = std::iter::zip(&others, CHOSEN)
        .map(|(others, penalty)| Manner::madrigals(&learned(others, penalty)))
        .collect();
    pieces.iter().map(|piece| manners[book(piece)].clone()).collect()
}

/// The penalties chosen without each book, and for all.
pub fn choices(pieces: &[Piece]) -> Vec<f64> {
    let mut sets = others(pieces).to_vec();
    sets.push(pieces.iter().collect());
    let penalty = |set: &Vec<&Piece>| penalty_for(set, Version::Madrigals, BY_NOTES, &PENALTIES);
    sets.iter().map(penalty).collect()
}
