//! What a person may wish of the outer voices.

use super::rules::{Rule, Severity};
use crate::pitch::Key;

/// What the outer voices should be like.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct FrameWishes {
    /// Where the soprano starts above the first bass note; `None` leaves it open.
    pub position: Option<Position>,
    /// Which of the good sopranos is shown: 0 is the best, each further one
    /// audibly different. Counted round when it exceeds the choices there are.
    pub choice: u8,
    /// Which safe motion is liked best.
    pub preference: Preference,
    /// How readily the soprano leaps.
    pub smoothness: Smoothness,
    /// The soprano's lowest and highest key.
    pub compass: SopranoCompass,
    /// The line the soprano should follow, as far as it can.
    pub contour: Contour,
    /// How strictly each rule is taken.
    pub rules: RuleSwitches,
}

/// The interval of the first soprano note above the bass.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Position {
    /// First position: the octave on top.
    Octave,
    /// Second position: the third on top.
    Third,
    /// Third position: the fifth (or sixth) on top.
    Fifth,
}

/// Which safe motion is liked best.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Preference {
    /// Contrary motion, else tenths, else oblique.
    #[default]
    Contrary,
    /// Parallel tenths, else contrary, else oblique.
    Tenths,
}

/// How readily the soprano leaps.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Smoothness {
    /// By step wherever possible.
    Flowing,
    /// By step with a leap now and then.
    #[default]
    Usual,
    /// Leaps welcome.
    Bold,
}

/// The soprano's lowest and highest key, both allowed. Ends the wrong way
/// round are read the right way round.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct SopranoCompass {
    /// The lowest key.
    pub low: Key,
    /// The highest key.
    pub high: Key,
}

impl Default for SopranoCompass {
    /// C4 to A5, a soprano singer's comfortable compass (common practice).
    fn default() -> SopranoCompass {
        SopranoCompass { low: Key::clamped(60), high: Key::clamped(81) }
    }
}

impl SopranoCompass {
    /// Whether the key lies within.
    pub fn contains(self, key: Key) -> bool {
        self.low.min(self.high) <= key && key <= self.low.max(self.high)
    }
}

/// A wished-for line: heights at places of the piece, straight between them.
/// Empty means no wish.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Default)]
pub struct Contour {
    /// The points; any order.
    pub points: Vec<ContourPoint>,
}

/// One point of a wished-for line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct ContourPoint {
    /// Place in thousandths of the piece: 0 the first chord, 1000 the last.
    pub place: u16,
    /// The height wished there.
    pub height: Key,
}

impl Contour {
    /// A rise from `ends` to `peak` at `place` thousandths, and the fall home.
    pub fn arch(ends: Key, peak: Key, place: u16) -> Contour {
        let point = |place, height| ContourPoint { place, height };
        Contour { points: vec![point(0, ends), point(place.min(1000), peak), point(1000, ends)] }
    }

    /// The height wished at a chord, in semitones on the MIDI scale.
    pub fn height(&self, chord: usize, chords: usize) -> Option<i32> {
        let place = (chord * 1000).checked_div(chords.saturating_sub(1)).unwrap_or(0) as i32;
        let before = self.points.iter().filter(|p| i32::from(p.place) <= place).max();
        let after = self.points.iter().filter(|p| i32::from(p.place) >= place).min();
        let (left, right) = (before.or(after)?, after.or(before)?);
        let (x0, x1) = (i32::from(left.place), i32::from(right.place));
        let (y0, y1) = (left.height.number(), right.height.number());
        if x1 <= x0 {
            return Some(y0);
        }
        Some(y0 + (y1 - y0) * (place - x0) / (x1 - x0))
    }
}

/// How strictly a rule is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub enum Strictness {
    /// As the rulebook has it.
    #[default]
    Usual,
    /// Not at all.
    Off,
    /// As a caution.
    Caution,
    /// As a fault.
    Fault,
}

/// How strictly each rule is taken: two bits a rule, so that a link stays short.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub struct RuleSwitches {
    bits: u64,
}

impl RuleSwitches {
    /// The switches of these bits, as [`RuleSwitches::bits`] gave them; any
    /// value is legal.
    pub const fn from_bits(bits: u64) -> RuleSwitches {
        RuleSwitches { bits }
    }

    /// The switches in bits; 0 when every rule is as usual.
    pub const fn bits(self) -> u64 {
        self.bits
    }

    /// How strictly this rule is taken.
    pub const fn strictness(self, rule: Rule) -> Strictness {
        match (self.bits >> (2 * rule as u32)) & 3 {
            0 => Strictness::Usual,
            1 => Strictness::Off,
            2 => Strictness::Caution,
            _ => Strictness::Fault,
        }
    }

    /// The same switches with one rule taken otherwise.
    pub const fn with(self, rule: Rule, strictness: Strictness) -> RuleSwitches {
        let place = 2 * rule as u32;
        RuleSwitches { bits: self.bits & !(3 << place) | (strictness as u64) << place }
    }

    /// How serious this rule is under the switches; `None` when it is off. A
    /// rule about a whole stretch of the line is never more than a caution.
    pub const fn severity(self, rule: Rule) -> Option<Severity> {
        match self.strictness(rule) {
            Strictness::Usual => rule.usual(),
            Strictness::Off => None,
            Strictness::Caution => Some(Severity::Caution),
            Strictness::Fault if rule.is_about_stretches() => Some(Severity::Caution),
            Strictness::Fault => Some(Severity::Fault),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn switches_touch_only_their_rule() {
        for rule in Rule::ALL {
            for strictness in
                [Strictness::Usual, Strictness::Off, Strictness::Caution, Strictness::Fault]
            {
                let switches = RuleSwitches::default().with(rule, strictness);
                for other in Rule::ALL {
                    let expected = if other == rule { strictness } else { Strictness::Usual };
                    assert_eq!(switches.strictness(other), expected);
                }
                assert_eq!(switches.with(rule, Strictness::Usual), RuleSwitches::default());
            }
        }
    }

    #[test]
    fn an_arch_rises_and_falls_home() {
        let key = Key::clamped;
        let arch = Contour::arch(key(60), key(80), 500);
        let heights: Vec<_> = (0..5).map(|i| arch.height(i, 5)).collect();
        assert_eq!(heights, [Some(60), Some(70), Some(80), Some(70), Some(60)]);
        assert_eq!(Contour::default().height(0, 1), None);
        assert_eq!(arch.height(0, 1), Some(60));
        assert_eq!(arch.height(0, 0), Some(60));
    }
}
