//! Links made by hand: any message at all with a checksum that fits, so that tests reach
//! behind the checksum. Written from the description of the format, not from its code.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;

/// A plain message as a sketch's link.
pub fn wrapped(plain: &[u8]) -> String {
    format!("1{}", URL_SAFE_NO_PAD.encode(checked(plain)))
}

/// A plain message as a lesson's link of the kind that `tag` names, under its veil.
pub fn veiled(tag: &str, plain: &[u8]) -> String {
    let mut bytes = checked(plain);
    veil(&mut bytes);
    format!("{tag}1{}", URL_SAFE_NO_PAD.encode(bytes))
}

fn checked(plain: &[u8]) -> Vec<u8> {
    let mut bytes = Vec::with_capacity(plain.len() + 8);
    let mut head = (plain.len() as u64) << 1;
    while head >= 128 {
        bytes.push(head as u8 | 128);
        head >>= 7;
    }
    bytes.push(head as u8);
    bytes.extend_from_slice(plain);
    bytes.extend_from_slice(&crc32(plain).to_le_bytes());
    bytes
}

fn veil(bytes: &mut [u8]) {
    let mut veil = Stream::of(1708, 9);
    for byte in bytes {
        *byte ^= veil.draw() as u8;
    }
}

/// SplitMix64 (Steele, Lea and Flood 2014), from its published constants; a stream of a
/// purpose starts at the first number of a stream of its own.
pub struct Stream(u64);

impl Stream {
    /// The stream of a seed and a purpose.
    pub fn of(seed: u64, purpose: u64) -> Stream {
        let mut first = Stream(seed ^ purpose.wrapping_mul(0xD6E8_FEB8_6659_FD93));
        Stream(first.draw())
    }

    /// The next 64 bits.
    pub fn draw(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A number below `below`, or 0 if that is 0.
    pub fn below(&mut self, below: usize) -> usize {
        if below == 0 { 0 } else { (self.draw() % below as u64) as usize }
    }
}

/// The checksum of ISO 3309, bit by bit from its polynomial.
fn crc32(bytes: &[u8]) -> u32 {
    let mut crc = u32::MAX;
    for &byte in bytes {
        crc ^= u32::from(byte);
        for _ in 0..8 {
            crc = if crc & 1 == 1 { (crc >> 1) ^ 0xEDB8_8320 } else { crc >> 1 };
        }
    }
    !crc
}
