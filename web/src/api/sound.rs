//! The sound, slice by slice or whole.

use super::{Answer, taken};
use js_sys::{Float32Array, Object, Reflect};
use tastata::files::{Depth, Wav};
use tastata::reading::Reading;
use tastata::roll::Micros;
use tastata::sketch::Sketch;
use tastata::sound::Renderer;
use wasm_bindgen::prelude::*;

/// The usual rate, in frames a second, and those that are rendered.
const RATE: f64 = 48_000.0;
const RATES: std::ops::RangeInclusive<f64> = 8_000.0..=192_000.0;
/// Frames of a slice, where nothing is said, and at most.
const SLICE: f64 = 4_096.0;
const LARGEST: f64 = 1_048_576.0;

/// The sound of a piece as it grows: call `next` until it gives nothing more.
#[wasm_bindgen]
pub struct Sound {
    renderer: Renderer,
    over: bool,
}

#[wasm_bindgen]
impl Sound {
    /// The sound of a piece at so many frames a second, 48000 where nothing is said.
    #[wasm_bindgen(constructor)]
    pub fn new(
        #[wasm_bindgen(unchecked_param_type = "Piece | string")] piece: JsValue,
        rate: Option<f64>,
    ) -> Answer<Sound> {
        let rate = checked(rate)?;
        let (sketch, reading) = taken(piece)?;
        let renderer = Renderer::new(&reading.performance, &sketch.sound, rate, Micros(0));
        Ok(Sound { renderer, over: false })
    }

    /// The next slice of so many frames, 4096 where nothing is said; `undefined` when
    /// the last sound has died away.
    #[wasm_bindgen(
        unchecked_return_type = "{ left: Float32Array; right: Float32Array } | undefined"
    )]
    pub fn next(&mut self, frames: Option<f64>) -> Answer<JsValue> {
        let frames = frames.unwrap_or(SLICE);
        if !(1.0..=LARGEST).contains(&frames) {
            return Err(JsError::new(&format!(
                "A slice has from 1 to {LARGEST} frames, and {frames} is not among them."
            )));
        }
        if self.over {
            return Ok(JsValue::UNDEFINED);
        }
        let mut left = vec![0.0; frames as usize];
        let mut right = left.clone();
        self.over = !self.renderer.render(&mut left, &mut right);
        if self.over {
            return Ok(JsValue::UNDEFINED);
        }
        let slice = Object::new();
        for (name, side) in [("left", &left), ("right", &right)] {
            // Setting a field of a plain object has no way to fail.
            let _ = Reflect::set(&slice, &name.into(), &Float32Array::from(&side[..]));
        }
        Ok(slice.into())
    }
}

/// The whole sound as a file.
pub(super) fn wav(
    sketch: &Sketch,
    reading: &Reading,
    rate: Option<f64>,
    bits: Option<f64>,
) -> Answer<Vec<u8>> {
    let rate = checked(rate)?;
    let depth = match bits {
        None | Some(16.0) => Depth::Sixteen,
        Some(24.0) => Depth::TwentyFour,
        Some(bits) => {
            return Err(JsError::new(&format!("A sample has 16 or 24 bits, not {bits}.")));
        }
    };
    let mut renderer = Renderer::new(&reading.performance, &sketch.sound, rate, Micros(0));
    let (mut left, mut right) = (vec![0.0; SLICE as usize], vec![0.0; SLICE as usize]);
    let mut wav = Wav::of_depth(rate, depth);
    while renderer.render(&mut left, &mut right) {
        wav.push(&left, &right);
    }
    Ok(wav.finish())
}

fn checked(rate: Option<f64>) -> Answer<u32> {
    let rate = rate.unwrap_or(RATE);
    if RATES.contains(&rate) {
        Ok(rate as u32)
    } else {
        Err(JsError::new(&format!(
            "A rate is from {} to {} frames a second, and {rate} is not.",
            RATES.start(),
            RATES.end()
        )))
    }
}
