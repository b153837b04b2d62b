//! The grand staff: white notes without bar lines, figures under the bass,
//! arpeggio signs, marks for faults and pins.
//!
//! [`draw`] lays a reading out in staff spaces and writes SVG markup whose user
//! unit is one staff space. Colours are left to the page: every part carries a
//! class, and everything is drawn in `currentColor`. The signs are outlines
//! defined once a page by [`symbols`] and used by id, or written where they stand.

mod column;
mod draw;
mod drawing;
mod figures;
mod glyph;
mod glyphs;
mod heads;
mod look;
mod marks;
mod motions;
mod outline;
mod paint;
mod pen;
mod scene;
mod signature;
mod stave;
mod symbols;
mod wrap;

pub use draw::{draw, redraw};
pub use drawing::{ChordPlace, Drawing, PassingPlace, System};
pub use heads::stave as stave_of;
pub use look::{Layer, Layers, Look, Painted, Room, Signs, Upright};
pub use stave::Stave;
pub use symbols::{STYLE, symbols, to_svg};
