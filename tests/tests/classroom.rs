//! A classroom with real pages: a teacher makes a set of three exercises, thirty
//! students, each in a browser of their own with a profile of its own, open its QR
//! code and answer right, wrong in known ways, in part or not at all, and the
//! teacher's table says exactly that. Names and texts of every kind stay text.
//! Smaller classes do the same in the other engines.

use anyhow::{Context, Result, ensure};
use serde_json::json;
use tastata::bass::print_bass;
use tastata::files::{Linked, open};
use tastata::frame::Rule;
use tastata::lesson::Set;
use tastata::sketch::Sketch;
use tastata_tests::lesson::{sketch, with_soprano};
use tastata_tests::room::{
    BASE, Seat, add_exercise, choose, choose_base, choose_chord, hand_in, press, read_screen, text,
    type_bass, write,
};
use tastata_tests::visit::visit_as;
use tastata_tests::{Browser, Engine, Need, Taste, page};

const BASS: &str = "C major: C3 D3 E3 F3 G3 C3";
const FIGURED: &str = "C major: C3:5/3 D3:6 E3:6 F3:5/3 G3:5/3 C3:5/3";
/// Chords that stand in no version of the octave rule.
const WRONG: [&str; 6] = ["C3:7/4/2", "D3:9", "E3:5/4", "F3:6/4", "G3:9/4", "C3:7/2"];
const TASK: &str = "Sing it first. <img src=x onerror=\"document.title='broken'\">";
const HINT: &str = "<script>document.title='broken'</script> Begin on the third.";

/// Two fifths in a row between the first chords, and nothing else.
fn faulty() -> Sketch {
    let bass = sketch("C major: C3:5/3 D3:5/3 E3:6 F3:5/3 G3:5/3 C3:5/3");
    with_soprano(bass, "G4 A4 G4 A4 B4 C5")
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Right,
    WrongFigures(usize),
    Fifths,
    MissesFault,
    /// Figures the first notes and does nothing else.
    Half(usize),
    Blank,
}

impl Kind {
    /// What the teacher's table must say of each exercise, all faults, all minutes.
    fn truth(self) -> ([String; 3], usize, usize) {
        let done = || "done".to_owned();
        let blank = || "not begun".to_owned();
        let faults = |n: usize| match n {
            1 => "not done yet, 1 fault".to_owned(),
            n => format!("not done yet, {n} faults"),
        };
        match self {
            Kind::Right => ([done(), done(), done()], 0, 6),
            Kind::WrongFigures(n) => ([faults(n), done(), done()], n, 6),
            Kind::Fifths => ([done(), faults(1), done()], 1, 6),
            // One fault missed, one place named where there is none.
            Kind::MissesFault => ([done(), done(), faults(2)], 2, 6),
            Kind::Half(n) => ([format!("not done yet, {} to do", 6 - n), blank(), blank()], 0, 2),
            Kind::Blank => ([blank(), blank(), blank()], 0, 0),
        }
    }
}

const CLASS: [(&str, Kind); 30] = [
    ("Ada", Kind::Right),
    ("Bo", Kind::WrongFigures(1)),
    ("<img src=x onerror=\"document.title='broken'\">", Kind::Fifths),
    ("=1+1", Kind::MissesFault),
    ("Émile, the \"2nd\"", Kind::Blank),
    ("</td></tr><script>document.title='broken'</script>", Kind::Right),
    ("Gus", Kind::WrongFigures(3)),
    ("Hua 華", Kind::Fifths),
    ("Ida", Kind::MissesFault),
    ("Jo", Kind::Blank),
    ("Kim", Kind::Right),
    ("Lou", Kind::WrongFigures(2)),
    ("Max", Kind::Half(3)),
    ("Nils", Kind::Right),
    ("Ole", Kind::Blank),
    ("Pia", Kind::Fifths),
    ("Quirin", Kind::Half(1)),
    ("Rosa", Kind::WrongFigures(4)),
    ("Sam", Kind::MissesFault),
    ("Tom & Tim", Kind::Right),
    ("Ute", Kind::Blank),
    ("Vera", Kind::WrongFigures(1)),
    ("Wim", Kind::Half(5)),
    ("Xaver", Kind::Fifths),
    ("Yun", Kind::Right),
    ("Zoë", Kind::MissesFault),
    ("مريم", Kind::Right),
    ("Anna\u{202e}annA", Kind::WrongFigures(5)),
    ("O'Neil; DROP", Kind::Half(2)),
    ("@SUM(A1)", Kind::Fifths),
];

/// One of each kind, for the other engines.
const FEW: [(&str, Kind); 6] = [
    ("Ada", Kind::Right),
    ("Bo", Kind::WrongFigures(2)),
    ("<img src=x onerror=\"document.title='broken'\">", Kind::Fifths),
    ("=1+1", Kind::MissesFault),
    ("Max", Kind::Half(3)),
    ("Jo", Kind::Blank),
];

/// Stops the page's clock, so that the time of making is what the test says.
fn stop_clock(browser: &Browser) -> Result<()> {
    let body = "window.clock = 1.8e12; window.Date.now = () => window.clock;";
    browser.run(body, &json!([])).map(drop)
}

fn seconds_pass(browser: &Browser, seconds: u32) -> Result<()> {
    browser.run("window.clock += 1000 * arguments[0];", &json!([seconds])).map(drop)
}

/// Opens the set as a person new to it, answers, hands in; gives the answer link.
fn answer(browser: &Browser, link: &str, set: &Set, name: &str, kind: Kind) -> Result<String> {
    browser.open_page(page()?, "")?;
    ensure!(browser.eval("localStorage.length")? == 0, "the profile is not a new one");
    stop_clock(browser)?;
    choose_base(browser)?;
    browser.run("location.hash = arguments[0];", &json!([link]))?;
    browser.wait_for("!document.getElementById('desk').hidden")?;
    if kind != Kind::Blank {
        // A minute and a half on the first exercise.
        seconds_pass(browser, 90)?;
        let model = set.exercises[0].model.as_ref().context("no model")?;
        let right = print_bass(&model.sketch.notes, None);
        let given = print_bass(&set.exercises[0].sketch.notes, None);
        let (wrong, right_until) = match kind {
            Kind::WrongFigures(count) => (count, 6),
            Kind::Half(count) => (0, count),
            _ => (0, 6),
        };
        let notes = right.split(' ').zip(given.split(' ')).enumerate();
        let notes = notes.map(|(i, (right, given))| match i {
            i if i < wrong => WRONG[i],
            i if i < right_until => right,
            _ => given,
        });
        type_bass(browser, &notes.collect::<Vec<_>>().join(" "))?;
        if kind == Kind::Right {
            soft_words(browser, &right)?;
        }
    }
    if !matches!(kind, Kind::Blank | Kind::Half(_)) {
        press(browser, "desk-after")?;
        ensure!(text(browser, "desk-task")?.starts_with(TASK), "the task is not told as it is");
        press(browser, "desk-hint")?;
        ensure!(text(browser, "desk-hints")? == HINT, "the hint is not told as it is");
        choose_chord(browser, 0)?;
        seconds_pass(browser, 61)?;
        let soprano = match kind {
            // Over F, G and C the octave and the fifth above: consecutive fifths.
            Kind::Fifths => [64, 65, 67, 72, 74, 76],
            _ => [64, 65, 67, 69, 71, 72],
        };
        for key in soprano {
            browser.click(&format!("#k{key}"))?;
        }

        press(browser, "desk-after")?;
        let (chord, rule) = match kind {
            Kind::MissesFault => (4, Rule::ConsecutiveOctaves),
            _ => (1, Rule::ConsecutiveFifths),
        };
        choose_chord(browser, chord)?;
        let number = Rule::ALL.iter().position(|it| *it == rule).context("no such rule")?;
        choose(browser, "desk-rule", &number.to_string())?;
        // Nobody is charged for the hour away from the keys: two minutes at most.
        seconds_pass(browser, 3600)?;
        press(browser, "desk-found")?;
    }
    hand_in(browser, name)
}

/// On the way to a right answer one chord is wrong for a moment: the page first
/// tells the place and kind, then a hint, then what belongs there.
fn soft_words(browser: &Browser, right: &str) -> Result<()> {
    let wrong = right.replacen(right.split(' ').nth(1).context("a note")?, "D3:9", 1);
    type_bass(browser, &wrong)?;
    press(browser, "desk-check")?;
    let said = "#report-list .fault span:last-child";
    let line = || browser.eval(&format!("document.querySelector('{said}').textContent"));
    ensure!(line()? == "Note 2: this chord does not belong here.", "{}", line()?);
    browser.click("#report-list [data-more]")?;
    // The keyboard's focus stays at what is told.
    let at = "document.activeElement.closest('#report-list .fault') !== null";
    ensure!(browser.eval(at)? == true, "the focus is lost");
    let advice = browser.eval("document.querySelector('#report-list .detail p').textContent")?;
    ensure!(advice.as_str().is_some_and(|it| it.contains("where the bass goes")), "{advice}");
    ensure!(line()? == "Note 2: this chord does not belong here.", "{}", line()?);
    browser.click("#report-list [data-more]")?;
    ensure!(
        line()?.as_str().is_some_and(|it| it.starts_with("Note 2: 9 does not belong here; ")),
        "{}",
        line()?
    );
    type_bass(browser, right)
}

/// A row of the table as it is shown: the name, the cells, all faults, all minutes.
type Shown = (String, Vec<String>, String, String);

/// The table as the page shows it: the names, the cells, the faults, the minutes.
fn table(browser: &Browser) -> Result<Vec<Shown>> {
    let rows = browser.eval(
        "[...document.querySelectorAll('#class-table tbody tr')].map(row =>
           [...row.querySelectorAll('th, td')].map(cell => cell.textContent).concat(
           [...row.querySelectorAll('.cell')].map(cell => cell.getAttribute('aria-label'))))",
    )?;
    let rows = rows.as_array().context("no rows")?.iter().map(|row| {
        let cells = row.as_array().context("no cells")?.iter();
        let cells: Vec<String> =
            cells.filter_map(|cell| cell.as_str()).map(str::to_owned).collect();
        ensure!(cells.len() == 10, "{} texts in a row", cells.len());
        let said = cells[7..].iter().enumerate().map(|(i, label)| {
            let label = label.strip_prefix(&format!("Exercise {}, ", i + 1)).unwrap_or(label);
            label.strip_suffix(": hear it").unwrap_or(label).to_owned()
        });
        Ok((cells[0].clone(), said.collect(), cells[4].clone(), cells[5].clone()))
    });
    rows.collect()
}

fn nothing_ran(browser: &Browser) -> Result<()> {
    ensure!(browser.eval("document.title")? == "Tastata", "a text ran as a script");
    let alive = "document.querySelectorAll('#desk img, #comments img, #class-table img, #desk script, #comments script, #class-table script').length";
    ensure!(browser.eval(alive)? == 0, "a text became an element");
    let complaints = browser.complaints()?;
    ensure!(complaints.is_empty(), "{complaints:?}");
    Ok(())
}

/// Makes the set and hands it out; gives the address in the QR code, as a library
/// of others reads it off the screen.
fn make_set(teacher: &Browser) -> Result<String> {
    teacher.size(1920, 1080)?;
    teacher.open_page(page()?, "")?;
    choose_base(teacher)?;
    let any = [("ask-motion", "any")];
    add_exercise(teacher, &sketch(BASS), "figures", "", HINT, &[])?;
    add_exercise(teacher, &sketch(FIGURED), "soprano", TASK, HINT, &any)?;
    add_exercise(teacher, &faulty(), "find", "", HINT, &[])?;
    press(teacher, "teach")?;
    teacher.click("[data-room=set]")?;
    press(teacher, "set-pass")?;
    let address = text(teacher, "pass-link")?;
    ensure!(address.starts_with(BASE), "{address}");
    press(teacher, "pass-large")?;
    let sizes = [(1920, 1080, Seat::BackRow), (820, 1180, Seat::Near), (360, 740, Seat::Near)];
    for (width, height, seat) in sizes {
        teacher.size(width, height)?;
        let read = read_screen(teacher, seat).with_context(|| format!("{width} by {height}"))?;
        ensure!(read == address, "the QR code says {read}");
    }
    teacher.size(1920, 1080)?;
    press(teacher, "qr-large-close")?;
    press(teacher, "pass-close")?;
    Ok(address)
}

fn teach(engine: Engine, class: &[(&str, Kind)]) -> Result<()> {
    let teacher = Browser::start(engine)?;
    let address = make_set(&teacher)?;
    let Linked::Set(set) = open(&address).map_err(|error| anyhow::anyhow!("{error:?}"))? else {
        anyhow::bail!("the link holds no set")
    };
    let link = address.rsplit('#').next().unwrap_or_default();

    let mut answers = Vec::new();
    for (name, kind) in class {
        let student = Browser::start(engine)?;
        student.size(1920, 1080)?;
        let told = || format!("{name}, {kind:?}");
        answers.push(answer(&student, link, &set, name, *kind).with_context(told)?);
        nothing_ran(&student).with_context(told)?;
    }

    teacher.click("[data-room=collect]")?;
    let cut = &answers[0][..answers[0].len() - 9];
    write(&teacher, "class-links", &format!("{}\n{cut}", answers.join("\n")))?;
    press(&teacher, "class-read")?;
    let all = class.len() + 1;
    teacher.wait_for(&format!(
        "document.querySelectorAll('#class-table tbody tr').length === {all}"
    ))?;
    choose(&teacher, "class-sort", "link")?;
    let unusable = teacher
        .eval("document.querySelector('#class-table tbody tr:last-child .remark').textContent")?;
    ensure!(unusable.as_str().is_some_and(|said| said.contains("cut short")), "{unusable}");
    teacher
        .run("document.querySelector('#class-table tbody tr:last-child').remove()", &json!([]))?;
    let rows = table(&teacher)?;
    ensure!(rows.len() == class.len());
    for ((name, cells, faults, minutes), (wanted, kind)) in rows.into_iter().zip(class) {
        let truth = kind.truth();
        ensure!(name == *wanted, "{name} stands for {wanted}");
        ensure!(cells == truth.0, "{name}, {kind:?}: the table says {cells:?}");
        ensure!(faults == truth.1.to_string(), "{name}, {kind:?}: {faults} faults");
        ensure!(minutes == truth.2.to_string(), "{name}, {kind:?}: {minutes} minutes");
    }
    let most = class.iter().max_by_key(|(_, kind)| kind.truth().1).context("a class")?;
    choose(&teacher, "class-sort", "faults")?;
    let first = teacher.eval("document.querySelector('#class-table tbody th').textContent")?;
    ensure!(first == most.0, "{first} has the most faults");
    csv_is_copied(&teacher, class)?;
    nothing_ran(&teacher)?;

    // The one with the most faults is opened, commented and told.
    teacher.click("#class-table tbody tr:first-child td:last-child button")?;
    let name = serde_json::to_string(most.0)?;
    teacher.wait_for(&format!(
        "document.getElementById('desk-title').textContent.startsWith({name})"
    ))?;
    write(&teacher, "comment-text", HINT)?;
    press(&teacher, "comment-whole")?;
    choose_chord(&teacher, 2)?;
    write(&teacher, "comment-text", "Which degree is this?")?;
    press(&teacher, "comment-chord")?;
    press(&teacher, "desk-send-back")?;
    write(&teacher, "pass-name", "M. T.")?;
    press(&teacher, "pass-make")?;
    let back = text(&teacher, "pass-link")?;
    let back = back.rsplit('#').next().unwrap_or_default();
    let student = Browser::start(engine)?;
    student.open_page(page()?, back)?;
    let said = text(&student, "comments")?;
    ensure!(said == format!("M. T.: {HINT}M. T.: Chord 3: Which degree is this?"), "{said}");
    nothing_ran(&student)
}

/// The table goes to the clipboard as comma-separated values, whole and harmless to
/// a spreadsheet. What the page hands to the clipboard is caught on its way.
fn csv_is_copied(teacher: &Browser, class: &[(&str, Kind)]) -> Result<()> {
    teacher.run(
        "Clipboard.prototype.writeText = text => { window.copied = text; return Promise.resolve(); };",
        &json!([]),
    )?;
    press(teacher, "class-csv")?;
    teacher.wait_for("window.copied")?;
    let csv = teacher.eval("window.copied")?;
    let csv = csv.as_str().context("no text")?;
    ensure!(csv.matches("\r\n").count() == class.len() + 2, "{csv}");
    ensure!(csv.contains("\r\n'=1+1,"), "a name is taken for a formula: {csv}");
    Ok(())
}

#[test]
fn a_class_is_taught_from_set_to_comments() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let few = Engine::asked().lacks(Need::Haste);
    teach(Engine::asked(), if few { &FEW } else { &CLASS })
}

/// A code stays dark on light where all else is light on dark.
#[test]
fn the_code_is_read_in_the_dark() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let teacher = visit_as(Taste::Dark, (820, 1180))?;
    let dark = teacher.eval("matchMedia('(prefers-color-scheme: dark)').matches")?;
    ensure!(dark == true, "The page is not shown dark");
    choose_base(&teacher)?;
    add_exercise(&teacher, &sketch(BASS), "figures", "", HINT, &[])?;
    press(&teacher, "teach")?;
    teacher.click("[data-room=set]")?;
    press(&teacher, "set-pass")?;
    let address = text(&teacher, "pass-link")?;
    press(&teacher, "pass-large")?;
    ensure!(read_screen(&teacher, Seat::Near)? == address, "the QR code says something else");
    Ok(())
}

#[test]
fn a_link_never_takes_the_own_sketch_away() -> Result<()> {
    if Engine::asked().is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(Engine::asked())?;
    browser.size(820, 1180)?;
    browser.open_page(page()?, "")?;
    type_bass(&browser, "G3 D3 G2")?;
    let exercise = tastata::lesson::make(&sketch(BASS), vec![tastata::lesson::Ask::Free]);
    let set = Set { title: "Week 1".to_owned(), exercises: vec![exercise], ..Set::default() };
    let link = tastata::files::encode_set(&set);
    let bass = |browser: &Browser| text(browser, "bass");

    // Damaged, cut, foreign, from a later version: told, and nothing changes.
    let mut damaged = link.clone();
    damaged.replace_range(20..21, if &link[20..21] == "A" { "B" } else { "A" });
    let newer = link.replacen("x1", "x9", 1);
    for bad in [damaged.as_str(), &link[..link.len() - 6], "x1", "nonsense", newer.as_str()] {
        browser.run("location.hash = arguments[0];", &json!([bad]))?;
        browser.wait_for("!document.getElementById('notice').hidden")?;
        ensure!(bass(&browser)? == "G3 D3 G2", "{bad} changed the sketch");
        ensure!(browser.eval("document.getElementById('desk').hidden")? == true);
        press(&browser, "notice-close")?;
    }

    browser.run("location.hash = arguments[0];", &json!([link]))?;
    browser.wait_for("!document.getElementById('desk').hidden")?;
    type_bass(&browser, "C3 F3 C3")?;
    press(&browser, "desk-leave")?;
    ensure!(bass(&browser)? == "G3 D3 G2", "the own sketch is gone");
    browser.reload()?;
    ensure!(bass(&browser)? == "G3 D3 G2", "the own sketch was not kept");
    browser.run("location.hash = arguments[0];", &json!([link]))?;
    browser.wait_for("!document.getElementById('desk').hidden")?;
    ensure!(bass(&browser)? == "C3 F3 C3", "the work was not kept");
    browser.reload()?;
    ensure!(bass(&browser)? == "C3 F3 C3", "the work was not kept over a reload");
    let complaints = browser.complaints()?;
    ensure!(complaints.is_empty(), "{complaints:?}");
    Ok(())
}
