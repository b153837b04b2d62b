//! Figured basses of their time, with the figures their composers gave them, as texts
//! that [`tastata::bass::read_bass`] reads: what a player at the keyboard had before
//! them. A note that the transcription leaves without figures has none here. Notes
//! tied over are written again where their figures change.

use tastata::bass::read_bass;
use tastata::figures::Stage;
use tastata::harmony::{Version, harmonise};
use tastata::sketch::{Sketch, Weight};

use crate::analyses::{Event, Figure, Guess, Piece, Score, guess};

/// A figured bass.
pub struct Figured {
    /// Where it was printed, and whose transcription was read.
    pub source: &'static str,
    /// The bass.
    pub text: &'static str,
}

/// The collection.
pub const FIGURED: [Figured; 3] = [
    Figured {
        source: "Fenaroli, partimenti, book II, no. 7 (adamcho14, Partimenti-Corpus)",
        text: "C major:
            C3=8:5/3 D3 E3:6 C3 F3 E3:6 D3:7 G3:3 | E3:6 F3:5 D3:7 G3:3 E3:6 A3:5 D3:7 G3:3 |
            C3=4 C4 C4=8:#4/2 B3=16 A3 B3=8:6 G3 | F#3:6/5 F#3 F#3 F#3 G3:5/4 G3 G3:3 G3 |
            D3=4:4 D4:#3 D4:4/2 C4:6 | C4:#4/2 B3:6 A3=2 | G3=8 B2:6 B2 B2 C3=4:10/9 E3:6 |
            D3=8:7 F#3 G3:3 B2 C3:6/5 A2 D3:4 D2:#3 | G2=4 G3 G3:4/2 F#3:6/5 |
            G3:10/9 G2:8 D3:5/4 D2:#3 | G2:5/3 E3:5/3 E3:4/#2 D#3:6 | E3:5 C4:6 B3:#5/4 B2:#3 |
            E3:5 A3:5 A3:4/2 G#3:6 | A3 D3:6 E3:5/4 E3:# | A3:5 C4:5 C4:n4/2 B3:6 |
            C4:5 E3:6 G3:5/4 G2:3 | C3:3 C4 C4:4/2 Bb3:6 | Bb3:4/2 A3:6 G3:7/b3 C3:b7/3 |
            F3:10/9 F2:8 Bb2=2:10/9-8 | C3=4:b7 F3:5 Bb2:6/5 C3:5 | F2:5 F3 F3:4/2 E3:6 |
            D3=2:7-6 C3=8:5/3 E3 D3 C3 | B2=4:6/5 C3:5 G2:5 G3=8 F3 |
            E3:6 D3 E3 C3 F3:10/9 G3 A3:6 F3 | G3=4:7/5 C4:5 G3:5/4 G2:3 |
            C3:5 r C#3=8:6/5 C#3 C#3 C#3 | D3:10/9 E3 F3:6 D3 C#3:6/5 C#3 C#3 C#3 |
            D3:10/9 E3 F3:6 G3 A3=2 | Bb3 A3=4:#3 F3:6 | G3=2:b10/9-8 F3=8:6 E3 F3 D3 |
            A3=4:4 A2:# D3 r | B2=8:6/5 B2 B2 B2 C3:10/9 D3 E3:6 C3 |
            B2:6/5 B2 B2 B2 C3:10/9 D3 E3:6 F3 | G3=2:5/4-3 A3 | G3=4:5 E3:6 F3=2:10/9-8 |
            E3=8:6 D3 E3 C3 G3=4:4 G2:3 | C3 C4 C4:4/2 B3:6 | B3 A3 A3:4/2 G3:6 |
            G3:4/2 F3:6 F3:4/2 E3:6 | D3:6 C3 A2:6 B2:6/5 | C3:4 C2:3 A2:6 B2:6/5 |
            C3 E3:6 F3=8:6/5 D3 E3 F3 | G3=4:4 G2:3 C3=8 D3 E3 C3 | G3=1:5/3-6/4-5/4-5/3 | C3",
    },
    Figured {
        source: "Fenaroli, partimenti, book II, no. 2 (adamcho14, Partimenti-Corpus)",
        text: "G minor:
            G3=1:8/3 | D4 | Eb4 | D4=4:5/# C4 Bb3 A3 | G3:5/3 F3 Eb3 D3 | C3=2:6/5 D3:5/#3 |
            G2:5/3 r | Bb3=1:8/5/3 | F4:5/4-5/3 | G4 | F4=4:5/3 Eb4 D4 C4 | Bb3:5/3 A3 G3 F3 |
            Eb3=2:6/5/3 F3 | Bb2:5/3 Bb3 | F#3:6/5 G3:5/3 | Eb3=1 | D3=4:5/#3 D4 D4 C4 |
            B3:6/5 B3 B3 B3 | C4=2:5/3 Ab3:6/3 | G3:5/4 G2:n3 | C3=1:5/3 | D3 | Eb3:6 | D3 |
            C3=4:5/3 C4 C4 Bb3 | A3:6/5 A3 A3 A3 | Bb3=2:5/3 Eb3:6/5 | F3:5/4 F2:5/3 |
            Bb2=1:5/3 | C3:7-6 | D3:6 | C3:7-6 | Bb2=2:5 D3:6/3 | Eb3:10/9 Eb2:8 | r D3:6/b5 |
            Eb3:5/b4 Eb2:5/3 | r E3:6/5 | F3:10/9 F2:8 | r E3:6/5 | F3:5/4 F2:5/3 | r F#3:6/5 |
            G3:10/9 G2:8 | r F#3:6/5 | G3:5/4 G2:3 | G3:n3 F3:_ | Eb3:6 C3 | B2=1:6/5 |
            C3:5/4-5/3 | F3=2:5/3 Eb3:_ | D3:6 Bb2 | A2=1:6/5 | Bb2=2:5/4 Bb3:3 |
            Bb3:4/2 A3:6/5 | Bb3 D3:6 | Eb3:6/5 F3:5/3 | Bb2:5/3 Bb3 | Bb3:4/2 Ab3:6 |
            Ab3:4/3 G3:6 | F3:7/b3 Bb3:5/3 | Eb3=4:5/3 F3 G3 Eb3 | Ab3:9 Bb3 C4:b6 Ab3 |
            G3:6/b5 F3 G3 Eb3 | Ab3:10/9 Bb3 C4:b6 Ab3 | F3:7/5/n3 G3 A3 F3 |
            Bb3:10/9 C4 D4:6 Bb3 | A3:6/5 G3 A3 F3 | Bb3 C4 D4:6 Bb3 | G3:7/5/n3 A3 B3 G3 |
            C4:10/9 D4 Eb4:6 C4 | B3:6/5 A3 B3 G3 | C4=1:5/4-3 | Ab3 | G3=2:5/n3 Eb3:6 |
            Ab3=1 | G3=2:5/n3 Eb3:6 | F3:b10/9 F3:8/b3 | G3=4:5/n3 F3 Eb3:6 C3 |
            F3=2:6/5/b3 G3:5/n3 | C3:5/3 C4 | C4:#4/2 Bb3:6 | A3:#6 G3:5/3 | F#3:6 D3 | Eb3=1 |
            D3=4:5/#3 D4 D4 C4 | Bb3:6 A3 Bb3 G3 | C4:10/9 C3 Eb3:6 C3 | D3=2:7/5/#3 G3:5/3 |
            C3:6/5 D3:5/#3 | G2:5/3 G3 | G3:4/2 F3:6 | F3:4/2 Eb3:6 | Eb3:4/2 D3:6 |
            D3:4/2 C3:6 | C3:6/#4/2 Bb2:6 | A2:#6 G2:5/3 | D3=1:5/3-6/4-5/4-5/3 | G2:5/3",
    },
    Figured {
        source: "Corelli, op. 5 no. 12, theme (C.S. Sapp, Humdrum's page on figured bass)",
        text: "D minor:
            D3=2. | A2:# | D3:5-n6 | C3 | F3 | C3=2 C#3=4:6 | D3 Bb2=2:7-6 | A2=2.:# |
            D3 | A2:# | D3:5-n6 | C3 | F3 | C3=4. C#3=8:6 D3=4 | G2:7/5 A2=2:5/4-#3 | D3=2.",
    },
];

/// A figured bass as a sketch, with its figures or without.
pub fn sketch(figured: &Figured, bare: bool) -> Sketch {
    let read = read_bass(figured.text, None);
    assert_eq!(read.remarks, [], "{}", figured.source);
    let mut notes: Vec<_> = read.notes.iter().map(|note| note.to_sketch()).collect();
    if bare {
        for note in &mut notes {
            // What was figured bears a chord; which one is the question.
            if note.figures.take().is_some() {
                note.weight = Weight::Structural;
            }
        }
    }
    Sketch { tonality: read.tonality, notes, ..Sketch::default() }
}

/// Whose chords are held against the figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chords {
    /// A plain chord on every note.
    Plain,
    /// Ours over the bare bass, under a version of the octave rule; told are the
    /// opening tonality and the lengths of the notes.
    Read(Version),
}

/// How far they agree with what was figured, over the figured notes of some basses.
pub fn agreement(basses: &[Figured], chords: Chords) -> Score {
    let mut score = Score::default();
    for figured in basses {
        let (given, mut bare) = (sketch(figured, false), sketch(figured, true));
        if let Chords::Read(version) = chords {
            bare.harmony.version = version;
        }
        let (theirs, ours) = (harmonise(&given), harmonise(&bare));
        let mut piece = Piece { name: figured.source.to_owned(), events: Vec::new() };
        let mut guesses = Vec::new();
        for (at, note) in given.notes.iter().enumerate() {
            let Some(figures) = &note.figures else { continue };
            // A dash says that the chord before goes on.
            if figures.stages() == [Stage::Hold] {
                continue;
            }
            let (bass, tonality) = (note.pitch.class(), theirs.home);
            let Guess { figure, root } = guess(&theirs, at);
            piece.events.push(Event { bass, figure, root, tonality, classes: Vec::new(), at: 0.0 });
            guesses.push(match chords {
                Chords::Plain => Guess { figure: Figure::Triad, root: bass },
                Chords::Read(_) => guess(&ours, at),
            });
        }
        score.add(&piece, &guesses);
    }
    score
}

/// The agreement as lines of a table: bass, chords, figured notes, exact, class, root.
pub fn table() -> Vec<String> {
    let line = |bass: &str, chords: Chords, score: Score| {
        let whose = match chords {
            Chords::Plain => "always 5/3".to_string(),
            Chords::Read(version) => format!("Tastata, {version:?}"),
        };
        let percent = |count| score.percent(count);
        format!(
            "| {bass} | {whose} | {} | {:.1} | {:.1} | {:.1} |",
            score.notes,
            percent(score.exact),
            percent(score.class),
            percent(score.root)
        )
    };
    let named = |figured: &'static Figured| figured.source.split(" (").next().unwrap_or_default();
    let usual = Chords::Read(Version::Campion);
    let of = |bass: &'static Figured| {
        line(named(bass), usual, agreement(std::slice::from_ref(bass), usual))
    };
    let versions = Version::ALL.into_iter().map(Chords::Read);
    let together = std::iter::once(Chords::Plain).chain(versions);
    let together = together.map(|chords| line("all three", chords, agreement(&FIGURED, chords)));
    FIGURED.iter().map(of).chain(together).collect()
}
