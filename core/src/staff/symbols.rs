//! The signs as SVG definitions, the styles, and a drawing as a file of its own.

use super::drawing::Drawing;
use super::figures::SCALE as FIGURES;
use super::glyph::{Glyph, SMALL};
use super::glyphs::{
    ALL, BLACK, DOUBLE_FLAT, DOUBLE_SHARP, FLAT, NATURAL, PAREN_LEFT, PAREN_RIGHT, SHARP, WHOLE,
    WIGGLE,
};
use super::pen::{PREFIX, Pen};

/// Staff spaces in one unit of the outlines.
const UNIT: f64 = 0.004;
/// The longest piece of arpeggio sign that has an id, as a power of two.
pub(super) const LONGEST_ROLL: u32 = 5;
/// Signs that are also used at the inner notes' size.
const SMALL_TOO: [&Glyph; 9] = [
    &WHOLE,
    &BLACK,
    &FLAT,
    &NATURAL,
    &SHARP,
    &DOUBLE_FLAT,
    &DOUBLE_SHARP,
    &PAREN_LEFT,
    &PAREN_RIGHT,
];
/// Clear space between systems in a file, in staff spaces.
const SYSTEM_AIR: f64 = 2.0;

/// The style a drawing needs at least; the page may add colours by class.
pub const STYLE: &str = "\
.hit{fill:none;pointer-events:all}\
.chord.selected .hit{fill:currentColor;fill-opacity:.08}\
.mark{fill:none;stroke:currentColor;stroke-width:.16;stroke-linecap:round}\
.mark.caution{stroke-dasharray:.5 .35}\
";

/// The notice that goes wherever the outlines go.
const NOTICE: &str = "<!-- Outlines of music signs derived from a font, Copyright © 2019 Steinberg \
    Media Technologies GmbH, under the SIL Open Font License, Version 1.1; its text is with this \
    program in www/glyphs/OFL.txt. -->";

/// Staff spaces in one unit of a sign's outline.
pub(super) fn unit(glyph: &Glyph) -> f64 {
    UNIT * if glyph.id.starts_with("fig-") { FIGURES } else { 1.0 }
}

/// The outlines of all signs, to be put into one `<svg><defs>` of the page.
pub fn symbols() -> String {
    let mut pen = Pen::with_capacity(24_000);
    pen.raw(NOTICE);
    for glyph in ALL {
        let unit = unit(glyph);
        pen.raw("<path id=\"").raw(PREFIX).raw(glyph.id);
        pen.raw(&format!("\" transform=\"scale({unit:.4} -{unit:.4})\" d=\""));
        pen.raw(glyph.path).raw("\"/>");
    }
    for glyph in SMALL_TOO {
        pen.raw("<g id=\"").raw(PREFIX).raw(glyph.id).raw("-small\"><use href=\"#");
        pen.raw(PREFIX).raw(glyph.id).raw("\" transform=\"scale(").num(SMALL).raw(")\"/></g>");
    }
    // Long arpeggio signs are built by doubling.
    for power in 1..=LONGEST_ROLL {
        let half = 1usize << (power - 1);
        pen.raw("<g id=\"");
        roll_id(&mut pen, 2 * half).raw("\">");
        for along in [0.0, WIGGLE.advance * half as f64] {
            pen.raw("<use href=\"#");
            roll_id(&mut pen, half).raw("\" x=\"").num(along).raw("\"/>");
        }
        pen.raw("</g>");
    }
    pen.finish()
}

/// The id of an arpeggio sign of so many waves, a power of two.
pub(super) fn roll_id(pen: &mut Pen, waves: usize) -> &mut Pen {
    pen.raw(PREFIX).raw(WIGGLE.id);
    if waves > 1 {
        pen.raw("-").int(waves);
    }
    pen
}

/// A drawing as one self-contained SVG file; `space` is the height of one staff
/// space in the file's pixels.
pub fn to_svg(drawing: &Drawing, space: f64) -> String {
    let width = drawing.systems.iter().map(|s| s.width).fold(0.0, f64::max);
    let height: f64 = drawing.systems.iter().map(|s| s.height + SYSTEM_AIR).sum();
    let mut pen = Pen::with_capacity(64_000);
    pen.raw("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 ").point(width, height);
    pen.raw("\" width=\"").num(width * space).raw("\" height=\"").num(height * space);
    pen.raw("\"><style>").raw(STYLE).raw("</style><defs>").raw(&symbols()).raw("</defs>");
    let mut y = SYSTEM_AIR / 2.0;
    for system in &drawing.systems {
        pen.raw("<g transform=\"translate(0 ").num(y).raw(")\">").raw(&system.svg).raw("</g>");
        y += system.height + SYSTEM_AIR;
    }
    pen.raw("</svg>");
    pen.finish()
}
