//! Practising on the real page: it follows a player from chord to chord and tells
//! what is wrong, keeps what was played, asks what is due and what the ear tells.

use anyhow::{Context, Result, ensure};
use tastata::bass::{OctaveRun, octave};
use tastata::files::encode;
use tastata::lesson::KeyEvent;
use tastata::pitch::{Key, Tonality};
use tastata::reading::read;
use tastata::sketch::{Sketch, SketchNote};
use tastata_tests::lesson::{Draw, sketch};
use tastata_tests::midi_keys::{bytes, play_midi, visit_with_keys};
use tastata_tests::player::{HUMAN, Manner, roll};
use tastata_tests::room::{hidden, press, text, type_bass};
use tastata_tests::visit::{SIZES, quiet, visit, visit_by_touch};
use tastata_tests::{Browser, Engine, Need, Pointer, page};

const BASS: &str = "C major: C3 D3 E3 F3 G3 C3";

fn begin(browser: &Browser, what: &str) -> Result<()> {
    press(browser, "practise")?;
    press(browser, what)
}

fn strike(browser: &Browser, key: Key) -> Result<()> {
    tastata_tests::room::strike(browser, key, Pointer::Mouse)
}

fn ready(fragment: &str) -> Result<Browser> {
    visit(SIZES[2], fragment)
}

#[test]
fn the_page_follows_a_player_and_waits() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let piece = sketch(BASS);
    let browser = ready(&encode(&piece))?;
    begin(&browser, "practise-along")?;
    let said = || text(&browser, "along-said");
    ensure!(said()?.starts_with("Chord 1 of 6."), "{}", said()?);
    // A wrong key leads nowhere.
    strike(&browser, Key::clamped(47))?;
    ensure!(said()?.starts_with("Chord 1 of 6."), "{}", said()?);
    let handfuls = read(&piece).hands.handfuls;
    for (i, handful) in handfuls.iter().enumerate() {
        for pitch in handful.left.iter().chain(&handful.right) {
            strike(&browser, pitch.key().context("no key")?)?;
        }
        if i + 1 < handfuls.len() {
            let wanted = format!("Chord {} of 6.", i + 2);
            ensure!(said()?.starts_with(&wanted), "{} for {wanted}", said()?);
        }
    }
    ensure!(said()? == "All is played, without a fault.", "{}", said()?);
    press(&browser, "along-keep")?;
    ensure!(hidden(&browser, "along")?);
    // Every soprano note is now the player's own.
    browser.click("#staff [data-part=bass][data-chord='2'] path:first-of-type")?;
    ensure!(browser.eval("document.getElementById('pin').getAttribute('aria-pressed')")? == "true");
    quiet(&browser)
}

#[test]
fn a_bad_move_is_told_when_it_is_made() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = ready(&encode(&sketch("C major: C3:5/3 D3:5/3")))?;
    begin(&browser, "practise-along")?;
    // Two triads side by side: fifths and octaves in a row.
    for key in [48, 52, 55, 60, 50, 53, 57, 62] {
        strike(&browser, Key::clamped(key))?;
    }
    let told = text(&browser, "along-faults")?;
    ensure!(told.starts_with('✕'), "nothing was told: {told:?}");
    ensure!(text(&browser, "along-said")?.starts_with("All is played, with "));
    quiet(&browser)
}

#[test]
fn drills_and_the_ear_ask_tell_and_come_back() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = ready("")?;
    let own = browser.eval("document.getElementById('bass').value")?;
    begin(&browser, "practise-drill")?;
    ensure!(text(&browser, "desk-said")?.starts_with("5 things due"));
    let choices = "document.querySelectorAll('#desk-choices button').length";
    ensure!(browser.eval(choices)?.as_u64() > Some(1), "nothing to choose among");
    browser.click("#desk-choices button:first-child")?;
    // The choices are gone; the keyboard is where it goes on.
    let at = browser.eval("document.activeElement.id")?;
    ensure!(at == "desk-missed" || at == "desk-known", "the focus is on {at}");
    let marks = "[...document.querySelectorAll('#desk-choices button')].filter(b => b.textContent.startsWith('✓')).length";
    ensure!(browser.eval(marks)? == 1, "the right answer is not marked");
    press(&browser, "desk-missed")?;
    ensure!(text(&browser, "desk-said")?.starts_with("5 things due"), "a miss comes again");
    let deck = browser.eval("localStorage.getItem('tastata.deck')")?;
    ensure!(deck.as_str().is_some_and(|deck| deck.lines().count() == 5), "{deck}");
    press(&browser, "desk-leave")?;

    begin(&browser, "practise-ear-cadence")?;
    let notes = "document.querySelectorAll('#staff [data-part=bass]').length";
    ensure!(browser.eval(notes)? == 0, "the staff tells what the ear should");
    browser.click("#desk-choices button:first-child")?;
    ensure!(browser.eval(notes)?.as_u64() > Some(1), "the answer is not shown");
    press(&browser, "desk-next")?;
    press(&browser, "desk-leave")?;

    begin(&browser, "practise-keys")?;
    let task = text(&browser, "desk-task")?;
    press(&browser, "desk-next")?;
    ensure!(text(&browser, "desk-task")? != task, "the key does not change");
    ensure!(!hidden(&browser, "along")?, "the next key does not begin");
    press(&browser, "desk-leave")?;
    ensure!(
        browser.eval("document.getElementById('bass').value")? == own,
        "the own sketch is gone"
    );
    quiet(&browser)
}

/// The number of the chord that is waited for.
fn chord(said: &str) -> Option<usize> {
    said.strip_prefix("Chord ")?.split(' ').next()?.parse().ok()
}

/// A player on a MIDI keyboard, as people play: any order over the bass, strokes
/// repeated, keys left early, foreign keys grazed, the pedal. The page asks for the
/// keyboard only when told to, never skips a chord and never waits for one that was
/// played; a wrong sonority held leads nowhere.
#[test]
fn a_player_on_a_midi_keyboard_is_followed() -> Result<()> {
    if Engine::asked().is_skipped() || Engine::asked().lacks(Need::Midi) {
        return Ok(());
    }
    let home = Tonality::parse("D minor").context("a key")?;
    let piece = Sketch {
        tonality: Some(home),
        notes: octave(home, OctaveRun::Up, None).into_iter().map(SketchNote::bare).collect(),
        ..Sketch::default()
    };
    let reading = read(&piece);
    let count = reading.harmony.chords.len();
    let browser = visit_with_keys(SIZES[2], &encode(&piece))?;
    begin(&browser, "practise-along")?;
    press(&browser, "along-stop")?;
    ensure!(browser.eval("window.midiAsked")? == 0, "the page asks without being told to");
    press(&browser, "practise")?;
    press(&browser, "practise-midi")?;
    browser.wait_for(
        "document.getElementById('practise-midi').getAttribute('aria-pressed') === 'true'",
    )?;
    ensure!(browser.eval("window.midiAsked")? == 1);
    press(&browser, "practise-along")?;

    let (mut draw, mut old, mut events_played) = (Draw(41), Vec::new(), 0);
    for (i, handful) in reading.hands.handfuls.iter().enumerate() {
        let chord_of = &reading.harmony.chords[i];
        let next = reading.harmony.chords.get(i + 1);
        let is_tone = |chord: &tastata::harmony::Chord, key: &Key| {
            chord.tones.iter().any(|t| t.class.chroma() == key.number() % 12)
        };
        let foreign: Vec<Key> = (50..76)
            .filter_map(Key::new)
            .filter(|key| !is_tone(chord_of, key) && next.is_none_or(|it| !is_tone(it, key)))
            .collect();
        let keys: Vec<Key> =
            handful.left.iter().chain(&handful.right).filter_map(|it| it.key()).collect();

        // First all that is right and one foreign key held: nothing moves.
        if i == 2 {
            for key in old.drain(..) {
                play_midi(&browser, &[bytes(0, KeyEvent::Up(key))])?;
            }
            let wrong = draw.of(&foreign);
            let mut all = vec![bytes(0, KeyEvent::Down(wrong))];
            all.extend(keys.iter().map(|&key| bytes(40, KeyEvent::Down(key))));
            let said = play_midi(&browser, &all)?;
            let last = said.last().context("nothing was said")?;
            ensure!(chord(last) == Some(i + 1), "a wrong sonority was taken: {last}");
            ensure!(last.contains("not belong"), "{last}");
            let mut up: Vec<_> = keys.iter().map(|&key| bytes(0, KeyEvent::Up(key))).collect();
            up.push(bytes(0, KeyEvent::Up(wrong)));
            let said = play_midi(&browser, &up)?;
            let here = said.iter().all(|it| chord(it).is_none_or(|it| it <= i + 2));
            ensure!(here, "the page skips ahead: {said:?}");
        }

        let manner = Manner { pedal: i % 2 == 1, rest: 300, ..HUMAN };
        let (events, _, down) = roll(&mut draw, manner, &keys, &old, &foreign, 0);
        old = down;
        let events: Vec<_> = events.into_iter().map(|(at, it)| bytes(at, it)).collect();
        events_played += events.len();
        let said = play_midi(&browser, &events)?;
        for line in &said {
            let at = chord(line).unwrap_or(count + 1);
            ensure!(at == i + 1 || at == i + 2, "chord {}: {line}", i + 1);
        }
        let last = said.last().context("nothing was said")?;
        ensure!(chord(last).unwrap_or(count + 1) == i + 2, "chord {} was played: {last}", i + 1);
    }
    ensure!(events_played > 60, "{events_played} events");
    ensure!(text(&browser, "along-said")?.starts_with("All is played"));
    press(&browser, "along-keep")?;
    quiet(&browser)
}

/// A bass is played in on a MIDI keyboard, note by note.
#[test]
fn a_bass_is_played_in() -> Result<()> {
    if Engine::asked().is_skipped() || Engine::asked().lacks(Need::Midi) {
        return Ok(());
    }
    let browser = visit_with_keys(SIZES[2], "")?;
    type_bass(&browser, "C3")?;
    press(&browser, "practise")?;
    press(&browser, "practise-midi")?;
    press(&browser, "practise-close")?;
    browser.click("[data-keys=add]")?;
    let notes = [50, 52, 53, 55, 48].into_iter().enumerate();
    let events: Vec<[u64; 4]> = notes
        .flat_map(|(i, key)| {
            let at = 180 * i as u64;
            let key = Key::clamped(key);
            [bytes(at, KeyEvent::Down(key)), bytes(at + 120, KeyEvent::Up(key))]
        })
        .collect();
    play_midi(&browser, &events)?;
    ensure!(text(&browser, "bass")? == "C3 D3 E3 F3 G3 C3", "{}", text(&browser, "bass")?);
    quiet(&browser)
}

/// Where a browser has no MIDI the page says so, and the keys of the screen do.
#[test]
fn without_midi_the_page_says_so() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(Engine::asked())?;
    browser.size(820, 1180)?;
    browser.run_first("delete Navigator.prototype.requestMIDIAccess;")?;
    browser.open_page(page()?, "")?;
    press(&browser, "practise")?;
    press(&browser, "practise-midi")?;
    browser.wait_for("!document.getElementById('notice').hidden")?;
    let said = text(&browser, "notice-text")?;
    ensure!(said.contains("MIDI"), "{said}");
    quiet(&browser)
}

/// On a phone, where the keys in view are few, the window goes where the player must
/// strike next: the bass, then up to the soprano, then the next bass.
#[test]
fn the_keys_of_a_phone_follow_the_player() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let piece = sketch(BASS);
    let browser = visit_by_touch(SIZES[0], &encode(&piece))?;
    press(&browser, "share")?;
    press(&browser, "practise-here")?;
    press(&browser, "practise-along")?;
    let handfuls = read(&piece).hands.handfuls;
    for (i, handful) in handfuls.iter().enumerate() {
        for pitch in handful.left.iter().chain(&handful.right) {
            let key = pitch.key().context("no key")?;
            // Found without moving the window: the page has brought it into view.
            tastata_tests::room::strike(&browser, key, Pointer::Finger)
                .with_context(|| format!("chord {}, {pitch}", i + 1))?;
        }
        if i + 1 < handfuls.len() {
            let said = text(&browser, "along-said")?;
            ensure!(said.starts_with(&format!("Chord {} of 6.", i + 2)), "{said}");
        }
    }
    ensure!(text(&browser, "along-said")? == "All is played, without a fault.");
    quiet(&browser)
}
