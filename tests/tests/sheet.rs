//! Printed sheets: whole SVG files in millimetres with every chord once, in order,
//! inside the margins, at both papers.

use anyhow::{Context, Result};
use tastata::bass::read_bass;
use tastata::reading::{Reading, read};
use tastata::sheet::{AnswerPages, Figures, Paper, SheetWishes, Soprano, pages};
use tastata::sketch::Sketch;

fn piece(notes: usize) -> (Sketch, Reading) {
    let scale = "C3 D3 E3 F3 G3 A3 B3 C4 B3 A3 G3 F3 E3 D3 ";
    let text = scale.repeat(notes / 14 + 1);
    let words: Vec<&str> = text.split_whitespace().take(notes).collect();
    let notes = read_bass(&words.join(" "), None).notes;
    let sketch = Sketch {
        title: "Up & down <again>".to_string(),
        notes: notes.iter().map(|note| note.to_sketch()).collect(),
        ..Sketch::default()
    };
    let reading = read(&sketch);
    (sketch, reading)
}

/// The values of an attribute of all elements with a class, in the document's order.
fn all(page: &str, class: &str, attribute: &str) -> Result<Vec<String>> {
    let document = roxmltree::Document::parse(page)?;
    let of_class = document.descendants().filter(|node| {
        node.attribute("class").is_some_and(|it| it.split(' ').any(|word| word == class))
    });
    Ok(of_class.filter_map(|node| node.attribute(attribute)).map(str::to_string).collect())
}

fn texts(page: &str) -> Result<Vec<String>> {
    let document = roxmltree::Document::parse(page)?;
    let texts = document.descendants().filter(|node| node.has_tag_name("text"));
    Ok(texts.filter_map(|node| node.text()).map(str::to_string).collect())
}

#[test]
fn every_chord_is_printed_once_and_in_order() -> Result<()> {
    for paper in [Paper::A4, Paper::Letter] {
        for notes in [1, 8, 60, 300] {
            let (sketch, reading) = piece(notes);
            let wishes = SheetWishes { paper, ..SheetWishes::default() };
            let pages = pages(&sketch, &reading, &wishes);
            let mut printed = Vec::new();
            for page in &pages {
                printed.extend(all(page, "chord", "data-chord")?);
            }
            let expected: Vec<String> =
                (0..reading.harmony.chords.len()).map(|chord| chord.to_string()).collect();
            assert_eq!(printed, expected);
            assert_eq!(pages.len() > 1, notes >= 300, "{} pages", pages.len());
        }
    }
    Ok(())
}

#[test]
fn systems_stand_inside_the_margins() -> Result<()> {
    let (sketch, reading) = piece(400);
    for paper in [Paper::A4, Paper::Letter] {
        let task = "Set a soprano over this bass. ".repeat(12);
        let wishes = SheetWishes { paper, task, ..SheetWishes::default() };
        let (width, height) = paper.size();
        for page in pages(&sketch, &reading, &wishes) {
            let document = roxmltree::Document::parse(&page)?;
            let root = document.root_element();
            assert_eq!(root.attribute("width"), Some(format!("{width}mm").as_str()));
            assert_eq!(root.attribute("viewBox"), Some(format!("0 0 {width} {height}").as_str()));
            let mut below = 0.0;
            for system in root.children().filter(|node| node.attribute("transform").is_some()) {
                let transform = system.attribute("transform").unwrap_or_default();
                let place = transform.strip_prefix("translate(").context("a place")?;
                let y: f64 = place.split([' ', ')']).nth(1).context("a height")?.parse()?;
                // Every system lies below the one before; its hit areas have its height.
                assert!(y >= below, "{y} after {below}");
                let hit = system.descendants().find(|node| node.attribute("class") == Some("hit"));
                let tall: f64 =
                    hit.and_then(|hit| hit.attribute("height")).unwrap_or("0").parse()?;
                below = y + 1.75 * tall;
                assert!(y >= 15.0 && below <= height - 15.0, "{y} to {below} of {height}");
            }
        }
    }
    Ok(())
}

#[test]
fn a_sheet_to_fill_in_gives_nothing_away_but_on_the_answer_pages() -> Result<()> {
    let (sketch, reading) = piece(20);
    let wishes = SheetWishes {
        soprano: Soprano::Blank,
        figures: Figures::Blank,
        answer: AnswerPages::Added,
        task: "Figure this bass,\nthen set a soprano.".to_string(),
        ..SheetWishes::default()
    };
    let pages = pages(&sketch, &reading, &wishes);
    let [task, answer] = &pages[..] else { panic!("{} pages", pages.len()) };
    for class in ["soprano", "inner", "figures", "roll"] {
        let document = roxmltree::Document::parse(task)?;
        let found = document.descendants().any(|node| {
            node.attribute("class").is_some_and(|it| it.split(' ').any(|word| word == class))
        });
        assert!(!found, "{class} on the task");
    }
    assert_eq!(all(task, "bass", "data-chord")?.len(), 20);
    assert_eq!(all(answer, "soprano", "data-chord")?.len(), 20);
    let said = texts(task)?;
    assert_eq!(said, ["Up & down <again>", "Figure this bass,", "then set a soprano."]);
    assert!(texts(answer)?.iter().any(|text| text == "Up & down <again>: one answer"));
    Ok(())
}

#[test]
fn pages_are_numbered_and_the_code_is_on_the_first() -> Result<()> {
    let (sketch, reading) = piece(400);
    let qr = Some("https://example.org/page.html#1AAAA".to_string());
    let pages = pages(&sketch, &reading, &SheetWishes { qr, ..SheetWishes::default() });
    let count = pages.len();
    for (i, page) in pages.iter().enumerate() {
        assert!(texts(page)?.contains(&format!("{} of {count}", i + 1)));
        assert_eq!(page.contains("crispEdges"), i == 0);
    }
    Ok(())
}

#[test]
fn an_empty_piece_and_wild_words_give_a_sheet() -> Result<()> {
    let sketch = Sketch { title: "\u{0}<&\"".repeat(500), ..Sketch::default() };
    let wishes = SheetWishes {
        task: "word ".repeat(5_000),
        qr: Some("x".repeat(5_000)),
        ..SheetWishes::default()
    };
    for page in pages(&sketch, &read(&sketch), &wishes) {
        roxmltree::Document::parse(&page)?;
    }
    let sheet = pages(&Sketch::default(), &read(&Sketch::default()), &SheetWishes::default());
    assert_eq!(sheet.len(), 1);
    Ok(())
}
