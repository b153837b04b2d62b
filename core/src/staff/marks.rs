//! The marks of faults: lines drawn from chord to chord along the voices they
//! concern, as a teacher draws them in ink, with a sign above the staff: the
//! number of a repeated interval, else a cross for a fault and a question mark
//! for a caution. A fault's lines are whole, a caution's broken.

use super::draw::PIN_HEIGHT;
use super::drawing::{ChordPlace, System};
use super::glyph::{Glyph, Size};
use super::glyphs;
use super::heads::Shape;
use super::pen::Pen;
use super::scene::Scene;
use crate::frame::{Fault, Rule, Severity};

/// Clear space between a head and a line.
const AIR: f64 = 0.25;
/// Clear space between the staff or a note and the sign above it.
const SIGN_AIR: f64 = 0.7;
/// Width kept free for one sign.
const SIGN_WIDTH: f64 = 1.6;

/// The gravest remark on each voice of a chord.
#[derive(Clone, Copy, Default)]
pub(super) struct Gravity {
    pub(super) bass: Option<Severity>,
    pub(super) soprano: Option<Severity>,
}

/// The gravest remark on each voice of each chord.
pub(super) fn gravities(faults: &[Fault], chords: usize) -> Vec<Gravity> {
    let mut gravities = vec![Gravity::default(); chords];
    for fault in faults {
        let concerned = gravities.get_mut(fault.from..=fault.to.min(chords.saturating_sub(1)));
        for gravity in concerned.unwrap_or_default() {
            for voice in voices(fault.rule) {
                let place = match voice {
                    Voice::Bass => &mut gravity.bass,
                    Voice::Soprano => &mut gravity.soprano,
                };
                *place = (*place).max(Some(fault.severity));
            }
        }
    }
    gravities
}

#[derive(Clone, Copy)]
enum Voice {
    Bass,
    Soprano,
}

/// The voices a rule is about.
fn voices(rule: Rule) -> &'static [Voice] {
    match rule {
        Rule::ConsecutiveOctaves
        | Rule::ConsecutiveFifths
        | Rule::ContraryOctaves
        | Rule::ContraryFifths
        | Rule::DiminishedToPerfect
        | Rule::HiddenOctaves
        | Rule::HiddenFifths
        | Rule::MaskedConsecutives
        | Rule::DoubledDuty
        | Rule::LeapsTogether
        | Rule::VoiceCrossing
        | Rule::VoiceOverlap
        | Rule::CrossRelation => &[Voice::Soprano, Voice::Bass],
        Rule::BassDuty => &[Voice::Bass],
        Rule::UnrisenLeadingNote
        | Rule::UnfallenSeventh
        | Rule::UnpreparedSuspension
        | Rule::UnresolvedSuspension
        | Rule::AugmentedStep
        | Rule::TritoneLeap
        | Rule::DiminishedLeap
        | Rule::SeventhLeap
        | Rule::WideLeap
        | Rule::OutsideCompass
        | Rule::ForeignNote
        | Rule::SameNote
        | Rule::Circling => &[Voice::Soprano],
    }
}

/// Marks every fault that touches this system. One that crosses to another
/// system is drawn to the edge here and from the edge there.
pub(super) fn faults(pen: &mut Pen, scene: &Scene<'_>, system: &System) {
    let (Some(first), Some(last)) = (system.chords.first(), system.chords.last()) else { return };
    let mut taken: Vec<(Sign, f64)> = Vec::new();
    pen.raw("<g class=\"faults\">");
    for (index, fault) in scene.reading.frame.faults.iter().enumerate() {
        if fault.to < first.chord || last.chord < fault.from {
            continue;
        }
        let class = match fault.severity {
            Severity::Fault => "fault",
            Severity::Caution => "caution",
        };
        pen.raw("<g class=\"mark ").raw(class).raw("\" data-fault=\"").int(index);
        pen.raw("\" fill=\"none\" stroke=\"currentColor\" stroke-width=\".16\"");
        if fault.severity == Severity::Caution {
            pen.raw(" stroke-dasharray=\".5 .35\"");
        }
        pen.raw(">");
        for &voice in voices(fault.rule) {
            line(pen, fault, voice, system);
        }
        // The sign stands where the fault begins, or where the system goes on with it.
        if fault.from >= first.chord {
            sign(pen, scene, fault, system, &mut taken);
        }
        pen.raw("</g>");
    }
    pen.raw("</g>");
}

fn at(system: &System, chord: usize) -> Option<&ChordPlace> {
    system.chords.iter().find(|place| place.chord == chord)
}

fn head(place: &ChordPlace, voice: Voice) -> (f64, f64) {
    match voice {
        Voice::Bass => (place.bass_x, place.bass_y),
        Voice::Soprano => (place.soprano_x, place.soprano_y),
    }
}

/// A line along one voice from head to head, or a ring about a single head.
fn line(pen: &mut Pen, fault: &Fault, voice: Voice, system: &System) {
    let half = Shape::White.width() / 2.0 + AIR;
    if fault.from == fault.to {
        if let Some(place) = at(system, fault.from) {
            let (x, y) = head(place, voice);
            pen.raw("<ellipse cx=\"").num(x).raw("\" cy=\"").num(y);
            pen.raw("\" rx=\"1.3\" ry=\".95\"/>");
        }
        return;
    }
    let edge = system.chords.first().map_or(0.0, |place| place.x_left);
    pen.raw("<path d=\"");
    for chord in fault.from..fault.to {
        let from = at(system, chord).map(|place| head(place, voice));
        let to = at(system, chord + 1).map(|place| head(place, voice));
        let (a, b) = match (from, to) {
            (Some(a), Some(b)) => ((a.0 + half, a.1), (b.0 - half, b.1)),
            (Some(a), None) => ((a.0 + half, a.1), (system.staff_end - 0.3, a.1)),
            (None, Some(b)) => ((edge - 0.6, b.1), (b.0 - half, b.1)),
            (None, None) => continue,
        };
        pen.raw("M").point(a.0, a.1).raw("L").point(b.0, b.1);
    }
    pen.raw("\"/>");
}

/// What stands above the staff for a fault.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Sign {
    Octave,
    Fifth,
    Cross,
    Query,
}

/// Writes a fault's sign, unless the same sign already stands there.
fn sign(
    pen: &mut Pen,
    scene: &Scene<'_>,
    fault: &Fault,
    system: &System,
    taken: &mut Vec<(Sign, f64)>,
) {
    let (Some(from), to) = (at(system, fault.from), at(system, fault.to)) else { return };
    let to_x = to.map_or(system.staff_end, |place| place.soprano_x);
    let mut x = (from.soprano_x + to_x) / 2.0;
    let sign = sign_of(fault);
    if taken.iter().any(|(other, at)| *other == sign && (at - x).abs() < SIGN_WIDTH) {
        return;
    }
    while taken.iter().any(|(_, other)| (other - x).abs() < SIGN_WIDTH) {
        x += SIGN_WIDTH;
    }
    taken.push((sign, x));
    let chords = system.chords.iter();
    let near = chords.filter(|place| (place.soprano_x - x).abs() < SIGN_WIDTH + 1.0);
    let concerned = [Some(from), to].into_iter().flatten();
    let top = near.chain(concerned).map(|place| {
        let pin = if scene.pinned(place.chord) { PIN_HEIGHT } else { 0.0 };
        place.soprano_y - 0.5 - pin
    });
    let y = top.fold(system.treble_top, f64::min) - SIGN_AIR;
    match sign {
        Sign::Octave => number(pen, &glyphs::FIG_8, x, y),
        Sign::Fifth => number(pen, &glyphs::FIG_5, x, y),
        Sign::Cross => {
            pen.raw("<path d=\"M").point(x - 0.5, y).raw("l1-1M").point(x - 0.5, y - 1.0);
            pen.raw("l1 1\" stroke-width=\".22\"/>");
        }
        Sign::Query => {
            // No letter: those cost a browser more than a line.
            pen.raw("<path class=\"query\" stroke-width=\".24\" stroke-linecap=\"round\"");
            pen.raw(" stroke-dasharray=\"none\" d=\"M").point(x - 0.4, y - 1.0);
            pen.raw("c0-.53.8-.53.8 0 0 .35-.4.35-.4.62m0 .33v.04\"/>");
        }
    }
}

fn number(pen: &mut Pen, glyph: &Glyph, x: f64, y: f64) {
    pen.raw("<g fill=\"currentColor\" stroke=\"none\">");
    let left = x - glyph.advance * super::figures::SCALE / 2.0;
    pen.sign(glyph, Size::Full, left, y).raw("</g>");
}

/// The number of the interval that a rule finds repeated or reached, else a
/// cross or a question mark.
fn sign_of(fault: &Fault) -> Sign {
    match fault.rule {
        Rule::ConsecutiveOctaves | Rule::ContraryOctaves | Rule::HiddenOctaves => {
            return Sign::Octave;
        }
        Rule::ConsecutiveFifths
        | Rule::ContraryFifths
        | Rule::HiddenFifths
        | Rule::DiminishedToPerfect => return Sign::Fifth,
        Rule::MaskedConsecutives => match fault.last.interval().simple_number() {
            1 => return Sign::Octave,
            5 => return Sign::Fifth,
            _ => {}
        },
        _ => {}
    }
    match fault.severity {
        Severity::Fault => Sign::Cross,
        Severity::Caution => Sign::Query,
    }
}
