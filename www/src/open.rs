//! Opens an address in the desktop's browser, if there is a desktop and it has one.

use std::process::{Command, Stdio};

/// Opens `address`; does nothing when that is not possible.
pub(crate) fn open(address: &str) {
    let mut command = if cfg!(target_os = "macos") {
        Command::new("open")
    } else if cfg!(windows) {
        let mut command = Command::new("cmd");
        command.args(["/C", "start", ""]);
        command
    } else {
        let desktop = ["DISPLAY", "WAYLAND_DISPLAY"];
        if desktop.iter().all(|name| std::env::var_os(name).is_none_or(|value| value.is_empty())) {
            return;
        }
        Command::new("xdg-open")
    };
    let started = command
        .arg(address)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn();
    if let Ok(mut child) = started {
        // Somebody has to collect the opener when it ends.
        std::thread::spawn(move || child.wait());
    }
}
