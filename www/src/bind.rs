//! Binds a compiled module: gives it a JavaScript side and takes out what only tools need.

use std::path::Path;

use anyhow::{Context, Result};
use wasm_bindgen_cli_support::Bindgen;

/// A module ready for a page.
pub(crate) struct Bound {
    /// The WebAssembly module.
    pub(crate) wasm: Vec<u8>,
    /// Its JavaScript side, a classic script that defines `wasm_bindgen`.
    pub(crate) glue: String,
}

/// Binds the module in `file`.
pub(crate) fn bind(file: &Path) -> Result<Bound> {
    let said = "The compiled module cannot be bound to the page";
    let mut bindgen = Bindgen::new();
    bindgen.input_path(file).no_modules(true).context(said)?;
    bindgen.typescript(false).remove_name_section(true).remove_producers_section(true);
    let mut output = bindgen.generate_output().context(said)?;
    Ok(Bound { glue: output.js().to_owned(), wasm: output.wasm_mut().emit_wasm() })
}

/// Binds the module in `file` as a library: an ES module, its WebAssembly and its TypeScript types,
/// written into `folder` as `tastata.js`, `tastata_bg.wasm` and `tastata.d.ts`.
pub(crate) fn bind_library(file: &Path, folder: &Path) -> Result<()> {
    let said = "The compiled module cannot be bound as a library";
    let mut bindgen = Bindgen::new();
    bindgen.input_path(file).web(true).context(said)?.out_name("tastata");
    bindgen.typescript(true).remove_name_section(true).remove_producers_section(true);
    // The module finds its WebAssembly beside itself.
    bindgen.omit_default_module_path(false);
    bindgen.generate(folder).context(said)
}
