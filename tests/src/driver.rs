//! A browser driver as a process of this one: started on a free port with everything it says in a
//! log file, and ended with all its children when it goes out of scope or this process dies.

use std::fs::File;
use std::io::{BufRead, BufReader};
use std::net::{Ipv4Addr, TcpListener};
use std::os::unix::process::CommandExt;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Duration;

use anyhow::{Context, Result, ensure};

use crate::engine::{Engine, Programs, program};
use crate::packed::workspace;
use crate::taste::Taste;

/// Runs its arguments in its own process group and ends the group once its input closes, which
/// happens when the process that holds the other end lets go of it or dies.
const LEASH: &str = r#""$@" & cat > /dev/null; kill -TERM $!; sleep 0.3; kill -KILL 0"#;

/// A running driver.
pub(crate) struct Driver {
    pub(crate) port: u16,
    pub(crate) log: PathBuf,
    // Ended in this order: the driver, then the screen it draws on.
    _driver: Leashed,
    _screen: Option<Leashed>,
}

impl Driver {
    /// Starts the driver of `engine`. It answers some moments later.
    pub(crate) fn start(engine: Engine, programs: &Programs, taste: Taste) -> Result<Self> {
        static COUNT: AtomicUsize = AtomicUsize::new(0);
        let folder = workspace().join("target/browsers");
        std::fs::create_dir_all(&folder)?;
        let number = COUNT.fetch_add(1, Ordering::Relaxed);
        let log = folder.join(format!("{}-{}-{number}.log", engine.name(), std::process::id()));

        let port = TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?.local_addr()?.port();
        let mut command = vec![programs.driver.display().to_string(), format!("--port={port}")];
        let (screen, drawn) = match engine {
            Engine::Chromium => (None, None),
            Engine::Firefox => {
                // Its second port, for events, has a fixed number unless told otherwise.
                command.push("--websocket-port=0".into());
                // Its own commands, such as saving a page, are tried too.
                command.push("--allow-system-access".into());
                (None, None)
            }
            Engine::WebKit => {
                let (screen, display) = screen(&log)?;
                (Some(screen), Some((display, taste.gtk()?)))
            }
        };
        let driver = Leashed::start(&command, &log, drawn.as_ref(), Out::Log)?;
        Ok(Self { port, log, _driver: driver, _screen: screen })
    }
}

/// A virtual screen large enough for a projector, and its name.
fn screen(log: &Path) -> Result<(Leashed, String)> {
    let server = program(&["Xvfb"]).context(
        "Xvfb, the virtual screen, is not installed: run tests/run once, which installs it",
    )?;
    let command = [
        &server.display().to_string(),
        "-displayfd",
        "1",
        "-screen",
        "0",
        "2200x1400x24",
        "-nolisten",
        "tcp",
    ]
    .map(str::to_owned);
    let mut screen = Leashed::start(&command, log, None, Out::Read)?;
    let mut said = String::new();
    if let Some(out) = screen.child.stdout.take() {
        BufReader::new(out).read_line(&mut said)?;
    }
    ensure!(
        !said.trim().is_empty(),
        "The virtual screen did not start; {} says why.",
        log.display()
    );
    Ok((screen, format!(":{}", said.trim())))
}

/// Where a process's ordinary output goes.
enum Out {
    /// To the log, with its errors.
    Log,
    /// To whoever reads it.
    Read,
}

/// A process that ends with its owner.
struct Leashed {
    child: Child,
}

impl Leashed {
    fn start(
        command: &[String],
        log: &Path,
        drawn: Option<&(String, PathBuf)>,
        out: Out,
    ) -> Result<Self> {
        let file = File::options().create(true).append(true).open(log)?;
        let mut shell = Command::new("sh");
        shell.args(["-c", LEASH, "sh"]).args(command).process_group(0).stdin(Stdio::piped());
        if let Some((display, settings)) = drawn {
            shell.env("DISPLAY", display).env_remove("WAYLAND_DISPLAY").env("GDK_BACKEND", "x11");
            shell.env("XDG_CONFIG_HOME", settings);
        }
        let out = match out {
            Out::Log => Stdio::from(file.try_clone()?),
            Out::Read => Stdio::piped(),
        };
        let child = shell.stdout(out).stderr(file).spawn().context("sh cannot be started")?;
        Ok(Self { child })
    }
}

impl Drop for Leashed {
    fn drop(&mut self) {
        drop(self.child.stdin.take());
        for _ in 0..100 {
            if !matches!(self.child.try_wait(), Ok(None)) {
                return;
            }
            std::thread::sleep(Duration::from_millis(20));
        }
    }
}
