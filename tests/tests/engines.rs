//! `tests/engines.md`, `tests/run` and the tests themselves tell the same of the three engines: every
//! test that opens a browser is run in each of them, and what is left out in one is listed with its
//! reason.

use std::collections::BTreeSet;

use anyhow::{Context, Result, ensure};
use tastata_tests::{Engine, Need, workspace};

fn read(name: &str) -> Result<String> {
    std::fs::read_to_string(workspace().join(name)).with_context(|| format!("No {name}"))
}

/// The names and texts of the files of tests that open a browser.
fn with_browsers() -> Result<Vec<(String, String)>> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(workspace().join("tests/tests"))? {
        let file = entry?.path();
        let text = std::fs::read_to_string(&file)?;
        let name = file.file_stem().context("a name")?.to_string_lossy().into_owned();
        if text.contains("Engine::asked()") || text.contains("Browser::start") {
            found.push((name, text));
        }
    }
    // This one speaks of them and opens none.
    found.retain(|(name, _)| name != "engines");
    Ok(found)
}

#[test]
fn every_file_that_opens_a_browser_is_run_in_each() -> Result<()> {
    let run = read("tests/run")?;
    let (_, list) = run.split_once("\npages=(").context("the list of tests/run")?;
    let (list, _) = list.split_once(')').context("its end")?;
    let listed: BTreeSet<&str> = list.split_whitespace().collect();
    let files = with_browsers()?;
    let there: BTreeSet<&str> = files.iter().map(|(name, _)| name.as_str()).collect();
    ensure!(there.len() > 15, "{there:?}");
    ensure!(listed == there, "tests/run lists {listed:?}, and there are {there:?}");
    Ok(())
}

#[test]
fn no_test_chooses_its_engine() -> Result<()> {
    for (name, text) in with_browsers()? {
        for engine in Engine::ALL {
            let chosen = format!("Engine::{engine:?}");
            ensure!(!text.contains(&chosen), "{name} names {chosen}; let it name what it needs");
        }
    }
    Ok(())
}

#[test]
fn what_is_left_out_is_listed_with_its_reason() -> Result<()> {
    let text = read("tests/engines.md")?;
    let (_, table) =
        text.split_once("| Left out | Where | Lacking in | Why |").context("a table")?;
    let rows = table.lines().skip(2).take_while(|line| line.starts_with('|'));
    let mut listed = BTreeSet::new();
    for row in rows {
        let cells: Vec<&str> = row.split('|').map(str::trim).collect();
        let [_, what, places, lacking, why, _] = cells[..] else { anyhow::bail!("{row}") };
        let need = Need::ALL.into_iter().find(|it| format!("`{it:?}`") == what);
        let need = need.with_context(|| format!("No test needs {what}"))?;
        let names: Vec<&str> = need.absent().iter().map(|it| title(*it)).collect();
        ensure!(lacking == names.join(", "), "{what} is lacking in {names:?}, not in {lacking}");
        ensure!(why.len() > 20, "{what}: no reason");
        listed.extend(places.split(", ").map(|it| (it.trim_matches('`').to_owned(), need)));
    }
    let mut left_out = BTreeSet::new();
    for (name, text) in with_browsers()? {
        for need in Need::ALL.into_iter().filter(|it| text.contains(&format!("Need::{it:?}"))) {
            left_out.insert((name.clone(), need));
        }
    }
    ensure!(listed == left_out, "listed: {listed:?}\nleft out: {left_out:?}");
    Ok(())
}

fn title(engine: Engine) -> &'static str {
    match engine {
        Engine::Chromium => "Chromium",
        Engine::Firefox => "Firefox",
        Engine::WebKit => "WebKitGTK",
    }
}
