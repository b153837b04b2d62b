//! What a teacher and a student do on the page, for tests that drive a browser:
//! press, write, choose, type a bass, strike keys, make an exercise, hand in.

use std::time::{Duration, Instant};

use anyhow::{Context, Result, ensure};
use serde_json::{Value, json};
use tastata::bass::print_bass;
use tastata::files::encode;
use tastata::pitch::Key;
use tastata::sketch::Sketch;

use crate::browser::{Browser, Pointer, key};
use crate::oracle::oracle;

/// A web address for the links that are handed out.
pub const BASE: &str = "https://school.example/tastata.html";

/// Clicks on the element of this id.
pub fn press(browser: &Browser, id: &str) -> Result<()> {
    browser.click(&format!("#{id}"))
}

/// Chooses a value in a list.
pub fn choose(browser: &Browser, id: &str, value: &str) -> Result<()> {
    let body = "const it = document.getElementById(arguments[0]); it.value = arguments[1];
                it.dispatchEvent(new Event('change', { bubbles: true })); return it.value;";
    let chosen = browser.run(body, &json!([id, value]))?;
    ensure!(chosen == value, "{id} has no {value}");
    Ok(())
}

/// Puts a text into a field.
pub fn write(browser: &Browser, id: &str, text: &str) -> Result<()> {
    let body = "document.getElementById(arguments[0]).value = arguments[1];";
    browser.run(body, &json!([id, text])).map(drop)
}

/// The text of an element or field.
pub fn text(browser: &Browser, id: &str) -> Result<String> {
    let body =
        "const it = document.getElementById(arguments[0]); return it.value ?? it.textContent;";
    let text = browser.run(body, &json!([id]))?;
    text.as_str().map(str::to_owned).with_context(|| format!("{id} has no text"))
}

/// Whether an element is hidden.
pub fn hidden(browser: &Browser, id: &str) -> Result<bool> {
    Ok(browser.eval(&format!("document.getElementById('{id}').hidden"))? == true)
}

/// Types a bass as a person does.
pub fn type_bass(browser: &Browser, bass: &str) -> Result<()> {
    press(browser, "bass")?;
    browser.keys_with(key::CONTROL, "a")?;
    browser.keys(bass)?;
    browser.keys(&key::TAB.to_string())
}

/// Chooses a chord on the staff.
pub fn choose_chord(browser: &Browser, chord: usize) -> Result<()> {
    browser.click(&format!("#staff [data-part=bass][data-chord='{chord}'] path:first-of-type"))?;
    browser.wait_for(&format!("document.querySelector('#staff .selected[data-chord=\"{chord}\"]')"))
}

/// Strikes a key on the screen, at its lower end, where no raised key lies over it.
pub fn strike(browser: &Browser, key: Key, pointer: Pointer) -> Result<()> {
    let find = || {
        browser.run(
            "const it = document.getElementById(arguments[0]);
             if (!it) return null;
             const box = it.getBoundingClientRect();
             return [box.x + box.width / 2, box.bottom - 6];",
            &json!([format!("k{}", key.number())]),
        )
    };
    let at = at_rest(find)?;
    let at = at[0].as_f64().zip(at[1].as_f64()).context("the key is not in view")?;
    browser.press_at(at, pointer)
}

/// What is found twice in a row: the keys may be on their way to another octave.
fn at_rest(find: impl Fn() -> Result<Value>) -> Result<Value> {
    let mut before = find()?;
    for _ in 0..40 {
        std::thread::sleep(Duration::from_millis(30));
        let now = find()?;
        if now == before && !now.is_null() {
            return Ok(now);
        }
        before = now;
    }
    Ok(before)
}

/// The address under which the links of this browser open.
pub fn choose_base(browser: &Browser) -> Result<()> {
    browser.run("localStorage.setItem('tastata.base', arguments[0]);", &json!([BASE])).map(drop)
}

/// Makes an exercise from a sketch with this one ask; `settings` are the values of
/// the form's lists.
pub fn add_exercise(
    browser: &Browser,
    sketch: &Sketch,
    ask: &str,
    task: &str,
    hints: &str,
    settings: &[(&str, &str)],
) -> Result<()> {
    browser.run("location.hash = arguments[0];", &json!([encode(sketch)]))?;
    let bass = serde_json::to_string(&print_bass(&sketch.notes, None))?;
    browser.wait_for(&format!("document.getElementById('bass').value === {bass}"))?;
    press(browser, "teach")?;
    browser.click("[data-room=make]")?;
    let names = ["figures", "soprano", "find", "handfuls", "roll", "keys", "finish", "free"];
    for name in names {
        let checked = browser.eval(&format!("document.getElementById('ask-{name}').checked"))?;
        if (checked == true) != (name == ask) {
            press(browser, &format!("ask-{name}"))?;
        }
    }
    for (id, value) in settings {
        choose(browser, id, value)?;
    }
    write(browser, "make-task", task)?;
    write(browser, "make-hints", hints)?;
    press(browser, "make-put")?;
    browser.wait_for("!document.getElementById('room-set').hidden")?;
    press(browser, "teach-close")
}

/// Hands the work on the desk in under a name; gives the link.
pub fn hand_in(browser: &Browser, name: &str) -> Result<String> {
    press(browser, "desk-hand-in")?;
    write(browser, "pass-name", name)?;
    press(browser, "pass-make")?;
    browser.wait_for("!document.getElementById('pass-room').hidden")?;
    let link = text(browser, "pass-link")?;
    press(browser, "pass-close")?;
    Ok(link)
}

/// Where a code on the screen is read from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seat {
    /// In front of it.
    Near,
    /// Also in bad light, and in the back row, ten metres away from a projection.
    BackRow,
}

/// How long a code is looked at: a window that was just resized may still be painted.
const LOOKING: Duration = Duration::from_secs(20);

/// What a barcode library of others reads on the page as it stands, looking as a camera
/// does, until there is something to read.
pub fn read_screen(browser: &Browser, seat: Seat) -> Result<String> {
    let until = Instant::now() + LOOKING;
    loop {
        match read_picture(browser, seat) {
            Err(_) if Instant::now() < until => std::thread::sleep(Duration::from_millis(200)),
            read => return read,
        }
    }
}

fn read_picture(browser: &Browser, seat: Seat) -> Result<String> {
    let file = tempfile::Builder::new().suffix(".png").tempfile()?;
    browser.shoot(file.path())?;
    let path = file.path().to_str().context("a path that is no text")?;
    let read: Value = serde_json::from_str(&oracle("qr.py", &[path], "")?)?;
    let first = read["near"].as_str().context("nothing was read")?;
    if seat == Seat::BackRow {
        ensure!(read["dim"] == first, "in bad light: {read}");
        ensure!(read["far"] == first, "from the back row: {read}");
    }
    Ok(first.to_owned())
}
