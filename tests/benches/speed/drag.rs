//! One step of dragging a soprano note in Chromium, with sound: how long the main thread works up to
//! the picture, by the length of the bass; and the whole bass typed anew.

use anyhow::{Context, Result};
use serde_json::{Value, json};
use tastata::files::encode;
use tastata_tests::outer::wandering;
use tastata_tests::{Browser, page};

use crate::stages::LENGTHS;
use crate::table::{Table, quantile};

/// Drags the soprano over one chord up and down, a step in each frame, and gives for each step the
/// time from the event to the end of the frame, and the names and times of the page's own parts.
const DRAG: &str = "
  const staff = document.getElementById('staff');
  const grip = document.querySelector('#staff [data-part=soprano][data-chord=\"7\"]');
  const r = grip.getBoundingClientRect();
  const [x, y] = [r.x + r.width / 2, r.y + r.height / 2];
  const send = (name, dy) => {
    const target = name === 'pointerdown' ? grip : staff;
    target.dispatchEvent(new PointerEvent(name, { bubbles: true, cancelable: true, pointerId: 1,
      pointerType: 'mouse', isPrimary: true, button: 0, clientX: x, clientY: y + dy }));
  };
  // Runs before any timer that is due: what a step leaves for later is not the picture's.
  const rendered = () => scheduler.postTask(() => {}, { priority: 'user-blocking' });
  send('pointerdown', 0);
  const steps = [];
  const way = [...Array(9).keys()].map(i => (i + 1) * 9);
  for (const dy of [...way, ...way.toReversed().slice(1), 0, ...way.map(i => -i), 0, ...way, 0]) {
    await new Promise(requestAnimationFrame);
    tastata.timing = [];
    const before = performance.now();
    // Within the frame's own task, so that it comes when the frame is made.
    const picture = rendered();
    send('pointermove', dy);
    const script = performance.now() - before;
    const parts = tastata.timing;
    tastata.timing = [];
    await picture;
    const whole = performance.now() - before;
    if (parts.length) steps.push({ whole, script, parts });
    await new Promise(done => setTimeout(done, 40));
  }
  send('pointerup', 0);
  return steps;";

/// Types the whole bass anew, a step higher and back by turns, and gives the names and times of the
/// page's own parts for each: the whole reading, from the text to the performance, and the drawing.
const TYPE: &str = "
  const field = document.getElementById('bass');
  const first = field.value;
  const other = first.replace(/[A-F](?=[0-9])/g, it => 'BCDEFG'['ABCDEF'.indexOf(it)]);
  const times = [];
  for (let i = 0; i < 12; i += 1) {
    tastata.timing = [];
    field.value = i % 2 ? first : other;
    field.dispatchEvent(new Event('input', { bubbles: true }));
    times.push(tastata.timing);
    await new Promise(done => setTimeout(done, 100));
  }
  return times;";

/// Scrolls the staff from its top, a hand's breadth in a quarter of a second as a flick does, and gives
/// the times between frames.
const SCROLL: &str = "
  const room = document.querySelector('.staffroom');
  room.scrollTop = 0;
  await new Promise(done => setTimeout(done, 500));
  const times = [];
  let before = await new Promise(requestAnimationFrame);
  for (let i = 0; i < 120; i += 1) {
    room.scrollTop += 48;
    const now = await new Promise(requestAnimationFrame);
    times.push(now - before);
    before = now;
  }
  return times;";

/// Milliseconds of a frame on a usual screen.
const FRAME: f64 = 1000.0 / 60.0;

/// Measures every length with the processor made to look `slower` times slower: a table of steps, one
/// of readings, and one of scrolling.
pub(crate) fn measure(browser: &Browser, slower: u32) -> Result<[Table; 3]> {
    let mut scrolled = Table::new(["Notes", "frames", "dropped", "longest"]);
    let mut steps = Table::new(["Notes", "to the picture", "95 in 100", "script", "staff drawn"]);
    let mut typed = Table::new(["Notes", "read, least", "median", "drawn, median"]);
    browser.size(1280, 900)?;
    for length in LENGTHS {
        browser.open_page(page()?, &encode(&wandering(length)))?;
        browser.devtools("Emulation.setCPUThrottlingRate", &json!({ "rate": 1 }))?;
        // A real press lets the page sound.
        browser.click("#staff [data-part=soprano][data-chord='7']")?;
        browser.devtools("Emulation.setCPUThrottlingRate", &json!({ "rate": slower }))?;
        let drag = browser.run_async(DRAG)?;
        let drag = drag.as_array().context("No steps came")?;
        let of = |name: &str| drag.iter().filter_map(|it| it[name].as_f64()).collect::<Vec<_>>();
        let part =
            |name: &str| drag.iter().map(|step| timed(&step["parts"], name)).collect::<Vec<_>>();
        let told = |values: &[f64], share| format!("{:.1}", quantile(values, share));
        steps.row([
            length.to_string(),
            told(&of("whole"), 0.5),
            told(&of("whole"), 0.95),
            told(&of("script"), 0.5),
            told(&part("staff"), 0.5),
        ]);
        let times = browser.run_async(SCROLL)?;
        let times: Vec<f64> =
            times.as_array().context("No frames came")?.iter().filter_map(Value::as_f64).collect();
        let dropped: f64 = times.iter().map(|time| ((time / FRAME).round() - 1.0).max(0.0)).sum();
        scrolled.row([
            length.to_string(),
            times.len().to_string(),
            format!("{dropped:.0}"),
            told(&times, 1.0),
        ]);
        let anew = browser.run_async(TYPE)?;
        let anew = anew.as_array().context("No readings came")?;
        let part = |name: &str| anew.iter().map(|times| timed(times, name)).collect::<Vec<_>>();
        typed.row([
            length.to_string(),
            told(&part("read"), 0.0),
            told(&part("read"), 0.5),
            told(&part("staff"), 0.5),
        ]);
        browser.devtools("Emulation.setCPUThrottlingRate", &json!({ "rate": 1 }))?;
    }
    Ok([steps, typed, scrolled])
}

/// The milliseconds of a part in a list of names and times by turns.
fn timed(list: &Value, name: &str) -> f64 {
    let list = list.as_array().map_or(&[][..], Vec::as_slice);
    let pairs = list.chunks_exact(2).filter(|pair| pair[0] == name);
    pairs.filter_map(|pair| pair[1].as_f64()).sum()
}
