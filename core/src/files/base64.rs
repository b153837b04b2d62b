//! Bytes as the 64 characters that a URL carries unescaped (RFC 4648 §5, without padding).

use base64::Engine;
use base64::alphabet::URL_SAFE;
use base64::engine::general_purpose::{GeneralPurpose, NO_PAD};

/// The bits left over at the end may be anything: the checksum tells what was changed.
const ENGINE: GeneralPurpose =
    GeneralPurpose::new(&URL_SAFE, NO_PAD.with_decode_allow_trailing_bits(true));

/// Appends the characters of these bytes.
pub(super) fn write(bytes: &[u8], out: &mut String) {
    ENGINE.encode_string(bytes, out);
}

/// The bytes up to the first character outside the alphabet; white space within
/// is passed over, since mails break long lines.
pub(super) fn read(text: &str) -> Vec<u8> {
    let belongs = |c: &char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_');
    let mut kept: String =
        text.chars().filter(|c| !c.is_whitespace()).take_while(belongs).collect();
    // A lone last character holds no whole byte.
    if kept.len() % 4 == 1 {
        kept.pop();
    }
    ENGINE.decode(kept).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The test vectors of RFC 4648 §10, without their padding.
    #[test]
    fn published_vectors() {
        let pairs = [
            ("", ""),
            ("f", "Zg"),
            ("fo", "Zm8"),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg"),
            ("fooba", "Zm9vYmE"),
            ("foobar", "Zm9vYmFy"),
        ];
        for (plain, coded) in pairs {
            let mut out = String::new();
            write(plain.as_bytes(), &mut out);
            assert_eq!(out, coded);
            assert_eq!(read(coded), plain.as_bytes());
        }
        assert_eq!(read("Zm9vY"), b"foo");
        assert_eq!(read("Zm\r\n 9v.Yg"), b"foo");
    }
}
