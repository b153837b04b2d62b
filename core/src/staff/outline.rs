//! Signs as outlines written where they stand. On the page they are cheaper than signs used by
//! id: a browser clones each of those with elements of its own and moves each by itself, which
//! is most of the work when chords are drawn anew at every step of a drag. In a file or on paper
//! the ids are shorter.

use super::glyph::{Glyph, Size};
use super::glyphs::{ALL, WIGGLE};
use super::symbols::unit;
use std::sync::LazyLock;

/// A sign's outline in staff spaces, y down.
pub(super) struct Outline {
    /// Where the outline begins, from the sign's origin.
    pub(super) start: (f64, f64),
    /// Path data after the first point, each step from the one before.
    pub(super) steps: String,
}

/// One sign in both sizes.
struct Sizes {
    id: &'static str,
    full: Outline,
    small: Outline,
}

static SIGNS: LazyLock<Vec<Sizes>> = LazyLock::new(|| {
    let sizes = |glyph: &&'static Glyph| {
        let of = |size: Size| outline(glyph.path, unit(glyph) * size.scale(), Way::Level);
        Sizes { id: glyph.id, full: of(Size::Full), small: of(Size::Small) }
    };
    ALL.iter().map(sizes).collect()
});

static WAVE: LazyLock<Outline> = LazyLock::new(|| outline(WIGGLE.path, unit(&WIGGLE), Way::Upward));

/// The outline of a sign.
pub(super) fn of(glyph: &Glyph, size: Size) -> Option<&'static Outline> {
    let sizes = SIGNS.iter().find(|it| it.id == glyph.id)?;
    Some(match size {
        Size::Full => &sizes.full,
        Size::Small => &sizes.small,
    })
}

/// One wave of an arpeggio sign that goes upward.
pub(super) fn wave() -> &'static Outline {
    &WAVE
}

/// Which way a sign's own left to right goes.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Way {
    Level,
    Upward,
}

/// Scales and turns path data of relative steps, as all signs have it: `m`, `c`, `l`, `h`, `v`
/// and `z`, y up.
fn outline(path: &str, unit: f64, way: Way) -> Outline {
    let turned = |x: f64, y: f64| match way {
        Way::Level => (x * unit, -y * unit),
        Way::Upward => (-y * unit, -x * unit),
    };
    let mut outline = Outline { start: (0.0, 0.0), steps: String::with_capacity(path.len() * 2) };
    let mut begun = false;
    for (command, numbers) in parts(path) {
        let points: Vec<(f64, f64)> = match command {
            'h' => numbers.iter().map(|&x| turned(x, 0.0)).collect(),
            'v' => numbers.iter().map(|&y| turned(0.0, y)).collect(),
            _ => {
                let pairs = numbers.chunks_exact(2);
                pairs.filter_map(|it| Some(turned(*it.first()?, *it.last()?))).collect()
            }
        };
        if !begun {
            begun = true;
            outline.start = points.first().copied().unwrap_or_default();
            continue;
        }
        let steps = &mut outline.steps;
        steps.push(if matches!(command, 'h' | 'v') { 'l' } else { command });
        let mut apart = false;
        for number in points.into_iter().flat_map(|(x, y)| [x, y]) {
            write(steps, number, apart);
            apart = true;
        }
    }
    outline
}

/// The commands of path data, each with its numbers.
fn parts(path: &str) -> impl Iterator<Item = (char, Vec<f64>)> {
    path.split_inclusive(|c: char| c.is_ascii_alphabetic())
        .scan(None, |before, piece| {
            // A piece ends with the next command.
            let numbers = piece.trim_end_matches(|c: char| c.is_ascii_alphabetic());
            let now = std::mem::replace(before, piece.chars().last());
            Some(now.map(|command| (command, split(numbers))))
        })
        .flatten()
        .chain(path.ends_with('z').then(|| ('z', Vec::new())))
}

fn split(numbers: &str) -> Vec<f64> {
    let mut found: Vec<f64> = Vec::new();
    let mut start = 0;
    let ends = numbers.char_indices().filter(|&(_, c)| c == ' ' || c == '-').map(|(i, _)| i);
    for end in ends.chain([numbers.len()]) {
        found.extend(numbers.get(start..end).and_then(|it| it.trim().parse::<f64>().ok()));
        start = end;
    }
    found
}

/// A length in ten-thousandths, in which every outline is exact, shortest form.
fn write(out: &mut String, value: f64, apart: bool) {
    let size = (value * 10_000.0).round() as i64;
    if size < 0 {
        out.push('-');
    } else if apart {
        out.push(' ');
    }
    let (whole, part) = (size.unsigned_abs() / 10_000, size.unsigned_abs() % 10_000);
    if whole > 0 || part == 0 {
        out.push_str(&whole.to_string());
    }
    if part > 0 {
        out.push('.');
        out.push_str(format!("{part:04}").trim_end_matches('0'));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn path_data_is_scaled_and_turned() {
        let path = "m100 50c-25 0 0 25-50-5h10v-250zm1-2z";
        let level = outline(path, 0.004, Way::Level);
        assert_eq!(level.start, (0.4, -0.2));
        assert_eq!(level.steps, "c-.1 0 0-.1-.2 .02l.04 0l0 1zm.004 .008z");
        let upward = outline(path, 0.004, Way::Upward);
        assert_eq!(upward.start, (-0.2, -0.4));
        assert_eq!(upward.steps, "c0 .1-.1 0 .02 .2l0-.04l1 0zm.008-.004z");
    }

    #[test]
    fn every_sign_has_its_outline() {
        for glyph in ALL {
            let outline = of(glyph, Size::Small).expect("an outline");
            let letters = |it: &str| it.matches(|c: char| c.is_ascii_alphabetic()).count();
            assert_eq!(letters(&outline.steps) + 1, letters(glyph.path), "{}", glyph.id);
        }
    }
}
