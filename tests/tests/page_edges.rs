//! The page at its edges: no bass, one note, the same note again and again, notes no
//! keyboard has, five hundred notes, pins no clean line goes through. Each gets a graceful answer or a
//! sentence, and the page says nothing to the console. And what of a long bass is drawn as one scrolls.

use anyhow::{Result, ensure};
use serde_json::json;
use tastata::files::encode;
use tastata_tests::outer::wandering;
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

/// What one looks at is drawn at once, and with all that a finger takes hold of once the page stands
/// still; what is far away is not there; and what one comes back to is what it was.
#[test]
fn a_long_bass_is_drawn_where_one_looks() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(Engine::asked())?;
    for (width, height) in [(360, 740), (1280, 900)] {
        browser.size(width, height)?;
        browser.open_page(page()?, &encode(&wandering(800)))?;
        let first = "document.querySelector('#staff .system').innerHTML";
        let before = browser.eval(first)?;
        let at_once = browser.run_async(
            "const last = document.querySelector('#staff .system:last-child');
             const none = last.querySelectorAll('path').length === 0;
             last.scrollIntoView({ behavior: 'instant' });
             await new Promise(done => addEventListener('scroll', done, { capture: true, once: true }));
             return none && last.querySelectorAll('path').length > 0;",
        )?;
        ensure!(at_once == true, "At {width} pixels the end is not drawn when it comes into sight");
        browser
            .wait_for("document.querySelector('#staff .system:last-child [data-part=soprano]')")?;
        browser.wait_for(&format!("{first} === ''"))?;
        browser.run(
            "document.querySelector('#staff .system').scrollIntoView({ behavior: 'instant' })",
            &json!([]),
        )?;
        browser
            .wait_for("document.querySelector('#staff .system:first-child [data-part=soprano]')")?;
        let after = browser.eval(first)?;
        ensure!(after == before, "At {width} pixels one comes back to\n{after}\nand not\n{before}");
    }
    quiet(&browser)
}
