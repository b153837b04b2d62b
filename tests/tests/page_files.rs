//! The page as a file: it runs when served by the packer, when opened from a copy a browser saved in
//! the middle of use, and it asks nobody for anything.

use std::io::{BufRead, BufReader};
use std::process::{Child, Command, Stdio};

use anyhow::{Context, Result, ensure};
use serde_json::json;
use tastata_tests::{Browser, Engine, page, workspace};

/// A copy of what a browser holds, as its own saving writes it.
fn save(browser: &Browser, name: &str) -> Result<std::path::PathBuf> {
    let html = browser.eval("'<!DOCTYPE html>' + document.documentElement.outerHTML")?;
    let file = workspace().join(format!("target/browsers/{name}.html"));
    std::fs::write(&file, html.as_str().context("No page")?)?;
    Ok(file)
}

fn reopen_a_saved_copy(engine: Engine) -> Result<()> {
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
    let copy = save(&browser, &format!("saved-{}", engine.name()))?;
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

#[test]
fn a_copy_saved_by_chromium_starts_like_the_original() -> Result<()> {
    reopen_a_saved_copy(Engine::Chromium)
}

#[test]
fn a_copy_saved_by_firefox_starts_like_the_original() -> Result<()> {
    reopen_a_saved_copy(Engine::Firefox)
}

#[test]
fn a_copy_saved_by_webkit_starts_like_the_original() -> Result<()> {
    reopen_a_saved_copy(Engine::WebKit)
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
    if Engine::Chromium.is_skipped() {
        return Ok(());
    }
    // Cargo becomes the program it runs, so ending the one ends the other.
    let mut served = Served(
        Command::new(env!("CARGO"))
            .current_dir(workspace())
            .args(["run", "--release", "--package", "tastata-www", "--", "--no-open"])
            .args(["--port", "0", "--out", "target/browsers/served.html"])
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()?,
    );
    let lines = BufReader::new(served.0.stdout.take().context("The packer is mute")?).lines();
    let address = lines
        .map_while(Result::ok)
        .find_map(|line| line.strip_prefix("Address: ").map(str::to_owned))
        .context("The packer tells no address")?;

    let browser = Browser::start(Engine::Chromium)?;
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
