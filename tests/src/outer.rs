//! Chords and outer voices for tests, in a notation a musician can read.
//!
//! `"C3-G4 D3-A4"` is two chords by bass and soprano. A mark after a note says
//! what it owes: `^` rises, `v` falls, `~` is a suspension. A pair that begins
//! with `.` stands over the same bass note as the one before it.

use tastata::figures::Stage;
use tastata::harmony::{Chord, Duty, Reason, Tone};
use tastata::pitch::{Mode, Pitch, PitchClass, Step, Tonality};
use tastata::sketch::{Sketch, SketchNote};

/// C major.
pub const C_MAJOR: Tonality = Tonality::new(PitchClass::new(Step::C, 0), Mode::Major);

/// A bass of this many notes that wanders through C major by steps and leaps, always the same.
pub fn wandering(length: usize) -> Sketch {
    const MOVES: [i32; 11] = [1, 1, -1, 2, -3, 4, -1, -1, 3, -4, 1];
    let mut sketch = Sketch { tonality: Some(C_MAJOR), ..Sketch::default() };
    let mut diatonic = 21;
    for i in 0..length {
        sketch.notes.push(SketchNote::bare(Pitch::from_diatonic(diatonic, 0)));
        let way = MOVES[(i * i + i / 3) % MOVES.len()];
        diatonic += if (15..=26).contains(&(diatonic + way)) { way } else { -way };
    }
    sketch
}

/// The pitch of `C4`, `F#3`, `Bb4`.
///
/// # Panics
/// Where the text is no pitch.
pub fn pitch(text: &str) -> Pitch {
    let mut letters = text.chars();
    let step = letters.next().and_then(Step::from_letter).expect("a letter");
    let rest = letters.as_str();
    let name = rest.trim_start_matches(['#', 'b']);
    let marks = &rest[..rest.len() - name.len()];
    let alter = marks.chars().map(|mark| if mark == '#' { 1 } else { -1 }).sum();
    Pitch::new(step, alter, name.parse().expect("an octave"))
}

/// Chords of just these outer voices, and the soprano.
///
/// # Panics
/// Where the text is not in this module's notation.
pub fn outer(text: &str) -> (Vec<Chord>, Vec<Pitch>) {
    let mut chords: Vec<Chord> = Vec::new();
    let mut soprano = Vec::new();
    for pair in text.split_whitespace() {
        let (same, pair) = pair.strip_prefix('.').map_or((false, pair), |rest| (true, rest));
        let (low, high) = pair.split_once('-').expect("bass-soprano");
        let ((bass, bass_duty), (top, duty)) = (owing(low), owing(high));
        let before = chords.last().map(|chord| (chord.note, chord.stage));
        let (note, stage) = match before {
            Some((note, stage)) if same => (note, stage + 1),
            Some((note, _)) => (note + 1, 0),
            None => (0, 0),
        };
        let tone = |pitch: Pitch, duty| Tone {
            class: pitch.class(),
            number: (pitch - bass).simple_number(),
            duty,
            omittable: false,
        };
        let mut tones = vec![tone(bass, bass_duty)];
        if top.class() != bass.class() {
            tones.push(tone(top, duty));
        }
        // A chord of the bass's own class alone would be a bass alone.
        tones.push(tone(Pitch::from_diatonic(bass.diatonic() + 2, 0), Duty::Free));
        chords.push(chord(C_MAJOR, note, stage, bass, tones));
        soprano.push(top);
    }
    (chords, soprano)
}

fn owing(text: &str) -> (Pitch, Duty) {
    let mark = text.chars().last().expect("a note");
    let duty = match mark {
        '^' => Duty::Rises,
        'v' => Duty::Falls,
        '~' => Duty::Suspended,
        _ => Duty::Free,
    };
    (pitch(text.trim_end_matches(['^', 'v', '~'])), duty)
}

/// A chord of these tones with nothing said of its figures.
pub fn chord(
    tonality: Tonality,
    note: usize,
    stage: usize,
    bass: Pitch,
    tones: Vec<Tone>,
) -> Chord {
    Chord {
        note,
        stage,
        bass,
        tones,
        tonality,
        degree: tonality.degree_of(bass.step),
        figures: Stage::Signs(Vec::new()),
        reason: Reason::Given,
    }
}

/// A chord of the scale: `numbers` are its figures above the bass, each taken
/// from the signature; a leading note rises, a seventh or fourth above the root
/// of a `7`, `6/5`, `4/3` or `2` falls.
pub fn scale_chord(tonality: Tonality, note: usize, bass: Pitch, numbers: &[u8]) -> Chord {
    let leading = tonality.leading();
    let dissonant = match numbers {
        [1, 3, 5, 7] => 7,
        [1, 3, 5, 6] => 5,
        [1, 3, 4, 6] => 3,
        [1, 2, 4, 6] => 1,
        _ => 0,
    };
    let tone = |&number: &u8| {
        let class = tonality.class_of(Step::wrapped(bass.step.index() + i32::from(number) - 1));
        let duty = match number {
            _ if number == dissonant => Duty::Falls,
            _ if class == leading => Duty::Rises,
            _ => Duty::Free,
        };
        Tone { class, number, duty, omittable: number == 5 && numbers.contains(&3) }
    };
    chord(tonality, note, 0, bass, numbers.iter().map(tone).collect())
}
