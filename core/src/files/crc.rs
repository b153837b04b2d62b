//! The 32-bit checksum of ISO 3309 (as in PNG and ZIP).

/// The checksum of these bytes.
pub(super) fn crc32(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(u32::MAX, |crc, &byte| {
        (0..8).fold(crc ^ u32::from(byte), |crc, _| {
            if crc & 1 == 1 { crc >> 1 ^ 0xEDB8_8320 } else { crc >> 1 }
        })
    })
}

#[cfg(test)]
mod tests {
    /// The catalogued check value of this checksum over "123456789".
    #[test]
    fn published_check_value() {
        assert_eq!(super::crc32(b"123456789"), 0xCBF4_3926);
    }
}
