//! A sketch as plain text, to paste into a mail and back.
//!
//! ```text
//! Title: Evening in D
//! Bass: D minor: D3 C#3:6 D3 G2:6/5 A2:4-3# D2
//! Soprano: 1:F4 5.2:(C#5)
//! Settings: 1AAAAAAA
//! ```
//! The bass is in the form of the room `bass` and may go on over several lines.
//! The soprano names fixed notes by note and stage, both counted from 1, those
//! that merely rest in brackets. The settings are all that has no plain form,
//! packed as in a link; they are left out where all is as usual. A bass alone, a
//! text quoted with `>` and a text with a link in it are read as well.

use super::link::{LinkError, decode, encode};
use crate::bass::{TextTrouble, print_bass, read_bass};
use crate::pitch::{Pitch, Step};
use crate::sketch::{Hold, Pin, Sketch, SketchNote, Weight};
use std::fmt::Write as _;
use std::ops::Range;

/// Columns after which a line is broken.
const LINE: usize = 76;
/// More stages than any figures have.
const MOST_STAGES: usize = 64;

/// The texts that open a line, in print.
const TITLE: &str = "Title:";
const BASS: &str = "Bass:";
const SOPRANO: &str = "Soprano:";
const SETTINGS: &str = "Settings:";

/// A sketch read from text, and what could not be read.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadText {
    /// All that could be read.
    pub sketch: Sketch,
    /// The rest, in order of place within each part.
    pub remarks: Vec<SheetRemark>,
}

/// Something in a text that could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetRemark {
    /// Its bytes in the text, on character boundaries.
    pub at: Range<usize>,
    /// What is wrong there; [`crate::words::sheet_trouble`] says it in a sentence.
    pub kind: SheetTrouble,
}

/// What is wrong with a piece of text; the rest is read all the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SheetTrouble {
    /// In the bass.
    Bass(TextTrouble),
    /// Not a fixed soprano note.
    Pin,
    /// A soprano note over a bass note that is not there.
    PinBeyond,
    /// The settings cannot be opened.
    Settings(LinkError),
    /// The settings were made for a bass of another length; what they say of
    /// single notes is left out.
    OtherBass,
}

/// The sketch as text. Pitches and figures that the bass's text form cannot say
/// (octaves outside [-1, 9], figures outside [2, 9]) do not come back.
pub fn to_text(sketch: &Sketch) -> String {
    let mut out = String::new();
    let title: String =
        sketch.title.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
    if !title.trim().is_empty() {
        let _ = writeln!(out, "{TITLE} {}", title.trim());
    }
    wrapped(&mut out, BASS, &print_bass(&sketch.notes, sketch.tonality));
    let pins = pins(&sketch.notes);
    if !pins.is_empty() {
        wrapped(&mut out, SOPRANO, &pins);
    }
    let rest = rest(sketch);
    let usual = Sketch { notes: vec![blank(); sketch.notes.len()], ..Sketch::default() };
    if rest != usual {
        let _ = writeln!(out, "{SETTINGS} {}", encode(&rest));
    }
    out
}

/// Reads a text. Nothing in it can fail: what is not understood is remarked on.
pub fn from_text(text: &str) -> ReadText {
    if let Some(sketch) = linked(text) {
        return ReadText { sketch, remarks: Vec::new() };
    }
    let parts = Parts::of(text);
    let bass = read_bass(&parts.bass, None);
    let mut remarks: Vec<SheetRemark> = bass
        .remarks
        .into_iter()
        .map(|it| SheetRemark { at: it.at, kind: SheetTrouble::Bass(it.kind) })
        .collect();
    let mut sketch = Sketch::default();
    let notes = bass.notes.iter().map(|note| note.to_sketch());
    let mut notes: Vec<SketchNote> = notes.collect();
    if let Some(at) = parts.settings {
        match decode(text.get(at.clone()).unwrap_or_default()) {
            Ok(settings) => settle(&mut sketch, &mut notes, settings, at, &mut remarks),
            Err(error) => {
                remarks.push(SheetRemark { at, kind: SheetTrouble::Settings(error) });
            }
        }
    }
    for at in words(&parts.soprano) {
        let word = text.get(at.clone()).unwrap_or_default();
        let kind = match read_pin(word) {
            None => SheetTrouble::Pin,
            Some((note, stage, pin)) => match notes.get_mut(note) {
                None => SheetTrouble::PinBeyond,
                Some(note) => {
                    if note.soprano.len() <= stage {
                        note.soprano.resize(stage + 1, None);
                    }
                    if let Some(slot) = note.soprano.get_mut(stage) {
                        *slot = Some(pin);
                    }
                    continue;
                }
            },
        };
        remarks.push(SheetRemark { at, kind });
    }
    sketch.title = parts.title;
    sketch.tonality = bass.tonality;
    sketch.notes = notes;
    ReadText { sketch, remarks }
}

/// The sketch of the first link in the text that opens, if there is one.
fn linked(text: &str) -> Option<Sketch> {
    text.split_whitespace()
        .filter(|word| word.contains("#1") && word.contains(['/', '.']))
        .find_map(|word| decode(word).ok())
}

/// The parts of a text. `bass` and `soprano` are as long as the text, blank where
/// it belongs to another part, so that places in them are places in the text.
struct Parts {
    title: String,
    bass: String,
    soprano: String,
    settings: Option<Range<usize>>,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Part {
    Title,
    Bass,
    Soprano,
    Settings,
}

impl Parts {
    fn of(text: &str) -> Parts {
        let mut parts = Parts {
            title: String::new(),
            bass: String::new(),
            soprano: String::new(),
            settings: None,
        };
        let mut part = Part::Bass;
        let mut start = 0;
        for line in text.split_inclusive('\n') {
            let quoted = line.trim_start_matches([' ', '\t', '>']);
            let opened = opens(quoted);
            let body = opened.map_or(quoted, |(_, body)| body);
            let skipped = line.len() - body.len();
            part = opened.map_or(part, |(part, _)| part);
            // A title has one line; what follows unnamed is bass.
            if part == Part::Title && opened.is_none() {
                part = Part::Bass;
            }
            let here = start + skipped..start + line.len();
            match part {
                Part::Title => parts.title = body.trim().to_string(),
                Part::Settings => {
                    let from = parts.settings.map_or(here.start, |at| at.start);
                    parts.settings = Some(from..start + line.trim_end().len().max(skipped));
                }
                Part::Bass | Part::Soprano => {}
            }
            blank_but(&mut parts.bass, line, skipped, part == Part::Bass);
            blank_but(&mut parts.soprano, line, skipped, part == Part::Soprano);
            start += line.len();
        }
        parts
    }
}

/// The part that a line opens, and the rest of the line.
fn opens(line: &str) -> Option<(Part, &str)> {
    let parts = [
        (Part::Title, TITLE),
        (Part::Bass, BASS),
        (Part::Soprano, SOPRANO),
        (Part::Settings, SETTINGS),
    ];
    parts.into_iter().find_map(|(part, name)| {
        let (head, body) = line.split_at_checked(name.len())?;
        head.eq_ignore_ascii_case(name).then_some((part, body))
    })
}

/// Appends a line, blank but for its end where it belongs to the part.
fn blank_but(out: &mut String, line: &str, skipped: usize, belongs: bool) {
    for (at, c) in line.char_indices() {
        if c == '\n' || (belongs && at >= skipped) {
            out.push(c);
        } else {
            out.extend(std::iter::repeat_n(' ', c.len_utf8()));
        }
    }
}

fn words(text: &str) -> Vec<Range<usize>> {
    let mut words = Vec::new();
    let mut start = None;
    for (at, c) in text.char_indices().chain([(text.len(), ' ')]) {
        let parts = c.is_whitespace() || c == ',' || c == ';';
        match start {
            Some(from) if parts => {
                words.push(from..at);
                start = None;
            }
            None if !parts => start = Some(at),
            _ => {}
        }
    }
    words
}

fn pins(notes: &[SketchNote]) -> String {
    let mut words = Vec::new();
    for (i, note) in notes.iter().enumerate() {
        for (stage, pin) in note.soprano.iter().enumerate() {
            let Some(pin) = pin else { continue };
            let mut word = (i + 1).to_string();
            if stage > 0 {
                let _ = write!(word, ".{}", stage + 1);
            }
            let pitch = pin.pitch.to_string().replace('♯', "#").replace('♭', "b");
            let _ = match pin.hold {
                Hold::Pinned => write!(word, ":{pitch}"),
                Hold::Resting => write!(word, ":({pitch})"),
            };
            words.push(word);
        }
    }
    words.join(" ")
}

/// Note, stage and pin of a word such as `5.2:(C#5)`; both counted from 0.
fn read_pin(word: &str) -> Option<(usize, usize, Pin)> {
    let (place, pitch) = word.split_once(':')?;
    let (note, stage) = place.split_once('.').unwrap_or((place, "1"));
    let index = |text: &str| text.parse::<usize>().ok()?.checked_sub(1);
    let (note, stage) = (index(note)?, index(stage)?);
    if stage >= MOST_STAGES {
        return None;
    }
    let inside = pitch.strip_prefix('(').and_then(|rest| rest.strip_suffix(')'));
    let hold = if inside.is_some() { Hold::Resting } else { Hold::Pinned };
    let pitch = read_pitch(inside.unwrap_or(pitch))?;
    Some((note, stage, Pin { pitch, hold }))
}

fn read_pitch(text: &str) -> Option<Pitch> {
    let mut chars = text.chars();
    let step = Step::from_letter(chars.next()?)?;
    let octave_at = text.find(|c: char| c.is_ascii_digit() || c == '-')?;
    let (signs, octave) = text.split_at_checked(octave_at)?;
    let mut alter = 0i8;
    for sign in signs.chars().skip(1) {
        alter = alter.checked_add(match sign {
            '#' | '♯' => 1,
            'b' | '♭' => -1,
            _ => return None,
        })?;
    }
    let octave: i8 = octave.parse().ok()?;
    Some(Pitch::new(step, alter, octave))
}

/// What has no plain form: everything but title, tonality, basses, figures,
/// weights, lengths, rests and soprano.
fn rest(sketch: &Sketch) -> Sketch {
    let notes = sketch.notes.iter().map(|note| SketchNote {
        pitch: blank().pitch,
        figures: None,
        weight: Weight::Unmarked,
        value: None,
        rest: None,
        soprano: Vec::new(),
        ..note.clone()
    });
    Sketch { title: String::new(), tonality: None, notes: notes.collect(), ..sketch.clone() }
}

/// A note of which nothing is said.
fn blank() -> SketchNote {
    SketchNote::bare(Pitch::new(Step::C, 0, 3))
}

/// Puts the settings back round the notes.
fn settle(
    sketch: &mut Sketch,
    notes: &mut [SketchNote],
    settings: Sketch,
    at: Range<usize>,
    remarks: &mut Vec<SheetRemark>,
) {
    let said = settings.notes.iter().any(|note| *note != blank());
    if settings.notes.len() == notes.len() {
        for (note, setting) in notes.iter_mut().zip(&settings.notes) {
            *note = SketchNote {
                pitch: note.pitch,
                figures: note.figures.take(),
                weight: note.weight,
                value: note.value,
                rest: note.rest,
                soprano: std::mem::take(&mut note.soprano),
                ..setting.clone()
            };
        }
    } else if said {
        remarks.push(SheetRemark { at, kind: SheetTrouble::OtherBass });
    }
    *sketch = settings;
}

/// Appends a named part, its words broken into lines.
fn wrapped(out: &mut String, name: &str, content: &str) {
    out.push_str(name);
    let mut column = name.len();
    for word in content.split(' ') {
        let width = word.chars().count() + 1;
        if column + width > LINE && column > 2 {
            out.push_str("\n ");
            column = 1;
        }
        out.push(' ');
        out.push_str(word);
        column += width;
    }
    out.push('\n');
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> (String, Vec<(&str, SheetTrouble)>) {
        let read = from_text(text);
        let remarks = read.remarks.into_iter().map(|it| (&text[it.at], it.kind)).collect();
        (to_text(&read.sketch), remarks)
    }

    #[test]
    fn a_text_reads_back() {
        let text = "Title: Evening in D\nBass: D minor: D3 C#3:6 (E3) G2:6/5 A2:4-#\n\
                    Soprano: 1:F4 5.2:(C#5)\n";
        assert_eq!(read(text), (text.to_string(), vec![]));
    }

    #[test]
    fn a_bass_alone_and_a_quoted_text_are_read() {
        let plain = "Bass: D minor: D3 C#3:6 D3\n";
        assert_eq!(read("D minor: D3 C#3:6\nD3"), (plain.to_string(), vec![]));
        let quoted = "> > title: Été\n> > BASS: D minor: D3 C#3:6\n> > D3\n";
        assert_eq!(read(quoted), (format!("Title: Été\n{plain}"), vec![]));
    }

    #[test]
    fn settings_come_back_with_the_notes() {
        let mut sketch = from_text("D3 E3 F3").sketch;
        sketch.sound.a4 = 392.0;
        sketch.notes[1].stroke.times = Some(3);
        let text = to_text(&sketch);
        let back = from_text(&text);
        assert_eq!(back, ReadText { sketch: sketch.clone(), remarks: vec![] });
        // With a note more, the settings of the piece stay and those of notes do not.
        let longer = from_text(&text.replace("F3", "F3 G3"));
        assert_eq!(longer.sketch.sound, sketch.sound);
        assert_eq!(longer.sketch.notes.len(), 4);
        assert_eq!(longer.remarks[0].kind, SheetTrouble::OtherBass);
    }

    #[test]
    fn a_link_in_a_text_is_opened() {
        let sketch = from_text("Title: A\nBass: D3 E3 F3").sketch;
        let text = format!("Look at file:///x/page.html#{} please.", encode(&sketch));
        assert_eq!(from_text(&text).sketch, sketch);
    }

    #[test]
    fn what_cannot_be_read_is_told_in_its_place() {
        let (_, remarks) =
            read("Title: ü\nBass: D3 hm E3\nSoprano: 1:F4, é:F4 9:F4 1:H\nSettings: 2A");
        let expected = [
            ("hm", SheetTrouble::Bass(TextTrouble::UnknownWord)),
            ("2A", SheetTrouble::Settings(LinkError::Newer)),
            ("é:F4", SheetTrouble::Pin),
            ("9:F4", SheetTrouble::PinBeyond),
            ("1:H", SheetTrouble::Pin),
        ];
        let trimmed: Vec<_> = remarks.into_iter().map(|(at, kind)| (at.trim(), kind)).collect();
        assert_eq!(trimmed, expected);
    }
}
