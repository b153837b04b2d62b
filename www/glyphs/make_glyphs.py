#!/usr/bin/env python3
"""Writes core/src/staff/glyphs.rs: the outlines of the few music signs we draw.

Usage: make_glyphs.py PACKAGE_DIR OUTPUT.rs
PACKAGE_DIR is the unpacked npm package @vexflow-fonts/bravura (version 1.0.2).
Needs Python 3 with fontTools. Code points are those of the SMuFL standard;
each outline's box is checked against the box the font's metadata states.
"""
import json
import sys

from fontTools.pens.basePen import BasePen
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont

# Our name, SMuFL name, SMuFL code point. Only what the staff draws.
SIGNS = [
    ("CLEF_G", "gClef", 0xE050),
    ("CLEF_F", "fClef", 0xE062),
    ("WHOLE", "noteheadWhole", 0xE0A2),
    ("HALF", "noteheadHalf", 0xE0A3),
    ("BLACK", "noteheadBlack", 0xE0A4),
    ("FLAT", "accidentalFlat", 0xE260),
    ("NATURAL", "accidentalNatural", 0xE261),
    ("SHARP", "accidentalSharp", 0xE262),
    ("DOUBLE_SHARP", "accidentalDoubleSharp", 0xE263),
    ("DOUBLE_FLAT", "accidentalDoubleFlat", 0xE264),
    ("PAREN_LEFT", "accidentalParensLeft", 0xE26A),
    ("PAREN_RIGHT", "accidentalParensRight", 0xE26B),
    ("FIG_2", "figbass2", 0xEA52),
    ("FIG_2_RAISED", "figbass2Raised", 0xEA53),
    ("FIG_3", "figbass3", 0xEA54),
    ("FIG_4", "figbass4", 0xEA55),
    ("FIG_4_RAISED", "figbass4Raised", 0xEA56),
    ("FIG_5", "figbass5", 0xEA57),
    ("FIG_5_RAISED", "figbass5Raised2", 0xEA59),
    ("FIG_6", "figbass6", 0xEA5B),
    ("FIG_6_RAISED", "figbass6Raised", 0xEA5C),
    ("FIG_7", "figbass7", 0xEA5D),
    ("FIG_7_RAISED", "figbass7Raised2", 0xEA5F),
    ("FIG_8", "figbass8", 0xEA60),
    ("FIG_9", "figbass9", 0xEA61),
    ("FIG_9_RAISED", "figbass9Raised", 0xEA62),
    ("FIG_DOUBLE_FLAT", "figbassDoubleFlat", 0xEA63),
    ("FIG_FLAT", "figbassFlat", 0xEA64),
    ("FIG_NATURAL", "figbassNatural", 0xEA65),
    ("FIG_SHARP", "figbassSharp", 0xEA66),
    ("FIG_DOUBLE_SHARP", "figbassDoubleSharp", 0xEA67),
    ("FIG_PLUS", "figbassPlus", 0xEA6C),
    ("WIGGLE", "wiggleArpeggiatoUp", 0xEAA9),
    ("BRACE", "brace", 0xE000),
    ("FERMATA", "fermataAbove", 0xE4C0),
    ("TRILL", "ornamentTrill", 0xE566),
    ("MORDENT", "ornamentMordent", 0xE56D),
]


class RelativePath(BasePen):
    """SVG path data in whole font units, y up, relative commands."""

    def __init__(self, glyphs):
        super().__init__(glyphs)
        self.out, self.at, self.last = [], (0, 0), ""

    def put(self, letter, points):
        numbers = []
        for x, y in points:
            numbers += [round(x) - self.at[0], round(y) - self.at[1]]
        if letter == "l" and numbers[1] == 0:
            letter, numbers = "h", numbers[:1]
        elif letter == "l" and numbers[0] == 0:
            letter, numbers = "v", numbers[1:]
        text = "" if letter == self.last else letter
        for number in numbers:
            if text and text[-1].isdigit() and number >= 0:
                text += " "
            elif not text and number >= 0:
                text += " "
            text += str(number)
        self.out.append(text)
        self.at = (round(points[-1][0]), round(points[-1][1]))
        self.last = letter

    def _moveTo(self, p):
        self.put("m", [p])
        self.start = self.at

    def _lineTo(self, p):
        if (round(p[0]), round(p[1])) != self.at:
            self.put("l", [p])

    def _curveToOne(self, a, b, c):
        self.put("c", [a, b, c])

    def _closePath(self):
        self.out.append("z")
        self.last, self.at = "z", self.start


def main():
    package, output = sys.argv[1:3]
    font = TTFont(f"{package}/bravura.otf")
    facts = json.load(open(f"{package}/metadata.json", encoding="utf-8"))
    glyphs, names = font.getGlyphSet(), font.getBestCmap()
    per_space = font["head"].unitsPerEm / 4
    assert per_space == 250, "the symbols' scale in symbols.rs assumes 250 units a space"
    rows = []
    for ours, smufl, code in SIGNS:
        glyph = glyphs[names[code]]
        pen = RelativePath(glyphs)
        glyph.draw(pen)
        bounds = BoundsPen(glyphs)
        glyph.draw(bounds)
        box = [round(v / per_space, 3) for v in bounds.bounds]
        stated = facts["glyphBBoxes"][smufl]
        stated = stated["bBoxSW"] + stated["bBoxNE"]
        assert all(abs(a - b) < 0.03 for a, b in zip(box, stated)), (smufl, box, stated)
        advance = facts["glyphAdvanceWidths"][smufl]
        name = ours.lower().replace("_", "-")
        rows.append(
            f"/// SMuFL `{smufl}`, U+{code:X}.\n"
            f"pub(super) const {ours}: Glyph = Glyph {{\n"
            f'    id: "{name}",\n'
            f"    bounds: {box},\n"
            f"    advance: {float(advance)},\n"
            f'    path: "{"".join(pen.out)}",\n'
            "};\n\n"
        )
    all_names = "".join(f"    &{ours},\n" for ours, _, _ in SIGNS)
    with open(output, "w", encoding="utf-8") as file:
        file.write(
            "//! Outlines of the music signs, derived from a font under the SIL Open Font\n"
            "//! License 1.1; its text is in www/glyphs/OFL.txt. Written by\n"
            "//! www/glyphs/make_glyphs.py, not by hand.\n\n"
            "use super::glyph::Glyph;\n\n"
            + "".join(rows)
            + "/// Every sign, in the order above.\n"
            f"pub(super) const ALL: [&Glyph; {len(SIGNS)}] = [\n{all_names}];\n"
        )


main()
