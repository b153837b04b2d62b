//! Two handfuls for every chord: within a hand's span, hands apart, complete.

mod check;
mod costs;
mod ease;
mod edit;
mod grip;
mod keyboard;
mod memory;
mod playable;
mod solver;
mod wishes;

pub use check::{HandRemark, HandTrouble, Strain, strain};
pub use ease::ease;
pub use edit::{Edit, Way, edited};
pub use keyboard::looks;
pub(crate) use keyboard::sounds;
pub use memory::HandsMemory;
pub(crate) use playable::place_of;
pub use playable::{Hardship, HardshipKind, hardships};
pub use wishes::{Compass, HandSize, HandWishes, LowKeys, Spacing};

use crate::frame::{Frame, rests};
use crate::harmony::Chord;
use crate::order;
use crate::pitch::Pitch;
use crate::sketch::Sketch;

/// Left or right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Hand {
    /// The left hand, with the bass.
    Left,
    /// The right hand, with the soprano.
    Right,
}

/// One chord in two hands.
///
/// Invariant (kept by [`handfuls`]): each hand low to high without a repeated
/// key; the left starts on the bass, the right ends on the soprano; every left
/// note lies below every right note. In *tasto solo* the right hand is empty.
/// Where the soprano lies on or below the bass each hand has its one note, or
/// the left hand alone has the key they share, and a remark says so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Handful {
    /// The left hand's notes, low to high.
    pub left: Vec<Pitch>,
    /// The right hand's notes, low to high.
    pub right: Vec<Pitch>,
}

/// All handfuls of a piece.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Hands {
    /// One for each chord.
    pub handfuls: Vec<Handful>,
    /// What could not be honoured, in order of place.
    pub remarks: Vec<HandRemark>,
}

/// Opens every chord into two handfuls: the most comfortable over the whole
/// piece, with the person's own where they are given. Cost: linear in the chords.
pub fn handfuls(sketch: &Sketch, chords: &[Chord], frame: &Frame) -> Hands {
    best_handfuls(sketch, chords, frame, 1).pop().unwrap_or_default()
}

/// The `k` most comfortable ways to open every chord, best first; fewer if there
/// are fewer, none for no chords.
pub fn best_handfuls(sketch: &Sketch, chords: &[Chord], frame: &Frame, k: usize) -> Vec<Hands> {
    memory::solve(&mut HandsMemory::default(), sketch, chords, frame, k)
}

/// [`handfuls`], taking over what the memory holds of a piece that differs little;
/// the answer is the same.
pub fn handfuls_anew(
    memory: &mut HandsMemory,
    sketch: &Sketch,
    chords: &[Chord],
    frame: &Frame,
) -> Hands {
    memory::solve(memory, sketch, chords, frame, 1).pop().unwrap_or_default()
}

/// Handfuls for the moments of a drag: those of `before` stay where chord and soprano
/// are what they were, and only the others are opened, as comfortably as can be between
/// them. Everything else holds as for [`handfuls`].
pub fn handfuls_in_brief(
    sketch: &Sketch,
    chords: &[Chord],
    frame: &Frame,
    before: (&[Chord], &Frame, &Hands),
) -> Hands {
    memory::solve_in_brief(sketch, chords, frame, before)
}

/// The sets of notes each hand may choose among.
fn free(sketch: &Sketch, chord: &Chord, soprano: Pitch) -> (Vec<Vec<Pitch>>, Vec<Vec<Pitch>>) {
    if let Some(alone) = bare(chord, soprano) {
        return (vec![alone.left], vec![alone.right]);
    }
    let wishes = &sketch.hands;
    (grip::left_sets(wishes, chord, soprano), grip::right_sets(wishes, chord, soprano))
}

/// The handful where there is no room between the outer voices, or no soprano.
fn bare(chord: &Chord, soprano: Pitch) -> Option<Handful> {
    let left = vec![chord.bass];
    if rests(chord) || soprano.same_key(chord.bass) {
        Some(Handful { left, right: Vec::new() })
    } else if soprano.semitones() < chord.bass.semitones() {
        Some(Handful { left, right: vec![soprano] })
    } else {
        None
    }
}

/// The person's own handful over a chord, its outer notes those of today, and how
/// many of its inner notes no longer lie between them.
fn own(sketch: &Sketch, chord: &Chord, soprano: Pitch) -> Option<(Handful, usize)> {
    let fixed = sketch.notes.get(chord.note)?.handfuls.get(chord.stage)?.as_ref()?;
    let inner = |notes: &[Pitch]| {
        let mut notes: Vec<Pitch> = notes.to_vec();
        order::sort(&mut notes);
        notes.dedup_by(|a, b| a.same_key(*b));
        notes
    };
    let left = inner(fixed.left.get(1..).unwrap_or(&[]));
    let right = inner(fixed.right.get(..fixed.right.len().saturating_sub(1)).unwrap_or(&[]));
    let count = left.len() + right.len();
    if let Some(alone) = bare(chord, soprano) {
        return Some((alone, count));
    }
    let between = |pitch: &&Pitch| {
        chord.bass.semitones() < pitch.semitones() && pitch.semitones() < soprano.semitones()
    };
    let mut handful = Handful { left: vec![chord.bass], right: Vec::new() };
    handful.left.extend(left.iter().filter(between));
    let top = handful.left.last().map_or(i32::MIN, |pitch| pitch.semitones());
    let above = |pitch: &&Pitch| pitch.semitones() > top;
    handful.right.extend(right.iter().filter(between).filter(above));
    handful.right.push(soprano);
    let kept = handful.left.len() + handful.right.len() - 2;
    Some((handful, count - kept))
}
