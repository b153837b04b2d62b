//! Tastata for other people's pages: functions from plain objects to plain objects,
//! with TypeScript types. Built by the packer's command `library`; the page itself
//! carries none of it. A bad value gives an `Error` with a sentence, never a panic.

mod given;
mod piece;
mod sound;
mod types;

use given::{BassGiven, FaultGiven, PerformanceGiven, RealisationGiven};
use piece::{DrawWishes, Piece};
use serde::Serialize;
use serde::de::DeserializeOwned;
use tastata::bass::read_bass;
use tastata::files::{self, MidiForm};
use tastata::frame::Frame;
use tastata::harmony::harmonise;
use tastata::reading::{Reading, read};
use tastata::sketch::Sketch;
use tastata::staff::{self, Look};
use tastata::words::{self, Lang};
use wasm_bindgen::prelude::*;

pub use sound::Sound;

/// A text or a sentence on what was wrong with what was given.
type Answer<T> = Result<T, JsError>;

/// Reads a bass as it is typed. What cannot be read is in `remarks`; the rest is read.
#[wasm_bindgen(js_name = readBass, unchecked_return_type = "BassText")]
pub fn read_bass_text(text: &str) -> Answer<JsValue> {
    give(&BassGiven::new(text, &read_bass(text, None)))
}

/// Realises a piece: chords with figures and reasons, the soprano, two handfuls, and
/// what is to be said of the outer voices.
#[wasm_bindgen(unchecked_return_type = "Realisation")]
pub fn realise(
    #[wasm_bindgen(unchecked_param_type = "Piece | string")] piece: JsValue,
) -> Answer<JsValue> {
    let (sketch, reading) = taken(piece)?;
    give(&RealisationGiven::new(&sketch, &reading))
}

/// Faults and cautions of a soprano over a bass: one pitch for each chord, a chord for
/// each stage of each note's figures.
#[wasm_bindgen(js_name = checkOuterVoices, unchecked_return_type = "Fault[]")]
pub fn check_outer_voices(
    #[wasm_bindgen(unchecked_param_type = "Piece | string")] piece: JsValue,
    #[wasm_bindgen(unchecked_param_type = "string[]")] soprano: JsValue,
) -> Answer<JsValue> {
    let sketch = sketch(piece)?;
    let names: Vec<String> = value("The soprano", soprano)?;
    let soprano = names.iter().map(|name| piece::pitch(name)).collect::<Result<Vec<_>, _>>();
    let soprano = soprano.map_err(|said| JsError::new(&said))?;
    let chords = harmonise(&sketch).chords;
    if chords.len() != soprano.len() {
        return Err(JsError::new(&format!(
            "The bass has {} chords and the soprano {} notes; each chord needs one.",
            chords.len(),
            soprano.len()
        )));
    }
    let frame = Frame::of(&sketch, &chords, soprano, 1);
    give(&frame.faults.iter().map(FaultGiven::new).collect::<Vec<_>>())
}

/// The performance: every key going down and up, in seconds.
#[wasm_bindgen(unchecked_return_type = "Performance")]
pub fn roll(
    #[wasm_bindgen(unchecked_param_type = "Piece | string")] piece: JsValue,
) -> Answer<JsValue> {
    let (_, reading) = taken(piece)?;
    give(&PerformanceGiven::new(&reading.performance))
}

/// The piece on grand staves, as a whole SVG file.
#[wasm_bindgen]
pub fn draw(
    #[wasm_bindgen(unchecked_param_type = "Piece | string")] piece: JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "DrawWishes")] wishes: JsValue,
) -> Answer<String> {
    let (sketch, reading) = taken(piece)?;
    let DrawWishes { width, space, show } = match wishes.is_undefined() || wishes.is_null() {
        true => DrawWishes::default(),
        false => {
            let what = "The wishes for the drawing";
            if wishes.is_object() {
                known(what, &wishes, &piece::DRAW_FIELDS)?;
            }
            value(what, wishes)?
        }
    };
    let look = Look { show: show.layers(), ..Look::new(width.clamp(Look::NARROWEST, 10_000.0)) };
    Ok(staff::to_svg(&staff::draw(&sketch, &reading, &look), space.clamp(1.0, 100.0)))
}

/// The whole sound as a WAV file of 16 or 24 bits.
#[wasm_bindgen(js_name = renderWav)]
pub fn render_wav(
    #[wasm_bindgen(unchecked_param_type = "Piece | string")] piece: JsValue,
    rate: Option<f64>,
    bits: Option<f64>,
) -> Answer<Vec<u8>> {
    let (sketch, reading) = taken(piece)?;
    sound::wav(&sketch, &reading, rate, bits)
}

/// The score as MusicXML 4.0.
#[wasm_bindgen(js_name = musicXml)]
pub fn music_xml(
    #[wasm_bindgen(unchecked_param_type = "Piece | string")] piece: JsValue,
) -> Answer<String> {
    let (sketch, reading) = taken(piece)?;
    Ok(files::musicxml(&sketch, &reading))
}

/// The performance as a Standard MIDI file.
#[wasm_bindgen(js_name = midiFile)]
pub fn midi_file(
    #[wasm_bindgen(unchecked_param_type = "Piece | string")] piece: JsValue,
) -> Answer<Vec<u8>> {
    let (sketch, reading) = taken(piece)?;
    Ok(files::midi(&sketch, &reading, MidiForm::Performance))
}

/// What follows `#` in a link to the page that opens this piece; with `play=` before
/// it the page is a player.
#[wasm_bindgen]
pub fn link(
    #[wasm_bindgen(unchecked_param_type = "Piece | string")] piece: JsValue,
) -> Answer<String> {
    Ok(files::encode(&sketch(piece)?))
}

/// The link of the piece in a file: a score, a MIDI file, text, or a saved page.
#[wasm_bindgen(js_name = readFile)]
pub fn read_file(name: &str, bytes: &[u8]) -> Answer<String> {
    let brought = files::read_file(name, bytes)
        .map_err(|error| JsError::new(&words::bring_error(&error, Lang::English)))?;
    Ok(files::encode(&brought.sketch()))
}

/// A plain object.
fn give(value: &impl Serialize) -> Answer<JsValue> {
    let plain = serde_wasm_bindgen::Serializer::json_compatible();
    value.serialize(&plain).map_err(|error| JsError::new(&error.to_string()))
}

/// A value of ours from one of JavaScript's.
fn value<T: DeserializeOwned>(what: &str, value: JsValue) -> Answer<T> {
    serde_wasm_bindgen::from_value(value)
        .map_err(|error| JsError::new(&format!("{what} cannot be understood: {error}.")))
}

/// Refuses an object with a field that is not known, in itself or in what it holds.
fn known(what: &str, object: &JsValue, fields: &[(&str, &[&str])]) -> Answer<()> {
    for (inside, names) in fields {
        let inner = match *inside {
            "" => object.clone(),
            name => js_sys::Reflect::get(object, &name.into()).unwrap_or_default(),
        };
        let several = js_sys::Array::is_array(&inner);
        let objects =
            if several { js_sys::Array::from(&inner) } else { js_sys::Array::of1(&inner) };
        for object in objects.iter().filter(JsValue::is_object) {
            let object: &js_sys::Object = object.unchecked_ref();
            let keys = js_sys::Object::keys(object);
            let keys: Vec<String> = keys.iter().filter_map(|key| key.as_string()).collect();
            if let Some(other) = keys.iter().find(|key| !names.contains(&key.as_str())) {
                return Err(JsError::new(&format!(
                    "{what} cannot be understood: it has no field “{other}”; there are {}.",
                    names.join(", ")
                )));
            }
        }
    }
    Ok(())
}

/// A sketch from an object, or from text that holds a bass, a whole piece or a link.
fn sketch(value: JsValue) -> Answer<Sketch> {
    let said = match value.as_string() {
        Some(text) => piece::from_text(&text),
        None => {
            if value.is_object() {
                known("The piece", &value, &piece::FIELDS)?;
            }
            self::value::<Piece>("The piece", value)?.sketch()
        }
    };
    said.map_err(|said| JsError::new(&said))
}

fn taken(piece: JsValue) -> Answer<(Sketch, Reading)> {
    let sketch = sketch(piece)?;
    let reading = read(&sketch);
    Ok((sketch, reading))
}
