//! The page's budgets, measured in Chromium as on a phone: the size of the file, the time
//! to the first paint and until it is ready to play, and from a key's press to the moment
//! its sound is handed to the sound card, with the processor made to look six times slower.
//!
//! `cargo bench -p tastata-tests --bench budgets` prints them in a table.
//! Dragging has a bench of its own, `page`. The machine should have nothing else to do.

use anyhow::{Context, Result};
use serde_json::json;
use tastata_tests::{Browser, Engine, page};

/// How many times slower the processor is made to look.
const SLOWER: u32 = 6;
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

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or(f64::NAN)
}

fn line(what: &str, budget: &str, measured: String) {
    println!("| {what} | {budget} | {measured} |");
}

fn main() -> Result<()> {
    let file = page()?;
    let size = std::fs::metadata(file)?.len();
    let browser = Browser::start(Engine::Chromium)?;
    browser.size(360, 740)?;
    browser.devtools("Page.enable", &json!({}))?;
    browser.devtools("Page.addScriptToEvaluateOnNewDocument", &json!({ "source": WATCH }))?;
    browser.devtools("Emulation.setCPUThrottlingRate", &json!({ "rate": SLOWER }))?;
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
    println!("| What | Budget | Measured |\n|---|---|---|");
    line("The page's file", "300 KB", format!("{} KB", size / 1000));
    line("First paint", "300 ms", format!("{:.0} ms", median(paints)));
    line("Ready to play", "800 ms", format!("{:.0} ms", median(readies)));
    let count = presses.len();
    line(
        "Key press to sound scheduled",
        "10 ms",
        format!("{:.1} ms, {count} presses", median(presses)),
    );
    Ok(())
}
