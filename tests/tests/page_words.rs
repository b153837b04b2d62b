//! The page in five languages: in every view, what stands there in English stands
//! there in no other language; changing the language keeps the sketch and what is
//! heard by a screen reader follows. Pictures in German, which is the longest, go to
//! `target/shots`.

use anyhow::{Result, ensure};
use serde_json::{Value, json};
use std::collections::BTreeSet;
use tastata::words::{Lang, Tongue};
use tastata_tests::{Browser, Engine, key, page, workspace};

/// Words that are alike in languages, by the language they are met in; names of
/// people and of formats, and single words of the trade, are so in all.
const ALIKE: [(&str, &[&str]); 4] = [
    ("it", &["Soprano", "soprano", "No", "In", "figure", "MIDI"]),
    ("de", &["Link", "Name", "In", "Text", "Pause", "Harmonie", "Tempo", "Instrument"]),
    (
        "fr",
        &[
            "Soprano",
            "soprano",
            "Image",
            "minutes",
            "Instrument",
            "Minutes",
            "2 notes",
            "3 notes",
            "4 notes",
            "5 notes",
            "1 note",
            "cadence",
            "dissonance",
            "position",
        ],
    ),
    ("es", &["Soprano", "soprano", "No", "pedal"]),
];

/// Every text and every name for a screen reader that stands on the page, seen or not.
const TEXTS: &str = "
  const found = new Set();
  const words = it => /\\p{L}{2}/u.test(it);
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const at = walk.currentNode.parentElement;
    if (at.closest('script, style, textarea, noscript, #tongue, #note-names')) continue;
    const text = walk.currentNode.textContent.replace(/\\s+/g, ' ').trim();
    if (words(text)) found.add(text);
  }
  for (const it of document.querySelectorAll('[aria-label], [title], [placeholder]'))
    for (const name of ['aria-label', 'title', 'placeholder']) {
      const text = it.getAttribute(name);
      if (text && words(text)) found.add(text);
    }
  return [...found];";

/// Ways from view to view, one after the other, each a script.
const VIEWS: [(&str, &str); 12] = [
    ("as it opens", ""),
    (
        "with everything open",
        "for (const it of document.querySelectorAll('details')) it.open = true;",
    ),
    (
        "with a chord",
        "document.querySelector('#staff [data-part=bass]').dispatchEvent(new PointerEvent('pointerdown', {bubbles: true})); document.getElementById('after').click();",
    ),
    ("with other chords", "document.getElementById('before').click();"),
    ("with a rule explained", "document.querySelector('#rules [data-explain]').click();"),
    (
        "with motions and dwelling",
        "for (const id of ['motions', 'speech']) document.getElementById(id).click();",
    ),
    (
        "with the link",
        "document.getElementById('share').click(); document.getElementById('share-close').click();",
    ),
    (
        "practising by ear",
        "document.getElementById('practise').click(); document.getElementById('practise-ear-motion').click();",
    ),
    (
        "with the drill",
        "document.getElementById('practise').click(); document.getElementById('practise-drill').click();",
    ),
    (
        "through all keys",
        "document.getElementById('practise').click(); document.getElementById('practise-keys').click(); document.getElementById('desk-leave').click();",
    ),
    (
        "teaching",
        "document.getElementById('teach').click(); document.getElementById('ask-figures').click(); document.getElementById('make-put').click(); document.querySelector('[data-room=set]').click(); document.querySelector('[data-room=collect]').click(); document.getElementById('teach-close').click();",
    ),
    ("with the glossary", "document.getElementById('glossary').click();"),
];

fn speak(browser: &Browser, code: &str) -> Result<()> {
    browser.run(
        "const choice = document.getElementById('tongue');
         choice.value = arguments[0];
         choice.dispatchEvent(new Event('change', {bubbles: true}));",
        &json!([code]),
    )?;
    browser.wait_for(&format!("document.documentElement.lang === '{code}'"))
}

/// What stands on the page in each view.
fn texts(browser: &Browser, code: &str) -> Result<Vec<BTreeSet<String>>> {
    browser.open_page(page()?, "")?;
    browser.run("localStorage.clear();", &json!([]))?;
    browser.reload()?;
    speak(browser, code)?;
    let mut seen = Vec::new();
    for (view, way) in VIEWS {
        browser.run(way, &json!([]))?;
        let found = browser.run(TEXTS, &json!([]))?;
        let found = found.as_array().into_iter().flatten().filter_map(Value::as_str);
        seen.push(found.map(str::to_owned).collect());
        if code == "de" {
            let name = format!("target/shots/words-de-{}.png", view.replace(' ', "-"));
            browser.shoot(&workspace().join(name))?;
        }
    }
    Ok(seen)
}

#[test]
fn nothing_on_the_page_is_left_in_english() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(Engine::asked())?;
    browser.size(360, 740)?;
    let english = texts(&browser, "en")?;
    ensure!(english.iter().all(|view| view.len() > 150), "the views hold almost nothing");
    let mut left = Vec::new();
    for (code, alike) in ALIKE {
        for ((view, _), (english, other)) in
            VIEWS.iter().zip(english.iter().zip(texts(&browser, code)?))
        {
            for text in english.intersection(&other) {
                if international(text, code, alike) {
                    continue;
                }
                left.push(format!("{code}, {view}: {text}"));
            }
        }
    }
    ensure!(left.is_empty(), "{} left in English:\n{}", left.len(), left.join("\n"));
    // A press made by a script does not wake the sound, which Chromium complains of.
    let mut complaints = browser.complaints()?;
    complaints.retain(|it| !it.contains("AudioContext"));
    ensure!(complaints.is_empty(), "{complaints:#?}");
    Ok(())
}

/// Whether a text may be alike in two languages: names of people with their years,
/// of formats, of notes; the title of the example; rows of the tables that say so.
fn international(text: &str, code: &str, alike: &[&str]) -> bool {
    const NAMES: [&str; 15] = [
        "Letter",
        "Tastata",
        "Werckmeister III",
        "Kirnberger III",
        "Vallotti",
        "Young",
        "MIDI",
        "tasto solo",
        "partimento",
        "acciaccatura",
        "A first prelude",
        "https://",
        "Hz",
        "t.s.",
        "Campion",
    ];
    let person = |it: &str| it.ends_with(|c: char| c.is_ascii_digit()) && it.contains(", 1");
    let source = text.contains("(1") && text.contains(')');
    let table = Tongue::from_code(code).is_some_and(|tongue| {
        let texts = tastata::words::page::page_texts(Lang::of(tongue));
        let english = tastata::words::page::page_texts(Lang::English);
        // A row that is alike on purpose is a single word or a name.
        english.iter().any(|(key, it)| *it == text && texts.get(key) == Some(it))
            && !text.contains(' ')
    });
    table
        || person(text)
        || source
        || alike.contains(&text)
        || NAMES.iter().any(|name| text == *name || text.starts_with(name))
        || text.chars().filter(|c| c.is_alphabetic()).count() < 3
        || text
            .split([' ', '–', '-'])
            .all(|word| word.chars().filter(|c| c.is_alphabetic()).count() < 2)
}

#[test]
fn another_language_keeps_the_sketch_and_names_its_notes() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(Engine::asked())?;
    browser.open_page(page()?, "")?;
    browser.run("localStorage.clear();", &json!([]))?;
    browser.reload()?;
    let field = "document.getElementById('bass').value";
    let kept = || browser.eval("document.getElementById('kept-sketch').textContent");
    browser.run("document.getElementById('bass').focus();", &json!([]))?;
    browser.keys_with(key::CONTROL, "a")?;
    browser.keys("C3 F#3 Bb2 B2 C3")?;
    browser.run("document.getElementById('bass').blur();", &json!([]))?;
    let before = kept()?;
    ensure!(before.as_str().is_some_and(|it| !it.is_empty()), "nothing is kept");
    for (code, text) in [
        ("de", "C3 Fis3 B2 H2 C3"),
        ("fr", "do3 fa♯3 si♭2 si2 do3"),
        ("es", "do3 fa♯3 si♭2 si2 do3"),
        ("en", "C3 F#3 Bb2 B2 C3"),
    ] {
        speak(&browser, code)?;
        browser.wait_for(&format!("{field} === '{text}'"))?;
        ensure!(kept()? == before, "{code}: the sketch is another");
    }
    // A B is what its reader means by it.
    speak(&browser, "de")?;
    browser.run("document.getElementById('bass').focus();", &json!([]))?;
    browser.keys_with(key::CONTROL, "a")?;
    browser.keys("B2 H2 As2")?;
    browser.run("document.getElementById('bass').blur();", &json!([]))?;
    speak(&browser, "en")?;
    browser.wait_for(&format!("{field} === 'Bb2 B2 Ab2'"))?;
    // The choice is remembered.
    speak(&browser, "it")?;
    browser.reload()?;
    browser.wait_for("document.documentElement.lang === 'it'")?;
    browser.wait_for(&format!("{field} === 'si♭2 si2 la♭2'"))?;
    // What is read out is in the language too.
    browser.run(
        "const staff = document.getElementById('staff'); staff.focus();
         staff.dispatchEvent(new KeyboardEvent('keydown', {key: 'ArrowRight', bubbles: true}));",
        &json!([]),
    )?;
    browser
        .wait_for("document.getElementById('say').textContent.startsWith('Accordo 1: basso si♭2')")
}

#[test]
fn a_word_of_the_trade_is_explained_by_keyboard_and_by_pointer() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(Engine::asked())?;
    browser.open_page(page()?, "")?;
    browser.run("localStorage.clear();", &json!([]))?;
    browser.reload()?;
    browser.click("#staff [data-part=bass][data-chord='1']")?;
    let word = "#card-reason [data-term=octave-rule]";
    browser.wait_for(&format!("document.querySelector('{word}')"))?;
    browser.run(&format!("document.querySelector('{word}').focus();"), &json!([]))?;
    browser.keys(&key::ENTER.to_string())?;
    let open = "document.getElementById('term-sheet').open";
    browser.wait_for(&format!(
        "{open} && document.getElementById('term-name').textContent === 'octave rule'"
    ))?;
    browser.wait_for("document.getElementById('term-source').textContent.includes('Campion')")?;
    browser.keys(&key::ESCAPE.to_string())?;
    browser.wait_for(&format!("!{open}"))?;
    browser.wait_for(&format!("document.activeElement === document.querySelector('{word}')"))?;
    browser.click(word)?;
    browser.wait_for(open)?;
    browser.click("#term-all")?;
    browser.wait_for("document.querySelectorAll('#term-list dt').length > 30")
}
