//! What others put into the page stays text: markup and script in every field, in a title that comes
//! by link, in what is printed and saved; and the page asks the network for nothing, whatever is done.

use anyhow::{Result, ensure};
use serde_json::json;
use tastata_tests::visit::{paste, quiet};
use tastata_tests::{Browser, Engine, Need, Server, page};

/// Each would call `hostile` or add an element if it were ever read as markup or script.
const HOSTILE: [&str; 8] = [
    "<img src=x onerror=hostile()>",
    "\"><svg onload=hostile()><b class=hostile>",
    "'><script>hostile()</script>",
    "</textarea></script></style><b class=hostile>",
    "javascript:hostile()",
    "{{policy}}${hostile()}",
    "&lt;img src=x onerror=hostile()&gt;",
    "\u{202e}\u{0}\u{feff}<a href=javascript:hostile() class=hostile>",
];

const LISTEN: &str = "window.struck = []; window.hostile = () => window.struck.push('called');";

/// What has come of it: calls, elements that no one here makes, handlers in attributes.
const STRUCK: &str = "[...window.struck,
    ...[...document.querySelectorAll('img:not([src^=\"blob:\"]):not([src^=\"data:\"]), .hostile, iframe, object, embed, a[href^=\"javascript:\"]')].map(it => it.outerHTML),
    ...[...document.querySelectorAll('*')].flatMap(it => [...it.attributes]).filter(it => /^on/.test(it.name)).map(it => it.name)]";

/// Puts `arguments[0]` into every field there is that takes text.
const FILL: &str = "
  let count = 0;
  for (const field of document.querySelectorAll('input:not([type]), input[type=text], input[type=url], textarea')) {
    if (field.readOnly) continue;
    field.value = arguments[0];
    field.dispatchEvent(new Event('input', { bubbles: true }));
    field.dispatchEvent(new Event('change', { bubbles: true }));
    field.dispatchEvent(new FocusEvent('blur'));
    count += 1;
  }
  return count;";

/// Goes through the views that show what was entered, and presses what works on it.
const GO_ROUND: &str = "
  const press = id => { const it = document.getElementById(id); if (it && !it.disabled) it.click(); };
  for (const it of document.querySelectorAll('details')) it.open = true;
  for (const id of ['figures', 'bring-open', 'comment-whole', 'make-put', 'class-read', 'set-pass'])
    press(id);
  press('share'); press('print'); press('print-close'); press('share-close');
  press('teach'); for (const room of ['set', 'collect', 'make'])
    document.querySelector(`[data-room=${room}]`)?.click();
  press('make-put'); press('set-pass'); press('set-try');
  for (const it of document.querySelectorAll('dialog[open]')) it.close();
  press('desk-check'); press('desk-hint'); press('desk-hand-in');
  for (const it of document.querySelectorAll('dialog[open]')) it.close();
  press('desk-leave');";

#[test]
fn no_field_is_ever_markup() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(Engine::asked())?;
    browser.size(820, 900)?;
    browser.run_first(LISTEN)?;
    for hostile in HOSTILE {
        browser.open_page(page()?, "")?;
        let fields = browser.run(FILL, &json!([hostile]))?;
        ensure!(fields.as_u64() > Some(12), "Only {fields} fields were found");
        // The bass again as it was, so that there is music to show, with the rest as it is.
        paste(&browser, "bass", "C3 D3 E3")?;
        browser.run(GO_ROUND, &json!([]))?;
        browser.run(FILL, &json!([hostile]))?;
        browser.run(GO_ROUND, &json!([]))?;
        let struck = browser.eval(STRUCK)?;
        ensure!(struck == json!([]), "{hostile}: {struck:#}");

        // By link, and in what was kept.
        browser.run(
            "const field = document.getElementById('title'); field.value = arguments[0];
             field.dispatchEvent(new Event('input', { bubbles: true }));
             field.dispatchEvent(new Event('change', { bubbles: true }));",
            &json!([hostile]),
        )?;
        let link = browser.eval("document.getElementById('kept-sketch').textContent.trim()")?;
        let link = link.as_str().unwrap_or_default().to_owned();
        browser.open_page(page()?, &link)?;
        browser.run(GO_ROUND, &json!([]))?;
        let struck = browser.eval(STRUCK)?;
        ensure!(struck == json!([]), "By link, {hostile}: {struck:#}");
        let rescued = browser.eval("document.getElementById('rescue').checkVisibility()")?;
        ensure!(rescued == false, "{hostile}: the page gave up");
    }
    // Nothing was even tried: the policy has stopped nothing.
    quiet(&browser)
}

/// What was asked for since this was last called, by the browser's own record of the page, or else by
/// what stands between it and the world. Without what stays in the page.
fn asked_for(browser: &Browser, between: &Server) -> Result<Vec<String>> {
    let own = !browser.engine().lacks(Need::Record);
    let mut asked = if own { browser.network()? } else { between.asked() };
    asked.retain(|it| !["data:", "blob:", "about:"].iter().any(|inside| it.starts_with(inside)));
    // Firefox asks its maker about itself.
    asked.retain(|it| !it.ends_with(".mozilla.com:443"));
    Ok(asked)
}

#[test]
fn the_page_asks_the_network_for_nothing() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let between = Server::start(tempfile::tempdir()?.path().to_owned())?;
    let browser = Browser::start_through(Engine::asked(), &between)?;
    browser.size(820, 900)?;
    // What a page asks for is seen.
    let elsewhere = "http://elsewhere.example/seen";
    browser.open(&format!("data:text/html,<img src={elsewhere}>"))?;
    let seen = asked_for(&browser, &between)?;
    ensure!(seen.iter().any(|it| it == elsewhere), "{seen:#?}");

    browser.open_page(page()?, "")?;
    let opening = asked_for(&browser, &between)?;
    let own = opening.len() <= 1 && opening.iter().all(|it| it.starts_with("file:"));
    ensure!(own, "Opening asked for: {opening:#?}");
    browser.click("#play")?;
    browser.wait_for("document.querySelector('#keyboard .down')")?;
    browser.click("#play")?;
    browser.run(GO_ROUND, &json!([]))?;
    for id in ["take-midi", "take-score", "take-packed", "take-picture", "save-page"] {
        browser.run(&format!("document.getElementById('{id}').click();"), &json!([]))?;
    }
    browser.run("document.getElementById('practise').click();", &json!([]))?;
    browser.wait_for("document.getElementById('practise-sheet').open")?;
    let asked = asked_for(&browser, &between)?;
    ensure!(asked.is_empty(), "Asked for: {asked:#?}");
    Ok(())
}
