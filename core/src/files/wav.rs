//! WAV files: sixteen-bit stereo sound that any player opens.
//!
//! Format: IBM and Microsoft, *Multimedia Programming Interface and Data
//! Specifications 1.0* (1991), a RIFF file of a `fmt ` and a `data` chunk.

use crate::chance::Chance;

/// Bytes before the first sample.
const HEADER: usize = 44;

/// A WAV file that grows slice by slice.
#[derive(Clone, Debug)]
pub struct Wav {
    bytes: Vec<u8>,
    dither: Chance,
}

impl Wav {
    /// An empty file at `rate` frames per second.
    pub fn new(rate: u32) -> Wav {
        let mut bytes = Vec::with_capacity(HEADER);
        bytes.extend(b"RIFF\0\0\0\0WAVEfmt ");
        bytes.extend(16_u32.to_le_bytes()); // Length of what describes the samples.
        bytes.extend(1_u16.to_le_bytes()); // Whole-number samples.
        bytes.extend(2_u16.to_le_bytes()); // Left and right.
        bytes.extend(rate.to_le_bytes());
        bytes.extend(rate.saturating_mul(4).to_le_bytes()); // Bytes per second.
        bytes.extend(4_u16.to_le_bytes()); // Bytes per frame.
        bytes.extend(16_u16.to_le_bytes()); // Bits per sample.
        bytes.extend(b"data\0\0\0\0");
        Wav { bytes, dither: Chance::of(0, 0) }
    }

    /// Adds samples in the range [-1, 1], clamped there; the shorter side counts.
    ///
    /// A triangular dither of two steps' width hides the rounding; the same sound
    /// always gives the same file. Frames past 2³² bytes are left out.
    pub fn push(&mut self, left: &[f32], right: &[f32]) {
        for (&l, &r) in left.iter().zip(right) {
            if self.bytes.len() + 4 > u32::MAX as usize - 8 {
                return;
            }
            for x in [l, r] {
                let exact = x.clamp(-1.0, 1.0) * 32_766.0;
                // Digital silence stays digital silence.
                let dither =
                    if x == 0.0 { 0.0 } else { 0.5 * (self.dither.noise() + self.dither.noise()) };
                let whole = libm::roundf(exact + dither) as i16;
                self.bytes.extend(whole.to_le_bytes());
            }
        }
    }

    /// The finished file.
    pub fn finish(mut self) -> Vec<u8> {
        let whole = self.bytes.len() as u32;
        self.bytes[4..8].copy_from_slice(&(whole - 8).to_le_bytes());
        self.bytes[40..44].copy_from_slice(&(whole - HEADER as u32).to_le_bytes());
        self.bytes
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_has_the_published_layout() {
        let mut wav = Wav::new(48_000);
        wav.push(&[0.0, 1.0, -2.0], &[0.5, 0.0, 0.0]);
        let bytes = wav.finish();
        assert_eq!(bytes.len(), 44 + 12);
        assert_eq!(&bytes[..4], b"RIFF");
        assert_eq!(bytes[4..8], 48_u32.to_le_bytes());
        assert_eq!(&bytes[8..16], b"WAVEfmt ");
        assert_eq!(bytes[24..28], 48_000_u32.to_le_bytes());
        assert_eq!(bytes[40..44], 12_u32.to_le_bytes());
        let sample = |i: usize| i16::from_le_bytes([bytes[44 + 2 * i], bytes[45 + 2 * i]]);
        assert_eq!(sample(0), 0);
        assert!((sample(1) - 16_383).abs() <= 1);
        assert!(sample(2) >= 32_765 && sample(4) <= -32_765);
    }
}
