//! One file of a folder: read, realised and written out in every form asked for.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, anyhow};
use tastata::files::{self, MidiForm, Wav, midi, musicxml, read_file};
use tastata::lesson::{self, Ask, MotionLimit};
use tastata::reading::{Reading, read};
use tastata::roll::Micros;
use tastata::sheet::{self, SheetWishes, Soprano};
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

    let link = link(&sketch, options);
    let pages = sheet::pages(&sketch, &reading, &wishes(options, &link));
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

fn wishes(options: &BatchOptions, link: &str) -> SheetWishes {
    SheetWishes {
        paper: options.paper,
        task: options.task.clone(),
        soprano: options.soprano,
        answer: options.answer,
        // Without the place of the page a code would lead nowhere.
        qr: options.page.is_some().then(|| link.to_string()),
        ..SheetWishes::default()
    }
}

/// The link to a finished piece, or to an exercise that asks for its soprano.
fn link(sketch: &Sketch, options: &BatchOptions) -> String {
    let fragment = match options.soprano {
        Soprano::Shown => files::encode(sketch),
        Soprano::Blank => {
            let ask = Ask::Soprano { position: None, motions: MotionLimit::Any };
            let mut exercise = lesson::make(sketch, vec![ask]);
            exercise.task.clone_from(&options.task);
            let title = sketch.title.clone();
            files::encode_set(&lesson::Set { title, exercises: vec![exercise] })
        }
    };
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
