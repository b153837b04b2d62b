//! Packed scores: a ZIP archive whose container names the score within it.
//! Format: W3C, *MusicXML 4.0*, "Compressed .mxl files".

use super::score::attribute;
use super::{BringError, MAX_FILE};
use flate2::Compression;
use flate2::bufread::DeflateDecoder;
use flate2::write::DeflateEncoder;
use quick_xml::Reader;
use quick_xml::events::Event;
use rawzip::{CompressionMethod, ZipArchive, ZipArchiveEntryWayfinder, ZipArchiveWriter};
use std::io::{Read, Write};

const CONTAINER: &str = "META-INF/container.xml";
const MIMETYPE: &str = "application/vnd.recordare.musicxml";
/// A container names a handful of files.
const MAX_CONTAINER: usize = 64 * 1024;
/// More files than a packed score has, with all its pictures.
const MAX_ENTRIES: usize = 1_000;

/// The score in an archive, unpacked.
pub(super) fn unpack(bytes: &[u8]) -> Result<Vec<u8>, BringError> {
    let entries = entries(bytes)?;
    let find = |name: &str| entries.iter().find(|entry| entry.name == name);
    let named = find(CONTAINER)
        .and_then(|container| unpacked(bytes, container, MAX_CONTAINER).ok())
        .and_then(|container| root_file(&String::from_utf8_lossy(&container)));
    let found = named.and_then(|name| find(&name));
    let found = found.or_else(|| entries.iter().find(|entry| is_score(&entry.name)));
    unpacked(bytes, found.ok_or(BringError::NoScoreInPack)?, MAX_FILE)
}

/// A file of an archive and where it is.
struct Entry {
    name: String,
    method: CompressionMethod,
    place: ZipArchiveEntryWayfinder,
}

fn entries(bytes: &[u8]) -> Result<Vec<Entry>, BringError> {
    let archive = ZipArchive::from_slice(bytes).map_err(|_| BringError::BrokenPack)?;
    let mut listed = archive.entries();
    let mut entries = Vec::new();
    while let Some(entry) = listed.next_entry().map_err(|_| BringError::BrokenPack)? {
        if entries.len() >= MAX_ENTRIES {
            return Err(BringError::BrokenPack);
        }
        entries.push(Entry {
            name: String::from_utf8_lossy(entry.file_path().as_ref()).into_owned(),
            method: entry.compression_method(),
            place: entry.wayfinder(),
        });
    }
    Ok(entries)
}

/// One file of an archive, if it is not longer than `most`, whatever it says of itself.
fn unpacked(bytes: &[u8], entry: &Entry, most: usize) -> Result<Vec<u8>, BringError> {
    let archive = ZipArchive::from_slice(bytes).map_err(|_| BringError::BrokenPack)?;
    let file = archive.get_entry(entry.place).map_err(|_| BringError::BrokenPack)?;
    let data = file.data();
    let mut out = Vec::new();
    let most_read = most as u64 + 1;
    // Length and checksum are checked at the end, which a longer file never reaches.
    let read = match entry.method {
        CompressionMethod::STORE => {
            file.verifying_reader(data).take(most_read).read_to_end(&mut out)
        }
        CompressionMethod::DEFLATE => {
            let inflated = file.verifying_reader(DeflateDecoder::new(data));
            inflated.take(most_read).read_to_end(&mut out)
        }
        _ => return Err(BringError::BrokenPack),
    };
    if out.len() > most {
        return Err(BringError::PackTooLarge);
    }
    read.map(|_| out).map_err(|_| BringError::BrokenPack)
}

fn is_score(name: &str) -> bool {
    let lower = name.to_ascii_lowercase();
    let ending = lower.ends_with(".musicxml") || lower.ends_with(".xml");
    ending && !lower.starts_with("meta-inf/") && !lower.starts_with("__macosx/")
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

fn try_pack(score: &str) -> Result<Vec<u8>, rawzip::Error> {
    let container = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
        <container><rootfiles><rootfile full-path=\"score.musicxml\"/></rootfiles></container>\n";
    let mut out = Vec::new();
    let mut archive = ZipArchiveWriter::new(&mut out);
    let files = [("mimetype", MIMETYPE), (CONTAINER, container), ("score.musicxml", score)];
    for (name, content) in files {
        // What the archive is stands readable at its beginning.
        let method =
            if name == "mimetype" { CompressionMethod::STORE } else { CompressionMethod::DEFLATE };
        let (mut entry, config) = archive.new_file(name).compression_method(method).start()?;
        if method == CompressionMethod::STORE {
            let mut writer = config.wrap(&mut entry);
            writer.write_all(content.as_bytes())?;
            let (_, described) = writer.finish()?;
            entry.finish(described)?;
        } else {
            let mut writer = config.wrap(DeflateEncoder::new(&mut entry, Compression::default()));
            writer.write_all(content.as_bytes())?;
            let (encoder, described) = writer.finish()?;
            encoder.finish()?;
            entry.finish(described)?;
        }
    }
    archive.finish()?;
    Ok(out)
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
        let mut empty = Vec::new();
        assert!(ZipArchiveWriter::new(&mut empty).finish().is_ok());
        assert_eq!(unpack(&empty), Err(BringError::NoScoreInPack));
    }

    #[test]
    fn a_bomb_is_refused() {
        let bomb = pack(&" ".repeat(MAX_FILE + 1));
        assert!(bomb.len() < 200_000);
        assert_eq!(unpack(&bomb), Err(BringError::PackTooLarge));
    }
}
