//! Where a tuning does not serve: spelled intervals that its keys sound far from
//! pure. Meantone has one G♯ and no A♭; asked for A♭–E♭ it howls.

use super::Temperament;
use super::temperament::{cents, ratio};
use crate::harmony::Chord;
use crate::pitch::PitchClass;

/// A fifth further than this from pure howls, in cents. Every tempered fifth in
/// use is nearer (Werckmeister's, 5.9); every wolf is farther (sixth-comma 16.0).
/// Our choice between the two.
const FIFTH: f64 = 10.0;
/// A third further than this from pure, in cents: beyond the Pythagorean third
/// (21.5), the widest that the well-tempered tunings use. Our choice.
const THIRD: f64 = 24.0;

/// A consonance.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Consonance {
    /// A perfect fifth.
    Fifth,
    /// A major third.
    MajorThird,
    /// A minor third.
    MinorThird,
}

impl Consonance {
    /// The consonance that two classes spell, the second above the first.
    fn of(low: PitchClass, high: PitchClass) -> Option<Consonance> {
        match high.fifths() - low.fifths() {
            1 => Some(Consonance::Fifth),
            4 => Some(Consonance::MajorThird),
            -3 => Some(Consonance::MinorThird),
            _ => None,
        }
    }

    /// Its pure size in cents.
    fn pure(self) -> f64 {
        match self {
            Consonance::Fifth => ratio(3.0, 2.0),
            Consonance::MajorThird => ratio(5.0, 4.0),
            Consonance::MinorThird => ratio(6.0, 5.0),
        }
    }

    /// How far from pure it may be, in cents.
    fn bound(self) -> f64 {
        match self {
            Consonance::Fifth => FIFTH,
            Consonance::MajorThird | Consonance::MinorThird => THIRD,
        }
    }
}

/// An interval that howls in a tuning.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wolf {
    /// Its lower note as spelled.
    pub low: PitchClass,
    /// Its upper note as spelled.
    pub high: PitchClass,
    /// What it is meant to be.
    pub consonance: Consonance,
    /// How much wider than pure it sounds, in cents; negative when narrower.
    pub wider: f64,
}

/// The intervals among some classes sounding together that howl, in the order of
/// the classes.
pub fn wolves(temperament: Temperament, classes: &[PitchClass]) -> Vec<Wolf> {
    let table = cents(temperament);
    let at = |class: PitchClass| table[class.chroma().rem_euclid(12) as usize];
    let mut wolves: Vec<Wolf> = Vec::new();
    for &low in classes {
        for &high in classes {
            let Some(consonance) = Consonance::of(low, high) else { continue };
            let size = at(high) - at(low);
            let size = size - 1200.0 * libm::floor(size / 1200.0);
            let wider = size - consonance.pure();
            let known = wolves.iter().any(|wolf| (wolf.low, wolf.high) == (low, high));
            if wider.abs() > consonance.bound() && !known {
                wolves.push(Wolf { low, high, consonance, wider });
            }
        }
    }
    wolves
}

/// The wolves of every chord of a piece, by index of the chord.
pub fn howls(temperament: Temperament, chords: &[Chord]) -> Vec<(usize, Wolf)> {
    let of = |(index, chord): (usize, &Chord)| {
        let classes: Vec<PitchClass> = chord.tones.iter().map(|tone| tone.class).collect();
        wolves(temperament, &classes).into_iter().map(move |wolf| (index, wolf))
    };
    chords.iter().enumerate().flat_map(of).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pitch::{Degree, Mode, Tonality};

    fn triad(fifths: i32, mode: Mode) -> [PitchClass; 3] {
        let third = if mode == Mode::Major { 4 } else { -3 };
        [0, third, 1].map(|above| PitchClass::from_fifths(fifths + above))
    }

    /// Roots, along the usual twelve places of the line of fifths, whose triad of
    /// this mode does not howl.
    fn usable(temperament: Temperament, mode: Mode) -> String {
        let lowest = if mode == Mode::Major { -6 } else { -4 };
        let sound = (lowest..lowest + 12)
            .filter(|&root| wolves(temperament, &triad(root, mode)).is_empty());
        let names = sound.map(|root| PitchClass::from_fifths(root).to_string());
        names.collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn meantone_serves_the_triads_it_is_known_to() {
        // Barbour 1951: E♭ to G♯, so major triads from E♭ to E and minor from C to C♯.
        for meantone in [Temperament::QuarterComma, Temperament::SixthComma] {
            assert_eq!(usable(meantone, Mode::Major), "E♭ B♭ F C G D A E");
            assert_eq!(usable(meantone, Mode::Minor), "C G D A E B F♯ C♯");
        }
    }

    #[test]
    fn well_tempered_and_equal_tunings_howl_nowhere() {
        for temperament in [
            Temperament::Equal,
            Temperament::Werckmeister3,
            Temperament::Kirnberger3,
            Temperament::Vallotti,
            Temperament::Young2,
        ] {
            for mode in [Mode::Major, Mode::Minor] {
                for root in -8..=10 {
                    assert!(wolves(temperament, &triad(root, mode)).is_empty(), "{temperament:?}");
                }
            }
        }
    }

    #[test]
    fn the_wolf_is_as_wide_as_computed() {
        let a_flat = Tonality::new(PitchClass::from_fifths(-4), Mode::Major);
        let chord = [1, 3, 5].map(|n| a_flat.scale(Degree::wrapped(n - 1)));
        let wolves = wolves(Temperament::QuarterComma, &chord);
        // A♭–C is a diminished fourth, a diesis too wide: 427.373 against 386.314;
        // A♭–E♭ is 737.637 against 701.955.
        let third = wolves.iter().find(|wolf| wolf.consonance == Consonance::MajorThird);
        let fifth = wolves.iter().find(|wolf| wolf.consonance == Consonance::Fifth);
        assert!(third.is_some_and(|wolf| (wolf.wider - 41.059).abs() < 0.01));
        assert!(fifth.is_some_and(|wolf| (wolf.wider - 35.682).abs() < 0.01));
    }
}
