//! Ready basses: the octave up and down with a cadence, and the standard motions,
//! as blocks to be joined into a longer bass.
//!
//! C.P.E. Bach 1762, last chapter, makes a prelude's bass of the rising and
//! falling scale (as quoted in *College Music Symposium* 38, 1998); cadences after
//! Fenaroli.

use super::BassMotion;
use crate::harmony::Cadence;
use crate::pitch::{Degree, Interval, Mode, Pitch, Step, Tonality};

/// Which way the octave runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum OctaveRun {
    /// From 1 up to 8.
    Up,
    /// From 8 down to 1.
    Down,
    /// Up and down again.
    UpDown,
}

/// The lowest tonic a block starts on.
const LOWEST_TONIC: Pitch = Pitch::new(Step::F, 0, 2);
/// Blocks stay within these.
const FLOOR: Pitch = Pitch::new(Step::C, 0, 2);
const CEILING: Pitch = Pitch::new(Step::E, 0, 4);

/// The scale of a tonality as a bass, in minor with raised 6 and 7 rising and
/// lowered ones falling, with a cadence on 4, 5 and 1 where one is asked for.
pub fn octave(tonality: Tonality, run: OctaveRun, cadence: Option<Cadence>) -> Vec<Pitch> {
    let low = tonality.tonic.at_or_above(LOWEST_TONIC);
    let minor = tonality.mode == Mode::Minor;
    let note = |steps: i32, rising: bool| {
        let raise = i8::from(rising && minor && matches!(steps, 5 | 6));
        let own = degree_above(tonality, low, steps);
        Pitch { alter: own.alter.saturating_add(raise), ..own }
    };
    let up = (0..=7).map(|steps| note(steps, true));
    let down = (0..=7).rev().map(|steps| note(steps, false));
    let mut bass: Vec<Pitch> = match run {
        OctaveRun::Up => up.collect(),
        OctaveRun::Down => down.collect(),
        OctaveRun::UpDown => up.chain(down.skip(1)).collect(),
    };
    if let Some(kind) = cadence {
        let octave = if run == OctaveRun::Up { 7 } else { 0 };
        let closing: &[i32] = match kind {
            Cadence::Simple => &[3, 4, 0],
            Cadence::Compound => &[3, 4, 4, 0],
            Cadence::Double => &[3, 4, 4, 4, 4, 0],
            Cadence::Half => &[3, 4],
            Cadence::Phrygian => &[6, 5, 4],
            Cadence::Deceptive => &[3, 4, 5],
            Cadence::Evaded => &[4, 3, 2],
        };
        // From the upper tonic the cadence drops below it.
        let drop = if octave == 7 { -7 } else { 0 };
        let step = |&steps: &i32| match steps {
            0 => note(octave, false),
            steps => note(octave + drop + steps, false),
        };
        bass.extend(closing.iter().map(step));
    }
    bass
}

/// A standard motion in a tonality: `rounds` rounds of its pattern from a degree,
/// and the note it leads to; at most 200 rounds. Notes that would leave C2 to E4
/// change the octave.
pub fn motion(kind: BassMotion, tonality: Tonality, start: Degree, rounds: usize) -> Vec<Pitch> {
    let letters = kind.letters();
    let tonic = tonality.tonic.at_or_above(FLOOR);
    let first = degree_above(tonality, tonic, i32::from(start.number()) - 1);
    let mut bass = vec![within(first)];
    for at in 0..rounds.min(200) * letters.len() {
        let Some(&last) = bass.last() else { break };
        let next = match kind {
            BassMotion::ChromaticUp => semitone_up(tonality, last),
            BassMotion::ChromaticDown => semitone_down(tonality, last),
            _ => {
                let moved = last.diatonic() + letters[at % letters.len()];
                let class = tonality.class_of(Step::wrapped(moved));
                Pitch::from_diatonic(moved, class.alter)
            }
        };
        bass.push(within(next));
    }
    bass
}

/// The scale note `steps` letters above a tonic.
fn degree_above(tonality: Tonality, tonic: Pitch, steps: i32) -> Pitch {
    let letter = tonic.diatonic() + steps;
    Pitch::from_diatonic(letter, tonality.class_of(Step::wrapped(letter)).alter)
}

fn within(pitch: Pitch) -> Pitch {
    if pitch > CEILING {
        pitch - Interval::OCTAVE
    } else if pitch < FLOOR {
        pitch + Interval::OCTAVE
    } else {
        pitch
    }
}

/// The next semitone up: the scale note itself, or the present one raised.
fn semitone_up(tonality: Tonality, from: Pitch) -> Pitch {
    let next = degree_above(tonality, from, 1);
    if (next - from).semitones == 1 { next } else { from + Interval::new(0, 1) }
}

/// The next semitone down: the scale note itself, or the present one lowered; in
/// minor through the raised 7th and 6th.
fn semitone_down(tonality: Tonality, from: Pitch) -> Pitch {
    let own = degree_above(tonality, from, 0);
    if from.alter > own.alter {
        return own;
    }
    let next = degree_above(tonality, from, -1);
    if (next - from).semitones == -1 {
        return next;
    }
    let melodic = next + Interval::new(0, 1);
    let raised = [tonality.leading(), tonality.tonic + Interval::new(5, 9)];
    if tonality.mode == Mode::Minor && raised.contains(&melodic.class()) {
        melodic
    } else {
        from + Interval::new(0, -1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(bass: &[Pitch]) -> String {
        bass.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ")
    }

    fn key(text: &str) -> Tonality {
        Tonality::parse(text).expect("a tonality")
    }

    #[test]
    fn octaves_run_and_close() {
        assert_eq!(
            names(&octave(key("a"), OctaveRun::UpDown, Some(Cadence::Compound))),
            "A2 B2 C3 D3 E3 F♯3 G♯3 A3 G3 F3 E3 D3 C3 B2 A2 D3 E3 E3 A2"
        );
        assert_eq!(
            names(&octave(key("D"), OctaveRun::Up, Some(Cadence::Simple))),
            "D3 E3 F♯3 G3 A3 B3 C♯4 D4 G3 A3 D4"
        );
    }

    #[test]
    fn motions_keep_their_pattern_and_compass() {
        let one = Degree::wrapped(0);
        let check = |kind, text, rounds| names(&motion(kind, key(text), one, rounds));
        assert_eq!(check(BassMotion::FourthsDownSecondsUp, "C", 2), "C2 G2 A2 E2 F2");
        assert_eq!(check(BassMotion::FourthsUpFifthsDown, "Bb", 2), "B♭2 E♭3 A2 D3 G2");
        assert_eq!(check(BassMotion::ChromaticDown, "d", 5), "D2 C♯2 C2 B2 B♭2 A2");
        assert_eq!(check(BassMotion::ChromaticUp, "C", 5), "C2 C♯2 D2 D♯2 E2 F2");
        for kind in BassMotion::ALL {
            for pitch in motion(kind, key("F#"), one, 30) {
                assert!(FLOOR <= pitch && pitch <= CEILING, "{kind:?} {pitch}");
            }
        }
    }
}
