//! On which side the buttons for playing lie: under the thumb of the hand that holds the phone. Kept
//! in this browser; no part of the sketch.

use super::controls::chosen;
use super::{dom, shelf, wishes};

const KEPT: &str = "tastata.side";

pub(super) fn wire() {
    put(if shelf::read(KEPT).as_deref() == Some("right") { "right" } else { "left" });
    chosen("side", |side| {
        shelf::write(KEPT, &side);
        put(&side);
    });
}

fn put(side: &str) {
    if let Some(root) = dom::root() {
        dom::set_attr(&root, "data-side", side);
    }
    wishes::choose("side", side);
}
