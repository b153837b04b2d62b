//! Links: every sketch comes back as it was, links once given out stay readable,
//! and nothing that a link can hold makes the program fail.

use tastata::bass::NoteValue;
use tastata::figures::{Accidental, Figures, Sign, Stage};
use tastata::files::{LinkError, decode, encode, from_text, to_text};
use tastata::frame::{
    Contour, ContourPoint, FrameWishes, Position, Preference, Rule, RuleSwitches, Smoothness,
    SopranoCompass, Strictness,
};
use tastata::hands::{Compass, HandSize, HandWishes, Handful, LowKeys, Spacing};
use tastata::harmony::{HarmonyWishes, Version};
use tastata::pitch::{Key, Mode, Pitch, PitchClass, Step, Tonality};
use tastata::roll::{ChordStroke, Held, RollWishes, Stroke, StrokePlan};
use tastata::sketch::{Hold, Pin, Sketch, SketchNote, Weight};
use tastata::sound::{SoundWishes, Temperament, Voice};
use tastata_tests::wrapped::wrapped;

/// A full-period congruential sequence: the same sketches on every run.
struct Draw(u64);

impl Draw {
    fn below(&mut self, below: u64) -> u64 {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % below
    }

    fn one_in(&mut self, of: u64) -> bool {
        self.below(of) == 0
    }

    fn of<T: Copy>(&mut self, choices: &[T]) -> T {
        choices[self.below(choices.len() as u64) as usize]
    }

    fn small(&mut self) -> u8 {
        if self.one_in(8) { self.below(256) as u8 } else { self.below(6) as u8 }
    }

    fn key(&mut self) -> Key {
        Key::clamped(self.below(128) as i32)
    }

    /// Up to `most` things, often none.
    fn some<T>(&mut self, most: u64, mut make: impl FnMut(&mut Draw) -> T) -> Vec<T> {
        let count = if self.one_in(2) { 0 } else { self.below(most + 1) };
        (0..count).map(|_| make(self)).collect()
    }

    /// Mostly ordinary pitches, now and then any that the type can hold.
    fn pitch(&mut self) -> Pitch {
        let step = self.of(&Step::ALL);
        if self.one_in(10) {
            Pitch::new(step, self.below(256) as u8 as i8, self.below(256) as u8 as i8)
        } else {
            Pitch::new(step, self.below(5) as i8 - 2, self.below(5) as i8 + 1)
        }
    }

    fn sign(&mut self) -> Sign {
        let accidentals = [
            None,
            Some(Accidental::DoubleFlat),
            Some(Accidental::Flat),
            Some(Accidental::Natural),
            Some(Accidental::Sharp),
            Some(Accidental::DoubleSharp),
            Some(Accidental::Raised),
        ];
        let number = if self.one_in(9) { self.small() } else { 2 + self.below(8) as u8 };
        Sign { number, accidental: self.of(&accidentals) }
    }

    fn stage(&mut self) -> Stage {
        match self.below(8) {
            0 => Stage::Hold,
            1 => Stage::TastoSolo,
            _ => Stage::Signs(self.some(4, Draw::sign)),
        }
    }

    fn pin(&mut self) -> Option<Pin> {
        let hold = self.of(&[Hold::Pinned, Hold::Resting]);
        (!self.one_in(4)).then(|| Pin { pitch: self.pitch(), hold })
    }

    fn handful(&mut self) -> Option<Handful> {
        (!self.one_in(3))
            .then(|| Handful { left: self.some(5, Draw::pitch), right: self.some(5, Draw::pitch) })
    }

    fn length(&mut self) -> Option<NoteValue> {
        if self.one_in(3) { NoteValue::from_ticks(self.below(65_536) as u32) } else { None }
    }

    fn note(&mut self) -> SketchNote {
        SketchNote {
            pitch: self.pitch(),
            figures: Figures::new(self.some(3, Draw::stage)),
            weight: self.of(&[Weight::Unmarked, Weight::Structural, Weight::Passing]),
            value: self.length(),
            rest: self.length(),
            soprano: self.some(3, Draw::pin),
            handfuls: self.some(2, Draw::handful),
            stroke: ChordStroke {
                times: self.one_in(4).then(|| self.small()),
                stroke: self.one_in(4).then(|| self.stroke()),
                spice: self.one_in(4).then(|| self.small()),
                dwell: self.one_in(4).then(|| self.below(65_536) as u16),
            },
        }
    }

    fn stroke(&mut self) -> Stroke {
        let heights = std::array::from_fn(|_| self.below(256) as u8);
        self.of(&[
            Stroke::Sweep,
            Stroke::HandAfterHand,
            Stroke::InsideOut,
            Stroke::BrokenThirds,
            Stroke::TurningBack,
            Stroke::RepeatedBass,
            Stroke::BassAlone,
            Stroke::Drawn(heights),
        ])
    }

    fn frame(&mut self) -> FrameWishes {
        let positions =
            [None, Some(Position::Octave), Some(Position::Third), Some(Position::Fifth)];
        let strictnesses =
            [Strictness::Usual, Strictness::Off, Strictness::Caution, Strictness::Fault];
        let switched = self.some(5, |draw| (draw.of(&Rule::ALL), draw.of(&strictnesses)));
        FrameWishes {
            position: self.of(&positions),
            choice: self.small(),
            preference: self.of(&[Preference::Contrary, Preference::Tenths]),
            smoothness: self.of(&[Smoothness::Flowing, Smoothness::Usual, Smoothness::Bold]),
            compass: SopranoCompass { low: self.key(), high: self.key() },
            contour: Contour {
                points: self.some(4, |draw| ContourPoint {
                    place: draw.below(65_536) as u16,
                    height: draw.key(),
                }),
            },
            rules: switched
                .into_iter()
                .fold(RuleSwitches::default(), |rules, (rule, how)| rules.with(rule, how)),
        }
    }

    /// Every field is named, so that a new one is not forgotten here.
    fn sketch(&mut self) -> Sketch {
        let alter = if self.one_in(9) { self.below(256) as u8 as i8 } else { 0 };
        let tonic = PitchClass::new(self.of(&Step::ALL), alter);
        let mode = self.of(&[Mode::Major, Mode::Minor]);
        let versions = [
            Version::Campion,
            Version::Rameau,
            Version::Fenaroli,
            Version::Gasparini,
            Version::Heinichen,
            Version::AugmentedSixth,
            Version::Chorales,
            Version::Madrigals,
        ];
        let temperaments = [
            Temperament::Equal,
            Temperament::QuarterComma,
            Temperament::SixthComma,
            Temperament::Werckmeister3,
            Temperament::Kirnberger3,
            Temperament::Vallotti,
            Temperament::Young2,
            Temperament::Custom(std::array::from_fn(|_| self.below(1 << 32) as u32 as i32)),
        ];
        let plans = [StrokePlan::Speech, StrokePlan::Varied, StrokePlan::Even(self.stroke())];
        let titles = ["", "A walk in D", "Übung № 3 – „langsam“ 𝄞", "<&\"'>"];
        Sketch {
            title: self.of(&titles).to_string(),
            tonality: (!self.one_in(3)).then_some(Tonality::new(tonic, mode)),
            notes: self.some(40, Draw::note),
            harmony: HarmonyWishes {
                version: self.of(&versions),
                daring: self.of(&[0, 1, 2, 3, 4]),
            },
            frame: self.frame(),
            hands: HandWishes {
                left: HandSize { notes: self.small(), span: self.small() },
                right: HandSize { notes: self.small(), span: self.small() },
                spacing: self.of(&[Spacing::Even, Spacing::Wide]),
                compass: Compass { low: self.key(), high: self.key() },
                low_keys: self.of(&[LowKeys::Chromatic, LowKeys::ShortC, LowKeys::ShortG]),
            },
            roll: RollWishes {
                times: self.small(),
                speed: self.below(65_536) as u16,
                seed: self.below(1 << 32) as u32,
                plan: self.of(&plans),
                spice: self.small(),
                held: self.of(&Held::ALL),
            },
            sound: SoundWishes {
                a4: self.of(&[415.0, 392.0, 440.0, 414.999_999, 0.1 + 0.2, -0.0, f64::INFINITY]),
                temperament: self.of(&temperaments),
                voice: self.of(&Voice::ALL),
            },
        }
    }
}

#[test]
fn every_sketch_comes_back_as_it_was() {
    let mut draw = Draw(7);
    for i in 0..1000 {
        let sketch = draw.sketch();
        let link = encode(&sketch);
        assert_eq!(decode(&link).as_ref(), Ok(&sketch), "sketch {i}: {link}");
    }
    assert_eq!(decode(&encode(&Sketch::default())), Ok(Sketch::default()));
}

#[test]
fn damaged_links_are_told_and_never_fail() {
    let mut draw = Draw(11);
    let (mut damaged, mut told) = (0, 0);
    for _ in 0..200 {
        let link = encode(&draw.sketch());
        for _ in 0..20 {
            let mut bytes = link.clone().into_bytes();
            for _ in 0..=draw.below(3) {
                let at = draw.below(bytes.len() as u64) as usize;
                match draw.below(4) {
                    0 => bytes[at] = b'!' + draw.below(94) as u8,
                    1 => bytes.insert(at, b'A' + draw.below(26) as u8),
                    2 => drop(bytes.remove(at)),
                    _ => bytes.truncate(at),
                }
                bytes.push(b'.');
            }
            let Ok(text) = String::from_utf8(bytes) else { continue };
            // What only follows the end is no damage.
            if !text.starts_with(&link) {
                damaged += 1;
                told += usize::from(decode(&text).is_err());
            }
        }
    }
    // The checksum lets one change in four thousand million through; a lone stray
    // bit after the last whole byte changes nothing and is rightly forgiven.
    assert!(told * 100 > damaged * 99, "{told} of {damaged} damaged links were told");
}

#[test]
fn a_checked_message_of_any_bytes_never_fails() {
    // Whatever is inside, with a checksum that fits: the fields must hold out alone.
    let mut draw = Draw(13);
    let mut read = 0;
    for _ in 0..4000 {
        let length = draw.below(60) as usize;
        let plain: Vec<u8> = (0..length)
            .map(|_| if draw.one_in(2) { draw.below(16) as u8 } else { draw.below(256) as u8 })
            .collect();
        match decode(&wrapped(&plain)) {
            // What could be read is a sketch like any other.
            Ok(sketch) => {
                read += 1;
                let again = decode(&encode(&sketch)).expect("a sketch that was read");
                assert_eq!(format!("{again:?}"), format!("{sketch:?}"));
            }
            Err(error) => assert!(
                matches!(error, LinkError::Damaged | LinkError::Newer),
                "{error:?} for {plain:?}"
            ),
        }
    }
    assert!(read > 20, "only {read} were read");
}

#[test]
fn each_error_is_told_apart() {
    let link = encode(&sixteen());
    let check = |text: &str, error: LinkError| assert_eq!(decode(text), Err(error), "{text}");
    check("", LinkError::Empty);
    check("  \n", LinkError::Empty);
    check("page.html#", LinkError::Empty);
    check("about", LinkError::Foreign);
    check("2AAAA", LinkError::Newer);
    check("1", LinkError::CutShort);
    for end in 1..link.len() {
        check(&link[..end], LinkError::CutShort);
    }
    for at in 20..link.len() - 1 {
        let mut changed = link.clone();
        let other = if &link[at..=at] == "A" { "B" } else { "A" };
        changed.replace_range(at..=at, other);
        check(&changed, LinkError::Damaged);
    }
    check(&format!("1{}", "A".repeat(100_001)), LinkError::TooLong);
    // A small link that claims a huge message.
    check("1_____w8", LinkError::TooLong);
    // A temperament and a rule that this program does not know.
    check(&wrapped(&[25, 3, 5, 1, 99]), LinkError::Newer);
    check(&wrapped(&[19, 4, 17, 2, 200, 7]), LinkError::Newer);
}

#[test]
fn mails_and_addresses_are_forgiven() {
    let sketch = sixteen();
    let link = encode(&sketch);
    assert!(link.chars().all(|c| c.is_ascii_alphanumeric() || c == '-' || c == '_'));
    let (head, tail) = link.split_at(link.len() / 2);
    for text in [
        format!("#{link}"),
        format!("file:///home/anyone/page.html#{link}"),
        format!("  {head}\r\n  {tail}  "),
        format!("{link}."),
        format!("{link}) and so on"),
    ] {
        assert_eq!(decode(&text).as_ref(), Ok(&sketch), "{text}");
    }
}

/// What was usual when the first links were given out. It stays as it is here,
/// whatever becomes usual later: old links leave out what was usual then.
fn first_usual() -> Sketch {
    let hand = HandSize { notes: 4, span: 7 };
    Sketch {
        title: String::new(),
        tonality: None,
        notes: Vec::new(),
        harmony: HarmonyWishes { version: Version::Campion, daring: 0 },
        frame: FrameWishes {
            position: None,
            choice: 0,
            preference: Preference::Contrary,
            smoothness: Smoothness::Usual,
            compass: SopranoCompass { low: Key::clamped(60), high: Key::clamped(81) },
            contour: Contour { points: Vec::new() },
            rules: RuleSwitches::from_bits(0),
        },
        hands: HandWishes {
            left: hand,
            right: hand,
            spacing: Spacing::Even,
            compass: Compass { low: Key::clamped(29), high: Key::clamped(89) },
            low_keys: LowKeys::Chromatic,
        },
        roll: RollWishes {
            times: 1,
            speed: 100,
            seed: 1,
            plan: StrokePlan::Speech,
            spice: 35,
            held: Held::Collected,
        },
        sound: SoundWishes {
            a4: 415.0,
            temperament: Temperament::QuarterComma,
            voice: Voice::Plucked8,
        },
    }
}

/// A sixteen-note bass with figures and settings of its own.
fn sixteen() -> Sketch {
    let bass = "D3 C#3 D3 E3 F3 G3 A3 Bb3 A3 G3 F3 E3 D3 G2 A2 D2";
    let figures =
        ["", "65", "", "6#", "6", "65", "7#", "5", "64", "42", "6", "65b", "", "65", "4 3#", ""];
    let tonality = Tonality::parse("d minor");
    let mut sketch = Sketch { title: "Evening in D".to_string(), tonality, ..first_usual() };
    for (name, figures) in bass.split(' ').zip(figures) {
        let mut note = SketchNote::bare(pitch(name));
        let stages = figures.split(' ').map(|stage| {
            let mut signs: Vec<Sign> = Vec::new();
            for c in stage.chars() {
                match c.to_digit(10) {
                    Some(digit) => signs.push(Sign { number: digit as u8, accidental: None }),
                    None => {
                        let last = signs.last_mut().expect("a figure before its accidental");
                        let sharp = c == '#';
                        last.accidental =
                            Some(if sharp { Accidental::Sharp } else { Accidental::Flat });
                    }
                }
            }
            Stage::Signs(signs)
        });
        note.figures = if figures.is_empty() { None } else { Figures::new(stages.collect()) };
        sketch.notes.push(note);
    }
    sketch.notes[7].soprano.push(Some(Pin { pitch: pitch("F5"), hold: Hold::Pinned }));
    sketch.notes[14].stroke.times = Some(3);
    sketch.roll.seed = 4711;
    sketch.roll.speed = 80;
    sketch.sound.a4 = 392.0;
    sketch.sound.temperament = Temperament::SixthComma;
    sketch.hands.left.notes = 3;
    sketch
}

fn pitch(name: &str) -> Pitch {
    let mut chars = name.chars();
    let step = Step::from_letter(chars.next().expect("a letter")).expect("a letter A to G");
    let alter = i8::from(name.contains('#')) - i8::from(name.contains('b'));
    let octave = chars.next_back().and_then(|c| c.to_digit(10)).expect("an octave");
    Pitch::new(step, alter, octave as i8)
}

#[test]
fn a_bass_of_sixteen_notes_is_short() {
    let link = encode(&sixteen());
    assert!(link.len() < 120, "{} characters: {link}", link.len());
    assert!(encode(&Sketch::default()).len() < 12);
}

/// A link once given out. It is never changed here: what follows must still read it.
const SIXTEEN: &str = "1xwFN_MKPdUgFEMtEsaMiJreQ8HiIA5PVTolmK7-yE5wTJ98-w0xfimBgIuf\
    P1wroABaMW8yDNrS9CWdzV3W25B8B4hl-IUtQjnCaUft7OT1-Ows4";

#[test]
fn links_given_out_stay_readable() {
    assert_eq!(decode("1AAAAAAA"), Ok(first_usual()));
    assert_eq!(decode(SIXTEEN), Ok(sixteen()));
}

/// A field that this program does not know is passed over.
/// Only a link can bring a number that is no figure; nothing stumbles over it.
#[test]
fn a_number_that_is_no_figure_is_read_past() {
    for numbers in [[0, 4], [200, 3], [16, 1], [255, 0]] {
        let signs = |number| Stage::Signs(vec![Sign { number, accidental: None }]);
        let note = SketchNote {
            figures: Figures::new(numbers.map(signs).to_vec()),
            ..SketchNote::bare(pitch("C3"))
        };
        let notes = vec![note.clone(), note];
        let sketch = decode(&encode(&Sketch { notes, ..Sketch::default() })).expect("a sketch");
        let reading = tastata::reading::read(&sketch);
        assert!(!reading.harmony.chords.is_empty(), "{numbers:?}");
    }
}

#[test]
fn unknown_fields_are_passed_over() {
    // Field 100 as a number, field 101 as bytes, then the title "x".
    let plain = [200, 1, 5, 203, 1, 2, 9, 9, 3, 1, b'x'];
    let sketch = decode(&wrapped(&plain)).expect("a sketch");
    assert_eq!(sketch, Sketch { title: "x".to_string(), ..Sketch::default() });
}

/// The plain-text form keeps all that it can say, and packs the rest.
#[test]
fn a_sketch_as_text_comes_back_as_it_was() {
    let mut draw = Draw(17);
    for i in 0..500 {
        let mut sketch = draw.sketch();
        sketch.title = sketch.title.trim().to_string();
        // What the bass's text form cannot say: far tonalities, pitches and figures.
        if let Some(tonality) = &mut sketch.tonality {
            tonality.tonic.alter = tonality.tonic.alter.clamp(-2, 2);
        }
        for note in &mut sketch.notes {
            note.pitch.alter = note.pitch.alter.clamp(-2, 2);
            note.pitch.octave = note.pitch.octave.clamp(-1, 9);
            // Of figures, those that their own printer and reader agree on.
            note.figures = note.figures.take().filter(|figures| {
                tastata::figures::read_figures(&tastata::figures::print(figures)).as_ref()
                    == Ok(figures)
            });
            // Free places at the end say nothing.
            while note.soprano.last() == Some(&None) {
                note.soprano.pop();
            }
        }
        let text = to_text(&sketch);
        let read = from_text(&text);
        assert_eq!(read.remarks, [], "sketch {i}:\n{text}");
        assert_eq!(read.sketch, sketch, "sketch {i}:\n{text}");
    }
}

/// Any text gives an answer, and every remark points into it.
#[test]
fn no_text_makes_it_fail() {
    let mut draw = Draw(19);
    let bits = [
        "Title:",
        "bass:",
        "Soprano:",
        "Settings:",
        "\n",
        " ",
        "> ",
        "é",
        "D3",
        "C#",
        ":6/5",
        "(",
        ")",
        "1:F4",
        ".2",
        "99999999999999999999:",
        "1AAAAAAA",
        "#1AAAAAAA",
        "http://x#1AAAAAAA",
        "𝄞",
        "\t",
        "-",
        "!",
        ",",
        "9",
        "b",
        "\u{0}",
        "D minor:",
    ];
    for _ in 0..3000 {
        let count = draw.below(20);
        let text: String = (0..count).map(|_| draw.of(&bits)).collect();
        for remark in from_text(&text).remarks {
            assert!(text.get(remark.at.clone()).is_some(), "{:?} in {text:?}", remark.at);
            let sentence = tastata::words::sheet_trouble(remark.kind, Default::default());
            assert!(sentence.len() > 10);
        }
    }
}
