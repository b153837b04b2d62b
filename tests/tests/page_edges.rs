//! The page at its edges, in Chromium: no bass, one note, the same note again and again, notes no
//! keyboard has, five hundred notes, pins no clean line goes through. Each gets a graceful answer or a
//! sentence, and the page says nothing to the console.

use anyhow::{Result, ensure};
use tastata_tests::visit::{paste, quiet};
use tastata_tests::{Browser, Engine, Pointer, page};

const CHORDS: &str = "document.querySelectorAll('#staff [data-part=soprano]').length";
const REMARKS: &str = "document.getElementById('remarks').textContent";

#[test]
fn every_edge_gets_an_answer() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(Engine::asked())?;
    browser.size(360, 740)?;
    browser.open_page(page()?, "")?;

    browser.click("#clear")?;
    browser.wait_for(&format!("{CHORDS} === 0"))?;
    ensure!(browser.eval("!document.getElementById('empty').hidden")? == true, "No word on empty");
    browser.click("#play")?;
    browser.click("#undo")?;
    browser.wait_for(&format!("{CHORDS} > 4"))?;

    paste(&browser, "bass", "C3")?;
    browser.wait_for(&format!("{CHORDS} === 1"))?;
    paste(&browser, "bass", &"C3 ".repeat(12))?;
    browser.wait_for(&format!("{CHORDS} === 12"))?;

    paste(&browser, "bass", "C3 C9: C3")?;
    browser.wait_for(&format!("{CHORDS} === 3"))?;
    let said = browser.eval(REMARKS)?;
    ensure!(said.as_str().is_some_and(|said| said.contains("keyboard")), "Not told: {said}");

    let scale = "C3 D3 E3 F3 G3 A3 B3 C4 B3 A3 G3 F3 E3 D3 ";
    let many: Vec<&str> = scale.split_whitespace().cycle().take(500).collect();
    paste(&browser, "bass", &many.join(" "))?;
    let kept = "document.getElementById('kept-sketch').textContent.length > 40";
    browser.wait_for(&format!("{CHORDS} > 4 && {kept}"))?;
    browser.click("#play")?;
    browser.wait_for("document.getElementById('play').getAttribute('aria-pressed') === 'true'")?;
    browser.click("#play")?;

    // Two pins that run in octaves with the bass.
    paste(&browser, "bass", "C3 D3 E3 F3 G3 C3")?;
    browser.wait_for(&format!("{CHORDS} === 6"))?;
    for chord in [0, 1, 2] {
        let soprano =
            format!("#staff [data-part=soprano][data-chord='{chord}'] path:first-of-type");
        let from = browser.middle(&soprano)?;
        browser.drag(from, (from.0, from.1 + 90.0 + 9.0 * f64::from(chord)), Pointer::Mouse)?;
    }
    let said = browser.eval(REMARKS)?;
    ensure!(said.as_str().is_some_and(|said| !said.is_empty()), "Pins far down draw no remark");

    quiet(&browser)
}
