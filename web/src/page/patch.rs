//! Replacing drawn markup piece by piece: of what stands at the top level only what
//! differs is parsed and drawn anew, so that a drag costs no more than what it moves.

use web_sys::Element;

/// Brings an element whose content was made from `old` to what `new` makes.
pub(super) fn patch(element: &Element, old: &str, new: &str) {
    if old == new {
        return;
    }
    let (before, after) = (pieces(old), pieces(new));
    let children = element.children();
    let stands = children.length() as usize == before.len();
    let head = common(before.iter().zip(&after));
    let rest = before.len().min(after.len()) - head;
    let tail = common(before.iter().rev().zip(after.iter().rev()).take(rest));
    let gone = before.len() - head - tail;
    let come = after.len() - head - tail;
    if !stands || gone.max(come) * 2 > after.len() {
        element.set_inner_html(new);
        return;
    }
    if gone == come {
        for i in head..head + gone {
            let differs = before.get(i) != after.get(i);
            if let (true, Some(child), Some(piece)) =
                (differs, children.item(i as u32), after.get(i))
            {
                child.set_outer_html(piece);
            }
        }
        return;
    }
    for _ in 0..gone {
        if let Some(child) = children.item(head as u32) {
            child.remove();
        }
    }
    let new: String = after.get(head..head + come).unwrap_or_default().concat();
    let _ = match children.item(head as u32) {
        Some(next) => next.insert_adjacent_html("beforebegin", &new),
        None => element.insert_adjacent_html("beforeend", &new),
    };
}

fn common<'a>(pairs: impl Iterator<Item = (&'a &'a str, &'a &'a str)>) -> usize {
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
}
