//! Scores and MIDI files as libraries of others read them: valid by the published
//! schema, the same pitches in the same order, the same keys at the same times.

use anyhow::Result;
use tastata::bass::read_bass;
use tastata::figures::{Accidental, Sign, Stage};
use tastata::files::{MidiForm, midi, musicxml};
use tastata::hands::Hand;
use tastata::pitch::Pitch;
use tastata::reading::{Reading, read};
use tastata::roll::{Stroke, StrokePlan};
use tastata::sketch::Sketch;
use tastata::sound::Temperament;
use tastata_tests::oracle;

/// Basses of our own: every kind of figure, passing notes, far keys, nothing.
const BASSES: [&str; 6] = [
    "",
    "C: C3",
    "D minor: D3 C#3:6 D3 (E3) (F3) Bb2:6/5b G2:#6/4+/2 A2:6/4-5/# _ D2 Bb1:t.s. D2",
    "Cb major: Cb3 Fb3 (Gb3) Abb2:6 Cb3:4+/2 E3 B2:7 E#2:6 (Fb2) Cb2",
    "G# minor: G#2 F##2:6/5 G#2 B2:6 E3:7-6 D#3:9/7-8/6 D#2:6/4-5/3+ C#2:bb7/n5 B1:x6 G#1",
    "F: F2 G2 A2 Bb2 C3 D3 E3 F3 E3 D3 C3 Bb2 A2 G2 F2",
];

fn pieces() -> Vec<(Sketch, Reading)> {
    let piece = |(i, text): (usize, &str)| {
        let bass = read_bass(text, None);
        let mut sketch = Sketch {
            title: ["", "Tea & <cake>", "Übung № 3"][i % 3].to_string(),
            tonality: bass.tonality,
            notes: bass.notes.iter().map(|note| note.to_sketch()).collect(),
            ..Sketch::default()
        };
        sketch.roll.times = 2;
        sketch.roll.spice = 20 * i as u8;
        if i % 2 == 1 {
            sketch.roll.plan = StrokePlan::Even(Stroke::RepeatedBass);
        }
        let reading = read(&sketch);
        (sketch, reading)
    };
    BASSES.into_iter().enumerate().map(piece).collect()
}

/// As the two libraries spell: F#4, B-3.
fn spelled(pitch: Pitch) -> String {
    let sign = if pitch.alter < 0 { "-" } else { "#" };
    let signs = sign.repeat(usize::from(pitch.alter.unsigned_abs()));
    format!("{}{signs}{}", pitch.step.letter(), pitch.octave)
}

/// What a score of this reading must hold, line by line as the oracle prints it.
fn expected(sketch: &Sketch, reading: &Reading) -> Vec<String> {
    let mut lines = Vec::new();
    let chords = &reading.harmony.chords;
    for (i, handful) in reading.hands.handfuls.iter().enumerate() {
        let mut add = |staff: u8, pitches: &[Pitch]| {
            let mut pitches = pitches.to_vec();
            pitches.sort_by_key(|pitch| pitch.semitones());
            let names: Vec<String> = pitches.into_iter().map(spelled).collect();
            if !names.is_empty() {
                lines.push(format!("{}\t{staff}\t{}", i + 1, names.join(" ")));
            }
        };
        add(1, &handful.right);
        add(2, &handful.left);
        if let Some(before) = i.checked_sub(1).and_then(|i| chords.get(i)) {
            let passing = sketch.notes.get(before.note + 1..chords[i].note);
            for note in passing.unwrap_or_default() {
                lines.push(format!("{}\t2\t~{}", i + 1, spelled(note.pitch)));
            }
        }
    }
    lines.sort();
    lines
}

fn scores(pieces: &[(Sketch, Reading)]) -> String {
    let scores: Vec<String> = pieces.iter().map(|(s, r)| musicxml(s, r)).collect();
    scores.join("\u{c}")
}

fn answers(script: &str, input: &str) -> Result<Vec<String>> {
    let answer = oracle("scores.py", &[script], input)?;
    Ok(answer.split('\u{c}').map(str::to_string).collect())
}

#[test]
fn scores_are_valid_by_the_published_schema() -> Result<()> {
    let pieces = pieces();
    let verdicts = answers("schema", &scores(&pieces))?;
    assert_eq!(verdicts, vec!["valid"; pieces.len()]);
    // The schema does tell a bad score from a good one.
    let bad = musicxml(&pieces[1].0, &pieces[1].1).replace("<octave>3<", "<octave>44<");
    assert_ne!(answers("schema", &bad)?, ["valid"]);
    Ok(())
}

#[test]
fn two_libraries_read_the_same_pitches() -> Result<()> {
    let pieces = pieces();
    for library in ["music21", "partitura"] {
        let read = answers(library, &scores(&pieces))?;
        assert_eq!(read.len(), pieces.len());
        for ((sketch, reading), read) in pieces.iter().zip(read) {
            let mut read: Vec<String> = read.lines().map(str::to_string).collect();
            read.sort();
            assert_eq!(read, expected(sketch, reading), "{library}: {}", sketch.title);
        }
    }
    Ok(())
}

#[test]
fn figures_are_the_elements_of_the_standard() -> Result<()> {
    let pieces = pieces();
    let read = answers("figures", &scores(&pieces))?;
    for ((_, reading), read) in pieces.iter().zip(read) {
        let mut expected = Vec::new();
        for (i, chord) in reading.harmony.chords.iter().enumerate() {
            let figures = match &chord.figures {
                Stage::TastoSolo => continue,
                Stage::Signs(signs) if signs.is_empty() => continue,
                Stage::Hold => vec!["extend=".to_string()],
                Stage::Signs(signs) => signs.iter().map(elements).collect(),
            };
            expected.push(format!("{}\t{}", i + 1, figures.join("; ")));
        }
        let read: Vec<&str> = read.lines().collect();
        assert_eq!(read, expected);
    }
    Ok(())
}

fn elements(sign: &Sign) -> String {
    let prefix = match sign.accidental {
        None => "",
        Some(Accidental::DoubleFlat) => "flat-flat",
        Some(Accidental::Flat) => "flat",
        Some(Accidental::Natural) => "natural",
        Some(Accidental::Sharp) => "sharp",
        Some(Accidental::DoubleSharp) => "double-sharp",
        Some(Accidental::Raised) if sign.number == 3 => "plus",
        Some(Accidental::Raised) => return format!("figure-number={} suffix=slash", sign.number),
    };
    match (prefix, sign.number) {
        ("", number) => format!("figure-number={number}"),
        (prefix, 3) => format!("prefix={prefix}"),
        (prefix, number) => format!("prefix={prefix} figure-number={number}"),
    }
}

fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// One note of a MIDI file: channel, key, down and up in microseconds.
type Heard = (u64, u64, u64, u64);

fn heard(pieces: &[(Sketch, Reading)], form: MidiForm) -> Result<Vec<Vec<Heard>>> {
    let files: Vec<String> = pieces.iter().map(|(s, r)| hexadecimal(&midi(s, r, form))).collect();
    let read = answers("midi", &files.join("\u{c}"))?;
    let parse = |line: &str| {
        let mut numbers = line.split('\t').map(|number| number.parse::<u64>().expect("a number"));
        let mut next = || numbers.next().expect("four numbers");
        (next(), next(), next(), next())
    };
    Ok(read.iter().map(|read| read.lines().map(parse).collect()).collect())
}

#[test]
fn a_midi_performance_has_the_same_keys_at_the_same_times() -> Result<()> {
    let pieces = pieces();
    for ((_, reading), heard) in pieces.iter().zip(heard(&pieces, MidiForm::Performance)?) {
        let mut heard = heard;
        let mut touches: Vec<Heard> = reading
            .performance
            .touches
            .iter()
            .map(|touch| {
                let channel = u64::from(touch.hand == Hand::Left);
                (channel, touch.key.number() as u64, touch.down.0, touch.up.0)
            })
            .collect();
        heard.sort_unstable();
        touches.sort_unstable();
        assert_eq!(heard.len(), touches.len());
        for (heard, touch) in heard.iter().zip(&touches) {
            assert_eq!((heard.0, heard.1), (touch.0, touch.1));
            // A tick is a 3840th of a chord; chords last a few seconds.
            assert!(heard.2.abs_diff(touch.2) <= 3_000, "{heard:?} for {touch:?}");
            assert!(heard.3.abs_diff(touch.3) <= 3_000, "{heard:?} for {touch:?}");
        }
    }
    Ok(())
}

/// Cents from equal temperament, counted from A: quarter-comma meantone and
/// Werckmeister's Correct Temperament No. 1 as Barbour, *Tuning and Temperament* (1951),
/// prints them from C, here computed to three decimals from his definitions.
const TUNINGS: [(Temperament, [f64; 12]); 3] = [
    (Temperament::Equal, [0.0; 12]),
    (
        Temperament::QuarterComma,
        [
            10.265, -13.686, 3.422, 20.530, -3.421, 13.687, -10.264, 6.843, -17.108, 0.0, 17.108,
            -6.843,
        ],
    ),
    (
        Temperament::Werckmeister3,
        [11.73, 1.955, 3.91, 5.865, 1.955, 9.775, 0.0, 7.82, 3.91, 0.0, 7.82, 3.91],
    ),
];

#[test]
fn a_midi_file_has_a_track_for_each_hand_a_tempo_for_each_chord_and_the_tuning() -> Result<()> {
    let mut pieces = pieces();
    for (i, (sketch, reading)) in pieces.iter_mut().enumerate() {
        sketch.sound.temperament = TUNINGS[i % 3].0;
        sketch.sound.a4 = [392.0, 415.0, 440.0, 466.0][i % 4];
        *reading = read(sketch);
    }
    let files: Vec<String> =
        pieces.iter().map(|(s, r)| hexadecimal(&midi(s, r, MidiForm::Performance))).collect();
    let read = answers("tracks", &files.join("\u{c}"))?;
    for (i, ((sketch, reading), read)) in pieces.iter().zip(read).enumerate() {
        let lines: Vec<&str> = read.lines().collect();
        let [head, right, left, master, offsets] = lines[..] else { panic!("{read}") };
        let chords = reading.harmony.chords.len();
        assert_eq!(head, format!("{}\t[]\t{chords}", sketch.title));
        let channel = |number: u8| if chords == 0 { "[]".into() } else { format!("[{number}]") };
        assert_eq!(right, format!("Right hand\t{}\t0", channel(0)));
        assert_eq!(left, format!("Left hand\t{}\t0", channel(1)));
        let shift = 1200.0 * (sketch.sound.a4 / 440.0).log2();
        assert!((master.parse::<f64>()? - shift).abs() < 0.02, "{master} for {shift}");
        let offsets: Vec<f64> = offsets.split(' ').map(str::parse).collect::<Result<_, _>>()?;
        for (offset, expected) in offsets.iter().zip(TUNINGS[i % 3].1) {
            assert!((offset - expected).abs() < 0.02, "{offsets:?}");
        }
    }
    Ok(())
}

#[test]
fn midi_blocks_hold_every_chord_and_passing_note() -> Result<()> {
    let pieces = pieces();
    for ((sketch, reading), heard) in pieces.iter().zip(heard(&pieces, MidiForm::Blocks)?) {
        let mut heard: Vec<(u64, u64)> = heard.iter().map(|note| (note.0, note.1)).collect();
        let mut expected = Vec::new();
        for handful in &reading.hands.handfuls {
            expected.extend(handful.left.iter().map(|pitch| (1, *pitch)));
            expected.extend(handful.right.iter().map(|pitch| (0, *pitch)));
        }
        let carries = |note: usize| reading.harmony.chords.iter().any(|it| it.note == note);
        let passing = sketch.notes.iter().enumerate().filter(|(i, _)| !carries(*i));
        expected.extend(passing.map(|(_, note)| (1, note.pitch)));
        let mut expected: Vec<(u64, u64)> = expected
            .into_iter()
            .filter_map(|(channel, pitch)| Some((channel, pitch.key()?.number() as u64)))
            .collect();
        heard.sort_unstable();
        expected.sort_unstable();
        assert_eq!(heard, expected, "{}", sketch.title);
    }
    Ok(())
}
