//! The app without a browser: a sketch, its reading, what is selected, and one
//! function, [`App::update`], through which everything a person does must pass.

mod carry;
mod example;
mod figured;
mod handful;
mod history;
mod intent;
mod lesson;
mod reveal;
mod soprano;
mod view;

pub use intent::{Effect, Intent, Tag};
pub use lesson::{
    Against, Beside, Class, Desk, Draft, Drill, Ear, EarKind, Form, KeysRound, MOST_EXERCISES,
    Play, Practice, Reader, Review, Stand, Veil, Work,
};
pub use reveal::Reveal;
pub(crate) use soprano::{placed, snapped};
pub use view::{Keys, Landing, Place, Rest, Told, View};

use history::History;
use tastata::bass;
use tastata::hands::Edit;
use tastata::pitch::{Key, Pitch};
use tastata::reading::{Reading, Rereader};
use tastata::sketch::{Sketch, SketchNote};
use tastata::words::Lang;
use tastata::words::page::said;

/// Notes a bass may have; more are refused with a sentence.
pub const MOST_NOTES: usize = 2000;

/// The whole state of the page.
pub struct App {
    sketch: Sketch,
    reading: Reading,
    reader: Rereader,
    /// Whether the reading is only in brief, as in the moments of a drag.
    brief: bool,
    view: View,
    history: History,
    revision: u64,
    veil: Option<Veil>,
}

/// The person's own work while something else is on the desk.
pub struct PutBy {
    sketch: Sketch,
    history: History,
}

impl PutBy {
    /// The work as it stands.
    pub fn sketch(&self) -> &Sketch {
        &self.sketch
    }
}

impl App {
    /// The app as it opens with nothing saved: our own short example.
    pub fn opening() -> App {
        App::of(example::sketch())
    }

    /// The app showing a sketch, with nothing to undo.
    pub fn of(sketch: Sketch) -> App {
        let mut reader = Rereader::default();
        let reading = reader.read(&sketch);
        let view = View::of(&sketch, Lang::default());
        let history = History::default();
        App { sketch, reading, reader, brief: false, view, history, revision: 0, veil: None }
    }

    /// Shows another sketch, with nothing to undo, under this veil if any.
    pub fn present(&mut self, sketch: Sketch, veil: Option<Veil>) {
        self.view = View { reveal: self.view.reveal, ..View::of(&sketch, self.view.lang) };
        self.history = History::default();
        self.sketch = sketch;
        self.veil = veil;
        self.read();
    }

    /// Speaks to this reader from now on: the bass is printed with other names,
    /// and what shows the reading is drawn anew.
    pub fn speak(&mut self, lang: Lang) {
        self.view.lang = lang;
        if self.view.text_remarks.is_empty() {
            self.view.bass_text = bass::print_named(&self.sketch.notes, lang);
        }
        self.revision += 1;
    }

    /// Puts the person's own work by, with all that can be undone in it; something else
    /// is presented next.
    pub fn put_by(&mut self) -> PutBy {
        PutBy { sketch: self.sketch.clone(), history: std::mem::take(&mut self.history) }
    }

    /// Shows again what was put by, as it was.
    pub fn take_up(&mut self, put_by: PutBy) {
        self.present(put_by.sketch, None);
        self.history = put_by.history;
    }

    /// Takes another veil, or none.
    pub fn veil(&mut self, veil: Option<Veil>) {
        if self.veil != veil {
            self.veil = veil;
            self.read();
        }
    }

    /// Whether something of the reading is kept back.
    pub fn is_veiled(&self) -> bool {
        self.veil.is_some()
    }

    fn read(&mut self) {
        self.reading = match &self.veil {
            Some(veil) => veil.reading(&self.sketch),
            None => self.reader.read(&self.sketch),
        };
        self.brief = false;
        self.revision += 1;
    }

    /// Reads what a drag has come to, leaving the rest until it pauses.
    fn read_in_brief(&mut self) {
        if self.veil.is_some() {
            return self.read();
        }
        self.reading = self.reader.read_in_brief(&self.sketch, &self.reading);
        self.brief = true;
        self.revision += 1;
    }

    /// Whether the reading is only in brief, as in the moments of a drag.
    pub fn is_brief(&self) -> bool {
        self.brief
    }

    /// Reads in full what a drag has left in brief; says whether there was any.
    pub fn read_up(&mut self) -> bool {
        let brief = self.brief;
        if brief {
            self.read();
        }
        brief
    }

    /// What the person has decided.
    pub fn sketch(&self) -> &Sketch {
        &self.sketch
    }

    /// What follows from it.
    pub fn reading(&self) -> &Reading {
        &self.reading
    }

    /// A number that changes with every change of the sketch.
    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// What is selected and typed.
    pub fn view(&self) -> &View {
        &self.view
    }

    /// Whether there is something to undo.
    pub fn can_undo(&self) -> bool {
        self.history.can_undo()
    }

    /// Whether there is something to redo.
    pub fn can_redo(&self) -> bool {
        self.history.can_redo()
    }

    /// Index of the selected chord, if the selected note carries one.
    pub fn selected_chord(&self) -> Option<usize> {
        let place = self.view.selected?;
        let chords = &self.reading.harmony.chords;
        chords
            .iter()
            .position(|c| c.note == place.note && c.stage == place.stage)
            .or_else(|| chords.iter().rposition(|c| c.note <= place.note))
    }

    /// Does what the person asked; the sketch is read anew if it changed.
    pub fn update(&mut self, intent: Intent) -> Vec<Effect> {
        let before = self.sketch.clone();
        let tag = intent.tag();
        let dragging = matches!(tag, Some(Tag::Drag(_)));
        if !dragging {
            self.read_up();
        }
        let time_travel = matches!(intent, Intent::Undo | Intent::Redo);
        let selected = self.view.selected;
        let mut effects = Vec::new();
        self.change(intent, &mut effects);
        if self.sketch != before {
            if tag != Some(Tag::Typing) {
                self.view.reprint(&before, &self.sketch);
            }
            if !time_travel {
                self.history.record(&before, tag);
            }
            if dragging {
                self.read_in_brief();
            } else {
                self.read();
            }
            effects.push(Effect::Changed);
        }
        self.view.keep_within(self.sketch.notes.len());
        if self.view.selected != selected || self.view.keys != Keys::Figures {
            self.view.played.clear();
        }
        effects
    }

    fn change(&mut self, intent: Intent, effects: &mut Vec<Effect>) {
        match intent {
            Intent::TypeBass(text) => self.type_bass(text),
            Intent::Press(key) => self.press(key, effects),
            Intent::PlayChord(keys) => self.play_chord(keys, effects),
            Intent::Select(place) => self.view.selected = place,
            Intent::Step(by) => self.step(by),
            Intent::MoveBass { note, pitch, .. } => {
                if let Some(it) = self.sketch.notes.get_mut(note) {
                    it.pitch = pitch;
                    self.view.selected = Some(Place { note, stage: 0 });
                    effects.push(Effect::Strike(vec![pitch]));
                }
            }
            Intent::MoveSoprano { chord, to, .. } => self.move_soprano(chord, to, effects),
            Intent::NudgeSoprano(by) => self.nudge_soprano(by, effects),
            Intent::Pin(chord) => self.toggle_pin(chord),
            Intent::FreeSoprano => soprano::free_all(&mut self.sketch),
            Intent::EditHandful { edit, .. } => self.edit_handful(edit, effects),
            Intent::FreeHandful => {
                if let Some(chord) = self.selected_chord() {
                    let _ = handful::free(&mut self.sketch, &self.reading, chord);
                }
            }
            Intent::InsertAfter => self.insert_after(effects),
            Intent::Join(pitches) => self.join(pitches),
            Intent::Delete => self.delete(),
            Intent::Shift(by) => self.shift(by),
            Intent::Figures { note, figures } => {
                if let Some(it) = self.sketch.notes.get_mut(note) {
                    it.figures = figures;
                }
            }
            Intent::Wish { apply, .. } => apply(&mut self.sketch),
            Intent::Keys(keys) => self.view.keys = keys,
            Intent::Rest(rest) => self.view.rest = rest,
            Intent::Land(landing) => self.view.landing = landing,
            Intent::ShowParallels(on) => self.view.parallels = on,
            Intent::ShowSpeech(on) => self.view.speech = on,
            Intent::Project(reveal) => self.view.reveal = reveal,
            Intent::DrawLine(on) => self.view.drawing = on,
            Intent::Round(round) => self.view.round = round,
            Intent::Tell(told) => self.view.told = told,
            Intent::ShowMotions(on) => self.view.motions = on,
            Intent::Open(sketch) => {
                self.sketch = *sketch;
                self.view.selected = None;
            }
            Intent::StartEmpty => {
                self.sketch = Sketch {
                    hands: self.sketch.hands.clone(),
                    sound: self.sketch.sound.clone(),
                    ..Sketch::default()
                };
                self.view.selected = None;
                self.view.keys = Keys::AddBass;
            }
            Intent::Example => self.sketch = example::sketch(),
            Intent::Undo => {
                if let Some(sketch) = self.history.undo(&self.sketch) {
                    self.sketch = sketch;
                }
            }
            Intent::Redo => {
                if let Some(sketch) = self.history.redo(&self.sketch) {
                    self.sketch = sketch;
                }
            }
            Intent::Settle => self.history.settle(),
        }
    }

    fn type_bass(&mut self, text: String) {
        let read = bass::read_named(&text, self.sketch.tonality, self.view.lang.notes);
        if let Some(tonality) = read.tonality {
            self.sketch.tonality = Some(tonality);
        }
        let mut notes: Vec<_> = read.notes.iter().map(|n| n.to_sketch()).collect();
        notes.truncate(MOST_NOTES);
        self.sketch.notes = carry::over(&self.sketch.notes, notes);
        self.view.bass_text = text;
        self.view.text_remarks = read.remarks;
        self.view.left_out.clear();
    }

    fn press(&mut self, key: Key, effects: &mut Vec<Effect>) {
        let pitch = self.reading.harmony.home.spell(key);
        match self.view.keys {
            Keys::Listen => {}
            Keys::AddBass => self.insert(pitch),
            Keys::ChangeBass => match self.view.selected {
                Some(place) => {
                    if let Some(it) = self.sketch.notes.get_mut(place.note) {
                        it.pitch = pitch;
                    }
                }
                None => effects.push(Effect::Say(said::CHOOSE_FOR_BASS)),
            },
            Keys::Soprano => match self.selected_chord() {
                Some(chord) => {
                    self.move_soprano(chord, pitch, &mut Vec::new());
                    self.step(1);
                }
                None => effects.push(Effect::Say(said::CHOOSE_FOR_SOPRANO)),
            },
            Keys::Handful => match self.selected_chord() {
                Some(chord) => {
                    if let Some(edit) = handful::pressed(&self.reading, chord, key) {
                        self.edit_handful(edit, &mut Vec::new());
                    }
                }
                None => effects.push(Effect::Say(said::CHOOSE_FOR_HANDFUL)),
            },
            Keys::Figures => self.join_chord(key, effects),
        }
    }

    fn edit_handful(&mut self, edit: Edit, effects: &mut Vec<Effect>) {
        let Some(chord) = self.selected_chord() else { return };
        let _ = handful::edit(&mut self.sketch, &self.reading, chord, edit);
        match edit {
            Edit::Move { to: pitch, .. } | Edit::Add { pitch, .. } => {
                effects.push(Effect::Strike(vec![pitch]));
            }
            Edit::Drop { .. } | Edit::Shift { .. } => {}
        }
    }

    /// Adds a bass note behind the selected one, or at the end, and selects it.
    fn insert(&mut self, pitch: Pitch) {
        if self.sketch.notes.len() >= MOST_NOTES {
            return;
        }
        let end = self.sketch.notes.len();
        let at = self.view.selected.map_or(end, |place| (place.note + 1).min(end));
        self.sketch.notes.insert(at, SketchNote::bare(pitch));
        self.view.selected = Some(Place { note: at, stage: 0 });
    }

    fn insert_after(&mut self, effects: &mut Vec<Effect>) {
        let from = self.view.selected.map(|place| place.note);
        let from = from.or(self.sketch.notes.len().checked_sub(1));
        let pitch = from.and_then(|n| self.sketch.notes.get(n)).map(|it| it.pitch);
        let pitch = pitch.unwrap_or(self.reading.harmony.home.tonic.in_octave(3));
        self.insert(pitch);
        effects.push(Effect::Strike(vec![pitch]));
    }

    fn join(&mut self, pitches: Vec<Pitch>) {
        let notes = &mut self.sketch.notes;
        let last = notes.last().map(|note| note.pitch.class());
        let repeats = pitches.first().is_some_and(|first| Some(first.class()) == last);
        let room = MOST_NOTES.saturating_sub(notes.len());
        let new = pitches.into_iter().skip(usize::from(repeats)).take(room);
        notes.extend(new.map(SketchNote::bare));
    }

    fn delete(&mut self) {
        let Some(place) = self.view.selected else { return };
        if place.note < self.sketch.notes.len() {
            self.sketch.notes.remove(place.note);
        }
        let note = place.note.min(self.sketch.notes.len().saturating_sub(1));
        self.view.selected = (!self.sketch.notes.is_empty()).then_some(Place { note, stage: 0 });
    }

    /// Swaps the selected note with its neighbour.
    fn shift(&mut self, by: i32) {
        let Some(place) = self.view.selected else { return };
        let to = place.note as i64 + i64::from(by);
        let Some(to) = usize::try_from(to).ok().filter(|&to| to < self.sketch.notes.len()) else {
            return;
        };
        self.sketch.notes.swap(place.note, to);
        self.view.selected = Some(Place { note: to, stage: 0 });
    }

    /// Selects the chord `by` chords further on.
    fn step(&mut self, by: i32) {
        let chords = &self.reading.harmony.chords;
        let last = chords.len() as i64 - 1;
        let from = self.selected_chord().map_or(if by > 0 { -1 } else { last + 1 }, |c| c as i64);
        let to = (from + i64::from(by)).clamp(0, last.max(0)) as usize;
        if let Some(chord) = chords.get(to) {
            self.view.selected = Some(Place { note: chord.note, stage: chord.stage });
        }
    }

    fn move_soprano(&mut self, chord: usize, to: Pitch, effects: &mut Vec<Effect>) {
        let rest = self.view.rest;
        if let Some(place) = soprano::place(&mut self.sketch, &self.reading, chord, to, rest) {
            self.view.selected = Some(place);
            let bass = self.reading.harmony.chords.get(chord).map(|c| c.bass);
            effects.push(Effect::Strike(bass.into_iter().chain([to]).collect()));
        }
    }

    fn nudge_soprano(&mut self, by: i32, effects: &mut Vec<Effect>) {
        let Some(chord) = self.selected_chord() else { return };
        if let Some(to) = soprano::neighbour(&self.reading, chord, by) {
            self.move_soprano(chord, to, effects);
        }
    }

    fn toggle_pin(&mut self, chord: usize) {
        let _ = soprano::toggle(&mut self.sketch, &self.reading, chord);
    }
}

#[cfg(test)]
mod long_use;
#[cfg(test)]
mod tests;
