//! Writes SVG markup into one growing string.

use super::glyph::{Glyph, Size};
use super::look::Signs;
use super::outline::{self, Outline};

/// What every id of a sign starts with in the page.
pub(super) const PREFIX: &str = "ms-";

/// A string that SVG is written to; calls chain.
#[derive(Default)]
pub(super) struct Pen {
    out: String,
    signs: Signs,
    /// Where an element of outlines ends that the next outline may join.
    joins: usize,
}

/// What ends an element of outlines.
const END: &str = "\"/>";

impl Pen {
    pub(super) fn with_capacity(bytes: usize) -> Pen {
        Pen { out: String::with_capacity(bytes), ..Pen::default() }
    }

    /// How signs are written from here on.
    pub(super) fn with_signs(self, signs: Signs) -> Pen {
        Pen { signs, ..self }
    }

    pub(super) fn finish(self) -> String {
        self.out
    }

    /// Text as it is; the caller's own markup.
    pub(super) fn raw(&mut self, text: &str) -> &mut Pen {
        self.out.push_str(text);
        self
    }

    /// Text with the five special characters escaped.
    pub(super) fn text(&mut self, text: &str) -> &mut Pen {
        for c in text.chars() {
            match c {
                '&' => self.out.push_str("&amp;"),
                '<' => self.out.push_str("&lt;"),
                '>' => self.out.push_str("&gt;"),
                '"' => self.out.push_str("&quot;"),
                '\'' => self.out.push_str("&#39;"),
                _ => self.out.push(c),
            }
        }
        self
    }

    /// A whole number.
    pub(super) fn int(&mut self, number: usize) -> &mut Pen {
        let mut digits = [0u8; 20];
        let mut at = digits.len();
        let mut rest = number;
        loop {
            at -= 1;
            if let Some(digit) = digits.get_mut(at) {
                *digit = b'0' + (rest % 10) as u8;
            }
            rest /= 10;
            if rest == 0 {
                break;
            }
        }
        self.out.extend(digits.iter().skip(at).map(|&d| char::from(d)));
        self
    }

    /// A length in hundredths of a staff space, shortest form.
    pub(super) fn num(&mut self, value: f64) -> &mut Pen {
        let hundredths = (value * 100.0).round() as i64;
        if hundredths < 0 {
            self.out.push('-');
        }
        let size = hundredths.unsigned_abs() as usize;
        let (whole, part) = (size / 100, size % 100);
        if whole > 0 || part == 0 {
            self.int(whole);
        }
        if part > 0 {
            self.out.push('.');
            self.out.push(char::from(b'0' + (part / 10) as u8));
            if part % 10 > 0 {
                self.out.push(char::from(b'0' + (part % 10) as u8));
            }
        }
        self
    }

    /// Two lengths with a space between.
    pub(super) fn point(&mut self, x: f64, y: f64) -> &mut Pen {
        self.num(x).raw(" ").num(y)
    }

    /// A sign with its origin at a point. Outlines that follow one another share an element.
    pub(super) fn sign(&mut self, glyph: &Glyph, size: Size, x: f64, y: f64) -> &mut Pen {
        if self.signs == Signs::Outlined
            && let Some(outline) = outline::of(glyph, size)
        {
            return self.outline(outline, x, y);
        }
        self.raw("<use href=\"#").raw(PREFIX).raw(glyph.id).raw(size.suffix());
        self.raw("\" x=\"").num(x).raw("\" y=\"").num(y).raw("\"/>")
    }

    fn outline(&mut self, outline: &Outline, x: f64, y: f64) -> &mut Pen {
        if self.joins > 0 && self.joins == self.out.len() {
            self.out.truncate(self.joins - END.len());
        } else {
            self.raw("<path d=\"");
        }
        self.outline_within(outline, x, y).raw(END);
        self.joins = self.out.len();
        self
    }

    /// The outline within the data of a path that the caller has begun.
    pub(super) fn outline_within(&mut self, outline: &Outline, x: f64, y: f64) -> &mut Pen {
        let (dx, dy) = outline.start;
        self.raw("M").point(x + dx, y + dy).raw(&outline.steps)
    }

    /// Whether signs are written as outlines.
    pub(super) fn outlines(&self) -> bool {
        self.signs == Signs::Outlined
    }

    /// A filled rectangle.
    pub(super) fn rect(&mut self, x: f64, y: f64, width: f64, height: f64) -> &mut Pen {
        self.raw("<rect x=\"").num(x).raw("\" y=\"").num(y);
        self.raw("\" width=\"").num(width).raw("\" height=\"").num(height).raw("\"/>")
    }
}

#[cfg(test)]
mod tests {
    use super::Pen;

    #[test]
    fn lengths_are_short_and_rounded() {
        let written = |value: f64| {
            let mut pen = Pen::default();
            pen.num(value);
            pen.finish()
        };
        let pairs = [
            (0.0, "0"),
            (1.0, "1"),
            (-0.5, "-.5"),
            (12.345, "12.35"),
            (0.004, "0"),
            (-3.999, "-4"),
            (7.05, "7.05"),
        ];
        for (value, text) in pairs {
            assert_eq!(written(value), text);
        }
    }

    #[test]
    fn text_is_escaped() {
        let mut pen = Pen::default();
        pen.text("<a b=\"&'>");
        assert_eq!(pen.finish(), "&lt;a b=&quot;&amp;&#39;&gt;");
    }
}
