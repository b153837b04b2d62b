//! The order of a rolled chord: sweeps up and down over the notes under the hands.
//!
//! C.P.E. Bach, *Versuch* I ch. 3 § 26 (1759): over long notes the harmony is
//! broken several times up and down. Turning notes are struck once; the last
//! sweep down stops above the bass, because the next chord's bass completes it.

use super::timing::Emphasis;

/// The way of a sweep.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Way {
    /// From the bass up.
    Up,
    /// From the soprano down.
    Down,
}

/// One sweep over the notes of a chord.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Sweep {
    /// Its way.
    pub(super) way: Way,
    /// Which sweep of the chord it is, from 0.
    pub(super) turn: usize,
    /// Whether it is the chord's last.
    pub(super) last: bool,
    /// Places of the notes struck, counted from the bass.
    pub(super) places: Vec<usize>,
}

/// The sweeps of a chord of `notes` notes, `times` up and down (0 up once; more
/// than 4 counts as 4).
pub(super) fn sweeps(notes: usize, times: u8, emphasis: Emphasis) -> Vec<Sweep> {
    if notes == 0 {
        return Vec::new();
    }
    let ways = match times {
        0 => vec![Way::Up],
        _ => [Way::Up, Way::Down].repeat(usize::from(times.min(4))),
    };
    let count = ways.len();
    let sweeps = ways.into_iter().enumerate().map(|(turn, way)| {
        let last = turn + 1 == count;
        let places: Vec<usize> = match way {
            // A single note or pair is struck anew at each rise, or nothing would move.
            Way::Up if turn == 0 => (0..notes).collect(),
            Way::Up => (1..notes).collect(),
            Way::Down => {
                let lowest = usize::from(last && emphasis != Emphasis::Final);
                (lowest..notes.saturating_sub(1)).rev().collect()
            }
        };
        Sweep { way, turn, last, places }
    });
    sweeps.filter(|sweep| !sweep.places.is_empty()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn order(notes: usize, times: u8, emphasis: Emphasis) -> String {
        let sweeps = sweeps(notes, times, emphasis);
        let text = |sweep: &Sweep| {
            sweep.places.iter().map(|place| place.to_string()).collect::<Vec<_>>().join(" ")
        };
        sweeps.iter().map(text).collect::<Vec<_>>().join(" | ")
    }

    #[test]
    fn sweeps_turn_without_repeating_and_lead_on() {
        assert_eq!(order(4, 0, Emphasis::Plain), "0 1 2 3");
        assert_eq!(order(4, 1, Emphasis::Plain), "0 1 2 3 | 2 1");
        assert_eq!(order(4, 2, Emphasis::Plain), "0 1 2 3 | 2 1 0 | 1 2 3 | 2 1");
        assert_eq!(order(4, 1, Emphasis::Final), "0 1 2 3 | 2 1 0");
        assert_eq!(order(1, 3, Emphasis::Plain), "0");
        assert_eq!(order(0, 1, Emphasis::Plain), "");
        assert_eq!(order(3, 9, Emphasis::Plain), order(3, 4, Emphasis::Plain));
    }
}
