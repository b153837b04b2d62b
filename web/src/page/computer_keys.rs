//! The computer's keyboard as a keyboard: the middle letter row plays the white
//! keys from c′, the row above the raised ones, by place and not by letter.

use tastata::pitch::Key;

/// Physical keys from left to right and what they play above C4, in semitones.
const ROWS: [(&str, i32); 18] = [
    ("KeyA", 0),
    ("KeyW", 1),
    ("KeyS", 2),
    ("KeyE", 3),
    ("KeyD", 4),
    ("KeyF", 5),
    ("KeyT", 6),
    ("KeyG", 7),
    ("KeyY", 8),
    ("KeyH", 9),
    ("KeyU", 10),
    ("KeyJ", 11),
    ("KeyK", 12),
    ("KeyO", 13),
    ("KeyL", 14),
    ("KeyP", 15),
    ("Semicolon", 16),
    ("Quote", 17),
];

/// The key a physical key plays, with C at `c`.
pub(super) fn played(code: &str, c: Key) -> Option<Key> {
    let (_, above) = ROWS.iter().find(|(name, _)| *name == code)?;
    Key::new(c.number() + above)
}
