//! What can be said to the batch command.

use std::path::PathBuf;

use lexopt::prelude::*;
use tastata::sheet::Paper;

/// The text of `batch --help`.
pub(crate) const HELP: &str = "\
Turns a folder of basses into printed sheets, scores, MIDI files and links.

    cargo run --release -- batch FOLDER [OPTIONS]

FOLDER holds basses as text, MusicXML (.musicxml, .xml, .mxl), MIDI files, links or saved pages, in
any mixture. Each becomes NAME-1.svg, NAME-2.svg and so on (the pages), NAME.html (all pages, to be
printed from a browser), NAME.musicxml and NAME.mid; links.txt has a link for each.

    -o, --out FOLDER  write to this folder instead of FOLDER/sheets
        --paper NAME  a4 (as usual) or letter
        --task TEXT   print this under the title
        --blank       leave what stands above the bass to the student; the link is an exercise
        --answer      add the finished piece on pages of its own
        --wav         write the sound as NAME.wav too
        --page URL    where the page is kept: links begin with it, and a QR code is printed
    -h, --help        show this text
";

/// What to turn, and into what.
#[derive(Debug, PartialEq)]
pub(crate) struct BatchOptions {
    /// The folder of basses.
    pub(crate) folder: PathBuf,
    /// The folder to write to; one within the first when absent.
    pub(crate) out: Option<PathBuf>,
    /// The paper.
    pub(crate) paper: Paper,
    /// What is to be done; may be empty.
    pub(crate) task: String,
    /// What stands above the bass.
    pub(crate) soprano: tastata::sheet::Soprano,
    /// The answer.
    pub(crate) answer: tastata::sheet::AnswerPages,
    /// Whether sound is written.
    pub(crate) sound: Sound,
    /// Where the page is kept.
    pub(crate) page: Option<String>,
}

/// Whether sound is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Sound {
    /// As a WAV file.
    Wav,
    /// Not.
    None,
}

/// Reads the words after `batch`; `None` asks for [`HELP`].
pub(crate) fn read(parser: &mut lexopt::Parser) -> Result<Option<BatchOptions>, String> {
    let mut folder = None;
    let mut options = BatchOptions {
        folder: PathBuf::new(),
        out: None,
        paper: Paper::A4,
        task: String::new(),
        soprano: tastata::sheet::Soprano::Shown,
        answer: tastata::sheet::AnswerPages::LeftOut,
        sound: Sound::None,
        page: None,
    };
    let say = |error: lexopt::Error| format!("The options cannot be read: {error}.");
    while let Some(arg) = parser.next().map_err(say)? {
        match arg {
            Short('h') | Long("help") => return Ok(None),
            Short('o') | Long("out") => {
                let out = parser.value().ok().filter(|out| !out.is_empty());
                options.out = Some(out.ok_or("--out needs the name of a folder after it.")?.into());
            }
            Long("paper") => options.paper = paper(&word(parser, "--paper", "a4 or letter")?)?,
            Long("task") => options.task = word(parser, "--task", "a text")?,
            Long("page") => options.page = Some(word(parser, "--page", "an address")?),
            Long("blank") => options.soprano = tastata::sheet::Soprano::Blank,
            Long("answer") => options.answer = tastata::sheet::AnswerPages::Added,
            Long("wav") => options.sound = Sound::Wav,
            Short(letter) => return Err(format!("-{letter} is not an option of batch.")),
            Long(name) => return Err(format!("--{name} is not an option of batch.")),
            Value(value) if folder.is_none() => folder = Some(PathBuf::from(value)),
            Value(value) => {
                return Err(format!(
                    "One folder is turned at a time, and {} is another.",
                    value.to_string_lossy()
                ));
            }
        }
    }
    options.folder = folder.ok_or("batch needs the name of a folder of basses after it.")?;
    Ok(Some(options))
}

fn word(parser: &mut lexopt::Parser, option: &str, what: &str) -> Result<String, String> {
    let value = parser.value().map_err(|_| format!("{option} needs {what} after it."))?;
    Ok(value.to_string_lossy().into_owned())
}

fn paper(name: &str) -> Result<Paper, String> {
    match name.to_lowercase().as_str() {
        "a4" => Ok(Paper::A4),
        "letter" => Ok(Paper::Letter),
        _ => Err(format!("--paper is a4 or letter, and {name} is neither.")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(args: &str) -> Result<Option<BatchOptions>, String> {
        read(&mut lexopt::Parser::from_args(args.split_whitespace()))
    }

    #[test]
    fn every_option_is_heard() -> Result<(), String> {
        let options =
            said("in -o out --paper Letter --task Go --blank --answer --wav --page p.html")?;
        let options = options.ok_or("help")?;
        assert_eq!(options.folder, PathBuf::from("in"));
        assert_eq!(options.out, Some("out".into()));
        assert_eq!((options.paper, options.task.as_str()), (Paper::Letter, "Go"));
        assert_eq!(options.soprano, tastata::sheet::Soprano::Blank);
        assert_eq!(options.answer, tastata::sheet::AnswerPages::Added);
        assert_eq!((options.sound, options.page.as_deref()), (Sound::Wav, Some("p.html")));
        assert_eq!(said("in --help")?, None);
        Ok(())
    }

    #[test]
    fn a_mistake_is_named() {
        for (args, part) in [
            ("", "needs the name of a folder"),
            ("a b", "b is another"),
            ("a --paper a3", "a3 is neither"),
            ("a --out", "--out needs"),
            ("a --fast", "--fast is not an option of batch"),
            ("a -x", "-x is not an option of batch"),
        ] {
            match said(args) {
                Err(error) => assert!(error.contains(part), "{args}: {error}"),
                Ok(options) => panic!("{args} was taken as {options:?}"),
            }
        }
    }
}
