//! The sound as a browser puts it together from slices: not a sample is lost, doubled or moved.
//! Run by `tests/run`.
#![cfg(target_arch = "wasm32")]

use tastata::hands::Hand;
use tastata::pitch::{Key, Pitch, Step};
use tastata::roll::{Micros, NoteKind, Performance, Touch};
use tastata::sound::{Renderer, SoundWishes};
use tastata_web::page::schedule;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use wasm_bindgen_test::{console_log, wasm_bindgen_test, wasm_bindgen_test_configure};
use web_sys::{AudioBuffer, OfflineAudioContext};

wasm_bindgen_test_configure!(run_in_browser);

/// Keys and the microseconds at which they go down, at odd distances.
const STRIKES: [(i32, u64); 8] = [
    (45, 0),
    (52, 88_013),
    (57, 171_777),
    (61, 250_001),
    (64, 399_999),
    (69, 512_345),
    (73, 655_360),
    (76, 700_003),
];

/// The first `count` strikes.
fn performance(count: usize) -> Performance {
    let touch = |&(key, down): &(i32, u64)| Touch {
        key: Key::clamped(key),
        pitch: Pitch::new(Step::C, 0, 4),
        hand: Hand::Left,
        chord: 0,
        down: Micros(down),
        up: Micros(down + 900_000),
        velocity: 80,
        kind: NoteKind::Chord,
    };
    let touches: Vec<Touch> = STRIKES.iter().take(count).map(touch).collect();
    Performance { touches, end: Micros(1_000_000), ..Performance::default() }
}

/// What the browser makes of it, in slices as the page schedules them, from frame `began` on.
async fn offline(count: usize, rate: u32, began: u64, slice: usize) -> Vec<f32> {
    let frames = rate + 2 * began as u32;
    let context = OfflineAudioContext::new_with_number_of_channels_and_length_and_sample_rate(
        2,
        frames,
        rate as f32,
    );
    let context = context.expect("an offline context");
    let target = context.destination();
    let wishes = SoundWishes::default();
    let mut renderer = Renderer::new(&performance(count), &wishes, rate, Micros(0));
    let mut next = began;
    while next < u64::from(frames) {
        let (mut left, mut right) = (vec![0.0; slice], vec![0.0; slice]);
        renderer.render(&mut left, &mut right);
        schedule(&context, &target, &mut left, &mut right, next).expect("a slice is scheduled");
        next += slice as u64;
    }
    let done = JsFuture::from(context.start_rendering().expect("it renders")).await;
    let buffer: AudioBuffer = done.expect("it is rendered").unchecked_into();
    buffer.get_channel_data(0).expect("the left side")
}

#[wasm_bindgen_test]
async fn slices_join_without_a_seam() {
    for rate in [44_100_u32, 48_000] {
        let (began, slice) = (2_647, (0.2 * f64::from(rate)) as usize);
        let heard = offline(STRIKES.len(), rate, began, slice).await;
        let length = heard.len() - began as usize;
        let (mut left, mut right) = (vec![0.0; length], vec![0.0; length]);
        let wishes = SoundWishes::default();
        let mut renderer = Renderer::new(&performance(STRIKES.len()), &wishes, rate, Micros(0));
        renderer.render(&mut left, &mut right);
        assert!(heard[..began as usize].iter().all(|&x| x == 0.0), "it sounds too early");
        let worst = heard[began as usize..].iter().zip(&left).map(|(a, b)| (a - b).abs());
        let worst = worst.fold(0.0_f32, f32::max);
        console_log!("{rate}: largest difference {worst}");
        assert!(worst < 1e-6, "{rate}: the browser plays something else, by {worst}");
    }
}

#[wasm_bindgen_test]
async fn no_onset_is_a_sample_off() {
    for rate in [44_100_u32, 48_000] {
        let (began, slice) = (2_647, (0.2 * f64::from(rate)) as usize);
        let mut before = vec![0.0; (rate + 2 * began as u32) as usize];
        let mut delays = Vec::new();
        for (count, (_, down)) in (1..).zip(STRIKES) {
            let heard = offline(count, rate, began, slice).await;
            // A strike sounds where the sound with it parts from the sound without it.
            let onset = heard.iter().zip(&before).position(|(a, b)| (a - b).abs() > 1e-7);
            let onset = onset.expect("the strike sounds") as f64 - began as f64;
            delays.push(onset - down as f64 * f64::from(rate) / 1e6);
            before = heard;
        }
        let first = delays.iter().copied().fold(f64::INFINITY, f64::min);
        let last = delays.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        console_log!("{rate}: onsets {first:.3} to {last:.3} samples after the stroke");
        // The jitter: what the delays differ by. A sample's grid alone makes almost one.
        assert!(last - first < 1.0, "{rate}: onsets jitter by {} samples", last - first);
        assert!(first > -1.0 && last < 3.0, "{rate}: onsets {first} to {last} samples off");
    }
}
