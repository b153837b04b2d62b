//! The page the browser tests open: packed once for each run of a test program.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;

use anyhow::{Context, Result, anyhow, ensure};
use base64::{Engine as _, engine::general_purpose::STANDARD};
use sha2::{Digest, Sha256};

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
    let out = workspace().join("target/browsers/tastata.html");
    let done = Command::new(env!("CARGO"))
        .current_dir(workspace())
        .args(["run", "--release", "--package", "tastata-www", "--", "--no-serve", "--out"])
        .arg(&out)
        .output()
        .context("The packer could not be started")?;
    ensure!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
    Ok(out)
}

/// Keeps what a page complains about in `window.complaints`.
const WATCH: &str = "
  window.complaints = [];
  addEventListener('error', event => complaints.push(
    event.message ? `${event.message} (line ${event.lineno})` : `cannot load ${event.target.src}`), true);
  addEventListener('unhandledrejection', event => complaints.push(String(event.reason)));
  document.addEventListener('securitypolicyviolation', event => complaints.push(
    `the policy forbids ${event.violatedDirective} ${event.blockedURI} ${event.sample}`));
  for (const kind of ['error', 'warn']) {
    const say = console[kind];
    console[kind] = (...words) => { complaints.push(words.map(String).join(' ')); say(...words); };
  }
";

/// A copy of the page in `file` that also keeps its complaints, for browsers whose console cannot be
/// asked for. Nothing else differs.
pub(crate) fn watched(file: &Path) -> Result<PathBuf> {
    let html = std::fs::read_to_string(file)
        .with_context(|| format!("{} cannot be read", file.display()))?;
    let hash = STANDARD.encode(Sha256::digest(WATCH));
    let (head, policy) = ("<head>", "script-src ");
    ensure!(
        html.contains(head) && html.contains(policy),
        "{} has no head or no policy to write into.",
        file.display()
    );
    let html = html.replacen(policy, &format!("{policy}'sha256-{hash}' "), 1).replacen(
        head,
        &format!("{head}<script>{WATCH}</script>"),
        1,
    );
    let name = file.file_stem().unwrap_or_default().to_string_lossy();
    let copy = workspace().join(format!("target/browsers/{name}.watched.html"));
    // In one step, since another test may be opening the same copy.
    let mut fresh = tempfile::NamedTempFile::new_in(workspace().join("target/browsers"))?;
    fresh.write_all(html.as_bytes())?;
    fresh.persist(&copy).with_context(|| format!("{} cannot be written", copy.display()))?;
    Ok(copy)
}
