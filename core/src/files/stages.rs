//! The figures over a note as bytes in a link, a byte for each sign.

use super::choice::Choice;
use super::fields::Input;
use super::link::LinkError;
use crate::figures::{Accidental, Sign, Stage};

/// A sign's byte: figure and accidental, or one of the words below; then two
/// flags that end a stage and end the figures.
const ENDS_STAGE: u8 = 64;
const ENDS_ALL: u8 = 128;
const EMPTY: u8 = 56;
const HOLD: u8 = 57;
const TASTO_SOLO: u8 = 58;
/// A figure outside [2, 9]: its number and accidental follow.
const ODD_SIGN: u8 = 59;

/// The figures over one note.
pub(super) fn put_stages(out: &mut Vec<u8>, stages: &[Stage]) {
    for (i, stage) in stages.iter().enumerate() {
        put_stage(out, stage, if i + 1 == stages.len() { ENDS_ALL } else { 0 });
    }
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

/// The inverse of [`put_stages`].
pub(super) fn read_stages(input: &mut Input<'_>) -> Result<Vec<Stage>, LinkError> {
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
