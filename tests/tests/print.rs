//! What comes out of the printer: the PDF that the browser makes of the page, at both papers, for a
//! short piece with a blank soprano and its answer, and for one of six pages.

use std::io::Read;

use anyhow::{Result, ensure};
use flate2::read::ZlibDecoder;
use serde_json::json;
use tastata::bass::read_bass;
use tastata::files::{Linked, encode, open};
use tastata::sketch::Sketch;
use tastata_tests::{Browser, Engine, Need, page, shot};

fn sketch(title: &str, bass: &str) -> Sketch {
    let read = read_bass(bass, None);
    let notes = read.notes.iter().map(|note| note.to_sketch()).collect();
    Sketch { title: title.to_string(), tonality: read.tonality, notes, ..Sketch::default() }
}

/// Width and height of the paper of each page, in points.
fn printed(browser: &Browser, name: &str) -> Result<Vec<(f64, f64)>> {
    let pdf = browser.print()?;
    std::fs::write(shot(&format!("{name}.pdf")), &pdf)?;
    let text = unpacked(&pdf);
    let boxes = text.split("/MediaBox [").skip(1).filter_map(|rest| rest.split(']').next());
    boxes
        .map(|numbers| {
            let numbers: Vec<f64> =
                numbers.split_whitespace().map(str::parse).collect::<Result<_, _>>()?;
            let [_, _, width, height] = numbers[..] else { anyhow::bail!("{numbers:?}") };
            Ok((width, height))
        })
        .collect()
}

/// The text of a PDF, followed by what is packed in it.
fn unpacked(pdf: &[u8]) -> String {
    let mut all = pdf.to_vec();
    let mark = b"stream\n";
    for at in (0..pdf.len()).filter(|&at| pdf[at..].starts_with(mark)) {
        // What is not packed, or in another way, stays as it is.
        drop(ZlibDecoder::new(&pdf[at + mark.len()..]).read_to_end(&mut all));
    }
    String::from_utf8_lossy(&all).into_owned()
}

/// So many pages, each of this size. Engines round to a whole point.
fn are(pages: &[(f64, f64)], count: usize, (width, height): (f64, f64)) -> Result<()> {
    let near = |a: f64, b: f64| (a - b).abs() < 1.01;
    let right = pages.iter().all(|it| near(it.0, width) && near(it.1, height));
    ensure!(pages.len() == count && right, "{pages:?}, not {count} of {width} by {height}");
    Ok(())
}

fn choose(browser: &Browser, paper: &str) -> Result<()> {
    let script = "const it = document.getElementById('print-paper'); it.value = arguments[0];
                  it.dispatchEvent(new Event('input', { bubbles: true }));";
    browser.run(script, &json!([paper])).map(drop)
}

const PAPERS: [(&str, (f64, f64)); 2] = [("a4", (595.28, 841.89)), ("letter", (612.0, 792.0))];
const ADDRESS: &str = "https://school.example/tastata.html";

#[test]
fn a_task_and_its_answer_fill_a_page_each() -> Result<()> {
    if Engine::asked().is_skipped() || Engine::asked().lacks(Need::Printing) {
        return Ok(());
    }
    let browser = Browser::start(Engine::asked())?;
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
        are(&printed(&browser, &format!("short-{paper}"))?, 2, size)?;
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
    if Engine::asked().is_skipped() || Engine::asked().lacks(Need::Printing) {
        return Ok(());
    }
    let browser = Browser::start(Engine::asked())?;
    let scale = "C3 D3 E3 F3 G3 A3 B3 C4 B3 A3 G3 F3 E3 D3 ".repeat(37);
    let link = encode(&sketch("A long walk", &scale));
    browser.open_page(page()?, &link)?;
    for (paper, size) in PAPERS {
        // The browser's own command prints the same sheet, on the paper last chosen.
        browser.run("localStorage.setItem('tastata.paper', arguments[0])", &json!([paper]))?;
        are(&printed(&browser, &format!("long-{paper}"))?, 6, size)?;
        let chords = "[...document.querySelectorAll('#paper .chord')].map(it => +it.dataset.chord)";
        let chords = browser.eval(chords)?;
        let expected: Vec<usize> = (0..37 * 14).collect();
        assert_eq!(chords, json!(expected));
    }
    Ok(())
}

/// Firefox copies a page to print it, and leaves out signs that it has not yet looked up.
#[test]
fn the_signs_are_printed_too() -> Result<()> {
    if Engine::asked().is_skipped() || Engine::asked().lacks(Need::Printing) {
        return Ok(());
    }
    let browser = Browser::start(Engine::asked())?;
    browser.open_page(page()?, "")?;
    let whole = browser.print()?;
    std::fs::write(shot("signs.pdf"), &whole)?;
    browser.run("document.getElementById('signs').remove()", &json!([]))?;
    let bare = browser.print()?;
    ensure!(
        whole.len() > 2 * bare.len(),
        "{} bytes with signs, {} without",
        whole.len(),
        bare.len()
    );
    Ok(())
}

/// What hangs on an exercise's sheet is what its student may see.
#[test]
fn the_sheet_of_an_exercise_gives_nothing_away() -> Result<()> {
    if Engine::asked().is_skipped() || Engine::asked().lacks(Need::Printing) {
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
    let browser = Browser::start(Engine::asked())?;
    browser.open_page(page()?, &link)?;
    printed(&browser, "exercise")?;
    let found =
        |what: &str| browser.eval(&format!("document.querySelectorAll('#paper {what}').length"));
    assert_eq!(found("[data-part=bass]")?, json!(6));
    assert_eq!(found("[data-part=soprano]")?, json!(0));
    assert_eq!(found(".figures")?, json!(0));
    Ok(())
}
