//! Drawings: well-formed, complete, every note at its height, every sign defined.

use std::collections::HashSet;
use tastata::bass::read_bass;
use tastata::hands::Hand;
use tastata::pitch::Pitch;
use tastata::reading::{Reading, read};
use tastata::sketch::{Hold, Pin, Sketch};
use tastata::staff::{Drawing, Layer, Layers, Look, Stave, draw, symbols, to_svg};

/// Basses of our own, plain and far-fetched.
const BASSES: [&str; 6] = [
    "",
    "C: C3",
    "D minor: D3 C#3:6 D3 E3:6 F3:6 G3:6/5 A3:# Bb3 A3:6/4 G3:4/2 F3:6 E3:6/5b D3 G2:6/5 A2:4-3# D2",
    "Cb major: Cb2 Fb3 (Gb3) Abb3:6 Cb4:4+/2 E3 B1:7 E#3:6 Cb1: G4",
    "G# minor: G#2 F##2:6/5 G#2 B2:6 E3:7-6 D#3:9/7-8/6 D#2:6/4-5/3+ G#1",
    "C2 C2 (D2) (E2) F2 C5 C1 B0 A0 G5 (F5) C2",
];

fn sketch(text: &str) -> Sketch {
    let bass = read_bass(text, None);
    let notes = bass.notes.iter().map(|note| note.to_sketch()).collect();
    Sketch { tonality: bass.tonality, notes, ..Sketch::default() }
}

fn each(mut check: impl FnMut(&Sketch, &Reading, &Look, &Drawing)) {
    for text in BASSES {
        let mut sketch = sketch(text);
        for pinned in [false, true] {
            if pinned {
                for note in &mut sketch.notes {
                    // A soprano of bare fifths and octaves, so that there are faults to mark.
                    let pitch = Pitch { octave: note.pitch.octave + 2, ..note.pitch };
                    note.soprano = vec![Some(Pin { pitch, hold: Hold::Pinned })];
                }
            }
            let reading = read(&sketch);
            for width in [0.0, 24.0, 36.0, 80.0, 130.0, f64::NAN, f64::INFINITY] {
                for show in [Layers::NONE, Layers::usual(), Layers::all()] {
                    let selected = Some(1);
                    let look = Look { show, selected, ..Look::new(width) };
                    let drawing = draw(&sketch, &reading, &look);
                    check(&sketch, &reading, &look, &drawing);
                }
            }
        }
    }
}

#[test]
fn every_drawing_is_well_formed_and_every_sign_defined() {
    each(|_, _, _, drawing| {
        let file = to_svg(drawing, 8.0);
        let document = roxmltree::Document::parse(&file).expect("well-formed markup");
        let ids: Vec<&str> = document.descendants().filter_map(|n| n.attribute("id")).collect();
        let unique: HashSet<&str> = ids.iter().copied().collect();
        assert_eq!(ids.len(), unique.len(), "an id occurs twice");
        for node in document.descendants() {
            if let Some(href) = node.attribute("href") {
                assert!(unique.contains(href.trim_start_matches('#')), "{href} is not defined");
            }
            for name in ["x", "y", "width", "height", "cx", "cy"] {
                if let Some(number) = node.attribute(name) {
                    assert!(number.parse::<f64>().is_ok_and(f64::is_finite), "{name}={number}");
                }
            }
        }
    });
    assert!(symbols().len() < 30_000);
}

/// Each chord's notes, and no others, are drawn once, at the height of their
/// spelling and with their keys.
#[test]
fn every_note_is_drawn_once_at_its_height() {
    each(|sketch, reading, look, drawing| {
        if look.show != Layers::all() {
            return;
        }
        let mut chords = 0;
        for system in &drawing.systems {
            let markup = format!("<svg>{}</svg>", system.svg);
            let document = roxmltree::Document::parse(&markup).expect("well-formed markup");
            for place in &system.chords {
                chords += 1;
                let chord = place.chord.to_string();
                let notes: Vec<_> = document
                    .descendants()
                    .filter(|n| n.attribute("data-chord") == Some(&chord))
                    .filter(|n| n.attribute("data-part").is_some())
                    .collect();
                let handful = &reading.hands.handfuls[place.chord];
                let mut wanted: HashSet<(Pitch, Hand)> = HashSet::new();
                wanted.extend(handful.left.iter().map(|&p| (p, Hand::Left)));
                wanted.extend(handful.right.iter().map(|&p| (p, Hand::Right)));
                assert_eq!(notes.len(), wanted.len(), "chord {chord}");
                for (pitch, hand) in wanted {
                    let class = if hand == Hand::Left { "left" } else { "right" };
                    let title = format!("{pitch},");
                    let found = notes.iter().find(|note| {
                        let text = note.first_element_child().and_then(|title| title.text());
                        text.is_some_and(|text| text.starts_with(&title))
                            && note.attribute("class").is_some_and(|c| c.contains(class))
                    });
                    let note = found.unwrap_or_else(|| panic!("{pitch} of chord {chord}"));
                    let key = pitch.key().map(|key| key.number().to_string());
                    assert_eq!(note.attribute("data-key"), key.as_deref());
                    let head = note
                        .children()
                        .find(|n| n.attribute("href").is_some_and(|h| h.contains("whole")))
                        .expect("a head");
                    let y: f64 = head.attribute("y").and_then(|y| y.parse().ok()).expect("y");
                    let height = pitch.diatonic();
                    let fits = Stave::BOTH
                        .iter()
                        .any(|&stave| (system.y_of(stave, height) - y).abs() < 0.011);
                    assert!(fits, "{pitch} of chord {chord} stands at {y}");
                }
            }
        }
        assert_eq!(chords, reading.harmony.chords.len());
        let passing: usize = drawing.systems.iter().map(|system| system.passing.len()).sum();
        let carrying: HashSet<usize> = reading.harmony.chords.iter().map(|c| c.note).collect();
        assert_eq!(passing + carrying.len(), sketch.notes.len());
    });
}

#[test]
fn columns_keep_apart_and_heights_can_be_asked() {
    each(|_, reading, _, drawing| {
        for system in &drawing.systems {
            let mut ends: Vec<(f64, f64)> =
                system.chords.iter().map(|place| (place.x_left, place.x_right)).collect();
            ends.extend(system.passing.iter().map(|place| (place.x_left, place.x_right)));
            ends.sort_by(|a, b| a.0.total_cmp(&b.0));
            assert!(ends.iter().all(|(left, right)| left < right));
            assert!(ends.windows(2).all(|two| two[0].1 <= two[1].0 + 1e-9));
            for place in &system.chords {
                let bass = reading.harmony.chords[place.chord].bass;
                assert_eq!(system.step_at(place.bass_stave, place.bass_y), bass.diatonic());
                let soprano = reading.frame.soprano[place.chord];
                let step = system.step_at(place.soprano_stave, place.soprano_y);
                assert_eq!(step, soprano.diatonic());
                assert_eq!(drawing.find(place.chord).map(|found| found.1), Some(place));
            }
            for stave in Stave::BOTH {
                for height in -10..90 {
                    let y = system.y_of(stave, height);
                    for off in [-0.24, 0.0, 0.24] {
                        assert_eq!(system.step_at(stave, y + off), height);
                    }
                }
                system.step_at(stave, f64::NAN);
                system.step_at(stave, f64::NEG_INFINITY);
            }
        }
    });
}

#[test]
fn layers_show_what_they_name() {
    let mut sketch = sketch(BASSES[2]);
    let pin = Pin { pitch: Pitch { octave: 5, ..sketch.notes[0].pitch }, hold: Hold::Pinned };
    sketch.notes[0].soprano.push(Some(pin));
    let reading = read(&sketch);
    let has = |show: Layers, what: &str| {
        let look = Look { show, ..Look::new(60.0) };
        draw(&sketch, &reading, &look).systems.iter().any(|system| system.svg.contains(what))
    };
    for (layer, what) in [
        (Layer::Figures, "class=\"figures\""),
        (Layer::Rolls, "class=\"roll\""),
        (Layer::Motions, "class=\"motions\""),
        (Layer::Inner, "class=\"note inner"),
        (Layer::Hands, "class=\"hand "),
    ] {
        assert!(has(Layers::all(), what), "{layer:?}");
        assert!(!has(Layers::all().without(layer), what), "{layer:?}");
    }
    assert!(!has(Layers::NONE, "class=\"note soprano"));
    assert!(has(Layers::NONE.with(Layer::Soprano), "class=\"note soprano"));
    assert!(has(Layers::usual(), "pinned") && !has(Layers::usual().without(Layer::Pins), "pinned"));
}

/// A fault is marked on both voices, told by a number, and can be found by its
/// place in the list.
#[test]
fn faults_are_marked_where_they_are() {
    let mut sketch = sketch("C: C3 D3 E3 C3");
    for (note, octave) in sketch.notes.iter_mut().zip([4, 4, 4, 5]) {
        let pitch = Pitch { octave, ..note.pitch };
        note.soprano = vec![Some(Pin { pitch, hold: Hold::Pinned })];
    }
    let reading = read(&sketch);
    assert!(!reading.frame.faults.is_empty());
    let drawing = draw(&sketch, &reading, &Look::new(80.0));
    let system = &drawing.systems[0];
    let markup = format!("<svg>{}</svg>", system.svg);
    let document = roxmltree::Document::parse(&markup).expect("well-formed markup");
    for index in 0..reading.frame.faults.len() {
        let index = index.to_string();
        let marks = document.descendants().filter(|n| n.attribute("data-fault") == Some(&index));
        assert_eq!(marks.count(), 1, "fault {index}");
    }
    let first = document.descendants().find(|n| n.attribute("data-fault") == Some("0"));
    let first = first.expect("the first fault");
    assert!(first.descendants().any(|n| n.attribute("href") == Some("#ms-fig-8")));
    assert_eq!(first.children().filter(|n| n.has_tag_name("path")).count(), 2);
}
