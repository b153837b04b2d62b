//! The page as a file: it runs when served by the packer, when opened from a copy a browser saved in
//! the middle of use, and it asks nobody for anything.

use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, Command, Stdio};

use anyhow::{Context, Result, ensure};
use serde_json::json;
use sha2::{Digest, Sha256};
use tastata::bass::read_bass;
use tastata::files::{MidiForm, Wav, encode, midi};
use tastata::reading::read;
use tastata::roll::Micros;
use tastata::sketch::Sketch;
use tastata::sound::Renderer;
use tastata_tests::{Browser, Engine, Need, made, page, workspace};

/// A copy of what a browser holds, as its own saving writes it.
fn save(browser: &Browser, name: &str) -> Result<std::path::PathBuf> {
    let html = browser.eval("'<!DOCTYPE html>' + document.documentElement.outerHTML")?;
    let file = made(&format!("{name}.html"));
    std::fs::write(&file, html.as_str().context("No page")?)?;
    Ok(file)
}

#[test]
fn a_copy_saved_by_the_browser_starts_like_the_original() -> Result<()> {
    let engine = Engine::asked();
    if engine.is_skipped() {
        return Ok(());
    }
    let notes =
        "[...document.querySelectorAll('#staff .note title')].map(t => t.textContent).join()";
    let browser = Browser::start(engine)?;
    browser.open_page(page()?, "")?;
    let shown = browser.eval(notes)?;
    // In use: a chord chosen, a sheet open, a part folded.
    browser.click("#staff [data-part=bass][data-chord='1']")?;
    browser.click("#fold")?;
    browser.click("#share")?;
    let heard = browser.complaints()?;
    ensure!(heard.is_empty(), "{heard:#?}");

    // Opened where nothing is kept, it starts like the original.
    let copy = save(&browser, "saved")?;
    browser.run("localStorage.clear();", &json!([]))?;
    browser.open_page(&copy, "")?;
    ensure!(browser.eval(notes)? == shown, "The saved copy shows another staff");
    for (what, holds) in [
        ("no sheet is open", "!document.querySelector('dialog[open]')"),
        ("no chord is chosen", "document.getElementById('card').hidden"),
        (
            "the staff is drawn once",
            "new Set([...document.querySelectorAll('[id]')].map(e => e.id)).size === document.querySelectorAll('[id]').length",
        ),
        (
            "no list is filled twice",
            "[...document.querySelectorAll('select')].every(s => new Set([...s.options].map(o => o.value)).size === s.options.length)",
        ),
    ] {
        ensure!(browser.eval(holds)? == true, "Not so in the saved copy: {what}");
    }
    // And it works.
    browser.click("#clear")?;
    browser.wait_for("document.querySelectorAll('#staff [data-part=soprano]').length === 0")
}

/// A piece of our own, as a link, and its sound and MIDI files as the core writes them.
fn piece() -> (String, Vec<u8>, Vec<u8>) {
    let bass = read_bass("D minor: D3 C#3:6 D3 G2:6/5 A2:4-3 D2", None);
    let notes = bass.notes.iter().map(|note| note.to_sketch()).collect();
    let title = "Kept & <saved>".to_string();
    let mut sketch = Sketch { title, tonality: bass.tonality, notes, ..Sketch::default() };
    sketch.roll.times = 1;
    let reading = read(&sketch);
    let mut renderer = Renderer::new(&reading.performance, &sketch.sound, 44_100, Micros(0));
    let mut wav = Wav::new(44_100);
    // A quarter of a second at a time, as the page does, so that both end alike.
    let (mut left, mut right) = (vec![0.0; 11_025], vec![0.0; 11_025]);
    loop {
        let more = renderer.render(&mut left, &mut right);
        wav.push(&left, &right);
        if !more {
            break;
        }
    }
    (encode(&sketch), wav.finish(), midi(&sketch, &reading, MidiForm::Performance))
}

fn hash(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}

/// Takes hold of what the page hands over as files, in place of the browser's downloading.
const CATCH: &str = "
  window.caught = [];
  const make = URL.createObjectURL;
  URL.createObjectURL = blob => { window.caught.push(blob); return make.call(URL, blob); };
  HTMLAnchorElement.prototype.click = () => {};";

/// The hashes of the sound and the MIDI file that the page makes.
fn replay(browser: &Browser) -> Result<serde_json::Value> {
    browser.run(CATCH, &json!([]))?;
    for id in ["take-sound", "take-midi"] {
        let count = browser.eval("caught.length")?.as_u64().unwrap_or_default();
        browser.run("document.getElementById(arguments[0]).click()", &json!([id]))?;
        browser.wait_for(&format!("caught.length > {count}"))?;
    }
    browser.run_async(
        "return Promise.all(caught.map(async blob => {
           const hash = await crypto.subtle.digest('SHA-256', await blob.arrayBuffer());
           return Array.from(new Uint8Array(hash), b => b.toString(16).padStart(2, '0')).join('');
         }))",
    )
}

/// Opens a saved copy as somebody else would, and has it play.
fn check_copy(engine: Engine, copy: &Path, link: &str, expected: &serde_json::Value) -> Result<()> {
    // A browser of its own, which has kept nothing.
    let browser = Browser::start(engine)?;
    browser.open_page(copy, "")?;
    let inside = "document.getElementById('kept-sketch').textContent.trim()";
    ensure!(browser.eval(inside)? == link, "Another sketch is inside");
    ensure!(browser.eval("document.getElementById('title').value")? == "Kept & <saved>");
    ensure!(replay(&browser)? == *expected, "The copy plays otherwise");
    // And what is done in it is done as in the original.
    browser.click("#clear")?;
    browser.wait_for("document.querySelectorAll('#staff .chord').length === 0")
}

#[test]
fn a_page_saved_by_our_button_replays_identically() -> Result<()> {
    let engine = Engine::asked();
    if engine.is_skipped() {
        return Ok(());
    }
    let (link, wav, midi) = piece();
    let expected = json!([hash(&wav), hash(&midi)]);
    let browser = Browser::start(engine)?;
    browser.open_page(page()?, &link)?;
    ensure!(replay(&browser)? == expected, "The page does not play as the core does");
    browser.run("caught.length = 0; document.getElementById('save-page').click()", &json!([]))?;
    browser.wait_for("caught.length === 1")?;
    let html = browser.run_async("return caught[0].text()")?;
    let copy = made("button.html");
    std::fs::write(&copy, html.as_str().context("No page")?)?;
    drop(browser);
    check_copy(engine, &copy, &link, &expected)
}

/// By the code behind Firefox's own command, without its dialogue.
#[test]
fn a_page_saved_by_firefox_itself_replays_identically() -> Result<()> {
    if Engine::asked().is_skipped() || Engine::asked().lacks(Need::Saving) {
        return Ok(());
    }
    let (link, wav, midi) = piece();
    let browser = Browser::start(Engine::asked())?;
    browser.open_page(page()?, &link)?;
    // In use, so that there is something to save beside the piece.
    browser.click("#staff [data-part=bass][data-chord='1']")?;
    let copy = made("saved-by-itself.html");
    browser.save_page(&copy)?;
    drop(browser);
    check_copy(Engine::asked(), &copy, &link, &json!([hash(&wav), hash(&midi)]))
}

/// Other browsers' own command opens a dialogue that no driver reaches, so Chromium's way of writing
/// is followed: the document as it stands.
#[test]
fn a_page_written_as_it_stands_replays_identically() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let (link, wav, midi) = piece();
    let browser = Browser::start(Engine::asked())?;
    browser.open_page(page()?, &link)?;
    browser.click("#staff [data-part=bass][data-chord='1']")?;
    let copy = save(&browser, "saved-replay")?;
    drop(browser);
    check_copy(Engine::asked(), &copy, &link, &json!([hash(&wav), hash(&midi)]))
}

/// The packer at work, ended when it goes out of scope.
struct Served(Child);

impl Drop for Served {
    fn drop(&mut self) {
        drop(self.0.kill());
        drop(self.0.wait());
    }
}

#[test]
fn the_packer_serves_a_page_that_runs_and_asks_for_nothing() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    // Cargo becomes the program it runs, so ending the one ends the other.
    let mut served = Served(
        Command::new(env!("CARGO"))
            .current_dir(workspace())
            .args(["run", "--release", "--package", "tastata-www", "--", "--no-open"])
            .args(["--port", "0", "--out"])
            .arg(made("served.html"))
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()?,
    );
    let lines = BufReader::new(served.0.stdout.take().context("The packer is mute")?).lines();
    let address = lines
        .map_while(Result::ok)
        .find_map(|line| line.strip_prefix("Address: ").map(str::to_owned))
        .context("The packer tells no address")?;

    let browser = Browser::start(Engine::asked())?;
    browser.open(&address)?;
    browser.wait_for("document.documentElement.dataset.state === 'ready'")?;
    browser.click("#play")?;
    browser.wait_for("document.querySelector('#keyboard .down')")?;
    browser.click("#play")?;
    let asked = browser.eval("performance.getEntriesByType('resource').map(entry => entry.name).filter(name => !/^(data|blob):/.test(name))")?;
    ensure!(asked == json!([]), "The page has asked for {asked}");
    let complaints = browser.complaints()?;
    ensure!(complaints.is_empty(), "{complaints:#?}");
    Ok(())
}
