//! The fields of sets, hand-ins and comments in a link; the manners are those of
//! `wire`: every struct is taken apart by name, a new field takes the next free
//! number, and a number once given is never given to anything else.

use super::choice::{Choice, choices};
use super::fields::{Fields, Input, Read, put_varint};
use super::link::LinkError;
use super::patch::{self, Budget, message, patched, whole};
use super::pitches::{read_tonality, tonality_code};
use crate::frame::Rule;
use crate::harmony::Cadence;
use crate::lesson::{
    Answer, Ask, Comment, Commented, Exercise, Feedback, Found, HandIn, Hears, Measure, Model,
    MotionLimit, Naming, Opens, Parts, Set, Speech, Telling,
};
use crate::sketch::Sketch;
use crate::words::{NoteNames, Tongue};

/// The most things in any list: exercises, hints, answers, keys, comments.
const MAX_LIST: usize = 500;
/// The highest number of an exercise or a chord, far above any there is.
const MAX_PLACE: u64 = 1 << 30;

choices! {
    Measure { Complete = 0, Accepted = 1, AsModel = 2 }
    MotionLimit { ContraryOrTenths = 0, Any = 1 }
    Naming { Named = 0, Place = 1 }
    Opens { Anytime = 0, AfterTrying = 1, AfterHandIn = 2 }
    Feedback { Live = 0, OnRequest = 1, AtEnd = 2 }
    Hears { OwnWork = 0, Bass = 1, Model = 2 }
    Telling { AtOnce = 0, InSteps = 1, PlaceAlone = 2 }
    Tongue { English = 0, Italian = 1, German = 2, French = 3, Spanish = 4 }
    NoteNames { Letters = 0, Solfege = 1, German = 2 }
    Cadence {
        Simple = 0,
        Compound = 1,
        Double = 2,
        Half = 3,
        Phrygian = 4,
        Deceptive = 5,
        Evaded = 6,
    }
}

/// All fields of a set.
pub(super) fn set(wire: &mut Fields<'_>, it: &mut Set, spent: &Budget) -> Read {
    let Set { title, exercises, speech } = it;
    let Speech { tongue, notes } = speech;
    wire.text(1, title)?;
    list(wire, 2, exercises, |wire, it| exercise(wire, it, spent))?;
    wire.choice(3, tongue, None)?;
    wire.choice(4, notes, None)
}

fn exercise(wire: &mut Fields<'_>, it: &mut Exercise, spent: &Budget) -> Read {
    let Exercise { task, hints, sketch, given, asks, feedback, telling, hears, model } = it;
    wire.text(1, task)?;
    texts(wire, 2, hints)?;
    whole(wire, 3, sketch, spent)?;
    let mut parts = given.bits();
    wire.number(4, &mut parts, 1)?;
    *given = Parts::from_bits(parts);
    wire.bytes(5, asks, write_asks, read_asks)?;
    wire.choice(6, feedback, Feedback::OnRequest)?;
    wire.choice(7, hears, Hears::Bass)?;
    // The model's opening also says that there is one.
    let mut opens = model.as_ref().map(|model| model.opens);
    wire.choice(8, &mut opens, None)?;
    let mut finished = model.take().map_or_else(Sketch::default, |model| model.sketch);
    if let Some(opens) = opens {
        patched(wire, 9, &mut finished, &message(sketch), spent)?;
        *model = Some(Model { sketch: finished, opens });
    }
    // Before there was a choice all was told at once.
    wire.choice(10, telling, Telling::AtOnce)
}

fn write_asks(asks: &Vec<Ask>, out: &mut Vec<u8>) {
    for ask in asks {
        match ask {
            Ask::Figures(measure) => out.extend([0, measure.code() as u8]),
            Ask::Soprano { position, motions } => {
                out.extend([1, position.code() as u8, motions.code() as u8]);
            }
            Ask::FindFaults(naming) => out.extend([2, naming.code() as u8]),
            Ask::Handfuls { least } => out.extend([3, *least]),
            Ask::Roll { acciaccaturas } => out.extend([4, *acciaccaturas]),
            Ask::Keys(keys) => {
                out.push(5);
                put_varint(out, keys.len() as u64);
                for key in keys {
                    put_varint(out, tonality_code(*key));
                }
            }
            Ask::Finish(cadence) => out.extend([6, cadence.code() as u8]),
            Ask::Free => out.push(7),
        }
    }
}

fn read_asks(asks: &mut Vec<Ask>, mut input: Input<'_>) -> Read {
    asks.clear();
    while !input.is_empty() {
        asks.push(match input.varint()? {
            0 => Ask::Figures(choice(&mut input)?),
            1 => Ask::Soprano { position: choice(&mut input)?, motions: choice(&mut input)? },
            2 => Ask::FindFaults(choice(&mut input)?),
            3 => Ask::Handfuls { least: input.byte()? },
            4 => Ask::Roll { acciaccaturas: input.byte()? },
            5 => {
                let count = input.varint()?;
                let keys = (0..count).map(|_| read_tonality(input.varint()?));
                Ask::Keys(keys.collect::<Result<_, _>>()?)
            }
            6 => Ask::Finish(choice(&mut input)?),
            7 => Ask::Free,
            _ => return Err(LinkError::Newer),
        });
        if asks.len() > MAX_LIST {
            return Err(LinkError::TooLong);
        }
    }
    let keys = asks.iter().map(|ask| match ask {
        Ask::Keys(keys) => keys.len(),
        _ => 0,
    });
    if keys.sum::<usize>() > MAX_LIST { Err(LinkError::TooLong) } else { Ok(()) }
}

fn choice<T: Choice>(input: &mut Input<'_>) -> Result<T, LinkError> {
    T::from_code(input.varint()?).ok_or(LinkError::Newer)
}

/// All fields of a hand-in.
pub(super) fn hand_in(wire: &mut Fields<'_>, it: &mut HandIn, spent: &Budget) -> Read {
    let HandIn { student, set: received, answers } = it;
    wire.text(1, student)?;
    wire.message(2, received, |wire, it| set(wire, it, spent))?;
    let bases: Vec<Vec<u8>> =
        received.exercises.iter().map(|exercise| message(&exercise.sketch)).collect();
    let mut numbered: Vec<Numbered> = answers
        .drain(..)
        .enumerate()
        .map(|(exercise, answer)| Numbered { exercise, answer })
        .collect();
    list(wire, 3, &mut numbered, |wire, Numbered { exercise, answer: it }| {
        let mut presence = i64::from(it.is_some());
        wire.number(1, &mut presence, 0)?;
        // Where it stands in the list is not known while it is read.
        count(wire, 6, exercise)?;
        if presence == 0 {
            *it = None;
            return Ok(());
        }
        let base = bases.get(*exercise).map_or(&[][..], Vec::as_slice);
        answer(wire, it.get_or_insert_default(), base, spent)
    })?;
    *answers = numbered.into_iter().map(|numbered| numbered.answer).collect();
    Ok(())
}

/// An answer with the number of its exercise.
#[derive(Clone, Default)]
struct Numbered {
    exercise: usize,
    answer: Option<Answer>,
}

fn answer(wire: &mut Fields<'_>, it: &mut Answer, base: &[u8], spent: &Budget) -> Read {
    let Answer { sketch, found, keys, minutes } = it;
    patched(wire, 2, sketch, base, spent)?;
    wire.bytes(3, found, write_found, read_found)?;
    wire.bytes(
        4,
        keys,
        |keys, out| {
            for key in keys {
                let mut inner = Vec::new();
                patch::write(key, base, &mut inner);
                put_varint(out, inner.len() as u64);
                out.extend(inner);
            }
        },
        |keys, mut input| {
            keys.clear();
            while !input.is_empty() {
                let length = input.varint()?;
                keys.push(patch::read(input.take(length)?, base, spent)?);
                limit(keys)?;
            }
            Ok(())
        },
    )?;
    wire.number(5, minutes, 0)
}

fn write_found(found: &Vec<Found>, out: &mut Vec<u8>) {
    for Found { chord, rule } in found {
        put_varint(out, *chord as u64);
        put_varint(out, rule.code());
    }
}

fn read_found(found: &mut Vec<Found>, mut input: Input<'_>) -> Read {
    found.clear();
    while !input.is_empty() {
        let chord = place(input.varint()?)?;
        let rule = Option::<Rule>::from_code(input.varint()?).ok_or(LinkError::Newer)?;
        found.push(Found { chord, rule });
        limit(found)?;
    }
    Ok(())
}

/// All fields of a hand-in with comments.
pub(super) fn commented(wire: &mut Fields<'_>, it: &mut Commented, spent: &Budget) -> Read {
    let Commented { teacher, hand_in: handed_in, comments } = it;
    wire.text(1, teacher)?;
    wire.message(2, handed_in, |wire, it| hand_in(wire, it, spent))?;
    list(wire, 3, comments, comment)
}

fn comment(wire: &mut Fields<'_>, it: &mut Comment) -> Read {
    let Comment { exercise, chord, text } = it;
    count(wire, 1, exercise)?;
    // 0 is the whole answer.
    let mut place = chord.map_or(0, |chord| chord.saturating_add(1));
    count(wire, 2, &mut place)?;
    *chord = place.checked_sub(1);
    wire.text(3, text)
}

/// A whole number that is usually 0.
fn count(wire: &mut Fields<'_>, id: u64, slot: &mut usize) -> Read {
    let mut number = i64::try_from(*slot).unwrap_or(i64::MAX);
    wire.number(id, &mut number, 0)?;
    *slot = place(u64::try_from(number).map_err(|_| LinkError::Damaged)?)?;
    Ok(())
}

/// A place in a list, as read: small enough to be counted on from.
fn place(number: u64) -> Result<usize, LinkError> {
    if number > MAX_PLACE { Err(LinkError::Damaged) } else { Ok(number as usize) }
}

/// A list of texts.
fn texts(wire: &mut Fields<'_>, id: u64, slot: &mut Vec<String>) -> Read {
    list(wire, id, slot, |wire, text| wire.text(1, text))
}

/// A list of messages, each after its length.
fn list<T: Clone + Default>(
    wire: &mut Fields<'_>,
    id: u64,
    slot: &mut Vec<T>,
    fields: impl Fn(&mut Fields<'_>, &mut T) -> Read,
) -> Read {
    wire.bytes(
        id,
        slot,
        |items, out| {
            for item in items {
                let inner = Fields::written(|inner| fields(inner, &mut item.clone()));
                put_varint(out, inner.len() as u64);
                out.extend(inner);
            }
        },
        |items, mut input| {
            items.clear();
            while !input.is_empty() {
                let length = input.varint()?;
                let mut item = T::default();
                fields(&mut Fields::parse(input.take(length)?)?, &mut item)?;
                items.push(item);
                limit(items)?;
            }
            Ok(())
        },
    )
}

fn limit<T>(items: &[T]) -> Read {
    if items.len() > MAX_LIST { Err(LinkError::TooLong) } else { Ok(()) }
}
