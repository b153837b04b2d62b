//! What a drawing is: systems of markup, and where things stand in them.

use super::look::{Room, Upright};
use super::stave::Stave;

/// A whole piece on grand staves.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// The systems, top down; an empty piece has one empty system.
    pub systems: Vec<System>,
}

/// One grand staff across the page. Lengths are staff spaces, y down.
#[derive(Clone, Debug, PartialEq)]
pub struct System {
    /// Width; the viewBox is `0 -rise width rise+height`.
    pub width: f64,
    /// Height, from 0 down.
    pub height: f64,
    /// What is drawn above 0, where the staves were held; else 0.
    pub rise: f64,
    /// x where the staff lines end; the last system may end before the width does.
    pub staff_end: f64,
    /// y of the top line of the upper stave.
    pub treble_top: f64,
    /// y of the top line of the lower stave.
    pub bass_top: f64,
    /// y where the rows of figures begin.
    pub figures_top: f64,
    /// The inner markup of one `<svg>`.
    pub svg: String,
    /// Its chords, left to right.
    pub chords: Vec<ChordPlace>,
    /// Its bass notes that carry no chord, left to right.
    pub passing: Vec<PassingPlace>,
}

/// Where a chord stands in its system.
#[derive(Clone, Debug, PartialEq)]
pub struct ChordPlace {
    /// Index of the chord in the reading.
    pub chord: usize,
    /// Index of its bass note in the sketch.
    pub note: usize,
    /// Which stage over that note.
    pub stage: usize,
    /// Middle of the main heads.
    pub x: f64,
    /// Left end of its column; columns touch.
    pub x_left: f64,
    /// Right end of its column.
    pub x_right: f64,
    /// Middle of the bass head.
    pub bass_x: f64,
    /// Middle of the bass head.
    pub bass_y: f64,
    /// The stave the bass stands on.
    pub bass_stave: Stave,
    /// Middle of the soprano head, which may stand aside of the main heads.
    pub soprano_x: f64,
    /// Middle of the soprano head, drawn or not.
    pub soprano_y: f64,
    /// The stave the soprano stands on.
    pub soprano_stave: Stave,
}

/// Where a bass note without a chord stands in its system.
#[derive(Clone, Debug, PartialEq)]
pub struct PassingPlace {
    /// Index of the bass note in the sketch.
    pub note: usize,
    /// Middle of the head.
    pub x: f64,
    /// Left end of its column.
    pub x_left: f64,
    /// Right end of its column.
    pub x_right: f64,
    /// Middle of the head.
    pub bass_y: f64,
    /// The stave it stands on.
    pub bass_stave: Stave,
}

impl System {
    /// The room that its staves and columns have.
    pub fn room(&self) -> Room {
        let between = self.bass_top - self.treble_top - 4.0;
        let below = self.figures_top - self.bass_top - 4.0;
        let chords =
            self.chords.iter().map(|it| Upright { x: it.x, left: it.x_left, right: it.x_right });
        let passing =
            self.passing.iter().map(|it| Upright { x: it.x, left: it.x_left, right: it.x_right });
        let mut columns: Vec<Upright> = chords.chain(passing).collect();
        columns.sort_unstable_by(|a, b| a.x.total_cmp(&b.x));
        Room {
            above: self.treble_top,
            rise: self.rise,
            between,
            below,
            columns,
            staff_end: self.staff_end,
        }
    }

    /// y of the top line of a stave.
    pub fn top(&self, stave: Stave) -> f64 {
        match stave {
            Stave::Treble => self.treble_top,
            Stave::Bass => self.bass_top,
        }
    }

    /// y of a line or space, given in letters above C0 (see
    /// [`crate::pitch::Pitch::diatonic`]).
    pub fn y_of(&self, stave: Stave, diatonic: i32) -> f64 {
        self.top(stave) + stave.down(diatonic)
    }

    /// The line or space nearest a height, in letters above C0; not a number
    /// gives the middle line. While a note is dragged, keep asking the system
    /// and stave on which the drag began, so that the answer does not jump.
    pub fn step_at(&self, stave: Stave, y: f64) -> i32 {
        let down = (y - self.top(stave)) * 2.0;
        if down.is_nan() {
            return stave.top_line() - 4;
        }
        stave.top_line() - down.round().clamp(-200.0, 200.0) as i32
    }

    /// The chord whose column holds x, else the nearest; `None` without chords.
    pub fn chord_at(&self, x: f64) -> Option<&ChordPlace> {
        let off = |place: &ChordPlace| (place.x_left - x).max(x - place.x_right).max(0.0);
        self.chords.iter().min_by(|a, b| off(a).total_cmp(&off(b)))
    }
}

impl Drawing {
    /// The system and place of a chord.
    pub fn find(&self, chord: usize) -> Option<(usize, &ChordPlace)> {
        self.systems.iter().enumerate().find_map(|(i, system)| {
            system.chords.iter().find(|place| place.chord == chord).map(|place| (i, place))
        })
    }
}
