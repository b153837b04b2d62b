//! One file of a folder: read, realised and written out in every form asked for.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, anyhow};
use tastata::files::{MidiForm, Wav, midi, musicxml, read_file};
use tastata::reading::{Reading, read};
use tastata::roll::Micros;
use tastata::sheet::{self, SheetWishes};
use tastata::sketch::Sketch;
use tastata::sound::Renderer;
use tastata::words::{self, Lang};

use super::options::{BatchOptions, Sound};

/// Frames of sound a second, and in a slice.
const RATE: u32 = 48_000;
const SLICE: usize = 8192;

/// What became of a file.
pub(super) struct Turned {
    /// In a few words.
    pub(super) summary: String,
    /// What could not be taken from it.
    pub(super) remarks: Vec<String>,
    /// The link to the piece, or to the exercise.
    pub(super) link: String,
}

/// Turns one file; what is written has names that begin with `stem`.
pub(super) fn turn(file: &Path, out: &Path, stem: &str, options: &BatchOptions) -> Result<Turned> {
    let bytes = fs::read(file).context("The file cannot be read")?;
    let name = file.file_name().unwrap_or_default().to_string_lossy();
    let brought = read_file(&name, &bytes)
        .map_err(|error| anyhow!("{}", words::bring_error(&error, Lang::English)))?;
    let remarks = brought.remarks.iter();
    let remarks = remarks.map(|remark| words::bring_remark(remark, Lang::English)).collect();
    let mut sketch = brought.sketch();
    if sketch.title.trim().is_empty() {
        sketch.title = stem.to_string();
    }
    let reading = read(&sketch);

    let mut wishes = wishes(options);
    let link = link(&sheet::fragment(&sketch, &wishes), options);
    // Without the place of the page a code would lead nowhere.
    wishes.qr = options.page.is_some().then(|| link.clone());
    let pages = sheet::pages(&sketch, &reading, &wishes);
    let save = |ending: &str, bytes: &[u8]| {
        let path = out.join(format!("{stem}{ending}"));
        fs::write(&path, bytes).with_context(|| format!("{} cannot be written", path.display()))
    };
    for (number, page) in (1..).zip(&pages) {
        save(&format!("-{number}.svg"), page.as_bytes())?;
    }
    save(".html", sheet::document(&sketch.title, &pages, options.paper).as_bytes())?;
    save(".musicxml", musicxml(&sketch, &reading).as_bytes())?;
    save(".mid", &midi(&sketch, &reading, MidiForm::Performance))?;
    if options.sound == Sound::Wav {
        save(".wav", &wav(&sketch, &reading))?;
    }
    let notes = match sketch.notes.len() {
        1 => "1 bass note".to_string(),
        count => format!("{count} bass notes"),
    };
    let sheets = if pages.len() == 1 { "1 page" } else { &format!("{} pages", pages.len()) };
    Ok(Turned { summary: format!("{notes}, {sheets}"), remarks, link })
}

fn wishes(options: &BatchOptions) -> SheetWishes {
    SheetWishes {
        paper: options.paper,
        task: options.task.clone(),
        soprano: options.soprano,
        answer: options.answer,
        ..SheetWishes::default()
    }
}

fn link(fragment: &str, options: &BatchOptions) -> String {
    match &options.page {
        Some(page) => format!("{}#{fragment}", page.split('#').next().unwrap_or(page)),
        None => format!("#{fragment}"),
    }
}

fn wav(sketch: &Sketch, reading: &Reading) -> Vec<u8> {
    let mut renderer = Renderer::new(&reading.performance, &sketch.sound, RATE, Micros(0));
    let (mut left, mut right) = (vec![0.0; SLICE], vec![0.0; SLICE]);
    let mut wav = Wav::new(RATE);
    while renderer.render(&mut left, &mut right) {
        wav.push(&left, &right);
    }
    wav.finish()
}
