//! Sets, hand-ins and comments as the fragment of a link, and any link back.
//!
//! The text is a letter for what it holds (`x` a set, `a` a hand-in, `c` a
//! commented one), a version digit, and the packed message (see `link`) under a
//! veil: each byte is turned by a fixed stream that everybody can compute. The
//! veil keeps a sealed model out of sight of whoever looks at the address or puts
//! it through a text tool. It is no encryption and hides nothing from a program.

use super::base64;
use super::fields::{Fields, Read};
use super::lesson_wire;
use super::link::{self, LinkError, MAX_LINK, pack, unpack};
use super::patch::Budget;
use crate::chance::Chance;
use crate::lesson::{Commented, HandIn, Set};
use crate::sketch::Sketch;

/// The letters of the three forms.
const SET: char = 'x';
const HAND_IN: char = 'a';
const COMMENTED: char = 'c';
/// The version this program writes.
const VERSION: char = '1';
/// What the veil is drawn from; part of the format.
const VEIL: (u64, u64) = (1708, 9);

/// What a link holds.
#[derive(Clone, Debug, PartialEq)]
pub enum Linked {
    /// A sketch.
    Sketch(Sketch),
    /// Exercises.
    Set(Set),
    /// A student's answers.
    HandIn(HandIn),
    /// A student's answers with a teacher's comments.
    Commented(Commented),
}

/// Opens any link of ours. Takes the fragment or the whole address, forgives
/// white space and anything that a mail put after it.
///
/// # Errors
/// [`LinkError`] if there is nothing of ours in it, whole and unchanged.
///
/// # Limits
/// [`MAX_LINK`] characters; sketches of lessons have at most 1000 notes, lists at
/// most 500 entries.
pub fn open(text: &str) -> Result<Linked, LinkError> {
    let fragment = fragment(text)?;
    match tag(fragment)? {
        Some(tag) => message(tag, &lesson(fragment)?),
        None => link::decode(text).map(Linked::Sketch),
    }
}

/// The plain message of a lesson's link, not yet read; what [`open`] reads.
///
/// # Errors
/// [`LinkError`] if it is no lesson's link, whole and unchanged.
pub fn plain(text: &str) -> Result<Vec<u8>, LinkError> {
    let fragment = fragment(text)?;
    tag(fragment)?.ok_or(LinkError::Foreign)?;
    lesson(fragment)
}

/// What follows the `#` of an address, or the whole text without one.
fn fragment(text: &str) -> Result<&str, LinkError> {
    if text.len() > MAX_LINK {
        return Err(LinkError::TooLong);
    }
    Ok(text.rsplit('#').next().unwrap_or(text).trim())
}

/// The letter of a lesson's link; `None` for a sketch's and for what is not ours.
fn tag(fragment: &str) -> Result<Option<char>, LinkError> {
    let mut chars = fragment.chars();
    match (chars.next(), chars.next()) {
        (Some(tag @ (SET | HAND_IN | COMMENTED)), Some(version)) if version.is_ascii_digit() => {
            if version == VERSION {
                Ok(Some(tag))
            } else {
                Err(LinkError::Newer)
            }
        }
        _ => Ok(None),
    }
}

/// The message behind a letter and a version.
fn lesson(fragment: &str) -> Result<Vec<u8>, LinkError> {
    let mut bytes = base64::read(fragment.get(2..).unwrap_or_default());
    veil(&mut bytes);
    unpack(&bytes)
}

fn message(tag: char, plain: &[u8]) -> Result<Linked, LinkError> {
    let mut fields = Fields::parse(plain)?;
    let spent = Budget::new();
    Ok(match tag {
        SET => {
            let mut it = Set::default();
            lesson_wire::set(&mut fields, &mut it, &spent)?;
            Linked::Set(it)
        }
        HAND_IN => {
            let mut it = HandIn::default();
            lesson_wire::hand_in(&mut fields, &mut it, &spent)?;
            Linked::HandIn(it)
        }
        _ => {
            let mut it = Commented::default();
            lesson_wire::commented(&mut fields, &mut it, &spent)?;
            Linked::Commented(it)
        }
    })
}

/// A set as letters, digits, `-` and `_`, safe in a URL's fragment.
pub fn encode_set(set: &Set) -> String {
    encode(SET, &mut set.clone(), lesson_wire::set)
}

/// A hand-in, as [`encode_set`].
pub fn encode_hand_in(hand_in: &HandIn) -> String {
    encode(HAND_IN, &mut hand_in.clone(), lesson_wire::hand_in)
}

/// A commented hand-in, as [`encode_set`].
pub fn encode_commented(commented: &Commented) -> String {
    encode(COMMENTED, &mut commented.clone(), lesson_wire::commented)
}

fn encode<T>(
    tag: char,
    it: &mut T,
    fields: impl FnOnce(&mut Fields<'_>, &mut T, &Budget) -> Read,
) -> String {
    let mut bytes = pack(&Fields::written(|wire| fields(wire, it, &Budget::new())));
    veil(&mut bytes);
    let mut text = String::from_iter([tag, VERSION]);
    base64::write(&bytes, &mut text);
    text
}

/// Turns the bytes, and turned bytes back.
fn veil(bytes: &mut [u8]) {
    let mut stream = Chance::of(VEIL.0, VEIL.1);
    for byte in bytes {
        *byte ^= stream.draw() as u8;
    }
}

/// The links in a pasted text, in order: several to a line or one broken over
/// lines, among greetings and names.
pub fn pasted(text: &str) -> Vec<String> {
    let mut links: Vec<String> = Vec::new();
    for word in text.split(|c: char| c.is_whitespace() || matches!(c, '<' | '>' | '"' | ',' | ';'))
    {
        let fragment = word.rsplit('#').next().unwrap_or(word);
        let mut chars = fragment.chars();
        let tagged = match chars.next() {
            Some(SET | HAND_IN | COMMENTED) => chars.next() == Some(VERSION),
            Some('1') => word.contains('#'),
            _ => false,
        };
        let long = fragment.len() >= 10;
        let coded = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
        if tagged && long {
            links.push(fragment.to_string());
        } else if !word.is_empty()
            && word.chars().all(coded)
            && let Some(last) = links.last_mut()
            && open(last) == Err(LinkError::CutShort)
        {
            last.push_str(word);
        }
    }
    links
}
