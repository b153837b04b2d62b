//! The harmony against human analyses of chorales and madrigals, given only the
//! bass. `tests/harmony.md` explains the numbers; here they are kept true.

use anyhow::Result;
use tastata_tests::analyses::{Row, comparison, pieces, table, unseen};
use tastata_tests::workspace;

fn rows(collection: &str) -> Result<Vec<Row>> {
    let pieces = pieces(collection)?;
    let rows = comparison(&pieces, &unseen(collection, &pieces));
    for line in table(&rows) {
        println!("{collection} {line}");
    }
    Ok(rows)
}

fn of<'a>(rows: &'a [Row], name: &str, told: &str) -> &'a Row {
    rows.iter().find(|row| row.name.contains(name) && row.told.contains(told)).expect("a row")
}

/// Bounds a little under what is reached; the aim of 80 exact and 90 by class is
/// reached in figures with the lengths told, and missed by three tenths in class.
#[test]
fn chorales() -> Result<()> {
    let rows = rows("chorales")?;
    let told = of(&rows, "Chorales", "each");
    let exact = |row: &Row| row.score.percent(row.score.exact);
    let class = |row: &Row| row.score.percent(row.score.class);
    assert!(exact(told) >= 79.2 && class(told) >= 88.5);
    let measured = of(&rows, "lengths told", "each");
    assert!(exact(measured) >= 80.0 && class(measured) >= 89.2);
    // Without being told the tonality no version loses more than five points.
    for version in ["Campion", "Gasparini", "Chorales", "lengths told"] {
        let (told, found) = (of(&rows, version, "each"), of(&rows, version, "opening"));
        assert!(exact(told) - exact(found) <= 5.0 && class(told) - class(found) <= 5.0);
    }
    for baseline in ["always", "octave rule", "most common"] {
        let baseline = of(&rows, baseline, "each");
        assert!(exact(told) > exact(baseline) && class(told) > class(baseline));
        assert!(told.score.root > baseline.score.root);
    }
    // The baselines are what they were said to be elsewhere.
    let always = of(&rows, "always", "each");
    assert_eq!((exact(always).round(), class(always).round()), (51.0, 63.0));
    document(&rows)
}

#[test]
fn madrigals() -> Result<()> {
    let rows = rows("madrigals")?;
    let exact = |name, told| {
        let score = of(&rows, name, told).score;
        score.percent(score.exact)
    };
    // The version made for them does better than what is most common in the others.
    for version in ["Madrigals", "Madrigals, lengths told"] {
        assert!(exact(version, "each") > exact("most common", "each"));
        assert!(exact(version, "each") - exact(version, "opening") <= 5.0);
    }
    document(&rows)
}

/// The committed table is the one that is measured.
fn document(rows: &[Row]) -> Result<()> {
    let document = std::fs::read_to_string(workspace().join("tests/harmony.md"))?;
    for line in table(rows) {
        assert!(document.contains(&line), "tests/harmony.md lacks: {line}");
    }
    Ok(())
}
