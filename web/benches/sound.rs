//! How fast the instrument is inside a browser: seconds of sound per second, by the keys held, and
//! for a whole prelude.
//!
//! With a browser's driver as for `tests/run`, and the profile of the page:
//! `cargo test --profile page --target wasm32-unknown-unknown -p tastata-web --bench sound -- --nocapture`;
//! results are kept in `tests/sound.md`.
#![cfg(target_arch = "wasm32")]

use tastata::hands::Hand;
use tastata::pitch::{Key, Mode, Pitch, PitchClass, Step, Tonality};
use tastata::prelude::prelude;
use tastata::reading::read;
use tastata::roll::{Micros, NoteKind, Performance, Touch};
use tastata::sound::{Renderer, SoundWishes, Voice};
use wasm_bindgen_test::{console_log, wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

const RATE: u32 = 48_000;

/// Some keys held for as long as is measured.
fn held(count: usize) -> Performance {
    let touch = |i: usize| Touch {
        key: Key::clamped(24 + (i * 37 % 84) as i32),
        pitch: Pitch::new(Step::C, 0, 4),
        hand: Hand::Left,
        chord: 0,
        down: Micros(0),
        up: Micros::from_ms(4000),
        velocity: 80,
        kind: NoteKind::Chord,
    };
    let touches = (0..count).map(touch).collect();
    Performance { touches, end: Micros::from_ms(4000), ..Performance::default() }
}

/// Milliseconds of the browser's clock.
fn now() -> f64 {
    web_sys::window().and_then(|window| window.performance()).map_or(0.0, |clock| clock.now())
}

/// Seconds it takes to compute so much sound in slices. Each slice is computed several times and
/// the least counts, since a browser's clock runs on while others have the processor.
fn takes(performance: &Performance, wishes: &SoundWishes, seconds: f64, times: usize) -> f64 {
    const SLICE: usize = 2400;
    let mut least = vec![f64::INFINITY; (seconds * f64::from(RATE)) as usize / SLICE];
    for _ in 0..times {
        let mut before = now();
        let mut renderer = Renderer::new(performance, wishes, RATE, Micros(0));
        let (mut left, mut right) = (vec![0.0; SLICE], vec![0.0; SLICE]);
        for least in &mut least {
            renderer.render(&mut left, &mut right);
            let after = now();
            *least = least.min(after - before);
            before = after;
        }
    }
    least.iter().sum::<f64>() / 1000.0
}

#[wasm_bindgen_test]
fn by_keys_held() {
    for voice in Voice::ALL {
        let wishes = SoundWishes { voice, ..SoundWishes::default() };
        for count in [1, 8, 16, 32, 64, 84] {
            let taken = takes(&held(count), &wishes, 1.0, 10);
            console_log!("{voice:?}, {count} keys: {:.0} times real time", 1.0 / taken.max(1e-3));
        }
    }
}

#[wasm_bindgen_test]
fn a_prelude() {
    let sketch = prelude(Tonality::new(PitchClass::new(Step::D, 0), Mode::Minor), 40, 1);
    let began = now();
    let performance = read(&sketch).performance;
    console_log!("read in {:.1} ms", now() - began);
    for voice in Voice::ALL {
        let wishes = SoundWishes { voice, ..sketch.sound.clone() };
        let taken = takes(&performance, &wishes, 40.0, 4);
        console_log!("{voice:?}: 40 s in {:.0} ms, {:.0} times", 1000.0 * taken, 40.0 / taken);
    }
}
