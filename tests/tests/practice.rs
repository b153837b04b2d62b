//! Practising on the real page: it follows a player from chord to chord and tells
//! what is wrong, keeps what was played, asks what is due and what the ear tells.

use anyhow::{Context, Result, ensure};
use serde_json::json;
use tastata::files::encode;
use tastata::pitch::Key;
use tastata::reading::read;
use tastata_tests::lesson::sketch;
use tastata_tests::{Browser, Engine, page};

const BASS: &str = "C major: C3 D3 E3 F3 G3 C3";

fn text(browser: &Browser, id: &str) -> Result<String> {
    let text = browser.eval(&format!("document.getElementById('{id}').textContent"))?;
    text.as_str().map(str::to_owned).with_context(|| format!("{id} has no text"))
}

fn hidden(browser: &Browser, id: &str) -> Result<bool> {
    Ok(browser.eval(&format!("document.getElementById('{id}').hidden"))? == true)
}

fn press(browser: &Browser, id: &str) -> Result<()> {
    browser.click(&format!("#{id}"))
}

fn begin(browser: &Browser, what: &str) -> Result<()> {
    press(browser, "practise")?;
    press(browser, what)
}

fn strike(browser: &Browser, key: Key) -> Result<()> {
    // Its lower end, where no raised key lies over it.
    let at = browser.run(
        "const box = document.getElementById(arguments[0]).getBoundingClientRect();
         return [box.x + box.width / 2, box.bottom - 6];",
        &json!([format!("k{}", key.number())]),
    )?;
    let at = at[0].as_f64().zip(at[1].as_f64()).context("the key is not on the page")?;
    browser.press_at(at, tastata_tests::Pointer::Mouse)
}

fn ready(fragment: &str) -> Result<Browser> {
    let browser = Browser::start(Engine::Chromium)?;
    browser.size(1920, 1080)?;
    browser.open_page(page()?, fragment)?;
    Ok(browser)
}

fn quiet(browser: &Browser) -> Result<()> {
    let complaints = browser.complaints()?;
    ensure!(complaints.is_empty(), "{complaints:?}");
    Ok(())
}

#[test]
fn the_page_follows_a_player_and_waits() -> Result<()> {
    if Engine::Chromium.is_skipped() {
        return Ok(());
    }
    let piece = sketch(BASS);
    let browser = ready(&encode(&piece))?;
    begin(&browser, "practise-along")?;
    let said = || text(&browser, "along-said");
    ensure!(said()?.starts_with("Chord 1 of 6."), "{}", said()?);
    // A wrong key leads nowhere.
    strike(&browser, Key::clamped(47))?;
    ensure!(said()?.starts_with("Chord 1 of 6."), "{}", said()?);
    let handfuls = read(&piece).hands.handfuls;
    for (i, handful) in handfuls.iter().enumerate() {
        for pitch in handful.left.iter().chain(&handful.right) {
            strike(&browser, pitch.key().context("no key")?)?;
        }
        if i + 1 < handfuls.len() {
            let wanted = format!("Chord {} of 6.", i + 2);
            ensure!(said()?.starts_with(&wanted), "{} for {wanted}", said()?);
        }
    }
    ensure!(said()? == "All is played, without a fault.", "{}", said()?);
    press(&browser, "along-keep")?;
    ensure!(hidden(&browser, "along")?);
    // Every soprano note is now the player's own.
    browser.click("#staff [data-part=bass][data-chord='2'] use:last-of-type")?;
    ensure!(browser.eval("document.getElementById('pin').getAttribute('aria-pressed')")? == "true");
    quiet(&browser)
}

#[test]
fn a_bad_move_is_told_when_it_is_made() -> Result<()> {
    if Engine::Chromium.is_skipped() {
        return Ok(());
    }
    let browser = ready(&encode(&sketch("C major: C3:5/3 D3:5/3")))?;
    begin(&browser, "practise-along")?;
    // Two triads side by side: fifths and octaves in a row.
    for key in [48, 52, 55, 60, 50, 53, 57, 62] {
        strike(&browser, Key::clamped(key))?;
    }
    let told = text(&browser, "along-faults")?;
    ensure!(told.starts_with('✕'), "nothing was told: {told:?}");
    ensure!(text(&browser, "along-said")?.starts_with("All is played, with "));
    quiet(&browser)
}

#[test]
fn drills_and_the_ear_ask_tell_and_come_back() -> Result<()> {
    if Engine::Chromium.is_skipped() {
        return Ok(());
    }
    let browser = ready("")?;
    let own = browser.eval("document.getElementById('bass').value")?;
    begin(&browser, "practise-drill")?;
    ensure!(text(&browser, "desk-said")?.starts_with("5 things due"));
    let choices = "document.querySelectorAll('#desk-choices button').length";
    ensure!(browser.eval(choices)?.as_u64() > Some(1), "nothing to choose among");
    browser.click("#desk-choices button:first-child")?;
    let marks = "[...document.querySelectorAll('#desk-choices button')].filter(b => b.textContent.startsWith('✓')).length";
    ensure!(browser.eval(marks)? == 1, "the right answer is not marked");
    press(&browser, "desk-missed")?;
    ensure!(text(&browser, "desk-said")?.starts_with("5 things due"), "a miss comes again");
    let deck = browser.eval("localStorage.getItem('tastata.deck')")?;
    ensure!(deck.as_str().is_some_and(|deck| deck.lines().count() == 5), "{deck}");
    press(&browser, "desk-leave")?;

    begin(&browser, "practise-ear-cadence")?;
    let notes = "document.querySelectorAll('#staff [data-part=bass]').length";
    ensure!(browser.eval(notes)? == 0, "the staff tells what the ear should");
    browser.click("#desk-choices button:first-child")?;
    ensure!(browser.eval(notes)?.as_u64() > Some(1), "the answer is not shown");
    press(&browser, "desk-next")?;
    press(&browser, "desk-leave")?;

    begin(&browser, "practise-keys")?;
    let task = text(&browser, "desk-task")?;
    press(&browser, "desk-next")?;
    ensure!(text(&browser, "desk-task")? != task, "the key does not change");
    ensure!(!hidden(&browser, "along")?, "the next key does not begin");
    press(&browser, "desk-leave")?;
    ensure!(
        browser.eval("document.getElementById('bass').value")? == own,
        "the own sketch is gone"
    );
    quiet(&browser)
}
