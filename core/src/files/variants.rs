//! Enums that carry more than their name, in a link: a number and what follows
//! it. A number once given is never given to anything else.

use super::fields::{Input, Read, put_varint, unzigzag, zigzag};
use super::link::LinkError;
use crate::roll::{Stroke, StrokePlan};
use crate::sound::Temperament;

/// The tuning; nothing is written for the usual one.
pub(super) fn write_temperament(it: &Temperament, out: &mut Vec<u8>) {
    let code = match it {
        Temperament::QuarterComma => return,
        Temperament::Equal => 0,
        Temperament::SixthComma => 2,
        Temperament::Werckmeister3 => 3,
        Temperament::Kirnberger3 => 4,
        Temperament::Vallotti => 5,
        Temperament::Young2 => 6,
        Temperament::Custom(_) => 7,
    };
    put_varint(out, code);
    if let Temperament::Custom(table) = it {
        for cents in table {
            put_varint(out, zigzag(i64::from(*cents)));
        }
    }
}

/// The inverse of [`write_temperament`].
pub(super) fn read_temperament(it: &mut Temperament, mut input: Input<'_>) -> Read {
    *it = if input.is_empty() {
        Temperament::QuarterComma
    } else {
        match input.varint()? {
            0 => Temperament::Equal,
            2 => Temperament::SixthComma,
            3 => Temperament::Werckmeister3,
            4 => Temperament::Kirnberger3,
            5 => Temperament::Vallotti,
            6 => Temperament::Young2,
            7 => {
                let mut table = [0; 12];
                for cents in &mut table {
                    let number = i32::try_from(unzigzag(input.varint()?));
                    *cents = number.map_err(|_| LinkError::Damaged)?;
                }
                Temperament::Custom(table)
            }
            _ => return Err(LinkError::Newer),
        }
    };
    Ok(())
}

/// How strokes are given; nothing is written for the usual way.
pub(super) fn write_plan(it: &StrokePlan, out: &mut Vec<u8>) {
    match it {
        StrokePlan::Speech => {}
        StrokePlan::Varied => put_varint(out, 0),
        StrokePlan::Even(stroke) => {
            put_varint(out, 1);
            write_stroke(stroke, out);
        }
    }
}

/// The inverse of [`write_plan`].
pub(super) fn read_plan(it: &mut StrokePlan, mut input: Input<'_>) -> Read {
    *it = if input.is_empty() {
        StrokePlan::Speech
    } else {
        match input.varint()? {
            0 => StrokePlan::Varied,
            1 => StrokePlan::Even(read_stroke(&mut input)?),
            _ => return Err(LinkError::Newer),
        }
    };
    Ok(())
}

/// A stroke; always written.
pub(super) fn write_stroke(it: &Stroke, out: &mut Vec<u8>) {
    let code = match it {
        Stroke::Sweep => 0,
        Stroke::HandAfterHand => 1,
        Stroke::InsideOut => 2,
        Stroke::BrokenThirds => 3,
        Stroke::TurningBack => 4,
        Stroke::RepeatedBass => 5,
        Stroke::BassAlone => 6,
        Stroke::Drawn(_) => 7,
    };
    put_varint(out, code);
    if let Stroke::Drawn(heights) = it {
        out.extend_from_slice(heights);
    }
}

/// The inverse of [`write_stroke`].
pub(super) fn read_stroke(input: &mut Input<'_>) -> Result<Stroke, LinkError> {
    Ok(match input.varint()? {
        0 => Stroke::Sweep,
        1 => Stroke::HandAfterHand,
        2 => Stroke::InsideOut,
        3 => Stroke::BrokenThirds,
        4 => Stroke::TurningBack,
        5 => Stroke::RepeatedBass,
        6 => Stroke::BassAlone,
        7 => {
            let heights = <[u8; 8]>::try_from(input.take(8)?);
            Stroke::Drawn(heights.map_err(|_| LinkError::Damaged)?)
        }
        _ => return Err(LinkError::Newer),
    })
}
