//! Packs and serves the page.
fn main() {}
