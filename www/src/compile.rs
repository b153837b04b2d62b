//! Compiles the `web` crate to a WebAssembly module with the compiler that built the packer, first
//! asking rustup for the target when it is absent.

use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use anyhow::{Context, Result, bail, ensure};

const TARGET: &str = "wasm32-unknown-unknown";

/// What the `web` crate is compiled as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Face {
    /// The page.
    Page,
    /// The library for the pages of others.
    Library,
}

/// Compiles a module under `root` and returns the file it is in.
pub(crate) fn compile(root: &Path, face: Face) -> Result<PathBuf> {
    provide_target(root)?;
    // A folder for each, so that neither has the other built again.
    let (folder, features): (_, &[&str]) = match face {
        Face::Page => (root.join("target"), &[]),
        Face::Library => {
            (root.join("target/library"), &["--no-default-features", "--features", "api"])
        }
    };
    let status = Command::new(tool("CARGO", "cargo"))
        .current_dir(root)
        .args(["build", "--package", "tastata-web", "--lib"])
        .args(features)
        .args(["--target", TARGET, "--profile", "page", "--target-dir"])
        .arg(&folder)
        // The page must not tell where it was built, nor differ because of it.
        .env("CARGO_ENCODED_RUSTFLAGS", neutral_paths().join("\u{1f}"))
        .stdout(Stdio::null())
        .status()
        .context("Cargo could not be started")?;
    ensure!(status.success(), "The page's module does not compile; Cargo says why above.");
    let module = folder.join(TARGET).join("page/tastata_web.wasm");
    ensure!(module.is_file(), "Cargo left no module at {}.", module.display());
    Ok(module)
}

/// Sees to it that the compiler has the target's library.
fn provide_target(root: &Path) -> Result<()> {
    if has_target(root) {
        return Ok(());
    }
    eprintln!("Adding the compiler's target {TARGET}.");
    let added = Command::new("rustup").current_dir(root).args(["target", "add", TARGET]).status();
    if !added.is_ok_and(|status| status.success()) || !has_target(root) {
        bail!(
            "The compiler has no target {TARGET}: add it with `rustup target add {TARGET}` or \
             from where your Rust comes from, then try again."
        );
    }
    Ok(())
}

fn has_target(root: &Path) -> bool {
    let said = Command::new(tool("RUSTC", "rustc"))
        .current_dir(root)
        .args(["--print", "target-libdir", "--target", TARGET])
        .output();
    said.is_ok_and(|said| {
        let folder = String::from_utf8_lossy(&said.stdout);
        said.status.success() && Path::new(folder.trim()).is_dir()
    })
}

fn tool(variable: &str, usual: &str) -> OsString {
    std::env::var_os(variable).unwrap_or_else(|| usual.into())
}

/// Compiler flags that replace the folders of fetched crates by the word `crates`.
fn neutral_paths() -> Vec<String> {
    let home = std::env::var_os("CARGO_HOME").map(PathBuf::from).or_else(|| {
        let home = std::env::home_dir()?;
        Some(home.join(".cargo"))
    });
    let Some(fetched) = home.map(|home| home.join("registry/src")) else { return Vec::new() };
    let Ok(entries) = std::fs::read_dir(fetched) else { return Vec::new() };
    entries
        .flatten()
        .map(|entry| format!("--remap-path-prefix={}=crates", entry.path().display()))
        .collect()
}
