//! Tonalities: a tonic and a mode, their scale and how they spell keys.

use super::{Interval, Key, Pitch, PitchClass, Step};
use std::fmt;

/// Major or minor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Mode {
    /// Major.
    Major,
    /// Minor; the scale is natural, its 6th and 7th raised where a rule says so.
    Minor,
}

/// A degree of the scale, in the range [1, 7].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Degree(u8);

impl Degree {
    /// The degree of this number, if it is in the range [1, 7].
    pub const fn new(number: i32) -> Option<Degree> {
        if 1 <= number && number <= 7 { Some(Degree(number as u8)) } else { None }
    }

    /// The degree `steps` letters above the tonic, wrapping at the octave.
    pub const fn wrapped(steps: i32) -> Degree {
        Degree(steps.rem_euclid(7) as u8 + 1)
    }

    /// The number, in the range [1, 7].
    pub const fn number(self) -> u8 {
        self.0
    }
}

/// A tonic and a mode.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Tonality {
    /// The tonic.
    pub tonic: PitchClass,
    /// Major or minor.
    pub mode: Mode,
}

impl Tonality {
    /// A tonality from its tonic and mode.
    pub const fn new(tonic: PitchClass, mode: Mode) -> Tonality {
        Tonality { tonic, mode }
    }

    /// Sharps (positive) or flats (negative) of the signature; theoretical
    /// tonalities lie outside [-7, 7].
    pub const fn signature(self) -> i32 {
        match self.mode {
            Mode::Major => self.tonic.fifths(),
            Mode::Minor => self.tonic.fifths() - 3,
        }
    }

    /// The class the signature gives this letter.
    pub const fn class_of(self, step: Step) -> PitchClass {
        // The signature's seven classes are the fifths from one below the major tonic up.
        let lowest = self.signature() - 1;
        let offset = (step.fifths() - lowest).rem_euclid(7);
        PitchClass::from_fifths(lowest + offset)
    }

    /// The natural class of a degree (in minor the lowered 6th and 7th).
    pub const fn scale(self, degree: Degree) -> PitchClass {
        self.class_of(Step::wrapped(self.tonic.step.index() + degree.number() as i32 - 1))
    }

    /// The degree whose letter this is, whatever its accidental.
    pub const fn degree_of(self, step: Step) -> Degree {
        Degree::wrapped(step.index() - self.tonic.step.index())
    }

    /// The leading note: a semitone below the tonic, raised in minor.
    pub fn leading(self) -> PitchClass {
        self.tonic + Interval::new(-1, -1)
    }

    /// Whether the class belongs to the signature.
    pub fn is_diatonic(self, class: PitchClass) -> bool {
        self.class_of(class.step) == class
    }

    /// The spelling of a key in this tonality: its own notes first, then the
    /// usual raised and lowered ones (F♯ C♯ G♯ B♭ E♭ in C major; F♯ G♯ C♯ D♯ B♭
    /// in A minor). Our choice of window on the line of fifths.
    pub fn spell(self, key: Key) -> Pitch {
        let lowest = match self.mode {
            Mode::Major => self.tonic.fifths() - 3,
            Mode::Minor => self.tonic.fifths() - 5,
        };
        // Seven fifths make a semitone (mod 12) and seven is its own inverse there.
        let offset = (key.number() * 7 - lowest).rem_euclid(12);
        let class = PitchClass::from_fifths(lowest + offset);
        let octave =
            (key.number() - class.step.semitones() - class.alter as i32).div_euclid(12) - 1;
        class.in_octave(octave as i8)
    }

    /// Reads `C`, `c minor`, `F♯ minor`, `Bb`, `Eb major`, `am`: a lower-case
    /// lone letter, or a final `m`/`minor`, means minor.
    pub fn parse(text: &str) -> Option<Tonality> {
        let text = text.trim();
        let mut letters = text.chars();
        let first = letters.next()?;
        let step = Step::from_letter(first)?;
        let mut alter = 0i8;
        let mut rest = letters.as_str();
        loop {
            let mut tail = rest.chars();
            match tail.next() {
                Some('#' | '♯') => alter = alter.saturating_add(1),
                Some('b' | '♭') => alter = alter.saturating_sub(1),
                _ => break,
            }
            rest = tail.as_str();
        }
        let mode = match rest.trim().to_ascii_lowercase().as_str() {
            "" if first.is_ascii_lowercase() => Mode::Minor,
            "" | "major" | "maj" => Mode::Major,
            "m" | "minor" | "min" => Mode::Minor,
            _ => return None,
        };
        (-2..=2).contains(&alter).then_some(Tonality::new(PitchClass::new(step, alter), mode))
    }
}

impl fmt::Display for Tonality {
    /// `C major`, `F♯ minor`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mode = match self.mode {
            Mode::Major => "major",
            Mode::Minor => "minor",
        };
        write!(f, "{} {mode}", self.tonic)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn scale(text: &str) -> String {
        let tonality = Tonality::parse(text).expect("a tonality");
        let degrees = (1..=7).filter_map(Degree::new);
        degrees.map(|d| tonality.scale(d).to_string()).collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn scales_follow_their_signatures() {
        assert_eq!(scale("C"), "C D E F G A B");
        assert_eq!(scale("Eb"), "E♭ F G A♭ B♭ C D");
        assert_eq!(scale("f# minor"), "F♯ G♯ A B C♯ D E");
        assert_eq!(scale("a"), "A B C D E F G");
        assert_eq!(scale("Cb"), "C♭ D♭ E♭ F♭ G♭ A♭ B♭");
    }

    #[test]
    fn any_number_of_signs_is_counted() {
        for count in [3, 127, 128, 256, 1000] {
            for sign in ["#", "b", "♯", "♭"] {
                assert_eq!(Tonality::parse(&format!("C{}", sign.repeat(count))), None, "{count}");
            }
        }
    }

    #[test]
    fn keys_are_spelled_by_tonality() {
        let spelled = |text: &str| {
            let tonality = Tonality::parse(text).expect("a tonality");
            let keys = (60..72).filter_map(Key::new);
            keys.map(|k| tonality.spell(k).to_string()).collect::<Vec<_>>().join(" ")
        };
        assert_eq!(spelled("C"), "C4 C♯4 D4 E♭4 E4 F4 F♯4 G4 G♯4 A4 B♭4 B4");
        assert_eq!(spelled("a"), "C4 C♯4 D4 D♯4 E4 F4 F♯4 G4 G♯4 A4 B♭4 B4");
        assert_eq!(spelled("Cb"), "C4 D♭4 E♭♭4 E♭4 F♭4 F4 G♭4 G4 A♭4 B♭♭4 B♭4 C♭5");
    }

    #[test]
    fn every_key_keeps_its_height_when_spelled() {
        for fifths in -7..=7 {
            for mode in [Mode::Major, Mode::Minor] {
                let tonality = Tonality::new(PitchClass::from_fifths(fifths), mode);
                for key in (0..128).filter_map(Key::new) {
                    assert_eq!(tonality.spell(key).key(), Some(key), "{tonality}");
                }
            }
        }
    }
}
