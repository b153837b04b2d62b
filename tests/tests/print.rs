//! What comes out of the printer: the PDF that Chromium makes of the page, at both papers, for a
//! short piece with a blank soprano and its answer, and for one of six pages.

use anyhow::{Context, Result, ensure};
use base64::{Engine as _, engine::general_purpose::STANDARD};
use serde_json::json;
use tastata::bass::read_bass;
use tastata::files::{Linked, encode, open};
use tastata::sketch::Sketch;
use tastata_tests::{Browser, Engine, page, workspace};

fn sketch(title: &str, bass: &str) -> Sketch {
    let read = read_bass(bass, None);
    let notes = read.notes.iter().map(|note| note.to_sketch()).collect();
    Sketch { title: title.to_string(), tonality: read.tonality, notes, ..Sketch::default() }
}

/// The sheet of paper of each page, in points, width before height, rounded.
fn printed(browser: &Browser, name: &str) -> Result<Vec<String>> {
    let wishes = json!({ "preferCSSPageSize": true, "printBackground": true });
    let pdf = browser.devtools("Page.printToPDF", &wishes)?;
    let pdf = STANDARD.decode(pdf["data"].as_str().context("No PDF")?)?;
    std::fs::write(workspace().join(format!("target/shots/{name}.pdf")), &pdf)?;
    let text = String::from_utf8_lossy(&pdf);
    let boxes = text.split("/MediaBox [").skip(1).filter_map(|rest| rest.split(']').next());
    boxes
        .map(|numbers| {
            let numbers: Vec<f64> =
                numbers.split_whitespace().map(str::parse).collect::<Result<_, _>>()?;
            let [_, _, width, height] = numbers[..] else { anyhow::bail!("{numbers:?}") };
            Ok(format!("{width:.0}x{height:.0}"))
        })
        .collect()
}

fn choose(browser: &Browser, paper: &str) -> Result<()> {
    let script = "const it = document.getElementById('print-paper'); it.value = arguments[0];
                  it.dispatchEvent(new Event('input', { bubbles: true }));";
    browser.run(script, &json!([paper])).map(drop)
}

const PAPERS: [(&str, &str); 2] = [("a4", "595x842"), ("letter", "612x792")];
const ADDRESS: &str = "https://school.example/tastata.html";

#[test]
fn a_task_and_its_answer_fill_a_page_each() -> Result<()> {
    if Engine::Chromium.is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(Engine::Chromium)?;
    browser.size(820, 1180)?;
    let link = encode(&sketch("Evening", "D minor: D3 C#3:6 D3 G2:6/5 A2:4-3 D2"));
    browser.open_page(page()?, &link)?;
    browser.click("#share")?;
    browser.click("#print")?;
    // A page that is a file cannot be opened by a code, until it is told where it is kept.
    let code = "[...document.querySelectorAll('#print-preview svg svg')].length";
    assert_eq!(browser.eval(code)?, json!(0));
    browser.click("#print-base")?;
    browser.keys(ADDRESS)?;
    assert_eq!(browser.eval(code)?, json!(1));
    browser.click("#print-task")?;
    browser.keys("Set a soprano.")?;
    browser.click("#print-no-soprano")?;
    browser.click("#print-answer")?;
    browser.wait_for("document.querySelectorAll('#print-preview > svg').length === 2")?;
    for (paper, size) in PAPERS {
        choose(&browser, paper)?;
        assert_eq!(printed(&browser, &format!("short-{paper}"))?, [size, size]);
    }
    let of = |page: u32, what: &str| {
        browser.eval(&format!(
            "document.querySelectorAll('#paper > svg:nth-child({page}) {what}').length"
        ))
    };
    assert_eq!(of(1, "[data-part=soprano]")?, json!(0));
    assert_eq!(of(2, "[data-part=soprano]")?, json!(7));
    let words = browser.eval("document.querySelector('#paper > svg').textContent")?;
    let words = words.as_str().unwrap_or_default();
    ensure!(words.contains("Evening") && words.contains("Set a soprano."), "{words}");
    // The signs of the screen draw the paper's, and nothing is there twice.
    let twice = "[...document.querySelectorAll('[id]')].map(e => e.id)
                 .filter((id, i, all) => all.indexOf(id) !== i)";
    assert_eq!(browser.eval(twice)?, json!([]));
    let lost = "[...document.querySelectorAll('#paper use')]
                .filter(use => !document.querySelector(use.getAttribute('href'))).length";
    assert_eq!(browser.eval(lost)?, json!(0));
    assert_eq!(browser.complaints()?, Vec::<String>::new());
    Ok(())
}

#[test]
fn a_piece_of_six_pages_breaks_between_its_systems() -> Result<()> {
    if Engine::Chromium.is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(Engine::Chromium)?;
    let scale = "C3 D3 E3 F3 G3 A3 B3 C4 B3 A3 G3 F3 E3 D3 ".repeat(37);
    let link = encode(&sketch("A long walk", &scale));
    browser.open_page(page()?, &link)?;
    for (paper, size) in PAPERS {
        // The browser's own command prints the same sheet, on the paper last chosen.
        browser.run("localStorage.setItem('tastata.paper', arguments[0])", &json!([paper]))?;
        assert_eq!(printed(&browser, &format!("long-{paper}"))?, [size; 6]);
        let chords = "[...document.querySelectorAll('#paper .chord')].map(it => +it.dataset.chord)";
        let chords = browser.eval(chords)?;
        let expected: Vec<usize> = (0..37 * 14).collect();
        assert_eq!(chords, json!(expected));
    }
    Ok(())
}

/// Firefox copies a page to print it, and leaves out signs that it has not yet looked up.
#[test]
fn firefox_prints_the_signs_too() -> Result<()> {
    if Engine::Firefox.is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(Engine::Firefox)?;
    browser.open_page(page()?, "")?;
    let whole = browser.print()?;
    std::fs::write(workspace().join("target/shots/firefox.pdf"), &whole)?;
    browser.run("document.getElementById('signs').remove()", &json!([]))?;
    let bare = browser.print()?;
    ensure!(
        whole.len() > 3 * bare.len(),
        "{} bytes with signs, {} without",
        whole.len(),
        bare.len()
    );
    Ok(())
}

/// What hangs on an exercise's sheet is what its student may see.
#[test]
fn the_sheet_of_an_exercise_gives_nothing_away() -> Result<()> {
    if Engine::Chromium.is_skipped() {
        return Ok(());
    }
    let piece = sketch("Evening", "D minor: D3 C#3 D3 G2 A2 D2");
    let wishes = tastata::sheet::SheetWishes {
        figures: tastata::sheet::Figures::Blank,
        soprano: tastata::sheet::Soprano::Blank,
        task: "Figure this bass, then set a soprano.".to_string(),
        ..Default::default()
    };
    let link = tastata::sheet::fragment(&piece, &wishes);
    match open(&link).map_err(|error| anyhow::anyhow!("{error:?}"))? {
        Linked::Set(set) => assert_eq!(set.exercises[0].asks.len(), 2),
        other => anyhow::bail!("{other:?}"),
    }
    let browser = Browser::start(Engine::Chromium)?;
    browser.open_page(page()?, &link)?;
    printed(&browser, "exercise")?;
    let found =
        |what: &str| browser.eval(&format!("document.querySelectorAll('#paper {what}').length"));
    assert_eq!(found("[data-part=bass]")?, json!(6));
    assert_eq!(found("[data-part=soprano]")?, json!(0));
    assert_eq!(found(".figures")?, json!(0));
    Ok(())
}
