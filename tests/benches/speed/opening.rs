//! The page as it opens, in Chromium: the size of the file, the time to the first paint and until
//! it is ready to play, and from a key's press to the moment its sound is handed to the sound card.

use anyhow::{Context, Result};
use serde_json::json;
use tastata_tests::{Browser, page};

use crate::table::{Table, median};

/// Openings and presses measured.
const TIMES: usize = 9;

/// Notes when the page says that it is ready, and wraps the call that schedules a sound.
const WATCH: &str = "
  new MutationObserver((_, it) => {
    if (document.documentElement && document.documentElement.dataset.state === 'ready') {
      window.watchedReady = performance.now();
      it.disconnect();
    }
  }).observe(document, { attributes: true, subtree: true, attributeFilter: ['data-state'] });
  const start = AudioBufferSourceNode.prototype.start;
  AudioBufferSourceNode.prototype.start = function (...given) {
    if (window.watchedPress && !window.watchedSound) window.watchedSound = performance.now();
    return start.apply(this, given);
  };";

/// Presses a key in the middle of the keyboard; gives milliseconds to the first sound.
const PRESS: &str = "
  const keyboard = document.getElementById('keyboard');
  const r = keyboard.getBoundingClientRect();
  const at = { bubbles: true, cancelable: true, pointerId: 7, pointerType: 'touch',
    isPrimary: true, button: 0, clientX: r.x + r.width * arguments[0], clientY: r.y + r.height * 0.8 };
  const target = document.elementFromPoint(at.clientX, at.clientY);
  window.watchedSound = 0;
  window.watchedPress = performance.now();
  target.dispatchEvent(new PointerEvent('pointerdown', at));
  target.dispatchEvent(new PointerEvent('pointerup', at));
  const gone = window.watchedSound - window.watchedPress;
  window.watchedPress = 0;
  return window.watchedSound ? gone : null;";

/// Measures with the processor made to look `slower` times slower.
pub(crate) fn measure(browser: &Browser, slower: u32) -> Result<Table> {
    let file = page()?;
    let size = std::fs::metadata(file)?.len();
    browser.size(360, 740)?;
    browser.devtools("Page.enable", &json!({}))?;
    let watch = json!({ "source": WATCH });
    let watching = browser.devtools("Page.addScriptToEvaluateOnNewDocument", &watch)?;
    browser.devtools("Emulation.setCPUThrottlingRate", &json!({ "rate": slower }))?;
    let (mut paints, mut readies) = (Vec::new(), Vec::new());
    for _ in 0..TIMES {
        browser.open_page(file, "")?;
        browser.wait_for("performance.getEntriesByName('first-contentful-paint').length > 0")?;
        let paint = "performance.getEntriesByName('first-contentful-paint')[0].startTime";
        paints.push(browser.eval(paint)?.as_f64().context("No paint was seen")?);
        readies.push(browser.eval("window.watchedReady")?.as_f64().context("Never ready")?);
    }
    // A real press lets the page sound.
    browser.click("#keyboard")?;
    let mut presses = Vec::new();
    for time in 0..TIMES {
        let across = 0.15 + 0.7 * time as f64 / TIMES as f64;
        let gone = browser.run(PRESS, &json!([across]))?;
        presses.extend(gone.as_f64());
    }
    browser.devtools("Emulation.setCPUThrottlingRate", &json!({ "rate": 1 }))?;
    browser.devtools("Page.removeScriptToEvaluateOnNewDocument", &watching)?;
    let mut table = Table::new(["What", "Aim", "Measured"]);
    table.row(["the page's file".into(), "300 KB".into(), format!("{} KB", size / 1000)]);
    table.row(["first paint".into(), "300 ms".into(), format!("{:.0} ms", median(&paints))]);
    table.row(["ready to play".into(), "800 ms".into(), format!("{:.0} ms", median(&readies))]);
    let press = format!("{:.1} ms", median(&presses));
    table.row(["a key's press until its sound is scheduled".into(), "10 ms".into(), press]);
    Ok(table)
}
