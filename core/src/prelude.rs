//! A whole prelude in one press: a bass of our own making, every note of which
//! may be changed afterwards.
//!
//! C.P.E. Bach, *Versuch* II ch. 41 (1762; from memory and as quoted in *College
//! Music Symposium* 38, 1998): the bass of a free fantasia is the scale up and
//! down with varied figures, its order broken, semitones put in between; it dwells
//! on the tonic at the beginning and the end and on the fifth before the close.
//! The turns below are common practice, put together by our choice.

use crate::chance::Chance;
use crate::figures::read_figures;
use crate::pitch::{Interval, Mode, Pitch, Tonality};
use crate::reading;
use crate::roll::{ChordStroke, Micros};
use crate::sketch::{Sketch, SketchNote};

/// Shortest and longest prelude, in seconds.
pub const SHORTEST: u32 = 20;
/// See [`SHORTEST`].
pub const LONGEST: u32 = 240;

/// A prelude shorter than this hurries through its pedals.
const BRIEF: Micros = Micros::from_ms(36_000);

/// Below this part of the wanted length, in percent, as its notes are counted, a prelude is
/// surely too short.
const SURELY: u64 = 85;

/// No prelude is long enough for so many turns.
const MOST_TURNS: usize = 100;

/// Spice of the first and the last note, in percent: the close unfolds its chord always.
const FLOURISH: (u8, u8) = (70, 85);

/// Where a turn of the bass begins and ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Place {
    /// On the low tonic.
    Low,
    /// On the tonic an octave higher.
    High,
    /// On the fifth between them.
    Fifth,
}

/// How bold a turn is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Daring {
    Plain,
    Bold,
}

/// A turn of the bass: notes after the one it starts from, each as degree, with
/// `M` or `m` for the major or minor form of the 6th and 7th, `#` or `b` for
/// others moved by a semitone, `,` for the octave below and `'` for the one above,
/// and its figures after a colon.
struct Turn {
    from: Place,
    to: Place,
    daring: Daring,
    /// The mode it belongs to; `None` serves both.
    mode: Option<Mode>,
    notes: &'static str,
}

const fn turn(
    from: Place,
    to: Place,
    daring: Daring,
    mode: Option<Mode>,
    notes: &'static str,
) -> Turn {
    Turn { from, to, daring, mode, notes }
}

/// The turns to choose among.
const TURNS: [Turn; 22] = {
    use Daring::{Bold, Plain};
    use Mode::{Major, Minor};
    use Place::{Fifth, High, Low};
    [
        // The octave up and down, whole and broken.
        turn(Low, High, Plain, None, "2 3 4 5 6M 7M 1'"),
        turn(High, Low, Plain, Some(Major), "7M 6M 5 4 3 2 1"),
        turn(High, Low, Plain, Some(Minor), "7m 6m 5 4 3 2 1"),
        turn(Low, Low, Plain, None, "2 3 4 3 2 1"),
        turn(Low, Low, Plain, None, "7M, 1 2 3 4 5 1"),
        turn(Low, Fifth, Plain, None, "2 3 4 5"),
        turn(High, Fifth, Plain, Some(Major), "7M 6M 5"),
        turn(High, Fifth, Plain, Some(Minor), "7m 6m 5"),
        turn(Fifth, Low, Plain, None, "4 3 2 1"),
        turn(Fifth, High, Plain, None, "6M 7M 1'"),
        turn(Low, High, Plain, None, "3 4 2 5 6M 7M 1'"),
        turn(High, Low, Plain, Some(Major), "6M 4 5 3 4 2 1"),
        // With semitones put in between.
        turn(Low, Fifth, Bold, None, "2 3 4 4# 5"),
        turn(High, Fifth, Bold, Some(Major), "7M 7m 6M 6m:6+ 5"),
        turn(High, Fifth, Bold, Some(Minor), "7M 7m 6M 6m:6+ 5"),
        turn(Fifth, High, Bold, Some(Major), "5# 6M 7M 1'"),
        turn(Low, Fifth, Bold, Some(Major), "1# 2 4 4# 5"),
        turn(Low, Low, Bold, Some(Minor), "2 3 3# 4 5 6m 4 2 5 1"),
        // Out of the expected way: the fifth goes elsewhere.
        turn(Fifth, Low, Bold, None, "6 4 2 5 1"),
        turn(Fifth, Low, Bold, Some(Minor), "6m:6+ 5 4 3 4 5 1"),
        turn(Low, Fifth, Bold, Some(Major), "7m, 6M, 4 4# 5"),
        turn(High, Low, Bold, Some(Minor), "7m 6m 4 4# 5 6m 4 5 1"),
    ]
};

/// Composes a prelude of about `seconds` (clamped to [20, 240]) in a tonality. The
/// same seed composes the same; lengths come within a tenth of what was asked.
///
/// Cost: a few readings of the growing sketch.
pub fn prelude(tonality: Tonality, seconds: u32, seed: u32) -> Sketch {
    let wanted = Micros::from_ms(u64::from(seconds.clamp(SHORTEST, LONGEST)) * 1000);
    let mut chance = Chance::of(u64::from(seed), 41);
    let frame = if wanted < BRIEF { Framing::Brief } else { Framing::Broad };
    let mut middle: Vec<&'static Turn> = Vec::new();
    let mut best = compose(tonality, frame, &middle, seed);
    let mut length = lasts(&best);
    // Turn by turn until the wanted length is reached; the last is kept where it
    // comes nearer than going without.
    while length < wanted && middle.len() < MOST_TURNS {
        let from = middle.last().map_or(Place::Low, |turn| turn.to);
        let Some(next) = choose(tonality.mode, from, &middle, &mut chance) else { break };
        middle.push(next);
        let longer = compose(tonality, frame, &middle, seed);
        // Reading takes long: what is surely too short is not read.
        let likely = length.0 * longer.notes.len() as u64 / best.notes.len().max(1) as u64;
        if likely * 100 < wanted.0 * SURELY {
            continue;
        }
        let longer_length = lasts(&longer);
        let nearer = longer_length.0.abs_diff(wanted.0) < length.0.abs_diff(wanted.0);
        if !nearer && longer_length >= wanted && middle.len() > 1 {
            break;
        }
        // A turn may also shorten what stood before it: then it is the next that lengthens.
        (best, length) = (longer, longer_length);
    }
    // What is left over is taken up by the tempo; not all goes slower with it, so it is
    // corrected once.
    let mut percent = 100;
    for _ in 0..2 {
        percent = (percent * length.0 / wanted.0.max(1)).clamp(70, 140);
        best.roll.speed = percent as u16;
        length = lasts(&best);
    }
    best
}

/// How long a sketch plays, without its last decay.
fn lasts(sketch: &Sketch) -> Micros {
    reading::read(sketch).performance.end
}

/// A turn that starts where the last one ended: bold ones after plain ones, and
/// never the same twice running.
fn choose(
    mode: Mode,
    from: Place,
    before: &[&'static Turn],
    chance: &mut Chance,
) -> Option<&'static Turn> {
    let plain = before.iter().rev().take_while(|turn| turn.daring == Daring::Plain).count();
    let fits = |turn: &&Turn| {
        turn.from == from
            && turn.mode.is_none_or(|own| own == mode)
            && before.last().is_none_or(|last| last.notes != turn.notes)
    };
    let fitting: Vec<&'static Turn> = TURNS.iter().filter(fits).collect();
    let wish = if plain >= 1 { Daring::Bold } else { Daring::Plain };
    let wished: Vec<&'static Turn> =
        fitting.iter().copied().filter(|turn| turn.daring == wish).collect();
    let from = if wished.is_empty() { fitting } else { wished };
    let place = chance.below(from.len() as u64) as usize;
    from.get(place).copied()
}

/// How long a prelude stays on its pedals.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Framing {
    /// One chord to open and to close, two on the fifth.
    Brief,
    /// Four to open, four on the fifth, three to close.
    Broad,
}

/// The sketch of an opening, these turns and a close.
fn compose(tonality: Tonality, framing: Framing, middle: &[&Turn], seed: u32) -> Sketch {
    // The tonic held at the opening; the fifth held before the close (the double
    // cadence, or the compound); the tonic held to the end. In minor the seventh
    // and the fifth's third are raised.
    let (opening, fifth, close) = match (framing, tonality.mode) {
        (Framing::Brief, Mode::Major) => ("1:5/3", "5,:5/4-5/3", "1:5/3"),
        (Framing::Brief, Mode::Minor) => ("1:5/3", "5,:5/4-3+", "1:5/3"),
        (Framing::Broad, Mode::Major) => {
            ("1:5/3-6/4-7/4/2-5/3", "5,:5/3-6/4-5/4-5/3", "1:5/3-7/4/2-5/3")
        }
        (Framing::Broad, Mode::Minor) => {
            ("1:5/3-6/4-7+/4/2-5/3", "5,:3+-6/4-5/4-3+", "1:5/3-7+/4/2-5/3")
        }
    };
    let towards = match (framing, middle.last().map_or(Place::Low, |turn| turn.to)) {
        (Framing::Brief, Place::Low | Place::Fifth) => "4",
        (Framing::Brief, Place::High) => "6 4",
        (Framing::Broad, Place::Low) => "4 5,",
        (Framing::Broad, Place::High) => "6 4 5,",
        (Framing::Broad, Place::Fifth) => "4 2 5,",
    };
    let mut words = vec![opening];
    words.extend(middle.iter().map(|turn| turn.notes));
    words.extend([towards, fifth, close]);
    let tonic = low_tonic(tonality);
    let mut sketch = Sketch { tonality: Some(tonality), ..Sketch::default() };
    sketch.notes = words
        .iter()
        .flat_map(|words| words.split_whitespace())
        .map(|word| note(word, tonic, tonality))
        .collect();
    sketch.roll.seed = seed;
    // The opening and the close unfold their chord over the keyboard.
    if let Some(first) = sketch.notes.first_mut() {
        first.stroke.spice = Some(FLOURISH.0);
    }
    if let Some(last) = sketch.notes.last_mut() {
        last.stroke =
            ChordStroke { times: Some(2), spice: Some(FLOURISH.1), ..last.stroke.clone() };
    }
    sketch
}

/// The tonic between G (G2) and f♯ (F♯3).
fn low_tonic(tonality: Tonality) -> Pitch {
    let floor = Pitch::from_diatonic(2 * 7 + 4, 0);
    tonality.tonic.at_or_above(floor)
}

/// A word of a turn as a bass note; the tonic where the word means nothing.
fn note(word: &str, tonic: Pitch, tonality: Tonality) -> SketchNote {
    let (name, figures) = word.split_once(':').unwrap_or((word, ""));
    let mut letters = name.chars();
    let degree = letters.next().and_then(|letter| letter.to_digit(10)).unwrap_or(1) as i32;
    let natural = tonality.class_of((tonic + Interval::new(degree - 1, 0)).step);
    let diatonic = tonic.diatonic() + degree - 1;
    let mut pitch = Pitch::from_diatonic(diatonic, natural.alter);
    for letter in letters {
        pitch = match letter {
            '#' => pitch + Interval::new(0, 1),
            'b' => pitch + Interval::new(0, -1),
            // Major and minor sixths and sevenths above the tonic, in either mode.
            'M' => tonic + Interval::new(degree - 1, if degree == 6 { 9 } else { 11 }),
            'm' => tonic + Interval::new(degree - 1, if degree == 6 { 8 } else { 10 }),
            ',' => pitch - Interval::OCTAVE,
            '\'' => pitch + Interval::OCTAVE,
            _ => pitch,
        };
    }
    SketchNote { figures: read_figures(figures).ok(), ..SketchNote::bare(pitch) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frame::Severity;
    use crate::hands::{Compass, hardships};
    use crate::pitch::PitchClass;

    fn tonalities() -> impl Iterator<Item = Tonality> {
        (-6..=6).flat_map(|fifths| {
            [Mode::Major, Mode::Minor]
                .map(|mode| Tonality::new(PitchClass::from_fifths(fifths), mode))
        })
    }

    #[test]
    fn every_word_is_a_note_on_the_keyboard() {
        for tonality in tonalities() {
            let all: Vec<&Turn> = TURNS
                .iter()
                .filter(|turn| turn.mode.is_none_or(|mode| mode == tonality.mode))
                .collect();
            let sketch = compose(tonality, Framing::Broad, &all, 1);
            for note in &sketch.notes {
                let key = note.pitch.key();
                assert!(key.is_some_and(|key| Compass::FIVE_OCTAVES.contains(key)));
                assert!(note.pitch.alter.abs() <= 2, "{} in {tonality}", note.pitch);
            }
            let words = all.iter().flat_map(|turn| turn.notes.split_whitespace());
            for word in words.filter(|word| word.contains(':')) {
                let figures = word.split_once(':').map_or("", |(_, figures)| figures);
                assert!(read_figures(figures).is_ok(), "{word}");
            }
        }
    }

    #[test]
    fn turns_join_and_one_can_always_go_on() {
        for turn in &TURNS {
            let last = turn.notes.split_whitespace().last().unwrap_or_default();
            let end = match turn.to {
                Place::Low => "1",
                Place::High => "1'",
                Place::Fifth => "5",
            };
            assert_eq!(last, end, "{}", turn.notes);
        }
        for mode in [Mode::Major, Mode::Minor] {
            for from in [Place::Low, Place::High, Place::Fifth] {
                for daring in [Daring::Plain, Daring::Bold] {
                    let some = TURNS.iter().filter(|turn| {
                        turn.from == from
                            && turn.daring == daring
                            && turn.mode.is_none_or(|own| own == mode)
                    });
                    assert!(some.count() >= 1, "{mode:?} {from:?} {daring:?}");
                }
            }
        }
    }

    #[test]
    fn a_prelude_opens_and_closes_in_its_key_over_its_pedals() {
        for tonality in tonalities() {
            let sketch = prelude(tonality, 45, 7);
            let classes: Vec<_> = sketch.notes.iter().map(|note| note.pitch.class()).collect();
            assert_eq!(classes.first(), Some(&tonality.tonic));
            assert_eq!(classes.last(), Some(&tonality.tonic));
            let chords = reading::read(&sketch).harmony.chords;
            let leading = tonality.leading();
            // The close: four stages on the fifth with the leading note at their end,
            // then the tonic.
            let fifth = tonality.tonic + Interval::FIFTH;
            let last_fifth = chords.iter().rposition(|chord| chord.bass.class() == fifth);
            let last_fifth = last_fifth.expect("a fifth");
            assert!(chords[last_fifth].tones.iter().any(|tone| tone.class == leading));
            assert!(chords[last_fifth + 1..].iter().all(|c| c.bass.class() == tonality.tonic));
            assert!(chords[last_fifth - 3..].iter().take(4).all(|c| c.bass.class() == fifth));
        }
    }

    #[test]
    fn preludes_have_no_fault_and_lie_under_the_hands() {
        for (seed, tonality) in (1..).zip(tonalities()) {
            for seconds in [20, 60] {
                let sketch = prelude(tonality, seconds, seed);
                assert!(sketch.notes.len() > 6, "{tonality}");
                let reading = reading::read(&sketch);
                let faults = reading.frame.faults;
                assert!(faults.iter().all(|it| it.severity == Severity::Caution), "{tonality}");
                assert!(reading.harmony.remarks.is_empty() && reading.hands.remarks.is_empty());
                let hard = hardships(&sketch.hands, &reading.performance);
                assert!(hard.is_empty(), "{tonality}: {hard:?}");
            }
        }
    }

    #[test]
    fn lengths_come_near_and_seeds_differ() {
        let tonality = Tonality::new(PitchClass::from_fifths(3), Mode::Minor);
        for seconds in [20, 60, 150] {
            let sketch = prelude(tonality, seconds, 3);
            let length = reading::read(&sketch).performance.end.as_secs();
            let wanted = f64::from(seconds);
            assert!((length - wanted).abs() < 0.1 * wanted, "{length} for {seconds}");
            assert_eq!(sketch, prelude(tonality, seconds, 3));
        }
        let bass = |seed| {
            let sketch = prelude(tonality, 60, seed);
            sketch.notes.iter().map(|note| note.pitch).collect::<Vec<_>>()
        };
        assert_ne!(bass(1), bass(2));
    }
}
