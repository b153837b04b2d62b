//! Outer voices and hands on the packed page, as a person works on them in one of the engines: rules taken
//! otherwise, the motion view, a line drawn by a finger, a note dragged freely, a soprano from a
//! MIDI keyboard, inner notes by a finger, the reach of each hand on its picture, all voices, and
//! what is said of strain.

use anyhow::{Context, Result, ensure};
use serde_json::{Value, json};
use tastata_tests::midi_keys::visit_with_keys;
use tastata_tests::room::choose;
use tastata_tests::visit::{SIZES, paste, quiet, visit};
use tastata_tests::{Browser, Engine, Need, Pointer, key, page, shot};

const CHORDS: &str = "document.querySelectorAll('#staff [data-part=soprano]').length";
const FAULTS: &str = "document.querySelectorAll('#remarks .fault').length";

/// The names of what a chord shows, low to high by hand: title texts of its notes.
fn notes(browser: &Browser, chord: usize, part: &str) -> Result<Vec<String>> {
    let found = browser.eval(&format!(
        "[...document.querySelectorAll('#staff .chord[data-chord=\"{chord}\"] .note{part} title')]
           .map(it => it.textContent)"
    ))?;
    let names = found.as_array().into_iter().flatten().filter_map(Value::as_str);
    Ok(names.map(str::to_owned).collect())
}

fn soprano(chord: usize) -> String {
    format!("#staff [data-part=soprano][data-chord='{chord}'] path:first-of-type")
}

fn start(size: (u32, u32), bass: &str) -> Result<Browser> {
    let browser = visit(size, "")?;
    enter(&browser, bass)?;
    Ok(browser)
}

/// The page with this bass, hearing a MIDI keyboard.
fn start_with_midi(bass: &str) -> Result<Browser> {
    let browser = visit_with_keys((820, 1180), "")?;
    enter(&browser, bass)?;
    open(&browser, "#midi-in")?;
    browser.click("#midi-in")?;
    browser
        .wait_for("document.getElementById('midi-in').getAttribute('aria-pressed') === 'true'")?;
    Ok(browser)
}

fn enter(browser: &Browser, bass: &str) -> Result<()> {
    browser.click("#clear")?;
    browser.wait_for(&format!("{CHORDS} === 0"))?;
    paste(browser, "bass", bass)?;
    browser.wait_for(&format!("{CHORDS} > 1"))
}

fn open(browser: &Browser, inside: &str) -> Result<()> {
    browser.run(
        "let it = document.querySelector(arguments[0]).closest('details');
         for (; it; it = it.parentElement.closest('details')) it.open = true;",
        &json!([inside]),
    )?;
    Ok(())
}

#[test]
fn a_rule_can_be_taken_otherwise() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    for size in SIZES {
        let browser = start(size, "C3 D3 E3 F3 G3 C3")?;
        open(&browser, "#rest-put")?;
        browser.click("#rest-put")?;
        // Octaves with the bass: the soprano on D over D after C over C.
        let mut found = false;
        'search: for chord in 0..5 {
            for pixels in [10.0, -10.0, 20.0, -20.0, 30.0, -30.0, 40.0, -40.0] {
                let from = browser.middle(&soprano(chord))?;
                browser.drag(from, (from.0, from.1 + pixels), Pointer::Finger)?;
                if browser.eval(FAULTS)?.as_u64() > Some(0) {
                    found = true;
                    break 'search;
                }
            }
        }
        ensure!(found, "no drag made a fault");
        let rule = browser.eval("document.querySelector('#remarks .fault').dataset.rule")?;
        let rule = rule.as_str().context("the fault names no rule")?.to_owned();
        let of_the_rule = |kind: &str| {
            format!("document.querySelectorAll('#remarks .{kind}[data-rule=\"{rule}\"]').length")
        };
        open(&browser, "#rules")?;
        browser.wait_for("document.querySelectorAll('#rules > li').length > 20")?;
        // Its explanation has a picture, can be heard, and has a source.
        browser.click(&format!("#rules li[data-rule='{rule}'] [data-explain]"))?;
        let explained = format!("#rules li[data-rule='{rule}'] .explained");
        let whole = format!(
            "document.querySelector(\"{explained} svg .note\") && \
             document.querySelector(\"{explained} [data-hear]\") && \
             document.querySelector(\"{explained} .hint\").textContent.length > 8"
        );
        browser.wait_for(&whole)?;
        let select = format!("rule-{rule}");
        choose(&browser, &select, "caution")?;
        browser.wait_for(&format!(
            "{} === 0 && {} > 0",
            of_the_rule("fault"),
            of_the_rule("caution")
        ))?;
        choose(&browser, &select, "off")?;
        browser.wait_for(&format!(
            "{} === 0 && {} === 0",
            of_the_rule("fault"),
            of_the_rule("caution")
        ))?;
        choose(&browser, &select, "fault")?;
        browser.wait_for(&format!("{} > 0", of_the_rule("fault")))?;
        quiet(&browser)?;
    }
    Ok(())
}

#[test]
fn motions_are_seen_and_summed_up() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    for size in SIZES {
        let browser = start(size, "C3 D3 E3 F3 G3 A3 B3 C4")?;
        open(&browser, "#motions")?;
        ensure!(
            browser.eval("!document.querySelector('#staff .motion')")? == true,
            "Shown unasked"
        );
        browser.click("#motions")?;
        // One for each move, but none from system to system.
        let moves = "document.querySelectorAll('#staff .motion').length";
        let systems = "document.querySelectorAll('#staff .system').length";
        browser.wait_for(&format!("{moves} > 0 && {moves} === 8 - {systems}"))?;
        let balance = browser.eval("document.getElementById('balance').textContent")?;
        let balance = balance.as_str().unwrap_or_default();
        let moves: u32 = balance
            .split(|c: char| !c.is_ascii_digit())
            .filter_map(|number| number.parse::<u32>().ok())
            .sum();
        ensure!(moves == 7, "The moves do not add up: {balance}");
        quiet(&browser)?;
    }
    Ok(())
}

/// Heights of the soprano over all chords, in CSS pixels up from the lowest.
fn line(browser: &Browser) -> Result<Vec<f64>> {
    let tops = browser.eval(
        "[...document.querySelectorAll('#staff [data-part=soprano] .grip')]
           .map(it => it.getBoundingClientRect().top)",
    )?;
    let tops: Vec<f64> = tops.as_array().into_iter().flatten().filter_map(Value::as_f64).collect();
    let lowest = tops.iter().copied().fold(f64::MIN, f64::max);
    Ok(tops.into_iter().map(|top| lowest - top).collect())
}

#[test]
fn a_finger_draws_the_line_that_the_soprano_follows() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    for size in SIZES {
        let browser = start(size, "C3 F3 G3 C3")?;
        open(&browser, "#draw-line")?;
        browser.click("#draw-line")?;
        browser.wait_for("document.getElementById('staff').classList.contains('drawing')")?;
        let (first, last) = (browser.middle(&soprano(0))?, browser.middle(&soprano(3))?);
        // From well above the first soprano note down to below the last, then the other way.
        let falling = [
            (first.0, first.1 - 16.0),
            ((first.0 + last.0) / 2.0, first.1),
            (last.0, first.1 + 20.0),
        ];
        browser.stroke(&falling, Pointer::Finger)?;
        browser.wait_for("document.querySelector('#staff .wished')")?;
        let fallen = line(&browser)?;
        let rising = [
            (first.0, first.1 + 20.0),
            ((first.0 + last.0) / 2.0, first.1),
            (last.0, first.1 - 16.0),
        ];
        browser.stroke(&rising, Pointer::Finger)?;
        let risen = line(&browser)?;
        let rise = |line: &[f64]| Some(line.last()? - line.first()?);
        ensure!(rise(&fallen) < rise(&risen), "{fallen:?} falls no more than {risen:?}");
        // A line that leaves the staff, over whatever is below, is drawn to its end.
        let past = [falling[0], falling[1], (last.0, first.1 + 20.0), (last.0, first.1 + 260.0)];
        browser.stroke(&past, Pointer::Finger)?;
        let gone = line(&browser)?;
        ensure!(rise(&gone) < rise(&risen), "{gone:?} falls no more than {risen:?}");
        ensure!(browser.eval(CHORDS)? == 4, "the line struck what is below the staff");
        ensure!(browser.eval(FAULTS)? == 0, "The wished line brought a fault");
        browser.click("#forget-line")?;
        browser.wait_for("!document.querySelector('#staff .wished[points*=\",\"]')")?;
        quiet(&browser)?;
    }
    Ok(())
}

/// All that stands on the page of a sketch: the drawing, what is said of it, and the hands.
const SHOWN: &str = "JSON.stringify([
  ...[...document.querySelectorAll('#staff svg')].map(it => it.outerHTML),
  ...['remarks-title', 'remarks', 'left-names', 'right-names', 'strip-text', 'strip-faults']
    .map(id => document.getElementById(id).textContent)])";
const KEPT: &str = "document.getElementById('kept-sketch').textContent";

/// Takes hold of a chord's soprano and moves it by these pixels, a move in each frame; holds on.
/// Gives the names of that soprano after each move, before anything else could happen.
fn hold(browser: &Browser, chord: usize, way: &[i32]) -> Result<Value> {
    browser.run_async(&format!(
        "const staff = document.getElementById('staff');
         const soprano = \"#staff [data-part=soprano][data-chord='{chord}']\";
         const grip = document.querySelector(soprano);
         const r = grip.getBoundingClientRect();
         const [x, y] = [r.x + r.width / 2, r.y + r.height / 2];
         window.send = (name, dy) => (name === 'pointerdown' ? grip : staff).dispatchEvent(
           new PointerEvent(name, {{ bubbles: true, cancelable: true, pointerId: 1,
             pointerType: 'mouse', isPrimary: true, button: 0, clientX: x, clientY: y + dy }}));
         send('pointerdown', 0);
         const names = [];
         for (const dy of {way:?}) {{
           await new Promise(requestAnimationFrame);
           send('pointermove', dy);
           names.push(document.querySelector(soprano + ' title').textContent);
         }}
         return names;"
    ))
}

/// Waits until a drag has paused and all that it left for later is done: nothing is kept any more.
fn rest(browser: &Browser) -> Result<()> {
    browser.run_async(&format!(
        "let kept = null;
         while (kept !== {KEPT}) {{
           kept = {KEPT};
           await new Promise(done => setTimeout(done, 700));
         }}"
    ))?;
    Ok(())
}

/// The staff's scroll bar stays: one that comes and goes makes it narrower and wider.
fn keep_the_bar(browser: &Browser) -> Result<()> {
    browser.run(
        "document.querySelector('.staffroom').style.overflowY = 'scroll';
         window.dispatchEvent(new Event('resize'));",
        &json!([]),
    )?;
    Ok(())
}

/// While a note is dragged only what is under the finger is drawn; when the finger rests, all is as
/// on a page that opens with the sketch as it then is, and the whole drag is one step to undo.
#[test]
fn a_drag_that_rests_has_left_nothing_behind() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    for size in SIZES {
        let browser =
            start(size, "C3 D3 E3 F3 G3 A3 F3 G3 C3 E3 D3 G3 A3 F#3 G3 C3 B2 C3 A2 F3 D3 G3 C3")?;
        keep_the_bar(&browser)?;
        hold(&browser, 3, &[])?;
        browser.run("send('pointerup', 0);", &json!([]))?;
        let before = browser.eval(SHOWN)?;
        let kept = browser.eval(KEPT)?;
        let names = hold(&browser, 3, &[9, 18, 27, 36, 28, 19, 10, -9, -18, -27, -36, -45])?;
        let names: Vec<&Value> = names.as_array().into_iter().flatten().collect();
        ensure!(names.len() == 12, "The drag was cut off: {names:?}");
        let mut other = names.clone();
        other.dedup();
        ensure!(other.len() > 4, "The note does not follow the finger: {names:?}");
        // The finger still holds the note.
        rest(&browser)?;
        let rested = browser.eval(SHOWN)?;
        let link = browser.eval(KEPT)?;
        let fresh = visit(size, link.as_str().context("a link")?)?;
        keep_the_bar(&fresh)?;
        hold(&fresh, 3, &[])?;
        fresh.run("send('pointerup', 0);", &json!([]))?;
        let opened = fresh.eval(SHOWN)?;
        ensure!(rested == opened, "The drag left\n{rested}\nand not\n{opened}");
        ensure!(rested != before, "Nothing was dragged");
        browser.run("send('pointerup', -45);", &json!([]))?;
        browser.click("#undo")?;
        browser.wait_for(&format!("{KEPT} === {kept}"))?;
        let undone = browser.eval(SHOWN)?;
        ensure!(undone == before, "Undone is\n{undone}\nand not\n{before}");
        quiet(&browser)?;
    }
    Ok(())
}

#[test]
fn a_note_dragged_freely_says_what_chord_it_makes() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    for size in SIZES {
        let browser = start(size, "C major: C3 F3:5/3 G3 C3")?;
        open(&browser, "#land-free")?;
        browser.click("#land-free")?;
        // One step of the staff away from a note of F A C is no note of it, or lies in the bass.
        let mut said = String::new();
        for pixels in [-7.0, 7.0, -14.0, 14.0] {
            let from = browser.middle(&soprano(1))?;
            browser.drag(from, (from.0, from.1 + pixels), Pointer::Finger)?;
            let hidden = browser.eval("document.getElementById('would-room').hidden")?;
            if hidden == false {
                said =
                    browser.eval("document.getElementById('would-said').textContent")?.to_string();
                break;
            }
        }
        ensure!(said.contains("It would make"), "Nothing is said of the free note: {said}");
        if size.0 < 1200 {
            let strip = browser.eval("document.getElementById('strip-text').textContent")?;
            ensure!(
                strip.as_str().is_some_and(|it| said.contains(it)),
                "The strip is silent: {strip}"
            );
        }
        let picture = format!("free-{}.png", size.0);
        browser.shoot(&shot(&picture))?;
        let name = browser.eval("document.getElementById('soprano-name').textContent")?;
        // Taken, the figures stand under the bass and the note belongs.
        let figures = browser.eval("document.querySelector('#would button').textContent")?;
        browser.click("#would button")?;
        browser.wait_for("document.getElementById('would-room').hidden")?;
        let given = browser.eval("document.getElementById('figures').value")?;
        ensure!(given == figures, "{figures} was taken and {given} is there");
        ensure!(browser.eval("document.getElementById('soprano-name').textContent")? == name);
        // Snapping again, a drag ends on a chord note.
        browser.click("#land-snap")?;
        let from = browser.middle(&soprano(1))?;
        browser.drag(from, (from.0, from.1 - 30.0), Pointer::Finger)?;
        ensure!(browser.eval("document.getElementById('would-room').hidden")? == true);
        quiet(&browser)?;
    }
    Ok(())
}

#[test]
fn a_midi_key_sets_the_soprano() -> Result<()> {
    if Engine::asked().is_skipped() || Engine::asked().lacks(Need::Midi) {
        return Ok(());
    }
    let browser = start_with_midi("C major: C3 F3 G3 C3")?;
    browser.click("[data-keys=soprano]")?;
    browser.click("#staff .chord[data-chord='0'] [data-part=bass]")?;
    for key in [64, 65, 67] {
        browser.run("sendMidi([0x90, arguments[0], 80]);", &json!([key]))?;
        let lit = format!("document.querySelector('#k{key}.down')");
        browser.wait_for(&lit)?;
        browser.run("sendMidi([0x80, arguments[0], 0]);", &json!([key]))?;
        browser.wait_for(&format!("!{lit}"))?;
    }
    let names = [
        notes(&browser, 0, ".soprano")?,
        notes(&browser, 1, ".soprano")?,
        notes(&browser, 2, ".soprano")?,
    ];
    for (found, expected) in names.iter().zip(["E4", "F4", "G4"]) {
        ensure!(found.iter().any(|it| it.starts_with(expected)), "{found:?} is not {expected}");
    }
    ensure!(browser.eval("document.querySelectorAll('#staff .soprano.pinned').length")? == 3);
    quiet(&browser)
}

/// The browser gives a second press of the button other inputs of the same keyboard; a key still
/// does what it does once.
#[test]
fn a_keyboard_asked_for_twice_is_heard_once() -> Result<()> {
    if Engine::asked().is_skipped() || Engine::asked().lacks(Need::Midi) {
        return Ok(());
    }
    let browser = start_with_midi("C major: C3 F3 G3 C3")?;
    browser.click("#midi-in")?;
    browser.wait_for("midiAsked === 2")?;
    browser.click("[data-keys=add]")?;
    for (key, count) in [(45, 5), (47, 6)] {
        let press = "sendMidi([0x90, arguments[0], 80]); sendMidi([0x80, arguments[0], 0]);";
        browser.run(press, &json!([key]))?;
        browser.wait_for(&format!("{CHORDS} === {count}"))?;
    }
    quiet(&browser)
}

#[test]
fn pins_that_quarrel_are_named_and_one_is_freed() -> Result<()> {
    if Engine::asked().is_skipped() || Engine::asked().lacks(Need::Midi) {
        return Ok(());
    }
    let browser = start_with_midi("C major: C3 D3 E3 F3 G3 C3")?;
    browser.click("[data-keys=soprano]")?;
    browser.click("#staff .chord[data-chord='0'] [data-part=bass]")?;
    // C D over C D: octaves that two pins force.
    for key in [72, 74] {
        let press = "sendMidi([0x90, arguments[0], 80]); sendMidi([0x80, arguments[0], 0]);";
        browser.run(press, &json!([key]))?;
    }
    browser.wait_for(&format!("{FAULTS} > 0"))?;
    browser.wait_for("document.querySelector('#remarks [data-free]')")?;
    let said =
        browser.eval("document.querySelector('#remarks [data-free]').closest('li').textContent")?;
    ensure!(said.as_str().is_some_and(|it| it.contains("chords 1 to 2")), "{said}");
    browser.click("#remarks [data-free]")?;
    browser.wait_for(&format!("{FAULTS} === 0"))?;
    ensure!(browser.eval("document.querySelectorAll('#staff .soprano.pinned').length")? == 1);
    quiet(&browser)
}

/// The chosen chord is marked on the staff, it alone, and both hands are in view on a keyboard that
/// has room for them.
#[test]
fn a_chosen_chord_is_seen_on_the_staff_and_under_both_hands() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = start((820, 1180), "C major: C3 F3 G3 C3 E3 A3")?;
    browser.run("document.getElementById('staff').focus();", &json!([]))?;
    for chord in 0..6 {
        browser.keys(&key::RIGHT.to_string())?;
        browser.wait_for(&format!(
            "document.querySelector('#staff .selected[data-chord=\"{chord}\"]')"
        ))?;
        let marked = browser.eval(
            "[...document.querySelectorAll('#staff .hit')]
               .filter(it => getComputedStyle(it).fill !== 'none').map(it => it.dataset.chord)",
        )?;
        ensure!(marked == json!([chord.to_string()]), "chords {marked} are marked, not {chord}");
        let hidden = browser.eval(
            "(() => { const { left, right } = document.getElementById('keyboard').getBoundingClientRect();
               const seen = [...document.querySelectorAll('#keyboard .hand')]
                 .map(it => it.getBoundingClientRect()).filter(it => left <= it.left && it.right <= right);
               return document.querySelectorAll('#overview .hand').length - seen.length; })()",
        )?;
        ensure!(hidden == 0, "{hidden} notes of chord {chord} are out of view");
    }
    // Keys that set one soprano note after the other stay where they are.
    enter(&browser, "C major: C4 F2 C4 C2")?;
    browser.click("[data-keys=soprano]")?;
    browser.click("#staff .chord[data-chord='0'] [data-part=bass]")?;
    let place = "document.getElementById('k74').getBoundingClientRect().x";
    let before = browser.eval(place)?;
    for chord in 1..4 {
        browser.click("#k74")?;
        browser.wait_for(&format!(
            "document.querySelector('#staff .selected[data-chord=\"{chord}\"]')"
        ))?;
        ensure!(browser.eval(place)? == before, "the keys move under the fingers");
    }
    quiet(&browser)
}

#[test]
fn arrow_keys_choose_a_chord_and_move_its_soprano() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = start((1920, 1080), "C major: C3 F3 G3 C3")?;
    browser.run("document.getElementById('staff').focus();", &json!([]))?;
    browser.keys(&key::RIGHT.to_string().repeat(2))?;
    browser.wait_for("document.querySelector('#staff .chord.selected[data-chord=\"1\"]')")?;
    let before = notes(&browser, 1, ".soprano")?;
    browser.keys(&key::UP.to_string())?;
    let up = notes(&browser, 1, ".soprano")?;
    ensure!(up != before, "The soprano does not move: {before:?}");
    browser.keys(&key::DOWN.to_string())?;
    ensure!(notes(&browser, 1, ".soprano")? == before, "Up and down again is another note");
    quiet(&browser)
}

#[test]
fn inner_notes_move_under_a_finger_and_what_breaks_is_said() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    for size in SIZES {
        let browser = start(size, "C major: C3 F3 G3 C3")?;
        browser.click("#staff .chord[data-chord='1'] [data-part=bass]")?;
        browser.wait_for("!document.getElementById('card').hidden")?;
        let hands = "['left-names', 'right-names'].map(id => document.getElementById(id).textContent).join(' | ')";
        let before = browser.eval(hands)?;
        // One inner note by a finger.
        let inner = "#staff .chord[data-chord='1'] .note[data-part^=inner] path:first-of-type";
        let mut moved = false;
        for pixels in [14.0, -14.0, 28.0, -28.0] {
            let from = browser.middle(inner)?;
            browser.drag(from, (from.0, from.1 + pixels), Pointer::Finger)?;
            moved = browser.eval(hands)? != before;
            if moved {
                break;
            }
        }
        ensure!(moved, "No inner note moved: {before}");
        ensure!(browser.eval("document.getElementById('free-hands').hidden")? == false);
        // A whole hand down and up again.
        let now = browser.eval(hands)?;
        browser.press("#right-down", Pointer::Finger)?;
        browser
            .wait_for(&format!("{hands} !== {now}"))
            .with_context(|| format!("{size:?}: the right hand does not move from {now}"))?;
        // By its mark on the keys, which a finger on a phone hits better.
        browser.press("[data-keys=handful]", Pointer::Finger)?;
        let mark = browser.run(
            "const mark = document.querySelector('#keyboard .hand.right:not(.outer)');
             const r = mark.getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2];",
            &json!([]),
        )?;
        let mark = (mark[0].as_f64().context("x")?, mark[1].as_f64().context("y")?);
        let now = browser.eval(hands)?;
        let mut moved = false;
        for keys in [-2.0, 2.0, -3.0, 3.0] {
            let to = mark.0 + keys * 46.0;
            if !(4.0..f64::from(size.0) - 4.0).contains(&to) {
                continue;
            }
            browser.drag(mark, (to, mark.1), Pointer::Finger)?;
            moved = browser.eval(hands)? != now;
            if moved {
                break;
            }
        }
        ensure!(moved, "No mark on the keys moved: {now}");
        // Handed back to the program; by mouse, since Chromium takes a touch soon after a drag for one
        // that stops the page's own gliding, and makes no click of it.
        browser.press("#free-hands", Pointer::Mouse)?;
        browser.wait_for("document.getElementById('free-hands').hidden").with_context(|| {
            format!(
                "{size:?}: {:?} {:?}",
                browser.eval(hands),
                browser.eval("document.getElementById('card-title').textContent")
            )
        })?;
        ensure!(browser.eval(hands)? == before, "Not the program's own again");
        // A key adds a note, and again takes it out; B over F A C is foreign and is said to be.
        browser.press("[data-keys=handful]", Pointer::Finger)?;
        let b = browser.run(
            "const shown = [...document.querySelectorAll('#keyboard .white')].map(it => it.id);
             // Above the bass.
             return shown.find(id => Number(id.slice(1)) > 53 && Number(id.slice(1)) % 12 === 11);",
            &json!([]),
        )?;
        let b = b.as_str().context("no B on the keyboard")?.to_owned();
        let at = browser.run(
            "const r = document.querySelector(arguments[0]).getBoundingClientRect(); return [r.x + r.width / 2, r.bottom - 12];",
            &json!([format!("#{b} rect")]),
        )?;
        let at = (at[0].as_f64().context("x")?, at[1].as_f64().context("y")?);
        let without = browser.eval(hands)?;
        browser.press_at(at, Pointer::Finger)?;
        browser.wait_for(&format!("{hands} !== {without}"))?;
        let said = browser.eval("document.getElementById('remarks').textContent")?;
        ensure!(said.as_str().is_some_and(|it| it.contains("B is no note of the chord")), "{said}");
        browser.press_at(at, Pointer::Finger)?;
        browser.wait_for(&format!("{hands} === {without}"))?;
        if size.0 >= 1200 {
            let below = browser.eval("document.scrollingElement.scrollHeight - innerHeight")?;
            ensure!(below == 0, "{below} pixels of the page lie below a window that holds it all");
        }
        quiet(&browser)?;
    }
    Ok(())
}

#[test]
fn each_hand_has_its_reach_on_a_picture() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    for size in SIZES {
        let browser = start(size, "C major: C3 D3 E3 F3 G3 A3 B3 C4 G3 C3")?;
        open(&browser, "#left-reach")?;
        let covered = |hand: &str| {
            browser
                .eval(&format!("document.querySelectorAll('#{hand}-reach .white.within').length"))
        };
        ensure!(covered("left")? == 8 && covered("right")? == 8, "Not an octave at first");
        choose(&browser, "left-span", "9")?;
        browser.wait_for("document.querySelectorAll('#left-reach .white.within').length === 10")?;
        ensure!(covered("right")? == 8, "The right hand grew with the left");
        ensure!(browser.eval("document.getElementById('span').value")? == "", "One reach for both");
        // The sixth key on the right hand's picture.
        let at = browser.run(
            "document.getElementById('right-reach').scrollIntoView({ block: 'center', behavior: 'instant' });
             const r = document.querySelectorAll('#right-reach .white')[5].getBoundingClientRect();
             return [r.x + r.width / 2, r.bottom - 4];",
            &json!([]),
        )?;
        let at = (at[0].as_f64().context("x")?, at[1].as_f64().context("y")?);
        browser.press_at(at, Pointer::Finger)?;
        browser.wait_for("document.querySelectorAll('#right-reach .white.within').length === 6")?;
        ensure!(browser.eval("document.getElementById('right-span').value")? == "5");
        let told = browser.eval("document.getElementById('right-reach').textContent")?;
        ensure!(told.as_str().is_some_and(|it| it.contains("a sixth")), "{told}");
        browser.shoot(&shot(&format!("reach-{}.png", size.0)))?;
        choose(&browser, "span", "8")?;
        browser.wait_for("document.querySelectorAll('#right-reach .white.within').length === 9")?;
        ensure!(covered("left")? == 9);
        // On the short octave D is played where F sharp is elsewhere, and C sharp nowhere. A
        // narrow window shows its lowest keys on the strip above.
        choose(&browser, "low-keys", "c")?;
        choose(&browser, "compass", "0")?;
        browser.wait_for(
            "(() => {
                const at = number => ['k', 'o']
                  .map(it => document.getElementById(it + number)?.getBoundingClientRect())
                  .find(it => it)?.x;
                return at(37) === undefined
                  && at(36) < at(41) && at(41) < at(38) && at(38) < at(43) && at(43) < at(40);
             })()",
        )?;
        quiet(&browser)?;
    }
    Ok(())
}

#[test]
fn wide_handfuls_bring_the_usual_advice() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = start((820, 1180), "C major: C2 D2 E2 F2 G2 A2 B2 C3 G2 C2")?;
    let strain = "document.getElementById('strain')";
    ensure!(browser.eval(&format!("{strain}.hidden"))? == true, "Warned of an octave");
    open(&browser, "#span")?;
    choose(&browser, "span", "9")?;
    choose(&browser, "left-notes", "5")?;
    choose(&browser, "right-notes", "5")?;
    browser.wait_for(&format!("!{strain}.hidden"))?;
    let said = browser.eval(&format!("{strain}.textContent"))?;
    for word in ["rest", "teacher", "clinician"] {
        ensure!(said.as_str().is_some_and(|it| it.contains(word)), "{word} is missing: {said}");
    }
    choose(&browser, "span", "7")?;
    browser.wait_for(&format!("{strain}.hidden"))?;
    quiet(&browser)
}

#[test]
fn all_voices_are_listed_heard_and_marked() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    for size in SIZES {
        let browser = start(size, "C major: C3 D3 E3 F3 G3 A3 B3 C4")?;
        open(&browser, "#voices")?;
        browser.wait_for("document.querySelectorAll('#voices li').length > 0")?;
        let summary = browser.eval("document.getElementById('voices-summary').textContent")?;
        ensure!(summary.as_str().is_some_and(|it| it.contains("no fault")), "{summary}");
        ensure!(
            browser.eval("!document.querySelector('#staff .parallel')")? == true,
            "Marked unasked"
        );
        browser.click("#parallels")?;
        // Far from the window nothing is drawn.
        browser.run("document.getElementById('staff').scrollIntoView();", &json!([]))?;
        browser.wait_for("document.querySelectorAll('#staff .parallel').length >= 2")?;
        browser.click("#voices button")?;
        browser.wait_for("document.querySelector('#keyboard .down')")?;
        browser.shoot(&shot(&format!("voices-{}.png", size.0)))?;
        quiet(&browser)?;
    }
    Ok(())
}

#[test]
fn where_there_is_no_midi_the_page_says_so() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(Engine::asked())?;
    browser.size(820, 1180)?;
    browser.run_first("delete Navigator.prototype.requestMIDIAccess;")?;
    browser.open_page(page()?, "")?;
    open(&browser, "#midi-in")?;
    browser.click("#midi-in")?;
    browser.wait_for(
        "!document.getElementById('notice').hidden \
         && document.getElementById('notice-text').textContent.includes('MIDI')",
    )?;
    quiet(&browser)
}
