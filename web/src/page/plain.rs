//! A system as it is seen and no more: the same ink in a tenth of the elements, without what a
//! finger takes hold of, for a page that is scrolled too fast for anything else.

use super::patch::{Tag, pieces};
use std::fmt::Write;

/// Ink of one kind: path data.
#[derive(Default)]
struct Ink {
    /// What is black.
    outer: String,
    left: String,
    right: String,
    rolls: String,
    /// The brackets of the hands, which are lines.
    brackets: [String; 2],
    /// What is written as it stands.
    others: String,
}

/// The markup of a system with all columns of one ink in one path.
pub(super) fn plain(markup: &str) -> String {
    let mut ink = Ink::default();
    for piece in pieces(markup) {
        match Tag::of(piece) {
            Some(tag) if tag.has_class("chord") || tag.has_class("passing") => ink.column(&tag),
            _ => ink.others += piece,
        }
    }
    let Ink { outer, left, right, rolls, brackets: [left_line, right_line], others } = ink;
    let line = "fill=\"none\" stroke=\"currentColor\" stroke-width=\".12\"";
    format!(
        "{others}<g fill=\"currentColor\" aria-hidden=\"true\"><path d=\"{outer}\"/>\
         <path class=\"left\" d=\"{left}\"/><path class=\"right\" d=\"{right}\"/>\
         <path fill-opacity=\".75\" d=\"{rolls}\"/><path class=\"left\" {line} d=\"{left_line}\"/>\
         <path class=\"right\" {line} d=\"{right_line}\"/></g>"
    )
}

impl Ink {
    fn column(&mut self, column: &Tag) {
        for piece in column.elements().unwrap_or_default() {
            let Some(tag) = Tag::of(piece) else { continue };
            let data = tag.attribute("d").unwrap_or_default();
            match tag.attribute("class").unwrap_or_default() {
                "hit" if column.has_class("selected") => {
                    let _ = write!(self.others, "<g class=\"chord selected\">{piece}</g>");
                }
                "hit" => {}
                "roll" => self.rolls += data,
                "hand left" => self.brackets[0] += data,
                "hand right" => self.brackets[1] += data,
                "figures" => self.group(&tag),
                _ if tag.has_class("note") => self.group(&tag),
                _ => self.shape(column, &tag, piece),
            }
        }
    }

    fn group(&mut self, group: &Tag) {
        for piece in group.elements().unwrap_or_default() {
            match Tag::of(piece) {
                Some(tag) if tag.name == "title" || tag.has_class("grip") => {}
                Some(tag) => self.shape(group, &tag, piece),
                None => {}
            }
        }
    }

    /// A filled shape of a group, whose voice says what colour it has.
    fn shape(&mut self, group: &Tag, tag: &Tag, piece: &str) {
        let outer = ["bass", "soprano"].into_iter().any(|voice| group.has_class(voice));
        let ink = match (group.has_class("left"), group.has_class("right")) {
            _ if outer => &mut self.outer,
            (true, _) => &mut self.left,
            (_, true) => &mut self.right,
            (false, false) => &mut self.outer,
        };
        let number = |name| tag.attribute(name).and_then(|it| it.parse::<f64>().ok());
        let box_of = || Some((number("x")?, number("y")?, number("width")?, number("height")?));
        let round = || Some((number("cx")?, number("cy")?, number("r")?));
        if let ("path", Some(data)) = (tag.name, tag.attribute("d")) {
            ink.push_str(data);
        } else if let ("rect", Some((x, y, width, height))) = (tag.name, box_of()) {
            let _ = write!(ink, "M{x:.2} {y:.2}h{width:.2}v{height:.2}h-{width:.2}z");
        } else if let ("circle", Some((x, y, r))) = (tag.name, round()) {
            let (left, wide) = (x - r, 2.0 * r);
            let _ = write!(ink, "M{left:.2} {y:.2}a{r} {r} 0 0 1 {wide} 0a{r} {r} 0 0 1-{wide} 0z");
        } else {
            self.others += piece;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use tastata::pitch::Pitch;
    use tastata::reading::read;
    use tastata::sketch::{Sketch, SketchNote};
    use tastata::staff::{Look, Signs, draw};

    #[test]
    fn all_ink_is_there_in_few_elements() {
        let mut sketch = Sketch::default();
        for i in 0..24 {
            sketch.notes.push(SketchNote::bare(Pitch::from_diatonic(15 + i % 9, (i % 2) as i8)));
        }
        let look = Look { selected: Some(3), signs: Signs::Outlined, ..Look::new(60.0) };
        for system in draw(&sketch, &read(&sketch), &look).systems {
            let plain = plain(&system.svg);
            let outlines = |markup: &str| {
                // Each piece of data begins with a move; a line or a circle of its own is one more.
                let data = markup.split(" d=\"").skip(1).filter_map(|it| it.split('"').next());
                data.map(|it| it.matches('M').count()).sum::<usize>()
            };
            let own = |markup: &str, tag: &str| {
                let all = markup.split(tag).skip(1).filter_map(|it| it.split('>').next());
                all.filter(|it| !it.contains("hit") && !it.contains("grip")).count()
            };
            let shapes = |it: &str| outlines(it) + own(it, "<rect ") + own(it, "<circle ");
            assert_eq!(shapes(&plain), shapes(&system.svg));
            let elements = |it: &str| it.matches("<").count() - it.matches("</").count();
            let heads = system.svg.matches("class=\"note").count();
            assert!(elements(&plain) * 4 < elements(&system.svg), "{heads} heads");
            assert_eq!(plain.matches("selected").count(), system.svg.matches("selected").count());
        }
    }
}
