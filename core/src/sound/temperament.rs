//! Tunings, each computed from its definition: which fifths are narrowed, and
//! by how much of which comma.
//!
//! Definitions after Barbour, *Tuning and Temperament* (1951), whose printed
//! cents the tests compare; Werckmeister III with the Pythagorean comma, as
//! usual, though he did not say which comma he meant.

use super::SoundWishes;
use crate::pitch::Key;

/// A tuning by name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Temperament {
    /// Equal temperament.
    Equal,
    /// Quarter-comma meantone.
    QuarterComma,
    /// Sixth-comma meantone (syntonic).
    SixthComma,
    /// Werckmeister III, 1691.
    Werckmeister3,
    /// Kirnberger III, 1779.
    Kirnberger3,
    /// Vallotti.
    Vallotti,
    /// Young, second of 1799/1800.
    Young2,
    /// A table of one's own: C, C♯, D, E♭ … B above C, in thousandths of a cent so
    /// that it is kept exactly. Any values; the octave stays pure.
    Custom([i32; 12]),
}

impl Temperament {
    /// All named tunings, in the order they are offered.
    pub const ALL: [Temperament; 7] = [
        Temperament::QuarterComma,
        Temperament::SixthComma,
        Temperament::Werckmeister3,
        Temperament::Kirnberger3,
        Temperament::Vallotti,
        Temperament::Young2,
        Temperament::Equal,
    ];
}

/// Chromas of the twelve notes along the tuner's line of fifths, from E♭ to G♯.
const LINE: [usize; 12] = [3, 10, 5, 0, 7, 2, 9, 4, 11, 6, 1, 8];

/// Cents of a ratio.
pub(super) fn ratio(numerator: f64, denominator: f64) -> f64 {
    1200.0 * libm::log2(numerator / denominator)
}

/// How much each of the eleven fifths of [`LINE`] is narrowed, in cents. The
/// twelfth, from G♯ to E♭, gets what is left.
fn narrowings(temperament: Temperament) -> [f64; 11] {
    let pythagorean = ratio(531_441.0, 524_288.0);
    let syntonic = ratio(81.0, 80.0);
    let (p4, p6) = (pythagorean / 4.0, pythagorean / 6.0);
    let (s4, s6) = (syntonic / 4.0, syntonic / 6.0);
    let schisma = pythagorean - syntonic;
    match temperament {
        //                            E♭B♭ B♭F  F C  C G  G D  D A  A E  E B  B F♯ F♯C♯ C♯G♯
        Temperament::Equal => [pythagorean / 12.0; 11],
        Temperament::QuarterComma => [s4; 11],
        Temperament::SixthComma => [s6; 11],
        Temperament::Werckmeister3 => [0.0, 0.0, 0.0, p4, p4, p4, 0.0, 0.0, p4, 0.0, 0.0],
        Temperament::Kirnberger3 => [0.0, 0.0, 0.0, s4, s4, s4, s4, 0.0, 0.0, schisma, 0.0],
        Temperament::Vallotti => [0.0, 0.0, p6, p6, p6, p6, p6, p6, 0.0, 0.0, 0.0],
        Temperament::Young2 => [0.0, 0.0, 0.0, p6, p6, p6, p6, p6, p6, 0.0, 0.0],
        Temperament::Custom(_) => [0.0; 11],
    }
}

/// Cents of C, C♯, D, E♭ … B above C; in the range [0, 1200) for the named tunings,
/// as given (within ±1200) for a table of one's own.
pub fn cents(temperament: Temperament) -> [f64; 12] {
    if let Temperament::Custom(table) = temperament {
        return table.map(|thousandths| (f64::from(thousandths) / 1000.0).clamp(-1200.0, 1200.0));
    }
    let pure = ratio(3.0, 2.0);
    let mut along = [0.0; 12];
    for (i, narrowing) in narrowings(temperament).into_iter().enumerate() {
        along[i + 1] = along[i] + pure - narrowing;
    }
    let c = along[3];
    let mut table = [0.0; 12];
    for (place, chroma) in LINE.into_iter().enumerate() {
        let above = along[place] - c;
        table[chroma] = above - 1200.0 * libm::floor(above / 1200.0);
    }
    table
}

/// The frequency of a key, in hertz. `a4` outside [380, 480] is taken at the
/// nearer end.
pub fn hertz(key: Key, wishes: &SoundWishes) -> f64 {
    let table = cents(wishes.temperament);
    let above_c = 1200.0 * f64::from(key.number() / 12 - 5) + table[key.index() % 12];
    let a4 = if wishes.a4.is_finite() { wishes.a4.clamp(380.0, 480.0) } else { 415.0 };
    a4 * libm::exp2((above_c - table[9]) / 1200.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Cents above C as Barbour, *Tuning and Temperament* (1951), prints them
    /// (there to one decimal; here recomputed to three from his definitions).
    #[rustfmt::skip]
    const BARBOUR: [(Temperament, [f64; 12]); 7] = [
        //                         C    C♯      D        E♭       E        F        F♯       G        G♯       A        B♭        B
        (Temperament::Equal,         [0.0, 100.0, 200.0, 300.0, 400.0, 500.0, 600.0, 700.0, 800.0, 900.0, 1000.0, 1100.0]),
        (Temperament::QuarterComma,  [0.0, 76.049, 193.157, 310.265, 386.314, 503.422, 579.471, 696.578, 772.627, 889.735, 1006.843, 1082.892]),
        (Temperament::SixthComma,    [0.0, 88.595, 196.741, 304.888, 393.483, 501.629, 590.224, 698.371, 786.966, 895.112, 1003.259, 1091.854]),
        (Temperament::Werckmeister3, [0.0, 90.225, 192.180, 294.135, 390.225, 498.045, 588.270, 696.090, 792.180, 888.270, 996.090, 1092.180]),
        (Temperament::Kirnberger3,   [0.0, 90.225, 193.157, 294.135, 386.314, 498.045, 590.224, 696.578, 792.180, 889.735, 996.090, 1088.269]),
        (Temperament::Vallotti,      [0.0, 94.135, 196.090, 298.045, 392.180, 501.955, 592.180, 698.045, 796.090, 894.135, 1000.000, 1090.225]),
        (Temperament::Young2,        [0.0, 90.225, 196.090, 294.135, 392.180, 498.045, 588.270, 698.045, 792.180, 894.135, 996.090, 1090.225]),
    ];

    #[test]
    fn tunings_give_the_printed_cents() {
        for (temperament, printed) in BARBOUR {
            for (chroma, (found, wanted)) in cents(temperament).into_iter().zip(printed).enumerate()
            {
                let off = (found - wanted).abs();
                assert!(off < 0.0011, "{temperament:?} {chroma}: {found} against {wanted}");
            }
        }
    }

    #[test]
    fn the_meantone_wolf_is_as_wide_as_computed() {
        // G♯ up to E♭: 737.637 and 717.923 cents, from eleven narrowed fifths.
        for (temperament, wolf) in
            [(Temperament::QuarterComma, 737.637), (Temperament::SixthComma, 717.923)]
        {
            let table = cents(temperament);
            assert!((table[3] + 1200.0 - table[8] - wolf).abs() < 0.002);
        }
    }

    #[test]
    fn a4_has_the_pitch_asked_for() {
        for temperament in Temperament::ALL {
            for a4 in [392.0, 415.0, 440.0, 466.0] {
                let wishes = SoundWishes { a4, temperament, ..SoundWishes::default() };
                let found = hertz(Key::clamped(69), &wishes);
                assert!((found - a4).abs() < 1e-9);
                let octave = hertz(Key::clamped(57), &wishes);
                assert!((2.0 * octave - a4).abs() < 1e-9);
            }
        }
    }
}
