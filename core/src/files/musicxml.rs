//! The sketch's chords as a MusicXML 4.0 score: white notes on a grand staff,
//! arpeggio signs, figures under the bass, a bar for each chord and no bar lines.

use super::bring;
use super::link::encode;
use crate::figures::{Accidental, Sign, Stage};
use crate::harmony::Chord;
use crate::pitch::{Mode, Pitch};
use crate::reading::Reading;
use crate::sketch::Sketch;
use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesText, Event};
use std::io;
use std::ops::Range;

/// Length of a chord in divisions, one to the quarter note.
const WHOLE: &str = "4";

type Xml = Writer<Vec<u8>>;
type Written = io::Result<()>;

/// The score as text. A passing bass note is a small note before the next bass.
/// Pitches outside MusicXML's octaves 0 to 9, which no keyboard has, are left out.
pub fn musicxml(sketch: &Sketch, reading: &Reading) -> String {
    let mut xml = Writer::new_with_indent(Vec::new(), b' ', 1);
    // Writing to memory has no way to fail.
    let written = score(&mut xml, sketch, reading);
    debug_assert!(written.is_ok());
    String::from_utf8_lossy(&xml.into_inner()).into_owned()
}

/// The same score packed into an archive (`.mxl`), which the same sketch fills with
/// the same bytes.
pub fn mxl(sketch: &Sketch, reading: &Reading) -> Vec<u8> {
    bring::pack(&musicxml(sketch, reading))
}

fn score(xml: &mut Xml, sketch: &Sketch, reading: &Reading) -> Written {
    xml.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)))?;
    xml.write_event(Event::DocType(BytesText::from_escaped(concat!(
        "score-partwise PUBLIC \"-//Recordare//DTD MusicXML 4.0 Partwise//EN\" ",
        "\"partwise.dtd\""
    ))))?;
    let score = xml.create_element("score-partwise").with_attribute(("version", "4.0"));
    score.write_inner_content(|xml| {
        if !sketch.title.is_empty() {
            xml.create_element("work")
                .write_inner_content(|xml| text(xml, "work-title", &legal(&sketch.title)))?;
        }
        xml.create_element("identification").write_inner_content(|xml| {
            xml.create_element("encoding")
                .write_inner_content(|xml| text(xml, "software", "Tastata"))?;
            // What a score cannot say is carried along for the way back.
            xml.create_element("miscellaneous").write_inner_content(|xml| {
                xml.create_element("miscellaneous-field")
                    .with_attribute(("name", bring::KEPT_FIELD))
                    .write_text_content(BytesText::new(&encode(sketch)))?;
                Ok(())
            })?;
            Ok(())
        })?;
        xml.create_element("part-list").write_inner_content(|xml| {
            xml.create_element("score-part")
                .with_attribute(("id", "P1"))
                .write_inner_content(|xml| text(xml, "part-name", "Keyboard"))?;
            Ok(())
        })?;
        xml.create_element("part")
            .with_attribute(("id", "P1"))
            .write_inner_content(|xml| measures(xml, sketch, reading))?;
        Ok(())
    })?;
    Ok(())
}

/// What XML 1.0 can hold: control characters are left out.
fn legal(text: &str) -> String {
    text.chars().filter(|&c| c >= ' ' && c != '\u{FFFE}' && c != '\u{FFFF}').collect()
}

fn measures(xml: &mut Xml, sketch: &Sketch, reading: &Reading) -> Written {
    let chords = &reading.harmony.chords;
    // A part needs a measure, and an empty piece has one with rests.
    let count = chords.len().max(1);
    for index in 0..count {
        let number = (index + 1).to_string();
        let measure = xml.create_element("measure").with_attribute(("number", number.as_str()));
        measure.write_inner_content(|xml| {
            if index == 0 {
                attributes(xml, reading)?;
            }
            match chords.get(index) {
                None => {
                    rest(xml, "1", "1")?;
                    backup(xml)?;
                    rest(xml, "2", "2")?;
                }
                Some(chord) => {
                    let before = index.checked_sub(1).and_then(|i| chords.get(i));
                    let passing = before.map_or(0, |before| before.note + 1)..chord.note;
                    let after = chords.get(index + 1);
                    let held =
                        |other: Option<&Chord>| other.is_some_and(|other| other.note == chord.note);
                    let bass = Held { from: held(before), on: held(after) };
                    let place = Place { index, chord, last: index + 1 == count, bass };
                    measure_of(xml, sketch, reading, &place, passing)?;
                }
            }
            barline(xml, index + 1 == count)
        })?;
    }
    Ok(())
}

struct Place<'a> {
    index: usize,
    chord: &'a Chord,
    last: bool,
    bass: Held,
}

/// Whether a bass is held over from the chord before and on to the next: the stages
/// of one note's figures.
#[derive(Clone, Copy)]
struct Held {
    from: bool,
    on: bool,
}

impl Held {
    const NOT: Held = Held { from: false, on: false };
}

fn measure_of(
    xml: &mut Xml,
    sketch: &Sketch,
    reading: &Reading,
    place: &Place<'_>,
    passing: Range<usize>,
) -> Written {
    let handful = reading.hands.handfuls.get(place.index);
    let (left, right) = handful.map_or((&[][..], &[][..]), |it| (&it.left, &it.right));
    hand(xml, right, "1", place.last, None)?;
    backup(xml)?;
    small_notes(xml, sketch, passing)?;
    figured_bass(xml, &place.chord.figures)?;
    let alone = [place.chord.bass];
    let bass = Some((place.chord.bass, place.bass));
    hand(xml, if left.is_empty() { &alone } else { left }, "2", place.last, bass)?;
    // Nothing follows the last chord but what passes after it.
    let after = if place.last { place.chord.note + 1..sketch.notes.len() } else { 0..0 };
    small_notes(xml, sketch, after)
}

/// Bass notes that carry no chord, as small notes that take no time.
fn small_notes(xml: &mut Xml, sketch: &Sketch, notes: Range<usize>) -> Written {
    for note in sketch.notes.get(notes).unwrap_or_default() {
        if !(0..=9).contains(&note.pitch.octave) {
            continue;
        }
        xml.create_element("note").write_inner_content(|xml| {
            xml.create_element("grace").write_empty()?;
            pitch(xml, note.pitch)?;
            text(xml, "voice", "2")?;
            text(xml, "type", "quarter")?;
            text(xml, "staff", "2")
        })?;
    }
    Ok(())
}

fn attributes(xml: &mut Xml, reading: &Reading) -> Written {
    let home = reading.harmony.home;
    xml.create_element("attributes").write_inner_content(|xml| {
        text(xml, "divisions", "1")?;
        xml.create_element("key").write_inner_content(|xml| {
            text(xml, "fifths", &home.signature().clamp(-7, 7).to_string())?;
            text(xml, "mode", if home.mode == Mode::Major { "major" } else { "minor" })
        })?;
        let time = xml.create_element("time").with_attribute(("print-object", "no"));
        time.write_inner_content(|xml| {
            text(xml, "beats", "4")?;
            text(xml, "beat-type", "4")
        })?;
        text(xml, "staves", "2")?;
        for (number, sign, line) in [("1", "G", "2"), ("2", "F", "4")] {
            let clef = xml.create_element("clef").with_attribute(("number", number));
            clef.write_inner_content(|xml| {
                text(xml, "sign", sign)?;
                text(xml, "line", line)
            })?;
        }
        Ok(())
    })?;
    Ok(())
}

/// One hand's notes as a chord of whole notes; staff and voice have one number.
fn hand(
    xml: &mut Xml,
    pitches: &[Pitch],
    staff: &str,
    fermata: bool,
    bass: Option<(Pitch, Held)>,
) -> Written {
    let mut written = pitches.iter().filter(|pitch| (0..=9).contains(&pitch.octave)).peekable();
    if written.peek().is_none() {
        return rest(xml, staff, staff);
    }
    for (i, note) in written.enumerate() {
        let held = bass.filter(|(bass, _)| bass == note).map_or(Held::NOT, |(_, held)| held);
        let ties = [("stop", held.from), ("start", held.on)];
        let ties = ties.into_iter().filter_map(|(kind, is)| is.then_some(kind));
        xml.create_element("note").write_inner_content(|xml| {
            if i > 0 {
                xml.create_element("chord").write_empty()?;
            }
            pitch(xml, *note)?;
            text(xml, "duration", WHOLE)?;
            for kind in ties.clone() {
                xml.create_element("tie").with_attribute(("type", kind)).write_empty()?;
            }
            text(xml, "voice", staff)?;
            text(xml, "type", "whole")?;
            text(xml, "staff", staff)?;
            xml.create_element("notations").write_inner_content(|xml| {
                for kind in ties {
                    xml.create_element("tied").with_attribute(("type", kind)).write_empty()?;
                }
                if fermata && i == 0 && staff == "1" {
                    xml.create_element("fermata").write_empty()?;
                }
                // One number in both hands: one sign through both staves.
                xml.create_element("arpeggiate").with_attribute(("number", "1")).write_empty()?;
                Ok(())
            })?;
            Ok(())
        })?;
    }
    Ok(())
}

fn rest(xml: &mut Xml, voice: &str, staff: &str) -> Written {
    xml.create_element("note").write_inner_content(|xml| {
        xml.create_element("rest").with_attribute(("measure", "yes")).write_empty()?;
        text(xml, "duration", WHOLE)?;
        text(xml, "voice", voice)?;
        text(xml, "staff", staff)
    })?;
    Ok(())
}

fn backup(xml: &mut Xml) -> Written {
    xml.create_element("backup").write_inner_content(|xml| text(xml, "duration", WHOLE))?;
    Ok(())
}

fn pitch(xml: &mut Xml, pitch: Pitch) -> Written {
    xml.create_element("pitch").write_inner_content(|xml| {
        text(xml, "step", pitch.step.letter().encode_utf8(&mut [0; 4]))?;
        if pitch.alter != 0 {
            text(xml, "alter", &pitch.alter.to_string())?;
        }
        text(xml, "octave", &pitch.octave.to_string())
    })?;
    Ok(())
}

fn figured_bass(xml: &mut Xml, figures: &Stage) -> Written {
    let signs = match figures {
        Stage::Signs(signs) if signs.is_empty() => return Ok(()),
        Stage::Signs(signs) => signs.as_slice(),
        Stage::Hold => &[],
        Stage::TastoSolo => {
            let direction = xml.create_element("direction").with_attribute(("placement", "below"));
            direction.write_inner_content(|xml| {
                xml.create_element("direction-type")
                    .write_inner_content(|xml| text(xml, "words", "t.s."))?;
                text(xml, "staff", "2")
            })?;
            return Ok(());
        }
    };
    xml.create_element("figured-bass").write_inner_content(|xml| {
        if *figures == Stage::Hold {
            xml.create_element("figure").write_inner_content(|xml| {
                xml.create_element("extend").write_empty()?;
                Ok(())
            })?;
        }
        for sign in signs {
            xml.create_element("figure").write_inner_content(|xml| figure(xml, *sign))?;
        }
        text(xml, "duration", WHOLE)
    })?;
    Ok(())
}

/// An altered third is its accidental alone, as it is printed.
fn figure(xml: &mut Xml, sign: Sign) -> Written {
    let number = sign.number.to_string();
    let prefix = match sign.accidental {
        None => return text(xml, "figure-number", &number),
        Some(Accidental::Raised) if sign.number == 3 => "plus",
        Some(Accidental::Raised) => {
            text(xml, "figure-number", &number)?;
            return text(xml, "suffix", "slash");
        }
        Some(Accidental::DoubleFlat) => "flat-flat",
        Some(Accidental::Flat) => "flat",
        Some(Accidental::Natural) => "natural",
        Some(Accidental::Sharp) => "sharp",
        Some(Accidental::DoubleSharp) => "double-sharp",
    };
    text(xml, "prefix", prefix)?;
    if sign.number == 3 { Ok(()) } else { text(xml, "figure-number", &number) }
}

fn barline(xml: &mut Xml, last: bool) -> Written {
    let barline = xml.create_element("barline").with_attribute(("location", "right"));
    barline.write_inner_content(|xml| {
        text(xml, "bar-style", if last { "light-heavy" } else { "none" })
    })?;
    Ok(())
}

fn text(xml: &mut Xml, name: &str, content: &str) -> Written {
    xml.create_element(name).write_text_content(BytesText::new(content))?;
    Ok(())
}
