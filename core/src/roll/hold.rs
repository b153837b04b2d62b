//! When fingers lift: notes are collected and held under the hand until the
//! chord changes, added notes are left at once, and a key that is struck again
//! lifts just before. A hand may instead keep what it finds again in the next
//! chord, or let each note go as it strikes the next.

use super::line::Fingered;
use super::wishes::Held;
use super::{Micros, NoteKind, Touch};
use crate::hands::{Hand, HandWishes, place_of};
use crate::pitch::Key;

/// Time a key needs to rise before it is struck again, in microseconds.
const LIFT: u64 = 36_000;
/// How far the right hand's old notes reach into the new chord at most, in microseconds.
const OVERLAP: u64 = 90_000;

/// A touch whose key-up is still to be set, held no longer than `brief`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Open {
    pub(super) touch: Touch,
    pub(super) brief: Option<u64>,
}

/// What a hand does without lifting between: a chord's strokes, or a run or detour
/// within it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Group {
    chord: usize,
    errand: Errand,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Errand {
    Strokes,
    Run,
    Detour,
}

impl Group {
    fn of(touch: &Touch) -> Group {
        let errand = match touch.kind {
            NoteKind::Run => Errand::Run,
            NoteKind::Detour => Errand::Detour,
            NoteKind::Chord
            | NoteKind::Acciaccatura
            | NoteKind::Passing
            | NoteKind::Neighbour
            | NoteKind::Ornament
            | NoteKind::Anticipation
            | NoteKind::Suspension => Errand::Strokes,
        };
        Group { chord: touch.chord, errand }
    }
}

/// When a chord begins, when its harmony is left, and the keys of the chord before
/// that stay down into it.
#[derive(Clone, Debug, Default)]
pub(super) struct Span {
    pub(super) starts: Micros,
    pub(super) leaves: Micros,
    pub(super) kept: Vec<(Hand, Key)>,
}

/// The notes of a chord, of those a hand is about to need, that it has still down
/// from the chord before: none that it had to leave since, nor any that it cannot
/// hold while it strikes the others. `before` are those that were kept then.
pub(super) fn still_down(
    open: &[Open],
    chord: usize,
    before: &[(Hand, Key)],
    needs: &[Fingered],
    wishes: &HandWishes,
) -> Vec<(Hand, Key)> {
    let place = |key: Key| place_of(wishes, key);
    let stays = |note: &&Fingered| {
        let here = (note.hand, note.key);
        let mine = |it: &&Open| (it.touch.hand, it.touch.key) == here;
        let Some(at) = open.iter().rposition(|it| mine(&it)) else { return false };
        let (last, since) = (&open[at], open.get(at + 1..).unwrap_or_default());
        let reach = match note.hand {
            Hand::Left => wishes.left.reach(),
            Hand::Right => wishes.right.reach(),
        };
        let near = |key: Key| (place(key) - place(note.key)).abs() <= reach;
        let beside = |touch: &Touch| match (note.hand, touch.hand) {
            (Hand::Left, Hand::Right) => touch.key > note.key,
            (Hand::Right, Hand::Left) => touch.key < note.key,
            (Hand::Left, Hand::Left) | (Hand::Right, Hand::Right) => {
                near(touch.key) && Group::of(touch).errand == Errand::Strokes
            }
        };
        let there = last.touch.chord + 1 == chord || before.contains(&here);
        there
            && last.brief.is_none()
            && Group::of(&last.touch).errand == Errand::Strokes
            && since.iter().all(|it| beside(&it.touch))
            && needs.iter().filter(|other| other.hand == note.hand).all(|other| near(other.key))
    };
    needs.iter().skip(1).filter(stays).map(|note| (note.hand, note.key)).collect()
}

/// The touches with their key-ups, from touches in playing order.
pub(super) fn lift(open: &[Open], spans: &[Span], held: Held) -> Vec<Touch> {
    let end = spans.last().map(|span| span.leaves).unwrap_or_default();
    let mut again: [Option<(usize, Micros)>; 128] = [None; 128];
    // For each hand, from the last: its groups with their first strikes.
    let mut groups: [Vec<(Group, Micros)>; 2] = [Vec::new(), Vec::new()];
    // Its strike after this one.
    let mut strikes: [Option<Micros>; 2] = [None; 2];
    let mut touches: Vec<Touch> = open
        .iter()
        .rev()
        .map(|&Open { mut touch, brief }| {
            let groups = &mut groups[touch.hand as usize];
            let next = strikes[touch.hand as usize].replace(touch.down);
            let group = Group::of(&touch);
            match groups.last_mut() {
                Some((now, first)) if *now == group => *first = touch.down,
                Some(_) | None => groups.push((group, touch.down)),
            }
            // A hand leaves its notes when it strikes elsewhere; the right hand may
            // hold on a little into the new chord, unless there is silence between.
            let until = |chord: usize, elsewhere: Option<Micros>| {
                let leave = spans.get(chord).map_or(end, |span| span.leaves);
                let follows = spans.get(chord + 1).is_some_and(|next| next.starts == leave);
                let reach = if follows && touch.hand == Hand::Right { OVERLAP } else { 0 };
                Micros(leave.0 + reach).min(elsewhere.unwrap_or(end))
            };
            let before = groups.len().checked_sub(2).and_then(|at| groups.get(at));
            let mut up = until(touch.chord, before.map(|&(_, first)| first));
            // A key that stays down goes with the last chord it stays for.
            let mut chord = touch.chord;
            let struck = again[touch.key.index()].map(|(chord, _)| chord);
            while brief.is_none()
                && spans
                    .get(chord + 1)
                    .is_some_and(|span| span.kept.contains(&(touch.hand, touch.key)))
                && struck.is_none_or(|struck| struck > chord)
            {
                chord += 1;
                let stays = Group { chord, errand: Errand::Strokes };
                let elsewhere = groups
                    .iter()
                    .rev()
                    .find(|(it, _)| it.chord > chord || it.chord == chord && *it != stays);
                up = until(chord, elsewhere.map(|&(_, first)| first));
            }
            if let Some(brief) = brief {
                up = up.min(Micros(touch.down.0 + brief));
            }
            if held == Held::LetGo {
                up = up.min(next.unwrap_or(end));
            }
            if let Some((_, next)) = again[touch.key.index()] {
                let gap = next.0.saturating_sub(touch.down.0);
                up = up.min(Micros(next.0 - LIFT.min(gap / 2)));
            }
            touch.up = up.max(Micros(touch.down.0 + 1));
            again[touch.key.index()] = Some((touch.chord, touch.down));
            touch
        })
        .collect();
    touches.reverse();
    touches
}
