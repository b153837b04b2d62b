//! The notes of a sketch, one column for each thing decided about them, so that
//! a plain note takes one byte and a column nobody used takes none.

use super::choice::Choice;
use super::fields::{Fields, Input, Read, put_varint};
use super::link::LinkError;
use super::pitches::{
    pitch_code, put_pitch_rest, put_pitches, read_pitch, read_pitches, read_tonality, tonality_code,
};
use super::stages::{put_stages, read_stages};
use crate::bass::NoteValue;
use crate::figures::Figures;
use crate::hands::Handful;
use crate::pitch::Tonality;
use crate::sketch::{Pin, SketchNote};

/// Where the bass and the soprano are taken to come from: C3 and C5.
const BASS_START: i32 = 21;
const SOPRANO_START: i32 = 35;

/// The bass pitches, which also say how many notes there are.
pub(super) fn basses(
    fields: &mut Fields<'_>,
    id: u64,
    notes: &mut Vec<SketchNote>,
    tonality: Option<Tonality>,
) -> Read {
    fields.bytes(
        id,
        notes,
        |notes, out| {
            let mut from = BASS_START;
            for note in notes {
                from = put_pitches(out, &[note.pitch], from, tonality);
            }
        },
        |notes, mut input| {
            let mut from = BASS_START;
            while !input.is_empty() {
                let code = input.varint()?;
                let pitch = read_pitch(code, &mut input, from, tonality)?;
                from = pitch.diatonic();
                notes.push(SketchNote::bare(pitch));
            }
            Ok(())
        },
    )
}

/// A column: for each note that has something other than the usual, how many
/// notes were passed over since the last, and then what it has.
pub(super) fn column(
    fields: &mut Fields<'_>,
    id: u64,
    notes: &mut Vec<SketchNote>,
    mut write: impl FnMut(&SketchNote, &mut Vec<u8>),
    mut read: impl FnMut(&mut SketchNote, &mut Input<'_>) -> Read,
) -> Read {
    fields.bytes(
        id,
        notes,
        |notes, out| {
            let mut passed = 0;
            let mut entry = Vec::new();
            for note in notes {
                entry.clear();
                write(note, &mut entry);
                if entry.is_empty() {
                    passed += 1;
                } else {
                    put_varint(out, passed);
                    out.extend_from_slice(&entry);
                    passed = 0;
                }
            }
        },
        |notes, mut input| {
            let mut notes = notes.iter_mut();
            while !input.is_empty() {
                let passed = usize::try_from(input.varint()?).map_err(|_| LinkError::Damaged)?;
                let note = notes.nth(passed).ok_or(LinkError::Damaged)?;
                read(note, &mut input)?;
            }
            Ok(())
        },
    )
}

/// A column of one of an enum's variants.
pub(super) fn choice_column<T: Choice>(
    fields: &mut Fields<'_>,
    id: u64,
    notes: &mut Vec<SketchNote>,
    usual: T,
    slot: impl Fn(&mut SketchNote) -> &mut T,
    value: impl Fn(&SketchNote) -> T,
) -> Read {
    column(
        fields,
        id,
        notes,
        |note, out| {
            if value(note) != usual {
                put_varint(out, value(note).code());
            }
        },
        |note, input| {
            *slot(note) = T::from_code(input.varint()?).ok_or(LinkError::Newer)?;
            Ok(())
        },
    )
}

/// Lengths in ticks, each written only where it differs from the note before, 0 for
/// none: how many notes were passed over since the last, and the length.
pub(super) fn values(fields: &mut Fields<'_>, id: u64, notes: &mut Vec<SketchNote>) -> Read {
    fields.bytes(
        id,
        notes,
        |notes, out| {
            let mut in_force = None;
            let mut passed = 0;
            for note in notes {
                if note.value == in_force {
                    passed += 1;
                    continue;
                }
                put_varint(out, passed);
                put_varint(out, u64::from(note.value.map_or(0, NoteValue::ticks)));
                in_force = note.value;
                passed = 0;
            }
        },
        |notes, mut input| {
            let mut notes = notes.iter_mut();
            let mut in_force = None;
            while !input.is_empty() {
                let passed = usize::try_from(input.varint()?).map_err(|_| LinkError::Damaged)?;
                if passed > notes.len() {
                    return Err(LinkError::Damaged);
                }
                notes.by_ref().take(passed).for_each(|note| note.value = in_force);
                in_force = read_length(&mut input)?;
                notes.next().ok_or(LinkError::Damaged)?.value = in_force;
            }
            notes.for_each(|note| note.value = in_force);
            Ok(())
        },
    )
}

/// Rests after notes, in ticks.
pub(super) fn rests(fields: &mut Fields<'_>, id: u64, notes: &mut Vec<SketchNote>) -> Read {
    column(
        fields,
        id,
        notes,
        |note, out| {
            if let Some(rest) = note.rest {
                put_varint(out, u64::from(rest.ticks()));
            }
        },
        |note, input| {
            note.rest = read_length(input)?;
            Ok(())
        },
    )
}

fn read_length(input: &mut Input<'_>) -> Result<Option<NoteValue>, LinkError> {
    let ticks = u32::try_from(input.varint()?).map_err(|_| LinkError::Damaged)?;
    match NoteValue::from_ticks(ticks) {
        None if ticks != 0 => Err(LinkError::Damaged),
        value => Ok(value),
    }
}

/// The given figures.
pub(super) fn figures(fields: &mut Fields<'_>, id: u64, notes: &mut Vec<SketchNote>) -> Read {
    column(
        fields,
        id,
        notes,
        |note, out| {
            let Some(figures) = &note.figures else { return };
            put_stages(out, figures.stages());
        },
        |note, input| {
            note.figures = Figures::new(read_stages(input)?);
            Ok(())
        },
    )
}

/// The fixed soprano notes.
pub(super) fn sopranos(
    fields: &mut Fields<'_>,
    id: u64,
    notes: &mut Vec<SketchNote>,
    tonality: Option<Tonality>,
) -> Read {
    let (mut from, mut from_read) = (SOPRANO_START, SOPRANO_START);
    column(
        fields,
        id,
        notes,
        |note, out| {
            if note.soprano.is_empty() {
                return;
            }
            put_varint(out, note.soprano.len() as u64);
            for pin in &note.soprano {
                let Some(pin) = pin else {
                    put_varint(out, 0);
                    continue;
                };
                let code = pitch_code(pin.pitch, from, tonality);
                put_varint(out, 1 + pin.hold.code() + 2 * code);
                if code == 0 {
                    put_pitch_rest(out, pin.pitch);
                }
                from = pin.pitch.diatonic();
            }
        },
        |note, input| {
            let count = input.varint()?;
            for _ in 0..count {
                let code = input.varint()?;
                let pin = match code.checked_sub(1) {
                    None => None,
                    Some(code) => {
                        let hold = Choice::from_code(code & 1).ok_or(LinkError::Newer)?;
                        let pitch = read_pitch(code >> 1, input, from_read, tonality)?;
                        from_read = pitch.diatonic();
                        Some(Pin { pitch, hold })
                    }
                };
                note.soprano.push(pin);
            }
            Ok(())
        },
    )
}

/// The fixed handfuls.
pub(super) fn handfuls(
    fields: &mut Fields<'_>,
    id: u64,
    notes: &mut Vec<SketchNote>,
    tonality: Option<Tonality>,
) -> Read {
    column(
        fields,
        id,
        notes,
        |note, out| {
            if note.handfuls.is_empty() {
                return;
            }
            put_varint(out, note.handfuls.len() as u64);
            for handful in &note.handfuls {
                let Some(Handful { left, right }) = handful else {
                    put_varint(out, 0);
                    continue;
                };
                put_varint(out, left.len() as u64 + 1);
                let from = put_pitches(out, left, note.pitch.diatonic(), tonality);
                put_varint(out, right.len() as u64);
                put_pitches(out, right, from, tonality);
            }
        },
        |note, input| {
            let count = input.varint()?;
            for _ in 0..count {
                let Some(left) = input.varint()?.checked_sub(1) else {
                    note.handfuls.push(None);
                    continue;
                };
                let mut from = note.pitch.diatonic();
                let left = read_pitches(input, left, &mut from, tonality)?;
                let right = input.varint()?;
                let right = read_pitches(input, right, &mut from, tonality)?;
                note.handfuls.push(Some(Handful { left, right }));
            }
            Ok(())
        },
    )
}

/// A tonality, or none, as one number.
pub(super) fn tonality(fields: &mut Fields<'_>, id: u64, slot: &mut Option<Tonality>) -> Read {
    let mut code = slot.map_or(0, |it| 1 + tonality_code(it) as i64);
    fields.number(id, &mut code, 0)?;
    let code = u64::try_from(code).map_err(|_| LinkError::Damaged)?;
    *slot = code.checked_sub(1).map(read_tonality).transpose()?;
    Ok(())
}
