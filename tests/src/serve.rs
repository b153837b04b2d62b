//! A small server of files for pages that have to be served: on a free port of this machine, for as
//! long as it is kept. It can be cut off and notes what it was asked for.

use std::io::{Read, Write};
use std::net::{TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};

use anyhow::Result;

/// A folder that is served.
pub struct Server {
    address: String,
    heart: Arc<Heart>,
}

struct Heart {
    folder: PathBuf,
    alive: AtomicBool,
    asked: Mutex<Vec<String>>,
}

impl Server {
    /// Serves the files of `folder`, `index.html` at its root.
    ///
    /// # Errors
    ///
    /// When the machine has no free port.
    pub fn start(folder: PathBuf) -> Result<Self> {
        let listener = TcpListener::bind("127.0.0.1:0")?;
        let address = format!("http://localhost:{}/", listener.local_addr()?.port());
        let heart =
            Arc::new(Heart { folder, alive: AtomicBool::new(true), asked: Mutex::default() });
        let beat = Arc::clone(&heart);
        std::thread::spawn(move || {
            for stream in listener.incoming().flatten() {
                let beat = Arc::clone(&beat);
                std::thread::spawn(move || beat.answer(stream));
            }
        });
        Ok(Self { address, heart })
    }

    /// Where it serves. The machine itself counts as a safe place, as HTTPS does elsewhere.
    pub fn address(&self) -> &str {
        &self.address
    }

    /// The machine and port alone.
    pub(crate) fn place(&self) -> &str {
        self.address.trim_start_matches("http://").trim_end_matches('/')
    }

    /// From now on nobody is answered, or everybody again.
    pub fn set_alive(&self, alive: bool) {
        self.heart.alive.store(alive, Ordering::Relaxed);
    }

    /// What was asked for since this was last called, in order.
    pub fn asked(&self) -> Vec<String> {
        self.heart.asked.lock().map(|mut asked| std::mem::take(&mut *asked)).unwrap_or_default()
    }
}

impl Heart {
    fn answer(&self, mut stream: TcpStream) {
        let mut head = [0; 4096];
        let count = stream.read(&mut head).unwrap_or(0);
        let head = String::from_utf8_lossy(head.get(..count).unwrap_or_default()).into_owned();
        let Some(target) = head.split(' ').nth(1) else { return };
        if let Ok(mut asked) = self.asked.lock() {
            asked.push(target.to_owned());
        }
        if !self.alive.load(Ordering::Relaxed) {
            return;
        }
        let path = target.split('?').next().unwrap_or_default().trim_start_matches('/');
        let path = if path.is_empty() { "index.html" } else { path };
        let body = std::fs::read(self.folder.join(path)).ok();
        let kind = match Path::new(path).extension().and_then(|it| it.to_str()) {
            Some("js") => "text/javascript",
            Some("wasm") => "application/wasm",
            Some("webmanifest") => "application/manifest+json",
            Some("png") => "image/png",
            _ => "text/html",
        };
        let status = if body.is_some() { "200 OK" } else { "404 Not Found" };
        let body = body.unwrap_or_default();
        let answer = format!(
            "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\nConnection: close\r\n\r\n",
            body.len()
        );
        // Whoever is gone needs no answer.
        drop(stream.write_all(answer.as_bytes()).and_then(|()| stream.write_all(&body)));
    }
}
