//! What a person can ask of the app, and what the app asks of the page.

use super::{Keys, Landing, Place, Rest, Reveal, Told};
use tastata::figures::Figures;
use tastata::hands::Edit;
use tastata::pitch::{Key, Pitch};
use tastata::sketch::Sketch;
use tastata::words::Phrase;

/// Changes that come in a stream and are undone as one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tag {
    /// Typing in the bass field.
    Typing,
    /// One drag, by its number.
    Drag(u32),
    /// One slider, by its number.
    Slider(u32),
}

/// One thing a person does.
pub enum Intent {
    /// The bass field now holds this text.
    TypeBass(String),
    /// A key of the on-screen, computer or MIDI keyboard went down.
    Press(Key),
    /// These keys are played together over the selected bass note.
    PlayChord(Vec<Key>),
    /// A place was chosen, or none.
    Select(Option<Place>),
    /// Go this many chords on (negative: back).
    Step(i32),
    /// A bass note goes to a pitch, as part of a drag if there is one.
    MoveBass {
        /// Which note.
        note: usize,
        /// Where to.
        pitch: Pitch,
        /// The drag it belongs to.
        drag: Option<u32>,
    },
    /// The soprano over a chord goes to a pitch and is pinned there.
    MoveSoprano {
        /// Which chord.
        chord: usize,
        /// Where to.
        to: Pitch,
        /// The drag it belongs to.
        drag: Option<u32>,
    },
    /// The selected soprano goes to the next chord note up (1) or down (-1).
    NudgeSoprano(i32),
    /// Pin the soprano over this chord where it is, or let it go.
    Pin(usize),
    /// Let every soprano note go.
    FreeSoprano,
    /// Change the handful of the selected chord by hand.
    EditHandful {
        /// What changes.
        edit: Edit,
        /// The drag it belongs to.
        drag: Option<u32>,
    },
    /// Leave the handful of the selected chord to the program again.
    FreeHandful,
    /// Add a note like the selected one behind it.
    InsertAfter,
    /// Add these notes at the end; a first one that repeats the last is left out.
    Join(Vec<Pitch>),
    /// Delete the selected note.
    Delete,
    /// Swap the selected note with the next (1) or the one before (-1).
    Shift(i32),
    /// Give a note figures, or leave them to the harmony.
    Figures {
        /// Which note.
        note: usize,
        /// Its figures.
        figures: Option<Figures>,
    },
    /// Change a wish of the sketch.
    Wish {
        /// Makes the change.
        apply: Box<dyn FnOnce(&mut Sketch)>,
        /// The slider it comes from, if it comes in a stream.
        slider: Option<u32>,
    },
    /// What the keys do from now on.
    Keys(Keys),
    /// What happens to the other soprano notes when one is moved.
    Rest(Rest),
    /// Where a dragged note may come to lie from now on.
    Land(Landing),
    /// Mark fifths and octaves with an inner voice, or not.
    ShowParallels(bool),
    /// Show the motion of the outer voices between chords, or not.
    ShowMotions(bool),
    /// Show the line of dwelling, or not.
    ShowSpeech(bool),
    /// Project this much of the piece to a class, or stop projecting.
    Project(Option<Reveal>),
    /// A finger on the staff draws the soprano's wished line, or drags notes again.
    DrawLine(bool),
    /// Play from one chord to another over and over, or no longer.
    Round(Option<(usize, usize)>),
    /// Explain a remark, or close its explanation.
    Tell(Option<Told>),
    /// Show this sketch instead; undo brings the old one back.
    Open(Box<Sketch>),
    /// An empty bass.
    StartEmpty,
    /// Our own example.
    Example,
    /// Undo.
    Undo,
    /// Redo.
    Redo,
    /// A stream of changes is over.
    Settle,
}

impl Intent {
    /// A wish that is made at once.
    pub fn wish(apply: impl FnOnce(&mut Sketch) + 'static) -> Intent {
        Intent::Wish { apply: Box::new(apply), slider: None }
    }

    /// The stream this intent belongs to, if any.
    pub fn tag(&self) -> Option<Tag> {
        match self {
            Intent::TypeBass(_) => Some(Tag::Typing),
            Intent::MoveBass { drag, .. }
            | Intent::MoveSoprano { drag, .. }
            | Intent::EditHandful { drag, .. } => drag.map(Tag::Drag),
            Intent::Wish { slider, .. } => slider.map(Tag::Slider),
            _ => None,
        }
    }
}

/// What the page must do besides showing the new state.
#[derive(Clone, Debug, PartialEq)]
pub enum Effect {
    /// The sketch changed: save it, stop what plays.
    Changed,
    /// Let these pitches sound at once.
    Strike(Vec<Pitch>),
    /// Tell the person.
    Say(Phrase),
}
