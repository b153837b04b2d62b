//! The bass line a person enters: its text form both ways, ready blocks, transposing.
//!
//! One word per note. A letter with accidentals (`#` `b` `x` or `♯` `♭` `♮`) and
//! an octave (`C3`, `F#2`; middle C is C4); without an octave the nearest pitch
//! to the note before, the first near C3. Words are parted by spaces, commas,
//! bars or new lines. Figures follow the note after a colon (`D3:6/5`,
//! `G:4-3`), in brackets (`D(6)`), or as a word of their own that begins with a
//! digit, a sharp, a natural, a plus or a stroke (`G 4-3`, `F 6/4+/2`); several
//! such words are played in turn (`G 4 3`). An octave runs from 0 to 5, so `D6`
//! is D with a 6; `D6:` is the note in the sixth octave. A note in brackets,
//! `(D3)`, is a passing note; an exclamation mark, `D3!`, makes it carry a chord.
//! A length may follow, `D3=4` a quarter and `D3=8.` a dotted eighth, and holds for
//! the notes after it until another, or `=0`, is written; `r` is a rest of the same
//! length, `r=2` one of its own.
//! The text may open with its tonality: `C minor: C D Eb`.

mod generate;
mod motion;
mod named;
mod passing;
mod print;
mod range;
mod read;
mod text;
mod transpose;
mod value;

pub use generate::{OctaveRun, motion, octave};
pub use motion::BassMotion;
pub use named::{in_names, print_named, read_named, read_tonality};
pub use passing::passing;
pub(crate) use passing::rhythms;
pub use print::{print_bass, print_notes};
pub use range::within_range;
pub use read::read_bass;
pub use text::{BassNote, BassText, TextRemark, TextTrouble};
pub use transpose::transpose;
pub use value::NoteValue;
