//! Pitches and tonalities as numbers in a link: a pitch by its distance in letters
//! from the one before and by what the signature would not give it.

use super::choice::Choice;
use super::fields::{Input, put_varint, unzigzag, zigzag};
use super::link::LinkError;
use crate::pitch::{Pitch, PitchClass, Step, Tonality};

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
pub(super) fn pitch_code(pitch: Pitch, from: i32, tonality: Option<Tonality>) -> u64 {
    let altered = match i64::from(pitch.alter) - usual_alter(tonality, pitch.step) {
        0 => 0,
        1 => 1,
        -1 => 2,
        _ => return 0,
    };
    1 + zigzag(i64::from(pitch.diatonic() - from)) * 3 + altered
}

/// What follows a code of 0.
pub(super) fn put_pitch_rest(out: &mut Vec<u8>, pitch: Pitch) {
    put_varint(out, zigzag(i64::from(pitch.diatonic())));
    put_varint(out, zigzag(i64::from(pitch.alter)));
}

/// The pitch of a code, what follows it read from `input`.
pub(super) fn read_pitch(
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

/// Appends pitches, each told from the one before; gives the height of the last.
pub(super) fn put_pitches(
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

/// The inverse of [`put_pitches`]; `from` goes on to the height of the last.
pub(super) fn read_pitches(
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

/// A tonality as one number.
pub(super) fn tonality_code(tonality: Tonality) -> u64 {
    zigzag(i64::from(tonality.tonic.fifths())) << 1 | tonality.mode.code()
}

/// The inverse of [`tonality_code`].
pub(super) fn read_tonality(code: u64) -> Result<Tonality, LinkError> {
    let mode = Choice::from_code(code & 1).ok_or(LinkError::Newer)?;
    let fifths = i32::try_from(unzigzag(code >> 1)).map_err(|_| LinkError::Damaged)?;
    // The range of an alteration, so that the tonic below is the one written.
    if !(-897..=894).contains(&fifths) {
        return Err(LinkError::Damaged);
    }
    Ok(Tonality::new(PitchClass::from_fifths(fifths), mode))
}
