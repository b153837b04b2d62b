//! What a figured note sounds: figures expanded to spelled classes above the bass.
//!
//! Accidentals: a natural is a natural; a sharp sharpens, but over a letter the
//! signature has flat it means natural, as older prints write it, and the same
//! for flats; a stroke or plus raises what the signature gives. An altered figure
//! counts for its own chord only. (C.P.E. Bach, *Versuch* II, 1762; Heinichen
//! 1728: from memory.)

use super::table;
use super::{Accidental, Figures, Sign, Stage};
use crate::order;
use crate::pitch::{Interval, PitchClass, Tonality};

/// One tone above the bass.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FiguredTone {
    /// Its figure, in the range [2, 9] without 8.
    pub number: u8,
    /// Its spelled class.
    pub class: PitchClass,
}

/// A sonority's tones above the bass and what is to be said of its figures.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Expansion {
    /// The tones from the lowest number up; none for *tasto solo*.
    pub tones: Vec<FiguredTone>,
    /// What could not be honoured.
    pub remarks: Vec<FigureRemark>,
}

/// Something odd about given figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FigureRemark {
    /// One number with two different accidentals: the first is played.
    Contradiction {
        /// The number.
        number: u8,
    },
    /// An interval too narrow or too wide to exist: the signature's own is played.
    Impossible {
        /// The number.
        number: u8,
        /// Semitones it would have had.
        semitones: i32,
    },
    /// A combination no table lists: it is played as written.
    Unlisted,
    /// A dash with no chord before it: a plain chord is played.
    NothingToHold,
}

/// The sounding class of an altered figure whose letter the signature spells `own`.
pub fn class_of(own: PitchClass, accidental: Option<Accidental>) -> PitchClass {
    let alter = match accidental {
        None => own.alter,
        Some(Accidental::Natural) => 0,
        Some(Accidental::Sharp) if own.alter < 0 => 0,
        Some(Accidental::Sharp) => 1,
        Some(Accidental::Flat) if own.alter > 0 => 0,
        Some(Accidental::Flat) => -1,
        Some(Accidental::DoubleSharp) => 2,
        Some(Accidental::DoubleFlat) => -2,
        Some(Accidental::Raised) => own.alter.saturating_add(1),
    };
    PitchClass::new(own.step, alter)
}

/// The accidental that makes the signature's class `own` sound as `class`; the
/// inverse of [`class_of`] for the same letter.
pub fn accidental_of(class: PitchClass, own: PitchClass) -> Option<Accidental> {
    if class.alter == own.alter {
        return None;
    }
    Some(match class.alter {
        i8::MIN..=-2 => Accidental::DoubleFlat,
        -1 => Accidental::Flat,
        0 => Accidental::Natural,
        1 => Accidental::Sharp,
        2..=i8::MAX => Accidental::DoubleSharp,
    })
}

/// Expands one sonority over a bass under the signature of a tonality.
pub fn expand(stage: &Stage, bass: PitchClass, tonality: Tonality) -> Expansion {
    expand_after(stage, None, bass, tonality)
}

/// Expands all stages over one bass note. A stage that writes only 3 after a 4,
/// or only 8 after a 9, keeps the other tones (7/4-3 is 7/4 then 7/3); the 7 of
/// 7-6 has no fifth.
pub fn expand_all(figures: &Figures, bass: PitchClass, tonality: Tonality) -> Vec<Expansion> {
    let stages = figures.stages();
    let mut done: Vec<Expansion> = Vec::with_capacity(stages.len());
    for (at, stage) in stages.iter().enumerate() {
        let mut next = expand_after(stage, done.last(), bass, tonality);
        let resolves_to_six = stages.get(at + 1).is_some_and(|next| numbers(next) == [6]);
        if numbers(stage) == [7] && resolves_to_six {
            next.tones.retain(|tone| tone.number != 5);
        }
        done.push(next);
    }
    done
}

/// The written numbers, ascending, without 8 and repeats. A number that is no figure, which
/// only a link can bring, sounds nothing.
fn numbers(stage: &Stage) -> Vec<u8> {
    let mut numbers: Vec<u8> = match stage {
        Stage::Signs(signs) => {
            signs.iter().map(|sign| sign.number).filter(|n| matches!(n, 2..=7 | 9)).collect()
        }
        Stage::Hold | Stage::TastoSolo => Vec::new(),
    };
    order::sort(&mut numbers);
    numbers.dedup();
    numbers
}

fn expand_after(
    stage: &Stage,
    before: Option<&Expansion>,
    bass: PitchClass,
    tonality: Tonality,
) -> Expansion {
    let signs = match stage {
        Stage::TastoSolo => return Expansion { tones: Vec::new(), remarks: Vec::new() },
        Stage::Hold => match before {
            Some(before) => return Expansion { tones: before.tones.clone(), remarks: Vec::new() },
            None => {
                let plain = expand_after(&Stage::Signs(Vec::new()), None, bass, tonality);
                return Expansion { remarks: vec![FigureRemark::NothingToHold], ..plain };
            }
        },
        Stage::Signs(signs) => signs,
    };
    let mut remarks = Vec::new();
    let written = numbers(stage);
    for &number in &written {
        let mut same = signs.iter().filter(|sign| sign.number == number);
        let first = same.next();
        if same.any(|other| Some(other) != first) {
            remarks.push(FigureRemark::Contradiction { number });
        }
    }
    let sound = |number: u8, remarks: &mut Vec<FigureRemark>| {
        let accidental = accidental(signs, number);
        sounding(number, accidental, (bass, tonality), remarks)
    };
    let octave = signs.iter().any(|sign| sign.number == 8);
    if let Some(mut tones) = before.and_then(|before| kept(before, &written, octave)) {
        if written == [3] {
            tones.push(sound(3, &mut remarks));
            order::by_key(&mut tones, |tone| tone.number);
        }
        return Expansion { tones, remarks };
    }
    // A lone fifth written diminished is the 6/5 chord; a lone augmented fourth the 6/4/2.
    let semitones =
        |number: u8| semitones_above(number, bass, sound(number, &mut Vec::new()).class);
    let full: &[u8] = match written.as_slice() {
        [5] if accidental(signs, 5).is_some() && semitones(5) == 6 => &[3, 5, 6],
        [4] if semitones(4) == 6 => &[2, 4, 6],
        written => table::played(written).unwrap_or_else(|| {
            remarks.push(FigureRemark::Unlisted);
            written
        }),
    };
    let tones = full.iter().map(|&number| sound(number, &mut remarks)).collect();
    Expansion { tones, remarks }
}

/// The accidental first written with a number.
fn accidental(signs: &[Sign], number: u8) -> Option<Accidental> {
    signs.iter().find(|sign| sign.number == number).and_then(|sign| sign.accidental)
}

/// What stays of the chord before where only its 4 or its 9 resolves.
fn kept(before: &Expansion, written: &[u8], octave: bool) -> Option<Vec<FiguredTone>> {
    let has = |number| before.tones.iter().any(|tone| tone.number == number);
    let resolves = match written {
        [3] => has(4),
        [] => octave && has(9),
        _ => false,
    };
    let gone = |number: u8| (number == 4 && written == [3]) || (number == 9 && octave);
    let rest = before.tones.iter().filter(|tone| !gone(tone.number));
    resolves.then(|| rest.copied().collect())
}

/// What a number sounds over a bass under a signature.
fn sounding(
    number: u8,
    accidental: Option<Accidental>,
    (bass, tonality): (PitchClass, Tonality),
    remarks: &mut Vec<FigureRemark>,
) -> FiguredTone {
    let own = own_class(number, bass, tonality);
    let class = class_of(own, accidental);
    let semitones = semitones_above(number, bass, class);
    if possible(number, semitones) {
        return FiguredTone { number, class };
    }
    // Older prints write 4+ or b5 where the signature already gives the augmented
    // fourth or the diminished fifth.
    let already = matches!((number, semitones_above(number, bass, own)), (4 | 5, 6));
    if accidental.is_some() && !already {
        remarks.push(FigureRemark::Impossible { number, semitones });
    }
    FiguredTone { number, class: own }
}

/// The class the signature gives the letter `number` above the bass.
pub(super) fn own_class(number: u8, bass: PitchClass, tonality: Tonality) -> PitchClass {
    let step = (bass.in_octave(3) + Interval::new(i32::from(number) - 1, 0)).step;
    tonality.class_of(step)
}

/// Semitones from the bass up to the class standing `number` above it.
pub(super) fn semitones_above(number: u8, bass: PitchClass, class: PitchClass) -> i32 {
    let low = bass.in_octave(3);
    let high =
        crate::pitch::Pitch::from_diatonic(low.diatonic() + i32::from(number) - 1, class.alter);
    (high - low).semitones
}

/// Whether a number may span so many semitones: diminished to augmented.
pub(super) fn possible(number: u8, semitones: i32) -> bool {
    let (least, most) = match number {
        2 => (1, 3),
        3 => (2, 5),
        4 => (4, 6),
        5 => (6, 8),
        6 => (7, 10),
        7 => (9, 11),
        9 => (13, 15),
        _ => return true,
    };
    least <= semitones && semitones <= most
}

#[cfg(test)]
mod tests {
    use super::super::read_figures;
    use super::*;
    use crate::pitch::Step;

    fn sounds(key: &str, bass: &str, typed: &str) -> String {
        let tonality = Tonality::parse(key).expect("a tonality");
        let bass = Tonality::parse(bass).expect("a note").tonic;
        let figures = read_figures(typed).expect("figures");
        let all = expand_all(&figures, bass, tonality);
        let stage = |it: &Expansion| {
            it.tones.iter().map(|tone| tone.class.to_string()).collect::<Vec<_>>().join(" ")
        };
        all.iter().map(stage).collect::<Vec<_>>().join(" - ")
    }

    fn remarks(key: &str, bass: &str, typed: &str) -> Vec<FigureRemark> {
        let tonality = Tonality::parse(key).expect("a tonality");
        let bass = Tonality::parse(bass).expect("a note").tonic;
        let all = expand_all(&read_figures(typed).expect("figures"), bass, tonality);
        all.into_iter().flat_map(|it| it.remarks).collect()
    }

    #[test]
    fn accidentals_follow_the_signature() {
        assert_eq!(sounds("c minor", "G", "#"), "B D");
        assert_eq!(sounds("c minor", "G", "n"), "B D");
        assert_eq!(sounds("c minor", "G", "+"), "B D");
        assert_eq!(sounds("E", "B", "#"), "D♯ F♯");
        assert_eq!(sounds("E", "B", "+"), "D♯♯ F♯");
        assert_eq!(sounds("D", "F#", "b5"), "A C D");
        assert_eq!(sounds("C", "A", "#6/4/3"), "C D F♯");
        assert_eq!(sounds("C", "F", "4+"), "G B D");
        assert_eq!(sounds("C", "C", "b7"), "E G B♭");
    }

    #[test]
    fn a_stage_keeps_what_it_does_not_write() {
        assert_eq!(sounds("C", "G", "7/4-3"), "C D F - B D F");
        assert_eq!(sounds("C", "G", "9/7-8"), "B F A - B F");
        assert_eq!(sounds("C", "A", "7-6"), "C G - C F");
        assert_eq!(sounds("C", "A", "7"), "C E G");
        assert_eq!(sounds("C", "G", "4-_"), "C D - C D");
        assert_eq!(sounds("C", "G", "t.s."), "");
    }

    #[test]
    fn contradictions_are_said_and_something_sounds() {
        assert_eq!(remarks("C", "D", "#6/b6"), [FigureRemark::Contradiction { number: 6 }]);
        assert_eq!(
            remarks("C", "E", "bb3"),
            [FigureRemark::Impossible { number: 3, semitones: 1 }]
        );
        assert_eq!(remarks("C", "E", "_"), [FigureRemark::NothingToHold]);
        assert_eq!(remarks("C", "E", "9/6/2"), [FigureRemark::Unlisted]);
        assert_eq!(PitchClass::new(Step::G, 0).to_string(), "G");
    }

    #[test]
    fn a_number_that_is_no_figure_sounds_nothing() {
        let tonality = Tonality::parse("C").expect("a tonality");
        for number in [0, 1, 8, 10, 16, 255] {
            let with = |others: &[u8]| {
                let signs = others.iter().chain([&number]);
                let signs = signs.map(|&number| Sign { number, accidental: None });
                let stage = Stage::Signs(signs.collect());
                expand(&stage, tonality.tonic, tonality).tones.iter().map(|it| it.number).collect()
            };
            let (alone, beside): (Vec<u8>, Vec<u8>) = (with(&[]), with(&[7, 4]));
            assert_eq!((alone, beside), (vec![3, 5], vec![4, 5, 7]), "{number}");
        }
    }
}
