//! A bass typed and printed with the names of notes its reader is used to.
//!
//! Names in other habits are unmistakable and always understood: `do`, `re`, `ré`,
//! `ut` … `si` with the signs of letters (`fa#2`, `sib`), and `H`, `Cis`, `Es`, `As`,
//! `Heses`. Only a `B` without a sign means two things: the note a semitone under C,
//! or, for readers who have an `H`, the one a tone under it. `Bb` is that for all.

use super::{BassNote, BassText, TextRemark, print_bass, read_bass};
use crate::pitch::{Mode, PitchClass, Step, Tonality};
use crate::sketch::SketchNote;
use crate::words::{Lang, NoteNames};
use std::ops::Range;

/// Reads a bass as [`read_bass`] does, with names in the reader's habit. Places
/// are those of the text as typed.
pub fn read_named(text: &str, tonality: Option<Tonality>, names: NoteNames) -> BassText {
    let letters = Letters::of(text, names);
    let mut read = read_bass(&letters.text, tonality);
    for BassNote { at, .. } in &mut read.notes {
        *at = letters.typed(at);
    }
    for TextRemark { at, .. } in &mut read.remarks {
        *at = letters.typed(at);
    }
    read
}

/// Prints a bass so that [`read_named`] reads it back.
pub fn print_named(notes: &[SketchNote], lang: Lang) -> String {
    in_names(&print_bass(notes, None), lang)
}

/// A bass in letters with its notes named as the reader is used to.
pub fn in_names(letters: &str, lang: Lang) -> String {
    if lang.notes == NoteNames::Letters {
        return letters.to_string();
    }
    let word = |word: &str| {
        let body = word.trim_start_matches('(');
        let Some((class, used)) = letter(body) else { return word.to_string() };
        let rest = body.get(used..).unwrap_or_default();
        let open = word.get(..word.len() - body.len()).unwrap_or_default();
        format!("{open}{}{rest}", lang.note(class))
    };
    letters.split(' ').map(word).collect::<Vec<_>>().join(" ")
}

/// Reads a tonality as typed in any of the page's languages: `C minor`, `c-Moll`,
/// `sol minore`, `Es-Dur`, `ré mineur`; a small letter alone means minor.
pub fn read_tonality(text: &str, names: NoteNames) -> Option<Tonality> {
    let text = text.trim();
    let (class, used, kind) = name(text, names)?;
    let rest = text.get(used..)?.trim_start_matches(['-', ' ']).to_lowercase();
    let small = kind != Kind::Syllable && text.starts_with(char::is_lowercase);
    let mode = match rest.as_str() {
        "" if small => Mode::Minor,
        "" | "major" | "maj" | "maggiore" | "dur" | "majeur" | "mayor" => Mode::Major,
        "m" | "minor" | "min" | "minore" | "moll" | "mineur" | "menor" => Mode::Minor,
        _ => return None,
    };
    Some(Tonality::new(class, mode))
}

/// A text in letters, and where each of its bytes was typed.
struct Letters {
    text: String,
    from: Vec<usize>,
}

impl Letters {
    fn of(typed: &str, names: NoteNames) -> Letters {
        let mut letters = Letters { text: String::new(), from: Vec::new() };
        let mut at = 0;
        if let Some(colon) = typed.find(':')
            && let Some(head) = typed.get(..colon)
            && let Some(tonality) = read_tonality(head.trim_start_matches("in "), names)
            && names_more_than_a_note(head, typed.get(colon + 1..).unwrap_or_default())
        {
            letters.push(&ascii(&tonality.to_string()), 0, colon);
            at = colon;
        }
        let mut after_note = false;
        while let Some(rest) = typed.get(at..).filter(|rest| !rest.is_empty()) {
            let length = rest.find(is_gap).unwrap_or(rest.len());
            let word = rest.get(..length).unwrap_or_default();
            let named = name(word, names).filter(|_| !is_flat_figure(word, after_note));
            if let Some((class, used, _)) = named.filter(|(_, used, kind)| {
                *kind != Kind::Letter && is_note(word.get(*used..).unwrap_or_default())
            }) {
                letters.push(&ascii(&class.to_string()), at, at + used);
                letters.copy(word, used, at);
            } else {
                letters.copy(word, 0, at);
            }
            after_note |= !word.is_empty();
            at += length;
            if let Some(gap) = typed.get(at..).and_then(|rest| rest.chars().next()) {
                letters.copy(gap.encode_utf8(&mut [0; 4]), 0, at);
                at += gap.len_utf8();
            }
        }
        letters.from.push(typed.len());
        letters
    }

    /// Adds letters that stand for what was typed in this range.
    fn push(&mut self, letters: &str, from: usize, to: usize) {
        for i in 0..letters.len() {
            self.from.push((from + i).min(to));
        }
        self.text.push_str(letters);
    }

    /// Adds a word as it was typed at `at`, from its byte `used` on.
    fn copy(&mut self, word: &str, used: usize, at: usize) {
        self.from.extend(at + used..at + word.len());
        self.text.push_str(word.get(used..).unwrap_or_default());
    }

    /// The range as it was typed.
    fn typed(&self, at: &Range<usize>) -> Range<usize> {
        let of = |i: usize| self.from.get(i).or(self.from.last()).copied().unwrap_or_default();
        // A range ends where what follows it begins.
        of(at.start)..of(at.end)
    }
}

/// What parts words, brackets included: a name begins behind an open one.
fn is_gap(c: char) -> bool {
    c.is_whitespace() || matches!(c, ',' | '|' | ';' | '(' | '[' | ')' | ']')
}

/// Whether a head with a colon states a tonality rather than a note's figures.
fn names_more_than_a_note(head: &str, after: &str) -> bool {
    let open = after.is_empty() || after.starts_with(char::is_whitespace);
    open || head.trim().contains([' ', '-'])
}

/// A flat before a figure, as a word of its own behind a note.
fn is_flat_figure(word: &str, after_note: bool) -> bool {
    let mut letters = word.chars();
    after_note
        && letters.next() == Some('b')
        && match letters.next() {
            Some('5'..='9') => true,
            Some('2'..='4') => letters.next().is_some_and(|c| c == '/' || c == '-'),
            _ => false,
        }
}

/// Whether what follows a name can follow a note.
fn is_note(rest: &str) -> bool {
    rest.chars().next().is_none_or(|c| !c.is_alphabetic())
}

/// How a note was named.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    /// As English readers do, which needs no change.
    Letter,
    /// As German readers do.
    German,
    /// do re mi.
    Syllable,
}

/// The note a word begins with, and how many bytes name it.
fn name(word: &str, names: NoteNames) -> Option<(PitchClass, usize, Kind)> {
    const SYLLABLES: [(&str, Step); 9] = [
        ("do", Step::C),
        ("ut", Step::C),
        ("re", Step::D),
        ("ré", Step::D),
        ("mi", Step::E),
        ("fa", Step::F),
        ("sol", Step::G),
        ("la", Step::A),
        ("si", Step::B),
    ];
    let small = small(word);
    for (syllable, step) in SYLLABLES {
        if let Some(rest) = small.strip_prefix(syllable) {
            let (alter, used) = signs(rest)?;
            return Some((PitchClass::new(step, alter), syllable.len() + used, Kind::Syllable));
        }
    }
    german(&small, names).or_else(|| letter(word).map(|(class, used)| (class, used, Kind::Letter)))
}

/// A word in small letters, each as many bytes long as it was, so that places in the one
/// are places in the other.
fn small(word: &str) -> String {
    let small = |c: char| {
        let mut lower = c.to_lowercase();
        lower.next().filter(|it| lower.len() == 0 && it.len_utf8() == c.len_utf8()).unwrap_or(c)
    };
    word.chars().map(small).collect()
}

fn german(small: &str, names: NoteNames) -> Option<(PitchClass, usize, Kind)> {
    let first = small.chars().next()?;
    let rest = small.get(first.len_utf8()..)?;
    let step = if first == 'h' { Step::B } else { Step::from_letter(first)? };
    let endings = match first {
        'e' => [("ses", -2), ("s", -1), ("isis", 2), ("is", 1)],
        'a' => [("sas", -2), ("s", -1), ("isis", 2), ("is", 1)],
        _ => [("eses", -2), ("es", -1), ("isis", 2), ("is", 1)],
    };
    let ending = endings
        .into_iter()
        .find(|(ending, _)| first != 'b' && rest.strip_prefix(ending).is_some_and(is_note));
    let (alter, used) = match ending {
        Some((ending, alter)) => (alter, 1 + ending.len()),
        None if first == 'h' => signs(rest).map(|(alter, used)| (alter, 1 + used))?,
        None if first == 'b' && names == NoteNames::German && signs(rest)?.1 == 0 => (-1, 1),
        None => return None,
    };
    Some((PitchClass::new(step, alter), used, Kind::German))
}

fn letter(word: &str) -> Option<(PitchClass, usize)> {
    let first = word.chars().next()?;
    let step = Step::from_letter(first)?;
    let (alter, used) = signs(word.get(1..)?)?;
    Some((PitchClass::new(step, alter), 1 + used))
}

/// The sharps and flats a text begins with, two at most, and their bytes.
fn signs(text: &str) -> Option<(i8, usize)> {
    let (mut alter, mut used) = (0i8, 0);
    for c in text.chars() {
        alter += match c {
            '#' | '♯' => 1,
            'b' | '♭' => -1,
            'x' | '𝄪' => 2,
            '𝄫' => -2,
            '♮' => 0,
            _ => break,
        };
        used += c.len_utf8();
        if alter.abs() > 2 {
            return None;
        }
    }
    Some((alter, used))
}

fn ascii(text: &str) -> String {
    text.replace('♯', "#").replace('♭', "b")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bass::print_notes;

    fn check(typed: &str, names: NoteNames, meant: &str) {
        let read = read_named(typed, None, names);
        assert_eq!(read.remarks, [], "{typed}");
        let notes = read.notes.iter().map(|it| (it.pitch, it.figures.as_ref(), it.weight));
        assert_eq!(print_notes(notes, read.tonality), meant, "{typed}");
    }

    #[test]
    fn a_b_is_read_in_the_readers_habit_and_all_else_alike() {
        use NoteNames::{German, Letters, Solfege};
        check("B2 H2 b", German, "Bb2 B2 Bb2");
        check("B2 H2 b", Letters, "B2 B2 B2");
        check("Bb2 B2", German, "Bb2 Bb2");
        for names in [Letters, Solfege, German] {
            check("do re mi fa sol la si", names, "C3 D3 E3 F3 G3 A3 B3");
            check("ré3:6 fa#3:6/5 (sol) sib2! lab 4-3", names, "D3:6 F#3:6/5 (G3) Bb2! Ab2:4-3");
            check("Cis3 Es3 As2 Fisis Heses2 eses", names, "C#3 Eb3 Ab2 F##2 Bbb2 Ebb3");
            check("C D E b5 Fa 6", names, "C3 D3 E3:b5 F3:6");
            check("do minore: do", names, "C minor: C3");
            check("ré mineur: ré", names, "D minor: D3");
            check("Es-Dur: Es G", names, "Eb major: Eb3 G3");
            check("c-Moll: C", names, "C minor: C3");
            check("D3 E3 F3 6 G3 6/5 A3", names, "D3 E3 F3:6 G3:6/5 A3");
        }
    }

    #[test]
    fn what_cannot_be_read_is_pointed_at_where_it_was_typed() {
        let text = "sol doch la";
        let read = read_named(text, None, NoteNames::Solfege);
        let places: Vec<&str> = read.remarks.iter().map(|it| &text[it.at.clone()]).collect();
        assert_eq!(places, ["doch"]);
        assert_eq!(&text[read.notes[1].at.clone()], "la");
    }

    #[test]
    fn letters_that_change_their_length_keep_their_places() {
        for text in ["Mİ é", "Sİ la é", "İdo é", "Fİs ẞ é", "ΣIḂ é", "Kdo é", "DOİ: İ é"]
        {
            for names in [NoteNames::Letters, NoteNames::Solfege, NoteNames::German] {
                let read = read_named(text, None, names);
                let remarks = read.remarks.iter().map(|it| &it.at);
                for at in remarks.chain(read.notes.iter().map(|it| &it.at)) {
                    assert!(
                        text.get(at.clone()).is_some_and(|it| !it.is_empty()),
                        "{text}: {at:?}"
                    );
                }
                let last = read.remarks.last().map(|it| &text[it.at.clone()]);
                assert_eq!(last, Some("é"), "{text}");
            }
        }
    }

    #[test]
    fn printing_reads_back_in_every_habit() {
        let text = "C3 F#3:6 Bb2! (Ab2) Cb3:4-3 E##3 Abb2 B2 D6:";
        let notes: Vec<SketchNote> =
            read_bass(text, None).notes.iter().map(BassNote::to_sketch).collect();
        for lang in [Lang::English, Lang::Italian, Lang::German, Lang::French, Lang::Spanish] {
            let printed = print_named(&notes, lang);
            let read = read_named(&printed, None, lang.notes);
            assert_eq!(read.remarks, [], "{printed}");
            let back: Vec<SketchNote> = read.notes.iter().map(BassNote::to_sketch).collect();
            assert_eq!(back, notes, "{printed}");
        }
        assert_eq!(
            print_named(&notes, Lang::German),
            "C3 Fis3:6 B2! (As2) Ces3:4-3 Eisis3 Asas2 H2 D6:"
        );
        assert_eq!(
            print_named(&notes, Lang::French),
            "do3 fa♯3:6 si♭2! (la♭2) do♭3:4-3 mi♯♯3 la♭♭2 si2 ré6:"
        );
    }
}
