//! A classroom with real pages: a teacher makes a set of three exercises, students
//! open its QR code and answer right, wrong in known ways or not at all, and the
//! teacher's table says exactly that. Names and texts of every kind stay text.

use anyhow::{Context, Result, ensure};
use serde_json::json;
use tastata::bass::print_bass;
use tastata::files::{Linked, encode, open};
use tastata::frame::Rule;
use tastata::lesson::Set;
use tastata::sketch::Sketch;
use tastata_tests::lesson::{sketch, with_soprano};
use tastata_tests::{Browser, Engine, key, page};

const BASS: &str = "C major: C3 D3 E3 F3 G3 C3";
const FIGURED: &str = "C major: C3:5/3 D3:6 E3:6 F3:5/3 G3:5/3 C3:5/3";
/// Chords that stand in no version of the octave rule.
const WRONG: [&str; 6] = ["C3:7/4/2", "D3:9", "E3:5/4", "F3:6/4", "G3:9/4", "C3:7/2"];
const BASE: &str = "https://school.example/tastata.html";
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
    Blank,
}

impl Kind {
    /// What the teacher's table must say of each exercise, and all faults.
    fn truth(self) -> ([&'static str; 3], usize) {
        const DONE: &str = "▶ ✓ done";
        const ONE: &str = "▶ ✕ not done yet, 1 fault";
        const TWO: &str = "▶ ✕ not done yet, 2 faults";
        const THREE: &str = "▶ ✕ not done yet, 3 faults";
        match self {
            Kind::Right => ([DONE; 3], 0),
            Kind::WrongFigures(1) => ([ONE, DONE, DONE], 1),
            Kind::WrongFigures(_) => ([THREE, DONE, DONE], 3),
            Kind::Fifths => ([DONE, ONE, DONE], 1),
            // One fault missed, one place named where there is none.
            Kind::MissesFault => ([DONE, DONE, TWO], 2),
            Kind::Blank => (["▶ ○ not begun"; 3], 0),
        }
    }
}

const CLASS: [(&str, Kind); 12] = [
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
    ("Lou", Kind::WrongFigures(1)),
];

fn choose(browser: &Browser, id: &str, value: &str) -> Result<()> {
    let body = "const it = document.getElementById(arguments[0]); it.value = arguments[1];
                it.dispatchEvent(new Event('change', { bubbles: true })); return it.value;";
    let chosen = browser.run(body, &json!([id, value]))?;
    ensure!(chosen == value, "{id} has no {value}");
    Ok(())
}

fn write(browser: &Browser, id: &str, text: &str) -> Result<()> {
    let body = "document.getElementById(arguments[0]).value = arguments[1];";
    browser.run(body, &json!([id, text])).map(drop)
}

fn text(browser: &Browser, id: &str) -> Result<String> {
    let body =
        "const it = document.getElementById(arguments[0]); return it.value ?? it.textContent;";
    let text = browser.run(body, &json!([id]))?;
    text.as_str().map(str::to_owned).with_context(|| format!("{id} has no text"))
}

fn press(browser: &Browser, id: &str) -> Result<()> {
    browser.click(&format!("#{id}"))
}

/// Makes an exercise from a sketch with the asks now checked.
fn add_exercise(browser: &Browser, sketch: &Sketch, ask: &str, task: &str) -> Result<()> {
    browser.run("location.hash = arguments[0];", &json!([encode(sketch)]))?;
    let bass = print_bass(&sketch.notes, None);
    let shown = serde_json::to_string(&bass)?;
    browser.wait_for(&format!("document.getElementById('bass').value === {shown}"))?;
    press(browser, "teach")?;
    browser.click("[data-room=make]")?;
    for name in ["figures", "soprano", "find"] {
        let checked = browser.eval(&format!("document.getElementById('ask-{name}').checked"))?;
        if (checked == true) != (name == ask) {
            press(browser, &format!("ask-{name}"))?;
        }
    }
    choose(browser, "ask-motion", "any")?;
    write(browser, "make-task", task)?;
    write(browser, "make-hints", HINT)?;
    press(browser, "make-put")?;
    browser.wait_for("!document.getElementById('room-set').hidden")?;
    press(browser, "teach-close")
}

/// The address in the QR code on the page, drawn by the browser and read by a
/// library that is not ours.
fn read_qr(browser: &Browser) -> Result<String> {
    let drawn = browser.run_async(
        "const svg = document.querySelector('#pass-qr svg').cloneNode(true);
         const side = 5 * Number(svg.getAttribute('viewBox').split(' ')[2]);
         svg.setAttribute('width', side); svg.setAttribute('height', side);
         const image = new Image();
         image.src = 'data:image/svg+xml,' + encodeURIComponent(new XMLSerializer().serializeToString(svg));
         await image.decode();
         const canvas = document.createElement('canvas');
         canvas.width = canvas.height = side;
         const pen = canvas.getContext('2d');
         pen.drawImage(image, 0, 0);
         const { data } = pen.getImageData(0, 0, side, side);
         let dots = '';
         for (let i = 0; i < data.length; i += 4) dots += data[i] < 128 ? '1' : '0';
         return [side, dots];",
    )?;
    let side = drawn[0].as_u64().context("no side")? as usize;
    let dots = drawn[1].as_str().context("no dots")?.as_bytes();
    ensure!(dots.len() == side * side, "the picture is not square");
    let mut image = rqrr::PreparedImage::prepare_from_greyscale(side, side, |x, y| {
        if dots[y * side + x] == b'1' { 0 } else { 255 }
    });
    let grids = image.detect_grids();
    ensure!(grids.len() == 1, "{} codes in the picture", grids.len());
    Ok(grids[0].decode().context("a code that cannot be read")?.1)
}

/// Types a bass as a student does.
fn type_bass(browser: &Browser, bass: &str) -> Result<()> {
    press(browser, "bass")?;
    browser.keys_with(key::CONTROL, "a")?;
    browser.keys(bass)?;
    browser.keys(&key::TAB.to_string())
}

fn choose_chord(browser: &Browser, chord: usize) -> Result<()> {
    browser.click(&format!("#staff [data-part=bass][data-chord='{chord}'] use:last-of-type"))
}

/// Opens the set as a person new to it, answers, hands in; gives the answer link.
fn answer(browser: &Browser, link: &str, set: &Set, name: &str, kind: Kind) -> Result<String> {
    browser.run("localStorage.clear();", &json!([]))?;
    browser.open_page(page()?, link)?;
    browser.wait_for("!document.getElementById('desk').hidden")?;
    choose_base(browser)?;
    if kind != Kind::Blank {
        let model = set.exercises[0].model.as_ref().context("no model")?;
        let right = print_bass(&model.sketch.notes, None);
        let wrong = if let Kind::WrongFigures(count) = kind { count } else { 0 };
        let notes = right.split(' ').enumerate();
        let notes = notes.map(|(i, note)| if i < wrong { WRONG[i] } else { note });
        type_bass(browser, &notes.collect::<Vec<_>>().join(" "))?;

        press(browser, "desk-after")?;
        ensure!(text(browser, "desk-task")?.starts_with(TASK), "the task is not told as it is");
        press(browser, "desk-hint")?;
        ensure!(text(browser, "desk-hints")? == HINT, "the hint is not told as it is");
        choose_chord(browser, 0)?;
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
        press(browser, "desk-found")?;
    }
    press(browser, "desk-hand-in")?;
    write(browser, "pass-name", name)?;
    press(browser, "pass-make")?;
    browser.wait_for("!document.getElementById('pass-room').hidden")?;
    text(browser, "pass-link")
}

fn choose_base(browser: &Browser) -> Result<()> {
    browser.run("localStorage.setItem('tastata.base', arguments[0]);", &json!([BASE])).map(drop)
}

/// The table as the page shows it: the names, the cells, the faults.
fn table(browser: &Browser) -> Result<Vec<(String, Vec<String>, String)>> {
    let rows = browser.eval(
        "[...document.querySelectorAll('#class-table tbody tr')].map(row =>
           [...row.querySelectorAll('th, td')].map(cell => cell.textContent))",
    )?;
    let rows = rows.as_array().context("no rows")?.iter().map(|row| {
        let cells = row.as_array().context("no cells")?.iter();
        let cells: Vec<String> =
            cells.filter_map(|cell| cell.as_str()).map(str::to_owned).collect();
        ensure!(cells.len() == 7, "{} cells in a row", cells.len());
        Ok((cells[0].clone(), cells[1..4].to_vec(), cells[4].clone()))
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

#[test]
fn a_class_is_taught_from_set_to_comments() -> Result<()> {
    if Engine::Chromium.is_skipped() {
        return Ok(());
    }
    let teacher = Browser::start(Engine::Chromium)?;
    teacher.size(1920, 1080)?;
    teacher.open_page(page()?, "")?;
    choose_base(&teacher)?;
    add_exercise(&teacher, &sketch(BASS), "figures", "")?;
    add_exercise(&teacher, &sketch(FIGURED), "soprano", TASK)?;
    add_exercise(&teacher, &faulty(), "find", "")?;
    press(&teacher, "teach")?;
    teacher.click("[data-room=set]")?;
    press(&teacher, "set-pass")?;
    let address = text(&teacher, "pass-link")?;
    ensure!(address.starts_with(BASE), "{address}");
    ensure!(read_qr(&teacher)? == address, "the QR code says something else");
    press(&teacher, "pass-close")?;
    let Linked::Set(set) = open(&address).map_err(|error| anyhow::anyhow!("{error:?}"))? else {
        anyhow::bail!("the link holds no set")
    };
    let link = address.rsplit('#').next().unwrap_or_default().to_owned();

    let student = Browser::start(Engine::Chromium)?;
    student.size(1920, 1080)?;
    student.open_page(page()?, "")?;
    let answers: Vec<String> = CLASS
        .iter()
        .map(|(name, kind)| {
            answer(&student, &link, &set, name, *kind).with_context(|| format!("{name}, {kind:?}"))
        })
        .collect::<Result<_>>()?;
    nothing_ran(&student)?;

    teacher.click("[data-room=collect]")?;
    let cut = &answers[0][..answers[0].len() - 9];
    write(&teacher, "class-links", &format!("{}\n{cut}", answers.join("\n")))?;
    press(&teacher, "class-read")?;
    teacher.wait_for("document.querySelectorAll('#class-table tbody tr').length === 13")?;
    choose(&teacher, "class-sort", "link")?;
    let unusable = teacher
        .eval("document.querySelector('#class-table tbody tr:last-child .remark').textContent")?;
    ensure!(unusable.as_str().is_some_and(|said| said.contains("cut short")), "{unusable}");
    teacher
        .run("document.querySelector('#class-table tbody tr:last-child').remove()", &json!([]))?;
    for (row, (name, kind)) in table(&teacher)?.into_iter().zip(CLASS) {
        let (cells, faults) = kind.truth();
        ensure!(row.0 == name, "{} stands for {name}", row.0);
        ensure!(row.1 == cells, "{name}, {kind:?}: the table says {:?}", row.1);
        ensure!(row.2 == faults.to_string(), "{name}: {} faults", row.2);
    }
    choose(&teacher, "class-sort", "faults")?;
    let first = teacher.eval("document.querySelector('#class-table tbody th').textContent")?;
    ensure!(first == "Gus", "{first} has the most faults");
    nothing_ran(&teacher)?;

    // The one with the most faults is opened, commented and told.
    teacher.click("#class-table tbody tr:first-child td:last-child button")?;
    teacher.wait_for("document.getElementById('desk-title').textContent.startsWith('Gus')")?;
    write(&teacher, "comment-text", HINT)?;
    press(&teacher, "comment-whole")?;
    press(&teacher, "desk-send-back")?;
    write(&teacher, "pass-name", "M. T.")?;
    press(&teacher, "pass-make")?;
    let back = text(&teacher, "pass-link")?;
    let back = back.rsplit('#').next().unwrap_or_default();
    student.open_page(page()?, back)?;
    let said = text(&student, "comments")?;
    ensure!(said == format!("M. T.: {HINT}"), "{said}");
    nothing_ran(&student)
}

#[test]
fn a_link_never_takes_the_own_sketch_away() -> Result<()> {
    if Engine::Chromium.is_skipped() {
        return Ok(());
    }
    let browser = Browser::start(Engine::Chromium)?;
    browser.size(820, 1180)?;
    browser.open_page(page()?, "")?;
    type_bass(&browser, "G3 D3 G2")?;
    let exercise = tastata::lesson::make(&sketch(BASS), vec![tastata::lesson::Ask::Free]);
    let set = Set { title: "Week 1".to_owned(), exercises: vec![exercise] };
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
