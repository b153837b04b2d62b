//! The page the browser tests open: packed once for each run of a test program.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;

use anyhow::{Context, Result, anyhow, ensure};
use base64::Engine as _;
use base64::engine::general_purpose::{STANDARD, URL_SAFE_NO_PAD};
use sha2::{Digest, Sha256};

use crate::engine::Engine;

/// The folder of the workspace.
pub fn workspace() -> &'static Path {
    let crate_folder = Path::new(env!("CARGO_MANIFEST_DIR"));
    crate_folder.parent().unwrap_or(crate_folder)
}

/// Where a test leaves a picture or what was printed: apart for each engine, since they may run side by
/// side.
pub fn shot(name: &str) -> PathBuf {
    apart("target/shots").join(name)
}

/// Where a test leaves a file that a browser opens, apart for each engine.
pub fn made(name: &str) -> PathBuf {
    apart("target/browsers").join(name)
}

fn apart(place: &str) -> PathBuf {
    let folder = workspace().join(place).join(Engine::asked().name());
    // Whoever writes into it says what is wrong with it.
    drop(std::fs::create_dir_all(&folder));
    folder
}

/// What was packed, or why it could not be: once for each run of a test program.
type Packed = OnceLock<Result<PathBuf, String>>;

/// The packed page: the file `TASTATA_PAGE` names, or else one packed from the sources now.
///
/// # Errors
///
/// The packer's own words when it fails.
pub fn page() -> Result<&'static Path> {
    static PAGE: Packed = OnceLock::new();
    if let Some(page) = std::env::var_os("TASTATA_PAGE") {
        return told(PAGE.get_or_init(|| Ok(page.into())));
    }
    pack(&PAGE, &["--no-serve"], workspace().join("target/browsers/tastata.html"))
}

/// The folder of the page as a site.
///
/// # Errors
///
/// The packer's own words when it fails.
pub fn site() -> Result<&'static Path> {
    static SITE: Packed = OnceLock::new();
    pack(&SITE, &["site"], made("site"))
}

/// The folder of the library for other people's pages.
///
/// # Errors
///
/// The packer's own words when it fails.
pub fn library() -> Result<&'static Path> {
    static LIBRARY: Packed = OnceLock::new();
    pack(&LIBRARY, &["library"], made("library"))
}

fn pack(packed: &'static Packed, what: &[&str], out: PathBuf) -> Result<&'static Path> {
    let run = || -> Result<PathBuf> {
        let done = Command::new(env!("CARGO"))
            .current_dir(workspace())
            .args(["run", "--release", "--package", "tastata-www", "--"])
            .args(what)
            .arg("--out")
            .arg(&out)
            .output()
            .context("The packer could not be started")?;
        ensure!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
        Ok(out)
    };
    told(packed.get_or_init(|| run().map_err(|error| format!("{error:#}"))))
}

fn told(packed: &'static Result<PathBuf, String>) -> Result<&'static Path> {
    packed.as_deref().map_err(|said| anyhow!("{said}"))
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
/// asked for, and runs `first` before all else. Nothing else differs.
pub(crate) fn watched(file: &Path, first: &str) -> Result<PathBuf> {
    let html = std::fs::read_to_string(file)
        .with_context(|| format!("{} cannot be read", file.display()))?;
    let script = format!("{WATCH}{first}");
    let digest = Sha256::digest(&script);
    let hash = STANDARD.encode(digest);
    let (head, policy) = ("<head>", "script-src ");
    ensure!(
        html.contains(head) && html.contains(policy),
        "{} has no head or no policy to write into.",
        file.display()
    );
    let html = html.replacen(policy, &format!("{policy}'sha256-{hash}' "), 1).replacen(
        head,
        &format!("{head}<script>{script}</script>"),
        1,
    );
    let name = file.file_stem().unwrap_or_default().to_string_lossy();
    let mark = &URL_SAFE_NO_PAD.encode(digest)[..6];
    let copy = workspace().join(format!("target/browsers/{name}.watched-{mark}.html"));
    // In one step, since another test may be opening the same copy.
    let mut fresh = tempfile::NamedTempFile::new_in(workspace().join("target/browsers"))?;
    fresh.write_all(html.as_bytes())?;
    fresh.persist(&copy).with_context(|| format!("{} cannot be written", copy.display()))?;
    Ok(copy)
}
