//! Long use of the real page: buttons, keys, drags, typing and playing in no
//! order. Nothing is said to the console, memory and the page's nodes stop growing, undo
//! goes back to the very start, and what was last done is there after the page is killed.
//! `TASTATA_DEEDS` asks for more than the usual number.

use anyhow::{Context, Result, ensure};
use serde_json::json;
use tastata_tests::{Browser, Engine, page};

/// Deeds in one round; the page is put back to its example after each.
const ROUND: usize = 50;
/// Rounds before which memory may still grow.
const WARM: usize = 6;

/// Keeps the module's memory where it can be measured.
const WATCH: &str = "
  for (const way of ['instantiate', 'instantiateStreaming']) {
    const instantiate = WebAssembly[way];
    WebAssembly[way] = async (...given) => {
      const made = await instantiate(...given);
      window.watchedMemory = (made.instance || made).exports.memory;
      return made;
    };
  }";

/// Teaches the page to do one thing, the same for the same number, and to say what it
/// did. What leaves the page or asks the system for something is left out.
const LEARN: &str = "
  let state = 0n;
  const below = of => {
    state = (state * 6364136223846793005n + 1442695040888963407n) & 0xffffffffffffffffn;
    return Number((state >> 33n) % BigInt(Math.max(of, 1)));
  };
  const one = list => list[below(list.length)];
  const outside = /^(print|save-page|take-|midi-in|bring|copy|pass-|share|class-|rescue|project|undo)/;
  const shown = element => element.checkVisibility() && !element.disabled && !outside.test(element.id);
  const send = (target, name, x, y) => target.dispatchEvent(new PointerEvent(name, { bubbles: true,
    cancelable: true, pointerId: 3, pointerType: 'touch', isPrimary: true, button: 0, clientX: x, clientY: y }));
  const basses = ['C3 D3 E3 F3 G3 C3', 'd: D3 C#3 6 D3 G3 A3 5/4 3 D3', 'C', '', 'F A quaver C 7-6 9 ('];
  const deeds = {
    press() { const button = one([...document.querySelectorAll('button')].filter(shown)); button?.click(); return button?.id; },
    choose() {
      const select = one([...document.querySelectorAll('select')].filter(shown));
      if (!select) return;
      select.value = one([...select.options]).value;
      select.dispatchEvent(new Event('change', { bubbles: true }));
      return select.id;
    },
    slide() {
      const slider = one([...document.querySelectorAll('input[type=range]')].filter(shown));
      if (!slider) return;
      slider.value = Number(slider.min) + below(Number(slider.max) - Number(slider.min) + 1);
      slider.dispatchEvent(new Event('input', { bubbles: true }));
      slider.dispatchEvent(new Event('change', { bubbles: true }));
    },
    type() {
      const field = document.getElementById('bass');
      field.value = one(basses);
      field.dispatchEvent(new Event('input', { bubbles: true }));
    },
    key() {
      const r = document.getElementById('keyboard').getBoundingClientRect();
      const [x, y] = [r.x + r.width * below(100) / 100, r.y + r.height * (20 + below(70)) / 100];
      const target = document.elementFromPoint(x, y);
      if (target) { send(target, 'pointerdown', x, y); send(target, 'pointerup', x, y); }
    },
    drag() {
      const grip = one([...document.querySelectorAll('#staff [data-part]')]);
      if (!grip) return;
      const r = grip.getBoundingClientRect();
      send(grip, 'pointerdown', r.x + 2, r.y + 2);
      for (let step = 1; step < 4; step += 1) {
        send(document.getElementById('staff'), 'pointermove', r.x + 2, r.y + 2 + step * (below(2) ? 9 : -9));
      }
      send(document.getElementById('staff'), 'pointerup', r.x + 2, r.y + 2);
    },
    keys() {
      const key = one(['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown', 'p', 'Delete', 'Enter', ' ']);
      document.getElementById('staff').dispatchEvent(
        new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
    },
    back() { document.getElementById('undo').click(); },
  };
  const names = ['press', 'press', 'choose', 'slide', 'type', 'key', 'key', 'drag', 'drag', 'keys', 'keys', 'back'];
  window.deed = number => {
    state = BigInt(number) * 0x9e3779b97f4a7c15n;
    below(2);
    const name = one(names);
    return name + ' ' + (deeds[name]() ?? '');
  };
  window.tidy = () => {
    for (const dialog of document.querySelectorAll('dialog[open]')) dialog.close();
    for (const id of ['desk-leave', 'along-stop', 'project-end', 'card-close']) {
      const button = document.getElementById(id);
      if (button && button.checkVisibility()) button.click();
    }
  };";

#[derive(Debug)]
struct Size {
    module: f64,
    nodes: f64,
}

fn size(browser: &Browser) -> Result<Size> {
    browser.collect_garbage()?;
    let number = |expression: &str| -> Result<f64> {
        browser.eval(expression)?.as_f64().with_context(|| format!("No number: {expression}"))
    };
    Ok(Size {
        module: number("window.watchedMemory.buffer.byteLength")?,
        nodes: number("document.querySelectorAll('*').length")?,
    })
}

/// The whole sketch, as the page gives it away.
fn link(browser: &Browser) -> Result<String> {
    let link = browser.run(
        "document.getElementById('share').click();
         const link = document.getElementById('link').value;
         document.getElementById('share-close').click();
         return link;",
        &json!([]),
    )?;
    let (_, sketch) = link.as_str().and_then(|it| it.split_once('#')).context("No link")?;
    Ok(sketch.to_owned())
}

#[test]
fn the_page_bears_long_use() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let asked = std::env::var("TASTATA_DEEDS").ok().and_then(|deeds| deeds.parse().ok());
    let rounds = asked.unwrap_or(400_usize).div_ceil(ROUND).max(WARM + 2);
    let browser = Browser::start(Engine::asked())?;
    browser.size(820, 1180)?;
    browser.run_first(WATCH)?;
    browser.open_page(page()?, "")?;
    let start = link(&browser)?;
    // A real press lets the page sound.
    browser.click("#keyboard")?;
    browser.run(LEARN, &json!([]))?;
    let mut sizes = Vec::new();
    let mut last = String::new();
    for round in 0..rounds {
        // A phone or tablet is turned between the rounds.
        let (width, height) = if round % 2 == 0 { (820, 1180) } else { (740, 360) };
        browser.size(width, height)?;
        for deed in round * ROUND..(round + 1) * ROUND {
            let did = browser.run("return window.deed(arguments[0])", &json!([deed]));
            let did = did.with_context(|| format!("Deed {deed} after {last}"))?;
            last = format!("{deed}: {did}");
        }
        browser.run("window.tidy()", &json!([]))?;
        browser.size(820, 1180)?;
        browser.run("document.getElementById('staff').scrollIntoView()", &json!([]))?;
        sizes.push(size(&browser)?);
    }
    println!("{sizes:#?}");
    let complaints = browser.complaints()?;
    ensure!(complaints.is_empty(), "{complaints:#?}");
    let rescued = browser.eval("document.getElementById('rescue').checkVisibility()")?;
    ensure!(rescued == false, "The page gave up");

    // Growth after the warm-up: none of memory but a page or two, none of nodes but what
    // the last sketch needs.
    let (warm, late) = sizes.split_at(WARM);
    let most = |sizes: &[Size], of: fn(&Size) -> f64| sizes.iter().map(of).fold(0.0, f64::max);
    let memory = most(late, |size| size.module) - most(warm, |size| size.module);
    ensure!(memory < 4e6, "The module's memory grew by {memory} bytes after the warm-up");
    let nodes = most(late, |size| size.nodes);
    ensure!(nodes < 12_000.0, "{nodes} nodes");

    // What was last done is kept.
    browser.run(
        "const field = document.getElementById('bass'); field.value = 'G2 A2 B2 C3'; \
         field.dispatchEvent(new Event('input', { bubbles: true }));",
        &json!([]),
    )?;
    browser.wait_for("document.querySelectorAll('#staff [data-part=bass]').length === 4")?;

    ensure!(link(&browser)? != start, "The link does not tell what was done");

    // All of it undone, many steps to a turn.
    let back = "const undo = document.getElementById('undo'); let steps = 0; \
                while (!undo.disabled && steps < 200) { undo.click(); steps += 1; } return undo.disabled;";
    let mut turns = 0;
    while browser.run(back, &json!([]))? == false {
        turns += 1;
        ensure!(turns < 500, "Undo never ends");
    }
    let end = link(&browser)?;
    ensure!(end == start, "Undone to {end} and not to {start}");
    Ok(())
}
