//! A visit to the packed page: how it is opened, and that it was quiet.

use anyhow::{Result, ensure};
use serde_json::json;

use crate::browser::Browser;
use crate::engine::Engine;
use crate::packed::page;
use crate::taste::Taste;

/// The sizes of a phone, a tablet and a projector, in CSS pixels.
pub const SIZES: [(u32, u32); 3] = [(360, 740), (820, 1180), (1920, 1080)];

/// The page at this size in the engine that is asked for, as it opens with this fragment of an address.
pub fn visit(size: (u32, u32), fragment: &str) -> Result<Browser> {
    visit_in(Engine::asked(), size, fragment)
}

/// The same in any engine.
pub fn visit_in(engine: Engine, (width, height): (u32, u32), fragment: &str) -> Result<Browser> {
    let browser = Browser::start(engine)?;
    browser.size(width, height)?;
    browser.open_page(page()?, fragment)?;
    Ok(browser)
}

/// The page in the engine that is asked for, for a person of this taste.
pub fn visit_as(taste: Taste, (width, height): (u32, u32)) -> Result<Browser> {
    let browser = Browser::start_for(Engine::asked(), taste)?;
    browser.size(width, height)?;
    browser.open_page(page()?, "")?;
    Ok(browser)
}

/// The page in the engine that is asked for, on a screen that is touched.
pub fn visit_by_touch((width, height): (u32, u32), fragment: &str) -> Result<Browser> {
    let browser = Browser::start(Engine::asked())?;
    browser.size(width, height)?;
    browser.have_touch_screen()?;
    browser.open_page(page()?, fragment)?;
    Ok(browser)
}

/// Puts `text` into the field of this id at once, as pasting does.
pub fn paste(browser: &Browser, id: &str, text: &str) -> Result<()> {
    let script = "const field = document.getElementById(arguments[0]); field.value = arguments[1];
         field.dispatchEvent(new Event('input', { bubbles: true }));";
    browser.run(script, &json!([id, text])).map(drop)
}

/// Fails if the page complained of anything.
pub fn quiet(browser: &Browser) -> Result<()> {
    let complaints = browser.complaints()?;
    ensure!(complaints.is_empty(), "{complaints:#?}");
    Ok(())
}
