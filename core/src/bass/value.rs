//! How long a note of a measured bass lasts, where that is known.
//!
//! Written after an equals sign as how many of it make a whole note: `=1` a whole,
//! `=4` a quarter, `=8.` a dotted eighth, `=12` an eighth of a triplet; a tie joins
//! with a plus, `=2+8`. Lengths are for telling quick notes from slow ones; the
//! prelude itself stays unmeasured.

/// The length of a note or a rest, in the range [1, 65535] ticks of which
/// [`NoteValue::WHOLE`] make a whole note: enough for 768ths and usual triplets.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct NoteValue(u16);

/// The parts a length is written in, longest first; each divides a whole note.
const PARTS: [u16; 18] = [1, 2, 4, 8, 16, 32, 64, 128, 256, 3, 6, 12, 24, 48, 96, 192, 384, 768];

impl NoteValue {
    /// Ticks of a whole note.
    pub const WHOLE: u32 = 768;
    /// A quarter note.
    pub const QUARTER: NoteValue = NoteValue(192);

    /// A length in ticks; `None` for none and for more than 65535.
    pub fn from_ticks(ticks: u32) -> Option<NoteValue> {
        u16::try_from(ticks).ok().filter(|&ticks| ticks > 0).map(NoteValue)
    }

    /// Its ticks.
    pub fn ticks(self) -> u32 {
        u32::from(self.0)
    }

    /// Reads what stands after the equals sign, such as `4`, `8.` or `2+8`.
    pub fn parse(text: &str) -> Option<NoteValue> {
        let mut ticks = 0u32;
        for part in text.split('+') {
            let digits = part.trim_end_matches('.');
            if digits.len() > 3 || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
                return None;
            }
            let parts: u32 = digits.parse().ok().filter(|&it| it > 0)?;
            let mut long = NoteValue::WHOLE;
            if !long.is_multiple_of(parts) || part.len() - digits.len() > 3 {
                return None;
            }
            long /= parts;
            ticks += long;
            for _ in 0..part.len() - digits.len() {
                if !long.is_multiple_of(2) {
                    return None;
                }
                long /= 2;
                ticks += long;
            }
            if ticks > u32::from(u16::MAX) {
                return None;
            }
        }
        NoteValue::from_ticks(ticks)
    }
}

impl std::fmt::Display for NoteValue {
    /// As [`NoteValue::parse`] reads it back.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let mut left = self.ticks();
        loop {
            let single = PARTS.iter().find_map(|&part| {
                let plain = NoteValue::WHOLE / u32::from(part);
                let dotted = [(plain, ""), (plain * 3 / 2, "."), (plain * 7 / 4, "..")];
                let exact = |at: &usize| plain.is_multiple_of(1 << at) && dotted[*at].0 == left;
                (0..3).find(exact).map(|at| (part, dotted[at].1))
            });
            if let Some((part, dots)) = single {
                return write!(f, "{part}{dots}");
            }
            let plain = |part: u16| NoteValue::WHOLE / u32::from(part);
            let fits = PARTS.iter().copied().filter(|&part| plain(part) <= left);
            let Some(part) = fits.max_by_key(|&part| plain(part)) else { return Ok(()) };
            write!(f, "{part}+")?;
            left -= plain(part);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_length_reads_back_to_itself() {
        for ticks in (1..4000).chain([60_000, 65_535]) {
            let value = NoteValue::from_ticks(ticks).expect("a length");
            let text = value.to_string();
            assert_eq!(NoteValue::parse(&text), Some(value), "{text}");
        }
    }

    #[test]
    fn usual_lengths_are_written_as_usual() {
        for (text, ticks) in [
            ("1", 768),
            ("2.", 576),
            ("4", 192),
            ("8..", 168),
            ("12", 64),
            ("16", 48),
            ("2+8", 480),
        ] {
            let value = NoteValue::parse(text).expect("a length");
            assert_eq!((value.ticks(), value.to_string().as_str()), (ticks, text));
        }
        for text in ["", "0", "5", "4,", "x", "4+", "768.", "9999", "4.....", "-4"] {
            assert_eq!(NoteValue::parse(text), None, "{text}");
        }
    }
}
