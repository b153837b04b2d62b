//! The main job for somebody who sees nothing: every control found by its role and accessible name
//! with the Tab key alone, what is done heard as a screen reader would say it, no pointer at all.
//! Beside it what eyes and hands may need: text twice as large, a width of 320 pixels (both as in WCAG
//! 2.2, criteria 1.4.4 and 1.4.10), and no motion for those who ask for none.

use anyhow::{Context, Result, ensure};
use serde_json::{Value, json};
use tastata_tests::visit::{quiet, visit, visit_as};
use tastata_tests::{Browser, Engine, Need, Taste, key, page, shot};

const SAID: &str = "document.getElementById('say').textContent";
const FAULTS: &str = "document.querySelectorAll('#remarks .fault').length";

fn press(browser: &Browser, key: char) -> Result<()> {
    browser.keys(&key.to_string())
}

#[test]
fn the_main_job_is_done_by_names_and_keys_alone() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = visit((1280, 900), "")?;

    browser.tab_to("button", "Start empty")?;
    press(&browser, key::ENTER)?;
    browser.wait_for("document.getElementById('bass').value === ''")?;
    browser.run("document.activeElement.blur();", &json!([]))?;
    browser.tab_to("textbox", "Bass")?;
    browser.keys("C3 D3 E3 F3 G3 C3")?;
    browser.wait_for("document.querySelectorAll('#staff [data-part=bass]').length === 6")?;

    // Chord after chord is heard: bass, figures, soprano, how the outer voices got there.
    browser.tab_to("application", "Grand staff")?;
    press(&browser, key::RIGHT)?;
    browser.wait_for(&format!("{SAID}.includes('Chord 1')"))?;
    press(&browser, key::RIGHT)?;
    browser.wait_for(&format!("{SAID}.includes('Chord 2')"))?;
    let said = browser.eval(SAID)?.as_str().unwrap_or_default().to_owned();
    for part in ["bass D3", "soprano", "motion"] {
        let tenths = part == "motion" && said.contains("tenths");
        ensure!(said.contains(part) || tenths, "No {part} in: {said}");
    }

    // A soprano note is moved into a fault; the fault is heard.
    let mut heard = false;
    'moving: for _ in 0..5 {
        for way in [key::UP, key::UP, key::UP, key::DOWN, key::DOWN, key::DOWN, key::DOWN] {
            press(&browser, way)?;
            if browser.eval(FAULTS)?.as_u64() > Some(0) {
                browser.wait_for(&format!("/Fault/.test({SAID})"))?;
                heard = true;
                break 'moving;
            }
        }
        press(&browser, key::RIGHT)?;
    }
    ensure!(heard, "No move of the soprano ever made a fault");

    // It is found in the list, mended, and taken back and forth.
    browser.tab_to("button", "Let all pins go")?;
    press(&browser, key::ENTER)?;
    browser.wait_for(&format!("{FAULTS} === 0")).context("Pins are let go")?;
    browser.keys_with(key::CONTROL, "z")?;
    browser.wait_for(&format!("{FAULTS} > 0")).context("Undone")?;
    browser.keys_with(key::CONTROL, "y")?;
    browser.wait_for(&format!("{FAULTS} === 0")).context("Done again")?;

    // Heard.
    browser.tab_to("button", "Play")?;
    press(&browser, ' ')?;
    let playing = "document.getElementById('play').getAttribute('aria-pressed') === 'true'";
    browser.wait_for(playing)?;
    press(&browser, ' ')?;
    browser.wait_for(&format!("!({playing})"))?;

    // Shared; Escape goes back.
    browser.tab_to("button", "Share")?;
    press(&browser, key::ENTER)?;
    browser.wait_for("document.getElementById('share-sheet').open")?;
    let link = browser.tab_to("textbox", "Link")?;
    ensure!(link.name == "Link", "{link:?}");
    ensure!(browser.eval("document.activeElement.value.includes('#')")? == true, "No link");
    press(&browser, key::ESCAPE)?;
    browser.wait_for("!document.getElementById('share-sheet').open")?;
    let back = browser.focused()?;
    ensure!(back.name.starts_with("Share"), "After Escape the focus is lost: {back:?}");

    quiet(&browser)
}

/// What does not fit: the page itself, and words cut off in what is pressed or read.
const CUT: &str = "
  const found = [];
  const wide = document.documentElement.scrollWidth;
  if (wide > innerWidth) found.push(`the page is ${wide} wide, not ${innerWidth}`);
  for (const it of document.querySelectorAll('button, summary, label, legend, h1, h2, p, li')) {
    if (!it.checkVisibility() || it.closest('#staff, .visually-hidden, .skip')) continue;
    if (it.clientWidth && (it.scrollWidth > it.clientWidth + 1 || it.scrollHeight > it.clientHeight + 4))
      found.push(`cut: ${it.id || it.textContent.trim().slice(0, 40)}`);
    const r = it.getBoundingClientRect();
    if (r.width && (r.right > innerWidth + 1 || r.left < -1))
      found.push(`out of sight: ${it.id || it.textContent.trim().slice(0, 40)}`);
  }
  const bass = document.getElementById('bass').clientWidth / parseFloat(getComputedStyle(document.documentElement).fontSize);
  if (bass < 5.5) found.push(`the field of the bass is ${bass} letters wide`);
  const dock = document.querySelector('.dock').getBoundingClientRect();
  if (getComputedStyle(document.querySelector('.dock')).position === 'sticky' && dock.height > 0.6 * innerHeight)
    found.push(`the keys cover ${Math.round(dock.height)} of ${innerHeight}`);
  return found;";

#[test]
fn text_twice_as_large_and_a_narrow_screen_lose_nothing() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(Engine::asked())?;
    let large = "document.documentElement.style.fontSize = '200%';";
    for (name, width, height, way) in [
        ("narrow", 320, 568, ""),
        ("narrow-and-low", 320, 256, ""),
        ("large-text", 640, 740, large),
        ("large-text-phone", 390, 844, large),
    ] {
        if width < 360 && browser.engine().lacks(Need::Narrow) {
            continue;
        }
        browser.size(width, height)?;
        browser.open_page(page()?, "")?;
        browser.run(way, &json!([]))?;
        let open = "for (const it of document.querySelectorAll('details')) it.open = true;";
        browser.run(open, &json!([]))?;
        for sheet in ["", "share", "practise", "teach"] {
            if !sheet.is_empty() {
                browser.run(&format!("document.getElementById('{sheet}').click();"), &json!([]))?;
                browser.wait_for("document.querySelector('dialog[open]')")?;
            }
            browser.shoot(&shot(&format!("{name}-{sheet}.png")))?;
            let cut = browser.run(CUT, &json!([]))?;
            ensure!(cut == json!([]), "{name}, {sheet}: {cut:#}");
            browser.run("document.querySelector('dialog[open]')?.close();", &json!([]))?;
        }
    }
    Ok(())
}

#[test]
fn nothing_moves_for_those_who_ask_for_stillness() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = visit_as(Taste::Still, (820, 900))?;
    let still = "matchMedia('(prefers-reduced-motion: reduce)').matches";
    ensure!(browser.eval(still)? == true, "The page is not asked for stillness");
    browser.click("#staff [data-part=bass][data-chord='1']")?;
    browser.click("#play")?;
    browser.wait_for("document.querySelector('#keyboard .down')")?;
    let moving = browser.run(
        "const long = document.getAnimations().filter(it => it.effect.getComputedTiming().duration > 1);
         const smooth = [...document.querySelectorAll('*')].filter(it => getComputedStyle(it).scrollBehavior === 'smooth');
         return [...long.map(it => it.effect.target.id || it.effect.target.className), ...smooth.map(it => it.id || it.tagName)];",
        &json!([]),
    )?;
    ensure!(moving == Value::Array(Vec::new()), "Still moving: {moving}");
    Ok(())
}
