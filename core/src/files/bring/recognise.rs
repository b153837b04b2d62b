//! Tells what a file is by what it holds.

use super::line::Timing;
use super::{
    BringError, BringRemark, Brought, BroughtPart, FileKind, InFile, MAX_FILE, OtherKind, PartName,
    kept, mxl, score, sketch, smf,
};
use crate::files::lesson_link::{Linked, open, pasted};
use crate::files::link::LinkError;
use crate::files::text::{SheetTrouble, from_text};
use crate::sketch::Sketch;

/// What stands before the sketch of a saved page.
const KEPT: &str = "id=\"kept-sketch\"";

/// Reads a file by its kind.
pub(super) fn read(name: &str, bytes: &[u8]) -> Result<InFile, BringError> {
    if bytes.len() > MAX_FILE {
        return Err(BringError::TooLarge);
    }
    if bytes.is_empty() {
        return Err(BringError::Empty);
    }
    if bytes.starts_with(b"PK") {
        return score_of(name, &mxl::unpack(bytes)?).map(InFile::Piece);
    }
    if bytes.starts_with(b"MThd")
        || (bytes.starts_with(b"RIFF") && bytes.get(8..12) == Some(b"RMID"))
    {
        let piece = sketch::of_piece(smf::read(bytes)?, FileKind::Midi, Timing::Played, name);
        return piece.map(InFile::Piece);
    }
    if let Some(other) = signed(bytes) {
        return Err(BringError::Other(other));
    }
    let text = decoded(bytes).ok_or(BringError::Other(OtherKind::Unknown))?;
    let trimmed = text.trim();
    if trimmed.is_empty() {
        return Err(BringError::Empty);
    }
    if trimmed.starts_with('<') { marked_up(name, trimmed, bytes) } else { plain(trimmed, &text) }
}

/// Markup: a score, a saved page, or something else.
fn marked_up(name: &str, text: &str, bytes: &[u8]) -> Result<InFile, BringError> {
    match root(text).to_ascii_lowercase().as_str() {
        "score-partwise" | "score-timewise" => score_of(name, bytes).map(InFile::Piece),
        "html" => page(text),
        // A container that lost its archive, a drawing, any other markup.
        other => Err(BringError::Other(OtherKind::Xml(other.to_string()))),
    }
}

fn score_of(name: &str, bytes: &[u8]) -> Result<Brought, BringError> {
    let text = decoded(bytes).ok_or(BringError::Other(OtherKind::Unknown))?;
    let read = score::read(&text)?;
    let title = read.piece.title.clone();
    let mut brought = sketch::of_piece(read.piece, FileKind::Score, Timing::Exact, name)?;
    if let Some(link) = read.kept {
        kept::restore(&mut brought, &link, &title);
    }
    Ok(brought)
}

/// The name of the outermost element.
fn root(text: &str) -> &str {
    let mut rest = text;
    loop {
        let Some(at) = rest.find('<') else { return "" };
        rest = rest.get(at + 1..).unwrap_or_default();
        let end = if rest.starts_with("!--") {
            rest.find("-->")
        } else if rest.starts_with("!DOCTYPE") || rest.starts_with("!doctype") {
            // What a document type declares inside itself is passed over.
            let close = rest.find('>');
            match rest.find('[').filter(|open| close.is_some_and(|close| *open < close)) {
                Some(_) => rest.find("]>").or(rest.find(']')),
                None => close,
            }
        } else if rest.starts_with(['?', '!']) {
            rest.find('>')
        } else {
            let end = rest.find(|c: char| c.is_whitespace() || c == '>' || c == '/');
            let name = rest.get(..end.unwrap_or(rest.len())).unwrap_or_default();
            let local = name.rsplit(':').next().unwrap_or(name);
            return local.get(..local.len().min(40)).unwrap_or_default();
        };
        rest = end.and_then(|end| rest.get(end..)).unwrap_or_default();
    }
}

/// A page saved with something inside. Only the last such element is the page's own.
fn page(text: &str) -> Result<InFile, BringError> {
    let at = text.rfind(KEPT).ok_or(BringError::Other(OtherKind::Page))?;
    let rest = text.get(at..).unwrap_or_default();
    let rest = rest.split_once('>').map_or("", |(_, rest)| rest);
    let link = rest.split('<').next().unwrap_or_default().trim();
    if link.is_empty() {
        return Err(BringError::EmptyPage);
    }
    Ok(held(FileKind::Page, open(link).map_err(BringError::Link)?))
}

/// A link, several, or text in our form.
fn plain(trimmed: &str, text: &str) -> Result<InFile, BringError> {
    let mut links = pasted(text);
    links.dedup();
    if links.len() > 1 {
        return Ok(InFile::Links(links));
    }
    let one_word = !trimmed.contains(char::is_whitespace);
    match open(trimmed) {
        Ok(linked) => return Ok(held(FileKind::Link, linked)),
        // A bass of one note, such as F#3, is no link.
        Err(LinkError::Empty | LinkError::Foreign) => {}
        Err(error) if one_word && trimmed.contains('#') => return Err(BringError::Link(error)),
        Err(_) => {}
    }
    let read = from_text(text);
    let unread =
        read.remarks.iter().filter(|remark| matches!(remark.kind, SheetTrouble::Bass(_))).count();
    // Words among which a few happen to be letters are no bass.
    if read.sketch.notes.len() <= unread && (unread > 0 || read.sketch == Sketch::default()) {
        // A greeting around a link.
        let link = links.first().ok_or(BringError::Other(OtherKind::Text))?;
        return Ok(held(FileKind::Link, open(link).map_err(BringError::Link)?));
    }
    let remarks = read.remarks.into_iter().map(BringRemark::Text).collect();
    Ok(InFile::Piece(Brought { remarks, ..alone(FileKind::Text, read.sketch) }))
}

fn held(kind: FileKind, linked: Linked) -> InFile {
    match linked {
        Linked::Sketch(sketch) => InFile::Piece(alone(kind, sketch)),
        lesson => InFile::Lesson(Box::new(lesson)),
    }
}

fn alone(kind: FileKind, sketch: Sketch) -> Brought {
    let parts = vec![BroughtPart { name: PartName::Named(String::new()), sketch }];
    Brought { kind, parts, lowest: 0, remarks: Vec::new() }
}

/// Formats that say at once what they are.
fn signed(bytes: &[u8]) -> Option<OtherKind> {
    let signs: [(&[u8], OtherKind); 11] = [
        (b"%PDF", OtherKind::Pdf),
        (b"\x89PNG", OtherKind::Picture),
        (b"\xFF\xD8\xFF", OtherKind::Picture),
        (b"GIF8", OtherKind::Picture),
        (b"BM", OtherKind::Picture),
        (b"ID3", OtherKind::Sound),
        (b"\xFF\xFB", OtherKind::Sound),
        (b"OggS", OtherKind::Sound),
        (b"fLaC", OtherKind::Sound),
        (b"RIFF", OtherKind::Sound),
        (b"FORM", OtherKind::Sound),
    ];
    let found = signs.into_iter().find(|(sign, _)| bytes.starts_with(sign))?.1;
    // Two letters may open a text; pictures hold bytes that no text does.
    (!bytes.starts_with(b"BM") || bytes.contains(&0)).then_some(found)
}

/// The file as text: UTF-8, UTF-16 by its mark, else one byte a character. `None`
/// where zeros show that it is no text.
fn decoded(bytes: &[u8]) -> Option<String> {
    let wide = |bytes: &[u8], unit: fn([u8; 2]) -> u16| {
        let units = bytes.chunks_exact(2).map(|pair| match pair {
            &[a, b] => unit([a, b]),
            _ => 0,
        });
        char::decode_utf16(units).map(|c| c.unwrap_or('\u{FFFD}')).collect::<String>()
    };
    let text = match bytes {
        [0xFF, 0xFE, rest @ ..] => wide(rest, u16::from_le_bytes),
        [0xFE, 0xFF, rest @ ..] => wide(rest, u16::from_be_bytes),
        [0xEF, 0xBB, 0xBF, rest @ ..] => String::from_utf8_lossy(rest).into_owned(),
        _ => match std::str::from_utf8(bytes) {
            Ok(text) => text.to_string(),
            Err(_) => bytes.iter().map(|&byte| char::from(byte)).collect(),
        },
    };
    (!text.contains('\0')).then_some(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_outermost_element_is_found() {
        for (text, name) in [
            ("<a/>", "a"),
            ("<?xml version='1.0'?><!-- <b> --><c d='e'>", "c"),
            ("<!DOCTYPE x [<!ENTITY y 'z'>]><m:score>", "score"),
            ("<!doctype html><html>", "html"),
            ("<", ""),
            ("<!--", ""),
            ("<!DOCTYPE", ""),
        ] {
            assert_eq!(root(text), name, "{text}");
        }
    }
}
