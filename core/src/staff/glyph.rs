//! One music sign as an outline, and its two sizes.

/// Size of the inner notes against the outer voices.
pub(super) const SMALL: f64 = 0.8;

/// How large a sign is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Size {
    /// As the font has it.
    Full,
    /// As the inner notes.
    Small,
}

impl Size {
    /// Against the font's own size.
    pub(super) const fn scale(self) -> f64 {
        match self {
            Size::Full => 1.0,
            Size::Small => SMALL,
        }
    }

    /// The end of the sign's id.
    pub(super) const fn suffix(self) -> &'static str {
        match self {
            Size::Full => "",
            Size::Small => "-small",
        }
    }
}

/// A sign's outline and measures.
pub(super) struct Glyph {
    /// Its id in the page, without the prefix.
    pub(super) id: &'static str,
    /// Left, bottom, right, top in staff spaces, y up.
    pub(super) bounds: [f64; 4],
    /// The distance to whatever follows, in staff spaces.
    pub(super) advance: f64,
    /// SVG path data in 250ths of a staff space, y up.
    pub(super) path: &'static str,
}

impl Glyph {
    /// How far it reaches above its origin, in staff spaces.
    pub(super) const fn above(&self) -> f64 {
        self.bounds[3]
    }

    /// How far it reaches below its origin, in staff spaces.
    pub(super) const fn below(&self) -> f64 {
        -self.bounds[1]
    }
}
