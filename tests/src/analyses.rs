//! Human analyses as basses with chords, and how far a harmonisation agrees with
//! them.
//!
//! The rows come from `tests/oracle/analyses.py`. An agreement is counted per bass
//! note: *exact*, the same figure (5/3, 6, 6/4, 7, 6/5, 4/3, 4/2); *class*, root
//! position (5/3 or 7) against inversion; *root*, the same root. The analyses name
//! no suspensions, so a suspended chord is compared by the chord it resolves to.

use std::collections::BTreeMap;

use anyhow::{Context, Result, bail};
use tastata::bass::NoteValue;
use tastata::harmony::{
    Chord, Direction, Habit, Harmony, HarmonyWishes, Manner, Version, harmonise_by, lattice,
    octave_rule,
};
use tastata::pitch::{Degree, Mode, Pitch, PitchClass, Step, Tonality};
use tastata::sketch::{Sketch, SketchNote, Weight};

use crate::chains::{self, Chain};
use crate::habit::{self, Case};
use crate::oracle;

/// A figure of an analysis.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Figure {
    /// 5/3.
    Triad,
    /// 6.
    Six,
    /// 6/4.
    SixFour,
    /// 7.
    Seven,
    /// 6/5.
    SixFive,
    /// 4/3.
    FourThree,
    /// 4/2.
    FourTwo,
    /// Anything else.
    Other,
}

impl Figure {
    /// Whether the bass is the root.
    pub fn is_root_position(self) -> bool {
        matches!(self, Figure::Triad | Figure::Seven)
    }

    /// As [`crate::counts::written`] knows it.
    pub(crate) fn name(self) -> &'static str {
        ["53", "6", "64", "7", "65", "43", "42", "?"][self as usize]
    }

    /// Its place among the figures that are learned.
    fn number(self) -> Option<usize> {
        (self != Figure::Other).then_some(self as usize)
    }

    fn parse(text: &str) -> Figure {
        match text {
            "53" => Figure::Triad,
            "6" => Figure::Six,
            "64" => Figure::SixFour,
            "7" => Figure::Seven,
            "65" => Figure::SixFive,
            "43" => Figure::FourThree,
            "42" => Figure::FourTwo,
            _ => Figure::Other,
        }
    }

    /// The figure of numbers above the bass, suspensions taken as resolved.
    fn of(numbers: &[u8]) -> Figure {
        match numbers {
            [3, 5] | [4, 5] | [3, 5, 9] => Figure::Triad,
            [3, 6] | [3, 7] => Figure::Six,
            [4, 6] => Figure::SixFour,
            [3, 5, 7] | [4, 5, 7] => Figure::Seven,
            [3, 5, 6] => Figure::SixFive,
            [3, 4, 6] => Figure::FourThree,
            [2, 4, 6] => Figure::FourTwo,
            _ => Figure::Other,
        }
    }

    /// The number the root stands at above the bass.
    fn root_number(self) -> i32 {
        match self {
            Figure::Triad | Figure::Seven | Figure::Other => 1,
            Figure::Six | Figure::SixFive => 6,
            Figure::SixFour | Figure::FourThree => 4,
            Figure::FourTwo => 2,
        }
    }
}

/// One bass note of an analysis.
#[derive(Clone, Debug)]
pub struct Event {
    /// The bass.
    pub bass: PitchClass,
    /// The analyst's figure.
    pub figure: Figure,
    /// The analyst's root.
    pub root: PitchClass,
    /// The analyst's tonality of the moment.
    pub tonality: Tonality,
    /// All tones, the bass first.
    pub classes: Vec<PitchClass>,
    /// When it begins, in quarters.
    pub at: f64,
}

/// A piece: its name and its bass notes.
#[derive(Clone, Debug)]
pub struct Piece {
    /// The name in the collection.
    pub name: String,
    /// The notes in order.
    pub events: Vec<Event>,
}

/// Reads one of the two collections, `chorales` or `madrigals`.
///
/// # Errors
///
/// When the library is not installed or prints something unforeseen. Where the
/// environment names a folder TASTATA_ANALYSES, its `chorales.tsv` and
/// `madrigals.tsv` are read instead.
pub fn pieces(collection: &str) -> Result<Vec<Piece>> {
    // The madrigals take the library a minute: rows printed before may be kept.
    let kept = std::env::var("TASTATA_ANALYSES").ok();
    match kept.map(|folder| std::fs::read_to_string(format!("{folder}/{collection}.tsv"))) {
        Some(text) => parse(&text?),
        None => parse(&oracle("analyses.py", &[collection], "")?),
    }
}

fn parse(text: &str) -> Result<Vec<Piece>> {
    let mut pieces: Vec<Piece> = Vec::new();
    for line in text.lines() {
        let columns: Vec<&str> = line.split('\t').collect();
        let [name, bass, figure, root, tonality, classes, at] = columns[..] else {
            bail!("not seven columns: {line}");
        };
        let class = |text: &str| Some(Tonality::parse(text)?.tonic);
        let event = Event {
            bass: class(bass).with_context(|| line.to_string())?,
            figure: Figure::parse(figure),
            root: class(root).with_context(|| line.to_string())?,
            tonality: Tonality::parse(tonality).with_context(|| line.to_string())?,
            classes: classes.split(' ').filter_map(class).collect(),
            at: at.parse().with_context(|| line.to_string())?,
        };
        match pieces.last_mut().filter(|piece| piece.name == name) {
            Some(piece) => piece.events.push(event),
            None => pieces.push(Piece { name: name.to_string(), events: vec![event] }),
        }
    }
    Ok(pieces)
}

/// A guess for one bass note.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Guess {
    /// The figure.
    pub figure: Figure,
    /// The root.
    pub root: PitchClass,
}

/// Agreements counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Score {
    /// Bass notes.
    pub notes: usize,
    /// Same figure.
    pub exact: usize,
    /// Same class.
    pub class: usize,
    /// Same root.
    pub root: usize,
}

impl Score {
    /// Counts the agreements of one piece.
    pub fn add(&mut self, piece: &Piece, guesses: &[Guess]) {
        for (event, guess) in piece.events.iter().zip(guesses) {
            let class = event.figure.is_root_position() == guess.figure.is_root_position();
            self.notes += 1;
            self.exact += usize::from(event.figure == guess.figure);
            self.class += usize::from(class);
            self.root += usize::from(event.root == guess.root);
        }
    }

    /// A count in per cent of the notes.
    pub fn percent(&self, count: usize) -> f64 {
        100.0 * count as f64 / self.notes.max(1) as f64
    }
}

/// Which tonality the harmony is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told {
    /// The analyst's at every note.
    Everywhere,
    /// Only the first.
    Opening,
}

/// Whether the harmony is told how long the notes last.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lengths {
    /// Each until the next.
    Known,
    /// None.
    Unknown,
}

/// The bass of a piece as pitches, each as near as can be to the one before.
pub fn bass(piece: &Piece) -> Vec<Pitch> {
    let mut last = Pitch::new(Step::C, 0, 3);
    let place = |event: &Event| {
        last = event.bass.nearest(last);
        // A line that always took the upper of two equal ways would climb away.
        if last.octave > 3 {
            last = event.bass.in_octave(last.octave - 1);
        }
        last
    };
    piece.events.iter().map(place).collect()
}

/// The bass of a piece as a sketch.
fn sketch(piece: &Piece, lengths: Lengths, version: Version) -> Sketch {
    let ends = piece.events.iter().skip(1).map(|next| next.at);
    let last = piece.events.last().map(|last| last.at + 4.0);
    let notes = bass(piece).into_iter().zip(&piece.events).zip(ends.chain(last));
    let notes = notes.map(|((pitch, event), end)| {
        // Rounded from the beginning, so that nothing drifts.
        let ticks = |at: f64| (at * f64::from(NoteValue::QUARTER.ticks())).round();
        let value = NoteValue::from_ticks((ticks(end) - ticks(event.at)).max(0.0) as u32);
        let value = value.filter(|_| lengths == Lengths::Known);
        SketchNote { value, weight: Weight::Structural, ..SketchNote::bare(pitch) }
    });
    Sketch {
        tonality: piece.events.first().map(|event| event.tonality),
        notes: notes.collect(),
        harmony: HarmonyWishes { version, ..HarmonyWishes::default() },
        ..Sketch::default()
    }
}

fn tonalities(piece: &Piece, told: Told) -> Vec<Option<Tonality>> {
    match told {
        Told::Everywhere => piece.events.iter().map(|event| Some(event.tonality)).collect(),
        Told::Opening => Vec::new(),
    }
}

/// The harmony's guesses for a piece.
pub fn guesses(
    piece: &Piece,
    told: Told,
    lengths: Lengths,
    version: Version,
    manner: &Manner,
) -> Vec<Guess> {
    let sketch = sketch(piece, lengths, version);
    let harmony = harmonise_by(&sketch, &tonalities(piece, told), manner);
    (0..piece.events.len()).map(|note| guess(&harmony, note)).collect()
}

/// Pieces as the search of a version sees them, each with and without its lengths, for
/// learning its habit.
pub fn chains(pieces: &[&Piece], version: Version) -> Vec<Chain> {
    let each = pieces.iter().flat_map(|it| [(it, Lengths::Known), (it, Lengths::Unknown)]);
    let chain = |(piece, lengths): (&&Piece, Lengths)| {
        let sketch = sketch(piece, lengths, version);
        let moments = lattice(&sketch, &tonalities(piece, Told::Everywhere));
        let figure = |note: usize| piece.events.get(note).and_then(|event| event.figure.number());
        Chain { figures: moments.iter().map(|it| figure(it.note)).collect(), moments }
    };
    each.map(chain).collect()
}

/// The bass notes of pieces one by one, for learning the habit of a version.
pub fn cases(pieces: &[&Piece], version: Version) -> Vec<Case> {
    let chains = chains(pieces, version).into_iter();
    let named = chains.flat_map(|chain| std::iter::zip(chain.moments, chain.figures));
    named
        .filter_map(|(moment, figure)| Some(Case { features: moment.features, figure: figure? }))
        .collect()
}

/// How a habit is learned.
#[derive(Clone, Copy)]
pub struct Learner<T> {
    /// What is learned from.
    pub of: fn(&[&Piece], Version) -> Vec<T>,
    /// Learns under a penalty.
    pub learn: fn(&[T], f64) -> Habit,
    /// How little what was learned expects what it has not seen.
    pub surprise: fn(&Habit, &[T]) -> f64,
}

/// Note by note.
pub const BY_NOTES: Learner<Case> =
    Learner { of: cases, learn: habit::learn, surprise: habit::surprise };
/// Within the search.
pub const BY_CHAINS: Learner<Chain> =
    Learner { of: chains, learn: chains::learn, surprise: chains::surprise };

/// The penalty that does best on pieces parted once more, each part foretold from
/// the others: the choice for pieces that were never looked at.
pub fn penalty_for<T>(
    pieces: &[&Piece],
    version: Version,
    learner: Learner<T>,
    penalties: &[f64],
) -> f64 {
    let of = |inner: usize, same: bool| {
        let parted =
            pieces.iter().enumerate().filter(|(at, _)| (at % INNER_PARTS == inner) == same);
        (learner.of)(&parted.map(|(_, piece)| *piece).collect::<Vec<_>>(), version)
    };
    let parts: Vec<_> = (0..INNER_PARTS).map(|it| (of(it, false), of(it, true))).collect();
    let surprised = |penalty: f64| -> f64 {
        let of = |(seen, new): &(Vec<T>, Vec<T>)| {
            (learner.surprise)(&(learner.learn)(seen, penalty), new)
        };
        parts.iter().map(of).sum()
    };
    let all = penalties.iter().map(|&penalty| (surprised(penalty), penalty));
    all.min_by(|a, b| a.0.total_cmp(&b.0)).map_or(1.0, |best| best.1)
}

const INNER_PARTS: usize = 6;
/// The penalties tried for the chorales.
pub const PENALTIES: [f64; 5] = [5.0, 8.0, 12.0, 18.0, 27.0];

/// Parts into which the pieces are divided to be learned without one another.
pub const PARTS: usize = 10;

/// The penalty that [`penalty_for`] finds for the pieces outside each part, and for all:
/// `habit choose` prints them.
const CHOSEN: [f64; PARTS] = [12.0, 12.0, 18.0, 18.0, 18.0, 12.0, 12.0, 18.0, 18.0, 18.0];
/// The same for all pieces together.
pub const CHOSEN_FOR_ALL: f64 = 12.0;

/// Rows of the habit that say less of every figure, in hundredths, are left out.
const LEAST_SAID: i32 = 5;

/// The habit learned from chorales, as it is kept.
pub fn learned(pieces: &[&Piece], penalty: f64) -> String {
    chains::learn(&chains(pieces, Version::Chorales), penalty).print(LEAST_SAID)
}

/// For each chorale, the manner whose habit is learned from the parts it is not in.
pub fn held_out(pieces: &[Piece]) -> Vec<Manner> {
    let manners: Vec<Manner> = std::thread::scope(|scope| {
        let manner = |part: usize| {
            scope.spawn(move || {
                Manner::chorales(Habit::read(&learned(&others(pieces, part), CHOSEN[part])))
            })
        };
        let learning: Vec<_> = (0..PARTS).map(manner).collect();
        learning.into_iter().filter_map(|it| it.join().ok()).collect()
    });
    (0..pieces.len()).map(|at| manners[at % PARTS].clone()).collect()
}

/// For each piece of a collection, the version learned from it with the manner that has
/// not seen the piece.
pub fn unseen(collection: &str, pieces: &[Piece]) -> (Version, Vec<Manner>) {
    match collection {
        "chorales" => (Version::Chorales, held_out(pieces)),
        _ => (Version::Madrigals, crate::madrigals::held_out(pieces)),
    }
}

/// The pieces that are not in a part.
pub fn others(pieces: &[Piece], part: usize) -> Vec<&Piece> {
    let others = pieces.iter().enumerate().filter(|(at, _)| at % PARTS != part);
    others.map(|(_, piece)| piece).collect()
}

/// What the harmony has on a note: the chord of its last stage.
pub fn guess(harmony: &Harmony, note: usize) -> Guess {
    let last = harmony.chords.iter().rfind(|chord| chord.note == note);
    let plain = Guess { figure: Figure::Other, root: PitchClass::new(Step::C, 0) };
    last.map_or(plain, of_chord)
}

fn of_chord(chord: &Chord) -> Guess {
    let mut numbers: Vec<u8> =
        chord.tones.iter().map(|tone| tone.number).filter(|&number| number > 1).collect();
    numbers.sort_unstable();
    let figure = Figure::of(&numbers);
    let number = figure.root_number() as u8;
    let root = chord.tones.iter().find(|tone| tone.number == number);
    Guess { figure, root: root.map_or(chord.bass.class(), |tone| tone.class) }
}

/// The root of a bare figure in a tonality, the scale's own tones taken.
fn with_root(event: &Event, figure: Figure) -> Guess {
    let step = Step::wrapped(event.bass.step.index() + figure.root_number() - 1);
    let root = if figure.root_number() == 1 { event.bass } else { event.tonality.class_of(step) };
    // The leading note of minor is raised where it is the root of its chord.
    let degree = event.tonality.degree_of(step).number();
    let leading = event.tonality.mode == Mode::Minor && degree == 7 && figure == Figure::Six;
    Guess { figure, root: if leading { event.tonality.leading() } else { root } }
}

/// First baseline: always 5/3.
pub fn always_triads(piece: &Piece) -> Vec<Guess> {
    piece.events.iter().map(|event| with_root(event, Figure::Triad)).collect()
}

/// Second baseline: the octave rule where the bass leaves by step, else 5/3.
pub fn octave_rule_only(piece: &Piece) -> Vec<Guess> {
    let guess = |(at, event): (usize, &Event)| {
        let leaves = piece.events.get(at + 1).and_then(|next| {
            match (next.bass.step.index() - event.bass.step.index()).rem_euclid(7) {
                1 => Some(Direction::Up),
                6 => Some(Direction::Down),
                _ => None,
            }
        });
        let degree = event.tonality.degree_of(event.bass.step);
        let figure = leaves.map_or(Figure::Triad, |leaves| {
            figure_of_cell(Version::Campion, event.tonality.mode, leaves, degree)
        });
        with_root(event, figure)
    };
    piece.events.iter().enumerate().map(guess).collect()
}

fn figure_of_cell(version: Version, mode: Mode, leaves: Direction, degree: Degree) -> Figure {
    let cell = octave_rule(version, mode, leaves, degree);
    let tonality = Tonality::new(PitchClass::new(Step::C, 0), mode);
    let expansion = tastata::figures::expand(&cell.stage, tonality.scale(degree), tonality);
    Figure::of(&expansion.tones.iter().map(|tone| tone.number).collect::<Vec<_>>())
}

/// A bass note's surroundings: degree, approach and departure, in fifths.
type Surroundings = (Mode, i32, Option<i32>, Option<i32>);

fn contexts(piece: &Piece) -> Vec<Surroundings> {
    let events = &piece.events;
    let context = |(at, event): (usize, &Event)| {
        let tonic = event.tonality.tonic.fifths();
        let place = |event: &Event| event.bass.fifths() - tonic;
        let before = at.checked_sub(1).and_then(|at| events.get(at)).map(place);
        let after = events.get(at + 1).map(place);
        (event.tonality.mode, place(event), before, after)
    };
    events.iter().enumerate().map(context).collect()
}

/// Third baseline: the most common figure for degree, approach and departure in
/// all the other pieces; where they never met, for degree and departure, then for
/// the degree alone.
pub fn most_common(pieces: &[Piece], held_out: usize) -> Vec<Guess> {
    let mut counts: BTreeMap<(u8, Surroundings), BTreeMap<Figure, usize>> = BTreeMap::new();
    let levels = |context: Surroundings| {
        let (mode, degree, _, after) = context;
        [(2, context), (1, (mode, degree, None, after)), (0, (mode, degree, None, None))]
    };
    for (_, piece) in pieces.iter().enumerate().filter(|(at, _)| *at != held_out) {
        for (event, context) in piece.events.iter().zip(contexts(piece)) {
            for level in levels(context) {
                *counts.entry(level).or_default().entry(event.figure).or_default() += 1;
            }
        }
    }
    let Some(piece) = pieces.get(held_out) else { return Vec::new() };
    let guess = |(event, context): (&Event, Surroundings)| {
        let met = levels(context).into_iter().find_map(|level| counts.get(&level));
        let figure = met.and_then(|figures| figures.iter().max_by_key(|(_, count)| **count));
        with_root(event, figure.map_or(Figure::Triad, |(figure, _)| *figure))
    };
    piece.events.iter().zip(contexts(piece)).map(guess).collect()
}

/// One row of the comparison.
#[derive(Clone, Debug)]
pub struct Row {
    /// Whose chords.
    pub name: String,
    /// What they were told of the tonality.
    pub told: &'static str,
    /// How far they agree.
    pub score: Score,
}

/// The baselines and the harmony under its versions over one collection; each piece is
/// read by manners that have not seen it, see [`unseen`].
pub fn comparison(pieces: &[Piece], unseen: &(Version, Vec<Manner>)) -> Vec<Row> {
    let row = |name: &str, told, of: &dyn Fn(usize, &Piece) -> Vec<Guess>| {
        let mut score = Score::default();
        for (at, piece) in pieces.iter().enumerate() {
            score.add(piece, &of(at, piece));
        }
        Row { name: name.to_string(), told, score }
    };
    let everywhere = "each note's tonality";
    let mut rows = vec![
        row("always 5/3", everywhere, &|_, piece| always_triads(piece)),
        row("octave rule where the bass steps, else 5/3", everywhere, &|_, piece| {
            octave_rule_only(piece)
        }),
        row("most common, held out", everywhere, &|at, _| most_common(pieces, at)),
    ];
    let manner = |at: usize, version: Version| {
        // A rule is led by the chorales' manner.
        let followed = if version.is_counted() { version } else { Version::Chorales };
        let own = unseen.1.get(at).filter(|_| unseen.0 == followed);
        own.unwrap_or_else(|| Manner::of(followed))
    };
    let tolds = [(Told::Everywhere, everywhere), (Told::Opening, "opening tonality only")];
    for version in [Version::Campion, Version::Gasparini] {
        for (told, said) in tolds {
            rows.push(row(&format!("Tastata, {version:?}"), said, &|at, piece| {
                guesses(piece, told, Lengths::Unknown, version, manner(at, version))
            }));
        }
    }
    for version in [Version::Chorales, Version::Madrigals] {
        for (lengths, also) in [(Lengths::Unknown, ""), (Lengths::Known, ", lengths told")] {
            for (told, said) in tolds {
                rows.push(row(&format!("Tastata, {version:?}{also}"), said, &|at, piece| {
                    guesses(piece, told, lengths, version, manner(at, version))
                }));
            }
        }
    }
    rows
}

/// The comparison as lines of a table: harmony, told, exact, class, root.
pub fn table(rows: &[Row]) -> Vec<String> {
    let line = |row: &Row| {
        let Score { exact, class, root, .. } = row.score;
        let percent = |count| row.score.percent(count);
        format!(
            "| {} | {} | {:.1} | {:.1} | {:.1} |",
            row.name,
            row.told,
            percent(exact),
            percent(class),
            percent(root)
        )
    };
    rows.iter().map(line).collect()
}
