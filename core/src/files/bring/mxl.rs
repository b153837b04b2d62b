//! Packed scores: a ZIP archive whose container names the score within it.
//! Format: W3C, *MusicXML 4.0*, "Compressed .mxl files".

use super::score::attribute;
use super::{BringError, MAX_FILE};
use quick_xml::Reader;
use quick_xml::events::Event;
use std::io::{Cursor, Read, Write};
use zip::write::{SimpleFileOptions, ZipWriter};
use zip::{CompressionMethod, ZipArchive};

const CONTAINER: &str = "META-INF/container.xml";
const MIMETYPE: &str = "application/vnd.recordare.musicxml";
/// A container names a handful of files.
const MAX_CONTAINER: usize = 64 * 1024;

/// The score in an archive, unpacked.
pub(super) fn unpack(bytes: &[u8]) -> Result<Vec<u8>, BringError> {
    let mut archive = ZipArchive::new(Cursor::new(bytes)).map_err(|_| BringError::BrokenPack)?;
    let named = match entry(&mut archive, CONTAINER, MAX_CONTAINER) {
        Ok(container) => root_file(&String::from_utf8_lossy(&container)),
        Err(_) => None,
    };
    let found = named.filter(|name| archive.index_for_name(name).is_some()).or_else(|| {
        let mut names = archive.file_names().filter(|name| is_score(name));
        names.next().map(str::to_string)
    });
    let name = found.ok_or(BringError::NoScoreInPack)?;
    entry(&mut archive, &name, MAX_FILE)
}

fn is_score(name: &str) -> bool {
    let lower = name.to_ascii_lowercase();
    let ending = lower.ends_with(".musicxml") || lower.ends_with(".xml");
    ending && !lower.starts_with("meta-inf/") && !lower.starts_with("__macosx/")
}

/// One file of an archive, if it is not longer than `most`, whatever it says of itself.
fn entry(
    archive: &mut ZipArchive<Cursor<&[u8]>>,
    name: &str,
    most: usize,
) -> Result<Vec<u8>, BringError> {
    let file = archive.by_name(name).map_err(|_| BringError::BrokenPack)?;
    let mut bytes = Vec::new();
    let read = file.take(most as u64 + 1).read_to_end(&mut bytes);
    if bytes.len() > most {
        return Err(BringError::PackTooLarge);
    }
    read.map(|_| bytes).map_err(|_| BringError::BrokenPack)
}

/// The first score a container names.
fn root_file(container: &str) -> Option<String> {
    let mut reader = Reader::from_str(container);
    loop {
        match reader.read_event() {
            Ok(Event::Start(it) | Event::Empty(it)) if it.local_name().as_ref() == "rootfile" => {
                return attribute(&it, "full-path");
            }
            Ok(Event::Eof) | Err(_) => return None,
            Ok(_) => {}
        }
    }
}

/// A score packed into an archive. The same score gives the same bytes.
pub(crate) fn pack(score: &str) -> Vec<u8> {
    // Writing to memory has no way to fail.
    let packed = try_pack(score);
    debug_assert!(packed.is_ok());
    packed.unwrap_or_default()
}

fn try_pack(score: &str) -> zip::result::ZipResult<Vec<u8>> {
    let container = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
        <container><rootfiles><rootfile full-path=\"score.musicxml\"/></rootfiles></container>\n";
    let mut archive = ZipWriter::new(Cursor::new(Vec::new()));
    let plain = SimpleFileOptions::default().compression_method(CompressionMethod::Stored);
    let deflated = SimpleFileOptions::default().compression_method(CompressionMethod::Deflated);
    archive.start_file("mimetype", plain)?;
    archive.write_all(MIMETYPE.as_bytes())?;
    archive.start_file(CONTAINER, deflated)?;
    archive.write_all(container.as_bytes())?;
    archive.start_file("score.musicxml", deflated)?;
    archive.write_all(score.as_bytes())?;
    Ok(archive.finish()?.into_inner())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_packed_is_unpacked() {
        let score = "<score-partwise/>".repeat(200);
        let packed = pack(&score);
        assert!(packed.len() < score.len());
        assert_eq!(unpack(&packed), Ok(score.into_bytes()));
    }

    #[test]
    fn a_pack_that_is_cut_changed_or_empty_is_told() {
        let packed = pack("<score-partwise/>");
        for end in 0..packed.len() {
            assert!(unpack(&packed[..end]).is_err(), "{end}");
        }
        for at in 0..packed.len() {
            let mut changed = packed.clone();
            changed[at] ^= 0x55;
            // Any answer but a panic: some bytes are the time or a comment.
            let _ = unpack(&changed);
        }
        let empty = ZipWriter::new(Cursor::new(Vec::new())).finish();
        let empty = empty.map(Cursor::into_inner).unwrap_or_default();
        assert_eq!(unpack(&empty), Err(BringError::NoScoreInPack));
    }

    #[test]
    fn a_bomb_is_refused() {
        let bomb = pack(&" ".repeat(MAX_FILE + 1));
        assert!(bomb.len() < 200_000);
        assert_eq!(unpack(&bomb), Err(BringError::PackTooLarge));
    }
}
