//! No sentence is left in English alone, and the page's own texts are those of the
//! table of words.

use anyhow::{Context, Result, ensure};
use std::collections::HashSet;
use std::path::Path;
use tastata::words::Lang;
use tastata::words::page::page_texts;
use tastata_tests::workspace;

/// Marks of a sentence without its versions.
const MARKS: [&str; 2] = ["phrase_later!(", "[later \""];

#[test]
fn no_sentence_is_in_english_alone() -> Result<()> {
    let mut left = Vec::new();
    for room in ["core/src", "web/src"] {
        find(&workspace().join(room), &mut left)?;
    }
    ensure!(left.is_empty(), "in English alone: {left:#?}");
    Ok(())
}

fn find(folder: &Path, left: &mut Vec<String>) -> Result<()> {
    for entry in std::fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            find(&path, left)?;
        } else if path.extension().is_some_and(|it| it == "rs") {
            let text = std::fs::read_to_string(&path)?;
            let lines = text.lines().enumerate();
            let marked = lines.filter(|(_, line)| MARKS.iter().any(|mark| line.contains(mark)));
            left.extend(marked.map(|(i, _)| format!("{}:{}", path.display(), i + 1)));
        }
    }
    Ok(())
}

/// The page can be read without its module: what stands in it is the English of the
/// table, and no row of the table is without its place.
#[test]
fn the_page_stands_as_the_table_has_it() -> Result<()> {
    let page = std::fs::read_to_string(workspace().join("www/index.html"))?;
    let texts = page_texts(Lang::English);
    let mut used = HashSet::new();
    for tag in page.split('<').filter(|tag| tag.contains(" data-t")) {
        let (inside, after) = tag.split_once('>').context("a tag that ends")?;
        let attribute = |name: &str| {
            let from = inside.split_once(&format!(" {name}=\""))?.1;
            from.split_once('"').map(|(value, _)| value)
        };
        let Some(key) = attribute("data-t").or(attribute("id")) else { continue };
        if !(inside.contains(" data-t ")
            || inside.contains(" data-t=")
            || inside.ends_with("data-t"))
        {
            continue;
        }
        for (part, stands) in [
            (".label", attribute("aria-label")),
            (".title", attribute("title")),
            (".hint", attribute("placeholder")),
        ] {
            let key = format!("{key}{part}");
            if let Some(text) = texts.get(key.as_str()) {
                ensure!(stands == Some(text), "{key}: {stands:?} is not {text:?}");
                used.insert(key);
            }
        }
        if let Some(text) = texts.get(key) {
            let start = page.find(inside).context("a place")? + inside.len() + 1;
            let stands = after.split_whitespace().collect::<Vec<_>>().join(" ");
            // Where a control stands first, the text comes behind it.
            let behind = page.get(start..).and_then(|it| it.split_once("> ")).map(|it| it.1);
            let behind = behind.and_then(|it| it.split('<').next()).unwrap_or_default().trim();
            ensure!(stands == *text || behind == *text, "{key}: {stands:?} is not {text:?}");
            used.insert(key.to_string());
        }
    }
    let unused: Vec<_> = texts.keys().filter(|key| !used.contains(**key)).collect();
    ensure!(unused.is_empty(), "rows without a place: {unused:?}");
    Ok(())
}
