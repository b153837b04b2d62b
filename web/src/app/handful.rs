//! Changing a handful by hand: which edit a pressed key means, and keeping it.

use std::cmp::Ordering;
use tastata::hands::{Edit, Hand, Handful, edited};
use tastata::pitch::{Key, Pitch};
use tastata::reading::Reading;
use tastata::sketch::Sketch;

/// Makes a change to the handful of a chord and keeps the result as the person's own.
pub(super) fn edit(sketch: &mut Sketch, reading: &Reading, chord: usize, edit: Edit) -> Option<()> {
    let it = reading.harmony.chords.get(chord)?;
    let handful = reading.hands.handfuls.get(chord)?;
    let new = edited(handful, it, edit);
    if new != *handful {
        *slot(sketch, it.note, it.stage)? = Some(new);
    }
    Some(())
}

/// Leaves the handful of a chord to the program again.
pub(super) fn free(sketch: &mut Sketch, reading: &Reading, chord: usize) -> Option<()> {
    let it = reading.harmony.chords.get(chord)?;
    *slot(sketch, it.note, it.stage)? = None;
    let kept = &mut sketch.notes.get_mut(it.note)?.handfuls;
    while kept.last() == Some(&None) {
        kept.pop();
    }
    Some(())
}

/// What pressing a key does to a handful: an inner note there is taken out, any
/// other key is added to the nearer hand.
pub(super) fn pressed(reading: &Reading, chord: usize, key: Key) -> Option<Edit> {
    let handful = reading.hands.handfuls.get(chord)?;
    for (hand, notes) in [(Hand::Left, &handful.left), (Hand::Right, &handful.right)] {
        if let Some(&pitch) = notes.iter().find(|pitch| pitch.key() == Some(key)) {
            return Some(Edit::Drop { hand, pitch });
        }
    }
    let chord = reading.harmony.chords.get(chord)?;
    let same = |pitch: Pitch| pitch.key() == Some(key);
    let spelled = reading.harmony.home.spell(key);
    let tone = chord.tones.iter().map(|tone| tone.class.nearest(spelled)).find(|&p| same(p));
    Some(Edit::Add { hand: nearer(handful, key), pitch: tone.unwrap_or(spelled) })
}

/// Which hand takes a key: between the two, the emptier one that reaches an octave to it,
/// else the nearer.
fn nearer(handful: &Handful, key: Key) -> Hand {
    let number = |pitch: Option<&Pitch>| pitch.map_or(key.number(), |p| p.semitones());
    let (left, right) = (number(handful.left.last()), number(handful.right.first()));
    if (left..=right).contains(&key.number()) {
        let (low, high) = (number(handful.left.first()), number(handful.right.last()));
        match handful.left.len().cmp(&handful.right.len()) {
            Ordering::Less if key.number() - low <= 12 => return Hand::Left,
            Ordering::Greater if high - key.number() <= 12 => return Hand::Right,
            _ => {}
        }
    }
    if key.number() - left <= right - key.number() { Hand::Left } else { Hand::Right }
}

fn slot(sketch: &mut Sketch, note: usize, stage: usize) -> Option<&mut Option<Handful>> {
    let kept = &mut sketch.notes.get_mut(note)?.handfuls;
    if kept.len() <= stage {
        kept.resize(stage + 1, None);
    }
    kept.get_mut(stage)
}
