//! Takes a picture of a packed page, in Chromium unless `TASTATA_ENGINE` says otherwise, for
//! whoever works on it:
//! `cargo run -p tastata-tests --bin look -- PAGE OUT.png WIDTHxHEIGHT [SCRIPT.js] [--dark] [--touch]`.
//! The script is the body of an `async` function, run before the picture is taken; what it returns is
//! printed, and so is everything the page complained about.

use std::path::PathBuf;
use std::process::ExitCode;

use anyhow::{Context, Result, bail};
use tastata_tests::{Browser, Engine, Taste};

const USAGE: &str = "look PAGE OUT.png WIDTHxHEIGHT [SCRIPT.js] [--dark] [--touch]";

fn main() -> ExitCode {
    match look() {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error:#}");
            ExitCode::FAILURE
        }
    }
}

fn look() -> Result<()> {
    let (flags, words): (Vec<String>, Vec<String>) =
        std::env::args().skip(1).partition(|word| word.starts_with("--"));
    let mut words = words.into_iter();
    let page = PathBuf::from(words.next().context(USAGE)?);
    let out = PathBuf::from(words.next().context(USAGE)?);
    let size = words.next().context(USAGE)?;
    let (width, height) = size.split_once('x').context(USAGE)?;
    let script = words.next().map(std::fs::read_to_string).transpose().context(USAGE)?;

    let dark = flags.iter().any(|flag| flag == "--dark");
    let taste = if dark { Taste::Dark } else { Taste::Light };
    let browser = Browser::start_for(Engine::asked(), taste)?;
    browser.size(width.parse().context(USAGE)?, height.parse().context(USAGE)?)?;
    for flag in flags {
        match flag.as_str() {
            "--dark" => {}
            "--touch" => browser.have_touch_screen()?,
            _ => bail!(USAGE),
        }
    }
    let (file, fragment) = match page.to_str().and_then(|page| page.split_once('#')) {
        Some((file, fragment)) => (PathBuf::from(file), fragment.to_owned()),
        None => (page, String::new()),
    };
    // A page that does not start is worth a picture too.
    let started = browser.open_page(&file, &fragment);
    let told = script.map(|script| browser.run_async(&script)).transpose();
    browser.shoot(&out)?;
    for complaint in browser.complaints()? {
        println!("complaint: {complaint}");
    }
    let wide = browser.eval("document.documentElement.scrollWidth - innerWidth")?;
    if wide.as_i64().is_some_and(|wide| wide > 0) {
        println!("The page is {wide} px wider than the viewport.");
    }
    started?;
    if let Some(value) = told? {
        println!("{value:#}");
    }
    println!("{}", out.display());
    Ok(())
}
