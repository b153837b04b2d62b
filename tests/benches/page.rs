//! How long the page's main thread works in Chromium for one step of dragging a soprano note, with
//! sound, by the length of the bass: the whole step up to the picture, and its parts.
//!
//! `cargo bench -p tastata-tests --bench page [SLOWER]`, SLOWER being how many times slower the
//! processor is made to look, 1 by default. `TASTATA_PAGE` may name a packed page. Milliseconds of
//! the clock on the wall, so the machine should have nothing else to do; last, the time of the
//! processor itself that the main thread takes for a step, which a busy machine disturbs less.

use anyhow::{Context, Result};
use serde_json::{Value, json};
use tastata::files::encode;
use tastata::pitch::Pitch;
use tastata::sketch::{Sketch, SketchNote};
use tastata_tests::outer::C_MAJOR;
use tastata_tests::{Browser, Engine, page};

const LENGTHS: [usize; 4] = [16, 64, 500, 2000];

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
  const rendered = () => new Promise(done => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = done;
    port2.postMessage(0);
  });
  send('pointerdown', 0);
  const steps = [];
  const way = [...Array(9).keys()].map(i => (i + 1) * 9);
  for (const dy of [...way, ...way.toReversed().slice(1), 0, ...way.map(i => -i), 0, ...way, 0]) {
    await new Promise(requestAnimationFrame);
    tastata.timing = [];
    const before = performance.now();
    send('pointermove', dy);
    const script = performance.now() - before;
    await rendered();
    const whole = performance.now() - before;
    if (tastata.timing.length) steps.push({ whole, script, parts: tastata.timing });
    await new Promise(done => setTimeout(done, 40));
  }
  send('pointerup', 0);
  return steps;";

/// Types the whole bass anew, a step higher and back by turns, and gives the milliseconds of each
/// whole reading, from the text to the performance.
const TYPE: &str = "
  const field = document.getElementById('bass');
  const first = field.value;
  const other = first.replace(/[A-F](?=[0-9])/g, it => 'BCDEFG'['ABCDEF'.indexOf(it)]);
  const times = [];
  for (let i = 0; i < 12; i += 1) {
    tastata.timing = [];
    field.value = i % 2 ? first : other;
    field.dispatchEvent(new Event('input', { bubbles: true }));
    times.push(tastata.timing[tastata.timing.indexOf('read') + 1]);
    await new Promise(done => setTimeout(done, 100));
  }
  return times;";

/// A bass that wanders through the scale by steps and leaps, always the same.
fn sketch(length: usize) -> Sketch {
    const MOVES: [i32; 11] = [1, 1, -1, 2, -3, 4, -1, -1, 3, -4, 1];
    let mut sketch = Sketch { tonality: Some(C_MAJOR), ..Sketch::default() };
    let mut diatonic = 21;
    for i in 0..length {
        sketch.notes.push(SketchNote::bare(Pitch::from_diatonic(diatonic, 0)));
        let way = MOVES[(i * i + i / 3) % MOVES.len()];
        diatonic += if (15..=26).contains(&(diatonic + way)) { way } else { -way };
    }
    sketch
}

/// The value that this share of the values does not pass.
fn quantile(mut values: Vec<f64>, share: f64) -> f64 {
    values.sort_by(f64::total_cmp);
    let at = ((values.len() as f64 * share).ceil() as usize).clamp(1, values.len().max(1)) - 1;
    values.get(at).copied().unwrap_or(f64::NAN)
}

fn told(name: &str, values: Vec<f64>) {
    let (median, most) = (quantile(values.clone(), 0.5), quantile(values, 0.95));
    println!("  {name:<10} {median:>7.1} {most:>7.1}");
}

fn measure(browser: &Browser, length: usize, slower: u32) -> Result<()> {
    browser.open_page(page()?, &encode(&sketch(length)))?;
    browser.devtools("Emulation.setCPUThrottlingRate", &json!({ "rate": 1 }))?;
    // A real press lets the page sound.
    browser.click("#staff [data-part=soprano][data-chord='7']")?;
    browser.devtools("Emulation.setCPUThrottlingRate", &json!({ "rate": slower }))?;
    let steps = browser.run_async(DRAG)?;
    browser.devtools("Emulation.setCPUThrottlingRate", &json!({ "rate": 1 }))?;
    let worked = processor_time(browser)?;
    let steps = steps.as_array().context("No steps came")?;
    println!("{length} notes, {} steps: milliseconds, median and 95 in 100", steps.len());
    for name in ["whole", "script"] {
        told(name, steps.iter().filter_map(|step| step[name].as_f64()).collect());
    }
    let mut names: Vec<String> = Vec::new();
    let parts = |step: &Value| -> Vec<(String, f64)> {
        let list: Vec<&Value> = step["parts"].as_array().into_iter().flatten().collect();
        let pairs = list
            .chunks(2)
            .filter_map(|pair| Some((pair.first()?.as_str()?.to_owned(), pair.get(1)?.as_f64()?)));
        pairs.collect()
    };
    for (name, _) in steps.iter().flat_map(&parts) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    for name in names {
        let of = |step: &Value| {
            parts(step).into_iter().filter(|(it, _)| *it == name).map(|(_, time)| time).sum()
        };
        told(&format!("– {name}"), steps.iter().map(of).collect());
    }
    println!("  {worked}");
    let times = browser.run_async(TYPE)?;
    let times: Vec<f64> =
        times.as_array().into_iter().flatten().filter_map(Value::as_f64).collect();
    let least = quantile(times.clone(), 0.0);
    let (median, most) = (quantile(times.clone(), 0.5), quantile(times, 0.95));
    println!(
        "  the whole bass typed anew and read: least {least:.1}, median {median:.1}, most {most:.1}"
    );
    Ok(())
}

/// What the processor does on the main thread for a step of the same drag at full speed.
fn processor_time(browser: &Browser) -> Result<String> {
    browser.devtools("Performance.enable", &json!({ "timeDomain": "threadTicks" }))?;
    let metrics = || -> Result<Value> {
        Ok(browser.devtools("Performance.getMetrics", &json!({}))?["metrics"].take())
    };
    let before = metrics()?;
    let steps = browser.run_async(DRAG)?;
    let after = metrics()?;
    browser.devtools("Performance.disable", &json!({}))?;
    let count = steps.as_array().map_or(1, Vec::len).max(1) as f64;
    let value = |all: &Value, name: &str| {
        let all = all.as_array().into_iter().flatten();
        all.filter(|it| it["name"] == name).find_map(|it| it["value"].as_f64()).unwrap_or(0.0)
    };
    let names = ["TaskDuration", "ScriptDuration", "RecalcStyleDuration", "LayoutDuration"];
    let parts = names.map(|name| {
        format!("{name} {:.2}", (value(&after, name) - value(&before, name)) * 1000.0 / count)
    });
    Ok(format!("processor, milliseconds a step: {}", parts.join(", ")))
}

fn main() -> Result<()> {
    // Cargo passes flags of its own.
    let number = |word: String| word.parse().ok();
    let slower = std::env::args().skip(1).find_map(number).unwrap_or(1);
    let browser = Browser::start(Engine::Chromium)?;
    browser.size(1920, 1080)?;
    println!("The processor looks {slower} times slower.");
    for length in LENGTHS {
        measure(&browser, length, slower)?;
    }
    Ok(())
}
