//! Figured basses of their time, held against the program: their composers' figures are
//! realised, and over the bare bass we mostly read what they figured. `tests/harmony.md`
//! explains the numbers.

use anyhow::Result;
use tastata::frame::{Severity, frame};
use tastata::hands::handfuls;
use tastata::harmony::{Reason, Version, harmonise};
use tastata_tests::figured::{Chords, FIGURED, agreement, sketch, table};
use tastata_tests::workspace;

/// Every figure is understood, the outer voices break no rule, and the two hands hold
/// every tone that the figures ask for.
#[test]
fn figures_are_realised_without_contradiction() {
    for figured in &FIGURED {
        let sketch = sketch(figured, false);
        let harmony = harmonise(&sketch);
        assert_eq!(harmony.remarks, [], "{}", figured.source);
        let frame = frame(&sketch, &harmony.chords);
        let broken = frame.faults.iter().filter(|fault| fault.severity == Severity::Fault);
        assert_eq!(broken.count(), 0, "{}", figured.source);
        let hands = handfuls(&sketch, &harmony.chords, &frame);
        for (chord, hands) in harmony.chords.iter().zip(&hands.handfuls) {
            let keys = || hands.left.iter().chain(&hands.right);
            let held = |class| keys().any(|pitch| pitch.class() == class);
            let wanted = chord.tones.iter().filter(|tone| !tone.omittable);
            for tone in wanted {
                assert!(held(tone.class), "{}: {} over {}", figured.source, tone.class, chord.bass);
            }
        }
    }
}

/// Notes struck again keep their chord, also where they were figured a beat before.
#[test]
fn a_figure_counts_until_the_bass_moves() {
    let sketch = sketch(&FIGURED[0], false);
    let harmony = harmonise(&sketch);
    // The third of four F sharps under one 6/5.
    let again = harmony.chords.iter().find(|chord| chord.note == 25).expect("a chord");
    assert_eq!(again.reason, Reason::Stays);
    let before = harmony.chords.iter().find(|chord| chord.note == 23).expect("a chord");
    assert_eq!(again.tones, before.tones);
}

/// Bounds a little under what is reached.
#[test]
fn the_bare_bass_is_read_much_as_it_was_figured() -> Result<()> {
    let document = std::fs::read_to_string(workspace().join("tests/harmony.md"))?;
    for line in table() {
        println!("{line}");
        assert!(document.contains(&line), "tests/harmony.md lacks: {line}");
    }
    let score = agreement(&FIGURED, Chords::Read(Version::Campion));
    assert!(score.percent(score.exact) >= 75.0 && score.percent(score.class) >= 88.5);
    assert!(score.percent(score.root) >= 85.0);
    let plain = agreement(&FIGURED, Chords::Plain);
    assert!(score.exact > plain.exact && score.class > plain.class && score.root > plain.root);
    Ok(())
}
