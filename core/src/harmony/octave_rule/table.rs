//! The octave rule by published version, laid out for proof-reading.
//!
//! Cells are figures under the signature of the tonality, in playing order: the
//! rising row from 1 to 8, the falling row from 8 to 1. `+` raises by a semitone
//! what the signature gives (so `5/3+` over the 5th of a minor tonality has the
//! leading note); `^` puts the degree itself a semitone higher. In minor the
//! signature's 6th and 7th are the lowered ones.
//!
//! Sources: Gasparini, *L'armonico pratico al cimbalo* (1708), p. 51 ff.;
//! Campion, *Traité d'accompagnement* (1716); Rameau, *Traité de l'harmonie*
//! (1722), book III; Heinichen, *Der General-Bass in der Composition* (1728),
//! pp. 745-66, whose plain 6 on the falling 6th is found (nmeeus.ovh, after
//! Christensen 1992);
//! Fenaroli, *Regole musicali* (1775).
//!
//! Found, figure for figure: Campion's major row (N. Meeùs, *Théorie de la musique*,
//! nmeeus.ovh); Fenaroli's major row (R.O. Gjerdingen, "The Rule of the Octave",
//! partimenti.org); the minor rows of Campion's kind in Dandrieu, *Principes de
//! l'acompagnement du clavecin* (1719), as transcribed, whose major rows are the same
//! again; and that Campion gives the falling minor 6th the four-three chord (P.
//! Nicolas, *MTO* 25.4, 2019). The augmented sixth there is a second tradition, found
//! in a modern textbook (Gettysburg College, unit 4.1). From memory: Rameau's rows,
//! which he gives as Campion; Fenaroli's minor; Gasparini and Heinichen but for the
//! plain 6, whose minor rows take their differences from their major rows.

use super::{Direction, Version};
use crate::pitch::Mode;

pub(super) struct Row {
    pub(super) version: Version,
    pub(super) mode: Mode,
    pub(super) direction: Direction,
    pub(super) cells: [&'static str; 8],
}

const fn row(version: Version, mode: Mode, direction: Direction, cells: [&'static str; 8]) -> Row {
    Row { version, mode, direction, cells }
}

use Direction::{Down, Up};
use Mode::{Major, Minor};
use Version::{AugmentedSixth, Campion, Fenaroli, Gasparini, Heinichen, Rameau};

#[rustfmt::skip]
pub(super) const TABLE: &[Row] = &[
    //                            1      2         3    4      5       6        7       8
    row(Campion, Major, Up,     ["5/3", "6/4/3",  "6", "6/5", "5/3",  "6",     "6/5",  "5/3"]),
    row(Campion, Minor, Up,     ["5/3", "6+/4/3", "6", "6/5", "5/3+", "^6",    "^6/5", "5/3"]),
    row(Rameau, Major, Up,      ["5/3", "6/4/3",  "6", "6/5", "5/3",  "6",     "6/5",  "5/3"]),
    row(Rameau, Minor, Up,      ["5/3", "6+/4/3", "6", "6/5", "5/3+", "^6",    "^6/5", "5/3"]),
    row(Fenaroli, Major, Up,    ["5/3", "6/4/3",  "6", "6/5", "5/3",  "6",     "6/5",  "5/3"]),
    row(Fenaroli, Minor, Up,    ["5/3", "6+/4/3", "6", "6/5", "5/3+", "^6",    "^6/5", "5/3"]),
    row(Gasparini, Major, Up,   ["5/3", "6",      "6", "5/3", "5/3",  "6",     "6",    "5/3"]),
    row(Gasparini, Minor, Up,   ["5/3", "6+",     "6", "5/3", "5/3+", "^6",    "^6",   "5/3"]),
    row(Heinichen, Major, Up,   ["5/3", "6",      "6", "6/5", "5/3",  "6",     "6/5",  "5/3"]),
    row(Heinichen, Minor, Up,   ["5/3", "6+",     "6", "6/5", "5/3+", "^6",    "^6/5", "5/3"]),
    row(AugmentedSixth, Major, Up, ["5/3", "6/4/3", "6", "6/5", "5/3", "6",    "6/5",  "5/3"]),
    row(AugmentedSixth, Minor, Up, ["5/3", "6+/4/3", "6", "6/5", "5/3+", "^6", "^6/5", "5/3"]),
    //                            8      7    6         5       4         3    2         1
    row(Campion, Major, Down,   ["5/3", "6", "6+/4/3", "5/3",  "6/4/2",  "6", "6/4/3",  "5/3"]),
    row(Campion, Minor, Down,   ["5/3", "6", "6/4/3",  "5/3+", "6/4+/2", "6", "6+/4/3", "5/3"]),
    row(Rameau, Major, Down,    ["5/3", "6", "6+/4/3", "5/3",  "6/4/2",  "6", "6/4/3",  "5/3"]),
    row(Rameau, Minor, Down,    ["5/3", "6", "6/4/3",  "5/3+", "6/4+/2", "6", "6+/4/3", "5/3"]),
    row(Fenaroli, Major, Down,  ["5/3", "6", "6+/4/3", "5/3",  "6/4/2",  "6", "6/4/3",  "5/3"]),
    row(Fenaroli, Minor, Down,  ["5/3", "6", "6/4/3",  "5/3+", "6/4+/2", "6", "6+/4/3", "5/3"]),
    row(Gasparini, Major, Down, ["5/3", "6", "6+",     "5/3",  "4/2",    "6", "6",      "5/3"]),
    row(Gasparini, Minor, Down, ["5/3", "6", "6",      "5/3+", "4+/2",   "6", "6+",     "5/3"]),
    row(Heinichen, Major, Down, ["5/3", "6", "6",      "5/3",  "6/4/2",  "6", "6",      "5/3"]),
    row(Heinichen, Minor, Down, ["5/3", "6", "6",      "5/3+", "6/4+/2", "6", "6+",     "5/3"]),
    row(AugmentedSixth, Major, Down, ["5/3", "6", "6+/4/3", "5/3", "6/4/2", "6", "6/4/3", "5/3"]),
    row(AugmentedSixth, Minor, Down, ["5/3", "6", "6+/4/3", "5/3+", "6/4+/2", "6", "6+/4/3", "5/3"]),
];
