//! Sound files as libraries and programs of others read them: headers by Python's own
//! module, libsndfile and SoX; the tuning measured from the file.

use anyhow::{Context, Result, ensure};
use std::path::Path;
use std::process::Command;
use tastata::files::{Depth, Wav};
use tastata::hands::Hand;
use tastata::pitch::{Key, Pitch, Step};
use tastata::roll::{Micros, NoteKind, Performance, Touch};
use tastata::sound::{Renderer, SoundWishes, Temperament};
use tastata_tests::oracle;

const RATE: u32 = 44_100;
/// Milliseconds from note to note, and how long each is held.
const STEP: u64 = 2_500;
const HELD: u64 = 2_300;

/// Cents above C: Barbour, *Tuning and Temperament* (1951), quarter-comma meantone and
/// Werckmeister's Correct Temperament No. 1, computed to three decimals.
#[rustfmt::skip]
const TUNINGS: [(Temperament, f64, [f64; 12]); 2] = [
    (Temperament::QuarterComma, 415.0, [0.0, 76.049, 193.157, 310.265, 386.314, 503.422, 579.471, 696.578, 772.627, 889.735, 1006.843, 1082.892]),
    (Temperament::Werckmeister3, 440.0, [0.0, 90.225, 192.180, 294.135, 390.225, 498.045, 588.270, 696.090, 792.180, 888.270, 996.090, 1092.180]),
];

/// The octave on middle C, note by note, as a sound file. Returns its frames.
fn write(file: &Path, wishes: &SoundWishes, depth: Depth) -> Result<u64> {
    let touches = (0..12).map(|i: u64| Touch {
        key: Key::clamped(60 + i as i32),
        pitch: Pitch::new(Step::C, 0, 4),
        hand: Hand::Right,
        chord: 0,
        down: Micros::from_ms(i * STEP),
        up: Micros::from_ms(i * STEP + HELD),
        velocity: 76,
        kind: NoteKind::Chord,
    });
    let end = Micros::from_ms(12 * STEP);
    let performance = Performance { touches: touches.collect(), end, ..Performance::default() };
    let mut renderer = Renderer::new(&performance, wishes, RATE, Micros(0));
    let mut wav = Wav::of_depth(RATE, depth);
    let (mut left, mut right) = (vec![0.0; 8192], vec![0.0; 8192]);
    let mut frames = 0;
    while renderer.render(&mut left, &mut right) {
        wav.push(&left, &right);
        frames += 8192;
    }
    std::fs::write(file, wav.finish())?;
    Ok(frames)
}

#[test]
fn others_read_the_header_and_measure_the_tuning() -> Result<()> {
    let folder = tempfile::tempdir()?;
    for ((temperament, a4, table), depth) in
        TUNINGS.into_iter().zip([Depth::Sixteen, Depth::TwentyFour])
    {
        let wishes = SoundWishes { temperament, a4, ..SoundWishes::default() };
        let file = folder.path().join(format!("{a4}.wav"));
        let frames = write(&file, &wishes, depth)?;
        let name = file.to_string_lossy();
        let answer = oracle("waves.py", &[&name, "2.5", "12"], "")?;
        let lines: Vec<&str> = answer.lines().collect();
        let [wave, sndfile, difference, hertz] = lines[..] else { panic!("{answer}") };
        let (width, kind) = match depth {
            Depth::Sixteen => (2, "PCM_16"),
            Depth::TwentyFour => (3, "PCM_24"),
        };
        assert_eq!(wave, format!("2 {width} {RATE} {frames}"));
        assert_eq!(sndfile, format!("2 {kind} {RATE} {frames}"));
        assert!(difference.parse::<f64>()? < 0.01, "the two libraries differ by {difference}");
        let mut worst = 0.0_f64;
        for (hertz, cents) in hertz.split(' ').zip(table) {
            let expected = a4 * 2.0_f64.powf((cents - table[9]) / 1200.0);
            let error = 1200.0 * (hertz.parse::<f64>()? / expected).log2();
            worst = worst.max(error.abs());
        }
        println!("{temperament:?} at {a4} Hz, {width} bytes: worst error {worst:.2} cent");
        assert!(worst < 1.0, "{worst} cents: {hertz}");
    }
    Ok(())
}

/// A program of others that complains about any header it has to mend.
#[test]
fn sox_takes_the_files_without_a_word() -> Result<()> {
    let folder = tempfile::tempdir()?;
    for (depth, bits) in [(Depth::Sixteen, "16"), (Depth::TwentyFour, "24")] {
        let file = folder.path().join(format!("{bits}.wav"));
        let frames = write(&file, &SoundWishes::default(), depth)?;
        let ask = |option: &str| -> Result<String> {
            let done = Command::new("sox").args(["--i", option]).arg(&file).output();
            let done =
                done.context("SoX is not installed: run tests/run once, which installs it")?;
            ensure!(done.stderr.is_empty(), "{}", String::from_utf8_lossy(&done.stderr));
            Ok(String::from_utf8(done.stdout)?.trim().to_string())
        };
        assert_eq!(ask("-t")?, "wav");
        assert_eq!(ask("-c")?, "2");
        assert_eq!(ask("-r")?, RATE.to_string());
        assert_eq!(ask("-b")?, bits);
        assert_eq!(ask("-s")?, frames.to_string());
        // Read whole, to the last sample.
        let read = Command::new("sox").arg(&file).args(["-n", "stat"]).output()?;
        let said = String::from_utf8(read.stderr)?;
        ensure!(read.status.success() && !said.contains("WARN"), "{said}");
        ensure!(said.contains(&format!("Samples read:{:>18}", 2 * frames)), "{said}");
    }
    Ok(())
}
