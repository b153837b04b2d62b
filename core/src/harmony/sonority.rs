//! A sonority while it is being worked out: spelled classes by number above a bass.

use super::chord::{Chord, Duty, Tone};
use crate::figures::{self, FiguredTone, Sign, Stage};
use crate::order;
use crate::pitch::{Interval, Mode, PitchClass, Tonality};

/// Tones above a bass, from the lowest number up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Sonority {
    pub(super) bass: PitchClass,
    pub(super) tones: Vec<FiguredTone>,
}

impl From<&Chord> for Sonority {
    fn from(chord: &Chord) -> Sonority {
        let tones = chord.tones.iter().filter(|tone| tone.number != 1);
        let tone = |tone: &Tone| FiguredTone { number: tone.number, class: tone.class };
        Sonority { bass: chord.bass.class(), tones: tones.map(tone).collect() }
    }
}

impl Sonority {
    /// The sonority figures mean over a bass under the signature of `tonality`.
    pub(super) fn of(stage: &Stage, bass: PitchClass, tonality: Tonality) -> Sonority {
        Sonority { bass, tones: figures::expand(stage, bass, tonality).tones }
    }

    /// The class standing at a number, if there is one.
    pub(super) fn at(&self, number: u8) -> Option<PitchClass> {
        if number == 1 {
            return Some(self.bass);
        }
        self.tones.iter().find(|tone| tone.number == number).map(|tone| tone.class)
    }

    /// Whether the class sounds.
    pub(super) fn has(&self, class: PitchClass) -> bool {
        self.bass == class || self.tones.iter().any(|tone| tone.class == class)
    }

    /// The same sounding tones over another bass.
    pub(super) fn over(&self, bass: PitchClass) -> Sonority {
        let mut tones: Vec<FiguredTone> = self
            .classes()
            .filter(|&class| class != bass)
            .map(|class| FiguredTone { number: letters_above(bass, class) as u8 + 1, class })
            .filter(|tone| tone.number > 1)
            .collect();
        order::by_key(&mut tones, |tone| tone.number);
        tones.dedup_by_key(|tone| tone.number);
        Sonority { bass, tones }
    }

    /// The numbers above the bass, ascending.
    pub(super) fn numbers(&self) -> Vec<u8> {
        self.tones.iter().map(|tone| tone.number).collect()
    }

    /// Whether nothing in it waits to resolve over the same bass, as a ninth, a fourth
    /// or a six-four does.
    pub(super) fn may_stay(&self) -> bool {
        let numbers = self.numbers();
        let has = |number| numbers.contains(&number);
        let waits = has(9) || has(4) && has(5) || has(2) && has(7) || numbers == [4, 6];
        !waits
    }

    /// The root: the tone from which the others stack in thirds, where there is one.
    pub(super) fn root(&self) -> Option<PitchClass> {
        let above = match self.numbers().as_slice() {
            [3, 5] | [3] | [3, 5, 7] | [3, 7] | [3, 5, 9] | [3, 7, 9] | [3, 5, 7, 9] => 1,
            [3, 6] | [6] | [3, 5, 6] => 6,
            [4, 6] | [3, 4, 6] => 4,
            [2, 4, 6] | [2, 4] => 2,
            _ => return None,
        };
        self.at(above)
    }

    /// The figures to print under a signature.
    pub(super) fn figures(&self, signature: Tonality) -> Stage {
        if self.tones.is_empty() {
            return Stage::TastoSolo;
        }
        let signs: Vec<Sign> = self
            .tones
            .iter()
            .map(|tone| Sign {
                number: tone.number,
                accidental: figures::accidental_of(tone.class, signature.class_of(tone.class.step)),
            })
            .collect();
        figures::abbreviated(&signs)
    }

    /// The tones with what they owe, the bass first. `next` is the sonority that
    /// follows over the same bass, `local` the tonality of the moment.
    pub(super) fn tones(&self, local: Tonality, next: Option<&Sonority>) -> Vec<Tone> {
        let numbers = self.numbers();
        let all = std::iter::once(FiguredTone { number: 1, class: self.bass })
            .chain(self.tones.iter().copied());
        all.map(|tone| Tone {
            class: tone.class,
            number: tone.number,
            duty: self.duty(tone, &numbers, local, next),
            omittable: self.omittable(tone),
        })
        .collect()
    }

    fn duty(
        &self,
        tone: FiguredTone,
        numbers: &[u8],
        local: Tonality,
        next: Option<&Sonority>,
    ) -> Duty {
        let falls_next = next.is_some_and(|next| {
            next.at(tone.number - 1).is_some() && next.at(tone.number).is_none()
        });
        match (tone.number, numbers) {
            // Suspensions by their figures.
            (4, [4, 5] | [4, 5, 9] | [4, 5, 7] | [4, 7, 9] | [4, 6, 9]) => return Duty::Suspended,
            (9, _) => return Duty::Suspended,
            (7, [3, 7] | [3, 6, 7]) if falls_next => return Duty::Suspended,
            (1, [2, 5] | [2, 3, 6] | [2, 4, 5]) => return Duty::Suspended,
            // Over a held bass everything returns to the chord of the bass.
            (7, [2, 4, 7] | [2, 4, 6, 7] | [2, 4, 5, 7] | [2, 7]) => return Duty::Rises,
            (4, [2, 4, 7] | [2, 4, 6, 7] | [2, 4, 5, 7]) => return Duty::Falls,
            // The six-four that resolves over its bass.
            (6 | 4, [4, 6]) if falls_next => return Duty::Falls,
            _ => {}
        }
        let Some(root) = self.root() else { return Duty::Free };
        let above_root = letters_above(root, tone.class);
        // The leading note of the tonality, or one borrowed from another: a note
        // raised out of the scale, unless it only brightens the tonic or, in minor,
        // the 4th.
        let own = local.class_of(tone.class.step);
        let brightens = root == local.tonic
            || (local.mode == Mode::Minor && local.degree_of(root.step).number() == 4);
        let led = tone.class == local.leading() || (tone.class.alter > own.alter && !brightens);
        let fifth = self.classes().find(|&class| letters_above(root, class) == 4);
        let third = self.classes().find(|&class| letters_above(root, class) == 2);
        let diminished = fifth.is_some_and(|fifth| semitones_up(root, fifth) == 6);
        let major_third = third.is_some_and(|third| semitones_up(root, third) == 4);
        let seventh = self.classes().find(|&class| letters_above(root, class) == 6);
        match above_root {
            6 => Duty::Falls,
            // The leading note: root of a diminished chord, third of a dominant.
            0 if diminished && led => Duty::Rises,
            0 if diminished && seventh.is_some() && !minor_second_degree(root, local) => {
                Duty::Rises
            }
            2 if major_third && (dominant_seventh(root, seventh) || led) => Duty::Rises,
            // An augmented sixth above the bass, third of its chord or not.
            _ if semitones_up(self.bass, tone.class) == 10
                && letters_above(self.bass, tone.class) == 5 =>
            {
                Duty::Rises
            }
            4 if diminished && seventh.is_some() => Duty::Falls,
            4 if diminished && self.bass == root => Duty::Falls,
            _ => Duty::Free,
        }
    }

    fn classes(&self) -> impl Iterator<Item = PitchClass> + '_ {
        std::iter::once(self.bass).chain(self.tones.iter().map(|tone| tone.class))
    }

    /// The perfect fifth of a root that still has its third may be left out.
    fn omittable(&self, tone: FiguredTone) -> bool {
        self.root().is_some_and(|root| {
            tone.number != 1
                && letters_above(root, tone.class) == 4
                && semitones_up(root, tone.class) == 7
                && (self.bass == root || self.tones.len() > 2)
        })
    }
}

/// The figures to print for the stages over one bass, `before` what sounded last:
/// a resolution over the same bass writes what resolves (4-3, 9-8, 6/4-5/3), and
/// the 7 of 7-6 stands alone.
pub(super) fn printed(
    stages: &[Sonority],
    before: Option<&Sonority>,
    signature: Tonality,
) -> Vec<Stage> {
    let sign = |sonority: &Sonority, number: u8| Sign {
        number,
        accidental: sonority
            .at(number)
            .and_then(|class| figures::accidental_of(class, signature.class_of(class.step))),
    };
    let mut last = before.filter(|it| stages.first().is_some_and(|first| first.bass == it.bass));
    let mut all = Vec::with_capacity(stages.len());
    for (at, stage) in stages.iter().enumerate() {
        let numbers = stage.numbers();
        let next = stages.get(at + 1).map(Sonority::numbers);
        let was = last.map(Sonority::numbers).unwrap_or_default();
        let plain = stage.figures(signature);
        let is_plain = plain == Stage::Signs(Vec::new());
        let alone = |number: u8| Stage::Signs(vec![sign(stage, number)]);
        let no_accidental = |number: u8| sign(stage, number).accidental.is_none();
        let figures = match (was.as_slice(), numbers.as_slice(), next.as_deref()) {
            (_, [3, 5], Some([3, 6])) if is_plain => alone(5),
            ([4, 5, 9], [3, 5], _) if no_accidental(5) => {
                Stage::Signs(vec![Sign { number: 8, accidental: None }, sign(stage, 3)])
            }
            (_, [3, 7], Some([3, 6])) if no_accidental(3) => alone(7),
            (_, [4, 5], Some([3, 5])) if no_accidental(5) => alone(4),
            ([4, 5], [3, 5], _) if no_accidental(5) => alone(3),
            ([4, 6], [3, 5], _) => Stage::Signs(vec![sign(stage, 5), sign(stage, 3)]),
            ([3, 5, 9], [3, 5], _) if is_plain => {
                Stage::Signs(vec![Sign { number: 8, accidental: None }])
            }
            _ => plain,
        };
        all.push(figures);
        last = Some(stage);
    }
    all
}

fn dominant_seventh(root: PitchClass, seventh: Option<PitchClass>) -> bool {
    seventh.is_some_and(|seventh| semitones_up(root, seventh) == 10)
}

/// The half-diminished seventh on the second degree of minor has no leading note.
fn minor_second_degree(root: PitchClass, local: Tonality) -> bool {
    local.mode == Mode::Minor && local.degree_of(root.step).number() == 2
}

/// Letters from one class up to another, in the range [0, 6].
pub(super) fn letters_above(low: PitchClass, high: PitchClass) -> i32 {
    (high.step.index() - low.step.index()).rem_euclid(7)
}

/// Semitones from one class up to another, in the range [0, 11].
pub(super) fn semitones_up(low: PitchClass, high: PitchClass) -> i32 {
    (high.chroma() - low.chroma()).rem_euclid(12)
}

/// The class an interval above or below another.
pub(super) fn moved(class: PitchClass, steps: i32, semitones: i32) -> PitchClass {
    class + Interval::new(steps, semitones)
}
