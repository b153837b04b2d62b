//! A class of thirty and its table: right answers, wrong ones in known ways, blank
//! ones and links that are none.

use tastata::files::{encode, encode_commented, encode_hand_in, encode_set};
use tastata::frame::Rule;
use tastata::lesson::{
    Answer, Ask, Commented, Exercise, Found, HandIn, Measure, MotionLimit, Naming, Outcome, Row,
    Set, SortBy, Status, make, sort, table,
};
use tastata::words::{Lang, class_csv, class_head};
use tastata_tests::lesson::{sketch, with_soprano};

const BASS: &str = "C major: C3 D3 E3 F3 G3 C3";
const FIGURED: &str = "C major: C3:5/3 D3:6 E3:6 F3:5/3 G3:5/3 C3:5/3";

fn class_set() -> Set {
    let figures = make(&sketch(BASS), vec![Ask::Figures(Measure::Accepted)]);
    let asked = Ask::Soprano { position: None, motions: MotionLimit::Any };
    let soprano = make(&sketch(FIGURED), vec![asked]);
    let faulty = with_soprano(
        sketch("C major: C3:5/3 D3:5/3 E3:6 F3:5/3 G3:5/3 C3:5/3"),
        "G4 A4 G4 A4 B4 C5",
    );
    let find = make(&faulty, vec![Ask::FindFaults(Naming::Named)]);
    Set { title: "Week 3".to_string(), exercises: vec![figures, soprano, find], ..Set::default() }
}

/// What a student does and what must be found.
#[derive(Clone, Copy)]
enum Kind {
    Right,
    WrongFigures(usize),
    Fifths,
    MissesFault,
    Blank,
}

fn hand_in(set: &Set, student: &str, kind: Kind) -> HandIn {
    let [figures, soprano, find] = &set.exercises[..] else { panic!("three exercises") };
    let model = |exercise: &Exercise| exercise.model.as_ref().expect("a model").sketch.clone();
    let mut answers: Vec<Option<Answer>> = vec![
        Some(Answer { sketch: model(figures), minutes: 5, ..Answer::default() }),
        Some(Answer {
            sketch: with_soprano(soprano.sketch.clone(), "E4 F4 G4 A4 B4 C5"),
            minutes: 7,
            ..Answer::default()
        }),
        Some(Answer {
            found: vec![Found { chord: 1, rule: Some(Rule::ConsecutiveFifths) }],
            minutes: 2,
            ..Answer::start(find)
        }),
    ];
    match kind {
        Kind::Right => {}
        Kind::WrongFigures(count) => {
            let answer = answers[0].as_mut().expect("an answer");
            let wrong = sketch("C major: C3:7/4/2 D3:9 E3:5/4 F3:6/4 G3:9/4 C3:7/2");
            for (note, wrong) in answer.sketch.notes.iter_mut().zip(wrong.notes).take(count) {
                note.figures = wrong.figures;
            }
        }
        Kind::Fifths => {
            let answer = answers[1].as_mut().expect("an answer");
            answer.sketch = with_soprano(soprano.sketch.clone(), "E4 F4 G4 C5 D5 E5");
        }
        Kind::MissesFault => {
            let answer = answers[2].as_mut().expect("an answer");
            answer.found = vec![Found { chord: 4, rule: Some(Rule::ConsecutiveOctaves) }];
        }
        Kind::Blank => answers = vec![Some(Answer::start(figures)), None],
    }
    HandIn { student: student.to_string(), set: set.clone(), answers }
}

fn truth(kind: Kind) -> [(Outcome, usize); 3] {
    use Outcome::{Blank, Done, NotYet};
    match kind {
        Kind::Right => [(Done, 0), (Done, 0), (Done, 0)],
        Kind::WrongFigures(count) => [(NotYet, count), (Done, 0), (Done, 0)],
        Kind::Fifths => [(Done, 0), (NotYet, 1), (Done, 0)],
        // One fault missed, one place named where there is none.
        Kind::MissesFault => [(Done, 0), (Done, 0), (NotYet, 2)],
        Kind::Blank => [(Blank, 0); 3],
    }
}

fn cells(row: &Row) -> Vec<(Outcome, usize)> {
    row.cells.iter().map(|cell| (cell.outcome, cell.faults)).collect()
}

#[test]
fn thirty_answers_are_what_they_are() {
    let set = class_set();
    let kind = |i: usize| match i % 5 {
        0 => Kind::Right,
        1 => Kind::WrongFigures(1 + i % 4),
        2 => Kind::Fifths,
        3 => Kind::MissesFault,
        _ => Kind::Blank,
    };
    let links: Vec<String> = (0..30)
        .map(|i| {
            let hand_in = hand_in(&set, &format!("Student {i:02}"), kind(i));
            encode_hand_in(&hand_in)
        })
        .collect();
    let links: Vec<&str> = links.iter().map(String::as_str).collect();
    let rows = table(&links, &set);
    assert_eq!(rows.len(), 30);
    for (i, row) in rows.iter().enumerate() {
        assert_eq!(row.status, Status::Ready);
        assert_eq!(row.student, format!("Student {i:02}"));
        assert_eq!(cells(row), truth(kind(i)), "student {i}");
        assert_eq!(row.minutes(), if i % 5 == 4 { 0 } else { 14 });
    }
}

#[test]
fn rows_are_sorted_by_what_is_asked() {
    let set = class_set();
    let link = |name: &str, kind| encode_hand_in(&hand_in(&set, name, kind));
    let links = [
        link("zoe", Kind::Right),
        "nonsense".to_string(),
        link("Bruno", Kind::WrongFigures(3)),
        link("adele", Kind::Fifths),
        link("Émile", Kind::Blank),
    ];
    let links: Vec<&str> = links.iter().map(String::as_str).collect();
    let mut rows = table(&links, &set);
    let order = |rows: &[Row]| rows.iter().map(|row| row.student.clone()).collect::<Vec<_>>();
    sort(&mut rows, SortBy::Name);
    assert_eq!(order(&rows), ["adele", "Bruno", "zoe", "Émile", ""]);
    sort(&mut rows, SortBy::Faults);
    assert_eq!(order(&rows), ["Bruno", "adele", "zoe", "Émile", ""]);
    sort(&mut rows, SortBy::Done);
    assert_eq!(order(&rows), ["Émile", "adele", "Bruno", "zoe", ""]);
    sort(&mut rows, SortBy::Link);
    assert_eq!(rows.iter().map(|row| row.link).collect::<Vec<_>>(), [0, 1, 2, 3, 4]);
}

#[test]
fn what_is_no_answer_is_said() {
    let set = class_set();
    let mut other = set.clone();
    other.exercises.pop();
    let commented = Commented {
        hand_in: hand_in(&set, "Ada", Kind::Right),
        teacher: "M.".to_string(),
        comments: Vec::new(),
    };
    let links = [
        encode_set(&set),
        encode(&sketch(BASS)),
        encode_hand_in(&HandIn { student: "Bo".into(), set: other, answers: Vec::new() }),
        encode_commented(&commented),
    ];
    let links: Vec<&str> = links.iter().map(String::as_str).collect();
    let rows = table(&links, &set);
    let statuses: Vec<_> = rows.iter().map(|row| row.status).collect();
    assert_eq!(statuses, [Status::NoAnswer, Status::NoAnswer, Status::OtherSet, Status::Ready]);
    assert_eq!((rows[2].student.as_str(), rows[2].cells.len()), ("Bo", 0));
    assert_eq!(cells(&rows[3]), truth(Kind::Right));
}

/// RFC 4180: lines end in CR LF, quotes are doubled, and what holds a comma, a
/// quote or a line break is quoted. No cell begins a formula.
#[test]
fn the_table_is_safe_as_comma_separated_values() {
    let set = class_set();
    let names =
        ["Ada", "=1+1", "+49", "-x", "@sum", "Lovelace, \"Ada\"", "two\r\nlines", "=\"a\",b"];
    let links: Vec<String> =
        names.iter().map(|name| encode_hand_in(&hand_in(&set, name, Kind::Right))).collect();
    let links: Vec<&str> = links.iter().map(String::as_str).collect();
    let csv = class_csv(&table(&links, &set), &set, Lang::English);
    let records = parse(&csv);
    assert_eq!(records.len(), names.len() + 1);
    assert_eq!(records[0], class_head(&set, Lang::English));
    for (record, name) in records[1..].iter().zip(names) {
        let expected =
            if name.starts_with(['=', '+', '-', '@']) { format!("'{name}") } else { name.into() };
        assert_eq!(record[0], expected);
        assert_eq!(record.len(), records[0].len());
        assert_eq!(record[1..4], ["done", "0", "0"]);
    }
    assert!(csv.ends_with("\r\n"));
}

/// A strict reader of RFC 4180.
fn parse(text: &str) -> Vec<Vec<String>> {
    let (mut records, mut record, mut field) = (Vec::new(), Vec::new(), String::new());
    let mut chars = text.chars().peekable();
    let mut quoted = false;
    while let Some(c) = chars.next() {
        match c {
            '"' if quoted && chars.peek() == Some(&'"') => {
                chars.next();
                field.push('"');
            }
            '"' if quoted => quoted = false,
            '"' => {
                assert!(field.is_empty(), "a quote inside a bare field");
                quoted = true;
            }
            _ if quoted => field.push(c),
            ',' => record.push(std::mem::take(&mut field)),
            '\r' => {
                assert_eq!(chars.next(), Some('\n'));
                record.push(std::mem::take(&mut field));
                records.push(std::mem::take(&mut record));
            }
            '\n' => panic!("a bare line feed"),
            _ => field.push(c),
        }
    }
    assert!(record.is_empty() && field.is_empty() && !quoted, "an unfinished record");
    records
}
