//! What we build on: every crate from the one registry, under a licence that lets anyone
//! use the page for anything, and not more crates than we know of.

use serde_json::Value;
use std::collections::BTreeSet;
use std::process::Command;
use tastata_tests::workspace;

/// Licences by their SPDX names under which a crate may come in.
const ALLOWED: [&str; 8] = [
    "0BSD",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "ISC",
    "MIT",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
];

/// The most crates that the page may be built of, our own two among them.
const MOST_IN_PAGE: usize = 40;

#[test]
fn every_licence_is_on_the_list() {
    let metadata = cargo(&["metadata", "--format-version", "1"]);
    let metadata: Value = serde_json::from_str(&metadata).expect("JSON");
    let packages = metadata["packages"].as_array().expect("packages");
    assert!(packages.len() > 50);
    for package in packages {
        let name = package["name"].as_str().expect("a name");
        let licence = package["license"].as_str().unwrap_or("none");
        assert!(allowed(licence), "{name} is under {licence}");
        let source = package["source"].as_str();
        let ours = source.is_none() && name.starts_with("tastata");
        let registry = source.is_some_and(|source| source.starts_with("registry+"));
        assert!(ours || registry, "{name} comes from {source:?}");
    }
}

#[test]
fn the_page_is_built_of_few_crates() {
    let tree = ["tree", "-p", "tastata-web", "-e", "normal", "--prefix", "none"];
    let target = ["--target", "wasm32-unknown-unknown", "--format", "{p}"];
    let tree = cargo(&[tree.as_slice(), target.as_slice()].concat());
    let names = tree.lines().filter_map(|line| line.split(' ').next()).filter(|it| !it.is_empty());
    let names: BTreeSet<&str> = names.collect();
    println!("The page is built of {} crates: {names:?}", names.len());
    assert!(names.contains("tastata"));
    assert!(names.len() <= MOST_IN_PAGE, "{names:?}");
}

#[test]
fn licences_are_read_as_they_are_written() {
    for yes in ["MIT", "MIT/Apache-2.0", "GPL-3.0 OR MIT", "(GPL-3.0 OR ISC) AND Zlib"] {
        assert!(allowed(yes), "{yes}");
    }
    for no in ["none", "GPL-3.0", "MIT AND GPL-3.0", "(MIT OR ISC) AND GPL-3.0"] {
        assert!(!allowed(no), "{no}");
    }
}

/// Whether a licence expression can be met from the list: `OR` (once written `/`) within
/// `AND`, with brackets around the alternatives, which is as far as ours go.
fn allowed(expression: &str) -> bool {
    expression.split(" AND ").all(|part| {
        let part = part.trim_matches(['(', ')']).replace('/', " OR ");
        part.split(" OR ").any(|licence| ALLOWED.contains(&licence.trim()))
    })
}

fn cargo(arguments: &[&str]) -> String {
    let output = Command::new(env!("CARGO"))
        .args(arguments)
        .arg("--locked")
        .current_dir(workspace())
        .output()
        .expect("cargo runs");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8_lossy(&output.stdout).into_owned()
}
