//! The whole job on the packed page, as a person does it, in three engines: enter a bass, drag a
//! soprano note into a fault, see the fault, mend it, play, and open the link of it all anew.

use anyhow::{Context, Result, ensure};
use serde_json::json;
use tastata_tests::{Browser, Engine, Pointer, page};

/// Chords on the staff.
const CHORDS: &str = "document.querySelectorAll('#staff [data-part=soprano]').length";
/// What the staff shows, without what only marks a choice: a chosen chord draws its inner notes last.
const STAFF: &str = "[...document.querySelectorAll('#staff .chord')].map(c =>
       [...c.querySelectorAll('.note title')].map(t => t.textContent).sort().join()).join(';')";
/// Lines in the list of faults, without the cautions.
const FAULTS: &str = "document.querySelectorAll('#remarks .fault').length";

fn soprano(chord: usize) -> String {
    // The head of the note itself: with accidentals and pins its middle may be empty.
    format!("#staff [data-part=soprano][data-chord='{chord}'] path:first-of-type")
}

/// Enters `text` as the bass, after whatever was there has been cleared away.
fn enter_bass(browser: &Browser, text: &str) -> Result<()> {
    browser.click("#clear")?;
    browser.wait_for(&format!("{CHORDS} === 0"))?;
    browser.click("#bass")?;
    browser.keys(text)?;
    browser.wait_for(&format!("document.getElementById('bass').value === {text:?}"))?;
    let notes = text.split_whitespace().count();
    browser.wait_for(&format!("{CHORDS} === {notes}"))
}

/// Asks that the other soprano notes stay where they are when one is moved.
fn let_the_others_stay(browser: &Browser) -> Result<()> {
    browser
        .run("document.getElementById('rest-put').closest('details').open = true;", &json!([]))?;
    browser.click("#rest-put")?;
    browser.wait_for("document.getElementById('rest-put').checked")
}

/// Drags soprano notes by some steps until the page lists a fault, and says which note by how many
/// pixels.
fn drag_into_a_fault(browser: &Browser, pointer: Pointer) -> Result<(usize, f64)> {
    for chord in 0..6 {
        for pixels in [12.0, -12.0, 24.0, -24.0, 36.0, -36.0, 48.0, -48.0] {
            let before = browser.eval(STAFF)?;
            let from = browser.middle(&soprano(chord))?;
            browser.drag(from, (from.0, from.1 + pixels), pointer)?;
            if browser.eval(STAFF)? == before {
                continue;
            }
            if browser.eval(FAULTS)?.as_u64() > Some(0) {
                return Ok((chord, pixels));
            }
            browser.click("#undo")?;
        }
    }
    anyhow::bail!("{}: no dragging ever made a fault", browser.engine().name())
}

#[test]
fn the_job_is_done() -> Result<()> {
    let engine = Engine::asked();
    if engine.is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(engine)?;
    browser.size(820, 1180)?;
    browser.open_page(page()?, "")?;
    ensure!(browser.eval(CHORDS)?.as_u64() > Some(4), "The page does not open with an example");

    enter_bass(&browser, "C3 D3 E3 F3 G3 C3")?;
    ensure!(browser.eval(FAULTS)? == 0, "The solver's own soprano has a fault");
    let solved = browser.eval(STAFF)?;

    let_the_others_stay(&browser)?;
    let (chord, _) = drag_into_a_fault(&browser, Pointer::Finger)?;
    ensure!(browser.eval(STAFF)? != solved, "The drag moved nothing");
    let said = browser.eval("document.querySelector('#remarks .fault').textContent")?;
    ensure!(said.as_str().is_some_and(|said| said.len() > 20), "The fault is not told: {said}");
    let marked = "document.querySelectorAll('#staff [data-fault]').length";
    ensure!(browser.eval(marked)?.as_u64() > Some(0), "The fault is not on the staff");
    // Choosing the line goes to its chord.
    browser.click("#remarks .fault")?;
    browser.wait_for("document.querySelector('#staff .chord.selected')")?;

    // It is mended by letting the solver set the line again.
    browser.click("#free")?;
    browser.wait_for(&format!("{FAULTS} === 0"))?;
    let freed = browser.eval(STAFF)?;
    ensure!(
        freed == solved,
        "Freed, the soprano is not the solver's again, but {freed} instead of {solved}"
    );
    browser.click("#undo")?;
    browser.wait_for(&format!("{FAULTS} > 0"))?;
    browser.click("#redo")?;
    browser.wait_for(&format!("{FAULTS} === 0"))?;
    ensure!(browser.eval(STAFF)? == solved, "Done again, the soprano is another");

    // A pinned note comes along in the link.
    let from = browser.middle(&soprano(chord))?;
    browser.drag(from, (from.0, from.1 - 20.0), Pointer::Mouse)?;
    play(&browser)?;
    open_the_link(&browser)?;

    let complaints = browser.complaints()?;
    ensure!(complaints.is_empty(), "{complaints:#?}");
    Ok(())
}

/// Plays until keys light, then stops.
fn play(browser: &Browser) -> Result<()> {
    let playing = "document.getElementById('play').getAttribute('aria-pressed') === 'true'";
    browser.click("#play")?;
    browser.wait_for(playing)?;
    browser.wait_for("document.querySelector('#keyboard .down')")?;
    browser.wait_for("document.querySelector('#staff .sounding')")?;
    browser.click("#play")?;
    browser.wait_for(&format!("!({playing})"))?;
    browser.wait_for("!document.querySelector('#keyboard .down')")
}

/// Opens the link of the present sketch in place of the page and expects the same staff.
fn open_the_link(browser: &Browser) -> Result<()> {
    browser.click("#share")?;
    browser.wait_for("document.getElementById('link').value")?;
    let link = browser.eval("document.getElementById('link').value")?;
    browser.click("#share-close")?;
    let before = browser.eval(STAFF)?;
    let (_, fragment) = link.as_str().and_then(|link| link.split_once('#')).context("No link")?;

    // The example first, so that the same staff cannot be what was kept in the browser.
    browser.run("localStorage.clear();", &json!([]))?;
    browser.open_page(page()?, "")?;
    ensure!(browser.eval(STAFF)? != before, "The example is what was entered");
    browser.open_page(page()?, fragment)?;
    ensure!(browser.eval(STAFF)? == before, "The link opens as something else");

    // Without the link the browser's own copy serves.
    browser.click("#bass")?;
    browser.keys(" C4")?;
    let kept = browser.eval(STAFF)?;
    browser.open_page(page()?, "")?;
    ensure!(browser.eval(STAFF)? == kept, "What was changed is not kept");
    Ok(())
}
