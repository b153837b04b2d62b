//! What a student does not see yet: the program's own figures, soprano and
//! handfuls stay hidden until the student has made theirs. The veil changes the
//! reading, not the drawing, so that staff, keys, card and sound all keep it.

use tastata::bass::passing;
use tastata::figures::{Figures, Stage};
use tastata::frame::Fault;
use tastata::hands::Handful;
use tastata::lesson::{Ask, Exercise, Part, close_chords};
use tastata::pitch::Key;
use tastata::reading::{Reading, read};
use tastata::sketch::Sketch;

/// Whether a part is seen before the student has made it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Sight {
    Seen,
    OnceMade,
}

/// What of the reading is hidden, and the faults that may be shown.
#[derive(Clone, Debug, PartialEq)]
pub struct Veil {
    figures: Sight,
    soprano: Sight,
    handfuls: Sight,
    /// Whether only the outer voices are given.
    frame_only: bool,
    faults: Vec<Fault>,
}

impl Veil {
    /// The veil over the work on an exercise; no faults are shown yet.
    pub fn of(exercise: &Exercise) -> Veil {
        let asks = &exercise.asks;
        let free = asks.contains(&Ask::Free);
        let sight = |hidden: bool| if hidden && !free { Sight::OnceMade } else { Sight::Seen };
        let given = |part| exercise.given.has(part);
        let find = asks.iter().any(|ask| matches!(ask, Ask::FindFaults(_)));
        let soprano = asks.iter().any(|ask| matches!(ask, Ask::Soprano { .. }));
        let handfuls = asks.iter().any(|ask| matches!(ask, Ask::Handfuls { .. }));
        Veil {
            // Where faults are to be found the outer voices are there to be seen.
            figures: sight(!given(Part::Figures) && !find),
            soprano: sight(soprano && !given(Part::Soprano)),
            handfuls: sight(handfuls && !given(Part::Handfuls)),
            frame_only: find,
            faults: Vec::new(),
        }
    }

    /// The veil with these faults marked on the staff.
    pub fn marking(self, faults: Vec<Fault>) -> Veil {
        Veil { faults, ..self }
    }

    /// The reading as the student may see and hear it.
    pub fn reading(&self, sketch: &Sketch) -> Reading {
        let mut veiled = sketch.clone();
        if self.figures == Sight::OnceMade {
            let passing = passing(&veiled.notes);
            for (note, passes) in veiled.notes.iter_mut().zip(passing) {
                if note.figures.is_none() && !passes {
                    note.figures = Figures::new(vec![Stage::TastoSolo]);
                }
            }
        }
        let mut reading = read(&veiled);
        if self.handfuls == Sight::OnceMade {
            give_close_chords(&mut veiled, &reading);
            reading = read(&veiled);
        }
        self.hide(sketch, &mut reading);
        reading.frame.faults.clone_from(&self.faults);
        reading.frame.conflicts.clear();
        reading.hands.remarks.clear();
        reading.harmony.remarks.clear();
        reading
    }

    fn hide(&self, sketch: &Sketch, reading: &mut Reading) {
        let mut heard: Vec<Option<Vec<Key>>> = Vec::new();
        for (i, chord) in reading.harmony.chords.iter_mut().enumerate() {
            let note = sketch.notes.get(chord.note);
            let Some(soprano) = reading.frame.soprano.get_mut(i) else { continue };
            let rests = *soprano == chord.bass;
            if note.is_some_and(|note| note.figures.is_none()) && rests {
                // Nothing is written under a note that waits for its figures.
                chord.figures = Stage::Signs(Vec::new());
            }
            let pin = note.and_then(|note| note.soprano.get(chord.stage)).copied().flatten();
            let made = self.soprano == Sight::Seen || pin.is_some();
            if !made {
                *soprano = chord.bass;
            }
            let alone = !made || rests;
            let only = if alone {
                Some(Handful { left: vec![chord.bass], right: Vec::new() })
            } else if self.frame_only {
                Some(Handful { left: vec![chord.bass], right: vec![*soprano] })
            } else {
                None
            };
            let keys = only.as_ref().map(|handful| {
                handful.left.iter().chain(&handful.right).filter_map(|p| p.key()).collect()
            });
            heard.push(keys);
            if let (Some(only), Some(handful)) = (only, reading.hands.handfuls.get_mut(i)) {
                *handful = only;
            }
        }
        reading.performance.touches.retain(|touch| match heard.get(touch.chord) {
            Some(Some(keys)) => keys.contains(&touch.key),
            _ => true,
        });
    }
}

/// Chords without a handful of the student's are shown in close position.
fn give_close_chords(sketch: &mut Sketch, reading: &Reading) {
    let chords = &reading.harmony.chords;
    for (chord, close) in chords.iter().zip(close_chords(chords, &reading.frame.soprano)) {
        let Some(note) = sketch.notes.get_mut(chord.note) else { continue };
        if note.handfuls.len() <= chord.stage {
            note.handfuls.resize(chord.stage + 1, None);
        }
        if let Some(slot) = note.handfuls.get_mut(chord.stage) {
            slot.get_or_insert(close);
        }
    }
}
