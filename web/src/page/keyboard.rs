//! The on-screen keyboard and the strip above it that shows the whole compass.
//! The chosen chord's handfuls stand on the keys: squares for the left hand,
//! rounds for the right, the outer voices lettered.

use super::keys::{BLACK_LENGTH, Keyboard, Window};
use super::patch::mend;
use super::reader::lang;
use super::{dom, notice};
use crate::app::{App, Keys, Reveal};
use std::fmt::Write;
use tastata::hands::Hand;
use tastata::pitch::{Key, PitchClass, Step};
use tastata::words::Lang;
use web_sys::Element;

/// Narrowest white key that a finger hits well, in CSS pixels.
const FINGER: f64 = 44.0;

/// What is drawn of the keyboard.
#[derive(Default)]
pub(super) struct KeyboardView {
    /// Width and height in CSS pixels.
    size: (f64, f64),
    left: Option<f64>,
    drawn: Shown,
    strip: Shown,
    down: Vec<Key>,
    caret: Option<Key>,
    window: Option<Window>,
    /// Whether what is to be shown comes of a key that was struck.
    pub(super) is_played: bool,
    /// The outer key the window last followed, and its chord.
    followed: Option<(usize, Key)>,
}

/// What a picture of the keys depends on but for the marks on them.
#[derive(Clone, Copy, PartialEq)]
struct Bare {
    board: Keyboard,
    window: Window,
    /// In CSS pixels.
    size: (f64, f64),
    lang: Lang,
}

/// A picture in the document: keys, which seldom change, and in a group of its own what
/// stands on them, which changes at every step of a drag.
#[derive(Default)]
struct Shown {
    bare: Option<Bare>,
    marks: String,
}

impl Shown {
    /// Brings an element that holds this picture to the next; says whether the keys differ.
    fn put(
        &mut self,
        holder: &Element,
        bare: Bare,
        keys: impl FnOnce(&Bare) -> String,
        marks: &str,
    ) -> bool {
        let marks = format!("<g class=\"onkeys\">{marks}</g>");
        let group = || holder.first_element_child()?.last_element_child();
        if self.bare == Some(bare)
            && let Some(group) = group()
        {
            mend(&group, &self.marks, &marks);
            self.marks = marks;
            return false;
        }
        holder.set_inner_html(&format!("{}{marks}</svg>", keys(&bare)));
        *self = Shown { bare: Some(bare), marks };
        true
    }

    /// Takes the picture away.
    fn clear(&mut self, holder: &Element) {
        if self.bare.is_some() {
            dom::clear(holder);
            *self = Shown::default();
        }
    }
}

/// A finger's mark on a key.
#[derive(Clone, Copy)]
struct Mark {
    key: Key,
    hand: Hand,
    letter: Option<char>,
}

impl KeyboardView {
    /// Measures the room there is; where anything is yet to be drawn, before it is.
    pub(super) fn measure(&mut self) {
        if let Some(element) = dom::get::<Element>("keyboard") {
            let rect = element.get_bounding_client_rect();
            self.size = (rect.width(), rect.height());
        }
    }

    /// Draws the keyboard with the chosen chord.
    pub(super) fn show(&mut self, app: &App) {
        let chord = app.selected_chord();
        self.show_chord(app, chord);
    }

    /// Draws the keyboard with this chord in the hands.
    pub(super) fn show_chord(&mut self, app: &App, chord: Option<usize>) {
        let board = Keyboard::of(&app.sketch().hands);
        let Some(element) = dom::get::<Element>("keyboard") else { return };
        let (width, _) = self.size;
        if width < 1.0 {
            return;
        }
        let marks = marks(app, chord);
        // A projected keyboard is looked at: all of it, where it can be seen.
        let most = match app.view().reveal {
            Some(_) if width >= 700.0 => f64::INFINITY,
            _ => (width / FINGER).floor(),
        };
        let follows = match app.view().keys {
            Keys::Figures => 'B',
            _ => 'S',
        };
        let followed = marks.iter().find(|m| m.letter == Some(follows)).map(|m| m.key);
        let follow = chord.zip(followed);
        let moved_on = follow.is_some() && follow != self.followed;
        let chord_is_new = moved_on && self.followed.map(|it| it.0) != chord;
        self.followed = follow;
        let (low, high) = board.ends();
        let middle = (low + high - most.min(100.0)) / 2.0;
        let mut window = Window::on(board, self.left.unwrap_or(middle), most);
        let to = match app.view().keys {
            Keys::Figures => above(followed, window, board),
            _ if chord_is_new && !self.is_played => following(&marks, window, board),
            // No key slides away under fingers that go from chord to chord by it, or drag it.
            _ => following_soprano(&marks, window, board),
        };
        if moved_on && let Some(left) = to {
            window = Window::on(board, left, most);
        }
        self.left = Some(window.left);
        self.window = Some(window);
        let bare = Bare { board, window, size: self.size, lang: lang() };
        let drawn = marks_svg(&bare, &marks, self.caret);
        if self.drawn.put(&element, bare, keyboard_svg, &drawn) {
            let down = std::mem::take(&mut self.down);
            self.light(&down);
        }
        let all = window.whites >= high - low;
        dom::set_hidden("overview", all);
        let Some(overview) = dom::get::<Element>("overview") else { return };
        if all {
            self.strip.clear(&overview);
        } else {
            let whole = Window { left: low, whites: high - low };
            let strip = Bare { window: whole, size: (0.0, 0.0), ..bare };
            self.strip.put(&overview, strip, strip_svg, &strip_marks_svg(board, window, &marks));
        }
    }

    /// Shows these keys as sounding and no others.
    pub(super) fn light(&mut self, keys: &[Key]) {
        if self.down == keys {
            return;
        }
        for &key in self.down.iter().filter(|key| !keys.contains(key)) {
            class(key, false);
        }
        for &key in keys {
            class(key, true);
        }
        self.down = keys.to_vec();
    }

    /// The key under a point of the page.
    pub(super) fn key_at(&self, x: f64, y: f64, app: &App) -> Option<Key> {
        let rect = dom::get::<Element>("keyboard")?.get_bounding_client_rect();
        let (x, y) = ((x - rect.left()) / rect.width(), (y - rect.top()) / rect.height());
        self.window?.key_at(x, y.clamp(0.0, 1.0), Keyboard::of(&app.sketch().hands))
    }

    /// Moves the window so that its middle lies at this fraction of the compass.
    pub(super) fn look_at(&mut self, fraction: f64, app: &App) {
        let (low, high) = Keyboard::of(&app.sketch().hands).ends();
        let whites = self.window.map_or(0.0, |w| w.whites);
        self.left = Some(low + fraction * (high - low) - whites / 2.0);
        self.show(app);
    }

    /// Moves the window by octaves.
    pub(super) fn shift(&mut self, by: f64, app: &App) {
        self.left = self.left.map(|left| left + by * 7.0);
        self.show(app);
    }

    /// Whether only a part of the compass is in view.
    pub(super) fn is_narrow(&self, app: &App) -> bool {
        let (low, high) = Keyboard::of(&app.sketch().hands).ends();
        self.window.is_some_and(|window| window.whites < high - low)
    }

    /// Moves the window so that this key is in view, and as much as can be of what
    /// lies above it.
    pub(super) fn bring(&mut self, key: Key, app: &App) {
        let Some(window) = self.window else { return };
        let place = Keyboard::of(&app.sketch().hands).place(key);
        if !window.shows(place) {
            self.left = Some(place.0 - 1.0);
            self.show(app);
        }
    }

    /// Puts the keyboard's caret on the key `by` semitones further.
    pub(super) fn step_caret(&mut self, by: i32, app: &App) {
        let board = Keyboard::of(&app.sketch().hands);
        let from = self.caret.unwrap_or(Key::clamped(60));
        let Some(to) = board.step(from, by) else { return };
        self.caret = Some(to);
        if let Some(window) = self.window {
            let (left, width) = board.place(to);
            if left < window.left {
                self.left = Some(left);
            } else if left + width > window.left + window.whites {
                self.left = Some(left + width - window.whites);
            }
        }
        notice::announce(&lang().pitch(app.reading().harmony.home.spell(to)));
        self.show(app);
    }

    /// The key the caret is on.
    pub(super) fn caret(&self) -> Option<Key> {
        self.caret
    }
}

/// The outer keys of the chosen chord: bass and soprano.
pub(super) fn outer_keys(app: &App) -> Option<(usize, Key, Key)> {
    let chord = app.selected_chord()?;
    let bass = app.reading().harmony.chords.get(chord)?.bass.key()?;
    let soprano = app.reading().frame.soprano.get(chord)?.key()?;
    Some((chord, bass, soprano))
}

/// The hand whose inner note of the chosen chord stands on this key, where keys change
/// the handful.
pub(super) fn inner_mark(app: &App, key: Key) -> Option<(usize, Hand)> {
    if app.view().keys != Keys::Handful {
        return None;
    }
    let chord = app.selected_chord()?;
    let on_it = |mark: &Mark| mark.key == key && mark.letter.is_none();
    let hand = marks(app, Some(chord)).into_iter().find(on_it)?.hand;
    Some((chord, hand))
}

fn marks(app: &App, chord: Option<usize>) -> Vec<Mark> {
    let Some(handful) = chord.and_then(|c| app.reading().hands.handfuls.get(c)) else {
        return Vec::new();
    };
    let left =
        handful.left.iter().enumerate().map(|(i, p)| (p, Hand::Left, (i == 0).then_some('B')));
    let last = handful.right.len().saturating_sub(1);
    let right =
        handful.right.iter().enumerate().map(|(i, p)| (p, Hand::Right, (i == last).then_some('S')));
    let shown = |letter: Option<char>| match (app.view().reveal, letter) {
        (Some(reveal), Some('B')) => reveal >= Reveal::Bass,
        (Some(reveal), Some(_)) => reveal >= Reveal::Soprano,
        (Some(reveal), None) => reveal >= Reveal::Handfuls,
        (None, _) => true,
    };
    left.chain(right)
        .filter(|(_, _, letter)| shown(*letter))
        .filter_map(|(pitch, hand, letter)| Some(Mark { key: pitch.key()?, hand, letter }))
        .collect()
}

/// Where the window should go so that both hands are in view where they have room in it, else the
/// soprano (or else the bass), two keys above it to move it to, and as much below it as can be.
fn following(marks: &[Mark], window: Window, board: Keyboard) -> Option<f64> {
    let places: Vec<_> = marks.iter().map(|mark| board.place(mark.key)).collect();
    let both = places.iter().map(|(left, width)| (*left, left + width));
    let both = both.reduce(|(low, high), (left, right)| (low.min(left), high.max(right)))?;
    window.holding(both).or_else(|| {
        let (left, width) = board.place(soprano(marks)?);
        let to = Window { left: left + width + 2.0 - window.whites, ..window };
        let seen = |window: Window| places.iter().filter(|place| window.shows(**place)).count();
        (!window.shows((left, width)) || seen(window) < seen(to)).then_some(to.left)
    })
}

fn following_soprano(marks: &[Mark], window: Window, board: Keyboard) -> Option<f64> {
    let place = board.place(soprano(marks)?);
    (!window.shows(place)).then_some(place.0 - window.whites * 0.7)
}

/// The key of the soprano, or else of the bass.
fn soprano(marks: &[Mark]) -> Option<Key> {
    marks.iter().find(|m| m.letter == Some('S')).or(marks.first()).map(|mark| mark.key)
}

/// Where the window should go so that a chord can be played over this bass: its key
/// the lowest in view, so that a seventh above it is there too.
fn above(bass: Option<Key>, window: Window, board: Keyboard) -> Option<f64> {
    let (left, _) = board.place(bass?);
    ((left - window.left).abs() > 0.4).then_some(left)
}

fn class(key: Key, down: bool) {
    for (prefix, name) in [("k", "down"), ("o", "lit")] {
        if let Some(element) = dom::get::<Element>(&format!("{prefix}{}", key.number())) {
            let _ = element.class_list().toggle_with_force(name, down);
        }
    }
}

impl Bare {
    /// CSS pixels of a white key.
    fn unit(&self) -> f64 {
        self.size.0 / self.window.whites
    }

    fn shows(&self, key: Key) -> bool {
        let (left, wide) = self.board.place(key);
        left + wide > self.window.left && left < self.window.left + self.window.whites
    }
}

/// The picture's opening tag and the keys in view.
fn keyboard_svg(bare: &Bare) -> String {
    let (Bare { board, window, size: (width, height), .. }, unit) = (*bare, bare.unit());
    let mut svg = format!("<svg viewBox=\"0 0 {width:.0} {height:.0}\" aria-hidden=\"true\">");
    for raised in [false, true] {
        let keys = board.keys().filter(|k| board.is_raised(*k) == raised);
        for key in keys.filter(|k| bare.shows(*k)) {
            let (left, wide) = board.place(key);
            let (x, w) = ((left - window.left) * unit, wide * unit);
            let h = if raised { height * BLACK_LENGTH } else { height };
            let kind = if raised { "black" } else { "white" };
            let _ = write!(
                svg,
                "<g class=\"key {kind}\" id=\"k{}\"><rect x=\"{x:.1}\" y=\"0\" width=\"{w:.1}\" \
                 height=\"{h:.1}\" rx=\"3\"/>",
                key.number()
            );
            if let Some(name) = written_on(key, board) {
                let (x, y) = (x + w / 2.0, h - 6.0);
                let _ = write!(svg, "<text x=\"{x:.1}\" y=\"{y:.1}\">{name}</text>");
            }
            svg.push_str("</g>");
        }
    }
    svg
}

/// What stands on the keys in view.
fn marks_svg(bare: &Bare, marks: &[Mark], caret: Option<Key>) -> String {
    let (Bare { board, window, size: (_, height), .. }, unit) = (*bare, bare.unit());
    let mut svg = String::new();
    for mark in marks.iter().filter(|m| bare.shows(m.key)) {
        write_mark(&mut svg, mark, bare);
    }
    if let Some(key) = caret.filter(|key| bare.shows(*key)) {
        let (left, wide) = board.place(key);
        let (x, w) = ((left - window.left) * unit + 2.0, wide * unit - 4.0);
        let h = if board.is_raised(key) { height * BLACK_LENGTH } else { height } - 4.0;
        let _ = write!(
            svg,
            "<rect class=\"caret\" x=\"{x:.1}\" y=\"2\" width=\"{w:.1}\" height=\"{h:.1}\" rx=\"3\"/>"
        );
    }
    svg
}

/// What is written on a key: the octave on every C, the note where it sounds another than
/// its place tells.
fn written_on(key: Key, board: Keyboard) -> Option<String> {
    let natural = |step| lang().note(PitchClass::new(step, 0));
    let step = match key.number() % 12 {
        0 => return Some(format!("{}{}", natural(Step::C), key.number() / 12 - 1)),
        _ if !board.is_out_of_place(key) => return None,
        2 => Step::D,
        4 => Step::E,
        7 => Step::G,
        9 => Step::A,
        _ => Step::B,
    };
    Some(natural(step))
}

/// A square for the left hand, a round for the right.
fn write_mark(svg: &mut String, mark: &Mark, bare: &Bare) {
    let (Bare { board, window, size: (_, height), .. }, unit) = (*bare, bare.unit());
    let (left, wide) = board.place(mark.key);
    let x = (left + wide / 2.0 - window.left) * unit;
    let y = if board.is_raised(mark.key) { height * BLACK_LENGTH - 16.0 } else { height - 32.0 };
    let r = (unit * 0.26).clamp(7.0, 13.0);
    let outer = if mark.letter.is_some() { " outer" } else { "" };
    let _ = match mark.hand {
        Hand::Left => write!(
            svg,
            "<rect class=\"hand left{outer}\" x=\"{:.1}\" y=\"{:.1}\" width=\"{:.1}\" height=\"{:.1}\" rx=\"2\"/>",
            x - r,
            y - r,
            2.0 * r,
            2.0 * r
        ),
        Hand::Right => write!(
            svg,
            "<circle class=\"hand right{outer}\" cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"{r:.1}\"/>"
        ),
    };
    if let Some(letter) = mark.letter {
        let _ = write!(
            svg,
            "<text class=\"hand-letter\" x=\"{x:.1}\" y=\"{:.1}\">{letter}</text>",
            y + 4.3
        );
    }
}

/// A white key's width on the strip.
const STRIP_UNIT: f64 = 10.0;

/// The opening tag of the strip's picture and the whole compass.
fn strip_svg(bare: &Bare) -> String {
    let board = bare.board;
    let (low, high) = board.ends();
    let (unit, height) = (STRIP_UNIT, 34.0);
    let width = (high - low) * unit;
    let mut svg =
        format!("<svg viewBox=\"0 0 {width:.0} {height:.0}\" preserveAspectRatio=\"none\">");
    let _ = write!(svg, "<rect class=\"wash\" width=\"{width:.0}\" height=\"{height:.0}\"/>");
    for raised in [false, true] {
        for key in board.keys().filter(|k| board.is_raised(*k) == raised) {
            let (left, wide) = board.place(key);
            let kind = if raised { "black" } else { "white" };
            let h = if raised { 18.0 } else { 30.0 };
            let _ = write!(
                svg,
                "<rect class=\"{kind}\" id=\"o{}\" x=\"{:.1}\" y=\"2\" width=\"{:.1}\" height=\"{h}\"/>",
                key.number(),
                (left - low) * unit,
                wide * unit
            );
        }
    }
    svg
}

/// The handfuls on the strip, and the window's frame.
fn strip_marks_svg(board: Keyboard, window: Window, marks: &[Mark]) -> String {
    let (low, _) = board.ends();
    let unit = STRIP_UNIT;
    let mut svg = String::new();
    for mark in marks {
        let (left, wide) = board.place(mark.key);
        let x = (left + wide / 2.0 - low) * unit;
        let _ = match mark.hand {
            Hand::Left => write!(
                svg,
                "<rect class=\"hand left\" x=\"{:.1}\" y=\"20\" width=\"9\" height=\"9\"/>",
                x - 4.5
            ),
            Hand::Right => {
                write!(svg, "<circle class=\"hand right\" cx=\"{x:.1}\" cy=\"24.5\" r=\"5\"/>")
            }
        };
    }
    let _ = write!(
        svg,
        "<rect class=\"window\" x=\"{:.1}\" y=\"1\" width=\"{:.1}\" height=\"32\" rx=\"3\"/>",
        (window.left - low) * unit + 1.0,
        window.whites * unit - 2.0
    );
    svg
}
