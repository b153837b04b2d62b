//! Bringing things in as a person does: a file chosen, dropped, or a text pasted. What cannot be
//! read gets one sentence where the person looks, and what was on the page stays.

use std::path::PathBuf;

use anyhow::{Context, Result, ensure};
use serde_json::json;
use tastata::bass::read_bass;
use tastata::files::{MidiForm, encode, encode_set, midi, musicxml, mxl, to_text};
use tastata::lesson::{Ask, Measure, Set, make};
use tastata::reading::read;
use tastata::sketch::Sketch;
use tastata_tests::{Browser, Engine, made, oracle, page};

const CHORDS: &str = "document.querySelectorAll('#staff .chord').length";
const TITLE: &str = "document.getElementById('title').value";

fn sketch() -> Sketch {
    let read = read_bass("D minor: D3 C#3:6 D3 G2:6/5 A2 D2", None);
    let notes = read.notes.iter().map(|note| note.to_sketch()).collect();
    let title = "Evening".to_string();
    Sketch { title, tonality: read.tonality, notes, ..Sketch::default() }
}

fn set() -> String {
    let mut exercise = make(&sketch(), vec![Ask::Figures(Measure::Complete)]);
    exercise.task = "Figure this bass.".to_string();
    encode_set(&Set { title: "Week 1".to_string(), exercises: vec![exercise], ..Set::default() })
}

fn file(name: &str, bytes: impl AsRef<[u8]>) -> Result<PathBuf> {
    let folder = made("brought");
    std::fs::create_dir_all(&folder)?;
    let file = folder.join(name);
    std::fs::write(&file, bytes)?;
    Ok(file)
}

/// Drops bytes on the page under a name, as from the desktop.
fn drop_file(browser: &Browser, name: &str, bytes: &[u8]) -> Result<()> {
    browser
        .run(
            "const moved = new DataTransfer();
             moved.items.add(new File([new Uint8Array(arguments[1])], arguments[0]));
             const drop = new DragEvent('drop', { dataTransfer: moved, bubbles: true, cancelable: true });
             document.getElementById('staff').dispatchEvent(drop);",
            &json!([name, bytes]),
        )
        .map(drop)
}

#[test]
fn every_kind_of_file_enters() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(Engine::asked())?;
    browser.open_page(page()?, "")?;
    let example = browser.eval(CHORDS)?;
    let (sketch, reading) = (sketch(), read(&sketch()));
    let saved = std::fs::read_to_string(page()?)?
        .replace("id=\"kept-sketch\">", &format!("id=\"kept-sketch\">{}", encode(&sketch)));
    for (name, bytes) in [
        ("a.musicxml", musicxml(&sketch, &reading).into_bytes()),
        ("a.mxl", mxl(&sketch, &reading)),
        ("a.mid", midi(&sketch, &reading, MidiForm::Blocks)),
        ("a.txt", to_text(&sketch).into_bytes()),
        ("link.txt", format!("https://school.example/t.html#{}", encode(&sketch)).into_bytes()),
        ("saved.html", saved.into_bytes()),
    ] {
        browser.click("#share")?;
        browser.choose_file("#bring", &file(name, &bytes)?)?;
        browser
            .wait_for(&format!("{TITLE} === 'Evening' && {CHORDS} === 6"))
            .with_context(|| name.to_string())?;
        // Several parts can be chosen among; else the sheet has done its work.
        if browser.eval("document.getElementById('share-sheet').open")? == true {
            ensure!(
                browser.eval("document.getElementById('bring-part').options.length > 1")? == true
            );
            browser.click("#share-close")?;
        }
        browser.click("#undo")?;
        browser.wait_for(&format!("{CHORDS} === {example}")).context("Undo brings it back")?;
    }
    // Pasted: the text form of a piece, as it came in a mail.
    browser.click("#share")?;
    browser.run(
        "document.getElementById('bring-text').value = arguments[0]",
        &json!([to_text(&sketch)]),
    )?;
    browser.click("#bring-open")?;
    browser.wait_for(&format!("{TITLE} === 'Evening' && {CHORDS} === 6"))?;
    ensure!(browser.eval("document.getElementById('share-sheet').open")? == false);
    assert_eq!(browser.complaints()?, Vec::<String>::new());
    Ok(())
}

#[test]
fn what_cannot_be_read_gets_a_sentence_and_nothing_is_lost() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(Engine::asked())?;
    browser.open_page(page()?, &encode(&sketch()))?;
    let before = browser.eval("document.getElementById('kept-sketch').textContent")?;
    let deep = format!("<score-partwise>{}", "<a>".repeat(50_000)).into_bytes();
    let bad: [(&str, &[u8], &str); 8] = [
        ("a.pdf", b"%PDF-1.7", "a PDF document"),
        ("a.png", b"\x89PNG\r\n\x1a\n", "a picture"),
        ("a.mid", b"MThd\0\0", "MIDI file was expected"),
        ("a.mxl", b"PK\x03\x04", "packed score"),
        ("a.xml", b"<score-partwise><part>", "line 1"),
        ("deep.xml", &deep, "deeper"),
        ("a.txt", b"Dear Sir, we thank you.", "no bass"),
        ("empty", b"", "empty"),
    ];
    for (name, bytes, part) in bad {
        // Dropped on the page: told in its message.
        drop_file(&browser, name, bytes)?;
        let said = "document.getElementById('notice-text').textContent";
        let part = part.replace("no bass", "bass");
        browser
            .wait_for(&format!("{said}.includes({part:?})"))
            .with_context(|| name.to_string())?;
        browser.click("#notice-close")?;
        browser.run("document.getElementById('notice-text').textContent = ''", &json!([]))?;
        // Chosen in the sheet: told in the sheet, since it covers the page's messages.
        browser.click("#share")?;
        browser.choose_file("#bring", &file(name, bytes)?)?;
        let said = "document.getElementById('bring-note').textContent";
        browser
            .wait_for(&format!("{said}.includes({part:?})"))
            .with_context(|| name.to_string())?;
        ensure!(browser.eval("document.getElementById('notice').hidden")? == true);
        browser.click("#share-close")?;
    }
    // Larger than anything; never read into memory.
    let large = made("brought/large.xml");
    std::fs::File::create(&large)?.set_len(33 << 20)?;
    browser.click("#share")?;
    browser.choose_file("#bring", &large)?;
    browser
        .wait_for("document.getElementById('bring-note').textContent.includes('larger than')")?;
    assert_eq!(browser.eval("document.getElementById('kept-sketch').textContent")?, before);
    assert_eq!(browser.complaints()?, Vec::<String>::new());
    Ok(())
}

#[test]
fn exercises_and_answers_open_from_files_too() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(Engine::asked())?;
    browser.open_page(page()?, "")?;
    let desk = "!document.getElementById('desk').hidden \
                && document.getElementById('desk-task').textContent.includes('Figure this bass.')";
    let saved = std::fs::read_to_string(page()?)?
        .replace("id=\"kept-sketch\">", &format!("id=\"kept-sketch\">{}", set()));
    let mail = format!("Dear class,\n\nhere it is: <https://school.example/t.html#{}>\n", set());
    for (name, bytes) in [
        ("set.txt", set().into_bytes()),
        ("mail.txt", mail.clone().into_bytes()),
        ("set.html", saved.into_bytes()),
    ] {
        drop_file_of(&browser, name, &bytes)?;
        browser.wait_for(desk).with_context(|| name.to_string())?;
        browser.click("#desk-leave")?;
        browser.wait_for("document.getElementById('desk').hidden")?;
    }
    // Answers of several students in one text go to where answers are collected.
    let answer = |name: &str| {
        let exercise = make(&sketch(), vec![Ask::Figures(Measure::Complete)]);
        let set = Set { title: "Week 1".to_string(), exercises: vec![exercise], ..Set::default() };
        let hand_in = tastata::lesson::HandIn {
            student: name.to_string(),
            set,
            ..tastata::lesson::HandIn::default()
        };
        tastata::files::encode_hand_in(&hand_in)
    };
    let mails = format!(
        "From A:\nhttps://s.example/t.html#{}\n\nFrom B:\nhttps://s.example/t.html#{}\n",
        answer("Ada"),
        answer("Bo")
    );
    drop_file_of(&browser, "mails.txt", mails.as_bytes())?;
    browser.wait_for("document.getElementById('teach-sheet').open \
                      && document.querySelectorAll('#class-table tbody tr, #class-table tr').length >= 2")?;
    let table = browser.eval("document.getElementById('class-table').textContent")?;
    let table = table.as_str().unwrap_or_default();
    ensure!(table.contains("Ada") && table.contains("Bo"), "{table}");
    Ok(())
}

/// Through a file on the disk: a saved page is too long for a script's arguments.
fn drop_file_of(browser: &Browser, name: &str, bytes: &[u8]) -> Result<()> {
    if bytes.len() < 50_000 {
        return drop_file(browser, name, bytes);
    }
    browser.click("#share")?;
    browser.choose_file("#bring", &file(name, bytes)?)
}

/// The score of most notes among the chorales that music21 ships, through the page.
#[test]
fn the_largest_chorale_enters_through_the_page() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let answer = oracle("basses.py", &["largest"], "")?;
    let (path, expected) = answer.trim_end().split_once('\t').context("two columns")?;
    let browser = Browser::start(Engine::asked())?;
    browser.open_page(page()?, "")?;
    browser.click("#share")?;
    browser.choose_file("#bring", std::path::Path::new(path))?;
    browser.wait_for("document.getElementById('bring-part').options.length >= 4")?;
    browser.click("#share-close")?;
    let bass = browser.eval("document.getElementById('bass').value")?;
    // The oracle tells pitches alone; the page writes lengths and rests with them.
    let pitches = |text: &str| -> Vec<String> {
        let notes = text.split_whitespace().filter(|word| !word.starts_with('r'));
        notes.map(|word| word.split('=').next().unwrap_or(word).to_owned()).collect()
    };
    let first = |text: &str| pitches(text).into_iter().take(4).collect::<Vec<_>>();
    let shown = first(&bass.as_str().unwrap_or_default().replace(['(', ')'], ""));
    assert_eq!(shown, first(&expected.replace('-', "b")));
    Ok(())
}
