//! Replacing drawn markup piece by piece: of what stands at the top level only what
//! differs is parsed and drawn anew, so that a drag costs no more than what it moves.

use web_sys::Element;

/// The elements at the top level of what an element holds, as their markup.
#[derive(Clone, Default, PartialEq)]
pub(super) struct Pieces(Vec<String>);

impl Pieces {
    /// The pieces of some markup of ours: every tag closed, every attribute in double quotes.
    pub(super) fn of(markup: &str) -> Pieces {
        Pieces(pieces(markup).into_iter().map(str::to_owned).collect())
    }

    /// Brings an element that holds these pieces to what `new` makes, but where it has as many,
    /// only those that are `wanted` now; the others keep what they show.
    pub(super) fn patch(&mut self, element: &Element, new: &str, wanted: impl Fn(&str) -> bool) {
        let after = pieces(new);
        let children = element.children();
        if children.length() as usize != self.0.len() {
            element.set_inner_html(new);
            *self = Pieces::of(new);
            return;
        }
        if self.0.len() == after.len() {
            let differ = self.0.iter().zip(&after).map(|(old, new)| old != new && wanted(new));
            // From the end, so that what is still to be replaced stays where it is counted.
            for (from, to) in runs(differ).into_iter().rev() {
                self.replace(element, from..to, after.get(from..to).unwrap_or_default());
            }
            return;
        }
        let head = common(self.0.iter().zip(&after));
        let rest = self.0.len().min(after.len()) - head;
        let tail = common(self.0.iter().rev().zip(after.iter().rev()).take(rest));
        let come = after.get(head..after.len() - tail).unwrap_or_default();
        self.replace(element, head..self.0.len() - tail, come);
    }

    /// Puts others in the place of some pieces.
    fn replace(&mut self, element: &Element, gone: std::ops::Range<usize>, come: &[&str]) {
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

/// The elements at the top level of some markup of ours: every tag closed, every
/// attribute in double quotes.
fn pieces(markup: &str) -> Vec<&str> {
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
}
