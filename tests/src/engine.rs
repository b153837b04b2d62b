//! The three browser engines the page is tried in: what they are called, which programs drive them,
//! where those are, and what a new session is asked for.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result};
use serde_json::{Value, json};

use crate::packed::workspace;
use crate::taste::Taste;

/// An engine the page is tried in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Engine {
    /// Chromium, through chromedriver.
    Chromium,
    /// Firefox, through geckodriver.
    Firefox,
    /// WebKit in its GTK port, through its own driver and on a virtual screen.
    WebKit,
}

/// What not every engine, or not every driver, can do for a test.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Need {
    /// MIDI keyboards.
    Midi,
    /// A finger's events.
    Touch,
    /// A window as narrow as 320 pixels.
    Narrow,
    /// What was thrown in a page that is a file.
    Thrown,
    /// Printing into a file.
    Printing,
    /// The browser's own command that saves a page, without its dialogue.
    Saving,
    /// A record of the network that the browser itself keeps.
    Record,
    /// Telling why a page could not be installed.
    Installing,
    /// Going through everything there is in a minute or two.
    Haste,
}

impl Need {
    /// All of them.
    pub const ALL: [Self; 9] = [
        Self::Midi,
        Self::Touch,
        Self::Narrow,
        Self::Thrown,
        Self::Printing,
        Self::Saving,
        Self::Record,
        Self::Installing,
        Self::Haste,
    ];

    /// The engines without it; `tests/engines.md` says why.
    pub fn absent(self) -> &'static [Engine] {
        match self {
            Self::Midi | Self::Touch | Self::Narrow | Self::Thrown | Self::Printing => {
                &[Engine::WebKit]
            }
            Self::Saving => &[Engine::Chromium, Engine::WebKit],
            Self::Record | Self::Installing | Self::Haste => &[Engine::Firefox, Engine::WebKit],
        }
    }
}

/// The programs of an engine on this machine.
pub(crate) struct Programs {
    pub(crate) driver: PathBuf,
    pub(crate) browser: PathBuf,
}

impl Engine {
    /// All three.
    pub const ALL: [Self; 3] = [Self::Chromium, Self::Firefox, Self::WebKit];

    /// The engine that tests of single parts of the page are run in: the one `TASTATA_ENGINE`
    /// names, else Chromium. `tests/run` runs them in each.
    pub fn asked() -> Self {
        let asked = std::env::var("TASTATA_ENGINE").unwrap_or_default();
        Self::ALL.into_iter().find(|it| it.name() == asked).unwrap_or(Self::Chromium)
    }

    /// Whether this engine or its driver cannot do what a test needs. `tests/engines.md` lists each
    /// place where that leaves something out.
    pub fn lacks(self, need: Need) -> bool {
        need.absent().contains(&self)
    }

    /// The name in lower case, as in `TASTATA_SKIP`.
    pub fn name(self) -> &'static str {
        match self {
            Self::Chromium => "chromium",
            Self::Firefox => "firefox",
            Self::WebKit => "webkit",
        }
    }

    /// Whether `tests/run` has found that this system cannot have the engine, and has said so.
    pub fn is_skipped(self) -> bool {
        std::env::var("TASTATA_SKIP")
            .is_ok_and(|names| names.split_whitespace().any(|name| name == self.name()))
    }

    pub(crate) fn programs(self) -> Result<Programs> {
        let (driver, browser) = match self {
            Self::Chromium => (program(&["chromedriver"]), program(&["chromium", "google-chrome"])),
            Self::Firefox => (program(&["geckodriver"]), program(&["firefox-esr", "firefox"])),
            Self::WebKit => (program(&["WebKitWebDriver"]), mini_browser()),
        };
        let absent = || {
            format!(
                "{} or its driver is not installed: run tests/run once, which installs what the tests need",
                self.name()
            )
        };
        Ok(Programs {
            driver: driver.with_context(absent)?,
            browser: browser.with_context(absent)?,
        })
    }

    pub(crate) fn capabilities(self, browser: &Path, taste: Taste) -> Value {
        match self {
            Self::Chromium => json!({
                "goog:loggingPrefs": { "browser": "ALL", "performance": "ALL" },
                "goog:chromeOptions": {
                    "perfLoggingPrefs": { "enableNetwork": true, "enablePage": false },
                    "binary": browser,
                    "args": [
                        "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic",
                        "--no-first-run", "--disable-background-networking",
                        "--disable-component-update", "--disable-sync", "--hide-scrollbars",
                    ],
                },
            }),
            Self::Firefox => json!({
                "moz:firefoxOptions": {
                    "binary": browser,
                    "args": ["-headless"],
                    "prefs": firefox_preferences(taste),
                },
            }),
            Self::WebKit => json!({
                "webkitgtk:browserOptions": {
                    "binary": browser,
                    "args": webkit_arguments(taste),
                },
            }),
        }
    }
}

fn webkit_arguments(taste: Taste) -> Value {
    let mut arguments = vec!["--automation", "--javascript-can-open-windows-automatically=true"];
    if taste == Taste::Dark {
        arguments.push("--dark-mode");
    }
    json!(arguments)
}

fn firefox_preferences(taste: Taste) -> Value {
    json!({
        "dom.disable_open_during_load": false,
        // A sound device that is none: without any, the clock of sound would stand still.
        "media.cubeb.force_mock_context": true,
        "layout.css.prefers-color-scheme.content-override": i32::from(taste != Taste::Dark),
        "ui.prefersReducedMotion": i32::from(taste == Taste::Still),
    })
}

/// The first of `names` found on the search path or among the tools `tests/run` has built.
pub(crate) fn program(names: &[&str]) -> Option<PathBuf> {
    let path = std::env::var_os("PATH").unwrap_or_default();
    let own = workspace().join("target/tools/bin");
    let folders: Vec<PathBuf> = std::iter::once(own).chain(std::env::split_paths(&path)).collect();
    names
        .iter()
        .flat_map(|name| folders.iter().map(move |folder| folder.join(name)))
        .find(|file| file.is_file())
}

/// WebKitGTK keeps its small browser beside its libraries, off the search path.
fn mini_browser() -> Option<PathBuf> {
    let mut found: Vec<PathBuf> = ["/usr/lib", "/usr/lib64", "/usr/libexec"]
        .iter()
        .flat_map(|folder| [PathBuf::from(folder)].into_iter().chain(folders_in(Path::new(folder))))
        .flat_map(|folder| {
            ["webkitgtk-6.0", "webkit2gtk-4.1", "webkit2gtk-4.0"]
                .map(|kind| folder.join(kind).join("MiniBrowser"))
        })
        .filter(|file| file.is_file())
        .collect();
    found.sort();
    found.into_iter().next()
}

fn folders_in(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    entries.map(|entry| entry.path()).filter(|path| path.is_dir()).collect()
}
