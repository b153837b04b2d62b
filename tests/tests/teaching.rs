//! Every kind of task on the real page, made by a teacher and done by a student with
//! a profile of their own: handfuls, a roll, other keys, a phrase to be finished,
//! free work. And hostile links, which are told and take nothing away.

use anyhow::{Context, Result, ensure};
use serde_json::json;
use tastata::files::{Linked, encode, encode_set, open};
use tastata::frame::Severity;
use tastata::hands::{Edit, Hand, edited};
use tastata::lesson::{
    Answer, Ask, Exercise, Hears, Model, MotionLimit, Set, check, close_chords, make,
};
use tastata::pitch::{Key, Tonality};
use tastata::reading::read;
use tastata::sketch::Sketch;
use tastata_tests::lesson::{sketch, with_soprano};
use tastata_tests::room::{
    add_exercise, choose, choose_base, choose_chord, hand_in, hidden, press, strike, text,
    type_bass, write,
};
use tastata_tests::visit::{SIZES, quiet, visit};
use tastata_tests::{Browser, Engine, Pointer, page};

const FIGURED: &str = "C major: C3:5/3 D3:6 E3:6 F3:5/3 G3:5/3 C3:5/3";

fn finished() -> Sketch {
    with_soprano(sketch(FIGURED), "E4 F4 G4 A4 B4 C5")
}

/// A teacher's page, and the set it hands out once this was made on it.
fn handed_out(make: impl Fn(&Browser) -> Result<()>) -> Result<(String, Set)> {
    let teacher = visit(SIZES[1], "")?;
    choose_base(&teacher)?;
    make(&teacher)?;
    press(&teacher, "teach")?;
    teacher.click("[data-room=set]")?;
    let warnings = "document.querySelectorAll('#set-list .warning').length";
    ensure!(teacher.eval(warnings)? == 0, "the page warns: {}", text(&teacher, "set-list")?);
    press(&teacher, "set-pass")?;
    let address = text(&teacher, "pass-link")?;
    quiet(&teacher)?;
    match open(&address) {
        Ok(Linked::Set(set)) => {
            Ok((address.rsplit('#').next().unwrap_or_default().to_owned(), set))
        }
        other => anyhow::bail!("{other:?}"),
    }
}

fn student(link: &str) -> Result<Browser> {
    let student = visit(SIZES[1], link)?;
    student.wait_for("!document.getElementById('desk').hidden")?;
    choose_base(&student)?;
    Ok(student)
}

/// Asks for a check and says what it says.
fn checked(student: &Browser) -> Result<String> {
    press(student, "desk-check")?;
    text(student, "desk-said")
}

/// Hands in and has the answer graded without a browser.
fn graded(student: &Browser, set: &Set) -> Result<bool> {
    let link = hand_in(student, "Ada")?;
    let Ok(Linked::HandIn(it)) = open(&link) else { anyhow::bail!("no hand-in: {link}") };
    ensure!(it.set == *set && it.student == "Ada");
    let answer = it.answers[0].as_ref().context("no answer")?;
    Ok(check(&set.exercises[0], answer).is_done())
}

/// A key for each chord that, added to the close chord, makes a good handful: found
/// by trying, and judged by the same check that the page uses.
fn keys_to_add(exercise: &Exercise) -> Vec<Key> {
    let reading = read(&exercise.sketch);
    let chords = &reading.harmony.chords;
    let mut answer = exercise.sketch.clone();
    let mut keys = Vec::new();
    for (i, close) in close_chords(chords, &reading.frame.soprano).iter().enumerate() {
        let bass = close.left[0];
        let fits = (3..=12).find_map(|up| {
            let key = Key::new(bass.semitones() + up)?;
            let tone = chords[i].tones.iter().find(|t| t.class.chroma() == key.number() % 12)?;
            let spelled = exercise.sketch.tonality?.spell(key);
            let pitch = tone.class.nearest(spelled);
            // The left hand is the emptier one, so a key within its octave is its own.
            if close.right.iter().any(|it| it.semitones() <= pitch.semitones()) {
                return None;
            }
            let handful = edited(close, &chords[i], Edit::Add { hand: Hand::Left, pitch });
            let mut tried = answer.clone();
            tried.notes[i].handfuls = vec![Some(handful)];
            let report = check(exercise, &Answer { sketch: tried.clone(), ..Answer::default() });
            let mut here = report.findings().filter(|it| it.chords.is_some_and(|(_, to)| to == i));
            let wrong = here.any(|it| it.severity == Severity::Fault);
            (!wrong).then_some((key, tried))
        });
        let (key, tried) = fits.unwrap_or_else(|| panic!("no note for chord {i}: {close:?}"));
        answer = tried;
        keys.push(key);
    }
    keys
}

#[test]
fn close_chords_are_opened() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let (link, set) =
        handed_out(|teacher| add_exercise(teacher, &finished(), "handfuls", "", "", &[]))?;
    let student = student(&link)?;
    ensure!(checked(&student)? == "Nothing has been done yet.", "{}", text(&student, "desk-said")?);
    for (i, key) in keys_to_add(&set.exercises[0]).into_iter().enumerate() {
        choose_chord(&student, i)?;
        strike(&student, key, Pointer::Finger)?;
        let said = checked(&student)?;
        let done = i == 5;
        ensure!(said.starts_with(if done { "Done." } else { "Not done yet." }), "{i}: {said}");
    }
    ensure!(graded(&student, &set)?);
    quiet(&student)
}

#[test]
fn chords_are_rolled() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let mut spicy = finished();
    spicy.roll.spice = 60;
    let (link, set) =
        handed_out(|teacher| add_exercise(teacher, &spicy, "roll", "", "", &[("ask-spice", "2")]))?;
    let student = student(&link)?;
    ensure!(checked(&student)? == "Nothing has been done yet.");
    student.run(
        "const it = document.getElementById('spice'); it.closest('details').open = true;
         it.value = 70; it.dispatchEvent(new Event('input', { bubbles: true }));
         it.dispatchEvent(new Event('change', { bubbles: true }));",
        &json!([]),
    )?;
    let said = checked(&student)?;
    ensure!(said.starts_with("Done."), "{said}");
    ensure!(graded(&student, &set)?);
    quiet(&student)
}

/// What is asked hides what would give it away, and a box that the teacher has ticked or cleared
/// stays as it is while more is asked.
#[test]
fn what_is_given_follows_what_is_asked_but_not_over_the_teacher() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let teacher = visit(SIZES[1], &encode(&finished()))?;
    press(&teacher, "teach")?;
    let given = |wanted: [bool; 4]| {
        let found = teacher.eval(
            "['figures', 'soprano', 'handfuls', 'roll'].map(it => document.getElementById(`give-${it}`).checked)",
        )?;
        ensure!(found == json!(wanted), "given: {found}, not {wanted:?}");
        Ok(())
    };
    given([false; 4])?;
    press(&teacher, "ask-roll")?;
    press(&teacher, "ask-figures")?;
    given([true, true, true, false])?;
    press(&teacher, "give-soprano")?;
    press(&teacher, "ask-handfuls")?;
    given([true, false, false, false])?;
    press(&teacher, "ask-handfuls")?;
    given([true, false, true, false])?;
    quiet(&teacher)
}

/// The piece in two other keys, played on the keys of the screen; only what is
/// played is seen.
#[test]
fn a_piece_is_played_in_other_keys() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let (link, set) = handed_out(|teacher| {
        write(teacher, "ask-keys-order", "D, Bb")?;
        add_exercise(teacher, &finished(), "keys", "", "", &[])
    })?;
    let keys: Vec<Tonality> = ["D", "Bb"].iter().filter_map(|it| Tonality::parse(it)).collect();
    ensure!(set.exercises[0].asks == [Ask::Keys(keys.clone())], "{:?}", set.exercises[0].asks);
    let student = student(&link)?;
    student.size(1920, 1080)?;
    let model = set.exercises[0].model.as_ref().context("no model")?;
    for key in keys {
        let names = student
            .eval("[...document.querySelectorAll('#desk-key option')].map(it => it.value)")?;
        let value = names.as_array().into_iter().flatten().filter_map(|it| it.as_str());
        let mut value = value;
        let value = value.rfind(|it| Tonality::parse(it) == Some(key));
        choose(&student, "desk-key", value.context("the key is not offered")?)?;
        let notes = "document.querySelectorAll('#staff [data-part=bass]').length";
        ensure!(student.eval(notes)? == 0, "the staff shows what is to be played");
        press(&student, "desk-play")?;
        let moved = read(&tastata::lesson::in_tonality(&model.sketch, key));
        for (i, handful) in moved.hands.handfuls.iter().enumerate() {
            for pitch in handful.left.iter().chain(&handful.right) {
                let key = pitch.key().context("no key")?;
                strike(&student, key, Pointer::Mouse)?;
            }
            if i == 2 {
                // The notes are not told, only how many there are to come.
                strike(
                    &student,
                    moved.harmony.chords[3].bass.key().context("bass")?,
                    Pointer::Mouse,
                )?;
                let said = text(&student, "along-said")?;
                ensure!(said.contains("still missing") && !said.contains("C♯"), "{said}");
            }
        }
        ensure!(text(&student, "along-said")?.starts_with("All is played"));
        press(&student, "along-keep")?;
        ensure!(hidden(&student, "along")?);
    }
    let said = checked(&student)?;
    ensure!(said.starts_with("Done."), "{said}: {}", text(&student, "report-list")?);
    ensure!(graded(&student, &set)?);
    quiet(&student)
}

#[test]
fn a_phrase_is_finished() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let whole = sketch("C major: C3:5/3 D3:6 E3:6 F3:5/3 G3:5/3-6/4-5/4-5/3 C3:5/3");
    let (link, set) = handed_out(|teacher| {
        add_exercise(teacher, &whole, "finish", "", "", &[("ask-cadence", "double")])
    })?;
    ensure!(set.exercises[0].sketch.notes.len() < 6, "the ending is given away");
    let student = student(&link)?;
    let given = text(&student, "bass")?;
    type_bass(&student, &format!("{given} G3:5/3 C3:5/3"))?;
    let said = checked(&student)?;
    ensure!(said.starts_with("Not done yet."), "{said}");
    type_bass(&student, &format!("{given} G3:5/3-6/4-5/4-5/3 C3:5/3"))?;
    let said = checked(&student)?;
    ensure!(said.starts_with("Done."), "{said}: {}", text(&student, "report-list")?);
    ensure!(graded(&student, &set)?);
    quiet(&student)
}

/// Figures by touch alone, on a phone: a note, a figure, the next note.
#[test]
fn figures_are_touched() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let given = sketch("C major: C3 D3 E3 F3 G3 C3");
    let (link, set) = handed_out(|teacher| add_exercise(teacher, &given, "figures", "", "", &[]))?;
    let student = student(&link)?;
    student.size(360, 740)?;
    student.have_touch_screen()?;
    choose_chord(&student, 0)?;
    let figures = ["5/3", "6", "6", "5/3", "5/3", "5/3"];
    for (i, figure) in figures.iter().enumerate() {
        student.press(&format!("#figure-keys [data-figures='{figure}']"), Pointer::Finger)?;
        if i + 1 < figures.len() {
            student.press("#strip-after", Pointer::Finger)?;
        }
    }
    student.press("#desk-check", Pointer::Finger)?;
    let said = text(&student, "desk-said")?;
    ensure!(said.starts_with("Done."), "{said}: {}", text(&student, "report-list")?);
    ensure!(graded(&student, &set)?);
    quiet(&student)
}

/// The model stays shut until it may be opened, and feedback comes when the teacher
/// chose it to.
#[test]
fn the_model_opens_and_feedback_comes_when_they_may() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let given = sketch("C major: C3 D3 E3 F3 G3 C3");
    let ending = [("make-feedback", "2"), ("make-opens", "0"), ("make-hears", "2")];
    let (link, _) =
        handed_out(|teacher| add_exercise(teacher, &given, "figures", "", "", &ending))?;
    let at_end = student(&link)?;
    ensure!(hidden(&at_end, "desk-check")? && hidden(&at_end, "desk-model")?);
    ensure!(!hidden(&at_end, "desk-hear-model")?, "the model may be heard");
    type_bass(&at_end, "C3:5/3 D3:9 E3:6 F3:5/3 G3:5/3 C3:5/3")?;
    ensure!(hidden(&at_end, "report")?, "faults are shown before the end");
    hand_in(&at_end, "Ada")?;
    ensure!(!hidden(&at_end, "report")?, "faults are not shown at the end");
    let said = text(&at_end, "report-list")?;
    ensure!(said.contains("Note 2: 9 does not belong here;"), "{said}");
    press(&at_end, "desk-model")?;
    ensure!(text(&at_end, "bass")?.contains("D3:"), "{}", text(&at_end, "bass")?);
    press(&at_end, "desk-model")?;
    ensure!(text(&at_end, "bass")?.contains("D3:9"), "the work is gone");
    quiet(&at_end)?;

    let live = [("make-feedback", "1"), ("make-opens", "1"), ("make-telling", "1")];
    let (link, _) = handed_out(|teacher| add_exercise(teacher, &given, "figures", "", "", &live))?;
    let live = student(&link)?;
    type_bass(&live, "C3:5/3 D3:9 E3:6 F3:5/3 G3:5/3 C3:5/3")?;
    let said = text(&live, "report-list")?;
    ensure!(said.contains("Note 2: this chord does not belong here."), "{said}");
    let more = live.eval("document.querySelectorAll('#report-list [data-more]').length")?;
    ensure!(more == 0, "the teacher allows no more than the place");
    ensure!(!hidden(&live, "desk-model")?, "the model may be opened after trying");
    quiet(&live)
}

/// Links made to do harm, and links broken on the way: each is told, runs nothing,
/// hangs nothing, and the own sketch and the work on the desk are what they were.
#[test]
fn hostile_links_do_no_harm() -> Result<()> {
    let engine = Engine::asked();
    if engine.is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(engine)?;
    browser.size(820, 1180)?;
    browser.open_page(page()?, "")?;
    type_bass(&browser, "G3 D3 G2")?;
    let good = encode_set(&markup_set());
    let mut bad: Vec<String> = vec![
        "x1".to_owned() + &"A".repeat(99_000),
        "x1".to_owned() + &"/".repeat(20_000),
        "a1AAAAAAAAAAAA".to_owned(),
        "c9zzzz".to_owned(),
        "<img src=x onerror=document.title='broken'>".to_owned(),
        "javascript:document.title='broken'".to_owned(),
        "%00%ff%3Cscript%3E".to_owned(),
        good[..good.len() / 2].to_owned(),
        good.replace('x', "a"),
    ];
    for at in (5..good.len() - 1).step_by(good.len() / 12) {
        let mut one = good.clone();
        one.replace_range(at..=at, if &good[at..=at] == "A" { "B" } else { "A" });
        bad.push(one);
    }
    for link in &bad {
        let short: String = link.chars().take(40).collect();
        browser.run("location.hash = arguments[0];", &json!([link]))?;
        browser
            .wait_for("!document.getElementById('notice').hidden")
            .with_context(|| format!("{short} is not told"))?;
        ensure!(text(&browser, "bass")? == "G3 D3 G2", "{short} changed the sketch");
        ensure!(hidden(&browser, "desk")?, "{short} put something on the desk");
        press(&browser, "notice-close")?;
    }

    // Texts that are markup stay text wherever they are shown.
    browser.run("location.hash = arguments[0];", &json!([good]))?;
    browser.wait_for("!document.getElementById('desk').hidden")?;
    ensure!(text(&browser, "desk-task")?.contains("<img src=x"), "the task is not shown as it is");
    press(&browser, "desk-hint")?;
    let alive =
        "document.querySelectorAll('#desk img, #desk script, #desk iframe, #desk a').length";
    ensure!(browser.eval(alive)? == 0, "a text became an element");
    type_bass(&browser, "C3 F3 C3")?;

    // Broken links and other people's links while work is on the desk.
    for link in [&bad[0], &bad[7], &encode(&sketch("A2 E3 A2"))] {
        browser.run("location.hash = arguments[0];", &json!([link]))?;
        std::thread::sleep(std::time::Duration::from_millis(300));
    }
    if !hidden(&browser, "desk")? {
        press(&browser, "desk-leave")?;
    }
    browser.run("location.hash = arguments[0];", &json!([good]))?;
    browser.wait_for("!document.getElementById('desk').hidden")?;
    ensure!(text(&browser, "bass")? == "C3 F3 C3", "the work is gone");
    ensure!(browser.eval("document.title")? == "Tastata", "a text ran as a script");

    // A thousand notes open, and the page answers.
    let long = sketch(&"C3 D3 E3 F3 ".repeat(250));
    let set = Set {
        title: String::new(),
        exercises: vec![make(&long, vec![Ask::Free]), Exercise::default()],
        ..Set::default()
    };
    browser.run("location.hash = arguments[0];", &json!([encode_set(&set)]))?;
    browser.wait_for("document.getElementById('bass').value.length > 2900")?;
    press(&browser, "desk-after")?;
    ensure!(text(&browser, "bass")?.is_empty());
    press(&browser, "desk-leave")?;
    quiet(&browser)
}

fn markup_set() -> Set {
    let evil =
        "<img src=x onerror=\"document.title='broken'\"><script>document.title='broken'</script>";
    let exercise = Exercise {
        task: evil.to_owned(),
        hints: vec![evil.to_owned()],
        sketch: Sketch { title: evil.to_owned(), ..sketch("C major: C3 F3 G3 C3") },
        asks: vec![Ask::Free, Ask::Soprano { position: None, motions: MotionLimit::Any }],
        hears: Hears::Model,
        model: Some(Model {
            sketch: Sketch { title: evil.to_owned(), ..sketch("C major: C3 F3 G3 C3") },
            opens: tastata::lesson::Opens::Anytime,
        }),
        ..Exercise::default()
    };
    Set { title: evil.to_owned(), exercises: vec![exercise], ..Set::default() }
}
