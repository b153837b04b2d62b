//! Serves one page from memory on this machine, and nothing else. A request that is too long, too
//! slow or not HTTP gets a refusal and the next one is heard.

use std::io::{self, Read, Write};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::sync::Arc;
use std::time::Duration;

use anyhow::{Context, Result};

/// The first port tried when none is asked for.
const USUAL_PORT: u16 = 8693;
/// How many ports from the usual one on are tried.
const TRIES: u16 = 20;
/// The longest head of a request that is read, in bytes.
const LONGEST_HEAD: usize = 16 * 1024;
/// The longest wait for the next bytes of a request, or for the reader of an answer.
const PATIENCE: Duration = Duration::from_secs(5);

/// Listens on `port` of this machine, or on the first free port from the usual one.
pub(crate) fn listen(port: Option<u16>) -> Result<TcpListener> {
    let on = |port| TcpListener::bind((Ipv4Addr::LOCALHOST, port));
    match port {
        Some(port) => on(port).with_context(|| {
            format!("Port {port} cannot be used; --port 0 takes any that is free")
        }),
        None => (USUAL_PORT..USUAL_PORT + TRIES)
            .find_map(|port| on(port).ok())
            .map_or_else(|| on(0), Ok)
            .context("This machine has no free port to serve on"),
    }
}

/// Answers every request `listener` receives, forever.
pub(crate) fn serve(listener: &TcpListener, page: Arc<str>) {
    for stream in listener.incoming() {
        match stream {
            Ok(stream) => {
                let page = Arc::clone(&page);
                // A thread each, so that a slow one holds up nobody. When a visitor is gone
                // before the answer is out there is nobody left to tell.
                let spawned = std::thread::Builder::new().spawn(move || answer(stream, &page));
                drop(spawned);
            }
            // No connection to be had just now, as when too many files are open: let some close.
            Err(_) => std::thread::sleep(Duration::from_millis(50)),
        }
    }
}

/// Reads one request from `stream` and answers it.
fn answer(mut stream: TcpStream, page: &str) -> io::Result<()> {
    stream.set_read_timeout(Some(PATIENCE))?;
    stream.set_write_timeout(Some(PATIENCE))?;
    let head = read_head(&mut stream)?;
    stream.write_all(&reply(&head, page))?;
    stream.shutdown(std::net::Shutdown::Write)?;
    // Closing with unread bytes would cut off the answer; a little patience takes them in.
    io::copy(&mut Read::by_ref(&mut stream).take(64 * 1024), &mut io::sink())?;
    Ok(())
}

/// The bytes up to the empty line that ends a head, or as many as are read at most.
fn read_head(stream: &mut impl Read) -> io::Result<Vec<u8>> {
    let mut head = Vec::new();
    let mut piece = [0; 1024];
    while head.len() < LONGEST_HEAD && !ends(&head) {
        let count = stream.read(&mut piece)?;
        if count == 0 {
            break;
        }
        head.extend(piece.iter().take(count));
    }
    Ok(head)
}

fn ends(head: &[u8]) -> bool {
    head.windows(4).any(|four| four == b"\r\n\r\n") || head.windows(2).any(|two| two == b"\n\n")
}

/// The whole answer to the request that starts with `head`.
fn reply(head: &[u8], page: &str) -> Vec<u8> {
    let line = head.split(|byte| *byte == b'\n').next().unwrap_or_default();
    let line = String::from_utf8_lossy(line);
    let mut words = line.split_whitespace();
    let (method, target, version) = (words.next(), words.next(), words.next());
    let Some((method, target)) = method
        .zip(target)
        .filter(|_| ends(head) && version.is_some_and(|version| version.starts_with("HTTP/1.")))
    else {
        return write(
            "400 Bad Request",
            "",
            "text/plain",
            "This is not a request for a page.\n",
            true,
        );
    };
    let with_body = method != "HEAD";
    if !matches!(method, "GET" | "HEAD") {
        return write(
            "405 Method Not Allowed",
            "Allow: GET, HEAD\r\n",
            "text/plain",
            "The page can only be read.\n",
            true,
        );
    }
    match target.split('?').next() {
        Some("/") => write("200 OK", "", "text/html", page, with_body),
        _ => write(
            "404 Not Found",
            "",
            "text/plain",
            "Only the page itself is here, at /.\n",
            with_body,
        ),
    }
}

fn write(status: &str, extra: &str, kind: &str, body: &str, with_body: bool) -> Vec<u8> {
    let head = format!(
        "HTTP/1.1 {status}\r\n{extra}Content-Type: {kind}; charset=utf-8\r\nContent-Length: {}\r\n\
         Cache-Control: no-store\r\nX-Content-Type-Options: nosniff\r\nReferrer-Policy: no-referrer\r\n\
         Connection: close\r\n\r\n",
        body.len()
    );
    let mut bytes = head.into_bytes();
    if with_body {
        bytes.extend(body.as_bytes());
    }
    bytes
}

#[cfg(test)]
mod tests {
    use super::*;

    fn status(request: &str) -> String {
        let reply =
            String::from_utf8_lossy(&reply(request.as_bytes(), "<!doctype html>")).into_owned();
        reply.lines().next().unwrap_or_default().to_owned()
    }

    #[test]
    fn the_page_is_given_at_its_address_only() {
        assert_eq!(status("GET / HTTP/1.1\r\nHost: x\r\n\r\n"), "HTTP/1.1 200 OK");
        assert_eq!(status("GET /?a HTTP/1.1\r\n\r\n"), "HTTP/1.1 200 OK");
        assert_eq!(status("GET /../Cargo.toml HTTP/1.1\r\n\r\n"), "HTTP/1.1 404 Not Found");
        assert_eq!(status("POST / HTTP/1.1\r\n\r\n"), "HTTP/1.1 405 Method Not Allowed");
    }

    #[test]
    fn what_is_no_request_is_refused() {
        for request in
            ["", "\r\n\r\n", "GET", "GET /\r\n\r\n", "GET / HTTP/1.1\r\n", "\u{0}\u{1} \n\n"]
        {
            assert_eq!(status(request), "HTTP/1.1 400 Bad Request", "{request:?}");
        }
    }

    #[test]
    fn a_head_without_end_is_not_read_forever() -> io::Result<()> {
        let head = read_head(&mut io::repeat(b'a'))?;
        assert!(head.len() < LONGEST_HEAD + 1024);
        Ok(())
    }

    #[test]
    fn head_gets_the_length_and_no_body() {
        let reply = reply(b"HEAD / HTTP/1.1\r\n\r\n", "12345");
        let reply = String::from_utf8_lossy(&reply);
        assert!(reply.contains("Content-Length: 5\r\n") && reply.ends_with("\r\n\r\n"), "{reply}");
    }

    #[test]
    fn one_that_stays_silent_does_not_hold_up_the_next() -> anyhow::Result<()> {
        let listener = listen(Some(0))?;
        let address = listener.local_addr()?;
        std::thread::spawn(move || serve(&listener, "the page".into()));
        let _silent = TcpStream::connect(address)?;
        TcpStream::connect(address)?.write_all(&[0xff, 0x00, b'\n', b'\n'])?;
        let mut stream = TcpStream::connect(address)?;
        stream.write_all(b"GET / HTTP/1.1\r\n\r\n")?;
        let mut text = String::new();
        stream.read_to_string(&mut text)?;
        assert!(text.starts_with("HTTP/1.1 200 OK\r\n") && text.ends_with("the page"), "{text}");
        Ok(())
    }
}
