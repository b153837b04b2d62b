//! Prints the chords of a typed bass with their reasons:
//! `cargo run -p tastata-tests --bin chords -- "C major: c d e f g c" [daring [note]]`;
//! with a note, counted from 1, also what else could stand there.

use tastata::bass::read_bass;
use tastata::figures::print_stage;
use tastata::harmony::{HarmonyWishes, alternatives, harmonise};
use tastata::sketch::Sketch;
use tastata::words::{Lang, harmony_remark, reason, text_trouble};

fn main() {
    let mut words = std::env::args().skip(1);
    let text = words.next().unwrap_or_default();
    let daring = words.next().and_then(|it| it.parse().ok()).unwrap_or(0);
    let read = read_bass(&text, None);
    for remark in &read.remarks {
        println!("{}: {}", &text[remark.at.clone()], text_trouble(remark.kind, Lang::English));
    }
    let sketch = Sketch {
        tonality: read.tonality,
        notes: read.notes.iter().map(|note| note.to_sketch()).collect(),
        harmony: HarmonyWishes { daring, ..HarmonyWishes::default() },
        ..Sketch::default()
    };
    let harmony = harmonise(&sketch);
    println!("{}", harmony.home);
    for chord in &harmony.chords {
        let tones: Vec<String> = chord.tones.iter().map(|tone| tone.class.to_string()).collect();
        println!(
            "{:>5} {:<10} {:<14} {}",
            chord.bass.to_string(),
            print_stage(&chord.figures),
            tones.join(" "),
            reason(chord, Lang::English)
        );
    }
    for remark in &harmony.remarks {
        println!("{}", harmony_remark(remark, Lang::English));
    }
    let Some(note) = words.next().and_then(|it| it.parse::<usize>().ok()) else { return };
    for other in alternatives(&sketch, note.saturating_sub(1)) {
        let Some(chord) = other.chords.first() else { continue };
        let figures = tastata::figures::print(&other.figures);
        let said = reason(chord, Lang::English);
        println!("daring {} strain {:>3} {figures:<10} {said}", other.boldness, other.strain);
    }
}
