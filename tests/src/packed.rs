//! The page the browser tests open: packed once for each run of a test program.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;

use anyhow::{Context, Result, anyhow, ensure};

/// The folder of the workspace.
pub fn workspace() -> &'static Path {
    let crate_folder = Path::new(env!("CARGO_MANIFEST_DIR"));
    crate_folder.parent().unwrap_or(crate_folder)
}

/// The packed page: the file `TASTATA_PAGE` names, or else one packed from the sources now.
///
/// # Errors
///
/// The packer's own words when it fails.
pub fn page() -> Result<&'static Path> {
    static PAGE: OnceLock<Result<PathBuf, String>> = OnceLock::new();
    let page = PAGE.get_or_init(|| pack().map_err(|error| format!("{error:#}")));
    page.as_deref().map_err(|said| anyhow!("{said}"))
}

fn pack() -> Result<PathBuf> {
    if let Some(page) = std::env::var_os("TASTATA_PAGE") {
        return Ok(page.into());
    }
    // One file for each process, since several may pack at the same time.
    let out = workspace().join(format!("target/shots/page-{}.html", std::process::id()));
    let done = Command::new(env!("CARGO"))
        .current_dir(workspace())
        .args(["run", "--release", "--package", "tastata-www", "--", "--no-serve", "--out"])
        .arg(&out)
        .output()
        .context("The packer could not be started")?;
    ensure!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
    Ok(out)
}
