//! The icon of an installed page: two white notes and the sign of a roll, drawn point by point, as a
//! PNG picture (ISO/IEC 15948).

use std::f64::consts::TAU;
use std::io::Write;

use anyhow::Result;
use flate2::{Compression, Crc, write::ZlibEncoder};

/// Colours of ground and drawing.
const INK: [f64; 3] = [31.0, 27.0, 22.0];
const PAPER: [f64; 3] = [251.0, 248.0, 240.0];
/// Points of a pixel's side that are looked at.
const FINE: u32 = 4;

/// The icon, `side` pixels wide and high. It fills its square; what matters is in the middle, where
/// systems that cut icons round leave it.
pub(crate) fn png(side: u32) -> Result<Vec<u8>> {
    let mut lines = Vec::new();
    for y in 0..side {
        lines.push(0); // This line is not filtered.
        for x in 0..side {
            let mut drawn = 0;
            for i in 0..FINE * FINE {
                let at = |pixel: u32, part: u32| {
                    (f64::from(pixel) + (f64::from(part) + 0.5) / f64::from(FINE)) / f64::from(side)
                };
                drawn += u32::from(is_drawn(at(x, i % FINE), at(y, i / FINE)));
            }
            let part = f64::from(drawn) / f64::from(FINE * FINE);
            let mixed = INK.iter().zip(PAPER).map(|(ink, paper)| ink + (paper - ink) * part);
            lines.extend(mixed.map(|value| value.round() as u8));
        }
    }
    let mut packed = ZlibEncoder::new(Vec::new(), Compression::best());
    packed.write_all(&lines)?;
    let mut png = b"\x89PNG\r\n\x1a\n".to_vec();
    let mut head = [side.to_be_bytes(), side.to_be_bytes()].concat();
    head.extend([8, 2, 0, 0, 0]); // Eight bits, red, green and blue; nothing unusual.
    chunk(&mut png, *b"IHDR", &head);
    chunk(&mut png, *b"IDAT", &packed.finish()?);
    chunk(&mut png, *b"IEND", &[]);
    Ok(png)
}

fn chunk(png: &mut Vec<u8>, name: [u8; 4], bytes: &[u8]) {
    png.extend((bytes.len() as u32).to_be_bytes());
    png.extend(name);
    png.extend(bytes);
    let mut sum = Crc::new();
    sum.update(&name);
    sum.update(bytes);
    png.extend(sum.sum().to_be_bytes());
}

/// Whether a point of the unit square, from its upper left corner, is part of the drawing.
fn is_drawn(x: f64, y: f64) -> bool {
    let wave = 0.3 + 0.03 * (TAU * (y - 0.2) / 0.15).sin();
    let rolled = (0.2..0.8).contains(&y) && (x - wave).abs() < 0.028;
    rolled || is_note(x, y, 0.36) || is_note(x, y, 0.64)
}

/// A white note: an oval with a steeper oval cut out.
fn is_note(x: f64, y: f64, middle: f64) -> bool {
    let (x, y) = (x - 0.58, y - middle);
    let within = |wide: f64, high: f64, turn: f64| {
        let (along, across) = (x * turn.cos() + y * turn.sin(), y * turn.cos() - x * turn.sin());
        (along / wide).powi(2) + (across / high).powi(2) < 1.0
    };
    within(0.18, 0.12, -0.2) && !within(0.1, 0.07, 1.0)
}
