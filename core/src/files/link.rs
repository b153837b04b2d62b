//! A sketch as the fragment of a link, and back.
//!
//! The text is a version digit and URL-safe base64 of: the length of the plain
//! message and a flag, the length of the squeezed message if the flag is set,
//! the message, and the CRC-32 of the plain message. The message itself is in
//! `wire`. Nothing in it depends on the names or order of our types.

use super::base64;
use super::fields::{Fields, Input, put_varint};
use super::patch;
use super::squeeze::{squeeze, unsqueeze};
use super::wire;
use crate::sketch::Sketch;
use crc32fast::hash as crc32;

/// The longest link that is read, in characters.
pub const MAX_LINK: usize = 100_000;
/// The longest plain message that is read, in bytes.
const MAX_PLAIN: u64 = 200_000;
/// The version this program writes.
const VERSION: char = '1';
/// Bytes of the checksum.
const CHECK: usize = 4;

/// Why a link gives no sketch; [`crate::words::link_error`] says it in a sentence.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LinkError {
    /// There is nothing in it.
    Empty,
    /// It was not made by this program.
    Foreign,
    /// It was made by a newer version of this program.
    Newer,
    /// Its end is missing.
    CutShort,
    /// Something in it was changed on the way.
    Damaged,
    /// It is longer than any piece needs.
    TooLong,
}

/// The sketch as letters, digits, `-` and `_`, safe in a URL's fragment.
/// A link longer than [`MAX_LINK`] will not be read back.
/// Cost: O(size of the sketch). Allocates: 70 kB for a moment.
pub fn encode(sketch: &Sketch) -> String {
    let bytes = pack(&patch::message(sketch));
    let mut text = String::with_capacity(bytes.len() * 4 / 3 + 3);
    text.push(VERSION);
    base64::write(&bytes, &mut text);
    text
}

/// A plain message, squeezed where that is shorter, with its checksum.
pub(super) fn pack(plain: &[u8]) -> Vec<u8> {
    let squeezed = squeeze(plain);
    let shorter = squeezed.len() + 1 < plain.len();
    let mut bytes = Vec::with_capacity(plain.len().min(squeezed.len()) + 16);
    put_varint(&mut bytes, (plain.len() as u64) << 1 | u64::from(shorter));
    if shorter {
        put_varint(&mut bytes, squeezed.len() as u64);
    }
    bytes.extend_from_slice(if shorter { &squeezed } else { plain });
    bytes.extend_from_slice(&crc32(plain).to_le_bytes());
    bytes
}

/// The sketch in a link. Takes the fragment or the whole address, forgives white
/// space and anything that a mail put after it.
///
/// # Errors
/// [`LinkError`] if there is no sketch in it, whole and unchanged.
///
/// # Limits
/// [`MAX_LINK`] characters; 200 000 bytes unpacked.
pub fn decode(text: &str) -> Result<Sketch, LinkError> {
    if text.len() > MAX_LINK {
        return Err(LinkError::TooLong);
    }
    let text = text.rsplit('#').next().unwrap_or(text).trim();
    let mut rest = text.chars();
    match rest.next() {
        None => return Err(LinkError::Empty),
        Some(VERSION) => {}
        Some('2'..='9') => return Err(LinkError::Newer),
        Some(_) => return Err(LinkError::Foreign),
    }
    let bytes = base64::read(rest.as_str());
    let plain = unpack(&bytes)?;
    let mut sketch = Sketch::default();
    wire::sketch(&mut Fields::parse(&plain)?, &mut sketch)?;
    Ok(sketch)
}

/// The inverse of [`pack`], checked.
pub(super) fn unpack(bytes: &[u8]) -> Result<Vec<u8>, LinkError> {
    let mut input = Input(bytes);
    let head = input.varint().map_err(|_| LinkError::CutShort)?;
    let length = head >> 1;
    if length > MAX_PLAIN {
        return Err(LinkError::TooLong);
    }
    let squeezed = head & 1 == 1;
    let kept = if squeezed { input.varint().map_err(|_| LinkError::CutShort)? } else { length };
    let body = input.take(kept).map_err(|_| LinkError::CutShort)?;
    let check = input.take(CHECK as u64).map_err(|_| LinkError::CutShort)?;
    let plain = if squeezed { unsqueeze(body, length as usize) } else { body.to_vec() };
    if check == crc32(&plain).to_le_bytes() { Ok(plain) } else { Err(LinkError::Damaged) }
}
