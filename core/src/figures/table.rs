//! What abbreviated figures stand for, as a table.
//!
//! C.P.E. Bach, *Versuch* II (1762), Heinichen, *Der General-Bass* (1728),
//! Dandrieu, *Principes* (1719), Arnold, *The Art of Accompaniment from a
//! Thorough-Bass* (1931): from memory, and consistent with the published table
//! "Figured-Bass symbols and typical realizations" where it lists them. Rows
//! marked * are common practice without a source. The octave may always be
//! added, so 8 is left out of both columns.

/// Written numbers and the numbers played, both from low to high.
pub(super) const TABLE: &[(&[u8], &[u8])] = &[
    // written      played
    (&[], &[3, 5]),
    (&[3], &[3, 5]),
    (&[5], &[3, 5]),
    (&[3, 5], &[3, 5]),
    (&[6], &[3, 6]),
    (&[3, 6], &[3, 6]),
    (&[4, 6], &[4, 6]),
    (&[7], &[3, 5, 7]),
    (&[3, 7], &[3, 5, 7]),
    (&[5, 7], &[3, 5, 7]),
    (&[3, 5, 7], &[3, 5, 7]),
    (&[5, 6], &[3, 5, 6]),
    (&[3, 5, 6], &[3, 5, 6]),
    (&[3, 4], &[3, 4, 6]),
    (&[3, 4, 6], &[3, 4, 6]),
    (&[2], &[2, 4, 6]),
    (&[2, 4], &[2, 4, 6]),
    (&[2, 6], &[2, 4, 6]),
    (&[2, 4, 6], &[2, 4, 6]),
    (&[4], &[4, 5]),
    (&[4, 5], &[4, 5]),
    (&[9], &[3, 5, 9]),
    (&[3, 9], &[3, 5, 9]),
    (&[5, 9], &[3, 5, 9]),
    (&[3, 5, 9], &[3, 5, 9]),
    (&[7, 9], &[3, 7, 9]),
    (&[3, 7, 9], &[3, 7, 9]),
    (&[5, 7, 9], &[3, 5, 7, 9]),
    (&[3, 5, 7, 9], &[3, 5, 7, 9]),
    (&[4, 9], &[4, 5, 9]),
    (&[4, 5, 9], &[4, 5, 9]),
    (&[6, 9], &[3, 6, 9]),    // *
    (&[3, 6, 9], &[3, 6, 9]), // *
    (&[4, 6, 9], &[4, 6, 9]), // *
    (&[4, 7], &[4, 5, 7]),
    (&[4, 5, 7], &[4, 5, 7]),
    (&[4, 7, 9], &[4, 7, 9]), // *
    (&[2, 7], &[2, 4, 7]),
    (&[2, 4, 7], &[2, 4, 7]),
    (&[2, 4, 5, 7], &[2, 4, 5, 7]), // *
    (&[2, 4, 6, 7], &[2, 4, 6, 7]), // *
    (&[6, 7], &[3, 6, 7]),          // *
    (&[2, 5], &[2, 5]),
    (&[2, 4, 5], &[2, 4, 5]),
    (&[2, 3], &[2, 3, 6]),    // *
    (&[2, 3, 6], &[2, 3, 6]), // *
    (&[4, 5, 6], &[4, 5, 6]),
    (&[3, 4, 5], &[3, 4, 5]), // *
    (&[4, 6, 7], &[4, 6, 7]), // *
];

/// The numbers played for the numbers written (both ascending, without 8 and
/// repeats), or `None` where the table has no row.
pub(crate) fn played(written: &[u8]) -> Option<&'static [u8]> {
    TABLE.iter().find(|(key, _)| *key == written).map(|(_, played)| *played)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_unique_ascending_and_contain_what_is_written() {
        for (row, (written, full)) in TABLE.iter().enumerate() {
            assert!(written.is_sorted() && full.is_sorted(), "{written:?}");
            assert!(written.iter().all(|number| full.contains(number)), "{written:?}");
            assert!(TABLE[..row].iter().all(|(key, _)| key != written), "{written:?} twice");
        }
    }
}
