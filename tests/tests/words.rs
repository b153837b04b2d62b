//! Sentences that are still in English alone, by file: a list that only shrinks.

use anyhow::{Context, Result};
use std::path::Path;

/// Marks of a sentence without its versions.
const MARKS: [&str; 4] = ["phrase_later!(", "[later \"", "let _ = lang;", "(_, "];
/// How many are left, all together.
const LEFT: usize = 700;

#[test]
fn what_is_still_in_english_alone_shrinks() -> Result<()> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).parent().context("a root")?;
    let mut left = Vec::new();
    for room in ["core/src/words", "web/src"] {
        count(&root.join(room), &mut left)?;
    }
    let all: usize = left.iter().map(|(_, count)| count).sum();
    for (file, count) in &left {
        println!("{count:4} {file}");
    }
    assert!(all <= LEFT, "{all} sentences are in English alone");
    Ok(())
}

fn count(folder: &Path, left: &mut Vec<(String, usize)>) -> Result<()> {
    for entry in std::fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            count(&path, left)?;
        } else if path.extension().is_some_and(|it| it == "rs") {
            let text = std::fs::read_to_string(&path)?;
            let found = MARKS.iter().map(|mark| text.matches(mark).count()).sum();
            if found > 0 {
                left.push((path.display().to_string(), found));
            }
        }
    }
    Ok(())
}
