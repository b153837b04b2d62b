//! The page in five languages: in every view, what stands there in English stands
//! there in no other language; changing the language keeps the sketch and what is
//! heard by a screen reader follows. Pictures in German, which is the longest, go to
//! `target/shots`.

use anyhow::{Context, Result, ensure};
use serde_json::{Value, json};
use std::collections::BTreeSet;
use tastata::files::{encode_commented, encode_hand_in, encode_set};
use tastata::frame::{Position, Rule};
use tastata::harmony::Cadence;
use tastata::lesson::{
    Answer, Ask, Comment, Commented, Found, HandIn, Measure, MotionLimit, Naming, Set, make,
};
use tastata::pitch::Tonality;
use tastata::sketch::Sketch;
use tastata::words::{Lang, Tongue};
use tastata_tests::lesson::{sketch, with_soprano};
use tastata_tests::midi_keys::plug_in;
use tastata_tests::{Browser, Engine, Need, key, page, shot};

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
    if (at.closest('script, style, textarea, noscript, #tongue, #note-names, #set-tongue, #set-notes')) continue;
    const text = walk.currentNode.textContent.replace(/\\s+/g, ' ').trim();
    if (words(text)) found.add(text);
  }
  for (const it of document.querySelectorAll('[aria-label], [title], [placeholder]'))
    for (const name of ['aria-label', 'title', 'placeholder']) {
      const text = it.getAttribute(name);
      if (text && words(text)) found.add(text);
    }
  return [...found];";

/// Ways from view to view, one after the other, each a script and what to wait for.
const VIEWS: [(&str, &str, &str); 16] = [
    ("as it opens", "", ""),
    (
        "with everything open",
        "for (const it of document.querySelectorAll('details')) it.open = true;",
        "",
    ),
    (
        "with a chord",
        "document.querySelector('#staff [data-part=bass]').dispatchEvent(new PointerEvent('pointerdown', {bubbles: true})); document.getElementById('after').click();",
        "",
    ),
    ("with other chords", "document.getElementById('before').click();", ""),
    ("with a rule explained", "document.querySelector('#rules [data-explain]').click();", ""),
    (
        "with motions and dwelling",
        "for (const id of ['motions', 'speech']) document.getElementById(id).click();",
        "",
    ),
    (
        "with the link",
        "document.getElementById('share').click(); document.getElementById('share-close').click();",
        "",
    ),
    (
        "practising by ear",
        "document.getElementById('practise').click(); document.getElementById('practise-ear-motion').click();",
        "",
    ),
    (
        "with the drill",
        "document.getElementById('practise').click(); document.getElementById('practise-drill').click();",
        "",
    ),
    (
        "through all keys",
        "document.getElementById('practise').click(); document.getElementById('practise-keys').click(); document.getElementById('desk-leave').click();",
        "",
    ),
    (
        "teaching",
        "document.getElementById('teach').click(); document.getElementById('ask-figures').click(); document.getElementById('make-put').click(); document.querySelector('[data-room=set]').click(); document.querySelector('[data-room=collect]').click(); document.getElementById('teach-close').click();",
        "",
    ),
    ("with the glossary", "document.getElementById('glossary').click();", ""),
    (
        "without MIDI",
        "document.querySelector('#term-sheet[open] #term-close').click(); navigator.requestMIDIAccess = undefined; document.getElementById('practise').click(); document.getElementById('practise-note').textContent = ''; document.getElementById('practise-midi').click();",
        "document.getElementById('practise-note').textContent",
    ),
    (
        "with MIDI refused",
        "navigator.requestMIDIAccess = () => Promise.reject(new Error('no')); document.getElementById('practise-note').textContent = ''; document.getElementById('practise-midi').click();",
        "document.getElementById('practise-note').textContent",
    ),
    (
        "with no MIDI keyboard yet",
        "navigator.requestMIDIAccess = midiWith(0); document.getElementById('practise-note').textContent = ''; document.getElementById('practise-midi').click();",
        "document.getElementById('practise-note').textContent",
    ),
    (
        "with a MIDI keyboard",
        "navigator.requestMIDIAccess = midiWith(1); document.getElementById('practise-note').textContent = ''; document.getElementById('practise-midi').click();",
        "document.getElementById('practise-note').textContent",
    ),
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

const DONE: &str = "C major: C3:5/3 D3:6 E3:6 F3:5/3 G3:5/3 C3:5/3";

/// One exercise of every kind, without any words of a teacher.
fn every_kind() -> Set {
    let finished = with_soprano(sketch(DONE), "E4 F4 G4 A4 B4 C5");
    let faulty = with_soprano(sketch(DONE), "G4 A4 G4 A4 B4 C5");
    let soprano = |motions| Ask::Soprano { position: Some(Position::Third), motions };
    let keys = ["D", "A minor"].map(|it| Tonality::parse(it).expect("a key"));
    let kinds = [
        (&finished, Ask::Figures(Measure::Accepted)),
        (&finished, soprano(MotionLimit::ContraryOrTenths)),
        (&finished, soprano(MotionLimit::Any)),
        (&faulty, Ask::FindFaults(Naming::Named)),
        (&faulty, Ask::FindFaults(Naming::Place)),
        (&finished, Ask::Handfuls { least: 2 }),
        (&finished, Ask::Roll { acciaccaturas: 2 }),
        (&finished, Ask::Keys(keys.to_vec())),
        (&finished, Ask::Finish(Cadence::Double)),
        (&finished, Ask::Free),
    ];
    let exercises = kinds.map(|(sketch, ask)| make(sketch, vec![ask])).to_vec();
    Set { title: "W1".to_owned(), exercises, ..Set::default() }
}

/// Answers with as much to find in them as can be, and with comments.
fn answered() -> Commented {
    let set = every_kind();
    let wrong = "C major: C3:7/4/2 D3 E3:5/4 F3:6/4 G3:9/4 C3:7/2";
    let wrong = with_soprano(sketch(wrong), "G4 A4 B4 C5 D5 E5");
    let answer = || Answer {
        sketch: wrong.clone(),
        found: vec![Found { chord: 4, rule: Some(Rule::ConsecutiveOctaves) }],
        keys: vec![Sketch { tonality: Tonality::parse("D"), ..wrong.clone() }],
        minutes: 7,
    };
    let mut answers: Vec<_> = set.exercises.iter().map(|_| Some(answer())).collect();
    answers.pop();
    let comment = |chord| Comment { exercise: 0, chord, text: "ok".to_owned() };
    Commented {
        teacher: "1".to_owned(),
        hand_in: HandIn { student: "A1".to_owned(), set, answers },
        comments: vec![comment(None), comment(Some(1))],
    }
}

/// The views of teaching that need links: a class, its answers, comments that came
/// back, every kind of task with what a check finds.
fn views_of_links() -> Vec<(String, String, String)> {
    let commented = answered();
    let hand_in = encode_hand_in(&commented.hand_in);
    let cut = &hand_in[..hand_in.len() - 9];
    let mut views = vec![(
        "a class".to_owned(),
        format!(
            "document.getElementById('practise-close').click(); document.getElementById('teach').click();
             document.querySelector('[data-room=collect]').click();
             document.getElementById('class-links').value = '{hand_in}\\n{cut}';
             document.getElementById('class-read').click();"
        ),
        "document.querySelectorAll('#class-table tbody tr').length === 2".to_owned(),
    )];
    let open =
        "document.querySelector('#class-table button[data-row]:not([data-exercise])').click();";
    let desk =
        "!document.getElementById('desk').hidden && !document.getElementById('report').hidden";
    views.push(("an answer".to_owned(), open.to_owned(), desk.to_owned()));
    for n in 2..=commented.hand_in.set.exercises.len() {
        let at = format!("/{n} /.test(document.getElementById('desk-title').textContent)");
        let next = "document.getElementById('desk-after').click();".to_owned();
        views.push((format!("answer {n}"), next, at));
    }
    views.push((
        "comments to send back".to_owned(),
        "document.getElementById('desk-send-back').click(); document.getElementById('pass-make').click();".to_owned(),
        "!document.getElementById('pass-room').hidden".to_owned(),
    ));
    views.push((
        "comments that came back".to_owned(),
        format!(
            "document.getElementById('pass-close').click(); location.hash = '{}';",
            encode_commented(&commented)
        ),
        "document.querySelectorAll('#comments li').length === 2".to_owned(),
    ));
    views.push((
        "task 1".to_owned(),
        format!("location.hash = '{}';", encode_set(&commented.hand_in.set)),
        "!document.getElementById('desk-check').hidden".to_owned(),
    ));
    for n in 2..=commented.hand_in.set.exercises.len() {
        let next = "document.getElementById('desk-check').click(); document.getElementById('desk-after').click(); document.getElementById('desk-check').click();";
        let at = format!("/{n} /.test(document.getElementById('desk-title').textContent)");
        views.push((format!("task {n}"), next.to_owned(), at));
    }
    views
}

fn views() -> Vec<(String, String, String)> {
    let own = |(view, way, until): &(&str, &str, &str)| {
        ((*view).to_owned(), (*way).to_owned(), (*until).to_owned())
    };
    let midi = !Engine::asked().lacks(Need::Midi);
    let there = |(view, ..): &&(&str, &str, &str)| midi || !view.contains("MIDI");
    VIEWS.iter().filter(there).map(own).chain(views_of_links()).collect()
}

/// What stands on the page in each view.
fn texts(browser: &Browser, code: &str) -> Result<Vec<BTreeSet<String>>> {
    browser.open_page(page()?, "")?;
    browser.run("localStorage.clear();", &json!([]))?;
    browser.reload()?;
    speak(browser, code)?;
    let mut seen = Vec::new();
    for (view, way, until) in views() {
        browser.run(&way, &json!([]))?;
        if !until.is_empty() {
            browser.wait_for(&until).with_context(|| format!("{code}, {view}"))?;
        }
        let found = browser.run(TEXTS, &json!([]))?;
        let found = found.as_array().into_iter().flatten().filter_map(Value::as_str);
        seen.push(found.map(str::to_owned).collect());
        if code == "de" {
            let name = format!("words-de-{}.png", view.replace(' ', "-"));
            browser.shoot(&shot(&name))?;
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
    if !Engine::asked().lacks(Need::Midi) {
        plug_in(&browser)?;
    }
    let english = texts(&browser, "en")?;
    ensure!(english.iter().all(|view| view.len() > 150), "the views hold almost nothing");
    let mut left = Vec::new();
    for (code, alike) in ALIKE {
        let views = views();
        for ((view, ..), (english, other)) in
            views.iter().zip(english.iter().zip(texts(&browser, code)?))
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
