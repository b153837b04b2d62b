//! Languages, and a reader: a language and a habit of naming notes.

use std::fmt;

/// A language of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Tongue {
    /// English.
    #[default]
    English,
    /// Italian.
    Italian,
    /// German.
    German,
    /// French.
    French,
    /// Spanish.
    Spanish,
}

impl Tongue {
    /// All languages, in the order in which sentences give their versions.
    pub const ALL: [Tongue; 5] =
        [Tongue::English, Tongue::Italian, Tongue::German, Tongue::French, Tongue::Spanish];

    /// The code of BCP 47.
    pub const fn code(self) -> &'static str {
        ["en", "it", "de", "fr", "es"][self as usize]
    }

    /// What the language calls itself.
    pub const fn own_name(self) -> &'static str {
        ["English", "Italiano", "Deutsch", "Français", "Español"][self as usize]
    }

    /// The language of a code such as `de` or `de-AT`, if the page has it.
    pub fn from_code(code: &str) -> Option<Tongue> {
        let main = code.split(['-', '_']).next().unwrap_or_default();
        Tongue::ALL.into_iter().find(|it| it.code().eq_ignore_ascii_case(main))
    }

    /// How readers of the language name notes.
    pub const fn habit(self) -> NoteNames {
        match self {
            Tongue::English => NoteNames::Letters,
            Tongue::German => NoteNames::German,
            Tongue::Italian | Tongue::French | Tongue::Spanish => NoteNames::Solfege,
        }
    }
}

/// A habit of naming notes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum NoteNames {
    /// C D E F G A B, with ♯ and ♭.
    #[default]
    Letters,
    /// do re mi fa sol la si, with ♯ and ♭.
    Solfege,
    /// C D E F G A H, with Cis and Es, and B for the H lowered.
    German,
}

impl NoteNames {
    /// All habits.
    pub const ALL: [NoteNames; 3] = [NoteNames::Letters, NoteNames::Solfege, NoteNames::German];

    /// The word it is kept by.
    pub const fn code(self) -> &'static str {
        ["letters", "solfege", "german"][self as usize]
    }

    /// The habit that a word keeps.
    pub fn from_code(code: &str) -> Option<NoteNames> {
        NoteNames::ALL.into_iter().find(|it| it.code() == code)
    }
}

/// Who is spoken to: a language and a habit of naming notes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub struct Lang {
    /// The language.
    pub tongue: Tongue,
    /// How notes are named.
    pub notes: NoteNames,
}

#[expect(non_upper_case_globals, reason = "a language is written as any variant is")]
impl Lang {
    /// English, C D E.
    pub const English: Lang = Lang::of(Tongue::English);
    /// Italian, do re mi.
    pub const Italian: Lang = Lang::of(Tongue::Italian);
    /// German, C D E … H.
    pub const German: Lang = Lang::of(Tongue::German);
    /// French, do ré mi.
    pub const French: Lang = Lang::of(Tongue::French);
    /// Spanish, do re mi.
    pub const Spanish: Lang = Lang::of(Tongue::Spanish);
}

impl Lang {
    /// A reader of this language who names notes as usual there.
    pub const fn of(tongue: Tongue) -> Lang {
        Lang { tongue, notes: tongue.habit() }
    }

    /// The sentence in this language.
    pub fn say(self, phrase: Phrase) -> &'static str {
        phrase.in_tongue(self.tongue)
    }

    /// The sentence in this language with its places filled in.
    pub fn tell<const N: usize>(self, phrase: Phrase<N>, parts: [&dyn fmt::Display; N]) -> String {
        fill(phrase.in_tongue(self.tongue), &parts)
    }

    /// The sentence for so many things: the first for one, the second for none or
    /// more, with the number at {0}.
    pub fn count(self, count: usize, one: Phrase, more: Phrase<1>) -> String {
        if count == 1 { self.say(one).to_string() } else { self.tell(more, [&count]) }
    }
}

/// A sentence in the five languages, side by side, with `N` places {0} {1} … to be
/// filled; made by [`phrase!`](crate::phrase), which does not compile when a
/// language is missing or leaves out a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Phrase<const N: usize = 0>(&'static str);

impl<const N: usize> Phrase<N> {
    /// The phrase of five versions parted by NUL. Not for use by hand.
    #[doc(hidden)]
    pub const fn new(text: &'static str) -> Phrase<N> {
        assert!(places_agree(text.as_bytes(), N), "a version has other places than N");
        Phrase(text)
    }

    /// The version in this language, places unfilled.
    pub fn in_tongue(self, tongue: Tongue) -> &'static str {
        self.0.split('\0').nth(tongue as usize).unwrap_or_default()
    }
}

/// Whether there are five versions and each has the places 0 to `count` - 1, no others.
const fn places_agree(text: &[u8], count: usize) -> bool {
    let (mut versions, mut seen, mut at) = (1, 0u32, 0);
    let all = (1u32 << count) - 1;
    while at < text.len() {
        match text[at] {
            0 => {
                if seen != all {
                    return false;
                }
                versions += 1;
                seen = 0;
            }
            b'{' => {
                let place = text[at + 1].wrapping_sub(b'0');
                if place as usize >= count || text[at + 2] != b'}' {
                    return false;
                }
                seen |= 1 << place;
            }
            _ => {}
        }
        at += 1;
    }
    versions == 5 && seen == all
}

/// A sentence in English, Italian, German, French and Spanish, in this order.
#[macro_export]
macro_rules! phrase {
    // Alike in all five, as names of people are.
    (= $all:literal) => {
        $crate::phrase!($all, $all, $all, $all, $all)
    };
    ($en:literal, $it:literal, $de:literal, $fr:literal, $es:literal $(,)?) => {
        const { $crate::words::Phrase::new(concat!($en, "\0", $it, "\0", $de, "\0", $fr, "\0", $es)) }
    };
}

/// A sentence that is still to be translated: English in all languages. A test
/// lists where it is used.
#[macro_export]
macro_rules! phrase_later {
    ($en:literal $(,)?) => {
        $crate::phrase!($en, $en, $en, $en, $en)
    };
}

fn fill(pattern: &str, parts: &[&dyn fmt::Display]) -> String {
    let mut out = String::with_capacity(pattern.len() + 16);
    let mut rest = pattern;
    while let Some((before, after)) = rest.split_once('{') {
        out.push_str(before);
        let place = after.bytes().next().unwrap_or_default().wrapping_sub(b'0');
        if let Some(part) = parts.get(usize::from(place)) {
            let _ = fmt::Write::write_fmt(&mut out, format_args!("{part}"));
        }
        rest = after.get(2..).unwrap_or_default();
    }
    out.push_str(rest);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    const EVERY: Phrase<2> =
        phrase!("{0} of {1}", "{0} di {1}", "{0} von {1}", "{0} sur {1}", "de {1}, {0}");

    #[test]
    fn places_are_filled_in_the_order_of_each_language() {
        assert_eq!(Lang::English.tell(EVERY, [&1, &"two"]), "1 of two");
        assert_eq!(Lang::Spanish.tell(EVERY, [&1, &"two"]), "de two, 1");
        assert_eq!(Lang::German.say(phrase!("a", "b", "c", "d", "e")), "c");
    }

    #[test]
    fn versions_with_other_places_are_refused() {
        assert!(places_agree(b"{0}\0{0}\0{0}\0{0}\0{0}", 1));
        assert!(!places_agree(b"{0}\0{0}\0none\0{0}\0{0}", 1));
        assert!(!places_agree(b"{1}\0{0}\0{0}\0{0}\0{0}", 1));
        assert!(!places_agree(b"a\0b\0c\0d", 0));
    }

    #[test]
    fn codes_name_languages_with_or_without_a_country() {
        assert_eq!(Tongue::from_code("de-AT"), Some(Tongue::German));
        assert_eq!(Tongue::from_code("FR"), Some(Tongue::French));
        assert_eq!(Tongue::from_code("nl"), None);
    }
}
