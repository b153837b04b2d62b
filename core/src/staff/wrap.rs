//! Breaks columns into systems and spreads each over its width.

use super::column::Column;
use super::draw::END_ROOM;
use super::heads::Shape;
use super::look::Room;

/// Clear space between columns before any stretching.
pub(super) const AIR: f64 = 1.0;
/// The same where signs stand between the columns.
pub(super) const AIR_FOR_SIGNS: f64 = 2.4;
/// More clear space than anyone needs between columns.
pub(super) const WIDEST_AIR: f64 = 12.0;
/// A last system that would need more air than this between its columns to fill
/// its width is left short, with this much.
const WIDEST_LAST_AIR: f64 = 5.0;
const SHORT_AIR: f64 = 3.0;

/// One system's columns and where their main heads' left edges stand.
pub(super) struct Line {
    /// Index of the first column.
    pub(super) first: usize,
    /// Left edge of each column's main heads.
    pub(super) x: Vec<f64>,
    /// Where the staff may end.
    pub(super) end: f64,
}

/// Breaks columns at a width: as few systems as fit, then as even as possible.
/// `start` is where the first column may begin, `end` where the last must end, `air`
/// the least clear space between columns.
pub(super) fn lines(columns: &[Column], start: f64, end: f64, air: f64) -> Vec<Line> {
    let widths: Vec<f64> = columns.iter().map(width).collect();
    let breaks = breaks(&widths, end - start, air);
    let mut lines = Vec::with_capacity(breaks.len());
    for (i, &first) in breaks.iter().enumerate() {
        let last = breaks.get(i + 1).copied().unwrap_or(columns.len());
        let Some(here) = columns.get(first..last) else { continue };
        lines.push(spread(here, first, (start, end), air, last == columns.len()));
    }
    lines
}

/// The lines that were there, with every column where it stood, be it cramped. `None` where
/// there were more columns or fewer.
pub(super) fn held(columns: usize, rooms: &[Room]) -> Option<impl Iterator<Item = Line> + use<'_>> {
    let stood: usize = rooms.iter().map(|room| room.columns.len()).sum();
    if rooms.is_empty() || stood != columns {
        return None;
    }
    let mut first = 0;
    let line = move |room: &Room| {
        let x = room.columns.iter().map(|it| it.x - Shape::White.width() / 2.0).collect();
        let line = Line { first, x, end: room.staff_end - END_ROOM };
        first += room.columns.len();
        line
    };
    Some(rooms.iter().map(line))
}

fn width(column: &Column) -> f64 {
    column.left + column.right.max(Shape::White.width())
}

/// Spreads columns over a line; the last line of all may be left short.
fn spread(
    columns: &[Column],
    first: usize,
    (start, end): (f64, f64),
    least: f64,
    is_last: bool,
) -> Line {
    let free = end - start - columns.iter().map(width).sum::<f64>();
    let air = free / (columns.len() as f64).max(1.0);
    let short = is_last && air > WIDEST_LAST_AIR.max(least);
    let air = if short { SHORT_AIR.max(least) } else { air };
    // A lone column too wide for its system still starts inside it.
    let air = air.max(0.0);
    let mut at = start;
    let mut x = Vec::with_capacity(columns.len());
    for column in columns {
        x.push(at + air / 2.0 + column.left);
        at += width(column) + air;
    }
    Line { first, x, end: if short { at } else { end } }
}

/// The first column of each system. The number of systems is the least that
/// fits; among those the sum of squared free space is the least.
fn breaks(widths: &[f64], room: f64, air: f64) -> Vec<usize> {
    let count = widths.len();
    // best[i]: (systems, roughness, first column of the last system) for columns up to i.
    let mut best: Vec<(usize, f64, usize)> = vec![(0, 0.0, 0)];
    for end in 1..=count {
        let mut choice = (usize::MAX, f64::INFINITY, end - 1);
        let mut used = 0.0;
        for first in (0..end).rev() {
            used += widths.get(first).copied().unwrap_or(0.0) + air;
            if used > room && first + 1 < end {
                break;
            }
            let Some(&(systems, rough, _)) = best.get(first) else { break };
            let free = (room - used).max(0.0);
            let candidate = (systems + 1, rough + free * free, first);
            if (candidate.0, candidate.1) < (choice.0, choice.1) {
                choice = candidate;
            }
        }
        best.push(choice);
    }
    let mut breaks = Vec::new();
    let mut end = count;
    while end > 0 {
        let first = best.get(end).map_or(0, |choice| choice.2);
        breaks.push(first);
        end = first;
    }
    breaks.reverse();
    breaks
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn systems_are_as_few_and_as_even_as_can_be() {
        // Seven columns of 4 + 1 spaces: four fit in 20, so two systems.
        assert_eq!(breaks(&[4.0; 7], 20.0, AIR), vec![0, 4]);
        assert_eq!(breaks(&[4.0; 4], 20.0, AIR), vec![0]);
        assert_eq!(breaks(&[4.0; 9], 20.0, AIR), vec![0, 3, 6]);
        assert_eq!(breaks(&[], 20.0, AIR), Vec::<usize>::new());
        // One that never fits still gets a system.
        assert_eq!(breaks(&[50.0, 4.0], 20.0, AIR), vec![0, 1]);
    }
}
