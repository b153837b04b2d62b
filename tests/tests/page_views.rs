//! How the page looks and who can use it: three sizes in three engines without sideways scrolling,
//! targets a finger hits, and no fault that axe-core finds, light and dark, in every view. Pictures
//! go to `target/shots`.

use anyhow::{Context, Result, ensure};
use serde_json::{Value, json};
use tastata_tests::visit::visit;
use tastata_tests::{Browser, Engine, Need, Taste, page, shot, workspace};

const SIZES: [(u32, u32); 3] = [(360, 740), (820, 1180), (1920, 1080)];

/// Everything to press that is smaller than 44 by 44 pixels. What stands in a label is pressed by it.
const SMALL_TARGETS: &str = "
  return [...document.querySelectorAll('button, select, input, textarea, summary, a[href]')]
    .filter(it => it.checkVisibility() && !it.classList.contains('skip'))
    .map(it => [it.id || it.textContent.trim(), (it.closest('label') || it).getBoundingClientRect()])
    .filter(([, r]) => Math.round(r.width) < 44 || Math.round(r.height) < 44)
    .map(([name, r]) => `${name}: ${Math.round(r.width)} by ${Math.round(r.height)}`);";

fn open_everything(browser: &Browser) -> Result<()> {
    browser.run(
        "for (const it of document.querySelectorAll('details')) it.open = true;",
        &json!([]),
    )?;
    browser.click("#staff [data-part=bass][data-chord='1']")?;
    browser.wait_for("!document.getElementById('card').hidden")
}

#[test]
fn it_is_shown_at_every_size() -> Result<()> {
    let engine = Engine::asked();
    if engine.is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(engine)?;
    for (width, height) in SIZES {
        browser.size(width, height)?;
        browser.open_page(page()?, "")?;
        let name = format!("{}-{width}x{height}", engine.name());
        browser.shoot(&shot(&format!("{name}.png")))?;
        open_everything(&browser)?;
        browser.shoot(&shot(&format!("{name}-chord.png")))?;
        let wide = browser.eval("document.documentElement.scrollWidth")?;
        ensure!(wide.as_u64() <= Some(width.into()), "{name}: the page is {wide} px wide");
        let small = browser.run(SMALL_TARGETS, &json!([]))?;
        ensure!(small == json!([]), "{name}: too small for a finger: {small:#}");
    }
    let complaints = browser.complaints()?;
    ensure!(complaints.is_empty(), "{complaints:#?}");
    Ok(())
}

/// What axe-core finds wrong with the page as it stands.
fn barriers(browser: &Browser) -> Result<Vec<String>> {
    let file = workspace().join("target/tools/axe/node_modules/axe-core/axe.min.js");
    let axe = std::fs::read_to_string(file).context(
        "axe-core is not installed: run tests/run once, which installs what the tests need",
    )?;
    browser.run(&axe, &json!([]))?;
    let found = browser.run_async(
        "const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
         const { violations, passes } = await axe.run(document, { runOnly: rules });
         if (passes.length < 10) throw new Error('axe has tried almost nothing');
         return violations.flatMap(v => v.nodes.map(n => `${v.id}: ${n.html.slice(0, 120)} ${n.failureSummary}`));",
    )?;
    Ok(found.as_array().into_iter().flatten().map(Value::to_string).collect())
}

/// A way to one view of the page, as a script.
const VIEWS: [(&str, &str); 13] = [
    ("as it opens", ""),
    (
        "with a chord chosen and everything open",
        "for (const it of document.querySelectorAll('details')) it.open = true;",
    ),
    ("with the link", "document.getElementById('share').click();"),
    ("empty", "document.getElementById('clear').click();"),
    ("printing", "for (const id of ['share', 'print']) document.getElementById(id).click();"),
    ("practising", "document.getElementById('practise').click();"),
    (
        "at play along",
        "for (const id of ['practise', 'practise-along']) document.getElementById(id).click();",
    ),
    ("making an exercise", "document.getElementById('teach').click();"),
    (
        "handing out a set",
        "for (const id of ['teach', 'make-put', 'set-pass']) document.getElementById(id).click();",
    ),
    (
        "collecting",
        "document.getElementById('teach').click(); document.querySelector('[data-room=collect]').click();",
    ),
    (
        "doing an exercise",
        "for (const id of ['teach', 'make-put', 'set-try', 'desk-check']) document.getElementById(id).click();",
    ),
    ("projecting", "document.getElementById('project').click();"),
    ("among the words of the trade", "document.getElementById('glossary').click();"),
];

#[test]
fn nobody_is_shut_out_by_what_axe_can_find() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let mut found = Vec::new();
    for taste in [Taste::Light, Taste::Dark] {
        let browser = Browser::start_for(Engine::asked(), taste)?;
        let dark = "matchMedia('(prefers-color-scheme: dark)').matches";
        ensure!(browser.eval(dark)? == (taste == Taste::Dark), "The page is not shown {taste:?}");
        for (width, height) in [(360, 740), (1920, 1080)] {
            // The same page is read each time: where that takes long, one size in each taste will do.
            if browser.engine().lacks(Need::Haste) && (width == 360) != (taste == Taste::Light) {
                continue;
            }
            browser.size(width, height)?;
            for (view, way) in VIEWS {
                browser.open_page(page()?, "")?;
                if view.contains("chosen") {
                    open_everything(&browser)?;
                }
                browser.run(way, &json!([]))?;
                let name = format!("{taste:?}, {width} wide, {view}");
                if taste == Taste::Dark && width == 360 {
                    let file = format!("dark-{}.png", view.replace(' ', "-"));
                    browser.shoot(&shot(&file))?;
                }
                found.extend(barriers(&browser)?.into_iter().map(|it| format!("{name}: {it}")));
                browser.run("localStorage.clear();", &json!([]))?;
            }
        }
    }
    ensure!(found.is_empty(), "{} barriers:\n{}", found.len(), found.join("\n"));
    Ok(())
}

#[test]
fn axe_finds_a_barrier_that_is_there() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(Engine::asked())?;
    browser.open_page(page()?, "")?;
    browser
        .run("document.querySelector('main').append(document.createElement('img'));", &json!([]))?;
    let found = barriers(&browser)?;
    ensure!(found.iter().any(|it| it.contains("image-alt")), "{found:#?}");
    Ok(())
}

#[test]
fn play_lies_under_either_thumb() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = visit((360, 740), "")?;
    let left = browser.middle("#play")?.0;
    browser.run(
        "const side = document.getElementById('side'); side.value = 'right';
         side.dispatchEvent(new Event('change', { bubbles: true }));",
        &json!([]),
    )?;
    let right = browser.middle("#play")?.0;
    ensure!(left < 90.0 && right > 270.0, "Play is at {left}, then at {right}");
    browser.reload()?;
    ensure!(browser.middle("#play")?.0 == right, "The side is forgotten");
    ensure!(browser.eval("document.getElementById('side').value")? == "right");
    browser.run("localStorage.clear();", &json!([]))?;
    Ok(())
}
