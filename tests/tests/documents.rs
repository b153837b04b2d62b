//! README.md and DEVELOPERS.md say what is so: each command they give works, as far as it goes without
//! serving or opening anything, each file and room they name is there, each dependency is justified.

use std::path::Path;
use std::process::Command;

use anyhow::{Context, Result, bail, ensure};
use tastata_tests::workspace;

fn read(name: &str) -> Result<String> {
    std::fs::read_to_string(workspace().join(name)).with_context(|| format!("No {name}"))
}

/// The lines of the blocks of shell commands in `text`, without their comments.
fn commands(text: &str) -> Vec<&str> {
    let mut blocks = text.split("```sh\n").skip(1).flat_map(|rest| rest.split("```").next());
    let lines = blocks.by_ref().flat_map(str::lines);
    lines
        .filter_map(|line| line.split('#').next())
        .map(str::trim)
        .filter(|line| !line.is_empty())
        .collect()
}

/// Texts in single backquotes.
fn quoted(text: &str) -> impl Iterator<Item = &str> {
    text.split('`').skip(1).step_by(2)
}

fn run(command: &str) -> Result<String> {
    let done = Command::new("sh").args(["-c", command]).current_dir(workspace()).output()?;
    let said = String::from_utf8_lossy(&done.stderr);
    ensure!(done.status.success(), "{command} fails: {said}");
    Ok(String::from_utf8_lossy(&done.stdout).into_owned())
}

/// Runs a command of the documents in a form that comes to an end, and checks what it is there for.
fn try_command(command: &str) -> Result<()> {
    match command.split_whitespace().collect::<Vec<_>>().as_slice() {
        ["cargo", "run", "--release"] => {
            let said = run("cargo run --release -- --no-serve --out target/browsers/readme.html")?;
            ensure!(said.contains("readme.html"), "The packer does not say what it wrote: {said}");
        }
        ["cargo", "run", "--release", "--", "--help"] => {
            ensure!(run(command)?.contains("--port"));
        }
        ["cargo", "run", "--release", "--", "batch", "FOLDER"] => {
            let folder = tempfile::tempdir()?;
            std::fs::write(folder.path().join("a.txt"), "D minor: D3 C#3:6 D3")?;
            let said = run(&command.replace("FOLDER", &folder.path().to_string_lossy()))?;
            ensure!(said.contains("1 of 1 files turned"), "{said}");
        }
        ["cargo", "run", "--release", "--", "library"] => {
            let said = run(&format!("{command} --out target/browsers/library"))?;
            ensure!(said.contains("library"), "The packer does not say what it wrote: {said}");
        }
        ["cargo", "run", "--release", "--", "site"] => {
            let said = run(&format!("{command} --out target/browsers/site"))?;
            ensure!(said.contains("site"), "The packer does not say what it wrote: {said}");
        }
        ["tests/run"] => {
            run("test -x tests/run && bash -n tests/run")?;
        }
        ["cargo", "doc", "--open", rest @ ..] => {
            run(&format!("cargo doc --no-deps {}", rest.join(" ")))?;
        }
        ["cargo", "bench", "-p", "tastata-tests", "--bench", name] => {
            let manifest = read("tests/Cargo.toml")?;
            ensure!(manifest.contains(&format!("[[bench]]\nname = \"{name}\"")), "No bench {name}");
        }
        // The name of a test is good for something only as long as a test has it.
        ["cargo", "test", ..] | ["TASTATA_ENGINE=webkit", "cargo", "test", ..] => {
            let listed = run(&format!("{command} -- --list"))?;
            ensure!(listed.contains(": test"), "{command} runs no test");
        }
        ["cargo", "run", "-p", "tastata-tests", "--bin", "look", "--", _page, _out, _size] => {
            run("cargo build -p tastata-tests --bin look")?;
        }
        // The long search needs a tool that takes minutes to build; its door is tried here.
        ["cargo", "install", "cargo-fuzz"] | ["cd", "tests"] => {}
        ["RUSTC_BOOTSTRAP=1", door, "cargo", "fuzz", "run", ..] => {
            let name = door.strip_prefix("TASTATA_DOOR=").context("a door")?;
            tastata_tests::doors::door(name);
            let manifest = std::fs::read_to_string(workspace().join("tests/fuzz/Cargo.toml"))?;
            ensure!(manifest.contains("name = \"door\""), "No target of this name");
        }
        _ => bail!("Nobody has tried this command: {command}"),
    }
    Ok(())
}

#[test]
fn every_command_of_the_readme_works() -> Result<()> {
    let text = read("README.md")?;
    let inline = quoted(&text).filter(|text| text.starts_with("cargo "));
    let all: Vec<_> = commands(&text).into_iter().chain(inline).collect();
    ensure!(all.len() >= 4, "{all:?}");
    all.into_iter().try_for_each(try_command)
}

#[test]
fn every_command_for_developers_works() -> Result<()> {
    let text = read("DEVELOPERS.md")?;
    let all = commands(&text);
    ensure!(all.len() >= 3, "{all:?}");
    all.into_iter().try_for_each(try_command)
}

#[test]
fn every_file_the_documents_point_to_is_there() -> Result<()> {
    for document in ["README.md", "DEVELOPERS.md"] {
        let text = read(document)?;
        for target in text.split("](").skip(1).filter_map(|rest| rest.split(')').next()) {
            let outside = target.starts_with("https://");
            ensure!(outside || workspace().join(target).is_file(), "{document} points to {target}");
        }
    }
    Ok(())
}

#[test]
fn the_map_shows_each_room_and_no_other() -> Result<()> {
    let text = read("DEVELOPERS.md")?;
    let rows = text.lines().filter(|line| line.starts_with("| `"));
    let rooms: Vec<&str> =
        rows.filter_map(|row| quoted(row).next()).filter(|room| room.contains('/')).collect();
    for room in &rooms {
        ensure!(workspace().join(room).is_dir(), "The map shows {room}, which is not there");
    }
    for place in ["core/src", "web/src"] {
        for entry in std::fs::read_dir(workspace().join(place))? {
            let entry = entry?;
            let room = format!("{place}/{}", entry.file_name().to_string_lossy());
            let shown = rooms.contains(&room.as_str());
            ensure!(shown || !entry.path().is_dir(), "The map does not show {room}");
        }
    }
    Ok(())
}

#[test]
fn each_dependency_is_justified() -> Result<()> {
    let text = read("DEVELOPERS.md")?;
    for member in ["core", "web", "www", "tests"] {
        let manifest = read(&Path::new(member).join("Cargo.toml").display().to_string())?;
        for name in dependencies(&manifest).filter(|name| *name != "tastata") {
            let row = |line: &&str| {
                line.split('|').nth(2).is_some_and(|places| places.contains(member))
                    && line.split('|').nth(1).is_some_and(|names| quoted(names).any(|n| n == name))
            };
            ensure!(text.lines().any(|line| row(&line)), "Nothing says why {member} needs {name}");
        }
    }
    Ok(())
}

/// The names of the dependencies a manifest lists, for building and for testing.
fn dependencies(manifest: &str) -> impl Iterator<Item = &str> {
    let mut inside = false;
    manifest.lines().filter_map(move |line| {
        if let Some(section) = line.strip_prefix('[') {
            let section = section.trim_end_matches(']');
            inside = section.ends_with("dependencies");
            return section.split_once("dependencies.").map(|(_, name)| name);
        }
        let name = line.split(['=', '.', ' ']).next().unwrap_or_default();
        (inside && !name.is_empty() && !name.starts_with(['#', '"', ']'])).then_some(name)
    })
}
