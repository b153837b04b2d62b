//! Reads a bass from text; the forms are in the room's header.

use super::{BassNote, BassText, NoteValue, TextRemark, TextTrouble};
use crate::figures::{Figures, Stage, read_figures};
use crate::pitch::{Interval, Pitch, PitchClass, Step, Tonality};
use crate::sketch::Weight;
use std::ops::Range;

/// Where a first note without an octave is sought: near C3.
const START: Pitch = Pitch::new(Step::C, 0, 3);
/// The lowest and the highest that a note without an octave is sought.
const FIRST: Pitch = Pitch::new(Step::C, 0, 1);
const LAST: Pitch = Pitch::new(Step::F, 0, 5);

/// Reads a bass. What cannot be read is remarked on and skipped; the rest is
/// read. `tonality` is the one in force; it decides nothing but may be stated
/// again by the text.
pub fn read_bass(text: &str, tonality: Option<Tonality>) -> BassText {
    let mut read = BassText { tonality, ..BassText::default() };
    let mut from = 0;
    if let Some((stated, end)) = stated_tonality(text) {
        read.tonality = Some(stated);
        from = end;
    }
    let mut figures_end = None;
    let mut in_force = None;
    for at in words(text, from) {
        let word = &text[at.clone()];
        if let Some(length) = word.strip_prefix('=') {
            let from = at.start + 1;
            length_in(&mut read, length, from, &mut in_force);
        } else if let Some(rest) = rest(word) {
            figures_end = None;
            add_rest(&mut read, rest, at, in_force);
        } else if is_figures(word, !read.notes.is_empty()) {
            add_figures(&mut read, text, at, &mut figures_end);
        } else {
            figures_end = None;
            note(&mut read, text, at, &mut in_force);
        }
    }
    read
}

/// The tonality a text opens with, and where it ends: `C minor:`, `in F#:`, `Bb: `.
fn stated_tonality(text: &str) -> Option<(Tonality, usize)> {
    let colon = text.find(':')?;
    let head = text[..colon].trim();
    let after = &text[colon + 1..];
    let bare = head.strip_prefix("in ").or_else(|| head.strip_prefix("In ")).unwrap_or(head);
    let tonality = Tonality::parse(bare)?;
    let ends_word = after.is_empty() || after.starts_with(char::is_whitespace);
    let worded = bare.trim().contains(' ') || bare.ends_with('m');
    (worded || bare.len() < head.len() || ends_word).then_some((tonality, colon + 1))
}

/// The words of a text: parted by white space, commas, bars and semicolons,
/// except inside brackets.
fn words(text: &str, from: usize) -> Vec<Range<usize>> {
    let mut words = Vec::new();
    let mut start = None;
    let mut depth = 0usize;
    for (at, c) in text.char_indices().filter(|&(at, _)| at >= from) {
        let parts = c.is_whitespace() || matches!(c, ',' | '|' | ';');
        match c {
            '(' | '[' => depth += 1,
            ')' | ']' => depth = depth.saturating_sub(1),
            // A bracket left open ends with its line.
            '\n' => depth = 0,
            _ => {}
        }
        if parts && depth == 0 {
            if let Some(start) = start.take() {
                words.push(start..at);
            }
        } else if start.is_none() && !parts {
            start = Some(at);
        }
    }
    if let Some(start) = start {
        words.push(start..text.len());
    }
    words
}

/// Whether a word on its own is figures and not a note.
fn is_figures(word: &str, after_note: bool) -> bool {
    let inside = unbracket(word).unwrap_or(word);
    let mut chars = inside.chars();
    let second = |chars: &mut std::str::Chars| chars.next();
    match chars.next() {
        Some(
            '0'..='9' | '#' | '♯' | '♭' | '♮' | '+' | '/' | '\\' | '-' | '–' | '—' | '_' | '.',
        ) => true,
        Some('n') => chars.all(|c| c.is_ascii_digit() || "/-#b+n".contains(c)),
        Some('x') => second(&mut chars).is_some_and(|c| c.is_ascii_digit()),
        Some('t') => inside.starts_with("t.s") || inside == "ts" || inside.starts_with("tasto"),
        // A flat before a digit too high for a bass's octave.
        Some('b') if after_note => match second(&mut chars) {
            Some('5'..='9') => true,
            Some('2'..='4') => second(&mut chars).is_some_and(|c| c == '/' || c == '-'),
            _ => false,
        },
        _ => false,
    }
}

/// Puts a typed length in force; `0` puts none.
fn length_in(read: &mut BassText, text: &str, from: usize, in_force: &mut Option<NoteValue>) {
    match NoteValue::parse(text) {
        Some(value) => *in_force = Some(value),
        None if text == "0" => *in_force = None,
        None => {
            let at = from - 1..from + text.len();
            read.remarks.push(TextRemark { at, kind: TextTrouble::Length });
        }
    }
}

/// What a word of a rest says of its length: `r`, `r4`, `r=4`.
fn rest(word: &str) -> Option<&str> {
    let length = word.strip_prefix(['r', 'R'])?;
    let length = length.strip_prefix("est").unwrap_or(length);
    let length = length.strip_prefix('=').unwrap_or(length);
    length.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '+')).then_some(length)
}

/// Puts a rest after the note before; without a length of its own it takes the one
/// in force, or a quarter.
fn add_rest(read: &mut BassText, text: &str, at: Range<usize>, in_force: Option<NoteValue>) {
    let value = match text {
        "" => Some(in_force.unwrap_or(NoteValue::QUARTER)),
        text => NoteValue::parse(text),
    };
    let Some(value) = value else {
        read.remarks.push(TextRemark { at, kind: TextTrouble::Length });
        return;
    };
    let Some(last) = read.notes.last_mut() else {
        read.remarks.push(TextRemark { at, kind: TextTrouble::RestFirst });
        return;
    };
    let before = last.rest.map_or(0, NoteValue::ticks);
    last.rest = NoteValue::from_ticks(before + value.ticks()).or(last.rest);
    last.at.end = at.end;
}

/// What stands between a word's outer brackets, if it has them.
fn unbracket(word: &str) -> Option<&str> {
    let inside = word.strip_prefix(['(', '['])?;
    Some(inside.strip_suffix([')', ']']).unwrap_or(inside))
}

/// Gives a word of figures to the note before it. Words standing one after the
/// other are further stages; a lone dash between them only joins.
fn add_figures(read: &mut BassText, text: &str, at: Range<usize>, figures_end: &mut Option<bool>) {
    let word = &text[at.clone()];
    let (inside, skipped) = match unbracket(word) {
        Some(inside) => (inside, 1),
        None => (word, 0),
    };
    let Some(last) = read.notes.last_mut() else {
        read.remarks.push(TextRemark { at, kind: TextTrouble::FiguresWithoutNote });
        return;
    };
    let lone_dash = matches!(inside, "-" | "–" | "—");
    match read_figures(inside) {
        Err(error) => {
            let from = at.start + skipped;
            let at = from + error.at.start..from + error.at.end;
            read.remarks.push(TextRemark { at, kind: TextTrouble::Figures(error.kind) });
        }
        Ok(figures) => match (last.figures.take(), *figures_end) {
            (None, _) => {
                last.figures = Some(figures);
                last.at.end = at.end;
                *figures_end = Some(false);
            }
            (Some(earlier), Some(_)) if lone_dash => {
                last.figures = Some(earlier);
                last.at.end = at.end;
                *figures_end = Some(true);
            }
            (Some(earlier), Some(_)) => {
                let joined: Vec<Stage> =
                    earlier.stages().iter().chain(figures.stages()).cloned().collect();
                last.figures = Figures::new(joined);
                last.at.end = at.end;
                *figures_end = Some(false);
            }
            (Some(earlier), None) => {
                last.figures = Some(earlier);
                read.remarks.push(TextRemark { at, kind: TextTrouble::SecondFigures });
            }
        },
    }
}

/// Reads a word as a note with what is attached to it.
fn note(read: &mut BassText, text: &str, at: Range<usize>, in_force: &mut Option<NoteValue>) {
    let word = &text[at.clone()];
    let mut weight = Weight::Unmarked;
    let mut body = word;
    let mut start = at.start;
    if word.starts_with(['(', '[']) {
        if !word.ends_with([')', ']']) {
            read.remarks
                .push(TextRemark { at: at.start..at.start + 1, kind: TextTrouble::OpenBracket });
        }
        body = unbracket(word).unwrap_or(word);
        start += 1;
        weight = Weight::Passing;
    }
    let Some(step) = body.chars().next().and_then(Step::from_letter) else {
        read.remarks.push(TextRemark { at, kind: TextTrouble::UnknownWord });
        return;
    };
    let (alter, rest_at) = signs(read, body, start);
    let class = PitchClass::new(step, alter);
    let (pitch, used) = placed(read, class, &body[rest_at..], start + rest_at);
    let mut tail_at = rest_at + used;
    if body[tail_at..].starts_with('!') {
        weight = Weight::Structural;
        tail_at += 1;
    }
    if let Some(rest) = body[tail_at..].strip_prefix('=') {
        let end = rest.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '+')));
        let length = &rest[..end.unwrap_or(rest.len())];
        length_in(read, length, start + tail_at + 1, in_force);
        tail_at += 1 + length.len();
    }
    if body[tail_at..].starts_with(':') {
        tail_at += 1;
    }
    let tail = &body[tail_at..];
    let figures = match attached(read, tail, start + tail_at) {
        Ok(figures) => figures,
        // A word such as "dog" is no note with bad figures.
        Err(_) if used == 0 && tail_at == rest_at && unbracket(tail).is_none() => {
            read.remarks.push(TextRemark { at, kind: TextTrouble::UnknownWord });
            return;
        }
        Err(remark) => {
            read.remarks.push(remark);
            None
        }
    };
    let value = *in_force;
    read.notes.push(BassNote { pitch, figures, weight, value, rest: None, at });
}

/// What the signs after the letter of a word alter, and where they end. Past two sharps
/// or flats they alter nothing more.
fn signs(read: &mut BassText, body: &str, start: usize) -> (i8, usize) {
    let (mut alter, mut told) = (0i8, false);
    for (at, c) in body.char_indices().skip(1) {
        let change = match c {
            '#' | '♯' => 1,
            'b' | '♭' => -1,
            'x' | '𝄪' => 2,
            '𝄫' => -2,
            '♮' | 'n' => 0,
            _ => return (alter, at),
        };
        if (alter + change).abs() <= 2 {
            alter += change;
        } else if !told {
            told = true;
            let from = start + at;
            let at = from..from + c.len_utf8();
            read.remarks.push(TextRemark { at, kind: TextTrouble::Accidentals });
        }
    }
    (alter, body.len())
}

/// The pitch of a class in the octave at the front of `rest`, or in the likely one, and
/// the bytes taken of `rest`, which stands at `at` in the text.
fn placed(read: &mut BassText, class: PitchClass, rest: &str, at: usize) -> (Pitch, usize) {
    let previous = read.notes.last().map_or(START, |note| note.pitch);
    let (octave, used) = octave(rest);
    let pitch = match octave {
        Some(octave) if (-1..=9).contains(&octave) => class.in_octave(octave as i8),
        Some(_) => {
            read.remarks.push(TextRemark { at: at..at + used, kind: TextTrouble::Octave });
            implied(class, previous)
        }
        None => implied(class, previous),
    };
    (pitch, used)
}

/// The figures attached to a note, in brackets or not, at `at` in the text.
fn attached(read: &mut BassText, tail: &str, at: usize) -> Result<Option<Figures>, TextRemark> {
    let (inside, from) = match unbracket(tail) {
        Some(inside) => (inside, at + 1),
        None => (tail, at),
    };
    if from > at && !tail.ends_with([')', ']']) {
        read.remarks.push(TextRemark { at: at..from, kind: TextTrouble::OpenBracket });
    }
    if inside.is_empty() {
        return Ok(None);
    }
    read_figures(inside).map(Some).map_err(|error| TextRemark {
        at: from + error.at.start..from + error.at.end,
        kind: TextTrouble::Figures(error.kind),
    })
}

/// A note without an octave: the nearest to the one before, but for those that would
/// wander off the keyboard, which turn back by an octave.
fn implied(class: PitchClass, previous: Pitch) -> Pitch {
    let nearest = class.nearest(previous);
    if nearest > LAST.max(previous) {
        nearest - Interval::OCTAVE
    } else if nearest < FIRST.min(previous) {
        nearest + Interval::OCTAVE
    } else {
        nearest
    }
}

/// The octave at the front of a word's rest and the bytes it takes. A digit that
/// stands before another figure sign, or is above 5 without a colon, is a figure.
fn octave(rest: &str) -> (Option<i32>, usize) {
    let minus = usize::from(rest.starts_with('-'));
    let digits = rest[minus..].bytes().take_while(u8::is_ascii_digit).count();
    let used = minus + digits;
    let Ok(octave) = rest[..used].parse::<i32>() else { return (None, 0) };
    let after = rest[used..].chars().next();
    let marked = matches!(after, Some(':' | '!' | '='));
    let plain = matches!(after, None | Some('(' | '['));
    if marked || (plain && digits == 1 && minus == 0 && octave <= 5) {
        (Some(octave), used)
    } else {
        (None, 0)
    }
}

#[cfg(test)]
mod tests {
    use super::super::{print_bass, print_notes};
    use super::*;
    use crate::figures::FigureTrouble;

    fn check(typed: &str, meant: &str) {
        let read = read_bass(typed, None);
        assert_eq!(read.remarks, [], "{typed}");
        let notes = read.notes.iter().map(|it| (it.pitch, it.figures.as_ref(), it.weight));
        assert_eq!(print_notes(notes, read.tonality), meant, "{typed}");
    }

    #[test]
    fn notes_without_an_octave_stay_on_the_keyboard() {
        for rounds in ["C E A ", "C A E "] {
            for note in read_bass(&rounds.repeat(40), None).notes {
                assert!((FIRST..=LAST).contains(&note.pitch), "{}", note.pitch);
            }
        }
    }

    #[test]
    fn basses_are_read_forgivingly() {
        check("c d e", "C3 D3 E3");
        check("C3, G2 | Ab2\nBb2; F#3", "C3 G2 Ab2 Bb2 F#3");
        check("g a b c", "G2 A2 B2 C3");
        check("Fx E♭ bb", "F##2 Eb2 Bb1");
        check("D3:6/5 D(6) G 4-3", "D3:6/5 D3:6 G3:4-3");
        check("F 6/4+/2", "F3:6/4+/2");
        check("G 4 3", "G2:4-3");
        check("G 4 - 3", "G2:4-3");
        check("G 6/4 – 5/3 c", "G2:6/4-5/3 C3");
        check("D6 D65 D4/3 E #6 E #", "D3:6 D3:6/5 D3:4/3 E3:#6 E3:#");
        check("D6: D6:6", "D6: D6:6");
        check("C-1: C", "C-1: C-1:");
        check("B b5 b3", "B2:b5 B3");
        check("c t.s. d _", "C3:t.s. D3:_");
        check("c (d) e! f!:6", "C3 (D3) E3! F3!:6");
        check("C minor: c d eb", "C minor: C3 D3 Eb3");
        check("Am: a b", "A minor: A2 B2");
        check("in G: g", "G major: G2");
        check("eb: eb f", "Eb minor: Eb3 F3");
        check("C:6 d", "C3:6 D3");
        let lengths = |typed: &str, meant: &str| {
            let read = read_bass(typed, None);
            assert_eq!(read.remarks, [], "{typed}");
            let notes: Vec<_> = read.notes.iter().map(|it| it.to_sketch()).collect();
            assert_eq!(print_bass(&notes, read.tonality), meant, "{typed}");
        };
        lengths("c=4 d e=8. (f) r g!=2:6 a", "C3=4 D3 E3=8. (F3) r=8. G3!=2:6 A3");
        lengths("=4 c r=8 r d=0 e 6 6", "C3=4 r=4. D3=0 E3:6-6");
        lengths("C-1=4 d r rest", "C-1=4 D-1: r=2");
        lengths("c r d", "C3 r=4 D3");
        check("", "");
    }

    fn remarks(typed: &str) -> Vec<(&str, TextTrouble)> {
        let read = read_bass(typed, None);
        read.remarks.into_iter().map(|it| (&typed[it.at], it.kind)).collect()
    }

    #[test]
    fn what_cannot_be_read_is_pointed_at_and_the_rest_is_kept() {
        assert_eq!(remarks("c hello d"), [("hello", TextTrouble::UnknownWord)]);
        assert_eq!(remarks("c dog d"), [("dog", TextTrouble::UnknownWord)]);
        assert_eq!(
            remarks("c d:6/q e"),
            [("q", TextTrouble::Figures(FigureTrouble::UnknownSign('q')))]
        );
        assert_eq!(remarks("6 c"), [("6", TextTrouble::FiguresWithoutNote)]);
        assert_eq!(remarks("c (d"), [("(", TextTrouble::OpenBracket)]);
        assert_eq!(remarks("c12: d"), [("12", TextTrouble::Octave)]);
        assert_eq!(remarks("c###"), [("#", TextTrouble::Accidentals)]);
        assert_eq!(remarks("c#x d"), [("x", TextTrouble::Accidentals)]);
        assert_eq!(remarks("c:6 7"), [("7", TextTrouble::SecondFigures)]);
        assert_eq!(
            remarks("c=5 d r=7 r"),
            [("=5", TextTrouble::Length), ("r=7", TextTrouble::Length)]
        );
        assert_eq!(remarks("r c"), [("r", TextTrouble::RestFirst)]);
        assert_eq!(
            remarks("ça é"),
            [("ça", TextTrouble::UnknownWord), ("é", TextTrouble::UnknownWord)]
        );
        assert_eq!(read_bass("c hello d:6/q e", None).notes.len(), 3);
    }
}
