//! The batch command: a folder of basses in every form becomes sheets, scores, MIDI
//! files, links and sound, and a bad file does not stop the good ones.

use anyhow::{Context, Result};
use std::fs;
use std::path::Path;
use std::process::{Command, Output};
use tastata::files::{Linked, MidiForm, decode, from_text, midi, mxl, open};
use tastata::reading::read;
use tastata_tests::workspace;

const BASS: &str = "D minor: D3 C#3:6 D3 G2:6/5 A2:4-3 D2";

fn batch(arguments: &[&str], folder: &Path) -> Result<Output> {
    Command::new(env!("CARGO"))
        .current_dir(workspace())
        .args(["run", "--quiet", "--release", "--package", "tastata-www", "--", "batch"])
        .arg(folder)
        .args(arguments)
        .output()
        .context("The command could not be started")
}

fn folder_of_basses() -> Result<tempfile::TempDir> {
    let folder = tempfile::tempdir()?;
    let mut sketch = from_text(BASS).sketch;
    sketch.title = "Tea".to_string();
    let reading = read(&sketch);
    fs::write(folder.path().join("a.txt"), BASS)?;
    fs::write(folder.path().join("b.mxl"), mxl(&sketch, &reading))?;
    fs::write(folder.path().join("c.mid"), midi(&sketch, &reading, MidiForm::Blocks))?;
    fs::write(folder.path().join("a.png"), b"\x89PNG\r\n\x1a\n")?;
    fs::write(folder.path().join(".hidden"), "C3")?;
    Ok(folder)
}

#[test]
fn a_folder_becomes_sheets_and_a_bad_file_is_told() -> Result<()> {
    let folder = folder_of_basses()?;
    let out = folder.path().join("sheets");
    let done = batch(&["--paper", "letter", "--wav"], folder.path())?;
    let (said, told) = (String::from_utf8(done.stdout)?, String::from_utf8(done.stderr)?);
    assert!(!done.status.success());
    assert!(said.contains("3 of 4 files turned"), "{said}{told}");
    assert!(told.contains("a.png: ") && told.contains("a picture"), "{told}");
    let mut names: Vec<String> = fs::read_dir(&out)?
        .map(|entry| Ok(entry?.file_name().to_string_lossy().into_owned()))
        .collect::<Result<_>>()?;
    names.sort();
    let mut expected = vec!["links.txt".to_string()];
    for stem in ["a-2", "b", "c"] {
        for ending in ["-1.svg", ".html", ".mid", ".musicxml", ".wav"] {
            expected.push(format!("{stem}{ending}"));
        }
    }
    expected.sort();
    assert_eq!(names, expected);
    let svg = fs::read_to_string(out.join("a-2-1.svg"))?;
    let document = roxmltree::Document::parse(&svg)?;
    assert_eq!(document.root_element().attribute("width"), Some("215.9mm"));
    let wav = fs::read(out.join("b.wav"))?;
    assert!(wav.starts_with(b"RIFF") && wav.len() > 500_000, "{} bytes", wav.len());
    let links = fs::read_to_string(out.join("links.txt"))?;
    let links: Vec<(&str, &str)> = links.lines().filter_map(|it| it.split_once('\t')).collect();
    assert_eq!(
        links.iter().map(|(name, _)| *name).collect::<Vec<_>>(),
        ["a.txt", "b.mxl", "c.mid"]
    );
    for (name, link) in links {
        let notes = decode(link).map_err(|error| anyhow::anyhow!("{error:?}"))?.notes;
        // A MIDI file strikes a bass anew for each stage of its figures.
        assert_eq!(notes.len(), if name == "c.mid" { 7 } else { 6 });
    }
    Ok(())
}

#[test]
fn sheets_to_fill_in_come_with_exercise_links() -> Result<()> {
    let folder = folder_of_basses()?;
    fs::remove_file(folder.path().join("a.png"))?;
    let out = tempfile::tempdir()?;
    let arguments =
        ["--blank", "--answer", "--page", "https://example.org/t.html", "--task", "Set it."];
    let place = out.path().to_string_lossy().into_owned();
    let done = batch(&[&arguments[..], &["-o", &place]].concat(), folder.path())?;
    assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
    let links = fs::read_to_string(out.path().join("links.txt"))?;
    let (_, link) = links.lines().next().and_then(|it| it.split_once('\t')).context("a link")?;
    assert!(link.starts_with("https://example.org/t.html#"));
    match open(link).map_err(|error| anyhow::anyhow!("{error:?}"))? {
        Linked::Set(set) => assert_eq!(set.exercises[0].task, "Set it."),
        other => panic!("{other:?}"),
    }
    let page = fs::read_to_string(out.path().join("b-1.svg"))?;
    assert!(page.contains("crispEdges") && page.contains("Set it.") && page.contains(">Tea<"));
    assert!(!page.contains("data-part=\"soprano\""));
    assert!(fs::read_to_string(out.path().join("b-2.svg"))?.contains("data-part=\"soprano\""));
    Ok(())
}
