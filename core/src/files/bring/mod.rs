//! Files of others, and our own, as sketches.
//!
//! [`read_file`] looks at what a file holds, not at what it is called: scores in
//! MusicXML, plain or packed, Standard MIDI files, our own text, a link, a page
//! saved with a sketch inside. [`open_file`] takes exercises and answers as well.
//! `score` and `smf` turn the formats of others into parts of notes in time, `line`
//! follows the lowest notes of a part, and `sketch` makes them a bass.

mod kept;
mod key;
mod line;
mod mxl;
mod part;
mod recognise;
mod score;
mod sketch;
mod smf;

use super::lesson_link::Linked;
use super::link::LinkError;
use super::text::SheetRemark;
use crate::sketch::Sketch;

pub(super) use mxl::pack;
pub(super) use score::KEPT_FIELD;

/// The largest file that is read, and the most that a packed one may hold, in bytes.
pub const MAX_FILE: usize = 32 * 1024 * 1024;
/// The most bass notes that are taken from a score or a MIDI file.
pub const MAX_NOTES: usize = 1_000;

/// What a file turned out to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FileKind {
    /// A score in MusicXML, packed or not.
    Score,
    /// A Standard MIDI file.
    Midi,
    /// Text in our own form, or a bass typed into a file.
    Text,
    /// A link.
    Link,
    /// A page that was saved with a sketch inside.
    Page,
}

/// What a file gave.
#[derive(Clone, Debug, PartialEq)]
pub struct Brought {
    /// What it was.
    pub kind: FileKind,
    /// Each part the bass can be taken from, as a sketch, in the file's order; never
    /// empty. Only scores and MIDI files have more than one.
    pub parts: Vec<BroughtPart>,
    /// The part that is likeliest meant, the lowest; an index into `parts`.
    pub lowest: usize,
    /// What could not be taken.
    pub remarks: Vec<BringRemark>,
}

impl Brought {
    /// The sketch of the likeliest part.
    pub fn sketch(self) -> Sketch {
        let parts = self.parts.into_iter();
        parts.map(|part| part.sketch).nth(self.lowest).unwrap_or_default()
    }
}

/// What a file holds.
#[derive(Clone, Debug, PartialEq)]
pub enum InFile {
    /// A piece.
    Piece(Brought),
    /// Exercises, answers or comments; never a sketch.
    Lesson(Box<Linked>),
    /// Several links among words, as in a folder of mails; each may be damaged.
    Links(Vec<String>),
}

/// A part and the sketch made of its lowest notes.
#[derive(Clone, Debug, PartialEq)]
pub struct BroughtPart {
    /// What it is called; [`crate::words::part_name`] says it.
    pub name: PartName,
    /// Its bass.
    pub sketch: Sketch,
}

/// What a part is called.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PartName {
    /// As the file says; may be empty.
    Named(String),
    /// A staff of a part with several, counted from 1 at the top.
    Staff(String, u8),
    /// A channel of a MIDI track, counted from 1.
    Channel(String, u8),
    /// All parts together.
    All,
}

/// Something in a file that could not be taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BringRemark {
    /// A part had more notes than [`MAX_NOTES`]; the first are taken.
    Shortened,
    /// Something in a text, with its place in the file.
    Text(SheetRemark),
}

/// Why a file gives no sketch; [`crate::words::bring_error`] says it in a sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BringError {
    /// There is nothing in it.
    Empty,
    /// It is larger than [`MAX_FILE`].
    TooLarge,
    /// It holds something else.
    Other(OtherKind),
    /// A score that breaks the rules of XML at this line, counted from 1.
    BrokenScore(usize),
    /// A score whose elements are nested deeper than any score needs.
    TooDeep,
    /// A packed file that is damaged.
    BrokenPack,
    /// A packed file without a score in it.
    NoScoreInPack,
    /// A packed file that holds more than [`MAX_FILE`].
    PackTooLarge,
    /// A damaged MIDI file.
    BrokenMidi,
    /// A score or MIDI file without a pitched note.
    NoNotes(FileKind),
    /// A saved page without a sketch.
    EmptyPage,
    /// A link that cannot be opened, alone or in a saved page.
    Link(LinkError),
    /// Exercises or answers, where a piece was to be read.
    Lesson,
}

/// What a file is that cannot be read here.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum OtherKind {
    /// A picture.
    Picture,
    /// A PDF document.
    Pdf,
    /// A sound file.
    Sound,
    /// A page of something else.
    Page,
    /// XML whose outermost element has this name.
    Xml(String),
    /// Text without notes.
    Text,
    /// Bytes of no known kind.
    Unknown,
}

/// Reads a file; `name` gives a piece without a title one.
///
/// # Errors
/// [`BringError`] if no bass can be made of it; nothing is half read.
///
/// # Limits
/// [`MAX_FILE`] bytes, packed and unpacked; [`MAX_NOTES`] notes of a part.
/// Cost: O(size). Allocates: up to a few times the unpacked size.
pub fn read_file(name: &str, bytes: &[u8]) -> Result<Brought, BringError> {
    match recognise::read(name, bytes)? {
        InFile::Piece(brought) => Ok(brought),
        InFile::Lesson(_) | InFile::Links(_) => Err(BringError::Lesson),
    }
}

/// Reads a file that may hold exercises or answers as well; as [`read_file`].
///
/// # Errors
/// As [`read_file`], but never [`BringError::Lesson`].
pub fn open_file(name: &str, bytes: &[u8]) -> Result<InFile, BringError> {
    recognise::read(name, bytes)
}
