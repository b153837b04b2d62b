//! A whole class at a glance: one row for each link handed in.

use super::answer::HandIn;
use super::check::check;
use super::exercise::Set;
use super::report::Outcome;
use crate::files::{LinkError, Linked, open};
use crate::order;

/// One link that was handed in.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Index of the link among those given.
    pub link: usize,
    /// What became of it.
    pub status: Status,
    /// The student's name; empty where the link could not be read.
    pub student: String,
    /// One cell for each exercise of the set; empty unless the status is ready.
    pub cells: Vec<Cell>,
}

/// What became of a link.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Status {
    /// It was read and checked.
    Ready,
    /// It answers another set, or another version of this one.
    OtherSet,
    /// It holds something else than answers.
    NoAnswer,
    /// It could not be read.
    Unreadable(LinkError),
}

/// One answer of one student.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cell {
    /// Whether all that was asked is done; blank where nothing was begun.
    pub outcome: Outcome,
    /// How many of the things asked are done.
    pub done: usize,
    /// How many things were asked.
    pub asked: usize,
    /// Faults found in what was made; 0 for a blank answer.
    pub faults: usize,
    /// Things still to be made; 0 for a blank answer.
    pub to_do: usize,
    /// Cautions found; 0 for a blank answer.
    pub cautions: usize,
    /// Time of making, in minutes.
    pub minutes: u16,
}

impl Row {
    /// All faults of the row.
    pub fn faults(&self) -> usize {
        self.cells.iter().map(|cell| cell.faults).sum()
    }

    /// All things done.
    pub fn done(&self) -> usize {
        self.cells.iter().map(|cell| cell.done).sum()
    }

    /// All minutes.
    pub fn minutes(&self) -> u32 {
        self.cells.iter().map(|cell| u32::from(cell.minutes)).sum()
    }
}

/// The rows of a class, in the order of the links. Answers are checked against
/// `set`, the teacher's own, never against the one that came with them.
pub fn table(links: &[&str], set: &Set) -> Vec<Row> {
    let row = |(link, text): (usize, &&str)| {
        let nothing = |status| Row { link, status, student: String::new(), cells: Vec::new() };
        let hand_in = match open(text) {
            Ok(Linked::HandIn(hand_in)) => hand_in,
            Ok(Linked::Commented(commented)) => commented.hand_in,
            Ok(Linked::Sketch(_) | Linked::Set(_)) => return nothing(Status::NoAnswer),
            Err(error) => return nothing(Status::Unreadable(error)),
        };
        let ours = hand_in.set == *set;
        let status = if ours { Status::Ready } else { Status::OtherSet };
        let cells = if ours { cells(&hand_in, set) } else { Vec::new() };
        Row { link, status, student: hand_in.student, cells }
    };
    links.iter().enumerate().map(row).collect()
}

fn cells(hand_in: &HandIn, set: &Set) -> Vec<Cell> {
    let answers = hand_in.answers.iter().map(Option::as_ref).chain(std::iter::repeat(None));
    let cell = |(exercise, answer): (&super::Exercise, Option<&super::Answer>)| {
        let asked = exercise.asks.len();
        let blank = Cell {
            outcome: Outcome::Blank,
            done: 0,
            asked,
            faults: 0,
            to_do: 0,
            cautions: 0,
            minutes: 0,
        };
        let Some(answer) = answer else { return blank };
        let report = check(exercise, answer);
        let begun = report.results.iter().any(|result| result.outcome != Outcome::Blank);
        if !begun {
            return Cell { minutes: answer.minutes, ..blank };
        }
        Cell {
            outcome: if report.is_done() { Outcome::Done } else { Outcome::NotYet },
            done: report.done(),
            faults: report.faults(),
            to_do: report.to_do(),
            cautions: report.cautions(),
            minutes: answer.minutes,
            ..blank
        }
    };
    set.exercises.iter().zip(answers).map(cell).collect()
}

/// What rows are sorted by. Links that could not be used come last.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SortBy {
    /// The student's name, capitals aside.
    Name,
    /// Most faults first, then the name.
    Faults,
    /// Least done first, then the name.
    Done,
    /// The order of the links.
    Link,
}

/// Sorts rows; equal ones keep their order.
pub fn sort(rows: &mut [Row], by: SortBy) {
    let name = |row: &Row| row.student.trim().to_lowercase();
    let usable = |row: &Row| row.status != Status::Ready;
    match by {
        SortBy::Name => order::by_key(rows, |row| (usable(row), name(row))),
        SortBy::Faults => {
            order::by_key(rows, |row| (usable(row), std::cmp::Reverse(row.faults()), name(row)))
        }
        SortBy::Done => order::by_key(rows, |row| (usable(row), row.done(), name(row))),
        SortBy::Link => order::by_key(rows, |row| row.link),
    }
}

/// Lines of cells as comma-separated values (RFC 4180). A cell that a spreadsheet
/// would take for a formula gets an apostrophe before it. The cells of a class are
/// put in words by [`crate::words::class_csv`].
pub fn csv<'a>(lines: impl IntoIterator<Item = &'a [String]>) -> String {
    let mut out = String::new();
    for line in lines {
        let cells: Vec<String> = line.iter().map(|cell| quoted(cell)).collect();
        out.push_str(&cells.join(","));
        out.push_str("\r\n");
    }
    out
}

fn quoted(cell: &str) -> String {
    let formula = cell.starts_with(['=', '+', '-', '@', '\t', '\r']);
    let cell = if formula { format!("'{cell}") } else { cell.to_string() };
    if cell.contains([',', '"', '\r', '\n']) {
        format!("\"{}\"", cell.replace('"', "\"\""))
    } else {
        cell
    }
}
