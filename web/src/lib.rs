//! The page's side of Tastata.

use wasm_bindgen::prelude::wasm_bindgen;

/// Starts the page. Called once by the page's loader when the module is in place.
#[wasm_bindgen]
pub fn start() {}
