//! The table of a class, in words.

use super::summary::outcome;
use crate::lesson::{Row, Set, Status, csv};
use crate::words::{Lang, link_error};

/// The heads of the table's columns: the name, three columns for each exercise,
/// all faults, all minutes, and a remark.
pub fn class_head(set: &Set, lang: Lang) -> Vec<String> {
    let _ = lang;
    let mut heads = vec!["Name".to_string()];
    for number in 1..=set.exercises.len() {
        heads.push(format!("Exercise {number}"));
        heads.push(format!("Faults {number}"));
        heads.push(format!("Cautions {number}"));
    }
    heads.extend(["Faults", "Minutes", "Remark"].map(String::from));
    heads
}

/// One row of the table, cell by cell under [`class_head`].
pub fn class_line(row: &Row, set: &Set, lang: Lang) -> Vec<String> {
    let mut cells = vec![row.student.clone()];
    for i in 0..set.exercises.len() {
        match row.cells.get(i) {
            Some(cell) => cells.extend([
                outcome(cell.outcome, lang).to_string(),
                cell.faults.to_string(),
                cell.cautions.to_string(),
            ]),
            None => cells.extend([String::new(), String::new(), String::new()]),
        }
    }
    let totals = match row.status {
        Status::Ready => [row.faults().to_string(), row.minutes().to_string()],
        Status::OtherSet | Status::NoAnswer | Status::Unreadable(_) => {
            [String::new(), String::new()]
        }
    };
    cells.extend(totals);
    cells.push(row_status(row.status, lang).to_string());
    cells
}

/// The whole table as comma-separated values (RFC 4180).
pub fn class_csv(rows: &[Row], set: &Set, lang: Lang) -> String {
    let mut lines = vec![class_head(set, lang)];
    lines.extend(rows.iter().map(|row| class_line(row, set, lang)));
    csv(lines.iter().map(Vec::as_slice))
}

/// What became of a link, as a sentence; empty where all is well.
pub fn row_status(status: Status, lang: Lang) -> &'static str {
    match (lang, status) {
        (_, Status::Ready) => "",
        (_, Status::OtherSet) => "These answers belong to another set of exercises.",
        (_, Status::NoAnswer) => "This link holds no answers.",
        (_, Status::Unreadable(error)) => link_error(error, lang),
    }
}
