//! What is wrong with a link or a file, in sentences.

use super::Lang;
use crate::files::{
    BringError, BringRemark, FileKind, LinkError, MAX_FILE, MAX_NOTES, OtherKind, PartName,
    SheetTrouble,
};

/// Why a link could not be opened, and what to do, in one or two sentences.
pub fn link_error(error: LinkError, lang: Lang) -> &'static str {
    match (lang, error) {
        (_, LinkError::Empty) => "This link holds no piece.",
        (_, LinkError::Foreign) => "This link was not made here, so it holds no piece.",
        (_, LinkError::Newer) => {
            "This link was made by a newer version of this page. Open it with that version."
        }
        (_, LinkError::CutShort) => {
            "This link is cut short: its end is missing. Copy it again in full."
        }
        (_, LinkError::Damaged) => {
            "This link was changed on the way and cannot be trusted. Copy it again."
        }
        (_, LinkError::TooLong) => "This link is longer than any piece needs.",
    }
}

/// What is wrong with a piece of text that was to be read as a sketch.
pub fn sheet_trouble(trouble: SheetTrouble, lang: Lang) -> String {
    match (lang, trouble) {
        (_, SheetTrouble::Bass(trouble)) => super::text_trouble(trouble, lang),
        (_, SheetTrouble::Pin) => {
            "A fixed soprano note is written as the bass note's number and the pitch, as in 5:F4."
                .to_string()
        }
        (_, SheetTrouble::PinBeyond) => {
            "The bass has no note of this number to fix a soprano over.".to_string()
        }
        (_, SheetTrouble::Settings(error)) => {
            let why = link_error(error, lang).replace("This link", "This line of settings");
            format!("{why} The notes are read without it.")
        }
        (_, SheetTrouble::OtherBass) => {
            "These settings were made for a bass of another length; what they say of single \
             notes is left out."
                .to_string()
        }
    }
}

/// What a part of a score or a MIDI file is called.
pub fn part_name(name: &PartName, lang: Lang) -> String {
    let named = |name: &str| if name.is_empty() { "Part" } else { name }.to_string();
    match (lang, name) {
        (_, PartName::Named(name)) => named(name),
        (_, PartName::Staff(name, staff)) => format!("{}, staff {staff}", named(name)),
        (_, PartName::Channel(name, channel)) => {
            format!("{}, channel {channel}", named(name))
        }
        (_, PartName::All) => "The lowest note of all parts".to_string(),
    }
}

/// What could not be taken from a file that was read otherwise.
pub fn bring_remark(remark: &BringRemark, lang: Lang) -> String {
    match (lang, remark) {
        (_, BringRemark::Shortened) => {
            format!(
                "The file has more than {MAX_NOTES} bass notes; the first {MAX_NOTES} are taken."
            )
        }
        (lang, BringRemark::Text(remark)) => sheet_trouble(remark.kind, lang),
    }
}

/// Why a file was not taken: what was expected and what was found.
pub fn bring_error(error: &BringError, lang: Lang) -> String {
    const EXPECTED: &str = "A MusicXML score, a MIDI file, a bass as text, a saved page or a link \
                            was expected";
    let megabytes = MAX_FILE / (1024 * 1024);
    let found = match (lang, error) {
        (_, BringError::Empty) => "and the file is empty",
        (_, BringError::TooLarge) => {
            return format!("{EXPECTED}, and the file is larger than {megabytes} MB.");
        }
        (_, BringError::Other(other)) => {
            return format!("{EXPECTED}, and the file holds {}.", other_kind(other));
        }
        (_, BringError::BrokenScore(line)) => {
            return format!(
                "A whole MusicXML score was expected, and this one breaks off or is damaged at \
                 line {line}."
            );
        }
        (_, BringError::TooDeep) => {
            return "A MusicXML score was expected, and the file nests its elements deeper than \
                    any score does."
                .to_string();
        }
        (_, BringError::BrokenPack) => {
            return "A packed score (.mxl) was expected, and the archive is damaged.".to_string();
        }
        (_, BringError::NoScoreInPack) => {
            return "A packed score (.mxl) was expected, and the archive holds no score."
                .to_string();
        }
        (_, BringError::PackTooLarge) => {
            return format!(
                "A packed score (.mxl) was expected, and this one unpacks to more than \
                 {megabytes} MB."
            );
        }
        (_, BringError::BrokenMidi) => {
            return "A MIDI file was expected, and this one is damaged.".to_string();
        }
        (_, BringError::NoNotes(FileKind::Midi)) => {
            return "Notes were expected, and the MIDI file holds none.".to_string();
        }
        (_, BringError::NoNotes(_)) => {
            return "Notes were expected, and the score holds none.".to_string();
        }
        (_, BringError::EmptyPage) => {
            return "A page saved with a piece was expected, and this one holds none.".to_string();
        }
        (lang, BringError::Link(error)) => return link_error(*error, lang).to_string(),
    };
    format!("{EXPECTED}, {found}.")
}

fn other_kind(other: &OtherKind) -> String {
    match other {
        OtherKind::Picture => "a picture".to_string(),
        OtherKind::Pdf => "a PDF document".to_string(),
        OtherKind::Sound => "recorded sound".to_string(),
        OtherKind::Page => "a web page of something else".to_string(),
        OtherKind::Xml(name) if name.is_empty() => "markup without an element".to_string(),
        OtherKind::Xml(name) => format!("XML that begins with <{name}>"),
        OtherKind::Text => "text in which no bass can be found".to_string(),
        OtherKind::Unknown => "data of no kind that is known here".to_string(),
    }
}
