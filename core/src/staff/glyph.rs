//! One music sign as an outline.

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
