//! The door that `TASTATA_DOOR` names, tried by libFuzzer.
#![no_main]

use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;
use tastata_tests::doors::{Door, door};

static DOOR: LazyLock<&Door> = LazyLock::new(|| {
    let name = std::env::var("TASTATA_DOOR").expect("TASTATA_DOOR names a door");
    door(&name)
});

fuzz_target!(|bytes: &[u8]| (DOOR.enter)(bytes));
