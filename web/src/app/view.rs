//! What is looked at rather than decided: selection, typed text, what keys do.

use super::Reveal;
use tastata::bass::{self, TextRemark};
use tastata::frame::Rule;
use tastata::pitch::Key;
use tastata::sketch::{Sketch, SketchNote};
use tastata::words::Lang;

/// A stage over a bass note.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// Index of the note.
    pub note: usize,
    /// Index of the stage.
    pub stage: usize,
}

/// What pressing a key does besides sounding.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Keys {
    /// Nothing.
    Listen,
    /// Adds a bass note behind the selected one.
    AddBass,
    /// Replaces the selected bass note.
    ChangeBass,
    /// Sets the soprano of the selected chord and goes on to the next.
    Soprano,
    /// Adds the key to the selected chord's handfuls, or takes it out.
    Handful,
    /// Adds the key to a chord that is played over the selected bass note, or takes it
    /// out; once figures say what is played, they are written.
    Figures,
}

/// What happens to the other soprano notes when one is moved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rest {
    /// They are set anew around the pins.
    SetAnew,
    /// They stay where they are.
    StaysPut,
}

/// Where a dragged note may come to lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Landing {
    /// On the nearest note of its chord.
    OnChordNotes,
    /// Anywhere; the page says what chord it would make.
    Anywhere,
}

/// A remark of the outer voices that is being explained.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Told {
    /// The rule.
    pub rule: Rule,
    /// The first chord concerned.
    pub from: usize,
    /// The last chord concerned.
    pub to: usize,
}

/// What the page shows besides the sketch and its reading.
#[derive(Clone, Debug)]
pub struct View {
    /// The selected place, if any.
    pub selected: Option<Place>,
    /// What keys do.
    pub keys: Keys,
    /// The keys played over the selected bass note, to be named by figures.
    pub played: Vec<Key>,
    /// What a moved soprano note does to the others.
    pub rest: Rest,
    /// Where a dragged note may come to lie.
    pub landing: Landing,
    /// Whether fifths and octaves with an inner voice are marked.
    pub parallels: bool,
    /// Whether the motion between chords is shown.
    pub motions: bool,
    /// Whether the line of dwelling is shown above the staff.
    pub speech: bool,
    /// How much is projected, if the page is projected.
    pub reveal: Option<Reveal>,
    /// Whether a finger on the staff draws the soprano's wished line.
    pub drawing: bool,
    /// The chords played over and over, if any: first and last.
    pub round: Option<(usize, usize)>,
    /// The remark that is explained, if any.
    pub told: Option<Told>,
    /// The bass as text: what was typed, or the printed bass.
    pub bass_text: String,
    /// What could not be read in it.
    pub text_remarks: Vec<TextRemark>,
    /// Words that could not be read and fell out when the bass was changed otherwise.
    pub left_out: Vec<String>,
    /// Who reads: the text of the bass names notes as they do.
    pub lang: Lang,
}

impl View {
    /// The first view of a sketch.
    pub fn of(sketch: &Sketch, lang: Lang) -> View {
        View {
            selected: None,
            keys: Keys::Listen,
            played: Vec::new(),
            rest: Rest::SetAnew,
            landing: Landing::OnChordNotes,
            parallels: false,
            motions: false,
            speech: false,
            reveal: None,
            drawing: false,
            round: None,
            told: None,
            bass_text: bass::print_named(&sketch.notes, lang),
            text_remarks: Vec::new(),
            left_out: Vec::new(),
            lang,
        }
    }

    /// Prints the bass anew if it is no longer what the text says; words that
    /// could not be read are kept to be shown.
    pub fn reprint(&mut self, before: &Sketch, now: &Sketch) {
        let alike = |(a, b): (&SketchNote, &SketchNote)| {
            let lasts = a.value == b.value && a.rest == b.rest;
            lasts && a.pitch == b.pitch && a.figures == b.figures && a.weight == b.weight
        };
        let same = before.notes.len() == now.notes.len();
        if same && before.notes.iter().zip(&now.notes).all(alike) {
            return;
        }
        let printed = bass::print_named(&now.notes, self.lang);
        if printed == bass::print_named(&before.notes, self.lang) {
            return;
        }
        let unread = self.text_remarks.drain(..);
        self.left_out
            .extend(unread.filter_map(|remark| self.bass_text.get(remark.at).map(str::to_owned)));
        self.bass_text = printed;
    }

    /// Drops a selection that no longer exists.
    pub fn keep_within(&mut self, notes: usize) {
        self.selected = self.selected.filter(|place| place.note < notes);
    }
}
