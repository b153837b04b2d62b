//! The notes of a sketch, one column for each thing decided about them, so that
//! a plain note takes one byte and a column nobody used takes none.

use super::choice::Choice;
use super::fields::{Fields, Input, Read, put_varint, unzigzag, zigzag};
use super::link::LinkError;
use crate::bass::NoteValue;
use crate::figures::{Accidental, Figures, Sign, Stage};
use crate::hands::Handful;
use crate::pitch::{Pitch, PitchClass, Step, Tonality};
use crate::sketch::{Pin, SketchNote};

/// Where the bass and the soprano are taken to come from: C3 and C5.
const BASS_START: i32 = 21;
const SOPRANO_START: i32 = 35;

/// What the signature of the sketch's tonality gives each letter; nothing for
/// tonalities out of the ordinary.
fn usual_alter(tonality: Option<Tonality>, step: Step) -> i64 {
    match tonality {
        Some(tonality) if tonality.signature().abs() <= 14 => {
            i64::from(tonality.class_of(step).alter)
        }
        _ => 0,
    }
}

/// A pitch as one small number where it is near the one before and little
/// altered; 0 where it is not, and then height and alteration follow.
fn pitch_code(pitch: Pitch, from: i32, tonality: Option<Tonality>) -> u64 {
    let altered = match i64::from(pitch.alter) - usual_alter(tonality, pitch.step) {
        0 => 0,
        1 => 1,
        -1 => 2,
        _ => return 0,
    };
    1 + zigzag(i64::from(pitch.diatonic() - from)) * 3 + altered
}

fn put_pitch_rest(out: &mut Vec<u8>, pitch: Pitch) {
    put_varint(out, zigzag(i64::from(pitch.diatonic())));
    put_varint(out, zigzag(i64::from(pitch.alter)));
}

fn read_pitch(
    code: u64,
    input: &mut Input<'_>,
    from: i32,
    tonality: Option<Tonality>,
) -> Result<Pitch, LinkError> {
    let (height, alter) = if code == 0 {
        (unzigzag(input.varint()?), unzigzag(input.varint()?))
    } else {
        let height = i64::from(from).checked_add(unzigzag((code - 1) / 3));
        let height = height.ok_or(LinkError::Damaged)?;
        let altered = match (code - 1) % 3 {
            0 => 0,
            1 => 1,
            _ => -1,
        };
        (height, usual_alter(tonality, Step::wrapped(height.rem_euclid(7) as i32)) + altered)
    };
    let octave = i8::try_from(height.div_euclid(7)).map_err(|_| LinkError::Damaged)?;
    let alter = i8::try_from(alter).map_err(|_| LinkError::Damaged)?;
    Ok(Pitch::new(Step::wrapped(height.rem_euclid(7) as i32), alter, octave))
}

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

/// A sign's byte: figure and accidental, or one of the words below; then two
/// flags that end a stage and end the figures.
const ENDS_STAGE: u8 = 64;
const ENDS_ALL: u8 = 128;
const EMPTY: u8 = 56;
const HOLD: u8 = 57;
const TASTO_SOLO: u8 = 58;
/// A figure outside [2, 9]: its number and accidental follow.
const ODD_SIGN: u8 = 59;

/// The given figures.
pub(super) fn figures(fields: &mut Fields<'_>, id: u64, notes: &mut Vec<SketchNote>) -> Read {
    column(
        fields,
        id,
        notes,
        |note, out| {
            let Some(figures) = &note.figures else { return };
            let count = figures.stages().len();
            for (i, stage) in figures.stages().iter().enumerate() {
                put_stage(out, stage, if i + 1 == count { ENDS_ALL } else { 0 });
            }
        },
        |note, input| {
            note.figures = Figures::new(read_stages(input)?);
            Ok(())
        },
    )
}

fn put_stage(out: &mut Vec<u8>, stage: &Stage, end: u8) {
    let signs = match stage {
        Stage::Hold => return out.push(HOLD | ENDS_STAGE | end),
        Stage::TastoSolo => return out.push(TASTO_SOLO | ENDS_STAGE | end),
        Stage::Signs(signs) if signs.is_empty() => return out.push(EMPTY | ENDS_STAGE | end),
        Stage::Signs(signs) => signs,
    };
    for (i, sign) in signs.iter().enumerate() {
        let flags = if i + 1 == signs.len() { ENDS_STAGE | end } else { 0 };
        let accidental = sign.accidental.code() as u8;
        match sign.number {
            2..=9 => out.push(((sign.number - 2) * 7 + accidental) | flags),
            _ => out.extend([ODD_SIGN | flags, sign.number, accidental]),
        }
    }
}

fn read_stages(input: &mut Input<'_>) -> Result<Vec<Stage>, LinkError> {
    let mut stages = Vec::new();
    let mut signs = Vec::new();
    loop {
        let byte = input.byte()?;
        let word = byte & 63;
        let sign = match word {
            0..EMPTY => Some((word / 7 + 2, word % 7)),
            ODD_SIGN => Some((input.byte()?, input.byte()?)),
            _ => None,
        };
        if let Some((number, code)) = sign {
            let accidental = Option::<Accidental>::from_code(u64::from(code));
            signs.push(Sign { number, accidental: accidental.ok_or(LinkError::Newer)? });
        }
        if byte & ENDS_STAGE != 0 || sign.is_none() {
            let signs = std::mem::take(&mut signs);
            stages.push(match word {
                HOLD => Stage::Hold,
                TASTO_SOLO => Stage::TastoSolo,
                ..=EMPTY | ODD_SIGN => Stage::Signs(signs),
                _ => return Err(LinkError::Newer),
            });
        }
        if byte & ENDS_ALL != 0 {
            return Ok(stages);
        }
    }
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

fn put_pitches(
    out: &mut Vec<u8>,
    pitches: &[Pitch],
    mut from: i32,
    tonality: Option<Tonality>,
) -> i32 {
    for &pitch in pitches {
        let code = pitch_code(pitch, from, tonality);
        put_varint(out, code);
        if code == 0 {
            put_pitch_rest(out, pitch);
        }
        from = pitch.diatonic();
    }
    from
}

fn read_pitches(
    input: &mut Input<'_>,
    count: u64,
    from: &mut i32,
    tonality: Option<Tonality>,
) -> Result<Vec<Pitch>, LinkError> {
    let mut pitches = Vec::new();
    for _ in 0..count {
        let code = input.varint()?;
        let pitch = read_pitch(code, input, *from, tonality)?;
        *from = pitch.diatonic();
        pitches.push(pitch);
    }
    Ok(pitches)
}

/// A tonality, or none, as one number.
pub(super) fn tonality(fields: &mut Fields<'_>, id: u64, slot: &mut Option<Tonality>) -> Read {
    let mut code = match *slot {
        None => 0i64,
        Some(it) => {
            let fifths = zigzag(i64::from(it.tonic.fifths()));
            1 + (fifths << 1 | it.mode.code()) as i64
        }
    };
    fields.number(id, &mut code, 0)?;
    *slot = match u64::try_from(code).map_err(|_| LinkError::Damaged)?.checked_sub(1) {
        None => None,
        Some(code) => {
            let mode = Choice::from_code(code & 1).ok_or(LinkError::Newer)?;
            let fifths = i32::try_from(unzigzag(code >> 1)).map_err(|_| LinkError::Damaged)?;
            // The range of an alteration, so that the tonic below is the one written.
            if !(-897..=894).contains(&fifths) {
                return Err(LinkError::Damaged);
            }
            Some(Tonality::new(PitchClass::from_fifths(fifths), mode))
        }
    };
    Ok(())
}
