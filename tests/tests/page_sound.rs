//! The sound of the page under stress: Play pressed a hundred times, the tab hidden, a call
//! that interrupts, a device that goes away, three sample rates; and what follows the sound: lights, a
//! loop, stepping by hand, the place where the page stands.
//!
//! The browser's own sound is listened to at the place where it leaves the page: every slice that is
//! scheduled, when, through which way out, and the last third of a second that was heard.

use anyhow::{Context, Result, ensure};
use serde_json::{Value, json};
use tastata_tests::visit::{paste, quiet};
use tastata_tests::{Browser, Engine, page};

/// Puts an ear between the page and the device. `RATE` stands for the rate, 0 for the device's own,
/// `LATENCY` for the seconds of output latency it is to tell.
const EAR: &str = "
  const Real = AudioContext, { start, stop } = AudioBufferSourceNode.prototype;
  const { connect } = AudioNode.prototype;
  window.heard = { slices: [], contexts: [] };
  window.AudioContext = class extends Real {
    constructor() {
      super(RATE ? { sampleRate: RATE } : {});
      heard.contexts.push(this);
      this.ear = super.createAnalyser();
      this.ear.fftSize = 32768;
      connect.call(this.ear, super.destination);
    }
    get destination() { return this.ear ?? super.destination; }
    get baseLatency() { return 0; }
    get outputLatency() { return LATENCY; }
    createGain() {
      const gain = super.createGain();
      gain.place = heard.gains = (heard.gains ?? 0) + 1;
      return gain;
    }
    createBufferSource() {
      const source = super.createBufferSource();
      const slice = { context: heard.contexts.indexOf(this), from: null, to: Infinity, out: 0, peak: 0 };
      heard.slices.push(slice);
      source.start = (when, offset = 0) => {
        slice.from = when;
        slice.to = when + source.buffer.duration - offset;
        slice.begin = when - offset;
        slice.buffer = source.buffer;
        slice.samples = source.buffer.getChannelData(0);
        slice.peak = source.buffer.getChannelData(0).reduce((peak, x) => Math.max(peak, Math.abs(x)), 0);
        start.call(source, when, offset);
      };
      source.stop = when => { slice.to = Math.min(slice.to, when); stop.call(source, when); };
      source.connect = into => { slice.out = into.place ?? 0; connect.call(source, into); };
      return source;
    }
  };
  window.here = () => heard.contexts.at(-1);
  // What was heard in the last moment, and its loudest sample.
  window.lately = () => {
    const samples = new Float32Array(32768);
    here().ear.getFloatTimeDomainData(samples);
    return samples;
  };
  window.peak = () => lately().reduce((peak, x) => Math.max(peak, Math.abs(x)), 0);
  // How many cents above or below a frequency the strongest one is: half a second is asked, from the
  // slices as they were let out, in steps of a cent and then of a tenth.
  window.strongest = wanted => {
    const rate = here().sampleRate, all = heard.slices.flatMap(it => [...it.samples]);
    const from = Math.round(0.1 * rate), sound = all.slice(from, from + Math.round(0.5 * rate));
    const power = cents => {
      const f = wanted * 2 ** (cents / 1200);
      let re = 0, im = 0;
      for (let i = 0; i < sound.length; i++) {
        const x = sound[i] * (0.5 - 0.5 * Math.cos(2 * Math.PI * i / sound.length));
        re += x * Math.cos(2 * Math.PI * f * i / rate);
        im -= x * Math.sin(2 * Math.PI * f * i / rate);
      }
      return re * re + im * im;
    };
    let best = [0, 0];
    for (const [range, step] of [[20, 1], [1, 0.1]]) {
      const middle = best[0];
      for (let cents = middle - range; cents <= middle + range; cents += step) {
        const found = power(cents);
        if (found > best[1]) best = [cents, found];
      }
    }
    return best[0];
  };
  // The most ways out that sound at the same time, leaving out fades.
  window.together = () => {
    const audible = heard.slices.filter(it => it.peak > 0 && it.to - it.from > 0.05);
    return Math.max(0, ...audible.map(it => new Set(audible
      .filter(o => o.context === it.context && o.from <= it.from + 0.041 && it.from + 0.041 < o.to)
      .map(o => o.out)).size));
  };
";

const PLAYS: &str = "document.getElementById('play').getAttribute('aria-pressed') === 'true'";
const RESTS: &str = "document.getElementById('play').getAttribute('aria-pressed') === 'false'
  && document.querySelectorAll('#keyboard .down').length === 0
  && document.querySelectorAll('#staff .sounding').length === 0";
const LIT: &str = "document.querySelectorAll('#keyboard .down').length > 0";

/// A page with an ear, six chords on it.
fn start(rate: u32, latency: f64) -> Result<Browser> {
    let browser = Browser::start(Engine::asked())?;
    browser.size(900, 800)?;
    let ear = EAR.replace("RATE", &rate.to_string()).replace("LATENCY", &latency.to_string());
    // Before the page's own script, which takes hold of the browser's sound as it starts.
    browser.run_first(&ear)?;
    browser.open_page(page()?, "")?;
    // The browser gives sound only to a page that a person has touched.
    browser.click("#title")?;
    paste(&browser, "bass", "D3 E3 F3 G3 A3 D3")?;
    browser.wait_for("document.querySelectorAll('#staff [data-part=soprano]').length === 6")?;
    Ok(browser)
}

fn number(value: &Value) -> Result<f64> {
    value.as_f64().with_context(|| format!("{value} is no number"))
}

#[test]
fn play_pressed_a_hundred_times_lets_one_performance_sound_at_most() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = start(0, 0.0)?;
    // As fast as a script can, and then a finger's nervous pace.
    for wait in ["", "await new Promise(done => setTimeout(done, 7 + i % 5 * 20));"] {
        let presses = |count: usize| {
            format!(
                "for (let i = 0; i < {count}; i++) {{ document.getElementById('play').click(); {wait} }}"
            )
        };
        browser.run_async(&presses(99))?;
        browser.wait_for(PLAYS)?;
        browser.wait_for(LIT)?;
        browser.wait_for("peak() > 0.01")?;
        browser.run_async(&presses(1))?;
        browser.wait_for(RESTS)?;
        browser.wait_for("peak() < 1e-4")?;
        let together = number(&browser.eval("together()")?)?;
        ensure!(together <= 1.0, "{together} performances sound at the same time");
    }
    let slices = number(&browser.eval("heard.slices.length")?)?;
    println!("{slices} slices were scheduled");
    // It is still as good as new: once more to the end.
    browser.click("#play")?;
    browser.wait_for("peak() > 0.01")?;
    browser.click("#play")?;
    browser.wait_for(RESTS)?;
    quiet(&browser)
}

#[test]
fn a_key_pressed_many_times_is_no_louder_than_once() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = start(0, 0.0)?;
    // Which peak the page reaches while a key is pressed so many times.
    let press = |count: usize| {
        browser.run_async(&format!(
            "const key = document.getElementById('k60'), r = key.getBoundingClientRect();
             const at = {{ bubbles: true, cancelable: true, pointerId: 1, isPrimary: true, button: 0,
               pointerType: 'mouse', clientX: r.x + r.width / 2, clientY: r.y + r.height * 0.9 }};
             let loudest = 0;
             for (let i = 0; i < {count}; i++) {{
               key.dispatchEvent(new PointerEvent('pointerdown', {{ ...at, buttons: 1 }}));
               key.dispatchEvent(new PointerEvent('pointerup', at));
               await new Promise(done => setTimeout(done, 30));
               loudest = Math.max(loudest, peak());
             }}
             // A busy machine may be late with the first sound.
             const end = performance.now() + 20000;
             for (let i = 0; i < 20 || (loudest < 0.01 && performance.now() < end); i++) {{
               await new Promise(done => setTimeout(done, 30));
               loudest = Math.max(loudest, peak());
             }}
             return loudest;"
        ))
    };
    browser.wait_for("document.getElementById('k60') !== null")?;
    // The loudest of a few: a busy machine may look at one press only after its first moment.
    let mut once: f64 = 0.0;
    for _ in 0..4 {
        once = once.max(number(&press(1)?)?);
    }
    let often = number(&press(40)?)?;
    println!("a key peaks at {once:.3}, pressed forty times at {often:.3}");
    ensure!(once > 0.01 && often < 2.0 * once, "{often} instead of {once}");
    browser.wait_for("peak() < 1e-4")?;
    quiet(&browser)
}

/// A key struck again while its sound is still being worked out sounds as it does when all is known: to its
/// end, without a hole, and nothing of it is worked out twice.
#[test]
fn a_key_struck_again_while_it_rings_sounds_to_its_end() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = start(0, 0.0)?;
    browser.wait_for("document.getElementById('k60') !== null")?;
    let strikes = browser.run_async(
        "const key = document.getElementById('k60'), r = key.getBoundingClientRect();
         const at = { bubbles: true, cancelable: true, pointerId: 1, isPrimary: true, button: 0,
           pointerType: 'mouse', clientX: r.x + r.width / 2, clientY: r.y + r.height * 0.9 };
         const press = async wait => {
           key.dispatchEvent(new PointerEvent('pointerdown', { ...at, buttons: 1 }));
           key.dispatchEvent(new PointerEvent('pointerup', at));
           await new Promise(done => setTimeout(done, wait));
         };
         const settled = async () => {
           for (let before = -1; before !== heard.slices.length;) {
             before = heard.slices.length;
             await new Promise(done => setTimeout(done, 1000));
           }
         };
         await press(150);
         await press(0);
         await settled();
         await press(0);
         await settled();
         const strikes = [...new Set(heard.slices.map(it => it.out))]
           .map(out => heard.slices.filter(it => it.out === out));
         return strikes.map(slices => ({
           seconds: slices.reduce((sum, it) => sum + it.buffer.duration, 0),
           known: slices.filter(it => strikes.at(-1).some(last => last.buffer === it.buffer)).length,
           slices: slices.length,
           // A late slice leaves out its beginning, and all keep their places.
           holes: slices.slice(1).filter((it, i) =>
             Math.abs(it.begin - slices[i].begin - slices[i].buffer.duration) > 1e-4).length,
         }));",
    )?;
    let strikes = strikes.as_array().context("No strikes came")?;
    ensure!(strikes.len() == 3, "{strikes:?}");
    for strike in strikes {
        let of = |name: &str| number(&strike[name]);
        ensure!(of("holes")? == 0.0, "A hole: {strikes:?}");
        ensure!(of("known")? == of("slices")?, "Worked out twice: {strikes:?}");
    }
    // The first may be cut off by the second.
    for strike in strikes.iter().skip(1) {
        ensure!(number(&strike["seconds"])? > 1.7, "Not to the end: {strikes:?}");
    }
    quiet(&browser)
}

#[test]
fn a_hidden_tab_plays_on_and_lights_again_when_shown() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = start(0, 0.0)?;
    let hide = |hidden: bool| {
        browser.run(
            "Object.defineProperty(document, 'hidden', { value: arguments[0], configurable: true });
             Object.defineProperty(document, 'visibilityState',
               { value: arguments[0] ? 'hidden' : 'visible', configurable: true });
             document.dispatchEvent(new Event('visibilitychange'));",
            &json!([hidden]),
        )
    };
    // A machine that is too busy leaves a gap at times; a page that schedules too little, each time.
    let mut gaps = Value::Null;
    for _ in 0..5 {
        browser.run("heard.slices.length = 0;", &json!([]))?;
        browser.click("#play")?;
        browser.wait_for(LIT)?;
        hide(true)?;
        // All that is to be heard before the next look, a second later, is scheduled.
        browser
            .wait_for("Math.max(...heard.slices.map(it => it.to)) > here().currentTime + 1.1")?;
        let before = number(&browser.eval("here().currentTime")?)?;
        browser.wait_for(&format!("here().currentTime > {before} + 2 && peak() > 0.001"))?;
        // No gap between the slices while it was hidden.
        gaps = browser.eval(
            "heard.slices.slice(1).filter((it, i) => Math.abs(it.from - heard.slices[i].to) > 1e-4).length",
        )?;
        if gaps == 0 {
            break;
        }
        hide(false)?;
        browser.click("#play")?;
        browser.wait_for(RESTS)?;
        browser.wait_for("peak() < 1e-4")?;
    }
    ensure!(gaps == 0, "{gaps} gaps");
    hide(false)?;
    browser.wait_for(LIT)?;
    browser.click("#play")?;
    browser.wait_for(RESTS)?;
    browser.wait_for("peak() < 1e-4")?;
    quiet(&browser)
}

#[test]
fn a_call_interrupts_and_play_brings_the_sound_back() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = start(0, 0.0)?;
    for _ in 0..2 {
        browser.click("#play")?;
        browser.wait_for("peak() > 0.01")?;
        // As the system does it when a call comes in.
        browser.run_async("await here().suspend();")?;
        browser.wait_for(RESTS)?;
        browser.wait_for("document.body.textContent.includes('The sound was interrupted')")?;
        // The call is over: what was stopped does not come back of itself.
        browser.run_async("await here().resume();")?;
        browser.wait_for("peak() < 1e-4")?;
        browser.wait_for(RESTS)?;
    }
    // Interrupted, and not given back: pressing Play wakes it.
    browser.run_async("await here().suspend();")?;
    browser.click("#play")?;
    browser.wait_for("here().state === 'running' && peak() > 0.01")?;
    // A short one is slept over.
    browser.run_async("await here().suspend(); await here().resume();")?;
    browser.wait_for("peak() > 0.01")?;
    browser.wait_for(PLAYS)?;
    browser.click("#play")?;
    browser.wait_for(RESTS)?;
    quiet(&browser)
}

#[test]
fn after_the_device_has_gone_a_new_one_is_opened() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = start(0, 0.0)?;
    browser.click("#play")?;
    browser.wait_for("peak() > 0.01")?;
    browser.run_async("await here().close();")?;
    browser.wait_for(RESTS)?;
    // With a key first, then with Play.
    browser.run(
        "const r = document.getElementById('keyboard').getBoundingClientRect();
         const at = { bubbles: true, cancelable: true, pointerId: 1, isPrimary: true, button: 0,
           pointerType: 'mouse', clientX: r.x + r.width / 2, clientY: r.y + r.height * 0.9 };
         const key = document.elementFromPoint(at.clientX, at.clientY);
         key.dispatchEvent(new PointerEvent('pointerdown', { ...at, buttons: 1 }));
         key.dispatchEvent(new PointerEvent('pointerup', at));",
        &json!([]),
    )?;
    browser.wait_for("heard.contexts.length === 2 && peak() > 0.005")?;
    browser.click("#play")?;
    browser.wait_for("heard.contexts.length === 2 && peak() > 0.01")?;
    browser.wait_for(LIT)?;
    browser.run_async("await here().close();")?;
    browser.wait_for(RESTS)?;
    browser.click("#play")?;
    browser.wait_for("heard.contexts.length === 3 && peak() > 0.01")?;
    browser.click("#play")?;
    browser.wait_for(RESTS)?;
    quiet(&browser)
}

#[test]
fn every_sample_rate_gives_the_same_pitch() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    for rate in [44_100, 48_000, 96_000] {
        let browser = start(rate, 0.0)?;
        // c′ of quarter-comma meantone on a′ 415: 889.735 cents below (Barbour 1951).
        let wanted = 415.0 * 2.0_f64.powf(-889.735 / 1200.0);
        browser.wait_for("document.getElementById('k60') !== null")?;
        let found = browser.run_async(
            "const key = document.getElementById('k60'), r = key.getBoundingClientRect();
             const at = { bubbles: true, cancelable: true, pointerId: 1, isPrimary: true, button: 0,
               pointerType: 'mouse', clientX: r.x + r.width / 2, clientY: r.y + r.height * 0.9 };
             const press = () => {
               key.dispatchEvent(new PointerEvent('pointerdown', { ...at, buttons: 1 }));
               key.dispatchEvent(new PointerEvent('pointerup', at));
             };
             // Half a second of it, from the slices as they were let out.
             const rate = () => here().sampleRate, ready = () =>
               heard.slices.reduce((sum, it) => sum + it.samples.length, 0) > 0.7 * rate();
             // Struck again where a busy machine has not woken the sound in time.
             for (let i = 0; i === 0 || !ready(); i++) {
               if (i % 300 === 0) press();
               await new Promise(done => setTimeout(done, 10));
             }
             return [strongest(WANTED), rate()];"
                .replace("WANTED", &wanted.to_string())
                .as_str(),
        )?;
        let cents = number(&found[0])?;
        println!("at {rate}: {cents:+.1} cents");
        ensure!(found[1] == rate, "the context runs at {}", found[1]);
        // The window is half a second: finer is measured outside the browser.
        ensure!(cents.abs() <= 2.0, "{cents} cents off at {rate}");
        browser.click("#play")?;
        browser.wait_for("peak() > 0.01")?;
        browser.wait_for(LIT)?;
        browser.click("#play")?;
        browser.wait_for(RESTS)?;
        quiet(&browser)?;
    }
    Ok(())
}

#[test]
fn lights_wait_for_the_ear() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    for latency in [0.0, 0.7] {
        let browser = start(0, latency)?;
        // On the context's clock: when the first key lights, and when its sound was scheduled.
        let late = browser.run_async(
            "document.getElementById('play').click();
             while (!document.querySelector('#keyboard .down'))
               await new Promise(done => requestAnimationFrame(done));
             return here().currentTime - heard.slices[0].from;",
        )?;
        let late = number(&late)?;
        println!(
            "with {latency} s to the ear the first key lights {late:.3} s after it is scheduled"
        );
        ensure!(late >= latency - 0.001, "{late} s instead of {latency}");
        browser.click("#play")?;
        browser.wait_for(RESTS)?;
    }
    Ok(())
}

#[test]
fn a_loop_goes_round_between_two_chords_until_it_is_stopped() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = start(0, 0.0)?;
    browser.click("#staff [data-part=bass][data-chord='1']")?;
    browser.wait_for("!document.getElementById('card').hidden")?;
    browser.run("document.getElementById('round').click();", &json!([]))?;
    browser.click("#staff [data-part=bass][data-chord='2']")?;
    browser.wait_for("document.querySelector('#staff .chord.selected[data-chord=\"2\"]')")?;
    browser.run(
        "window.rounds = [];
         const look = () => {
           const lit = document.querySelector('#staff .sounding');
           const chord = lit && lit.dataset.chord;
           if (chord && rounds.at(-1) !== chord) rounds.push(chord);
           requestAnimationFrame(look);
         };
         look();
         document.getElementById('round').click();",
        &json!([]),
    )?;
    browser.wait_for(PLAYS)?;
    browser.wait_for("rounds.length >= 5")?;
    let rounds = browser.eval("rounds.slice(0, 5).join(' ')")?;
    ensure!(rounds == "1 2 1 2 1", "{rounds}");
    browser.run("document.getElementById('round').click();", &json!([]))?;
    browser.wait_for(RESTS)?;
    browser.wait_for("peak() < 1e-4")?;
    quiet(&browser)
}

#[test]
fn stepping_by_hand_rolls_each_chord_alone() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = start(0, 0.0)?;
    browser.click("#staff [data-part=bass][data-chord='0']")?;
    browser.wait_for("!document.getElementById('card').hidden")?;
    browser.wait_for("heard.contexts.length === 0 || peak() < 1e-4")?;
    browser.run("heard.slices.length = 0;", &json!([]))?;
    for chord in ["1", "2"] {
        browser.run("document.getElementById('after').click();", &json!([]))?;
        browser.wait_for(PLAYS)?;
        browser.wait_for(&format!(
            "document.querySelector('#staff .sounding')?.dataset.chord === '{chord}'"
        ))?;
        // It stops of itself at the end of the chord.
        browser.wait_for(RESTS)?;
    }
    let together = number(&browser.eval("together()")?)?;
    ensure!(together <= 1.0, "{together} performances sound at the same time");
    quiet(&browser)
}

#[test]
fn what_sounds_leads_the_page_only_where_that_is_wanted() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = start(0, 0.0)?;
    browser.size(360, 740)?;
    browser.click("#staff [data-part=bass][data-chord='1']")?;
    browser.wait_for("!document.getElementById('card').hidden")?;
    let staff_is_seen =
        "document.querySelector('#staff .system').getBoundingClientRect().bottom > 0";
    // Far down in the chord's sheet.
    browser.middle("#right-down")?;
    let place = "(r => [r.x, r.y].join(' '))(document.getElementById('right-down').getBoundingClientRect())";
    let before = browser.eval(place)?;
    ensure!(browser.eval(staff_is_seen)? == false, "The staff stands beside the sheet");
    browser.run("document.getElementById('hear').click();", &json!([]))?;
    browser.wait_for("document.querySelector('#staff .sounding')")?;
    // Neither what sounds nor what is drawn anew meanwhile takes the page away.
    browser.run("document.getElementById('right-down').click();", &json!([]))?;
    browser.wait_for(RESTS)?;
    let after = browser.eval(place)?;
    ensure!(after == before, "The page moved under the finger: {before} {after}");
    // What is played as a piece is followed, but a person who goes elsewhere is left there.
    browser.run("document.getElementById('play').click();", &json!([]))?;
    browser.wait_for(staff_is_seen)?;
    let chord = "document.querySelector('#staff .sounding')?.dataset.chord";
    browser.wait_for(&format!("{chord} === '1'"))?;
    browser.middle("#right-down")?;
    browser.wait_for(&format!("{chord} === '3'"))?;
    ensure!(browser.eval(staff_is_seen)? == false, "The page was taken away by what plays");
    browser.click("#play")?;
    browser.wait_for(RESTS)?;
    quiet(&browser)
}
