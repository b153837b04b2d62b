//! A MIDI keyboard for pages that no wire leads to.

use anyhow::{Context, Result};
use tastata::lesson::KeyEvent;

use crate::browser::Browser;
use crate::engine::Engine;
use crate::packed::page;

/// A keyboard that is none, put where the browser has its MIDI keyboards before the
/// page's own scripts. It sends bytes, or plays a list of (milliseconds, status, number,
/// force) in real time and notes down what the page says after each. `midiWith` makes
/// what the browser answers when it has keyboards, or none yet; as in a browser, every
/// answer has an input of its own, and each of them is told of every key.
const KEYBOARD: &str = "
  window.midiAsked = 0;
  const inputs = [];
  const plug = () => {
    const input = Object.create(MIDIInput.prototype);
    Object.defineProperty(input, 'onmidimessage', { writable: true, value: null });
    inputs.push(input);
    return ['one', input];
  };
  window.midiWith = keyboards => () => {
    window.midiAsked += 1;
    const access = Object.create(MIDIAccess.prototype);
    Object.defineProperty(access, 'inputs', { value: new Map(keyboards ? [plug()] : []) });
    Object.defineProperty(access, 'onstatechange', { writable: true, value: null });
    return Promise.resolve(access);
  };
  navigator.requestMIDIAccess = midiWith(1);
  window.sendMidi = bytes => {
    for (const input of inputs) {
      const message = new MIDIMessageEvent('midimessage', { data: new Uint8Array(bytes) });
      input.onmidimessage?.(message);
    }
  };
  window.playMidi = async events => {
    const start = performance.now(), said = [];
    for (const [at, ...bytes] of events) {
      const wait = at - (performance.now() - start);
      if (wait > 0) await new Promise(done => setTimeout(done, wait));
      sendMidi(bytes);
      said.push(document.getElementById('along-said').textContent);
    }
    return said;
  };
";

/// An event at a moment in milliseconds, as a MIDI keyboard sends it.
pub fn bytes(at: u64, event: KeyEvent) -> [u64; 4] {
    match event {
        KeyEvent::Down(key) => [at, 0x90, key.number() as u64, 70],
        KeyEvent::Up(key) => [at, 0x80, key.number() as u64, 0],
        KeyEvent::PedalDown => [at, 0xb0, 64, 127],
        KeyEvent::PedalUp => [at, 0xb0, 64, 0],
    }
}

/// Plays these events; gives what the page said of playing along after each.
pub fn play_midi(browser: &Browser, events: &[[u64; 4]]) -> Result<Vec<String>> {
    let events = serde_json::to_string(events)?;
    let said = browser.run_async(&format!("return await window.playMidi({events});"))?;
    let said = said.as_array().context("nothing was said")?.iter();
    Ok(said.filter_map(|it| it.as_str()).map(str::to_owned).collect())
}

/// Puts the keyboard where the pages opened from now on find it when they ask.
pub fn plug_in(browser: &Browser) -> Result<()> {
    browser.run_first(KEYBOARD)
}

/// The page at this size, with such a keyboard at hand.
pub fn visit_with_keys((width, height): (u32, u32), fragment: &str) -> Result<Browser> {
    let browser = Browser::start(Engine::asked())?;
    browser.size(width, height)?;
    plug_in(&browser)?;
    browser.open_page(page()?, fragment)?;
    Ok(browser)
}
