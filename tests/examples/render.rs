//! Renders a prelude of our own, or one key, to a WAV file.
//!
//! `cargo run --release -p tastata-tests --example render -- OUT.wav [VOICE [KEY]]`
//! where VOICE is 8, 84, buff, struck or organ, and KEY a key number or the name
//! of a tonality.

use tastata::files::Wav;
use tastata::pitch::{Key, Mode, PitchClass, Step, Tonality};
use tastata::prelude::prelude;
use tastata::reading::read;
use tastata::roll::Micros;
use tastata::sound::{Renderer, SoundWishes, Voice, strike};

const RATE: u32 = 48_000;

fn main() -> std::io::Result<()> {
    let mut arguments = std::env::args().skip(1);
    let Some(path) = arguments.next() else {
        println!("Say where to: OUT.wav [VOICE [KEY]]");
        return Ok(());
    };
    let voice = match arguments.next().as_deref() {
        Some("84") => Voice::Plucked84,
        Some("buff") => Voice::Buff,
        Some("struck") => Voice::Struck,
        Some("organ") => Voice::Organ,
        _ => Voice::Plucked8,
    };
    let wishes = SoundWishes { voice, ..SoundWishes::default() };
    let word = arguments.next().unwrap_or_default();
    let mut wav = Wav::new(RATE);
    match word.parse().ok().and_then(Key::new) {
        Some(key) => {
            let (left, right) = strike(key, &wishes, RATE, 16.0);
            wav.push(&left, &right);
        }
        None => {
            let a_minor = Tonality::new(PitchClass::new(Step::A, 0), Mode::Minor);
            let tonality = Tonality::parse(&word).unwrap_or(a_minor);
            let reading = read(&prelude(tonality, 45, 1));
            let performance = &reading.performance;
            for (index, chord) in reading.harmony.chords.iter().enumerate() {
                let added = performance.added.iter().filter_map(|added| {
                    let touch = performance.touches.get(added.touch)?;
                    (touch.chord == index).then(|| format!("{:?} {}", touch.kind, touch.pitch))
                });
                println!(
                    "{:6.2} s  {:4} {:16} dwell {:4} ms  {}",
                    performance.starts.get(index).copied().unwrap_or_default().as_secs(),
                    chord.bass.to_string(),
                    tastata::figures::print_stage(&chord.figures),
                    performance.dwells.get(index).copied().unwrap_or_default().0 / 1000,
                    added.collect::<Vec<_>>().join(", "),
                );
            }
            println!("{} faults and cautions", reading.frame.faults.len());
            let mut renderer = Renderer::new(performance, &wishes, RATE, Micros(0));
            let (mut left, mut right) = (vec![0.0; 4096], vec![0.0; 4096]);
            while renderer.render(&mut left, &mut right) {
                wav.push(&left, &right);
            }
        }
    }
    std::fs::write(path, wav.finish())
}
