//! WAV files: stereo sound of 16 or 24 bits that any player opens.
//!
//! Format: IBM and Microsoft, *Multimedia Programming Interface and Data
//! Specifications 1.0* (1991), a RIFF file of a `fmt ` and a `data` chunk.

use crate::chance::Chance;

/// Bytes before the first sample.
const HEADER: usize = 44;

/// Bits of a sample.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Depth {
    /// 16 bits, dithered: for listening.
    #[default]
    Sixteen,
    /// 24 bits, for work on the sound.
    TwentyFour,
}

/// A WAV file that grows slice by slice.
#[derive(Clone, Debug)]
pub struct Wav {
    bytes: Vec<u8>,
    depth: Depth,
    dither: Chance,
}

impl Wav {
    /// An empty file of 16 bits at `rate` frames per second.
    pub fn new(rate: u32) -> Wav {
        Wav::of_depth(rate, Depth::Sixteen)
    }

    /// An empty file at `rate` frames per second.
    pub fn of_depth(rate: u32, depth: Depth) -> Wav {
        let frame = frame(depth);
        let mut bytes = Vec::with_capacity(HEADER);
        bytes.extend(b"RIFF\0\0\0\0WAVEfmt ");
        bytes.extend(16_u32.to_le_bytes()); // Length of what describes the samples.
        bytes.extend(1_u16.to_le_bytes()); // Whole-number samples.
        bytes.extend(2_u16.to_le_bytes()); // Left and right.
        bytes.extend(rate.to_le_bytes());
        bytes.extend(rate.saturating_mul(frame).to_le_bytes()); // Bytes per second.
        bytes.extend((frame as u16).to_le_bytes()); // Bytes per frame.
        bytes.extend((frame as u16 * 4).to_le_bytes()); // Bits per sample.
        bytes.extend(b"data\0\0\0\0");
        Wav { bytes, depth, dither: Chance::of(0, 0) }
    }

    /// Adds samples in the range [-1, 1], clamped there; the shorter side counts.
    ///
    /// A triangular dither of two steps' width hides the rounding to 16 bits; the
    /// same sound always gives the same file. Frames past 2³² bytes are left out.
    pub fn push(&mut self, left: &[f32], right: &[f32]) {
        for (&l, &r) in left.iter().zip(right) {
            if self.bytes.len() + 6 > u32::MAX as usize - 8 {
                return;
            }
            for x in [l, r] {
                if self.depth == Depth::TwentyFour {
                    let whole = libm::roundf(x.clamp(-1.0, 1.0) * 8_388_607.0) as i32;
                    let [low, middle, high, _] = whole.to_le_bytes();
                    self.bytes.extend([low, middle, high]);
                    continue;
                }
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
        // A chunk of odd length is filled up; here frames are of even length.
        let whole = self.bytes.len() as u32;
        self.bytes[4..8].copy_from_slice(&(whole - 8).to_le_bytes());
        self.bytes[40..44].copy_from_slice(&(whole - HEADER as u32).to_le_bytes());
        self.bytes
    }
}

/// Bytes of a frame, left and right.
const fn frame(depth: Depth) -> u32 {
    match depth {
        Depth::Sixteen => 4,
        Depth::TwentyFour => 6,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_of_24_bits_holds_every_sample_to_a_step() {
        let mut wav = Wav::of_depth(44_100, Depth::TwentyFour);
        wav.push(&[0.0, 1.0, f32::NAN], &[-1.0, 0.25, 0.0]);
        let bytes = wav.finish();
        assert_eq!(bytes.len(), 44 + 18);
        assert_eq!(bytes[28..32], 264_600_u32.to_le_bytes());
        assert_eq!(bytes[32..36], [6, 0, 24, 0]);
        let sample = |i: usize| {
            let at = 44 + 3 * i;
            i32::from_le_bytes([0, bytes[at], bytes[at + 1], bytes[at + 2]]) >> 8
        };
        let read: Vec<i32> = (0..6).map(sample).collect();
        assert_eq!(read, [0, -8_388_607, 8_388_607, 2_097_152, 0, 0]);
    }

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
