//! A browser as a test sees it: open a page, point, drag and type as a person does, run a script,
//! set the size, take a picture, and read what the page complained about. Commands go over the W3C
//! WebDriver protocol, plain JSON over HTTP. Lengths are CSS pixels, from the viewport's corner.

use std::cell::RefCell;
use std::path::Path;
use std::time::{Duration, Instant};

use anyhow::{Context, Result, anyhow, bail, ensure};
use base64::{Engine as _, engine::general_purpose::STANDARD};
use serde_json::{Value, json};

use crate::driver::Driver;
use crate::engine::Engine;
use crate::packed::watched;
use crate::serve::Server;
use crate::taste::Taste;

/// What points.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pointer {
    /// A mouse.
    Mouse,
    /// A finger. WebKitGTK's driver has none and sends a mouse's events.
    Finger,
}

impl Pointer {
    fn name(self) -> &'static str {
        match self {
            Self::Mouse => "mouse",
            Self::Finger => "touch",
        }
    }
}

/// Keys that are no characters, as WebDriver writes them.
pub mod key {
    #![allow(missing_docs, reason = "The names say it.")]
    pub const BACKSPACE: char = '\u{e003}';
    pub const TAB: char = '\u{e004}';
    pub const ENTER: char = '\u{e007}';
    pub const SHIFT: char = '\u{e008}';
    pub const CONTROL: char = '\u{e009}';
    pub const ESCAPE: char = '\u{e00c}';
    pub const PAGE_UP: char = '\u{e00e}';
    pub const PAGE_DOWN: char = '\u{e00f}';
    pub const END: char = '\u{e010}';
    pub const HOME: char = '\u{e011}';
    pub const LEFT: char = '\u{e012}';
    pub const UP: char = '\u{e013}';
    pub const RIGHT: char = '\u{e014}';
    pub const DOWN: char = '\u{e015}';
    pub const DELETE: char = '\u{e017}';
}

/// What Firefox's Save Page As does once a name is chosen.
const FIREFOX_SAVES: &str = "
  const [path, done] = arguments;
  const file = name => {
    const file = Cc['@mozilla.org/file/local;1'].createInstance(Ci.nsIFile);
    file.initWithPath(name);
    return file;
  };
  const saver = Cc['@mozilla.org/embedding/browser/nsWebBrowserPersist;1']
    .createInstance(Ci.nsIWebBrowserPersist);
  saver.persistFlags = Ci.nsIWebBrowserPersist.PERSIST_FLAGS_REPLACE_EXISTING_FILES;
  const { STATE_STOP, STATE_IS_NETWORK } = Ci.nsIWebProgressListener;
  saver.progressListener = {
    onProgressChange() {}, onLocationChange() {}, onStatusChange() {}, onSecurityChange() {},
    onContentBlockingEvent() {},
    onStateChange(progress, request, flags, status) {
      if (flags & STATE_STOP && flags & STATE_IS_NETWORK) done(status);
    },
  };
  gBrowser.selectedBrowser.frameLoader.startPersistence(null, {
    onDocumentReady(document) {
      saver.saveDocument(document, file(path), file(path + '_files'), null,
        Ci.nsIWebBrowserPersist.ENCODE_FLAGS_ENCODE_BASIC_ENTITIES, 80);
    },
    onError(status) { done(status || 1); },
  });
";

/// A browser with one open window. It is closed when this goes out of scope.
pub struct Browser {
    engine: Engine,
    agent: ureq::Agent,
    session: String,
    driver: Driver,
    complaints: RefCell<Vec<String>>,
    /// What runs in each page before its own scripts.
    first: RefCell<String>,
}

impl Browser {
    /// Starts `engine` with an empty window.
    ///
    /// # Errors
    ///
    /// When it is not installed: says to run `tests/run`. When it does not start: says which log
    /// tells why.
    pub fn start(engine: Engine) -> Result<Self> {
        Self::start_for(engine, Taste::Light)
    }

    /// The same on the system of somebody with this taste.
    pub fn start_for(engine: Engine, taste: Taste) -> Result<Self> {
        Self::begin(engine, taste, None)
    }

    /// The same where all that is not on this machine is asked for through `between`, which notes it.
    pub fn start_through(engine: Engine, between: &Server) -> Result<Self> {
        Self::begin(engine, Taste::Light, Some(between))
    }

    fn begin(engine: Engine, taste: Taste, between: Option<&Server>) -> Result<Self> {
        let programs = engine.programs()?;
        let driver = Driver::start(engine, &programs, taste)?;
        let agent: ureq::Agent = ureq::Agent::config_builder()
            .http_status_as_error(false)
            .timeout_global(Some(Duration::from_secs(90)))
            .build()
            .into();
        let mut browser = Self {
            engine,
            agent,
            session: format!("http://127.0.0.1:{}", driver.port),
            driver,
            complaints: RefCell::default(),
            first: RefCell::default(),
        };
        let told =
            format!("{} did not start; {} tells why", engine.name(), browser.driver.log.display());
        let ready = || Ok(browser.get("status").is_ok());
        wait_until(Duration::from_secs(60), ready).context(told.clone())?;
        let mut wishes = engine.capabilities(&programs.browser, taste);
        if let Some(between) = between {
            let place = between.place();
            wishes["proxy"] =
                json!({ "proxyType": "manual", "httpProxy": place, "sslProxy": place });
        }
        let answer = browser
            .post("session", &json!({ "capabilities": { "alwaysMatch": wishes } }))
            .context(told.clone())?;
        let id = answer["sessionId"].as_str().context(told)?;
        browser.session = format!("{}/session/{id}", browser.session);
        browser.post("timeouts", &json!({ "script": 60_000, "pageLoad": 60_000 }))?;
        match engine {
            // Takes any size.
            Engine::Chromium => browser.prefer(taste)?,
            Engine::Firefox | Engine::WebKit => browser.use_small_window()?,
        }
        Ok(browser)
    }

    /// Moves to a window without bars, since the first one of Firefox and of WebKitGTK cannot be as
    /// narrow as a phone.
    fn use_small_window(&self) -> Result<()> {
        let open = "window.open('about:blank', '_blank', 'popup,width=360,height=740')";
        let before = self.get("window")?;
        self.run(open, &json!([]))?;
        let windows = || self.get("window/handles");
        wait_until(Duration::from_secs(10), || {
            Ok(windows()?.as_array().is_some_and(|all| all.len() == 2))
        })?;
        let close = self.agent.delete(format!("{}/window", self.session)).call();
        self.read("window", close)?;
        let left = windows()?;
        let small = left.as_array().into_iter().flatten().find(|window| **window != before);
        self.post("window", &json!({ "handle": small.context("No small window opened")? }))?;
        Ok(())
    }

    /// Opens another window of the same browser and gives the names of the one before and of the new
    /// one, for [`Browser::go_to_window`].
    pub fn new_window(&self) -> Result<(Value, Value)> {
        let before = self.get("window")?;
        let made = self.post("window/new", &json!({ "type": "window" }))?;
        self.go_to_window(&made["handle"])?;
        Ok((before, made["handle"].clone()))
    }

    /// Turns to a window.
    pub fn go_to_window(&self, window: &Value) -> Result<()> {
        self.post("window", &json!({ "handle": window })).map(drop)
    }

    /// Gives the page the focus again where Tab has taken it to the browser's own bars: from there
    /// Firefox hands it on within the page, but keys press nothing.
    pub(crate) fn call_back(&self) -> Result<()> {
        if self.engine == Engine::Firefox && self.eval("document.hasFocus()")? == false {
            self.go_to_window(&self.get("window")?)?;
        }
        Ok(())
    }

    /// Which engine this is.
    pub fn engine(&self) -> Engine {
        self.engine
    }

    /// Opens an address and waits until it is loaded.
    pub fn open(&self, address: &str) -> Result<()> {
        self.post("url", &json!({ "url": address })).map(drop)
    }

    /// Opens the packed page in `file`, with the part of a link that follows `#`, and waits until
    /// it runs.
    ///
    /// # Errors
    ///
    /// With the page's own message when it does not start.
    pub fn open_page(&self, file: &Path, fragment: &str) -> Result<()> {
        self.keep_complaints()?;
        let file = match self.engine {
            // Has a console that can be asked for, from the first line on.
            Engine::Chromium => file.to_owned(),
            Engine::Firefox | Engine::WebKit => watched(file, &self.first.borrow())?,
        };
        let file = file.canonicalize().with_context(|| format!("No page at {}", file.display()))?;
        let hash = if fragment.is_empty() { String::new() } else { format!("#{fragment}") };
        // Between two addresses that differ in their fragment alone nothing is loaded anew.
        self.open("about:blank")?;
        self.open(&format!("file://{}{hash}", file.display()))?;
        self.wait_for("document.documentElement.dataset.state")?;
        let state = self.eval("document.documentElement.dataset.state")?;
        ensure!(
            state == "ready",
            "The page did not start: {}",
            self.eval("document.getElementById('message').textContent")?
        );
        Ok(())
    }

    /// Has a script run in each page opened from now on, before the page's own.
    pub fn run_first(&self, script: &str) -> Result<()> {
        let script = format!("{{ {script} }}");
        if self.engine == Engine::Chromium {
            // Not in the empty page between two others, which may do less than a page.
            let script = format!("if (location.protocol !== 'about:') {script}");
            let source = json!({ "source": script });
            return self.devtools("Page.addScriptToEvaluateOnNewDocument", &source).map(drop);
        }
        self.first.borrow_mut().push_str(&script);
        Ok(())
    }

    /// Loads the open address anew and waits until the page runs.
    pub fn reload(&self) -> Result<()> {
        self.keep_complaints()?;
        self.post("refresh", &json!({}))?;
        self.wait_for("document.documentElement.dataset.state === 'ready'")
    }

    /// The value of an expression in the page.
    pub fn eval(&self, expression: &str) -> Result<Value> {
        self.run(&format!("return ({expression});"), &json!([]))
    }

    /// Runs the body of a function in the page with `arguments` and returns what it returns.
    pub fn run(&self, body: &str, arguments: &Value) -> Result<Value> {
        self.post("execute/sync", &json!({ "script": body, "args": arguments }))
    }

    /// Runs the body of an `async` function in the page and waits for what it returns.
    pub fn run_async(&self, body: &str) -> Result<Value> {
        let script = format!(
            "const done = arguments[arguments.length - 1]; (async () => {{ {body}\n }})().then(
               value => done([value === undefined ? null : value]), error => done(String(error)));"
        );
        match self.post("execute/async", &json!({ "script": script, "args": [] }))? {
            Value::Array(mut values) => Ok(values.pop().unwrap_or_default()),
            error => bail!("The script failed: {error}"),
        }
    }

    /// Waits, half a minute at most, until an expression in the page is true.
    pub fn wait_for(&self, expression: &str) -> Result<()> {
        let holds = || Ok(self.eval(&format!("Boolean({expression})"))? == true);
        wait_until(Duration::from_secs(30), holds)
            .with_context(|| format!("{}: waited in vain for {expression}", self.engine.name()))
    }

    /// The middle of the first element that matches `selector`, scrolled into view and at rest.
    /// Music far from the window is not there: for it the staff is gone back to.
    pub fn middle(&self, selector: &str) -> Result<(f64, f64)> {
        let mut before = None;
        for _ in 0..40 {
            let now = self.middle_now(selector)?;
            if let Some(middle) = now
                && before == now
            {
                return Ok(middle);
            }
            if now.is_none() && selector.starts_with("#staff ") {
                self.run("document.getElementById('staff')?.scrollIntoView();", &json!([]))?;
            }
            before = now;
            std::thread::sleep(Duration::from_millis(40));
        }
        match before {
            Some(_) => bail!("{}: {selector} does not come to rest", self.engine.name()),
            None => bail!("{}: the page has no {selector}", self.engine.name()),
        }
    }

    fn middle_now(&self, selector: &str) -> Result<Option<(f64, f64)>> {
        let found = self.run(
            "const found = document.querySelector(arguments[0]);
             if (!found) return null;
             const middle = () => {
               const r = found.getBoundingClientRect();
               return [r.x + r.width / 2, r.y + r.height / 2];
             };
             const over = document.elementFromPoint(...middle());
             // Out of sight, or with something else in front.
             if (!over || !(found.contains(over) || over.contains(found) || found.parentNode.contains(over)))
               found.scrollIntoView({ block: 'center', inline: 'center', behavior: 'instant' });
             return middle();",
            &json!([selector]),
        )?;
        Ok(found[0].as_f64().zip(found[1].as_f64()))
    }

    /// Chooses `file` in the file field that matches `selector`.
    pub fn choose_file(&self, selector: &str, file: &Path) -> Result<()> {
        let found = json!({ "using": "css selector", "value": selector });
        let found = self.post("element", &found)?;
        let id = found.as_object().and_then(|it| it.values().next()).and_then(Value::as_str);
        let id = id.with_context(|| format!("The page has no {selector}"))?;
        let text = json!({ "text": file.to_string_lossy() });
        self.post(&format!("element/{id}/value"), &text).map(drop)
    }

    /// Has the browser itself save the open page with all that belongs to it, as its own command
    /// does, to `file`. Firefox only.
    pub fn save_page(&self, file: &Path) -> Result<()> {
        ensure!(self.engine == Engine::Firefox, "{} is not asked this way", self.engine.name());
        self.post("moz/context", &json!({ "context": "chrome" }))?;
        let told = self.post(
            "execute/async",
            &json!({ "script": FIREFOX_SAVES, "args": [file.to_string_lossy()] }),
        );
        self.post("moz/context", &json!({ "context": "content" }))?;
        ensure!(told? == 0, "Firefox could not save the page");
        Ok(())
    }

    /// Clicks on the middle of the first element that matches `selector`.
    pub fn click(&self, selector: &str) -> Result<()> {
        self.press(selector, Pointer::Mouse)
    }

    /// Touches or clicks the middle of the first element that matches `selector`.
    pub fn press(&self, selector: &str, pointer: Pointer) -> Result<()> {
        let at = self.middle(selector)?;
        self.press_at(at, pointer)
    }

    /// Touches or clicks a point.
    pub fn press_at(&self, at: (f64, f64), pointer: Pointer) -> Result<()> {
        self.stroke(&[at], pointer)
    }

    /// Puts down at `from`, moves to `to` in some steps, and lets go there.
    pub fn drag(&self, from: (f64, f64), to: (f64, f64), pointer: Pointer) -> Result<()> {
        let steps = 6;
        let path: Vec<_> = (0..=steps)
            .map(|step| f64::from(step) / f64::from(steps))
            .map(|part| (from.0 + (to.0 - from.0) * part, from.1 + (to.1 - from.1) * part))
            .collect();
        self.stroke(&path, pointer)
    }

    /// Puts down at the first point of `path`, follows it, and lets go at its last point.
    pub fn stroke(&self, path: &[(f64, f64)], pointer: Pointer) -> Result<()> {
        let go = |(x, y): &(f64, f64), time: u32| json!({ "type": "pointerMove", "duration": time, "x": x.round(), "y": y.round(), "origin": "viewport" });
        let mut actions = Vec::new();
        for (index, point) in path.iter().enumerate() {
            actions.push(go(point, if index == 0 { 0 } else { 30 }));
            if index == 0 {
                actions.push(json!({ "type": "pointerDown", "button": 0 }));
                actions.push(json!({ "type": "pause", "duration": 30 }));
            }
        }
        actions.push(json!({ "type": "pointerUp", "button": 0 }));
        self.act(json!({
            "type": "pointer", "id": pointer.name(), "actions": actions,
            "parameters": { "pointerType": pointer.name() },
        }))
    }

    /// Puts a finger down on each of `points` at the same time and lifts them all.
    pub fn chord(&self, points: &[(f64, f64)]) -> Result<()> {
        let fingers: Vec<Value> = points
            .iter()
            .enumerate()
            .map(|(finger, (x, y))| {
                json!({
                    "type": "pointer", "id": format!("finger{finger}"),
                    "parameters": { "pointerType": "touch" },
                    "actions": [
                        { "type": "pointerMove", "duration": 0, "x": x.round(), "y": y.round(), "origin": "viewport" },
                        { "type": "pointerDown", "button": 0 },
                        { "type": "pause", "duration": 60 },
                        { "type": "pointerUp", "button": 0 },
                    ],
                })
            })
            .collect();
        self.post("actions", &json!({ "actions": fingers }))?;
        self.settle();
        Ok(())
    }

    /// Types `text` into whatever has the focus. [`key`] has the keys that are no characters.
    pub fn keys(&self, text: &str) -> Result<()> {
        let strokes: Vec<Value> = text
            .chars()
            .flat_map(|c| [("keyDown", c), ("keyUp", c)])
            .map(|(kind, c)| json!({ "type": kind, "value": c.to_string() }))
            .collect();
        self.act(json!({ "type": "key", "id": "keys", "actions": strokes }))
    }

    /// Types `text` while `held` is down, as for a shortcut.
    pub fn keys_with(&self, held: char, text: &str) -> Result<()> {
        let held = held.to_string();
        let mut strokes = vec![json!({ "type": "keyDown", "value": held })];
        for c in text.chars() {
            strokes.push(json!({ "type": "keyDown", "value": c.to_string() }));
            strokes.push(json!({ "type": "keyUp", "value": c.to_string() }));
        }
        strokes.push(json!({ "type": "keyUp", "value": held }));
        self.act(json!({ "type": "key", "id": "keys", "actions": strokes }))
    }

    fn act(&self, source: Value) -> Result<()> {
        self.post("actions", &json!({ "actions": [source] }))?;
        self.settle();
        Ok(())
    }

    /// Waits until the page has drawn twice. A driver may answer before the page has heard of the
    /// last key or touch; what it hears of is then in its queue before the second drawing.
    fn settle(&self) {
        let drawn = "const done = arguments[0];
            setTimeout(done, 400);
            requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done)));";
        // An act that leaves the page ends the script with it, which is no fault of either.
        drop(self.post("execute/async", &json!({ "script": drawn, "args": [] })));
    }

    /// Makes the viewport exactly `width` by `height`.
    ///
    /// # Errors
    ///
    /// When the engine's window cannot be that small.
    pub fn size(&self, width: u32, height: u32) -> Result<()> {
        if self.engine == Engine::Chromium {
            let metrics = json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": false });
            return self.devtools("Emulation.setDeviceMetricsOverride", &metrics).map(drop);
        }
        let (mut outer_width, mut outer_height) = (i64::from(width), i64::from(height));
        let mut inner = Value::Null;
        // The frame's thickness is known once there is a frame, and it may change with the size.
        for _ in 0..20 {
            self.post(
                "window/rect",
                &json!({ "x": 0, "y": 0, "width": outer_width, "height": outer_height }),
            )?;
            std::thread::sleep(Duration::from_millis(150));
            inner = self.eval("[innerWidth, innerHeight]")?;
            let got = |index: usize| inner[index].as_i64().context("The viewport has no size");
            let (dx, dy) = (i64::from(width) - got(0)?, i64::from(height) - got(1)?);
            if (dx, dy) == (0, 0) {
                return Ok(());
            }
            outer_width += dx;
            outer_height += dy;
        }
        bail!(
            "{} makes the viewport {inner} when asked for {width} by {height}",
            self.engine.name()
        )
    }

    /// In Chromium nobody's system is asked: the page is told.
    fn prefer(&self, taste: Taste) -> Result<()> {
        let (colours, motion) = match taste {
            Taste::Light => ("light", "no-preference"),
            Taste::Dark => ("dark", "no-preference"),
            Taste::Still => ("light", "reduce"),
        };
        let features = json!({ "features": [
            { "name": "prefers-color-scheme", "value": colours },
            { "name": "prefers-reduced-motion", "value": motion },
        ] });
        self.devtools("Emulation.setEmulatedMedia", &features).map(drop)
    }

    /// Makes the page believe that it is on a touch screen, where a driver can: in Chromium. The page
    /// asks for a screen's size and for what points, never for this.
    pub fn have_touch_screen(&self) -> Result<()> {
        if self.engine != Engine::Chromium {
            return Ok(());
        }
        let touch = json!({ "enabled": true, "maxTouchPoints": 5 });
        self.devtools("Emulation.setTouchEmulationEnabled", &touch).map(drop)
    }

    /// Has what nobody holds any more thrown away, where a driver can: in Chromium.
    pub fn collect_garbage(&self) -> Result<()> {
        if self.engine != Engine::Chromium {
            return Ok(());
        }
        self.devtools("HeapProfiler.collectGarbage", &json!({})).map(drop)
    }

    /// Gives a command of Chromium's own protocol. Chromium only.
    pub fn devtools(&self, command: &str, params: &Value) -> Result<Value> {
        ensure!(self.engine == Engine::Chromium, "{} does not know {command}", self.engine.name());
        self.post("goog/cdp/execute", &json!({ "cmd": command, "params": params }))
    }

    /// Writes a picture of the viewport to `file`, a PNG.
    pub fn shoot(&self, file: &Path) -> Result<()> {
        let picture = self.get("screenshot")?;
        let bytes = STANDARD.decode(picture.as_str().context("No picture came")?)?;
        if let Some(folder) = file.parent() {
            std::fs::create_dir_all(folder)?;
        }
        std::fs::write(file, bytes).with_context(|| format!("{} cannot be written", file.display()))
    }

    /// The page as the engine prints it, to the edges and on paper of the size that the page's style
    /// asks for: a PDF.
    pub fn print(&self) -> Result<Vec<u8>> {
        let pdf = if self.engine == Engine::Chromium {
            let wishes = json!({ "preferCSSPageSize": true, "printBackground": true });
            self.devtools("Page.printToPDF", &wishes)?["data"].take()
        } else {
            let none = json!({ "top": 0, "bottom": 0, "left": 0, "right": 0 });
            self.post("print", &json!({ "margin": none, "background": true }))?
        };
        Ok(STANDARD.decode(pdf.as_str().context("No PDF came")?)?)
    }

    /// What the page has complained about since this was last asked: errors and warnings in its
    /// console, errors nobody caught, and what its policy forbade.
    pub fn complaints(&self) -> Result<Vec<String>> {
        if self.engine == Engine::Chromium {
            let lines = self.post("se/log", &json!({ "type": "browser" }))?;
            let lines = lines.as_array().context("No console came")?;
            let bad = |line: &&Value| line["level"] == "SEVERE" || line["level"] == "WARNING";
            return Ok(lines.iter().filter(bad).map(|line| line["message"].to_string()).collect());
        }
        let heard = self.eval("window.complaints || []")?;
        let mut before = self.complaints.borrow_mut();
        before.extend(heard.as_array().into_iter().flatten().map(Value::to_string));
        self.run("if (window.complaints) window.complaints.length = 0;", &json!([]))?;
        Ok(std::mem::take(&mut before))
    }

    /// The addresses the browser was asked for since this was last asked. Chromium only.
    pub fn network(&self) -> Result<Vec<String>> {
        let lines = self.post("se/log", &json!({ "type": "performance" }))?;
        let lines = lines.as_array().context("No record of the network came")?;
        let messages = lines
            .iter()
            .filter_map(|line| serde_json::from_str::<Value>(line["message"].as_str()?).ok());
        let asked = messages.filter(|it| it["message"]["method"] == "Network.requestWillBeSent");
        let address =
            |it: Value| Some(it["message"]["params"]["request"]["url"].as_str()?.to_owned());
        Ok(asked.filter_map(address).collect())
    }

    /// Puts aside what the page has complained about, before it goes.
    fn keep_complaints(&self) -> Result<()> {
        if self.engine != Engine::Chromium {
            let heard = self.complaints()?;
            self.complaints.borrow_mut().extend(heard);
        }
        Ok(())
    }

    pub(crate) fn get(&self, command: &str) -> Result<Value> {
        let answer = self.agent.get(format!("{}/{command}", self.session)).call();
        self.read(command, answer)
    }

    pub(crate) fn post(&self, command: &str, body: &Value) -> Result<Value> {
        let answer = self.agent.post(format!("{}/{command}", self.session)).send_json(body);
        self.read(command, answer)
    }

    fn read(
        &self,
        command: &str,
        answer: Result<ureq::http::Response<ureq::Body>, ureq::Error>,
    ) -> Result<Value> {
        let told = || format!("{}: {command} was not answered", self.engine.name());
        let mut answer = answer.with_context(told)?;
        let status = answer.status();
        let value: Value = answer
            .body_mut()
            .with_config()
            .limit(64 * 1024 * 1024)
            .read_json()
            .with_context(told)?;
        let value = value.get("value").cloned().unwrap_or_default();
        if !status.is_success() {
            let said = value["message"].as_str().unwrap_or("no reason given");
            return Err(anyhow!("{}: {command}: {} ({said})", self.engine.name(), value["error"]));
        }
        Ok(value)
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        // Whether it listens or not, the driver's end ends the browser too.
        drop(self.agent.delete(&self.session).call());
    }
}

fn wait_until(most: Duration, holds: impl Fn() -> Result<bool>) -> Result<()> {
    let start = Instant::now();
    loop {
        match holds() {
            Ok(true) => return Ok(()),
            Ok(false) if start.elapsed() > most => bail!("{} seconds went by", most.as_secs()),
            Err(error) if start.elapsed() > most => return Err(error),
            Ok(false) | Err(_) => std::thread::sleep(Duration::from_millis(50)),
        }
    }
}
