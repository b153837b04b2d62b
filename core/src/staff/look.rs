//! What is to be drawn, and how wide.

use crate::words::Lang;

/// How a reading is to be drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Look {
    /// Staff spaces available for one system; at least [`Look::NARROWEST`] is used.
    pub width: f64,
    /// What is shown.
    pub show: Layers,
    /// Index of the chord that is marked as selected.
    pub selected: Option<usize>,
    /// The least clear space between columns, in staff spaces; at least as much as
    /// what is drawn needs.
    pub air: f64,
    /// What was there in each system, first to last, so that nothing moves under a finger
    /// that drags: columns stay where they stand, and staves where they lie as long as what
    /// is drawn has room there. Missing means what is needed.
    pub rooms: Vec<Room>,
    /// What is painted, and not only laid out.
    pub painted: Painted,
    /// How signs are written.
    pub signs: Signs,
    /// Who reads the names of the notes.
    pub lang: Lang,
}

/// What of a system is painted once it is laid out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Painted {
    /// All of it.
    #[default]
    Whole,
    /// The chord of this index, and the marks of all faults in its system.
    Chord(usize),
    /// Nothing.
    Nothing,
}

/// How the signs of music are written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Signs {
    /// Each by the id that [`super::symbols`] gives it: short.
    #[default]
    ById,
    /// Each as an outline where it stands: longer, and drawn by a browser in a fraction of the
    /// time.
    Outlined,
}

impl Look {
    /// The narrowest system that is laid out, in staff spaces.
    pub const NARROWEST: f64 = 24.0;

    /// Everything shown but what must be asked for, at this width.
    pub fn new(width: f64) -> Look {
        Look {
            width,
            show: Layers::usual(),
            selected: None,
            air: 0.0,
            lang: Lang::default(),
            rooms: Vec::new(),
            painted: Painted::Whole,
            signs: Signs::ById,
        }
    }
}

/// Where staves and columns are in a system, in staff spaces: see [`super::System`].
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Room {
    /// Above the upper stave.
    pub above: f64,
    /// Above that, see [`super::System::rise`].
    pub rise: f64,
    /// Between the staves.
    pub between: f64,
    /// From the lower stave to the figures.
    pub below: f64,
    /// Its columns, left to right.
    pub columns: Vec<Upright>,
    /// Where the staff lines end.
    pub staff_end: f64,
}

/// Where a column stands, in staff spaces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Upright {
    /// The middle of its main heads.
    pub x: f64,
    /// Its left end.
    pub left: f64,
    /// Its right end.
    pub right: f64,
}

/// Something that can be shown or left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Layer {
    /// The figures under the bass.
    Figures,
    /// The soprano.
    Soprano,
    /// The notes between the outer voices.
    Inner,
    /// The arpeggio signs.
    Rolls,
    /// The half-brackets that tell the hands apart.
    Hands,
    /// The marks of faults and cautions.
    Faults,
    /// The marks of pinned soprano notes.
    Pins,
    /// The motion of the outer voices between chords.
    Motions,
}

impl Layer {
    /// Every layer.
    pub const ALL: [Layer; 8] = [
        Layer::Figures,
        Layer::Soprano,
        Layer::Inner,
        Layer::Rolls,
        Layer::Hands,
        Layer::Faults,
        Layer::Pins,
        Layer::Motions,
    ];
}

/// A set of layers. The bass is always drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Layers(u16);

impl Layers {
    /// The bass alone.
    pub const NONE: Layers = Layers(0);

    /// Everything.
    pub fn all() -> Layers {
        Layer::ALL.into_iter().fold(Layers::NONE, Layers::with)
    }

    /// Everything but the motions.
    pub fn usual() -> Layers {
        Layers::all().without(Layer::Motions)
    }

    /// These and one more.
    pub const fn with(self, layer: Layer) -> Layers {
        Layers(self.0 | 1 << layer as u16)
    }

    /// These less one.
    pub const fn without(self, layer: Layer) -> Layers {
        Layers(self.0 & !(1 << layer as u16))
    }

    /// Whether the layer is shown.
    pub const fn has(self, layer: Layer) -> bool {
        self.0 & (1 << layer as u16) != 0
    }
}
