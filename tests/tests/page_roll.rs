//! The roll and the sound on a phone, by finger: a stroke is drawn, the line of dwelling
//! pulled, a chord spiced, a whole prelude made and changed, a tuning pasted, its wolf told, and the
//! page goes on answering while it plays. What the person did is read from the kept sketch.

use anyhow::{Context, Result, ensure};
use serde_json::json;
use std::time::{Duration, Instant};
use tastata::files::decode;
use tastata::roll::{Held, Stroke, StrokePlan};
use tastata::sketch::Sketch;
use tastata::sound::Temperament;
use tastata_tests::visit::{SIZES, quiet, visit_by_touch};
use tastata_tests::{Browser, Engine, Pointer};

const CHORDS: &str = "document.querySelectorAll('#staff [data-part=soprano]').length";

/// The kept sketch once it is as expected: it is written down a moment after the last change.
fn kept_when(browser: &Browser, expected: impl Fn(&Sketch) -> bool) -> Result<Sketch> {
    let end = Instant::now() + Duration::from_secs(10);
    loop {
        let sketch = kept(browser)?;
        if expected(&sketch) {
            return Ok(sketch);
        }
        ensure!(
            Instant::now() < end,
            "the sketch was kept as {:?} {:?}",
            sketch.roll,
            sketch.notes
        );
        std::thread::sleep(Duration::from_millis(50));
    }
}

fn kept(browser: &Browser) -> Result<Sketch> {
    let link = browser.eval("document.getElementById('kept-sketch').textContent")?;
    let link = link.as_str().context("a link")?.trim();
    decode(link).map_err(|trouble| anyhow::anyhow!("{link}: {trouble:?}"))
}

/// Gives a field a value, as typing, choosing or pasting does.
fn set(browser: &Browser, id: &str, value: &str) -> Result<()> {
    browser.run(
        "const field = document.getElementById(arguments[0]); field.value = arguments[1]; \
         for (const kind of ['input', 'change']) \
           field.dispatchEvent(new Event(kind, { bubbles: true }));",
        &json!([id, value]),
    )?;
    Ok(())
}

fn start() -> Result<Browser> {
    let browser = visit_by_touch(SIZES[0], "")?;
    set(&browser, "bass", "D3 E3 F3 G3 A3:4-3 D3")?;
    browser.wait_for(&format!("{CHORDS} === 7"))?;
    browser.run(
        "for (const it of document.querySelectorAll('details')) it.open = true;",
        &json!([]),
    )?;
    browser.click("#staff [data-part=bass][data-chord='1']")?;
    browser.wait_for("!document.getElementById('card').hidden")?;
    Ok(browser)
}

fn into_view(browser: &Browser, selector: &str) -> Result<()> {
    let center = "document.querySelector(arguments[0]).scrollIntoView({ block: 'center', behavior: 'instant' })";
    browser.run(center, &json!([selector]))?;
    // A touch while the page still glides would stop it and press nothing.
    std::thread::sleep(std::time::Duration::from_millis(600));
    Ok(())
}

#[test]
fn a_stroke_is_drawn_and_given_to_all() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = start()?;
    into_view(&browser, "#stroke-pad")?;
    let pad = browser.run(
        "const r = document.getElementById('stroke-pad').getBoundingClientRect(); \
         return [r.left, r.top, r.width, r.height];",
        &json!([]),
    )?;
    let side = |i: usize| pad[i].as_f64().context("a size");
    let (left, top, width, height) = (side(0)?, side(1)?, side(2)?, side(3)?);
    // Up to the soprano, back to the middle, and up again.
    let path: Vec<(f64, f64)> = [(0.03, 0.97), (0.3, 0.05), (0.6, 0.5), (0.97, 0.04)]
        .map(|(x, y)| (left + x * width, top + y * height))
        .to_vec();
    browser.stroke(&path, Pointer::Finger)?;
    let drawn = |it: &Sketch| matches!(it.notes[1].stroke.stroke, Some(Stroke::Drawn(_)));
    let sketch = kept_when(&browser, drawn)?;
    let Some(Stroke::Drawn(heights)) = sketch.notes[1].stroke.stroke else {
        anyhow::bail!("no stroke was drawn: {:?}", sketch.notes[1].stroke);
    };
    let middle = heights[3..6].iter().min().copied().unwrap_or(0);
    ensure!(heights[0] < 20 && heights[2] > 60 && middle < 75 && heights[7] > 80, "{heights:?}");
    // By mouse, since after a drag Chromium makes no click of a touch that follows soon.
    into_view(&browser, "#stroke-for-all")?;
    browser.press("#stroke-for-all", Pointer::Mouse)?;
    let plan = StrokePlan::Even(Stroke::Drawn(heights));
    kept_when(&browser, |it| it.roll.plan == plan)?;
    quiet(&browser)
}

#[test]
fn the_line_of_dwelling_is_pulled_up_by_a_finger() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = start()?;
    browser.click("#speech")?;
    // What is far out of sight is not drawn.
    into_view(&browser, "#staff")?;
    browser.wait_for("document.querySelector('#staff .dwell') !== null")?;
    into_view(&browser, "#staff .dwell[data-dwell='2']")?;
    let from = browser.middle("#staff .dwell[data-dwell='2'] circle")?;
    browser.drag(from, (from.0, from.1 - 40.0), Pointer::Finger)?;
    let pulled = |it: &Sketch| it.notes[2].stroke.dwell.is_some_and(|it| (150..=250).contains(&it));
    kept_when(&browser, pulled)?;
    // One step back undoes the whole pull.
    browser.click("#undo")?;
    kept_when(&browser, |it| it.notes[2].stroke.dwell.is_none())?;
    Ok(())
}

#[test]
fn spice_holding_pitch_and_tuning_are_chosen_and_the_wolf_is_told() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = start()?;
    set(&browser, "chord-spice", "100")?;
    set(&browser, "held", "kept")?;
    set(&browser, "a4", "397.5")?;
    set(&browser, "own-tuning", "0\t90\n200\t300\n400\t500\n600\t700\n800\t900\n1000\t1100")?;
    let custom = |it: &Sketch| matches!(it.sound.temperament, Temperament::Custom(_));
    let sketch = kept_when(&browser, custom)?;
    ensure!(sketch.notes[1].stroke.spice == Some(100) && sketch.roll.held == Held::Kept);
    ensure!(sketch.sound.a4 == 397.5, "{}", sketch.sound.a4);
    let Temperament::Custom(table) = sketch.sound.temperament else {
        anyhow::bail!("the table was not taken");
    };
    ensure!(table[1] == 90_000 && table[11] == 1_100_000, "{table:?}");
    let added = browser.eval("document.getElementById('added').textContent")?;
    ensure!(added.as_str().is_some_and(|text| text.len() > 20), "{added}");
    let force = browser.eval("document.getElementById('force').textContent")?;
    ensure!(force.as_str().is_some_and(|text| text.contains("equally loud")), "{force}");
    browser.wait_for("document.getElementById('temperament').value === 'own'")?;
    // A mistake in it is pointed at, and nothing is lost.
    set(&browser, "own-tuning", "0 100 2OO 300")?;
    browser
        .wait_for("document.getElementById('own-tuning-note').textContent.trim().length > 10")?;
    ensure!(kept(&browser)?.sound.temperament == sketch.sound.temperament);
    for (a4, kept) in [("392", 392.0), ("466", 466.0)] {
        set(&browser, "a4", a4)?;
        kept_when(&browser, |it| it.sound.a4 == kept)?;
    }
    // A♭ major in quarter-comma meantone has no A♭.
    set(&browser, "temperament", "0")?;
    set(&browser, "bass", "Ab2 Db3 Eb3 Ab2")?;
    browser.wait_for(&format!("{CHORDS} === 4"))?;
    browser.wait_for("document.getElementById('remarks').textContent.includes('howls')")?;
    Ok(())
}

#[test]
fn a_prelude_is_made_in_one_press_and_plays_without_stalling_the_page() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = start()?;
    for seconds in ["20", "240"] {
        set(&browser, "prelude-length", seconds)?;
        into_view(&browser, "#make-prelude")?;
        browser.press("#make-prelude", Pointer::Finger)?;
        let wanted: f64 = seconds.parse()?;
        let lasts = |it: &Sketch| tastata::reading::read(it).performance.end.as_secs();
        kept_when(&browser, |it| (lasts(it) - wanted).abs() < 0.1 * wanted)?;
    }
    // Every choice can be changed afterwards; so can the take.
    let before = kept(&browser)?;
    browser.click("#take")?;
    browser.click("#staff [data-part=bass][data-chord='3']")?;
    set(&browser, "chord-times", "3")?;
    kept_when(&browser, |it| it.roll.seed != before.roll.seed && it.notes != before.notes)?;
    browser.click("#play")?;
    browser.wait_for("document.getElementById('play').getAttribute('aria-pressed') === 'true'")?;
    // The longest time between two looks of a timer while it plays. How long that may be is for a
    // person, who notices half a second; it is printed for a closer look.
    let longest = browser.run_async(
        "let last = performance.now(), longest = 0; const end = last + 3000; \
         while (last < end) { await new Promise(done => setTimeout(done, 4)); \
           const now = performance.now(); longest = Math.max(longest, now - last); last = now; } \
         return longest;",
    )?;
    println!("the page answers within {longest} ms while it plays");
    browser.wait_for("document.querySelectorAll('#keyboard .down').length > 0")?;
    browser.click("#play")?;
    quiet(&browser)
}
