//! Files of others in: the chorales that a library of others ships, our own scores
//! and MIDI files back, and damaged and hostile files beside good ones.

use anyhow::{Context, Result, ensure};
use std::io::Write;
use tastata::bass::{passing, print_bass, read_bass};
use tastata::files::{
    BringError, BringRemark, Brought, FileKind, MAX_NOTES, MidiForm, OtherKind, PartName, encode,
    from_text, midi, musicxml, mxl, read_file, to_text,
};
use tastata::pitch::Pitch;
use tastata::reading::read;
use tastata::sketch::{Sketch, SketchNote, Weight};
use tastata::words::{self, Lang};
use tastata_tests::oracle;

fn sketch_of(text: &str) -> Sketch {
    let bass = read_bass(text, None);
    assert!(bass.remarks.is_empty(), "{text}");
    Sketch {
        tonality: bass.tonality,
        notes: bass.notes.iter().map(|note| note.to_sketch()).collect(),
        ..Sketch::default()
    }
}

fn brought(name: &str, bytes: &[u8]) -> Result<Brought> {
    read_file(name, bytes)
        .map_err(|error| anyhow::anyhow!("{name}: {}", words::bring_error(&error, Lang::English)))
}

/// As music21 spells: F#4, B-3.
fn spelled(pitch: Pitch) -> String {
    let sign = if pitch.alter < 0 { "-" } else { "#" };
    let signs = sign.repeat(usize::from(pitch.alter.unsigned_abs()));
    format!("{}{signs}{}", pitch.step.letter(), pitch.octave)
}

/// The packed scores of Bach's chorales in the corpus of the music21 library,
/// every bass note as that library reads it.
#[test]
fn every_chorale_enters_with_the_bass_that_music21_reads() -> Result<()> {
    let answer = oracle("basses.py", &["chorales"], "")?;
    let mut count = 0;
    let mut largest = (std::time::Duration::ZERO, String::new(), 0);
    for line in answer.lines() {
        let (path, expected) = line.split_once('\t').context("two columns")?;
        let bytes = std::fs::read(path)?;
        let before = std::time::Instant::now();
        let brought = brought(path, &bytes)?;
        largest = largest.max((before.elapsed(), path.to_string(), bytes.len()));
        assert_eq!(brought.kind, FileKind::Score);
        let sketch = brought.sketch();
        let bass: Vec<String> = sketch.notes.iter().map(|note| spelled(note.pitch)).collect();
        assert_eq!(bass.join(" "), expected, "{path}");
        assert!(sketch.tonality.is_some(), "{path}");
        assert!(!sketch.title.is_empty(), "{path}");
        count += 1;
    }
    println!(
        "{count} scores; the slowest took {:?}: {} ({} bytes)",
        largest.0, largest.1, largest.2
    );
    ensure!(count >= 350, "only {count} scores were read");
    Ok(())
}

/// Figures written as words under a bass: Corelli, op. 3 no. 1, first movement, in
/// the corpus of the music21 library.
#[test]
fn figures_written_as_words_are_understood() -> Result<()> {
    let answer = oracle("basses.py", &["figured"], "")?;
    let (path, expected) = answer.trim_end().split_once('\t').context("two columns")?;
    let brought = brought(path, &std::fs::read(path)?)?;
    let figured = brought.parts.iter().map(|part| {
        let notes = part.sketch.notes.iter().filter_map(|note| note.figures.as_ref());
        notes.map(|figures| tastata::figures::print(figures).replace('-', " ")).collect::<Vec<_>>()
    });
    let figured = figured.max_by_key(Vec::len).unwrap_or_default();
    // In that file an s stands for a sharp.
    assert_eq!(figured.join(","), expected.replace('s', "#"));
    assert!(figured.len() >= 50);
    Ok(())
}

/// Basses of our own: figures of every kind, stages, passing notes, far keys.
const BASSES: [&str; 5] = [
    "C major: C3",
    "D minor: D3 C#3:6 D3 (E3) (F3) Bb2:6/5b G2:#6/4+/2 A2:6/4-5/# D2 Bb1:t.s. D2",
    "Cb major: Cb3 Fb3 (Gb3) Abb2:6 Cb3:4+/2 E3 B2:7 E#2:6 (Fb2) Cb2",
    "G# minor: G#2 F##2:6/5 G#2 B2:6 E3:7-6 D#3:9/7-8/6 D#2:6/4-5/3+ C#2:bb7/n5 B1:x6 G#1",
    "F major: F2 G2 A2 Bb2 C3 D3 E3 F3 E3 D3 C3 Bb2 A2 G2 F2",
];

#[test]
fn a_score_of_ours_comes_back_as_the_same_sketch() -> Result<()> {
    for (i, text) in BASSES.into_iter().enumerate() {
        let mut sketch = sketch_of(text);
        sketch.title = ["", "Tea & <cake>"][i % 2].to_string();
        sketch.roll.times = 3;
        sketch.sound.a4 = 392.0;
        let reading = read(&sketch);
        let score = musicxml(&sketch, &reading);
        assert_eq!(brought("bass.musicxml", score.as_bytes())?.sketch(), sketch, "{text}");
        assert_eq!(brought("bass.mxl", &mxl(&sketch, &reading))?.sketch(), sketch, "{text}");
    }
    Ok(())
}

/// By another program for ZIP archives.
#[test]
fn a_packed_score_of_ours_opens_elsewhere() -> Result<()> {
    let sketch = sketch_of(BASSES[1]);
    let reading = read(&sketch);
    let mut archive = zip::ZipArchive::new(std::io::Cursor::new(mxl(&sketch, &reading)))?;
    let names: Vec<String> = archive.file_names().map(str::to_string).collect();
    assert_eq!(names, ["mimetype", "META-INF/container.xml", "score.musicxml"]);
    let score = std::io::read_to_string(archive.by_name("score.musicxml")?)?;
    assert_eq!(score, musicxml(&sketch, &reading));
    Ok(())
}

/// Without what a score of ours carries along: bass, figures and key are in the notes.
#[test]
fn bass_figures_and_key_come_back_from_the_notes_alone() -> Result<()> {
    for text in BASSES {
        let sketch = sketch_of(text);
        let reading = read(&sketch);
        let score = musicxml(&sketch, &reading).replace("tastata-sketch", "other-field");
        let back = brought("bass.musicxml", score.as_bytes())?.sketch();
        assert_eq!(back.tonality, Some(reading.harmony.home), "{text}");
        let pitches = |it: &Sketch| it.notes.iter().map(|note| note.pitch).collect::<Vec<_>>();
        assert_eq!(pitches(&back), pitches(&sketch), "{text}");
        let passing = |it: &Sketch| {
            it.notes.iter().map(|note| note.weight == Weight::Passing).collect::<Vec<_>>()
        };
        assert_eq!(passing(&back), passing(&sketch), "{text}");
        for (back, note) in back.notes.iter().zip(&sketch.notes) {
            if note.figures.is_some() {
                assert_eq!(back.figures, note.figures, "{text}");
            }
        }
    }
    Ok(())
}

#[test]
fn a_score_of_ours_that_was_changed_says_what_it_says_now() -> Result<()> {
    let sketch = sketch_of("C major: C3 D3:6 E3:6 C3");
    let score = musicxml(&sketch, &read(&sketch));
    let changed =
        score.replacen("<figure-number>6</figure-number>", "<figure-number>7</figure-number>", 1);
    assert_ne!(changed, score);
    let back = brought("bass.musicxml", changed.as_bytes())?.sketch();
    assert_eq!(print_bass(&back.notes, back.tonality), "C major: C3 D3:7 E3:6 C3");
    let changed = score.replace("<fifths>0</fifths>", "<fifths>-1</fifths>");
    let back = brought("bass.musicxml", changed.as_bytes())?.sketch();
    assert_eq!(back.tonality.map(|it| it.to_string()).as_deref(), Some("F major"));
    Ok(())
}

/// The notes of a sketch without their lengths, those marked that pass by them.
fn unmeasured(sketch: &Sketch) -> Vec<SketchNote> {
    let bare = |(note, passes): (&SketchNote, bool)| {
        let weight = if passes { Weight::Passing } else { note.weight };
        SketchNote { value: None, rest: None, weight, ..note.clone() }
    };
    sketch.notes.iter().zip(passing(&sketch.notes)).map(bare).collect()
}

#[test]
fn midi_blocks_give_the_bass_back() -> Result<()> {
    for text in
        [BASSES[4], "A minor: A2 B2 C3 D3 E3 F#3 G#3 A3 E3 A2", "Eb major: Eb3 F3 G3 Ab3 Bb2 Eb2"]
    {
        let sketch = sketch_of(text);
        let file = midi(&sketch, &read(&sketch), MidiForm::Blocks);
        let brought = brought("my bass.mid", &file)?;
        assert_eq!(brought.kind, FileKind::Midi);
        assert_eq!(brought.parts[brought.lowest].name, PartName::Named("Left hand".to_string()));
        let back = brought.sketch();
        assert_eq!(back.title, "my bass");
        assert_eq!(print_bass(&unmeasured(&back), back.tonality), text);
    }
    Ok(())
}

#[test]
fn a_performance_keeps_its_title_and_first_and_last_bass() -> Result<()> {
    let mut sketch = sketch_of(BASSES[4]);
    sketch.title = "Tea".to_string();
    let back = brought("x.mid", &midi(&sketch, &read(&sketch), MidiForm::Performance))?.sketch();
    assert_eq!(back.title, "Tea");
    let ends = |it: &Sketch| (it.notes.first().map(|n| n.pitch), it.notes.last().map(|n| n.pitch));
    assert_eq!(ends(&back), ends(&sketch));
    Ok(())
}

#[test]
fn texts_links_and_saved_pages_are_known_by_what_they_hold() -> Result<()> {
    let sketch = sketch_of("D minor: D3 C#3:6 D3");
    let link = encode(&sketch);
    for (kind, content) in [
        (FileKind::Text, to_text(&sketch)),
        (FileKind::Text, format!("\u{FEFF}{}", to_text(&sketch))),
        (FileKind::Link, link.clone()),
        (FileKind::Link, format!("https://example.org/page.html#{link}\n")),
        (
            FileKind::Page,
            format!(
                "<!doctype html><html><script type=\"text/plain\" id=\"kept-sketch\">{link}</script></html>"
            ),
        ),
    ] {
        let brought = brought("anything", content.as_bytes())?;
        assert_eq!((brought.kind, brought.sketch()), (kind, sketch.clone()), "{content}");
    }
    let wide: Vec<u8> = to_text(&sketch).encode_utf16().flat_map(u16::to_le_bytes).collect();
    assert_eq!(brought("x.txt", &[&[0xFF, 0xFE][..], &wide].concat())?.sketch(), sketch);
    let read = brought("x.txt", b"D minor: D3 hm E3 F3")?;
    assert_eq!(read.parts[0].sketch.notes.len(), 3);
    assert!(matches!(&read.remarks[..], [BringRemark::Text(_)]));
    Ok(())
}

/// A score of one part with this inside its only measure.
fn score(inside: &str) -> String {
    format!(
        "<?xml version=\"1.0\"?><score-partwise><part-list><score-part id=\"P1\"><part-name>Bass\
         </part-name></score-part></part-list><part id=\"P1\"><measure><attributes><divisions>2\
         </divisions></attributes>{inside}</measure></part></score-partwise>"
    )
}

fn note(pitch: &str, duration: u32, more: &str) -> String {
    let (step, octave) = pitch.split_at(1);
    format!(
        "<note>{more}<pitch><step>{step}</step><octave>{octave}</octave></pitch><duration>{duration}\
         </duration></note>"
    )
}

#[test]
fn scores_of_others_give_their_lowest_line() -> Result<()> {
    let bass = |inside: String| -> Result<String> {
        let sketch = brought("x.xml", score(&inside).as_bytes())?.sketch();
        Ok(print_bass(&unmeasured(&sketch), sketch.tonality))
    };
    // The lowest note of a chord, whatever its order.
    let chord = [note("E3", 2, ""), note("C3", 2, "<chord/>"), note("G3", 2, "<chord/>")].concat();
    assert_eq!(bass(chord)?, "C3");
    // A second voice under the first; a note above a held one is not of the line.
    let voices = [
        note("G3", 2, ""),
        note("A3", 2, ""),
        "<backup><duration>4</duration></backup>".to_string(),
        note("C3", 4, ""),
    ];
    assert_eq!(bass(voices.concat())?, "C3");
    // Ties joined, grace notes and cues left out.
    let tied = [
        note("C3", 2, "<tie type=\"start\"/>"),
        note("C3", 2, "<tie type=\"stop\"/>"),
        note("D3", 0, "<grace/>"),
        note("E3", 1, "<cue/>"),
        note("C3", 2, ""),
    ];
    assert_eq!(bass(tied.concat())?, "C3 C3");
    // A quick step between two notes passes.
    let quick = [note("C3", 2, ""), note("C3", 1, ""), note("D3", 1, ""), note("E3", 2, "")];
    assert_eq!(bass(quick.concat())?, "C3 C3 (D3) E3");
    // Figures in turn over one note, and an accidental alone.
    let figured = [
        "<figured-bass><figure><figure-number>6</figure-number></figure><figure><figure-number>4\
         </figure-number></figure><duration>1</duration></figured-bass><figured-bass><figure>\
         <figure-number>5</figure-number></figure><figure><prefix>sharp</prefix></figure><duration>1\
         </duration></figured-bass>"
            .to_string(),
        note("A2", 2, ""),
        "<figured-bass><figure><figure-number>5</figure-number><suffix>slash</suffix></figure>\
         </figured-bass>"
            .to_string(),
        note("G2", 2, ""),
    ];
    assert_eq!(bass(figured.concat())?, "A2:6/4-5/# G2:5+");
    Ok(())
}

#[test]
fn a_time_wise_score_and_a_transposing_part_are_understood() -> Result<()> {
    let text = "<score-timewise><part-list><score-part id='A'><part-name>Top</part-name></score-part>\
        <score-part id='B'><part-name>Low</part-name></score-part></part-list>\
        <measure number='1'><part id='A'><note><pitch><step>G</step><octave>4</octave></pitch>\
        <duration>1</duration></note></part><part id='B'><attributes><transpose><diatonic>-1</diatonic>\
        <chromatic>-2</chromatic><octave-change>-1</octave-change></transpose></attributes><note><pitch>\
        <step>D</step><octave>3</octave></pitch><duration>1</duration></note></part></measure>\
        <measure number='2'><part id='A'><note><pitch><step>A</step><octave>4</octave></pitch>\
        <duration>1</duration></note></part><part id='B'><note><pitch><step>E</step><octave>3</octave>\
        </pitch><duration>1</duration></note></part></measure></score-timewise>";
    let brought = brought("x.xml", text.as_bytes())?;
    let names: Vec<String> =
        brought.parts.iter().map(|part| words::part_name(&part.name, Lang::English)).collect();
    assert_eq!(names, ["Top", "Low", "The lowest note of all parts"]);
    assert_eq!(brought.lowest, 1);
    // The lengths come along.
    assert_eq!(print_bass(&brought.parts[1].sketch.notes, None), "C3=4 D3");
    assert_eq!(print_bass(&brought.parts[0].sketch.notes, None), "G4=4 A4");
    assert_eq!(print_bass(&brought.parts[2].sketch.notes, None), "C3=4 D3");
    Ok(())
}

/// Steps of the greatest length in quarter notes of one tick each: what they add up to is
/// beyond reckoning, so the notes behind it come all at once.
#[test]
fn a_midi_file_may_last_for_ever() -> Result<()> {
    let mut track = Vec::new();
    for at in 0..5_000 {
        track.extend([0xFF, 0xFF, 0xFF, 0x7F, if at % 2 == 0 { 0x90 } else { 0x80 }, 48, 64]);
    }
    let mut bytes = b"MThd\0\0\0\x06\0\0\0\x01\0\x01MTrk".to_vec();
    bytes.extend((track.len() as u32).to_be_bytes());
    bytes.extend(track);
    let brought = brought("long.mid", &bytes)?;
    assert!(!brought.parts[0].sketch.notes.is_empty());
    Ok(())
}

fn refused(name: &str, bytes: &[u8]) -> BringError {
    match read_file(name, bytes) {
        Ok(brought) => panic!("{name} was taken as {:?}", brought.kind),
        Err(error) => {
            let said = words::bring_error(&error, Lang::English);
            assert!(said.ends_with('.') && said.matches(". ").count() <= 1, "{said}");
            error
        }
    }
}

#[test]
fn what_is_no_music_is_refused_in_a_sentence() {
    assert_eq!(refused("a", b""), BringError::Empty);
    assert_eq!(refused("a.txt", b" \n\t"), BringError::Empty);
    for (bytes, kind) in [
        (&b"%PDF-1.7 x"[..], OtherKind::Pdf),
        (b"\x89PNG\r\n\x1a\n", OtherKind::Picture),
        (b"RIFF\0\0\0\0WAVEfmt ", OtherKind::Sound),
        (b"<!doctype html><html><p>Hello</html>", OtherKind::Page),
        (b"<svg xmlns='x'/>", OtherKind::Xml("svg".to_string())),
        (b"Dear Sir, we thank you for your letter of the third.", OtherKind::Text),
        (b"\0\x01\x02\x03", OtherKind::Unknown),
    ] {
        assert_eq!(refused("a", bytes), BringError::Other(kind));
    }
    let page = b"<html><script id=\"kept-sketch\"></script></html>";
    assert_eq!(refused("a.html", page), BringError::EmptyPage);
    assert_eq!(refused("a.xml", score("").as_bytes()), BringError::NoNotes(FileKind::Score));
    assert_eq!(
        refused("a.mid", b"MThd\0\0\0\x06\0\x01\0\0\0\x60"),
        BringError::NoNotes(FileKind::Midi)
    );
    assert_eq!(refused("a.mid", b"MThd"), BringError::BrokenMidi);
    assert_eq!(refused("a.mxl", b"PK\x03\x04"), BringError::BrokenPack);
}

#[test]
fn hostile_scores_are_refused_beside_good_ones() -> Result<()> {
    let good = score(&note("C3", 2, ""));
    // Entities that would grow a thousandfold are not expanded: the name stays empty.
    let bomb = format!(
        "<!DOCTYPE score-partwise [<!ENTITY a \"{0}\"><!ENTITY b \"&a;&a;&a;&a;\">]>{1}",
        "x".repeat(1_000),
        good.replace("<?xml version=\"1.0\"?>", "").replace("Bass", "&b;&b;")
    );
    let read = brought("x.xml", bomb.as_bytes())?;
    assert_eq!(read.parts[0].name, PartName::Named(String::new()));
    // Nested deeper than any score.
    let deep = good.replace("<part-list>", &"<a>".repeat(100_000));
    assert_eq!(refused("x.xml", deep.as_bytes()), BringError::TooDeep);
    // Broken on its second line.
    let broken = good.replace("<part id", "\n<part id").replace("</measure>", "</note>");
    assert_eq!(refused("x.xml", broken.as_bytes()), BringError::BrokenScore(2));
    // A pack that unpacks to 40 MB of blanks.
    let mut archive = zip::ZipWriter::new(std::io::Cursor::new(Vec::new()));
    archive.start_file("score.xml", zip::write::SimpleFileOptions::default())?;
    for _ in 0..40 {
        archive.write_all(&vec![b' '; 1 << 20])?;
    }
    let bomb = archive.finish()?.into_inner();
    assert!(bomb.len() < 100_000, "{}", bomb.len());
    assert_eq!(refused("x.mxl", &bomb), BringError::PackTooLarge);
    // Numbers beyond sense are held back.
    let wild = good
        .replace("<duration>2<", "<duration>1e308<")
        .replace("<octave>3<", "<alter>NaN</alter><octave>3<");
    assert_eq!(brought("x.xml", wild.as_bytes())?.sketch().notes.len(), 1);
    let many = score(&note("C3", 2, "").repeat(MAX_NOTES + 7));
    let read = brought("x.xml", many.as_bytes())?;
    assert_eq!(read.remarks, [BringRemark::Shortened]);
    assert_eq!(read.sketch().notes.len(), MAX_NOTES);
    Ok(())
}

/// Every good file cut short at every place, and with bytes changed: an answer or a
/// sentence, never a panic.
#[test]
fn damaged_files_are_answered() {
    let sketch = sketch_of("D minor: D3 C#3:6 D3 A2:4-3 D3");
    let reading = read(&sketch);
    let files = [
        musicxml(&sketch, &reading).into_bytes(),
        mxl(&sketch, &reading),
        midi(&sketch, &reading, MidiForm::Performance),
        to_text(&sketch).into_bytes(),
    ];
    let mut answers = 0;
    for file in files {
        let step = (file.len() / 400).max(1);
        for at in (0..file.len()).step_by(step) {
            let mut changed = file.clone();
            changed[at] = changed[at].wrapping_add(0x5B);
            for bytes in [&file[..at], &changed[..]] {
                if let Err(error) = read_file("x", bytes) {
                    answers += usize::from(!words::bring_error(&error, Lang::English).is_empty());
                }
            }
        }
    }
    assert!(answers > 400, "{answers}");
}

#[test]
fn a_sheet_from_text_is_unchanged_by_the_way_through_a_file() -> Result<()> {
    let text = "Title: Evening in D\nBass: D minor: D3 C#3:6 (E3) G2:6/5 A2:4-#\nSoprano: 1:F4\n";
    assert_eq!(brought("evening.txt", text.as_bytes())?.sketch(), from_text(text).sketch);
    Ok(())
}
