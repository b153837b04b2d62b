//! The key signature: which letters it alters and where its signs stand.

use super::glyph::Glyph;
use super::glyphs;
use super::stave::Stave;
use crate::pitch::{Pitch, Step, Tonality};

/// Heights of the sharps on the treble stave, letters above C0: F5 C5 G5 D5 A4 E5 B4.
const SHARPS: [i32; 7] = [38, 35, 39, 36, 33, 37, 34];
/// Heights of the flats on the treble stave: B4 E5 A4 D5 G4 C5 F4.
const FLATS: [i32; 7] = [34, 37, 33, 36, 32, 35, 31];
/// The same signs stand two octaves lower in letters on the bass stave.
const TREBLE_TO_BASS: i32 = -14;

/// A signature of at most seven sharps or flats.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Signature {
    /// Sharps, or flats when negative, in the range [-7, 7].
    fifths: i32,
}

impl Signature {
    /// The signature of a tonality; theoretical ones are cut to seven signs and
    /// the rest appears as accidentals.
    pub(super) fn of(tonality: Tonality) -> Signature {
        Signature { fifths: tonality.signature().clamp(-7, 7) }
    }

    /// What the signature does to a letter, in semitones.
    pub(super) fn alter(self, step: Step) -> i8 {
        // Place in the order F C G D A E B in which sharps are added.
        let place = step.fifths() + 1;
        if place < self.fifths {
            1
        } else if 6 - place < -self.fifths {
            -1
        } else {
            0
        }
    }

    /// The accidentals a pitch needs against the signature, left to right; an
    /// empty slice for none. More than three sharps or flats are drawn as three.
    pub(super) fn accidentals(self, pitch: Pitch) -> &'static [&'static Glyph] {
        if pitch.alter == self.alter(pitch.step) {
            &[]
        } else {
            Signature::accidentals_of(pitch.alter)
        }
    }

    /// The signs of an alteration in semitones, a natural for none.
    pub(super) fn accidentals_of(alter: i8) -> &'static [&'static Glyph] {
        match alter {
            ..=-3 => &[&glyphs::FLAT, &glyphs::DOUBLE_FLAT],
            -2 => &[&glyphs::DOUBLE_FLAT],
            -1 => &[&glyphs::FLAT],
            0 => &[&glyphs::NATURAL],
            1 => &[&glyphs::SHARP],
            2 => &[&glyphs::DOUBLE_SHARP],
            3.. => &[&glyphs::SHARP, &glyphs::DOUBLE_SHARP],
        }
    }

    /// Width of the whole signature in staff spaces.
    pub(super) fn width(self) -> f64 {
        f64::from(self.fifths.abs()) * self.glyph().advance
    }

    /// The signs as glyph, distance from the left and height in letters above C0.
    pub(super) fn signs(self, stave: Stave) -> impl Iterator<Item = (&'static Glyph, f64, i32)> {
        let heights = if self.fifths < 0 { FLATS } else { SHARPS };
        let shift = match stave {
            Stave::Treble => 0,
            Stave::Bass => TREBLE_TO_BASS,
        };
        let glyph = self.glyph();
        let count = self.fifths.unsigned_abs() as usize;
        heights
            .into_iter()
            .take(count)
            .enumerate()
            .map(move |(i, height)| (glyph, i as f64 * glyph.advance, height + shift))
    }

    fn glyph(self) -> &'static Glyph {
        if self.fifths < 0 { &glyphs::FLAT } else { &glyphs::SHARP }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The signature agrees with the tonality's own classes for all that can be written.
    #[test]
    fn alters_what_the_tonality_alters() {
        for text in ["C", "G", "C#", "F", "Cb", "a", "a#m", "abm", "Eb", "f#m"] {
            let tonality = Tonality::parse(text).expect("a tonality");
            let signature = Signature::of(tonality);
            for step in Step::ALL {
                assert_eq!(signature.alter(step), tonality.class_of(step).alter, "{text} {step:?}");
            }
        }
    }
}
