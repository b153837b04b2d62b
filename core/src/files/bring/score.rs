//! MusicXML in, part-wise or time-wise: the notes, figures and signature of each
//! staff. Format: W3C, *MusicXML 4.0*. Entities are not expanded beyond the five
//! of XML and numbered characters, and nothing outside the file is fetched.

use super::part::{Figured, Key, Part, Piece};
use super::{BringError, PartName};
use crate::order;
use quick_xml::Reader;
use quick_xml::events::{BytesRef, BytesStart, Event};

mod cursor;
mod figure;
mod note;

use cursor::Cursor;
use figure::FigureDraft;
use note::NoteDraft;

/// Deeper than any score nests its elements.
const MAX_DEPTH: usize = 64;
/// More characters than a name or a word under a note needs.
const MAX_TEXT: usize = 4_000;
/// More staves than a part has.
const MAX_STAVES: u8 = 32;

/// What a score holds.
pub(super) struct Score {
    pub(super) piece: Piece,
    /// The sketch that a score of our own carries along, as a link.
    pub(super) kept: Option<String>,
}

/// The field of our own scores that carries the sketch.
pub(crate) const KEPT_FIELD: &str = "tastata-sketch";

/// Reads a score.
pub(super) fn read(text: &str) -> Result<Score, BringError> {
    let mut reader = Reader::from_str(text);
    let mut state = State::default();
    loop {
        let event = reader.read_event().map_err(|_| broken(text, reader.error_position()))?;
        match event {
            Event::Start(it) => {
                if state.stack.len() >= MAX_DEPTH {
                    return Err(BringError::TooDeep);
                }
                state.open(&it);
            }
            Event::Empty(it) => {
                state.open(&it);
                state.close();
            }
            Event::End(_) => state.close(),
            Event::Text(it) => state.text(&it.xml10_content()),
            Event::CData(it) => state.text(&it.into_inner()),
            Event::GeneralRef(it) => state.reference(&it),
            Event::Eof if state.stack.is_empty() => return Ok(state.finish()),
            // The end of the file before the end of the score.
            Event::Eof => return Err(broken(text, text.len() as u64)),
            _ => {}
        }
    }
}

fn broken(text: &str, at: u64) -> BringError {
    let before = text.as_bytes().iter().take(at as usize);
    BringError::BrokenScore(1 + before.filter(|byte| **byte == b'\n').count())
}

/// The value of an attribute, with nothing expanded but XML's own.
pub(super) fn attribute(element: &BytesStart<'_>, name: &str) -> Option<String> {
    let found = element.try_get_attribute(name).ok()??;
    let value = found.normalized_value(quick_xml::XmlVersion::Implicit1_0).ok()?;
    Some(value.chars().take(MAX_TEXT).collect())
}

#[derive(Default)]
struct State {
    /// The names of the open elements.
    stack: Vec<String>,
    /// The characters of the innermost element so far.
    content: String,
    work: String,
    movement: String,
    kept: Option<String>,
    /// Names by part id, in the order of the part list.
    names: Vec<(String, String)>,
    parts: Vec<PartState>,
    /// Index into `parts`.
    current: Option<usize>,
    ours: bool,
    field: bool,
}

/// A part on its way in.
#[derive(Default)]
struct PartState {
    id: String,
    cursor: Cursor,
    key: Option<Key>,
    fifths: i32,
    transposed: bool,
    note: NoteDraft,
    lyric: (String, bool),
    figure: FigureDraft,
    figures: Vec<Figured>,
    staves: Vec<(u8, Vec<super::part::Struck>)>,
}

impl State {
    fn open(&mut self, element: &BytesStart<'_>) {
        let name = element.local_name().as_ref().to_string();
        self.content.clear();
        match name.as_str() {
            "score-part" => {
                let id = attribute(element, "id").unwrap_or_default();
                self.names.push((id, String::new()));
            }
            "part" => self.enter_part(attribute(element, "id").unwrap_or_default()),
            "miscellaneous-field" => {
                self.field = attribute(element, "name").as_deref() == Some(KEPT_FIELD);
            }
            _ => {}
        }
        let parent = self.stack.last().map_or("", String::as_str);
        if let Some(part) = self.current.and_then(|current| self.parts.get_mut(current)) {
            part.open(&name, parent, element);
        }
        self.stack.push(name);
    }

    fn enter_part(&mut self, id: String) {
        let place = self.parts.iter().position(|part| part.id == id).unwrap_or_else(|| {
            self.parts.push(PartState { id, ..PartState::default() });
            self.parts.len() - 1
        });
        self.current = Some(place);
        // In a time-wise score the part stands inside the measure.
        if let (Some("measure"), Some(part)) =
            (self.stack.last().map(String::as_str), self.parts.get_mut(place))
        {
            part.cursor.open_measure();
        }
    }

    fn text(&mut self, text: &str) {
        let room = MAX_TEXT.max(if self.field { super::super::MAX_LINK } else { 0 });
        let left = room.saturating_sub(self.content.len());
        self.content.extend(text.chars().take(left));
    }

    fn reference(&mut self, reference: &BytesRef<'_>) {
        let known = match reference.borrow().into_inner().as_ref() {
            "amp" => Some('&'),
            "lt" => Some('<'),
            "gt" => Some('>'),
            "quot" => Some('"'),
            "apos" => Some('\''),
            _ => reference.resolve_char_ref().ok().flatten(),
        };
        if let Some(c) = known {
            self.text(c.encode_utf8(&mut [0; 4]));
        }
    }

    fn close(&mut self) {
        let Some(name) = self.stack.pop() else { return };
        let content = std::mem::take(&mut self.content);
        let content = content.trim();
        let parent = self.stack.last().map_or("", String::as_str);
        match name.as_str() {
            "work-title" => self.work = content.to_string(),
            "movement-title" => self.movement = content.to_string(),
            "software" if content == "Tastata" => self.ours = true,
            "miscellaneous-field" if self.field => {
                self.kept = Some(content.to_string());
                self.field = false;
            }
            "part-name" => {
                if let Some((_, name)) = self.names.last_mut() {
                    *name = content.to_string();
                }
            }
            _ => {}
        }
        let Some(part) = self.current.and_then(|current| self.parts.get_mut(current)) else {
            return;
        };
        part.close(&name, parent, content, self.ours);
        if name == "part" {
            if parent == "measure" {
                part.cursor.close_measure();
            }
            self.current = None;
        }
    }

    fn finish(self) -> Score {
        let title = if self.movement.is_empty() { self.work } else { self.movement };
        let mut piece = Piece { title, parts: Vec::new() };
        // A part in another pitch than it sounds in shows another signature.
        let plain = self.parts.iter().filter(|part| !part.transposed).find_map(|part| part.key);
        for part in self.parts {
            let name = self.names.iter().find(|(id, _)| *id == part.id);
            let name = name.map(|(_, name)| name.clone()).unwrap_or_default();
            let own = if part.transposed { None } else { part.key };
            let key = own.or(plain).unwrap_or(Key::Open);
            let mut staves = part.staves;
            order::by_key(&mut staves, |(number, _)| *number);
            let several = staves.len() > 1;
            for (number, notes) in staves {
                let name = if several {
                    PartName::Staff(name.clone(), number)
                } else {
                    PartName::Named(name.clone())
                };
                piece.parts.push(Part { name, key, notes, figures: part.figures.clone() });
            }
        }
        Score { piece, kept: self.kept.filter(|_| self.ours) }
    }
}

impl PartState {
    fn open(&mut self, name: &str, parent: &str, element: &BytesStart<'_>) {
        match name {
            "measure" => self.cursor.open_measure(),
            "note" => self.note = NoteDraft::default(),
            "figured-bass" => self.figure = FigureDraft::default(),
            "figure" => self.figure.open(),
            "extend" if parent == "figure" => self.figure.extend(),
            "lyric" => self.lyric = Default::default(),
            "tie" if parent == "note" => {
                self.note.tie(attribute(element, "type").as_deref() == Some("stop"));
            }
            "backup" | "forward" => self.note = NoteDraft::default(),
            _ => {}
        }
    }

    fn close(&mut self, name: &str, parent: &str, content: &str, ours: bool) {
        match (parent, name) {
            (_, "measure") => self.cursor.close_measure(),
            (_, "divisions") => self.cursor.divide(content),
            ("key", "fifths") if self.key.is_none() => {
                self.fifths = content.parse().unwrap_or(0).clamp(-7, 7);
                self.key = Some(Key::Signature(self.fifths));
            }
            ("key", "mode") if self.key == Some(Key::Signature(self.fifths)) => {
                self.key = Some(figure::mode(self.fifths, content));
            }
            ("transpose", "chromatic") => {
                self.note_transposition(|it| it.1 = content.parse().unwrap_or(0));
            }
            ("transpose", "diatonic") => {
                self.note_transposition(|it| it.0 = content.parse().ok());
            }
            ("lyric", "text") => self.lyric.0.push_str(content),
            // Two words on one note, with whatever joins them.
            ("lyric", "elision") => self.lyric.0.push(' '),
            ("note", "lyric") => {
                let line = std::mem::take(&mut self.lyric.0);
                self.note.lyric(line);
            }
            ("note" | "pitch" | "backup" | "forward" | "figured-bass", _)
                if parent != "figured-bass" =>
            {
                self.note.leaf(name, content);
            }
            ("figure", _) => self.figure.leaf(name, content),
            ("figured-bass", "duration") => self.figure.lasts(content),
            (_, "figured-bass") => {
                let figure = std::mem::take(&mut self.figure);
                let at = self.cursor.figure(figure.duration);
                self.figures.extend(figure.stage().map(|stage| Figured { at, stage }));
            }
            (_, "words") if figure::is_tasto_solo(content) => {
                let at = self.cursor.now();
                self.figures.push(Figured { at, stage: crate::figures::Stage::TastoSolo });
            }
            (_, "backup") => self.cursor.shift(self.note.duration(), -1.0),
            (_, "forward") => self.cursor.shift(self.note.duration(), 1.0),
            (_, "note") => self.finish_note(ours),
            _ => {}
        }
    }

    fn note_transposition(&mut self, change: impl FnOnce(&mut (Option<i32>, i32))) {
        change(&mut self.cursor.transposition);
        self.transposed = self.cursor.transposition.1 % 12 != 0;
    }

    fn finish_note(&mut self, ours: bool) {
        let note = std::mem::take(&mut self.note);
        let (at, end) = self.cursor.note(&note);
        let number = note.staff.clamp(1, MAX_STAVES);
        let Some(struck) = note.struck(at, end, self.cursor.transposition, ours) else { return };
        let place = self.staves.iter().position(|(it, _)| *it == number).unwrap_or_else(|| {
            self.staves.push((number, Vec::new()));
            self.staves.len() - 1
        });
        let Some((_, notes)) = self.staves.get_mut(place) else { return };
        note::add(notes, struck, note::Tie::of(&note));
    }
}
