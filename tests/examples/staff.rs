//! Draws a bass given as text and says how long a drawing and a link take:
//! `cargo run --release -p tastata-tests --example staff -- OUT.svg WIDTH 'D minor: D3 C#3:6 D3'`.
//! The width is in staff spaces. `Soprano:` and the other parts of the text form are understood.

use std::hint::black_box;
use std::time::{Duration, Instant};

use anyhow::{Context, Result};
use tastata::files::{encode, from_text};
use tastata::reading::read;
use tastata::staff::{Layers, Look, draw, to_svg};

/// Times each is done, for a steady mean.
const TIMES: u32 = 200;

fn mean(mut work: impl FnMut()) -> Duration {
    let start = Instant::now();
    for _ in 0..TIMES {
        work();
    }
    start.elapsed() / TIMES
}

fn main() -> Result<()> {
    let mut words = std::env::args().skip(1);
    let mut next = || words.next().context("staff OUT.svg WIDTH TEXT");
    let (out, width, text) = (next()?, next()?, next()?);
    let read_text = from_text(&text);
    for remark in &read_text.remarks {
        println!("{:?}: {:?}", &text[remark.at.clone()], remark.kind);
    }
    let sketch = read_text.sketch;
    let reading = read(&sketch);
    let look = Look { show: Layers::all(), ..Look::new(width.parse()?) };
    let drawing = draw(&sketch, &reading, &look);
    std::fs::write(&out, to_svg(&drawing, 10.0))?;
    let bytes: usize = drawing.systems.iter().map(|system| system.svg.len()).sum();
    println!("{} notes, {} systems, {bytes} bytes", sketch.notes.len(), drawing.systems.len());
    println!("a drawing takes {:?}", mean(|| drop(black_box(draw(&sketch, &reading, &look)))));
    println!(
        "a link of {} characters takes {:?}",
        encode(&sketch).len(),
        mean(|| {
            black_box(encode(&sketch));
        })
    );
    Ok(())
}
