//! The helpers that drive browsers, tried on pages made for it: a helper that hears nothing would let
//! every other test pass.

use std::path::PathBuf;

use anyhow::{Result, ensure};
use serde_json::json;
use tastata_tests::{Browser, Engine, Need, Pointer, made};

/// A page that starts and complains in every way there is.
const COMPLAINER: &str = "<!doctype html><html data-state=ready><head>
  <meta http-equiv=Content-Security-Policy content=\"script-src 'nonce-a'; style-src 'none'\">
  </head><body><p style='color: red'>A page.</p><p id=message></p><script nonce=a>
    console.error('said aloud');
    window.heard = [];
    for (const kind of ['pointerdown', 'pointerup', 'keydown'])
      addEventListener(kind, e => heard.push(`${e.type} ${e.key || e.pointerType}`));
    setTimeout(() => { throw new Error('thrown late'); }, 0);
    Promise.reject(new Error('refused'));
  </script></body></html>";

/// A page that starts and has nothing to complain about.
const CONTENT: &str = "<!doctype html><html data-state=ready><head>
  <meta http-equiv=Content-Security-Policy content=\"script-src 'nonce-a'\">
  </head><body><p id=message></p></body></html>";

fn file(name: &str, html: &str) -> Result<PathBuf> {
    let file = made(&format!("{name}.html"));
    std::fs::write(&file, html)?;
    Ok(file)
}

#[test]
fn the_browser_does_and_says_what_is_asked() -> Result<()> {
    let engine = Engine::asked();
    if engine.is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(engine)?;
    browser.open_page(&file(&format!("content-{}", engine.name()), CONTENT)?, "")?;
    let heard = browser.complaints()?;
    ensure!(heard.is_empty(), "{heard:?}");

    browser.open_page(&file(&format!("complainer-{}", engine.name()), COMPLAINER)?, "part")?;
    ensure!(browser.eval("location.hash")? == "#part");
    for (width, height) in [(360, 740), (820, 1180), (1920, 1080)] {
        browser.size(width, height)?;
        ensure!(browser.eval("[innerWidth, innerHeight]")? == json!([width, height]));
    }
    browser.drag((20.0, 20.0), (60.0, 40.0), Pointer::Mouse)?;
    browser.keys("a")?;
    let events = browser.eval("heard.join()")?;
    ensure!(events == "pointerdown mouse,pointerup mouse,keydown a", "{events}");
    browser.press_at((20.0, 20.0), Pointer::Finger)?;
    let finger = if engine.lacks(Need::Touch) { "pointerup mouse" } else { "pointerup touch" };
    ensure!(browser.eval("heard[heard.length - 1]")? == finger);

    // Whatever it was is still heard of after the page has gone.
    browser.reload()?;
    std::thread::sleep(std::time::Duration::from_millis(200));
    let heard = browser.complaints()?.join("\n");
    // On file:// pages WebKit keeps to itself what was thrown.
    let thrown = if engine.lacks(Need::Thrown) { "Script error." } else { "thrown late" };
    for part in ["said aloud", thrown, "refused", "style"] {
        let count = heard.matches(part).count();
        ensure!(count >= 2, "{part} was heard {count} times:\n{heard}");
    }
    ensure!(browser.complaints()?.is_empty());
    Ok(())
}
