//! Mending drawn markup where it differs: elements stay, and of each only the attributes,
//! the text and the children that are no longer the same are changed, so that a drag costs
//! the browser no more than what it moves.

use std::borrow::Cow;
use std::ops::Range;
use web_sys::Element;

/// The elements at the top level of what an element holds, as their markup.
#[derive(Clone, Default, PartialEq)]
pub(super) struct Pieces(Vec<String>);

impl Pieces {
    /// The pieces of some markup of ours: every tag closed, every attribute in double quotes.
    pub(super) fn of(markup: &str) -> Pieces {
        Pieces(owned(&pieces(markup)))
    }

    /// Whether there is none.
    pub(super) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Brings an element that holds these pieces to what `new` makes: a piece that stands where
    /// it stood is mended, one that has moved is parsed and drawn anew. Mends no further once
    /// `goes_on` says no; says whether all is done.
    pub(super) fn patch(
        &mut self,
        element: &Element,
        new: &str,
        goes_on: impl Fn() -> bool,
    ) -> bool {
        let after = pieces(new);
        if element.children().length() as usize != self.0.len() {
            // Something else has been there.
            element.set_inner_html(new);
            self.0 = owned(&after);
            return true;
        }
        if self.0.len() == after.len() {
            let moved = self.0.iter().zip(&after).map(|(old, new)| old != new && !stays(old, new));
            // From the end, so that what is still to be replaced stays where it is counted.
            for (from, to) in runs(moved).into_iter().rev() {
                self.replace(element, from..to, after.get(from..to).unwrap_or_default());
            }
            return self.mend(element, after.into_iter().enumerate(), goes_on);
        }
        let head = common(self.0.iter().zip(&after));
        let rest = self.0.len().min(after.len()) - head;
        let tail = common(self.0.iter().rev().zip(after.iter().rev()).take(rest));
        let come = after.get(head..after.len() - tail).unwrap_or_default();
        self.replace(element, head..self.0.len() - tail, come);
        true
    }

    /// Puts others in the place of some pieces.
    fn replace(&mut self, element: &Element, gone: Range<usize>, come: &[&str]) {
        let children = element.children();
        let markup = come.concat();
        let _ = match children.item(gone.start as u32) {
            Some(next) => next.insert_adjacent_html("beforebegin", &markup),
            None => element.insert_adjacent_html("beforeend", &markup),
        };
        let first = gone.start + come.len();
        for _ in gone.clone() {
            if let Some(child) = children.item(first as u32) {
                child.remove();
            }
        }
        self.0.splice(gone, come.iter().map(|&piece| piece.to_owned()));
    }

    /// Brings some pieces of what an element holds to those of the same id, or class where
    /// they have none, in `new`; says whether all were there.
    pub(super) fn mend_some(&mut self, element: &Element, new: &str) -> bool {
        let place = |new| self.0.iter().position(|old| key(old) == key(new)).zip(Some(new));
        let Some(places) = pieces(new).into_iter().map(place).collect::<Option<Vec<_>>>() else {
            return false;
        };
        self.mend(element, places.into_iter(), || true)
    }

    /// Brings the pieces of these numbers to others, while `goes_on` says so; says whether all
    /// is done.
    fn mend<'a>(
        &mut self,
        element: &Element,
        new: impl Iterator<Item = (usize, &'a str)>,
        goes_on: impl Fn() -> bool,
    ) -> bool {
        let children = element.children();
        for (i, new) in new {
            if let Some(old) = self.0.get_mut(i).filter(|old| *old != new)
                && let Some(child) = children.item(i as u32)
            {
                if !goes_on() {
                    return false;
                }
                mend(&child, old, new);
                new.clone_into(old);
            }
        }
        true
    }
}

/// What tells a piece from its neighbours.
fn key(piece: &str) -> Option<&str> {
    let tag = Tag::opening(piece)?;
    tag.attribute("id").or(tag.attribute("class"))
}

/// Whether a piece stands where it stood: the first thing in it does.
fn stays(old: &str, new: &str) -> bool {
    let end = new.find("/>").unwrap_or(new.len());
    old.get(..end).is_some_and(|old| new.get(..end) == Some(old))
}

/// The stretches that are true, each from its first to behind its last.
fn runs(flags: impl Iterator<Item = bool>) -> Vec<(usize, usize)> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for (i, _) in flags.enumerate().filter(|(_, flag)| *flag) {
        match runs.last_mut() {
            Some((_, end)) if *end == i => *end = i + 1,
            _ => runs.push((i, i + 1)),
        }
    }
    runs
}

fn common<'a>(pairs: impl Iterator<Item = (&'a String, &'a &'a str)>) -> usize {
    pairs.take_while(|(a, b)| a == b).count()
}

fn owned(pieces: &[&str]) -> Vec<String> {
    pieces.iter().map(|&piece| piece.to_owned()).collect()
}

/// Brings an element that is what one piece makes to what another makes.
pub(super) fn mend(element: &Element, old: &str, new: &str) {
    if old == new {
        return;
    }
    let (Some(before), Some(after)) = (Tag::of(old), Tag::of(new)) else { return };
    if !before.is(&after) {
        let _ = element.insert_adjacent_html("beforebegin", new);
        element.remove();
        return;
    }
    if before.attributes != after.attributes {
        for (name, value) in after.attributes() {
            if before.attribute(name) != Some(value) {
                let _ = element.set_attribute(name, &plain(value));
            }
        }
        for (name, _) in before.attributes() {
            if after.attribute(name).is_none() {
                let _ = element.remove_attribute(name);
            }
        }
    }
    if before.inner == after.inner {
        return;
    }
    match (before.elements(), after.elements()) {
        (Some(old), Some(new)) => bring(element, &old, &new),
        (None, None) => element.set_text_content(Some(&plain(after.inner))),
        _ => element.set_inner_html(after.inner),
    }
}

/// Brings an element that holds some pieces to others.
fn bring(element: &Element, old: &[&str], new: &[&str]) {
    let mut child = element.first_element_child();
    for turn in turns(old, new) {
        let next = child.as_ref().and_then(Element::next_element_sibling);
        match (turn, &child) {
            (Turn::Mend(old, new), Some(child)) => mend(child, old, new),
            (Turn::Drop, Some(child)) => child.remove(),
            (Turn::Add(new), Some(child)) => {
                let _ = child.insert_adjacent_html("beforebegin", new);
                continue;
            }
            (Turn::Add(new) | Turn::Mend(_, new), None) => {
                let _ = element.insert_adjacent_html("beforeend", new);
            }
            (Turn::Drop, None) => {}
        }
        child = next;
    }
}

/// What is to be done with the next of the elements there are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Turn<'a> {
    /// It stays, mended from one piece to another.
    Mend(&'a str, &'a str),
    /// It goes.
    Drop,
    /// This one comes before it.
    Add(&'a str),
}

/// How some pieces become others: each new one takes the next old one of its kind, and what
/// stands before that goes; where there is none of its kind, it comes as it is.
fn turns<'a>(old: &[&'a str], new: &[&'a str]) -> Vec<Turn<'a>> {
    let tags = |pieces: &[&'a str]| -> Vec<Option<Tag<'a>>> {
        pieces.iter().map(|&piece| Tag::of(piece)).collect()
    };
    let kinds = tags(old);
    let mut turns = Vec::with_capacity(old.len().max(new.len()));
    let mut at = 0;
    for (&piece, tag) in new.iter().zip(tags(new)) {
        let alike = |it: &Option<Tag>| it.as_ref().zip(tag.as_ref()).is_some_and(|(a, b)| a.is(b));
        match kinds.iter().skip(at).position(alike) {
            Some(gone) => {
                turns.extend((0..gone).map(|_| Turn::Drop));
                at += gone;
                turns.extend(old.get(at).map(|&old| Turn::Mend(old, piece)));
                at += 1;
            }
            None => turns.push(Turn::Add(piece)),
        }
    }
    turns.extend((at..old.len()).map(|_| Turn::Drop));
    turns
}

/// A piece taken apart.
pub(super) struct Tag<'a> {
    pub(super) name: &'a str,
    attributes: &'a str,
    inner: &'a str,
}

impl<'a> Tag<'a> {
    /// The name and the attributes of a piece.
    fn opening(piece: &'a str) -> Option<Tag<'a>> {
        let end = tag_end(piece.as_bytes(), 0)?;
        let opening = piece.get(1..end)?.trim_end_matches('/');
        let name = opening.split(' ').next()?;
        Some(Tag { name, attributes: opening.get(name.len()..)?, inner: "" })
    }

    pub(super) fn of(piece: &'a str) -> Option<Tag<'a>> {
        let tag = Tag::opening(piece)?;
        let end = tag_end(piece.as_bytes(), 0)?;
        let inner = match piece.get(..end)?.ends_with('/') {
            true => "",
            false => piece.get(end + 1..piece.rfind("</")?)?,
        };
        Some(Tag { inner, ..tag })
    }

    /// Whether one may become the other: what has an id is itself and no other.
    fn is(&self, other: &Tag) -> bool {
        self.name == other.name && self.attribute("id") == other.attribute("id")
    }

    /// Names and values, as they are written.
    fn attributes(&self) -> impl Iterator<Item = (&'a str, &'a str)> + use<'a> {
        let mut rest = self.attributes;
        std::iter::from_fn(move || {
            let (name, after) = rest.split_once("=\"")?;
            let (value, after) = after.split_once('"')?;
            rest = after;
            Some((name.trim(), value))
        })
    }

    pub(super) fn attribute(&self, name: &str) -> Option<&'a str> {
        self.attributes().find(|(it, _)| *it == name).map(|(_, value)| value)
    }

    pub(super) fn has_class(&self, class: &str) -> bool {
        self.attribute("class").is_some_and(|it| it.split(' ').any(|it| it == class))
    }

    /// The elements inside; none where there is text.
    pub(super) fn elements(&self) -> Option<Vec<&'a str>> {
        let pieces = pieces(self.inner);
        let length: usize = pieces.iter().map(|piece| piece.len()).sum();
        (length == self.inner.len()).then_some(pieces)
    }
}

/// Text without the escapes of the five special characters.
fn plain(text: &str) -> Cow<'_, str> {
    if !text.contains('&') {
        return Cow::Borrowed(text);
    }
    let text = text.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"");
    // The ampersand last: what it makes is no escape.
    Cow::Owned(text.replace("&#39;", "'").replace("&amp;", "&"))
}

/// The elements at the top level of some markup of ours: every tag closed, every
/// attribute in double quotes.
pub(super) fn pieces(markup: &str) -> Vec<&str> {
    let bytes = markup.as_bytes();
    let (mut pieces, mut depth, mut start, mut i) = (Vec::new(), 0usize, 0, 0);
    while let Some(opens) = bytes.get(i..).and_then(|rest| rest.iter().position(|&b| b == b'<')) {
        let tag = i + opens;
        let Some(end) = tag_end(bytes, tag) else { break };
        if depth == 0 {
            start = tag;
        }
        let closing = bytes.get(tag + 1) == Some(&b'/');
        let alone = bytes.get(end - 1) == Some(&b'/');
        match (closing, alone) {
            (true, _) => depth = depth.saturating_sub(1),
            (false, true) => {}
            (false, false) => depth += 1,
        }
        i = end + 1;
        if depth == 0
            && let Some(piece) = markup.get(start..i)
        {
            pieces.push(piece);
        }
    }
    pieces
}

/// Where the tag that begins at `tag` ends.
fn tag_end(bytes: &[u8], tag: usize) -> Option<usize> {
    let mut quoted = false;
    for (i, &byte) in bytes.iter().enumerate().skip(tag) {
        match byte {
            b'"' => quoted = !quoted,
            b'>' if !quoted => return Some(i),
            _ => {}
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn markup_falls_into_its_top_elements() {
        let markup = "<g a=\"1>2\"><use/><g><text>x</text></g></g><rect/><g></g>";
        let expected = ["<g a=\"1>2\"><use/><g><text>x</text></g></g>", "<rect/>", "<g></g>"];
        assert_eq!(pieces(markup), expected);
        assert_eq!(pieces(""), Vec::<&str>::new());
        assert_eq!(pieces("<g>").len(), 0);
    }

    #[test]
    fn what_differs_side_by_side_is_one_run() {
        let flags = [true, true, false, true, false, false];
        assert_eq!(runs(flags.into_iter()), [(0, 2), (3, 4)]);
    }

    #[test]
    fn what_stands_where_it_stood_begins_alike() {
        let chord = |x, y| format!("<g id=\"c\"><rect x=\"{x}\"/><path d=\"M0 {y}\"/></g>");
        assert!(stays(&chord(1, 1), &chord(1, 2)));
        assert!(!stays(&chord(1, 1), &chord(2, 1)));
        assert!(!stays("<g/>", &chord(1, 1)));
    }

    #[test]
    fn a_piece_is_taken_apart() {
        let tag = Tag::of("<g class=\"a b\" id=\"x\"><path d=\"M0 0\"/></g>").expect("a tag");
        assert_eq!((tag.name, tag.inner), ("g", "<path d=\"M0 0\"/>"));
        let attributes: Vec<_> = tag.attributes().collect();
        assert_eq!(attributes, [("class", "a b"), ("id", "x")]);
        assert_eq!(tag.elements(), Some(vec!["<path d=\"M0 0\"/>"]));
        let alone = Tag::of("<path d=\"M1 1\"/>").expect("a tag");
        assert_eq!((alone.name, alone.attribute("d"), alone.inner), ("path", Some("M1 1"), ""));
        assert_eq!(Tag::of("<title>A &amp; b</title>").expect("a tag").elements(), None);
        assert_eq!(plain("A &amp;lt; &#39;b&#39;"), "A &lt; 'b'");
    }

    #[test]
    fn elements_stay_where_one_of_their_kind_comes() {
        let [hit, low, high] = ["<rect x=\"1\"/>", "<g k=\"1\"></g>", "<g k=\"2\"></g>"];
        let ledger = "<rect y=\"2\"/>";
        assert_eq!(
            turns(&[hit, low], &[hit, ledger, high]),
            [Turn::Mend(hit, hit), Turn::Add(ledger), Turn::Mend(low, high)]
        );
        assert_eq!(
            turns(&[hit, ledger, low, high], &[hit, low]),
            [Turn::Mend(hit, hit), Turn::Drop, Turn::Mend(low, low), Turn::Drop]
        );
        let [one, other] = ["<g id=\"a\"></g>", "<g id=\"b\"></g>"];
        assert_eq!(turns(&[one], &[other]), [Turn::Add(other), Turn::Drop]);
        assert_eq!(turns(&[one, other], &[other]), [Turn::Drop, Turn::Mend(other, other)]);
    }
}
