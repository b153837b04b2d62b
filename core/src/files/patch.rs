//! A sketch told by what differs from another: a model answer or a student's
//! work repeats most of what was given.
//!
//! The patch is a message whose fields stand in for those of the other sketch;
//! field 0 lists the fields that are back at their usual value.

use super::fields::{Fields, Input, Item, Read, find_bytes, put, put_bytes, put_varint};
use super::link::LinkError;
use super::wire;
use crate::sketch::Sketch;
use std::cell::Cell;

/// The most notes and the most stages of figures, pins and handfuls in a sketch
/// that travels with a lesson.
const MAX_NOTES: usize = 1000;
const MAX_STAGES: usize = 4000;

/// What is still allowed to be unpacked, in bytes of plain messages, so that a
/// small link cannot fill the memory.
pub(super) struct Budget(Cell<usize>);

impl Budget {
    pub(super) fn new() -> Budget {
        Budget(Cell::new(400_000))
    }

    fn spend(&self, bytes: usize) -> Read {
        let left = self.0.get().checked_sub(bytes).ok_or(LinkError::TooLong)?;
        self.0.set(left);
        Ok(())
    }
}

/// The plain message of a sketch.
pub(super) fn message(sketch: &Sketch) -> Vec<u8> {
    Fields::written(|fields| wire::sketch(fields, &mut sketch.clone()))
}

/// A whole sketch as a field.
pub(super) fn whole(fields: &mut Fields<'_>, id: u64, slot: &mut Sketch, spent: &Budget) -> Read {
    patched(fields, id, slot, &[], spent)
}

/// A sketch as a field, told by what differs from the message `base`.
pub(super) fn patched(
    fields: &mut Fields<'_>,
    id: u64,
    slot: &mut Sketch,
    base: &[u8],
    spent: &Budget,
) -> Read {
    fields.bytes(
        id,
        slot,
        |sketch, out| write(sketch, base, out),
        |sketch, input| {
            *sketch = read(input.0, base, spent)?;
            Ok(())
        },
    )
}

/// Appends the patch from `base` to a sketch.
pub(super) fn write(sketch: &Sketch, base: &[u8], out: &mut Vec<u8>) {
    let own = message(sketch);
    let (own, base) = (items(&own), items(base));
    for (id, item) in own.iter().filter(|field| !base.contains(field)) {
        match item {
            Item::Number(number) => put(out, *id, *number),
            Item::Bytes(bytes) => put_bytes(out, *id, bytes),
        }
    }
    let mut gone = Vec::new();
    for (id, _) in base.iter().filter(|(id, _)| !own.iter().any(|(own, _)| own == id)) {
        put_varint(&mut gone, *id);
    }
    if !gone.is_empty() {
        put_bytes(out, 0, &gone);
    }
}

/// The sketch that a patch makes of `base`.
pub(super) fn read(patch: &[u8], base: &[u8], spent: &Budget) -> Result<Sketch, LinkError> {
    spent.spend(patch.len() + base.len())?;
    let Fields::In(mut all) = Fields::parse(patch)? else { return Err(LinkError::Damaged) };
    let mut gone = Vec::new();
    let mut input = Input(find_bytes(&all, 0));
    while !input.is_empty() {
        gone.push(input.varint()?);
    }
    // Of two fields with one number the first is read, so the patch comes first.
    all.extend(items(base).into_iter().filter(|(id, _)| !gone.contains(id)));
    let mut sketch = Sketch::default();
    wire::sketch(&mut Fields::In(all), &mut sketch)?;
    let stages = sketch.notes.iter().map(|note| {
        let figures = note.figures.as_ref().map_or(0, |figures| figures.stages().len());
        figures.max(note.soprano.len()).max(note.handfuls.len())
    });
    let too_long = sketch.notes.len() > MAX_NOTES || stages.sum::<usize>() > MAX_STAGES;
    if too_long { Err(LinkError::TooLong) } else { Ok(sketch) }
}

/// The fields of a message that we wrote or have read already.
fn items(message: &[u8]) -> Vec<(u64, Item<'_>)> {
    match Fields::parse(message) {
        Ok(Fields::In(items)) => items,
        Ok(Fields::Out(_)) | Err(_) => Vec::new(),
    }
}
