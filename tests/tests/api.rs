//! The library for other people's pages and the player, in a real browser: the README's
//! own example, every function's answer and every kind of bad value.

use anyhow::{Context, Result, ensure};
use serde_json::{Value, json};
use tastata::bass::read_bass;
use tastata::files::{decode, encode};
use tastata::reading::read;
use tastata::sketch::Sketch;
use tastata_tests::{Browser, Engine, Pointer, Server, key, library, page, shot, workspace};

const BASS: &str = "D minor: D3 C#3:6 D3 G2:6/5 A2:4-3 D2";

/// Serves the library with `index` at its root, from a folder of its own.
fn serve(index: &str) -> Result<(Server, tempfile::TempDir)> {
    let folder = tempfile::tempdir()?;
    for entry in std::fs::read_dir(library()?)? {
        let entry = entry?;
        std::fs::copy(entry.path(), folder.path().join(entry.file_name()))?;
    }
    std::fs::write(folder.path().join("index.html"), index)?;
    Ok((Server::start(folder.path().to_owned())?, folder))
}

/// The page that README shows.
fn example() -> Result<String> {
    let readme = std::fs::read_to_string(workspace().join("README.md"))?;
    let (_, section) = readme.split_once("## In other people's pages").context("the section")?;
    let (_, block) = section.split_once("```html\n<!doctype html>").context("the example")?;
    let (block, _) = block.split_once("\n```").context("its end")?;
    Ok(format!("<!doctype html>{block}"))
}

fn sketch() -> Sketch {
    let read = read_bass(BASS, None);
    let notes = read.notes.iter().map(|note| note.to_sketch()).collect();
    Sketch { tonality: read.tonality, notes, ..Sketch::default() }
}

#[test]
fn the_example_runs_and_answers_as_the_core_does() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let (server, _folder) = serve(&example()?)?;
    let browser = Browser::start(Engine::asked())?;
    browser.open(server.address())?;
    browser.wait_for("document.title.startsWith('Ready: 4096')")?;
    let reading = read(&sketch());
    let lines = browser.eval("[...document.querySelectorAll('li')].map(it => it.textContent)")?;
    let lines = lines.as_array().context("lines")?;
    assert_eq!(lines.len(), reading.harmony.chords.len());
    assert!(lines[1].as_str().is_some_and(|line| line.starts_with("C#3 6, ")), "{lines:?}");
    let said = browser.eval("document.getElementById('said').textContent")?;
    let said = said.as_str().unwrap_or_default();
    assert!(said.to_lowercase().contains("consecutive fifths"), "{said}");
    assert_eq!(
        browser.eval("document.querySelectorAll('#staff .chord').length")?,
        json!(reading.harmony.chords.len())
    );

    let call = |body: &str| {
        browser.run_async(&format!(
            "const t = await import('./tastata.js'); await t.default(); {body}"
        ))
    };
    // The same touches, to the microsecond, and the same link.
    let given = call(&format!("return t.roll({BASS:?})"))?;
    let touch = reading.performance.touches.last().context("a touch")?;
    let last = given["touches"].as_array().and_then(|all| all.last()).context("touches")?;
    assert_eq!(last["key"], json!(touch.key.number()));
    assert_eq!(last["down"], json!(touch.down.as_secs()));
    assert_eq!(call(&format!("return t.realise({BASS:?}).link"))?, json!(encode(&sketch())));
    // What is given back is taken again.
    let link =
        call("return t.link({ bass: 'C E G', title: 'T', soprano: [{ note: 1, pitch: 'G4' }] })")?;
    let back = decode(link.as_str().unwrap_or_default()).map_err(|it| anyhow::anyhow!("{it:?}"))?;
    assert_eq!((back.title.as_str(), back.notes.len()), ("T", 3));
    assert!(back.notes[1].soprano[0].is_some());
    assert_eq!(call(&format!("return t.realise({link}).chords.length"))?, json!(3));
    let places = call("return t.readBass('♯ C3 hm').remarks.map(it => [it.from, it.to])")?;
    assert_eq!(places, json!([[0, 1], [5, 7]]));
    // Files, whole and in slices.
    let heads = call(
        "const text = bytes => String.fromCharCode(...bytes.slice(0, 4));
         const wav = t.renderWav('C3', 8000, 24);
         const sound = new t.Sound('C3', 8000);
         let frames = 0;
         for (let slice; (slice = sound.next(1000)); ) frames += slice.left.length;
         const file = t.readFile('x.mid', t.midiFile('C3 D3 E3 C3'));
         return [text(wav), wav.length, frames, text(t.midiFile('C3')), t.musicXml('C3').slice(0, 5),
                 t.realise(file).tonality];",
    )?;
    assert_eq!(heads[0], json!("RIFF"));
    let frames = heads[2].as_u64().unwrap_or_default();
    assert!(frames >= 8_000, "{heads}");
    // Slices of another length end elsewhere, by less than a slice.
    let in_file = (heads[1].as_u64().unwrap_or_default() - 44) / 6;
    assert!(in_file.abs_diff(frames) <= 4_096, "{in_file} and {frames}");
    assert_eq!(
        [&heads[3], &heads[4], &heads[5]],
        [&json!("MThd"), &json!("<?xml"), &json!("C major")]
    );
    Ok(())
}

#[test]
fn bad_values_are_answered_with_a_sentence() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let index = "<!doctype html><title>t</title><script type=module>
        import init, * as t from './tastata.js'; await init(); window.t = t; document.title = 'Ready';
        </script>";
    let (server, _folder) = serve(index)?;
    let browser = Browser::start(Engine::asked())?;
    browser.open(server.address())?;
    browser.wait_for("document.title === 'Ready'")?;
    for (call, part) in [
        ("t.realise(undefined)", "The piece cannot be understood"),
        ("t.realise(7)", "The piece cannot be understood"),
        ("t.realise({})", "bass"),
        ("t.realise({ bass: 'C', key: 'C' })", "no field “key”"),
        ("t.realise({ bass: 'C', roll: { time: 1 } })", "no field “time”"),
        ("t.realise({ bass: 'C', soprano: [{ chord: 1 }] })", "no field “chord”"),
        ("t.draw('C', { height: 1 })", "no field “height”"),
        ("t.realise({ bass: 'C hm' })", "“hm”"),
        ("t.realise('Dear Sir')", "no bass can be found"),
        ("t.realise('')", "empty"),
        ("t.realise({ bass: 'C', tonality: 'H' })", "“H”"),
        ("t.realise({ bass: 'C', daring: -1 })", "The piece cannot be understood"),
        ("t.realise({ bass: 'C', daring: NaN })", "The piece cannot be understood"),
        ("t.realise({ bass: 'C', soprano: [{ note: 3, pitch: 'C5' }] })", "1 notes"),
        ("t.realise({ bass: 'C', soprano: [{ note: 0, pitch: 'X' }] })", "“X”"),
        ("t.realise({ bass: 'C', soprano: [{ note: 0, stage: 1e9, pitch: 'C5' }] })", "stage"),
        ("t.realise({ bass: 'C', sound: { a4: 1000 } })", "380 to 480"),
        ("t.realise({ bass: 'C', sound: { voice: 'kazoo' } })", "kazoo"),
        ("t.realise({ bass: 'C '.repeat(2000) })", "too long"),
        ("t.checkOuterVoices('C D', ['C4'])", "2 chords and the soprano 1 notes"),
        ("t.checkOuterVoices('C D', 'C4')", "The soprano cannot be understood"),
        ("t.draw('C', { width: 'wide' })", "The wishes for the drawing"),
        ("t.renderWav('C', 10)", "10 is not"),
        ("t.renderWav('C', NaN)", "NaN is not"),
        ("t.renderWav('C', 8000, 17)", "not 17"),
        ("new t.Sound('C').next(0)", "0 is not among them"),
        ("t.readFile('x', new Uint8Array([37, 80, 68, 70]))", "a PDF document"),
    ] {
        let said = browser.run(
            &format!(
                "try {{ return 'gave ' + JSON.stringify({call}); }} catch (error) {{
                return error instanceof window.Error && !(error instanceof window.WebAssembly.RuntimeError)
                  ? error.message : 'threw ' + error; }}"
            ),
            &json!([]),
        )?;
        let said = said.as_str().unwrap_or_default();
        assert!(
            said.contains(part) && !said.starts_with("gave") && !said.starts_with("threw"),
            "{call}: {said}"
        );
    }
    // Nothing of this has harmed the library.
    assert_eq!(browser.eval("t.realise('C D E').chords.length")?, json!(3));
    Ok(())
}

#[test]
fn the_player_shows_and_plays_and_changes_nothing() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(Engine::asked())?;
    browser.size(640, 480)?;
    let link = encode(&sketch());
    browser.open_page(page()?, &format!("play={link}"))?;
    let chords = browser.eval("document.querySelectorAll('#staff .chord').length")?;
    assert_eq!(chords, json!(read(&sketch()).harmony.chords.len()));
    assert_eq!(
        browser.eval("getComputedStyle(document.querySelector('main > .bass')).display")?,
        json!("none")
    );
    let stored = || browser.eval("JSON.stringify(Object.keys(localStorage))");
    let (kept, shown) =
        (stored()?, browser.eval("document.getElementById('kept-sketch').textContent")?);
    browser.shoot(&shot("player.png"))?;
    let playing = "document.getElementById('play').getAttribute('aria-pressed') === 'true'";
    browser.click("#play")?;
    browser.wait_for(playing)?;
    browser.click("#play")?;
    browser.wait_for(&format!("!({playing})"))?;
    // What would change the piece elsewhere does nothing here: drag, delete, move by keys.
    let from = browser.middle("#staff .note.soprano")?;
    browser.drag(from, (from.0, from.1 - 30.0), Pointer::Mouse)?;
    browser.run("document.getElementById('staff').focus()", &json!([]))?;
    browser.keys(&format!("{}{}p", key::DELETE, key::UP))?;
    assert_eq!(browser.eval("document.querySelectorAll('#staff .chord').length")?, chords);
    assert_eq!(browser.eval("document.querySelectorAll('#staff .pinned').length")?, json!(0));
    let inside = browser.eval("document.getElementById('kept-sketch').textContent")?;
    assert_eq!((stored()?, inside), (kept, shown));
    let href = browser.eval("document.getElementById('embed-open').getAttribute('href')")?;
    assert_eq!(href, json!(format!("#{link}")));
    assert_eq!(browser.complaints()?, Vec::<String>::new());
    Ok(())
}

/// The frame that README shows, in a page of others.
#[test]
fn the_frame_of_the_readme_plays() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let readme = std::fs::read_to_string(workspace().join("README.md"))?;
    let frame = readme.lines().find(|line| line.starts_with("<iframe")).context("a frame")?;
    ensure!(frame.contains("#play=LINK"), "{frame}");
    let frame = frame.replace("LINK", &encode(&sketch()));
    let folder = tempfile::tempdir()?;
    std::fs::copy(page()?, folder.path().join("tastata.html"))?;
    let index = format!("<!doctype html><title>A course</title><p>Listen:</p>{frame}");
    std::fs::write(folder.path().join("index.html"), index)?;
    let server = Server::start(folder.path().to_owned())?;
    let browser = Browser::start(Engine::asked())?;
    browser.open(server.address())?;
    let inside = |what: &str| format!("document.querySelector('iframe').contentDocument.{what}");
    browser.wait_for(&inside("documentElement.dataset.state === 'ready'"))?;
    let chords = browser.eval(&inside("querySelectorAll('#staff .chord').length"))?;
    assert_eq!(chords, json!(read(&sketch()).harmony.chords.len()));
    let play = inside("getElementById('play')");
    browser.run(&format!("{play}.click()"), &json!([]))?;
    browser.wait_for(&format!("{play}.getAttribute('aria-pressed') === 'true'"))?;
    let mut asked = server.asked();
    // Browsers look for a picture of the page around it.
    asked.retain(|it| it != "/favicon.ico");
    assert_eq!(asked, ["/", "/tastata.html"]);
    Ok(())
}

#[test]
fn a_player_with_a_broken_link_says_so() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(Engine::asked())?;
    browser.open_page(page()?, "play=1AAAA")?;
    let said: Value = browser.eval("document.getElementById('notice-text').textContent")?;
    assert!(said.as_str().is_some_and(|said| said.contains("link")), "{said}");
    Ok(())
}
