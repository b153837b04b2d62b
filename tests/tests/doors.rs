//! Strange bytes at every door: the kept cases, and a bounded number of broken ones made
//! of them and of what we write ourselves. Nothing panics, memory stays bounded. How to
//! search longer is in DEVELOPERS.md; what one finds is kept in `tests/fuzz/corpus`.

use peak_alloc::PeakAlloc;
use std::fs;
use tastata::files::{
    MidiForm, encode, encode_commented, encode_hand_in, encode_set, midi, musicxml, mxl, plain,
    to_text,
};
use tastata::reading;
use tastata_tests::doors::{DOORS, Door};
use tastata_tests::lesson::Draw;
use tastata_tests::workspace;
use tastata_tests::wrapped::Stream;

#[global_allocator]
static MEMORY: PeakAlloc = PeakAlloc;

/// What one small input may take at most, in megabytes; a page on a phone has some
/// hundreds.
const MOST_MEGABYTES: f32 = 64.0;
/// Broken inputs to each door; `TASTATA_TRIES` asks for more.
const TRIES: usize = 400;
/// The longest input that is made here, in bytes.
const LONGEST: usize = 4_000;

#[test]
fn every_door_bears_strange_bytes() {
    let asked = std::env::var("TASTATA_TRIES").ok().and_then(|tries| tries.parse().ok());
    let tries = asked.unwrap_or(TRIES);
    for (purpose, door) in DOORS.iter().enumerate() {
        let kept = seeds(door);
        assert!(!kept.is_empty(), "{} has cases to start from", door.name);
        let mut draw = Stream::of(2026, purpose as u64);
        for case in &kept {
            enter(door, case);
        }
        for _ in 0..tries {
            enter(door, &broken(&kept, &mut draw));
        }
    }
}

fn enter(door: &Door, bytes: &[u8]) {
    MEMORY.reset_peak_usage();
    let before = MEMORY.current_usage_as_mb();
    let entered = std::panic::catch_unwind(|| (door.enter)(bytes));
    let taken = MEMORY.peak_usage_as_mb() - before;
    if entered.is_err() || taken > MOST_MEGABYTES {
        let folder = workspace().join("target/doors");
        let _ = fs::create_dir_all(&folder);
        let file = folder.join(door.name);
        let _ = fs::write(&file, bytes);
        panic!("{}: {taken} MB; the bytes are in {}", door.name, file.display());
    }
}

/// The kept cases of a door, and whole ones as we write them ourselves.
fn seeds(door: &Door) -> Vec<Vec<u8>> {
    let folder = workspace().join("tests/fuzz/corpus").join(door.name);
    let files = fs::read_dir(folder).into_iter().flatten().flatten();
    let mut seeds: Vec<Vec<u8>> = files.filter_map(|file| fs::read(file.path()).ok()).collect();
    seeds.sort();
    let mut draw = Draw(7);
    for _ in 0..12 {
        let sketch = draw.sketch();
        let whole = match door.name {
            "text" => Some(to_text(&sketch).into_bytes()),
            "link" => Some(encode(&sketch).into_bytes()),
            "set" => plain(&encode_set(&draw.set())).ok(),
            "handin" => plain(&encode_hand_in(&draw.hand_in())).ok(),
            "commented" => plain(&encode_commented(&draw.commented())).ok(),
            "musicxml" => Some(musicxml(&sketch, &reading::read(&sketch)).into_bytes()),
            "mxl" => Some(mxl(&sketch, &reading::read(&sketch))),
            "midi" => Some(midi(&sketch, &reading::read(&sketch), MidiForm::Performance)),
            _ => None,
        };
        seeds.extend(whole.filter(|whole| whole.len() <= 20 * LONGEST));
    }
    seeds
}

/// A case broken in one to six places.
fn broken(kept: &[Vec<u8>], draw: &mut Stream) -> Vec<u8> {
    let mut bytes = kept[draw.below(kept.len())].clone();
    for _ in 0..=draw.below(6) {
        let at = draw.below(bytes.len() + 1);
        let end = (at + draw.below(40)).min(bytes.len());
        match draw.below(7) {
            0 => bytes.truncate(at),
            1 => drop(bytes.drain(at..end)),
            2 => bytes.insert(at, draw.draw() as u8),
            3 => {
                if let Some(byte) = bytes.get_mut(at) {
                    *byte ^= 1 << draw.below(8);
                }
            }
            4 => {
                if let Some(byte) = bytes.get_mut(at) {
                    *byte = [0, 1, 127, 128, 255, b'0', b'9', b' ', b'<', b'"'][draw.below(10)];
                }
            }
            5 => {
                let again: Vec<u8> = bytes[at..end].repeat(1 + draw.below(20));
                bytes.splice(at..at, again);
            }
            _ => {
                let other = &kept[draw.below(kept.len())];
                let from = draw.below(other.len() + 1);
                let to = (from + draw.below(200)).min(other.len());
                bytes.splice(at..end, other[from..to].iter().copied());
            }
        }
    }
    bytes
}
