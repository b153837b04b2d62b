//! The page as a site: installable, kept for use without a network, and never replaced by a newer
//! one before its user says so.

use std::path::Path;

use anyhow::{Context, Result, ensure};
use serde_json::json;
use sha2::{Digest, Sha256};
use tastata_tests::{Browser, Engine, Need, Server, site};

/// A copy of the site that a test may change.
fn copy(site: &Path) -> Result<tempfile::TempDir> {
    let folder = tempfile::tempdir()?;
    for entry in std::fs::read_dir(site)? {
        let entry = entry?;
        std::fs::copy(entry.path(), folder.path().join(entry.file_name()))?;
    }
    Ok(folder)
}

/// Puts a newer version of the page in place, with a mark to know it by.
fn renew(folder: &Path, mark: u32) -> Result<()> {
    let page = std::fs::read_to_string(folder.join("index.html"))?;
    let at = page.find(" lang=\"en\"").context("a language")?;
    let newer = format!("{} data-mark=\"{mark}\"{}", &page[..at], &page[at..]);
    std::fs::write(folder.join("index.html"), &newer)?;
    let hash: String = Sha256::digest(&newer).iter().map(|byte| format!("{byte:02x}")).collect();
    name_version(folder, &hash)
}

fn name_version(folder: &Path, hash: &str) -> Result<()> {
    let worker = std::fs::read_to_string(folder.join("worker.js"))?;
    let (head, rest) = worker.split_once("NEWEST = \"").context("a version")?;
    let (_, tail) = rest.split_once('"').context("its end")?;
    std::fs::write(folder.join("worker.js"), format!("{head}NEWEST = \"{hash}\"{tail}"))?;
    Ok(())
}

fn start(browser: &Browser, server: &Server) -> Result<()> {
    browser.open("about:blank")?;
    browser.open(server.address())?;
    browser.wait_for("document.documentElement.dataset.state === 'ready'")
}

const KEPT: &str = "navigator.serviceWorker.controller";
const TOLD: &str = "!document.getElementById('notice').hidden \
                    && !document.getElementById('notice-act').hidden";
const MARK: &str = "document.documentElement.dataset.mark || ''";

/// A copy of the site, its server, and a browser that has it open and keeps it.
fn kept() -> Result<(tempfile::TempDir, Server, Browser)> {
    let folder = copy(site()?)?;
    let server = Server::start(folder.path().to_owned())?;
    let browser = Browser::start(Engine::asked())?;
    start(&browser, &server)?;
    browser.wait_for(KEPT)?;
    Ok((folder, server, browser))
}

/// Chromium alone says why it would not install a page.
#[test]
fn it_is_installable() -> Result<()> {
    if Engine::asked().is_skipped() || Engine::asked().lacks(Need::Installing) {
        return Ok(());
    }
    let (_folder, _server, browser) = kept()?;
    let errors = browser.devtools("Page.getInstallabilityErrors", &json!({}))?;
    assert_eq!(errors["installabilityErrors"], json!([]));
    let manifest = browser.devtools("Page.getAppManifest", &json!({}))?;
    assert_eq!(manifest["errors"], json!([]));
    Ok(())
}

#[test]
fn it_starts_without_a_network() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let (_folder, server, browser) = kept()?;
    // Of its own folder, and of nothing else; of the page's own doing, only what keeps it.
    for asked in server.asked() {
        let own = ["/", "/worker.js", "/tastata.webmanifest", "/icon-192.png", "/icon-512.png"];
        ensure!(own.contains(&asked.as_str()), "The page has asked for {asked}");
    }
    server.set_alive(false);
    start(&browser, &server)?;
    ensure!(server.asked().iter().all(|it| it != "/"), "the page was asked for again");
    browser.click("#play")?;
    browser.wait_for("document.querySelector('#keyboard .down')")?;
    browser.click("#play")?;
    // A copy that is saved from here does not look for what stood beside the original.
    let copy = browser.eval("tastata.original()")?;
    let copy = copy.as_str().context("a page")?;
    ensure!(copy.contains("kept-sketch") && !copy.contains("rel=\"manifest\""));
    Ok(())
}

#[test]
fn a_newer_version_is_told_of_and_taken_only_when_asked() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let (folder, server, browser) = kept()?;
    ensure!(browser.eval(TOLD)? == false, "there is nothing newer yet");
    browser.click("#title")?;
    browser.keys("Mine")?;
    renew(folder.path(), 2)?;
    // However often it is started.
    for _ in 0..2 {
        start(&browser, &server)?;
        browser.wait_for(TOLD)?;
        assert_eq!(browser.eval(MARK)?, json!(""), "the old page stays");
    }
    browser.click("#notice-act")?;
    browser.wait_for("document.documentElement.dataset.mark === '2'")?;
    browser.wait_for("document.documentElement.dataset.state === 'ready'")?;
    let title = browser.eval("document.getElementById('title').value")?;
    ensure!(title.as_str().is_some_and(|it| it.contains("Mine")), "the sketch is lost: {title}");
    start(&browser, &server)?;
    browser.wait_for(KEPT)?;
    ensure!(browser.eval(TOLD)? == false, "it has been taken");
    // A worker that names a page which is not there yet changes nothing.
    name_version(folder.path(), &"0".repeat(64))?;
    start(&browser, &server)?;
    std::thread::sleep(std::time::Duration::from_secs(1));
    ensure!(browser.eval(TOLD)? == false, "half of an update was told of");
    assert_eq!(browser.eval(MARK)?, json!("2"));
    Ok(())
}
