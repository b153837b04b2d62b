//! The fields of a sketch in a link.
//!
//! One list serves writing and reading. Every struct is taken apart by name, so
//! that a new field of a sketch does not compile until it has a line here: give
//! it the next free number in its message and the usual value that old links,
//! which lack it, shall have.

use super::choice::Choice;
use super::columns;
use super::fields::{Fields, Input, Read, put_varint};
use super::link::LinkError;
use super::variants;
use crate::frame::{
    Contour, ContourPoint, FrameWishes, Preference, Rule, RuleSwitches, Smoothness, SopranoCompass,
    Strictness,
};
use crate::hands::{Compass, HandSize, HandWishes, LowKeys, Spacing};
use crate::harmony::{HarmonyWishes, Version};
use crate::pitch::Key;
use crate::roll::{ChordStroke, Held, RollWishes};
use crate::sketch::{Sketch, SketchNote, Weight};
use crate::sound::{SoundWishes, Voice};

/// All fields of a sketch.
pub(super) fn sketch(wire: &mut Fields<'_>, it: &mut Sketch) -> Read {
    let Sketch { title, tonality, notes, harmony, frame, hands, roll, sound } = it;
    wire.text(1, title)?;
    columns::tonality(wire, 2, tonality)?;
    columns::basses(wire, 3, notes, *tonality)?;
    columns::figures(wire, 4, notes)?;
    columns::choice_column(wire, 5, notes, Weight::Unmarked, |n| &mut n.weight, |n| n.weight)?;
    columns::sopranos(wire, 6, notes, *tonality)?;
    strokes(wire, notes)?;
    wire.message(8, harmony, harmony_wishes)?;
    wire.message(9, frame, frame_wishes)?;
    wire.message(10, hands, hand_wishes)?;
    wire.message(11, roll, roll_wishes)?;
    wire.message(12, sound, sound_wishes)?;
    columns::handfuls(wire, 13, notes, *tonality)?;
    columns::values(wire, 17, notes)?;
    columns::rests(wire, 18, notes)
}

/// How single chords are rolled. Every field of a note is named here; what is
/// not of the stroke has its column above.
fn strokes(wire: &mut Fields<'_>, notes: &mut Vec<SketchNote>) -> Read {
    let stroke = |note: &SketchNote| {
        let SketchNote {
            pitch: _,
            figures: _,
            weight: _,
            value: _,
            rest: _,
            soprano: _,
            handfuls: _,
            stroke,
        } = note;
        let ChordStroke { times, stroke, spice, dwell } = *stroke;
        (times, stroke, spice, dwell)
    };
    columns::column(
        wire,
        7,
        notes,
        |note, out| out.extend(stroke(note).0),
        |note, input| {
            note.stroke.times = Some(input.byte()?);
            Ok(())
        },
    )?;
    columns::column(
        wire,
        14,
        notes,
        |note, out| {
            if let Some(stroke) = stroke(note).1 {
                variants::write_stroke(&stroke, out);
            }
        },
        |note, input| {
            note.stroke.stroke = Some(variants::read_stroke(input)?);
            Ok(())
        },
    )?;
    columns::column(
        wire,
        15,
        notes,
        |note, out| out.extend(stroke(note).2),
        |note, input| {
            note.stroke.spice = Some(input.byte()?);
            Ok(())
        },
    )?;
    columns::column(
        wire,
        16,
        notes,
        |note, out| {
            if let Some(dwell) = stroke(note).3 {
                put_varint(out, u64::from(dwell));
            }
        },
        |note, input| {
            let dwell = u16::try_from(input.varint()?).map_err(|_| LinkError::Damaged)?;
            note.stroke.dwell = Some(dwell);
            Ok(())
        },
    )
}

fn harmony_wishes(wire: &mut Fields<'_>, it: &mut HarmonyWishes) -> Read {
    let HarmonyWishes { version, daring } = it;
    wire.choice(1, version, Version::Campion)?;
    wire.number(2, daring, 0)
}

fn frame_wishes(wire: &mut Fields<'_>, it: &mut FrameWishes) -> Read {
    let FrameWishes { position, choice, preference, smoothness, compass, contour, rules } = it;
    let SopranoCompass { low, high } = compass;
    wire.choice(1, position, None)?;
    wire.number(2, choice, 0)?;
    wire.choice(3, preference, Preference::Contrary)?;
    wire.choice(4, smoothness, Smoothness::Usual)?;
    key(wire, 5, low, 60)?;
    key(wire, 6, high, 81)?;
    wire.bytes(7, contour, write_contour, read_contour)?;
    wire.bytes(8, rules, write_rules, read_rules)
}

fn write_contour(contour: &Contour, out: &mut Vec<u8>) {
    for ContourPoint { place, height } in &contour.points {
        put_varint(out, u64::from(*place));
        out.push(height.index() as u8);
    }
}

fn read_contour(contour: &mut Contour, mut input: Input<'_>) -> Read {
    contour.points.clear();
    while !input.is_empty() {
        let place = u16::try_from(input.varint()?).map_err(|_| LinkError::Damaged)?;
        let height = Key::new(i32::from(input.byte()?)).ok_or(LinkError::Damaged)?;
        contour.points.push(ContourPoint { place, height });
    }
    Ok(())
}

/// Only the rules that are not as usual, each with how strictly it is taken.
fn write_rules(rules: &RuleSwitches, out: &mut Vec<u8>) {
    for rule in Rule::ALL {
        let strictness = rules.strictness(rule);
        if strictness != Strictness::Usual {
            put_varint(out, rule.code() << 2 | strictness.code());
        }
    }
}

fn read_rules(rules: &mut RuleSwitches, mut input: Input<'_>) -> Read {
    *rules = RuleSwitches::default();
    while !input.is_empty() {
        let code = input.varint()?;
        let rule = Rule::from_code(code >> 2).ok_or(LinkError::Newer)?;
        let strictness = Strictness::from_code(code & 3).ok_or(LinkError::Newer)?;
        *rules = rules.with(rule, strictness);
    }
    Ok(())
}

fn hand_wishes(wire: &mut Fields<'_>, it: &mut HandWishes) -> Read {
    let HandWishes { left, right, spacing, compass, low_keys } = it;
    let Compass { low, high } = compass;
    wire.message(1, left, hand_size)?;
    wire.message(2, right, hand_size)?;
    wire.choice(3, spacing, Spacing::Even)?;
    key(wire, 4, low, 29)?;
    key(wire, 5, high, 89)?;
    wire.choice(6, low_keys, LowKeys::Chromatic)
}

fn hand_size(wire: &mut Fields<'_>, it: &mut HandSize) -> Read {
    let HandSize { notes, span } = it;
    wire.number(1, notes, 4)?;
    wire.number(2, span, 7)
}

fn roll_wishes(wire: &mut Fields<'_>, it: &mut RollWishes) -> Read {
    let RollWishes { times, speed, seed, plan, spice, held } = it;
    wire.number(1, times, 1)?;
    wire.number(2, speed, 100)?;
    wire.number(3, seed, 1)?;
    wire.bytes(4, plan, variants::write_plan, variants::read_plan)?;
    wire.number(5, spice, 35)?;
    wire.choice(6, held, Held::Collected)
}

fn sound_wishes(wire: &mut Fields<'_>, it: &mut SoundWishes) -> Read {
    let SoundWishes { a4, temperament, voice } = it;
    wire.real(1, a4, 415.0)?;
    wire.bytes(2, temperament, variants::write_temperament, variants::read_temperament)?;
    wire.choice(3, voice, Voice::Plucked8)
}

fn key(wire: &mut Fields<'_>, id: u64, slot: &mut Key, usual: i32) -> Read {
    let mut number = slot.number();
    wire.number(id, &mut number, usual)?;
    *slot = Key::new(number).ok_or(LinkError::Damaged)?;
    Ok(())
}
