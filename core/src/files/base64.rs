//! Bytes as the 64 characters that a URL carries unescaped (RFC 4648 §5, without padding).

const ALPHABET: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

/// Appends the characters of these bytes.
pub(super) fn write(bytes: &[u8], out: &mut String) {
    for chunk in bytes.chunks(3) {
        let group = chunk.iter().fold(0u32, |group, &byte| group << 8 | u32::from(byte));
        let group = group << (8 * (3 - chunk.len()));
        for place in 0..=chunk.len() {
            let index = (group >> (18 - 6 * place)) as usize & 63;
            out.push(ALPHABET.get(index).map_or('A', |&c| char::from(c)));
        }
    }
}

/// The bytes up to the first character outside the alphabet; white space within
/// is passed over, since mails break long lines.
pub(super) fn read(text: &str) -> Vec<u8> {
    let mut out = Vec::with_capacity(text.len() / 4 * 3 + 3);
    let (mut group, mut bits) = (0u32, 0u32);
    for c in text.chars().filter(|c| !c.is_whitespace()) {
        let Some(value) = value(c) else { break };
        group = group << 6 | value;
        bits += 6;
        if bits >= 8 {
            bits -= 8;
            out.push((group >> bits) as u8);
        }
    }
    out
}

fn value(c: char) -> Option<u32> {
    let c = u32::from(c);
    Some(match c {
        0x41..=0x5A => c - 0x41,
        0x61..=0x7A => c - 0x61 + 26,
        0x30..=0x39 => c - 0x30 + 52,
        0x2D => 62,
        0x5F => 63,
        _ => return None,
    })
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
        assert_eq!(read("Zm\r\n 9v.Yg"), b"foo");
    }
}
