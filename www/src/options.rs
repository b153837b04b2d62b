//! What can be said on the command line, read into plain data. Every mistake is answered with one
//! sentence that names the word it is about.

use std::ffi::OsString;
use std::path::PathBuf;

use lexopt::prelude::*;

use crate::batch::{self, BatchOptions};

/// The text of `--help`.
pub(crate) const HELP: &str = "\
Packs Tastata into one HTML file and serves it on this machine.

    cargo run --release                 pack, serve, open a browser if there is one
    cargo run --release -- [OPTIONS]
    cargo run --release -- batch FOLDER [OPTIONS]
                                        turn a folder of basses into sheets, scores, MIDI files and
                                        links (batch --help tells more)
    cargo run --release -- library [-o FOLDER]
                                        write the library for other pages, into www/out/library
    cargo run --release -- site [-o FOLDER]
                                        write the page as a site that can be installed, for a server
                                        of files, into www/out/site

    -o, --out FILE    write the page to FILE instead of www/out/tastata.html
    -p, --port PORT   serve on PORT (0 takes any free one) instead of the first free from 8693
        --no-serve    write the page and stop
        --no-open     serve, but open no browser
    -h, --help        show this text
";

/// What is asked for.
#[derive(Debug, PartialEq)]
pub(crate) enum Command {
    /// Print [`HELP`].
    Help,
    /// Print [`batch::HELP`].
    BatchHelp,
    /// Turn a folder of basses.
    Batch(BatchOptions),
    /// Write the library for the pages of others, into this folder or the usual one.
    Library(Option<PathBuf>),
    /// Write the page as a site that can be installed, into this folder or the usual one.
    Site(Option<PathBuf>),
    /// Pack the page.
    Pack(Options),
}

/// How to pack.
#[derive(Debug, PartialEq)]
pub(crate) struct Options {
    /// The file to write; the usual place when absent.
    pub(crate) out: Option<PathBuf>,
    /// How to serve the page; absent when it is only written.
    pub(crate) serving: Option<Serving>,
}

/// How to serve.
#[derive(Debug, PartialEq)]
pub(crate) struct Serving {
    /// The port asked for; the first free one from the usual when absent.
    pub(crate) port: Option<u16>,
    /// What to open once the page is served.
    pub(crate) opening: Opening,
}

/// What to open once the page is served.
#[derive(Debug, PartialEq)]
pub(crate) enum Opening {
    /// The browser of the desktop, if there is one.
    Browser,
    /// Nothing.
    Nothing,
}

/// Reads the arguments after the program's name, or says in a sentence what is wrong with them.
pub(crate) fn read(args: impl IntoIterator<Item = OsString>) -> Result<Command, String> {
    let mut parser = lexopt::Parser::from_args(args);
    let mut first = true;
    let (mut out, mut port, mut opening, mut serves) = (None, None, Opening::Browser, true);
    while let Some(arg) = parser.next().map_err(say)? {
        let opens = std::mem::replace(&mut first, false);
        match arg {
            Value(word) if opens && word == "batch" => {
                let options = batch::read(&mut parser)?;
                return Ok(options.map_or(Command::BatchHelp, Command::Batch));
            }
            Value(word) if opens && word == "library" => {
                return folder(&mut parser, "library", Command::Library);
            }
            Value(word) if opens && word == "site" => {
                return folder(&mut parser, "site", Command::Site);
            }
            Short('h') | Long("help") => return Ok(Command::Help),
            Short('o') | Long("out") => {
                let file = parser
                    .value()
                    .ok()
                    .filter(|file| !file.is_empty())
                    .ok_or("--out needs the name of a file after it.")?;
                out = Some(PathBuf::from(file));
            }
            Short('p') | Long("port") => {
                let value = parser.value().map_err(|_| "--port needs a number after it.")?;
                let number = value.to_str().and_then(|text| text.parse().ok());
                let number = number.ok_or_else(|| {
                    format!(
                        "--port needs a number from 0 to 65535, and {} is not one.",
                        value.to_string_lossy()
                    )
                })?;
                port = Some(number);
            }
            Long("no-serve") => serves = false,
            Long("no-open") => opening = Opening::Nothing,
            Short(letter) => return Err(format!("-{letter} is not an option.")),
            Long(name) => return Err(format!("--{name} is not an option.")),
            Value(word) => {
                return Err(format!("{} was not expected.", word.to_string_lossy()));
            }
        }
    }
    if !serves && port.is_some() {
        return Err("--port and --no-serve exclude each other.".into());
    }
    Ok(Command::Pack(Options { out, serving: serves.then_some(Serving { port, opening }) }))
}

/// Reads the words after a command that takes a folder to write to and nothing else.
fn folder(
    parser: &mut lexopt::Parser,
    name: &str,
    command: fn(Option<PathBuf>) -> Command,
) -> Result<Command, String> {
    let mut out = None;
    while let Some(arg) = parser.next().map_err(say)? {
        match arg {
            Short('h') | Long("help") => return Ok(Command::Help),
            Short('o') | Long("out") => {
                let folder = parser.value().ok().filter(|folder| !folder.is_empty());
                out = Some(folder.ok_or("--out needs the name of a folder after it.")?.into());
            }
            Short(letter) => return Err(format!("-{letter} is not an option of {name}.")),
            Long(option) => return Err(format!("--{option} is not an option of {name}.")),
            Value(word) => {
                return Err(format!("{} was not expected.", word.to_string_lossy()));
            }
        }
    }
    Ok(command(out))
}

fn say(error: lexopt::Error) -> String {
    format!("The options cannot be read: {error}.")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(args: &str) -> Result<Command, String> {
        read(args.split_whitespace().map(OsString::from))
    }

    #[test]
    fn nothing_said_means_pack_serve_and_open() {
        let serving = Some(Serving { port: None, opening: Opening::Browser });
        assert_eq!(check(""), Ok(Command::Pack(Options { out: None, serving })));
    }

    #[test]
    fn every_option_is_heard() {
        let serving = Some(Serving { port: Some(0), opening: Opening::Nothing });
        let asked = Ok(Command::Pack(Options { out: Some("a.html".into()), serving }));
        assert_eq!(check("--out a.html --port 0 --no-open"), asked);
        assert_eq!(check("-o a.html -p0 --no-open"), asked);
        assert_eq!(check("--no-serve"), Ok(Command::Pack(Options { out: None, serving: None })));
        assert_eq!(check("--no-serve --help"), Ok(Command::Help));
        assert_eq!(check("library"), Ok(Command::Library(None)));
        assert_eq!(check("library -o a"), Ok(Command::Library(Some("a".into()))));
        assert_eq!(check("site"), Ok(Command::Site(None)));
        assert_eq!(check("site --out a"), Ok(Command::Site(Some("a".into()))));
    }

    #[test]
    fn a_mistake_is_named() {
        for (args, part) in [
            ("--port", "--port needs a number"),
            ("--port 70000", "70000 is not one"),
            ("--port x", "x is not one"),
            ("--out", "--out needs the name of a file"),
            ("--fast", "--fast is not an option"),
            ("-z", "-z is not an option"),
            ("page", "page was not expected"),
            ("--no-serve library", "library was not expected"),
            ("library --port 1", "--port is not an option of library"),
            ("site --port 1", "--port is not an option of site"),
            ("--no-serve=1", "The options cannot be read"),
            ("--no-serve --port 1", "exclude each other"),
        ] {
            match check(args) {
                Err(said) => assert!(said.contains(part), "{args}: {said}"),
                Ok(command) => panic!("{args} was taken as {command:?}"),
            }
        }
    }
}
