//! A class's answers side by side.

use tastata::files::{self, Linked};
use tastata::lesson::{HandIn, Row, Set, SortBy, Status, sort, table};

/// Which set the answers are checked against.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Against {
    /// The teacher's own.
    #[default]
    Own,
    /// The one that came with the first answers.
    TheirOwn,
}

/// A class's answers.
#[derive(Clone, Debug, Default)]
pub struct Class {
    links: Vec<String>,
    set: Set,
    rows: Vec<Row>,
    against: Against,
}

impl Class {
    /// The links in a pasted text, checked against the teacher's set; where none
    /// answers it, against the set of the first answers, and that is said.
    pub fn read(text: &str, own: &Set) -> Class {
        let mut links = files::pasted(text);
        let mut seen = std::collections::HashSet::new();
        links.retain(|link| seen.insert(link.clone()));
        let texts: Vec<&str> = links.iter().map(String::as_str).collect();
        let rows = table(&texts, own);
        let ours = rows.iter().any(|row| row.status == Status::Ready);
        let theirs = || texts.iter().find_map(|link| hand_in(link)).map(|it| it.set);
        match theirs().filter(|_| !ours) {
            Some(set) => {
                let rows = table(&texts, &set);
                Class { rows, set, against: Against::TheirOwn, links }
            }
            None => Class { rows, set: own.clone(), against: Against::Own, links },
        }
    }

    /// The rows as they are sorted.
    pub fn rows(&self) -> &[Row] {
        &self.rows
    }

    /// The set they were checked against.
    pub fn set(&self) -> &Set {
        &self.set
    }

    /// Where that set came from.
    pub fn against(&self) -> Against {
        self.against
    }

    /// Sorts the rows.
    pub fn sort(&mut self, by: SortBy) {
        sort(&mut self.rows, by);
    }

    /// The answers behind a row.
    pub fn open(&self, row: usize) -> Option<HandIn> {
        hand_in(self.links.get(self.rows.get(row)?.link)?)
    }
}

fn hand_in(link: &str) -> Option<HandIn> {
    match files::open(link) {
        Ok(Linked::HandIn(hand_in)) => Some(hand_in),
        Ok(Linked::Commented(commented)) => Some(commented.hand_in),
        _ => None,
    }
}
