//! What the page keeps, and what it says when it cannot: two tabs at once, a browser with no room or
//! no leave, a tab that is killed while something is done.

use anyhow::{Result, ensure};
use serde_json::json;
use tastata_tests::room::press;
use tastata_tests::visit::{paste, quiet, visit, visit_in};
use tastata_tests::{Browser, Engine, page};

const BASS: &str = "document.getElementById('bass').value";
const NOTICE: &str = "(document.getElementById('notice').hidden ? ''
    : document.getElementById('notice-text').textContent)";

/// Puts a bass into its field and waits for its chords.
fn paste_bass(browser: &Browser, text: &str) -> Result<()> {
    paste(browser, "bass", text)?;
    let notes = text.split_whitespace().count();
    browser.wait_for(&format!(
        "document.querySelectorAll('#staff [data-part=bass]').length === {notes}"
    ))
}

#[test]
fn two_tabs_do_not_write_over_each_other() -> Result<()> {
    let engine = Engine::asked();
    if engine.is_skipped() {
        return Ok(());
    }
    let browser = visit_in(engine, (820, 900), "")?;
    paste_bass(&browser, "C3 D3 E3")?;
    let (first, second) = browser.new_window()?;
    browser.open_page(page()?, "")?;
    ensure!(browser.eval(BASS)? == "C3 D3 E3", "The second tab opens without the first one's bass");

    browser.go_to_window(&first)?;
    paste_bass(&browser, "C3 D3 E3 F3")?;
    ensure!(browser.eval(NOTICE)? == "", "A warning before anything was at stake");

    // The second tab has not seen that; what it keeps must not do away with it unsaid.
    browser.go_to_window(&second)?;
    paste_bass(&browser, "G2 A2")?;
    browser.wait_for(&format!("{NOTICE}.includes('Another tab')"))?;
    browser.click("#notice-act")?;
    browser.wait_for(&format!("{BASS} === 'C3 D3 E3 F3'"))?;
    browser.click("#undo")?;
    browser.wait_for(&format!("{BASS} === 'G2 A2'"))?;

    // One who goes on alone is not told again.
    paste_bass(&browser, "G2 A2 B2")?;
    ensure!(browser.eval(NOTICE)? == "", "Told of another tab that did nothing");
    quiet(&browser)
}

/// What a teacher adds to a set in one tab stands in the other at once, even while the sheet is open
/// there, so that neither writes over what the other made.
#[test]
fn a_set_in_the_making_is_the_same_in_two_tabs() -> Result<()> {
    let engine = Engine::asked();
    if engine.is_skipped() {
        return Ok(());
    }
    let count =
        |wanted: &str| format!("document.getElementById('set-count').textContent === '{wanted}'");
    let browser = visit_in(engine, (820, 900), "")?;
    paste_bass(&browser, "C3 D3 E3")?;
    press(&browser, "teach")?;
    let (first, second) = browser.new_window()?;
    browser.open_page(page()?, "")?;
    press(&browser, "teach")?;
    browser.go_to_window(&first)?;
    press(&browser, "make-put")?;
    browser.wait_for(&count("(1)"))?;

    browser.go_to_window(&second)?;
    browser.wait_for(&count("(1)"))?;
    press(&browser, "make-put")?;
    browser.wait_for(&count("(2)"))?;

    browser.go_to_window(&first)?;
    browser.wait_for(&count("(2)"))?;
    browser.click("[data-room=make]")?;
    press(&browser, "make-put")?;
    browser.wait_for(&count("(3)"))?;
    quiet(&browser)
}

/// A browser whose storage is full, and one that forbids it.
const REFUSALS: [&str; 2] = [
    "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };",
    "Object.defineProperty(window, 'localStorage',
       { get() { throw new DOMException('forbidden', 'SecurityError'); } });",
];

#[test]
fn a_browser_that_keeps_nothing_is_survived_and_said() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    for refusal in REFUSALS {
        let browser = Browser::start(Engine::asked())?;
        browser.size(360, 740)?;
        browser.run_first(refusal)?;
        browser.open_page(page()?, "")?;
        paste_bass(&browser, "C3 D3 E3")?;
        browser.wait_for(&format!("{NOTICE}.includes('keeps nothing')"))?;
        // Said once; the work goes on and can be taken along.
        paste_bass(&browser, "C3 D3 E3 F3")?;
        ensure!(browser.eval(NOTICE)? == "", "Said again");
        browser.click("#undo")?;
        browser.wait_for(&format!("{BASS} !== 'C3 D3 E3 F3'"))?;
        browser.click("#share")?;
        browser.wait_for("document.getElementById('link').value.includes('#')")?;
        quiet(&browser)?;
    }
    Ok(())
}

#[test]
fn a_tab_killed_at_any_moment_loses_nothing() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = visit((820, 900), "")?;
    // Each tells, in one turn of the page's script, what is there right after a deed; the page goes
    // in the same turn, so that nothing later can have kept it.
    let kept = "const link = document.getElementById('kept-sketch').textContent.trim();";
    let send = "const send = (name, y) => {
        const grip = document.querySelector('#staff [data-part=soprano][data-chord=\"1\"]');
        const r = grip.getBoundingClientRect();
        grip.dispatchEvent(new PointerEvent(name, { bubbles: true, cancelable: true, pointerId: 3,
          pointerType: 'touch', isPrimary: true, button: 0, clientX: r.x + 3, clientY: r.y + 3 + y }));
      };";
    let deeds = [
        "document.getElementById('bass').value += ' A2';
         document.getElementById('bass').dispatchEvent(new Event('input', { bubbles: true }));",
        "document.getElementById('another').click();",
        "document.getElementById('title').value = 'Half a ti';
         document.getElementById('title').dispatchEvent(new Event('input', { bubbles: true }));
         document.getElementById('title').dispatchEvent(new Event('change', { bubbles: true }));",
        "send('pointerdown', 0); send('pointermove', -12); send('pointermove', -30); send('pointerup', -30);",
        "document.getElementById('undo').click();",
        "document.getElementById('clear').click();",
    ];
    // The page that goes is marked, so that it is not taken for the one that comes.
    let reload = "document.documentElement.dataset.state = 'going'; location.reload();";
    for deed in deeds {
        browser.run(&format!("{send} {deed} {reload}"), &json!([]))?;
        browser.wait_for("document.documentElement.dataset.state === 'ready'")?;
        let after = browser.run(&format!("{kept} return link;"), &json!([]))?;
        let link = browser.eval("localStorage.getItem('tastata.sketch')")?;
        ensure!(link == after, "After {deed}: the page shows {after}, kept is {link}");
    }
    ensure!(browser.eval(BASS)? == "", "The last deed, an empty page, is not there");
    ensure!(
        browser.eval("document.getElementById('title').value")? == "",
        "Emptied, the title stayed"
    );
    // Killed in the middle of a drag: what the note had come to is there.
    browser.click("#undo").ok();
    paste_bass(&browser, "C3 D3 E3 F3 G3 C3")?;
    let dragged = browser.run(
        &format!(
            "{send} send('pointerdown', 0); send('pointermove', -12); send('pointermove', -40);
             const title = () => [...document.querySelectorAll('#staff [data-part=soprano] title')].map(t => t.textContent).join();
             const shown = title(); {reload} return shown;"
        ),
        &json!([]),
    )?;
    browser.wait_for("document.documentElement.dataset.state === 'ready'")?;
    let after = "[...document.querySelectorAll('#staff [data-part=soprano] title')].map(t => t.textContent).join()";
    browser.wait_for(&format!("{after} !== ''"))?;
    ensure!(browser.eval(after)? == dragged, "The dragged note went back");
    Ok(())
}
