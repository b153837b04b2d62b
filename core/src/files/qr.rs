//! A text as a QR code (ISO/IEC 18004), drawn as SVG.

use qrcodegen::{QrCode, QrCodeEcc};
use std::fmt::Write as _;

/// Light modules around the code, as the standard asks.
const QUIET: i32 = 4;

/// Why a text is no QR code.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum QrError {
    /// It is longer than any QR code holds: at most 2953 bytes.
    TooLong {
        /// Its length in bytes.
        bytes: usize,
    },
}

/// The QR code of a text as a whole SVG file: one unit a module, black on white
/// with its quiet zone, no styles, so that it may be shown, projected or saved as
/// it is. Error correction is medium (15 %), low (7 %) where the text is too long
/// for that, and better where it costs no room.
///
/// # Errors
/// [`QrError`] for a text that no QR code holds.
pub fn qr_svg(text: &str) -> Result<String, QrError> {
    let code = QrCode::encode_text(text, QrCodeEcc::Medium)
        .or_else(|_| QrCode::encode_text(text, QrCodeEcc::Low))
        .map_err(|_| QrError::TooLong { bytes: text.len() })?;
    let side = code.size() + 2 * QUIET;
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {side} {side}\" \
         shape-rendering=\"crispEdges\"><path fill=\"#fff\" d=\"M0 0h{side}v{side}h-{side}z\"/>\
         <path fill=\"#000\" d=\""
    );
    for y in 0..code.size() {
        let mut x = 0;
        while x < code.size() {
            let run = (x..code.size()).take_while(|&x| code.get_module(x, y)).count() as i32;
            if run > 0 {
                // Writing to a string has no way to fail.
                let _ = write!(svg, "M{} {}h{run}v1h-{run}z", x + QUIET, y + QUIET);
            }
            x += run.max(1);
        }
    }
    svg.push_str("\"/></svg>");
    Ok(svg)
}
