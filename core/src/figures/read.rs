//! Reads figures as they are typed.
//!
//! One sonority is written from the top down with strokes between: `6/5`,
//! `6/4+/2`, `#6/4/3`; plain digits may be run together (`65`, `643`). 10 to 14, as
//! the first figured basses about 1600 have them, are read as 3 to 7. An accidental
//! (`#` `b` `n` `x`, or `♯` `♭` `♮`) stands before or after its digit or alone,
//! altering the third; between two digits it belongs to the second (`6b5`). A plus
//! (`4+`), a backslash (`6\`) or a stroke before the digit (`/6`) raises by a
//! semitone. A dash divides the note: `4-3`, `6/4-5/3`. `_` (or a dash with nothing
//! beside it) holds the upper notes, `t.s.`, `ts` or `0` is the bass alone, `.` a
//! note without figures.

use super::{Accidental, Figures, Sign, Stage};
use crate::order;
use std::ops::Range;

/// Why a text is no figures, and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FigureError {
    /// The bytes at fault, on character boundaries of the text that was read.
    pub at: Range<usize>,
    /// What is wrong there.
    pub kind: FigureTrouble,
}

/// What is wrong with typed figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FigureTrouble {
    /// There is nothing to read.
    Nothing,
    /// A number that is no figure: figures run from 2 to 9, and from 10 to 14.
    NoSuchFigure(char),
    /// A sign that means nothing among figures.
    UnknownSign(char),
}

/// Reads the figures of one note.
///
/// # Errors
/// The first character that is no figure. Remedy: the module's forms above.
pub fn read_figures(text: &str) -> Result<Figures, FigureError> {
    let trimmed = text.trim();
    let start = text.len() - text.trim_start().len();
    if trimmed.is_empty() {
        return Err(FigureError { at: 0..text.len(), kind: FigureTrouble::Nothing });
    }
    let mut stages = Vec::new();
    let mut from = 0;
    let mut ends: Vec<usize> =
        trimmed.char_indices().filter(|&(_, c)| is_dash(c)).map(|(at, _)| at).collect();
    ends.push(trimmed.len());
    // A lone dash is a single held stage, not two.
    if trimmed.chars().all(is_dash) {
        stages.push(Stage::Hold);
    } else {
        for end in ends {
            stages.push(read_stage(&trimmed[from..end], start + from)?);
            from = end + trimmed[end..].chars().next().map_or(0, char::len_utf8);
        }
    }
    Figures::new(stages).ok_or(FigureError { at: 0..text.len(), kind: FigureTrouble::Nothing })
}

fn is_dash(c: char) -> bool {
    matches!(c, '-' | '–' | '—' | '−')
}

/// Reads one sonority; `offset` is where `text` starts in the whole.
fn read_stage(text: &str, offset: usize) -> Result<Stage, FigureError> {
    let word = text.trim().to_ascii_lowercase();
    match word.as_str() {
        "" | "_" => return Ok(Stage::Hold),
        "." => return Ok(Stage::Signs(Vec::new())),
        "t.s." | "t.s" | "ts" | "ts." | "0" | "tasto" | "tasto solo" => {
            return Ok(Stage::TastoSolo);
        }
        _ => {}
    }
    let mut signs: Vec<Sign> = Vec::new();
    let mut waiting: Option<Accidental> = None;
    // Whether the last sign may still take an accidental written after it.
    let mut open = false;
    let mut chars = text.char_indices().peekable();
    let lone = |accidental| Sign { number: 3, accidental: Some(accidental) };
    while let Some((at, c)) = chars.next() {
        let fail = |kind| {
            let from = offset + at;
            Err(FigureError { at: from..from + c.len_utf8(), kind })
        };
        match c {
            '2'..='9' => {
                signs.push(Sign { number: c as u8 - b'0', accidental: waiting.take() });
                open = true;
            }
            '1' if chars.peek().is_some_and(|&(_, next)| matches!(next, '0'..='4')) => {
                let above = chars.next().map_or(0, |(_, next)| next as u8 - b'0');
                signs.push(Sign { number: above + 3, accidental: waiting.take() });
                open = true;
            }
            '0' | '1' => return fail(FigureTrouble::NoSuchFigure(c)),
            '+' | '\\' | '\u{338}' | '\u{337}' => match signs.last_mut() {
                Some(last) if open && last.accidental.is_none() => {
                    last.accidental = Some(Accidental::Raised);
                }
                _ => waiting = Some(Accidental::Raised),
            },
            '#' | '♯' | 'b' | '♭' | 'n' | '♮' | 'x' | '𝄪' | '𝄫' => {
                let doubled = match c {
                    '#' | '♯' => chars.next_if(|&(_, next)| matches!(next, '#' | '♯')).is_some(),
                    'b' | '♭' => chars.next_if(|&(_, next)| matches!(next, 'b' | '♭')).is_some(),
                    _ => false,
                };
                let accidental = match (c, doubled) {
                    ('#' | '♯', false) => Accidental::Sharp,
                    ('#' | '♯', true) | ('x' | '𝄪', _) => Accidental::DoubleSharp,
                    ('b' | '♭', false) => Accidental::Flat,
                    ('b' | '♭', true) | ('𝄫', _) => Accidental::DoubleFlat,
                    _ => Accidental::Natural,
                };
                let before_digit = chars.peek().is_some_and(|&(_, next)| next.is_ascii_digit());
                match signs.last_mut() {
                    Some(last) if open && !before_digit && last.accidental.is_none() => {
                        last.accidental = Some(accidental);
                    }
                    _ => {
                        if let Some(earlier) = waiting.replace(accidental) {
                            signs.push(lone(earlier));
                        }
                    }
                }
            }
            '/' | ',' | ';' | ' ' | '|' => {
                if let Some(accidental) = waiting.take() {
                    signs.push(lone(accidental));
                    open = false;
                } else if c == '/' && !open {
                    waiting = Some(Accidental::Raised);
                } else {
                    open = false;
                }
            }
            _ => return fail(FigureTrouble::UnknownSign(c)),
        }
    }
    if let Some(accidental) = waiting {
        signs.push(lone(accidental));
    }
    order::by_key(&mut signs, |sign| std::cmp::Reverse(sign.number));
    signs.dedup();
    Ok(Stage::Signs(signs))
}

#[cfg(test)]
mod tests {
    use super::super::print;
    use super::*;

    fn check(typed: &str, meant: &str) {
        let figures = read_figures(typed).unwrap_or_else(|error| panic!("{typed}: {error:?}"));
        assert_eq!(print(&figures), meant, "{typed}");
        assert_eq!(read_figures(meant), Ok(figures), "{typed}");
    }

    #[test]
    fn figures_are_read_forgivingly() {
        check("6", "6");
        check("65", "6/5");
        check("6/5", "6/5");
        check("5/6", "6/5");
        check("643", "6/4/3");
        check("#6/4/3", "#6/4/3");
        check("♯6 4 3", "#6/4/3");
        check("6#/4/3", "#6/4/3");
        check("6b5", "6/b5");
        check("6/♭5", "6/b5");
        check("6/4+/2", "6/4+/2");
        check("4+2", "4+/2");
        check("/6", "6+");
        check("10/9", "9/3");
        check("11-#10", "4-#");
        check("b14/12", "b7/5");
        check("6\\", "6+");
        check("6//4/3", "6/4+/3");
        check("#", "#");
        check("7/#", "7/#");
        check("7 ♮", "7/n");
        check("+", "+");
        check("x6", "x6");
        check("bb7", "bb7");
        check("4-3", "4-3");
        check("4 – 3", "4-3");
        check("6/4-5/3", "6/4-5/3");
        check("9/4-8/3", "9/4-8/3");
        check("5/3-6/4-5/4-5/3", "5/3-6/4-5/4-5/3");
        check("t.s.", "t.s.");
        check("0", "t.s.");
        check("_", "_");
        check("-", "_");
        check("7-", "7-_");
        check(".", ".");
        check(".-6", ".-6");
    }

    #[test]
    fn errors_point_at_the_character() {
        let check = |text: &str, at: Range<usize>, kind| {
            assert_eq!(read_figures(text), Err(FigureError { at, kind }), "{text}");
        };
        check("  ", 0..2, FigureTrouble::Nothing);
        check("6/1", 2..3, FigureTrouble::NoSuchFigure('1'));
        check("15", 0..1, FigureTrouble::NoSuchFigure('1'));
        check(" 7-é", 3..5, FigureTrouble::UnknownSign('é'));
    }
}
