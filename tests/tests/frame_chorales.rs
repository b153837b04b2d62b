//! The rulebook against four-part chorales and another library's checker. Needs what
//! `tests/run` installs.

use tastata::frame::{FrameWishes, Rule, faults};
use tastata::pitch::{Interval, Pitch};
use tastata_tests::chorales::{Chorale, chorales};
use tastata_tests::frame_report::{differences, page};
use tastata_tests::workspace;

/// Everything here shares one run of the other library.
#[test]
fn the_rulebook_in_four_part_chorales() {
    let chorales = chorales().expect("the chorales");
    assert_eq!(chorales.len(), 331);
    every_difference_is_explained(&chorales);
    every_planted_consecutive_is_found(&chorales);
    the_page_is_true(&chorales);
}

fn every_difference_is_explained(chorales: &[Chorale]) {
    for difference in differences(chorales) {
        assert!(difference.reason.is_some(), "{}: {}", difference.file, difference.text);
    }
}

fn the_page_is_true(chorales: &[Chorale]) {
    let path = workspace().join("tests/frame.md");
    let printed = std::fs::read_to_string(&path).expect("tests/frame.md");
    assert!(
        printed == page(chorales),
        "tests/frame.md is out of date; its head says how to renew it"
    );
}

/// Under every move of a chorale bass a twelfth or a double octave is planted over both
/// notes: the rulebook must find each at its place, and nothing of the kind where the
/// bass stands.
fn every_planted_consecutive_is_found(chorales: &[Chorale]) {
    let wishes = FrameWishes::default();
    let kinds = [
        (Rule::ConsecutiveFifths, Interval::FIFTH + Interval::OCTAVE),
        (Rule::ConsecutiveOctaves, Interval::OCTAVE + Interval::OCTAVE),
    ];
    let mut planted = 0;
    for stretch in chorales.iter().flat_map(|chorale| &chorale.stretches) {
        for (rule, interval) in kinds {
            let soprano: Vec<Pitch> =
                stretch.chords.iter().map(|chord| chord.bass + interval).collect();
            let found = faults(&wishes, &stretch.chords, &soprano);
            for (i, pair) in stretch.chords.windows(2).enumerate() {
                let moved = !pair[0].bass.same_key(pair[1].bass);
                let at =
                    |f: &&tastata::frame::Fault| f.rule == rule && (f.from, f.to) == (i, i + 1);
                assert_eq!(found.iter().filter(at).count(), usize::from(moved));
                planted += usize::from(moved);
            }
        }
    }
    assert!(planted > 20_000);
}
