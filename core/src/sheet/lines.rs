//! Text broken into lines without knowing the reader's fonts: letters are taken to
//! be as wide as in DejaVu Serif, which is wider than most, so that lines come out
//! rather short.

/// Width of a character in its size, rounded up from the averages of that face.
fn width(c: char) -> f64 {
    match c {
        'i' | 'j' | 'l' | 't' | 'f' | 'I' | '.' | ',' | ':' | ';' | '\'' | '!' | '|' => 0.36,
        ' ' => 0.32,
        'm' | 'M' | 'W' | 'w' | '—' | '@' | '%' => 1.0,
        c if c.is_ascii_lowercase() => 0.6,
        c if c.is_ascii_digit() => 0.64,
        c if c.is_ascii() => 0.75,
        c if c < '\u{2E80}' => 0.75,
        // Scripts whose signs fill a square.
        _ => 1.05,
    }
}

/// Breaks a text at its own line ends and where `room` ends, at most into `most`
/// lines; what does not fit is cut with an ellipsis. `size` and `room` in one unit.
pub(super) fn broken(text: &str, size: f64, room: f64, most: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for paragraph in text.lines() {
        let mut line = String::new();
        let mut used = 0.0;
        for word in paragraph.split_whitespace() {
            for piece in pieces(word, room / size) {
                let wide: f64 = piece.chars().map(width).sum::<f64>() * size;
                let gap = if line.is_empty() { 0.0 } else { width(' ') * size };
                if !line.is_empty() && used + gap + wide > room {
                    lines.push(std::mem::take(&mut line));
                    used = 0.0;
                } else if !line.is_empty() {
                    line.push(' ');
                    used += gap;
                }
                line.push_str(&piece);
                used += wide;
            }
        }
        lines.push(line);
        if lines.len() > most {
            break;
        }
    }
    if lines.len() > most {
        lines.truncate(most);
        if let Some(last) = lines.last_mut() {
            last.push('…');
        }
    }
    lines
}

/// A word too long for a line, such as an address, in pieces that fit.
fn pieces(word: &str, room: f64) -> Vec<String> {
    let mut pieces = vec![String::new()];
    let mut used = 0.0;
    for c in word.chars() {
        if used + width(c) > room && used > 0.0 {
            pieces.push(String::new());
            used = 0.0;
        }
        if let Some(piece) = pieces.last_mut() {
            piece.push(c);
        }
        used += width(c);
    }
    pieces
}

#[cfg(test)]
mod tests {
    use super::broken;

    #[test]
    fn lines_break_between_words_and_within_long_ones() {
        assert_eq!(broken("", 4.0, 100.0, 3), Vec::<String>::new());
        assert_eq!(broken("one two\nthree", 4.0, 100.0, 3), ["one two", "three"]);
        assert_eq!(broken("aaaa bbbb cccc", 10.0, 52.0, 9), ["aaaa bbbb", "cccc"]);
        assert_eq!(broken("aaaaaaaa", 10.0, 25.0, 9), ["aaaa", "aaaa"]);
        assert_eq!(broken("a\nb\nc\nd", 4.0, 100.0, 2), ["a", "b…"]);
        // Room for nothing gives a letter a line, and an end.
        assert_eq!(broken("abc", 4.0, 0.0, 2), ["a", "b…"]);
    }
}
