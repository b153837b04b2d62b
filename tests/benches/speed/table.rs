//! A table of measurements in Markdown, and what is told of many values.

use std::fmt;

/// Rows under a head.
pub(crate) struct Table(Vec<Vec<String>>);

impl Table {
    /// A table with nothing under its head.
    pub(crate) fn new<const N: usize>(head: [&str; N]) -> Table {
        Table(vec![head.map(str::to_owned).to_vec()])
    }

    /// Adds a row.
    pub(crate) fn row<const N: usize>(&mut self, cells: [String; N]) {
        self.0.push(cells.to_vec());
    }
}

impl fmt::Display for Table {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, row) in self.0.iter().enumerate() {
            writeln!(f, "| {} |", row.join(" | "))?;
            if i == 0 {
                writeln!(f, "|{}", "---|".repeat(row.len()))?;
            }
        }
        Ok(())
    }
}

/// The value that this share of the values does not pass.
pub(crate) fn quantile(values: &[f64], share: f64) -> f64 {
    let mut values = values.to_vec();
    values.sort_by(f64::total_cmp);
    let at = ((values.len() as f64 * share).ceil() as usize).clamp(1, values.len().max(1)) - 1;
    values.get(at).copied().unwrap_or(f64::NAN)
}

/// The middle value.
pub(crate) fn median(values: &[f64]) -> f64 {
    quantile(values, 0.5)
}
