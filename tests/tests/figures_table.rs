//! Figures against published expansions, and the text forms against themselves.

use tastata::bass::{print_notes, read_bass};
use tastata::figures::{Accidental, Figures, Sign, Stage, expand_all, print, read_figures};
use tastata::pitch::{Pitch, PitchClass, Step, Tonality};
use tastata::sketch::Weight;

fn sounds(key: &str, bass: &str, typed: &str) -> String {
    let tonality = Tonality::parse(key).expect("a tonality");
    let bass = read_bass(bass, None).notes[0].pitch.class();
    let figures = read_figures(typed).expect("figures");
    let all = expand_all(&figures, bass, tonality);
    let stage = |it: &tastata::figures::Expansion| {
        assert_eq!(it.remarks, [], "{typed}");
        it.tones.iter().map(|tone| tone.class.to_string()).collect::<Vec<_>>().join(" ")
    };
    all.iter().map(stage).collect::<Vec<_>>().join(" - ")
}

/// C.P.E. Bach, *Versuch* II (1762) and Arnold, *The Art of Accompaniment from a
/// Thorough-Bass* (1931): from memory, consistent with the published table
/// "Figured-Bass symbols and typical realizations" where it lists the row. The
/// octave is left out; tones are listed from the lowest figure up.
#[test]
fn written_figures_mean_what_the_treatises_say() {
    for (bass, written, played) in [
        // C major; the left column of the table of implied figures.
        ("C", "5/3", "E G"),
        ("C", "5", "E G"),
        ("C", "3", "E G"),
        ("C", "8", "E G"),
        ("C", ".", "E G"),
        ("E", "6", "G C"),
        ("G", "6/4", "C E"),
        ("G", "7", "B D F"),
        ("B", "6/5", "D F G"),
        ("D", "4/3", "F G B"),
        ("D", "6/4/3", "F G B"),
        ("F", "4/2", "G B D"),
        ("F", "2", "G B D"),
        ("F", "4+", "G B D"),
        ("G", "4", "C D"),
        ("G", "5/4", "C D"),
        ("C", "9", "E G D"),
        ("C", "9/7", "E B D"),
        ("C", "9/4", "F G D"),
        ("G", "7/4", "C D F"),
        ("C", "7/2", "D F B"),
        ("C", "7/4/2", "D F B"),
        ("C", "5/2", "D G"),
        ("E", "#", "G♯ B"),
        ("D", "#", "F♯ A"),
        ("G", "b", "B♭ D"),
        ("A", "#6", "C F♯"),
        ("A", "6+", "C F♯"),
        ("A", "#6/4/3", "C D F♯"),
        ("F#", "5b", "A C D"),
        ("E", "5b", "G B♭ C"),
        ("C", "b7", "E G B♭"),
        // Successive figures divide the note.
        ("G", "4-3", "C D - B D"),
        ("A", "7-6", "C G - C F"),
        ("C", "9-8", "E G D - E G"),
        ("C", "5-6", "E G - E A"),
        ("C", "6-5", "E A - E G"),
        ("C", "9/4-8/3", "F G D - E G"),
        ("G", "6/4-5/3", "C E - B D"),
        ("G", "5/3-6/4-5/4-5/3", "B D - C E - C D - B D"),
        ("C", "t.s.", ""),
    ] {
        assert_eq!(sounds("C", bass, written), played, "{bass} {written}");
    }
    assert_eq!(sounds("C minor", "G", "n"), "B D");
    assert_eq!(sounds("D", "E", "n"), "G B");
}

/// Hiles's fully voiced octave, 16 chords: pitches read from the score source of
/// the encyclopedia page "Rule of the Octave" (wikiclassic.com).
#[test]
fn the_sixteen_chord_scale_expands_to_its_printed_pitches() {
    for (bass, figures, upper) in [
        ("c", "5/3", "e g c"),
        ("d", "4/3", "f g b"),
        ("e", "6", "e g c"),
        ("f", "6/5", "d a c"),
        ("g", "5/3", "d g b"),
        ("a", "6", "c f c"),
        ("b", "6/5", "f g d"),
        ("c", "5/3", "e g c"),
        ("c", "5/3", "g c e"),
        ("b", "6", "d g d"),
        ("a", "#6/4/3", "d f# c"),
        ("g", "5/3", "d g b"),
        ("f", "2", "d g b"),
        ("e", "6", "c g c"),
        ("d", "4/3", "f g b"),
        ("c", "5/3", "e g c"),
    ] {
        let classes = |text: &str| {
            let notes = read_bass(text, None).notes;
            let mut classes: Vec<PitchClass> = notes.iter().map(|n| n.pitch.class()).collect();
            classes.sort();
            classes.dedup();
            classes
        };
        let printed = classes(&format!("{bass} {upper}"));
        let sounding = sounds("C", bass, figures);
        let ours = classes(&format!("{bass} {sounding}"));
        assert_eq!(ours, printed, "{bass} {figures}");
    }
}

/// A repeatable sequence of numbers below `below`.
fn numbers(seed: u64) -> impl FnMut(u64) -> u64 {
    let mut state = seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1;
    move |below| {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        state % below
    }
}

fn some_figures(next: &mut impl FnMut(u64) -> u64) -> Figures {
    let accidentals = [
        None,
        None,
        None,
        Some(Accidental::Sharp),
        Some(Accidental::Flat),
        Some(Accidental::Natural),
        Some(Accidental::Raised),
        Some(Accidental::DoubleSharp),
        Some(Accidental::DoubleFlat),
    ];
    let stages = (0..=next(3)).map(|_| match next(8) {
        0 => Stage::TastoSolo,
        1 => Stage::Hold,
        _ => {
            let mut signs: Vec<Sign> = (0..next(4))
                .map(|_| Sign {
                    number: 2 + next(8) as u8,
                    accidental: accidentals[next(9) as usize],
                })
                .collect();
            signs.sort_by_key(|sign| std::cmp::Reverse(sign.number));
            signs.dedup();
            Stage::Signs(signs)
        }
    });
    let mut stages: Vec<Stage> = stages.collect();
    // A row of dashes alone is one held chord.
    if stages.iter().all(|stage| *stage == Stage::Hold) {
        stages.truncate(1);
    }
    Figures::new(stages).expect("a stage")
}

#[test]
fn printed_figures_read_back_to_themselves() {
    let mut next = numbers(1);
    for _ in 0..4000 {
        let figures = some_figures(&mut next);
        let text = print(&figures);
        assert_eq!(read_figures(&text), Ok(figures), "{text}");
    }
}

#[test]
fn a_printed_bass_reads_back_to_itself() {
    let mut next = numbers(2);
    for _ in 0..600 {
        let tonality = (next(2) == 0).then(|| {
            let tonic = PitchClass::from_fifths(next(15) as i32 - 7);
            let modes = [tastata::pitch::Mode::Major, tastata::pitch::Mode::Minor];
            Tonality::new(tonic, modes[next(2) as usize])
        });
        let notes: Vec<(Pitch, Option<Figures>, Weight)> = (0..next(9))
            .map(|_| {
                let pitch =
                    Pitch::new(Step::ALL[next(7) as usize], next(5) as i8 - 2, next(11) as i8 - 1);
                let figures = (next(2) == 0).then(|| some_figures(&mut next));
                let weights = [Weight::Unmarked, Weight::Structural, Weight::Passing];
                (pitch, figures, weights[next(3) as usize])
            })
            .collect();
        let lent = notes.iter().map(|(pitch, figures, weight)| (*pitch, figures.as_ref(), *weight));
        let text = print_notes(lent, tonality);
        let read = read_bass(&text, None);
        assert_eq!(read.remarks, [], "{text}");
        assert_eq!(read.tonality, tonality, "{text}");
        let back: Vec<_> =
            read.notes.into_iter().map(|note| (note.pitch, note.figures, note.weight)).collect();
        assert_eq!(back, notes, "{text}");
    }
}

/// Any text at all is read without a panic, every remark lies on character
/// boundaries, and what is readable stays.
#[test]
fn any_text_is_read() {
    let letters: Vec<char> = "cdefgabhx#b♯♭♮n 0123456789/-–_+.:,()[]!|\n\\tszéñ𝄪".chars().collect();
    let mut next = numbers(3);
    for _ in 0..20000 {
        let text: String =
            (0..next(14)).map(|_| letters[next(letters.len() as u64) as usize]).collect();
        let read = read_bass(&text, None);
        for remark in &read.remarks {
            assert!(text.get(remark.at.clone()).is_some(), "{text}: {remark:?}");
        }
        for note in &read.notes {
            assert!(text.get(note.at.clone()).is_some(), "{text}: {note:?}");
        }
        let _ =
            read_figures(&text).map_err(|error| assert!(text.get(error.at).is_some(), "{text}"));
    }
}
