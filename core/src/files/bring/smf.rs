//! Standard MIDI files in: the notes of each channel of each track.
//! Format: *The Complete MIDI 1.0 Detailed Specification*.

use super::part::{Key, Part, Piece, QUARTER, Struck};
use super::{BringError, PartName};
use crate::pitch::{self, Mode, PitchClass, Tonality};
use midly::{MetaMessage, MidiMessage, Smf, Timing, TrackEventKind};

/// The channel of unpitched percussion, counted from 0.
const PERCUSSION: u8 = 9;

/// The last time there is, far behind the end of any piece. Steps between events are free
/// to add up to more than can be reckoned with.
const LATEST: i64 = 1 << 50;

/// Reads a file that begins with a MIDI header, bare or in a RIFF wrapper.
pub(super) fn read(bytes: &[u8]) -> Result<Piece, BringError> {
    if frames_per_second_overflow(bytes) {
        return Err(BringError::BrokenMidi);
    }
    let smf = Smf::parse(bytes).map_err(|_| BringError::BrokenMidi)?;
    let division = match smf.header.timing {
        Timing::Metrical(ticks) => i64::from(ticks.as_int()).max(1),
        // Two quarter notes to the second where a file counts in frames.
        Timing::Timecode(frames, ticks) => {
            (i64::from(frames.as_int()) * i64::from(ticks) / 2).max(1)
        }
    };
    let mut piece = Piece::default();
    let mut key = None;
    for track in &smf.tracks {
        let mut name = String::new();
        let mut channels: Vec<(u8, Channel)> = Vec::new();
        let mut now: i64 = 0;
        for event in track {
            now += i64::from(event.delta.as_int());
            let at = (now.saturating_mul(QUARTER) / division).min(LATEST);
            match event.kind {
                TrackEventKind::Meta(MetaMessage::TrackName(text)) if name.is_empty() => {
                    name = String::from_utf8_lossy(text).trim().to_string();
                }
                TrackEventKind::Meta(MetaMessage::KeySignature(fifths, minor)) => {
                    let fifths = i32::from(fifths).clamp(-7, 7);
                    key.get_or_insert(if minor {
                        Tonality::new(PitchClass::from_fifths(fifths + 3), Mode::Minor)
                    } else {
                        Tonality::new(PitchClass::from_fifths(fifths), Mode::Major)
                    });
                }
                TrackEventKind::Midi { channel, message } if channel.as_int() != PERCUSSION => {
                    let number = channel.as_int();
                    let place = channels.iter().position(|(it, _)| *it == number);
                    let place = place.unwrap_or_else(|| {
                        channels.push((number, Channel::default()));
                        channels.len() - 1
                    });
                    let Some((_, channel)) = channels.get_mut(place) else { continue };
                    match message {
                        MidiMessage::NoteOn { key, vel } if vel.as_int() > 0 => {
                            channel.down(key.as_int(), at);
                        }
                        MidiMessage::NoteOn { key, .. } | MidiMessage::NoteOff { key, .. } => {
                            channel.up(key.as_int(), at);
                        }
                        _ => {}
                    }
                }
                _ => {}
            }
        }
        let sounding = channels.iter().filter(|(_, channel)| !channel.notes.is_empty()).count();
        if piece.title.is_empty() && sounding == 0 {
            // A track without notes is named for the piece.
            piece.title = name.clone();
        }
        for (number, channel) in channels {
            let name = if sounding > 1 {
                PartName::Channel(name.clone(), number + 1)
            } else {
                PartName::Named(name.clone())
            };
            let notes = channel.notes;
            piece.parts.push(Part { name, key: Key::Open, notes, figures: Vec::new() });
        }
    }
    for part in &mut piece.parts {
        // A signature of C major is what programs write who know nothing of it.
        part.key = match key {
            Some(tonality) if tonality.signature() == 0 && tonality.mode == Mode::Major => {
                Key::Open
            }
            Some(tonality) => Key::Stated(tonality),
            None => Key::Open,
        };
    }
    Ok(piece)
}

/// Whether the header counts in -128 frames to the second, which no frame rate is and on
/// which the reader's own arithmetic overflows.
fn frames_per_second_overflow(bytes: &[u8]) -> bool {
    const DIVISION: usize = 12;
    let head = bytes.windows(4).take(64).position(|window| window == b"MThd");
    head.and_then(|head| bytes.get(head + DIVISION)) == Some(&0x80)
}

/// The notes of a channel, those whose key is still down with an open end.
#[derive(Default)]
struct Channel {
    notes: Vec<Struck>,
    /// The note that holds each key down, by place.
    held: Vec<(u8, usize)>,
}

impl Channel {
    fn down(&mut self, number: u8, at: i64) {
        self.up(number, at);
        let Some(key) = pitch::Key::new(i32::from(number)) else { return };
        let plain = Tonality::new(PitchClass::from_fifths(0), Mode::Major);
        self.held.push((number, self.notes.len()));
        let pitch = plain.spell(key);
        self.notes.push(Struck { at, end: at + 1, pitch, small: false, lyrics: Vec::new() });
    }

    fn up(&mut self, number: u8, at: i64) {
        let Some(place) = self.held.iter().position(|(it, _)| *it == number) else { return };
        let (_, note) = self.held.swap_remove(place);
        if let Some(note) = self.notes.get_mut(note) {
            note.end = at.max(note.at + 1);
        }
    }
}
