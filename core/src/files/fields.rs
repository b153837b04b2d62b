//! Numbered fields, written or read by one and the same list of calls.
//!
//! A message is a run of fields. A field is a key (its id and kind in one
//! varint) and a varint, or a length and bytes. What has its usual value is
//! left out; an id that the reader does not know is passed over; so fields may
//! be added without breaking old links. The usual values are part of the format:
//! they are written out here and never follow a changed `Default`.

use super::choice::Choice;
use super::link::LinkError;

/// One message on its way out or in.
pub(super) enum Fields<'a> {
    /// Being written.
    Out(Vec<u8>),
    /// Being read: each id with what it holds.
    In(Vec<(u64, Item<'a>)>),
}

/// What a field holds.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Item<'a> {
    Number(u64),
    Bytes(&'a [u8]),
}

/// Fields are read one by one; the first that cannot be is the answer.
pub(super) type Read = Result<(), LinkError>;

impl<'a> Fields<'a> {
    /// Splits a message into its fields.
    pub(super) fn parse(bytes: &'a [u8]) -> Result<Fields<'a>, LinkError> {
        let mut input = Input(bytes);
        let mut items = Vec::new();
        while !input.is_empty() {
            let key = input.varint()?;
            let item = if key & 1 == 0 {
                Item::Number(input.varint()?)
            } else {
                let length = input.varint()?;
                Item::Bytes(input.take(length)?)
            };
            items.push((key >> 1, item));
        }
        Ok(Fields::In(items))
    }

    /// The bytes of a message that `fields` lists.
    pub(super) fn written(fields: impl FnOnce(&mut Fields<'_>) -> Read) -> Vec<u8> {
        let mut out = Fields::Out(Vec::new());
        // Writing has no way to fail; the list of fields is shared with reading.
        let written = fields(&mut out);
        debug_assert!(written.is_ok());
        match out {
            Fields::Out(bytes) => bytes,
            Fields::In(_) => Vec::new(),
        }
    }

    /// A whole number that fits an `i64`.
    pub(super) fn number<T>(&mut self, id: u64, slot: &mut T, usual: T) -> Read
    where
        T: Copy + PartialEq + Into<i64> + TryFrom<i64>,
    {
        match self {
            Fields::Out(out) if *slot != usual => put(out, id, zigzag((*slot).into())),
            Fields::Out(_) => {}
            Fields::In(items) => {
                *slot = match find_number(items, id) {
                    Some(code) => T::try_from(unzigzag(code)).map_err(|_| LinkError::Damaged)?,
                    None => usual,
                }
            }
        }
        Ok(())
    }

    /// One of an enum's variants.
    pub(super) fn choice<T: Choice>(&mut self, id: u64, slot: &mut T, usual: T) -> Read {
        match self {
            Fields::Out(out) if *slot != usual => put(out, id, slot.code()),
            Fields::Out(_) => {}
            Fields::In(items) => {
                *slot = match find_number(items, id) {
                    Some(code) => T::from_code(code).ok_or(LinkError::Newer)?,
                    None => usual,
                }
            }
        }
        Ok(())
    }

    /// A number with a fraction, exactly. Hundredths take fewer bytes.
    pub(super) fn real(&mut self, id: u64, slot: &mut f64, usual: f64) -> Read {
        match self {
            Fields::Out(out) => {
                let hundredths = (*slot * 100.0).round();
                let short =
                    hundredths.abs() < 1e9 && (hundredths / 100.0).to_bits() == slot.to_bits();
                if slot.to_bits() == usual.to_bits() {
                } else if short {
                    put(out, id, zigzag(hundredths as i64));
                } else {
                    put_bytes(out, id, &slot.to_bits().to_le_bytes());
                }
            }
            Fields::In(items) => {
                *slot = match find(items, id) {
                    Some(Item::Number(code)) => unzigzag(code) as f64 / 100.0,
                    Some(Item::Bytes(bytes)) => {
                        let bits = <[u8; 8]>::try_from(bytes).map_err(|_| LinkError::Damaged)?;
                        f64::from_bits(u64::from_le_bytes(bits))
                    }
                    None => usual,
                }
            }
        }
        Ok(())
    }

    /// A text; usually empty.
    pub(super) fn text(&mut self, id: u64, slot: &mut String) -> Read {
        match self {
            Fields::Out(out) if !slot.is_empty() => put_bytes(out, id, slot.as_bytes()),
            Fields::Out(_) => {}
            Fields::In(items) => {
                let bytes = find_bytes(items, id);
                let text = std::str::from_utf8(bytes).map_err(|_| LinkError::Damaged)?;
                text.clone_into(slot);
            }
        }
        Ok(())
    }

    /// Bytes that `write` makes and `read` understands; empty is left out, and
    /// what was left out is read as empty.
    pub(super) fn bytes<T>(
        &mut self,
        id: u64,
        slot: &mut T,
        write: impl FnOnce(&T, &mut Vec<u8>),
        read: impl FnOnce(&mut T, Input<'_>) -> Read,
    ) -> Read {
        match self {
            Fields::Out(out) => {
                let mut inner = Vec::new();
                write(slot, &mut inner);
                if !inner.is_empty() {
                    put_bytes(out, id, &inner);
                }
                Ok(())
            }
            Fields::In(items) => read(slot, Input(find_bytes(items, id))),
        }
    }

    /// A message within this one.
    pub(super) fn message<T>(
        &mut self,
        id: u64,
        slot: &mut T,
        fields: impl FnOnce(&mut Fields<'_>, &mut T) -> Read,
    ) -> Read {
        match self {
            Fields::Out(out) => {
                let mut inner = Fields::Out(Vec::new());
                fields(&mut inner, slot)?;
                if let Fields::Out(bytes) = inner
                    && !bytes.is_empty()
                {
                    put_bytes(out, id, &bytes);
                }
                Ok(())
            }
            Fields::In(items) => fields(&mut Fields::parse(find_bytes(items, id))?, slot),
        }
    }
}

fn find<'a>(items: &[(u64, Item<'a>)], id: u64) -> Option<Item<'a>> {
    items.iter().find(|(it, _)| *it == id).map(|(_, item)| *item)
}

fn find_number(items: &[(u64, Item<'_>)], id: u64) -> Option<u64> {
    match find(items, id) {
        Some(Item::Number(number)) => Some(number),
        _ => None,
    }
}

pub(super) fn find_bytes<'a>(items: &[(u64, Item<'a>)], id: u64) -> &'a [u8] {
    match find(items, id) {
        Some(Item::Bytes(bytes)) => bytes,
        _ => &[],
    }
}

pub(super) fn put(out: &mut Vec<u8>, id: u64, number: u64) {
    put_varint(out, id << 1);
    put_varint(out, number);
}

pub(super) fn put_bytes(out: &mut Vec<u8>, id: u64, bytes: &[u8]) {
    put_varint(out, id << 1 | 1);
    put_varint(out, bytes.len() as u64);
    out.extend_from_slice(bytes);
}

/// Appends a number seven bits at a time, lowest first.
pub(super) fn put_varint(out: &mut Vec<u8>, mut number: u64) {
    while number >= 128 {
        out.push(number as u8 | 128);
        number >>= 7;
    }
    out.push(number as u8);
}

/// Small numbers of either sign as small numbers without one.
pub(super) const fn zigzag(number: i64) -> u64 {
    (number << 1 ^ number >> 63) as u64
}

/// The inverse of [`zigzag`].
pub(super) const fn unzigzag(code: u64) -> i64 {
    (code >> 1) as i64 ^ -((code & 1) as i64)
}

/// Bytes yet to be read.
#[derive(Clone, Copy)]
pub(super) struct Input<'a>(pub(super) &'a [u8]);

impl<'a> Input<'a> {
    pub(super) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    pub(super) fn byte(&mut self) -> Result<u8, LinkError> {
        let (&first, rest) = self.0.split_first().ok_or(LinkError::Damaged)?;
        self.0 = rest;
        Ok(first)
    }

    pub(super) fn varint(&mut self) -> Result<u64, LinkError> {
        let mut number = 0u64;
        for shift in (0..64).step_by(7) {
            let byte = self.byte()?;
            number |= u64::from(byte & 127) << shift;
            if byte < 128 {
                return Ok(number);
            }
        }
        Err(LinkError::Damaged)
    }

    pub(super) fn take(&mut self, length: u64) -> Result<&'a [u8], LinkError> {
        let length = usize::try_from(length).map_err(|_| LinkError::Damaged)?;
        let (taken, rest) = self.0.split_at_checked(length).ok_or(LinkError::Damaged)?;
        self.0 = rest;
        Ok(taken)
    }
}
