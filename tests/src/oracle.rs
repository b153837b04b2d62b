//! Questions to libraries of others, put to a Python program in `tests/oracle`. What it answers has
//! not been through any code of ours.

use std::io::Write;
use std::process::{Command, Stdio};

use anyhow::{Context, Result, ensure};

use crate::packed::workspace;

/// Runs `tests/oracle/SCRIPT` with `arguments` and `input` and returns what it prints.
///
/// # Errors
///
/// When the libraries are not installed: says to run `tests/run`. When the program fails: its words.
pub fn oracle(script: &str, arguments: &[&str], input: &str) -> Result<String> {
    let python = workspace().join("target/venv/bin/python");
    ensure!(
        python.is_file(),
        "The libraries of others are not installed: run tests/run once, which installs what the tests need."
    );
    let mut child = Command::new(python)
        .arg(workspace().join("tests/oracle").join(script))
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .context("Python cannot be started")?;
    let mut to = child.stdin.take().context("Python does not listen")?;
    let input = input.to_owned();
    // Beside the reading, so that neither waits for the other with a full pipe.
    let telling = std::thread::spawn(move || to.write_all(input.as_bytes()));
    let done = child.wait_with_output()?;
    ensure!(done.status.success(), "{script} failed: {}", String::from_utf8_lossy(&done.stderr));
    drop(telling.join());
    String::from_utf8(done.stdout).with_context(|| format!("{script} does not print UTF-8"))
}
