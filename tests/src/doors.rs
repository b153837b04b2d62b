//! Every door by which strange bytes come in, each as one function that takes any bytes
//! at all: read them, and go on with what was read as the page would. The bounded run of
//! the tests and the long one of libFuzzer go through the same doors.

use crate::wrapped::{veiled, wrapped};
use tastata::bass::{print_bass, read_bass};
use tastata::figures::{print, read_figures};
use tastata::files::{
    Linked, MAX_LINK, decode, encode, encode_commented, encode_hand_in, encode_set, from_text,
    open, pasted, read_file, to_text,
};
use tastata::lesson::{HandIn, check};
use tastata::reading;
use tastata::sketch::Sketch;
use tastata::sound::read_table;
use tastata::words::{self, Lang};

/// A door: its name, which is also that of its folder of kept cases, and the way in.
pub struct Door {
    /// One word.
    pub name: &'static str,
    /// Takes any bytes; panics if something that must hold does not.
    pub enter: fn(&[u8]),
}

/// All doors.
pub const DOORS: [Door; 13] = [
    Door { name: "bass", enter: bass },
    Door { name: "figures", enter: figures },
    Door { name: "link", enter: link },
    Door { name: "text", enter: text },
    Door { name: "table", enter: table },
    Door { name: "musicxml", enter: |bytes| file("piece.musicxml", bytes) },
    Door { name: "mxl", enter: |bytes| file("piece.mxl", bytes) },
    Door { name: "midi", enter: |bytes| file("piece.mid", bytes) },
    Door { name: "paste", enter: paste },
    Door { name: "sketch", enter: |plain| link(wrapped(plain).as_bytes()) },
    Door { name: "set", enter: |plain| link(veiled("x", plain).as_bytes()) },
    Door { name: "handin", enter: |plain| link(veiled("a", plain).as_bytes()) },
    Door { name: "commented", enter: |plain| link(veiled("c", plain).as_bytes()) },
];

/// The door of this name.
///
/// # Panics
/// If there is none.
pub fn door(name: &str) -> &'static Door {
    DOORS.iter().find(|door| door.name == name).expect("a door's name")
}

/// The longest piece that is read through here; the doors are tried far more often with
/// short ones.
const NOTES: usize = 200;

fn bass(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    let read = read_bass(&text, None);
    for remark in &read.remarks {
        assert!(text.get(remark.at.clone()).is_some(), "the remark points into the text");
    }
    let notes = read.notes.iter().map(|note| note.to_sketch()).collect();
    let sketch = Sketch { notes, tonality: read.tonality, ..Sketch::default() };
    // What is printed is read as the same notes.
    let printed = print_bass(&sketch.notes, sketch.tonality);
    let again = read_bass(&printed, sketch.tonality);
    let pitches = |notes: &[tastata::bass::BassNote]| -> Vec<_> {
        notes.iter().map(|note| note.pitch).collect()
    };
    assert_eq!(pitches(&read.notes), pitches(&again.notes), "{printed}");
    go_on(sketch);
}

fn figures(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    match read_figures(&text) {
        Ok(read) => {
            let printed = print(&read);
            let again = read_figures(&printed).expect("what we print is read");
            assert_eq!(print(&again), printed, "printing again gives the same");
        }
        Err(error) => assert!(!words::figure_trouble(error.kind, Lang::default()).is_empty()),
    }
}

fn link(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    let linked = match open(&text) {
        Ok(linked) => linked,
        Err(error) => {
            assert!(!words::link_error(error, Lang::default()).is_empty());
            return;
        }
    };
    // What is written of it is opened as the same.
    let written = match &linked {
        Linked::Sketch(sketch) => encode(sketch),
        Linked::Set(set) => encode_set(set),
        Linked::HandIn(hand_in) => encode_hand_in(hand_in),
        Linked::Commented(commented) => encode_commented(commented),
    };
    if written.len() <= MAX_LINK {
        assert_eq!(open(&written).as_ref(), Ok(&linked), "{written}");
    }
    match linked {
        Linked::Sketch(sketch) => go_on(sketch),
        Linked::Set(set) => {
            for exercise in set.exercises.into_iter().take(2) {
                go_on(exercise.sketch);
            }
        }
        Linked::HandIn(hand_in) => judge(&hand_in),
        Linked::Commented(commented) => judge(&commented.hand_in),
    }
}

/// What the teacher's page does with an answer.
fn judge(hand_in: &HandIn) {
    for (exercise, answer) in hand_in.set.exercises.iter().zip(&hand_in.answers).take(2) {
        let Some(answer) = answer else { continue };
        if answer.sketch.notes.len() <= NOTES && exercise.sketch.notes.len() <= NOTES {
            check(exercise, answer);
        }
    }
}

fn text(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    let read = from_text(&text);
    for remark in &read.remarks {
        assert!(text.get(remark.at.clone()).is_some(), "the remark points into the text");
        assert!(!words::sheet_trouble(remark.kind, Lang::default()).is_empty());
    }
    // What is written of it is read as the same, and without remarks.
    let written = to_text(&read.sketch);
    let again = from_text(&written);
    assert_eq!(again.remarks, [], "{written}");
    assert_eq!(to_text(&again.sketch), written);
    go_on(read.sketch);
}

fn table(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    if let Err(trouble) = read_table(&text) {
        assert!(!words::table_trouble(trouble, Lang::default()).is_empty());
    }
}

fn file(name: &str, bytes: &[u8]) {
    match read_file(name, bytes) {
        Ok(brought) => {
            assert!(brought.lowest < brought.parts.len());
            go_on(brought.sketch());
        }
        Err(error) => assert!(!words::bring_error(&error, Lang::default()).is_empty()),
    }
}

fn paste(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    for link in pasted(&text) {
        assert!(!link.is_empty() && link.len() <= text.len(), "no more than was pasted");
    }
}

/// What the page does with every sketch: a whole reading, and a link that opens again.
fn go_on(mut sketch: Sketch) {
    assert_eq!(decode(&encode(&sketch)).as_ref(), Ok(&sketch), "the link keeps the sketch");
    sketch.notes.truncate(NOTES);
    reading::read(&sketch);
}
