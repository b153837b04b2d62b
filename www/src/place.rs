//! Where the workspace is: the nearest folder, from this crate or from where the command was given
//! upwards, whose Cargo.toml opens a workspace.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result};

/// The root of the workspace.
pub(crate) fn workspace() -> Result<PathBuf> {
    // Cargo tells a program it runs where its crate is; a copied program has to look around.
    let told = std::env::var_os("CARGO_MANIFEST_DIR").map(PathBuf::from);
    let here = std::env::current_dir().ok();
    told.iter()
        .chain(&here)
        .find_map(|start| above(start))
        .context("The sources of Tastata are not here: run this inside the folder that holds them")
}

fn above(start: &Path) -> Option<PathBuf> {
    let opens = |folder: &&Path| {
        std::fs::read_to_string(folder.join("Cargo.toml"))
            .is_ok_and(|text| text.lines().any(|line| line.trim() == "[workspace]"))
            && folder.join("www/index.html").is_file()
    };
    start.ancestors().find(opens).map(Path::to_path_buf)
}
