//! What other pages give: a piece as a plain object. The core's own types carry no
//! serialisation, so that neither follows the other by chance.

use serde::Deserialize;
use tastata::bass::read_bass;
use tastata::files::{BringRemark, read_file};
use tastata::frame::{Position, Preference};
use tastata::hands::HandSize;
use tastata::pitch::{Pitch, Tonality};
use tastata::sketch::{Hold, Pin, Sketch};
use tastata::sound::{Temperament, Voice};
use tastata::staff::{Layer, Layers};
use tastata::words::{self, Lang};

/// More stages than any note's figures have.
const MOST_STAGES: usize = 64;
/// The most notes of a piece.
const MOST_NOTES: usize = 1_000;

/// The fields of a piece and of what is in it. A field that is not among them would be
/// passed over in silence, and a slip of the pen with it.
pub(super) const FIELDS: [(&str, &[&str]); 5] = [
    (
        "",
        &[
            "bass",
            "title",
            "tonality",
            "soprano",
            "daring",
            "position",
            "preference",
            "hands",
            "roll",
            "sound",
        ],
    ),
    ("soprano", &["note", "stage", "pitch"]),
    ("hands", &["left", "right"]),
    ("roll", &["times", "speed", "seed", "spice"]),
    ("sound", &["a4", "temperament", "voice"]),
];

/// A piece. All but the bass may be left out.
#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Piece {
    bass: String,
    #[serde(default)]
    title: String,
    tonality: Option<String>,
    #[serde(default)]
    soprano: Vec<Fixed>,
    #[serde(default)]
    daring: u8,
    position: Option<PositionName>,
    preference: Option<PreferenceName>,
    hands: Option<HandsWished>,
    roll: Option<RollWished>,
    sound: Option<SoundWished>,
}

/// A soprano note that stays.
#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
struct Fixed {
    note: usize,
    #[serde(default)]
    stage: usize,
    pitch: String,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "camelCase")]
enum PositionName {
    Octave,
    Third,
    Fifth,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "camelCase")]
enum PreferenceName {
    Contrary,
    Tenths,
}

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
struct HandsWished {
    left: Option<Hand>,
    right: Option<Hand>,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "camelCase")]
struct Hand {
    notes: u8,
    span: u8,
}

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
struct RollWished {
    times: Option<u8>,
    speed: Option<u16>,
    seed: Option<u32>,
    spice: Option<u8>,
}

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
struct SoundWished {
    a4: Option<f64>,
    temperament: Option<TemperamentName>,
    voice: Option<VoiceName>,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "camelCase")]
enum TemperamentName {
    Equal,
    QuarterComma,
    SixthComma,
    Werckmeister3,
    Kirnberger3,
    Vallotti,
    Young2,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "camelCase")]
enum VoiceName {
    Plucked8,
    Plucked84,
    Buff,
    Struck,
    Organ,
}

impl Piece {
    /// The sketch of the piece, or what is wrong with it.
    pub(super) fn sketch(self) -> Result<Sketch, String> {
        if self.bass.len() > 40 * MOST_NOTES {
            return Err(format!("A bass of more than {MOST_NOTES} notes is too long."));
        }
        let read = read_bass(&self.bass, None);
        if let Some(remark) = read.remarks.first() {
            let word = self.bass.get(remark.at.clone()).unwrap_or_default();
            let why = words::text_trouble(remark.kind, Lang::English);
            return Err(format!("The bass cannot be read at “{word}”: {why}"));
        }
        if read.notes.len() > MOST_NOTES {
            return Err(format!("A bass of more than {MOST_NOTES} notes is too long."));
        }
        let mut sketch = Sketch {
            title: self.title,
            tonality: read.tonality,
            notes: read.notes.iter().map(|note| note.to_sketch()).collect(),
            ..Sketch::default()
        };
        if let Some(name) = &self.tonality {
            let read = Tonality::parse(name);
            sketch.tonality = Some(read.ok_or_else(|| {
                format!("A tonality is written like “D minor”, and “{name}” is none.")
            })?);
        }
        for Fixed { note, stage, pitch: name } in &self.soprano {
            let pin = Pin { pitch: pitch(name)?, hold: Hold::Pinned };
            let count = sketch.notes.len();
            let of = sketch.notes.get_mut(*note).filter(|_| *stage < MOST_STAGES);
            let of = of.ok_or_else(|| {
                format!("A soprano note is fixed over note {note}, stage {stage}, and the bass has {count} notes, counted from 0.")
            })?;
            if of.soprano.len() <= *stage {
                of.soprano.resize(stage + 1, None);
            }
            if let Some(slot) = of.soprano.get_mut(*stage) {
                *slot = Some(pin);
            }
        }
        sketch.harmony.daring = self.daring;
        sketch.frame.position = self.position.map(|it| match it {
            PositionName::Octave => Position::Octave,
            PositionName::Third => Position::Third,
            PositionName::Fifth => Position::Fifth,
        });
        if let Some(preference) = self.preference {
            sketch.frame.preference = match preference {
                PreferenceName::Contrary => Preference::Contrary,
                PreferenceName::Tenths => Preference::Tenths,
            };
        }
        if let Some(HandsWished { left, right }) = self.hands {
            let size = |hand: Hand| HandSize { notes: hand.notes, span: hand.span };
            sketch.hands.left = left.map_or(sketch.hands.left, size);
            sketch.hands.right = right.map_or(sketch.hands.right, size);
        }
        if let Some(RollWished { times, speed, seed, spice }) = self.roll {
            let roll = &mut sketch.roll;
            roll.times = times.unwrap_or(roll.times);
            roll.speed = speed.unwrap_or(roll.speed);
            roll.seed = seed.unwrap_or(roll.seed);
            roll.spice = spice.unwrap_or(roll.spice);
        }
        if let Some(sound) = self.sound {
            sound.put(&mut sketch)?;
        }
        Ok(sketch)
    }
}

impl SoundWished {
    fn put(self, sketch: &mut Sketch) -> Result<(), String> {
        if let Some(a4) = self.a4 {
            if !(380.0..=480.0).contains(&a4) {
                return Err(format!("a4 is from 380 to 480 hertz, and {a4} is not."));
            }
            sketch.sound.a4 = a4;
        }
        if let Some(name) = self.temperament {
            sketch.sound.temperament = match name {
                TemperamentName::Equal => Temperament::Equal,
                TemperamentName::QuarterComma => Temperament::QuarterComma,
                TemperamentName::SixthComma => Temperament::SixthComma,
                TemperamentName::Werckmeister3 => Temperament::Werckmeister3,
                TemperamentName::Kirnberger3 => Temperament::Kirnberger3,
                TemperamentName::Vallotti => Temperament::Vallotti,
                TemperamentName::Young2 => Temperament::Young2,
            };
        }
        if let Some(name) = self.voice {
            sketch.sound.voice = match name {
                VoiceName::Plucked8 => Voice::Plucked8,
                VoiceName::Plucked84 => Voice::Plucked84,
                VoiceName::Buff => Voice::Buff,
                VoiceName::Struck => Voice::Struck,
                VoiceName::Organ => Voice::Organ,
            };
        }
        Ok(())
    }
}

/// A text that holds a bass, a whole piece or a link; every word must be understood.
pub(super) fn from_text(text: &str) -> Result<Sketch, String> {
    let brought = read_file("", text.as_bytes());
    let brought = brought.map_err(|error| words::bring_error(&error, Lang::English))?;
    if let Some(BringRemark::Text(remark)) = brought.remarks.first() {
        let word = text.get(remark.at.clone()).unwrap_or_default().trim();
        let why = words::sheet_trouble(remark.kind, Lang::English);
        return Err(format!("The text cannot be read at “{word}”: {why}"));
    }
    let sketch = brought.sketch();
    if sketch.notes.len() > MOST_NOTES {
        return Err(format!("A bass of more than {MOST_NOTES} notes is too long."));
    }
    Ok(sketch)
}

/// A pitch by its name, with an octave.
pub(super) fn pitch(name: &str) -> Result<Pitch, String> {
    let said = || format!("A pitch is written like “F#4”, and “{name}” is none.");
    if !name.ends_with(|c: char| c.is_ascii_digit()) {
        return Err(said());
    }
    let read = read_bass(&format!("{name}:"), None);
    match (&read.notes[..], &read.remarks[..]) {
        ([note], []) if note.figures.is_none() && !name.contains('(') => Ok(note.pitch),
        _ => Err(said()),
    }
}

/// The fields of [`DrawWishes`].
pub(super) const DRAW_FIELDS: [(&str, &[&str]); 1] = [("", &["width", "space", "show"])];

/// How a piece is drawn.
#[derive(Deserialize)]
#[serde(rename_all = "camelCase", default)]
pub(super) struct DrawWishes {
    pub(super) width: f64,
    pub(super) space: f64,
    pub(super) show: Shown,
}

impl Default for DrawWishes {
    fn default() -> DrawWishes {
        DrawWishes { width: 90.0, space: 8.0, show: Shown::Everything }
    }
}

/// What is drawn.
#[derive(Clone, Copy, Default, Deserialize)]
#[serde(rename_all = "camelCase")]
pub(super) enum Shown {
    Bass,
    Figures,
    OuterVoices,
    #[default]
    Everything,
}

impl Shown {
    pub(super) fn layers(self) -> Layers {
        let figures = Layers::NONE.with(Layer::Figures);
        match self {
            Shown::Bass => Layers::NONE,
            Shown::Figures => figures,
            Shown::OuterVoices => {
                figures.with(Layer::Soprano).with(Layer::Faults).with(Layer::Pins)
            }
            Shown::Everything => Layers::usual(),
        }
    }
}
