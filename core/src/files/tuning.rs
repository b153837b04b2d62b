//! The instrument's tuning as MIDI messages.
//!
//! MIDI Tuning Standard, scale/octave tuning, two-byte form (CA-021/RP-020), and
//! master fine and coarse tuning (CA-025); layouts from memory.

use crate::sound::{SoundWishes, cents};

/// Two bytes of seven bits for an offset in cents: -100 is 0, 0 is 8192.
fn two_bytes(cents: f64) -> [u8; 2] {
    let value = (8192.0 + cents * 81.92).round().clamp(0.0, 16_383.0) as u16;
    [(value >> 7) as u8, (value & 127) as u8]
}

/// The messages, without the byte F0 that opens each; none for equal temperament
/// at 440 Hz. Offsets beyond a semitone are cut to one.
pub(super) fn messages(sound: &SoundWishes) -> Vec<Vec<u8>> {
    let mut messages = Vec::new();
    let a4 = if sound.a4.is_finite() { sound.a4.clamp(380.0, 480.0) } else { 440.0 };
    let shift = 1200.0 * libm::log2(a4 / 440.0);
    if shift.abs() > 0.005 {
        let coarse = (shift / 100.0).round();
        let [fine_high, fine_low] = two_bytes(shift - 100.0 * coarse);
        messages.push(vec![0x7F, 0x7F, 0x04, 0x04, 0x00, (64.0 + coarse) as u8, 0xF7]);
        messages.push(vec![0x7F, 0x7F, 0x04, 0x03, fine_low, fine_high, 0xF7]);
    }
    let table = cents(sound.temperament);
    let a = table.get(9).map_or(0.0, |a| a - 900.0);
    let offsets: Vec<f64> =
        table.iter().enumerate().map(|(i, c)| c - 100.0 * i as f64 - a).collect();
    if offsets.iter().any(|offset| offset.abs() > 0.005) {
        // All sixteen channels.
        let mut message = vec![0x7E, 0x7F, 0x08, 0x09, 0x03, 0x7F, 0x7F];
        message.extend(offsets.into_iter().flat_map(two_bytes));
        message.push(0xF7);
        messages.push(message);
    }
    messages
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sound::Temperament;

    #[test]
    fn equal_temperament_at_440_needs_no_message() {
        let sound =
            SoundWishes { a4: 440.0, temperament: Temperament::Equal, ..SoundWishes::default() };
        assert!(messages(&sound).is_empty());
    }

    #[test]
    fn offsets_are_counted_from_a() {
        let sound = SoundWishes {
            a4: 440.0,
            temperament: Temperament::QuarterComma,
            ..SoundWishes::default()
        };
        let messages = messages(&sound);
        let message = &messages[0];
        assert_eq!(message.len(), 7 + 24 + 1);
        let cents = |chroma: usize| {
            let (high, low) = (message[7 + 2 * chroma], message[8 + 2 * chroma]);
            (f64::from(u16::from(high) << 7 | u16::from(low)) - 8192.0) / 81.92
        };
        // Quarter-comma meantone from A (Barbour, 1951): C +10.26, E♭ +20.53, E -3.42.
        for (chroma, expected) in [(9, 0.0), (0, 10.26), (3, 20.53), (4, -3.42)] {
            assert!((cents(chroma) - expected).abs() < 0.02, "{chroma}: {}", cents(chroma));
        }
    }
}
