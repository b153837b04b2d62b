//! The signs as SVG definitions, the styles, and a drawing as a file of its own.

use super::drawing::Drawing;
use super::figures::SCALE as FIGURES;
use super::glyph::Glyph;
use super::glyphs::{ALL, BLACK, WHOLE, WIGGLE};
use super::heads::SMALL;
use super::pen::{PREFIX, Pen};

/// Staff spaces in one unit of the outlines.
const UNIT: f64 = 0.004;
/// The longest piece of arpeggio sign that has an id, as a power of two.
pub(super) const LONGEST_ROLL: u32 = 5;
/// Clear space between systems in a file, in staff spaces.
const SYSTEM_AIR: f64 = 2.0;

/// The style a drawing needs at least; the page may add colours by class.
pub const STYLE: &str = "\
.hit{fill:none;pointer-events:all}\
.chord.selected .hit{fill:currentColor;fill-opacity:.08}\
.mark{fill:none;stroke:currentColor;stroke-width:.16;stroke-linecap:round}\
.mark text{fill:currentColor;stroke:none}\
.caution .mark,.mark.caution{stroke-dasharray:.5 .35}\
";

/// The outlines of all signs, to be put into one `<svg><defs>` of the page.
pub fn symbols() -> String {
    let mut pen = Pen::with_capacity(24_000);
    for glyph in ALL {
        let figure = glyph.id.starts_with("fig-");
        path(&mut pen, glyph, "", if figure { FIGURES } else { 1.0 });
    }
    path(&mut pen, &WHOLE, "-small", SMALL);
    path(&mut pen, &BLACK, "-small", SMALL);
    // Long arpeggio signs are built by doubling.
    for power in 1..=LONGEST_ROLL {
        let half = if power == 1 { String::new() } else { format!("-{}", 1 << (power - 1)) };
        let shift = WIGGLE.advance * f64::from(1 << (power - 1));
        pen.raw("<g id=\"").raw(PREFIX).raw(WIGGLE.id).raw("-").int(1 << power).raw("\">");
        pen.sign(&WIGGLE, &half, 0.0, 0.0).sign(&WIGGLE, &half, shift, 0.0).raw("</g>");
    }
    pen.finish()
}

fn path(pen: &mut Pen, glyph: &Glyph, suffix: &str, scale: f64) {
    let unit = scale * UNIT;
    pen.raw("<path id=\"").raw(PREFIX).raw(glyph.id).raw(suffix);
    pen.raw(&format!("\" transform=\"scale({unit:.5} -{unit:.5})\" d=\""));
    pen.raw(glyph.path).raw("\"/>");
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
