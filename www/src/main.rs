//! Packs Tastata into one self-contained HTML file and serves it on this machine, or turns a folder
//! of basses into sheets. Packing: compile the page's module, bind it, write everything into the
//! template, listen. Each step is a file of its own and hands plain data to the next.

mod batch;
mod bind;
mod compile;
mod icon;
mod open;
mod options;
mod page;
mod place;
mod serve;
mod site;

use std::path::Path;
use std::process::ExitCode;

use anyhow::{Context, Result};
use compile::Face;
use options::{Command, Opening, Options};
use page::Setting;

fn main() -> ExitCode {
    let command = match options::read(std::env::args_os().skip(1)) {
        Ok(command) => command,
        Err(remark) => {
            eprintln!("{remark}\nRun with --help to see what can be said.");
            return ExitCode::from(2);
        }
    };
    let done = match command {
        Command::Help => {
            print!("{}", options::HELP);
            Ok(())
        }
        Command::BatchHelp => {
            print!("{}", batch::HELP);
            Ok(())
        }
        Command::Batch(options) => batch::run(&options),
        Command::Library(out) => library(out.as_deref()),
        Command::Site(out) => site(out.as_deref()),
        Command::Pack(options) => pack(&options),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error:#}");
            ExitCode::FAILURE
        }
    }
}

/// Packs the page as `options` say and, unless told otherwise, serves it until stopped.
fn pack(options: &Options) -> Result<()> {
    let root = place::workspace()?;
    // Listening comes first, so that a taken port is known before the long part.
    let listener = options.serving.as_ref().map(|s| serve::listen(s.port)).transpose()?;

    let module = bind::bind(&compile::compile(&root, Face::Page)?)?;
    let html = page::assemble(&page::Parts::read(&root.join("www"), module)?, Setting::Alone)?;

    let out = options.out.clone().unwrap_or_else(|| root.join("www/out/tastata.html"));
    write(&out, &html)
        .with_context(|| format!("The page cannot be written to {}", out.display()))?;
    let shown = std::fs::canonicalize(&out).unwrap_or(out);
    println!("File:    {} ({} KB)", shown.display(), html.len().div_ceil(1000));

    if let (Some(listener), Some(serving)) = (listener, &options.serving) {
        let address = format!("http://{}/", listener.local_addr()?);
        println!("Address: {address}\nStop with Ctrl+C.");
        match serving.opening {
            Opening::Browser => open::open(&address),
            Opening::Nothing => {}
        }
        serve::serve(&listener, html.into());
    }
    Ok(())
}

/// Writes the library for the pages of others into `out`.
fn library(out: Option<&Path>) -> Result<()> {
    let root = place::workspace()?;
    let usual = root.join("www/out/library");
    let out = out.unwrap_or(&usual);
    std::fs::create_dir_all(out)
        .with_context(|| format!("The folder {} cannot be made", out.display()))?;
    bind::bind_library(&compile::compile(&root, Face::Library)?, out)?;
    println!("Library: {}", std::fs::canonicalize(out)?.display());
    Ok(())
}

/// Writes the page as a site that can be installed into `out`.
fn site(out: Option<&Path>) -> Result<()> {
    let root = place::workspace()?;
    let usual = root.join("www/out/site");
    let out = out.unwrap_or(&usual);
    let module = bind::bind(&compile::compile(&root, Face::Page)?)?;
    let html = page::assemble(&page::Parts::read(&root.join("www"), module)?, Setting::Site)?;
    let worker = root.join("www/worker.js");
    let worker = std::fs::read_to_string(&worker)
        .with_context(|| format!("{} cannot be read", worker.display()))?;
    site::write(out, &html, &worker)?;
    println!("Site: {}", std::fs::canonicalize(out)?.display());
    Ok(())
}

/// Writes `html` to `out` in one step, so that whoever reads the file meanwhile gets all of the old
/// page or all of the new one. What is there and is no file, such as a device, is written to as it is.
fn write(out: &Path, html: &str) -> std::io::Result<()> {
    if out.exists() && !out.is_file() {
        return std::fs::write(out, html);
    }
    if let Some(folder) = out.parent() {
        std::fs::create_dir_all(folder)?;
    }
    let mut name = out.file_name().unwrap_or_default().to_owned();
    name.push(format!(".{}.part", std::process::id()));
    let part = out.with_file_name(name);
    std::fs::write(&part, html).and_then(|()| std::fs::rename(&part, out)).inspect_err(|_| {
        // Nothing to be done about a part that stays.
        drop(std::fs::remove_file(&part));
    })
}
