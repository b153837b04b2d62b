//! Prints what the rulebook finds in the four-part chorales: the text of `tests/frame.md`.

use anyhow::Result;
use tastata_tests::chorales::chorales;
use tastata_tests::frame_report::page;

fn main() -> Result<()> {
    print!("{}", page(&chorales()?));
    Ok(())
}
