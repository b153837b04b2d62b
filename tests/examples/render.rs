//! Renders a short prelude of our own, or one key, to a WAV file.
//!
//! `cargo run --release -p tastata-tests --example render -- OUT.wav [8|84|buff|struck|organ [KEY]]`

use tastata::files::Wav;
use tastata::pitch::{Key, Tonality};
use tastata::reading::read;
use tastata::roll::Micros;
use tastata::sketch::{Sketch, SketchNote};
use tastata::sound::{Renderer, SoundWishes, Voice, strike};

const RATE: u32 = 48_000;

fn main() -> std::io::Result<()> {
    let mut arguments = std::env::args().skip(1);
    let Some(path) = arguments.next() else {
        println!("Say where to: OUT.wav [8|84|buff|struck|organ [KEY]]");
        return Ok(());
    };
    let mut wav = Wav::new(RATE);
    let voice = match arguments.next().as_deref() {
        Some("84") => Voice::Plucked84,
        Some("buff") => Voice::Buff,
        Some("struck") => Voice::Struck,
        Some("organ") => Voice::Organ,
        _ => Voice::Plucked8,
    };
    let wishes = SoundWishes { voice, ..SoundWishes::default() };
    match arguments.next().and_then(|key| key.parse().ok()).and_then(Key::new) {
        Some(key) => {
            let (left, right) = strike(key, &wishes, RATE, 16.0);
            wav.push(&left, &right);
        }
        None => {
            let mut sketch = Sketch { tonality: Tonality::parse("a"), ..Sketch::default() };
            let tonality = Tonality::parse("a").unwrap_or_else(|| unreachable!());
            for key in [45, 47, 48, 50, 52, 53, 56, 57, 55, 53, 52, 50, 48, 47, 45, 50, 52, 52, 45]
            {
                sketch.notes.push(SketchNote::bare(tonality.spell(Key::clamped(key))));
            }
            let performance = read(&sketch).performance;
            let mut renderer = Renderer::new(&performance, &wishes, RATE, Micros(0));
            let (mut left, mut right) = (vec![0.0; 4096], vec![0.0; 4096]);
            while renderer.render(&mut left, &mut right) {
                wav.push(&left, &right);
            }
        }
    }
    std::fs::write(path, wav.finish())
}
