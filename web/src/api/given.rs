//! What other pages get: plain objects with names in place of our types.

use serde::Serialize;
use tastata::bass::BassText;
use tastata::figures::{self, Stage};
use tastata::files;
use tastata::frame::{Fault, Severity};
use tastata::hands::Hand;
use tastata::pitch::Pitch;
use tastata::reading::Reading;
use tastata::roll::{NoteKind, Performance};
use tastata::sketch::{Sketch, Weight};
use tastata::words::{self, Lang};

/// A bass as read.
#[derive(Serialize)]
pub(super) struct BassGiven {
    tonality: Option<String>,
    notes: Vec<NoteGiven>,
    remarks: Vec<RemarkGiven>,
}

#[derive(Serialize)]
struct NoteGiven {
    pitch: String,
    figures: Option<String>,
    weight: &'static str,
    from: usize,
    to: usize,
}

#[derive(Serialize)]
struct RemarkGiven {
    from: usize,
    to: usize,
    text: String,
}

impl BassGiven {
    pub(super) fn new(text: &str, read: &BassText) -> BassGiven {
        // JavaScript counts characters in units of UTF-16.
        let place = |byte: usize| {
            let before = text.get(..byte).unwrap_or(text);
            before.encode_utf16().count()
        };
        let notes = read.notes.iter().map(|note| NoteGiven {
            pitch: plain(note.pitch),
            figures: note.figures.as_ref().map(figures::print),
            weight: match note.weight {
                Weight::Unmarked => "unmarked",
                Weight::Structural => "structural",
                Weight::Passing => "passing",
            },
            from: place(note.at.start),
            to: place(note.at.end),
        });
        let remarks = read.remarks.iter().map(|remark| RemarkGiven {
            from: place(remark.at.start),
            to: place(remark.at.end),
            text: words::text_trouble(remark.kind, Lang::English),
        });
        BassGiven {
            tonality: read.tonality.map(|it| it.to_string()),
            notes: notes.collect(),
            remarks: remarks.collect(),
        }
    }
}

/// A piece as realised.
#[derive(Serialize)]
pub(super) struct RealisationGiven {
    tonality: String,
    chords: Vec<ChordGiven>,
    faults: Vec<FaultGiven>,
    remarks: Vec<String>,
    link: String,
}

#[derive(Serialize)]
struct ChordGiven {
    note: usize,
    stage: usize,
    bass: String,
    soprano: String,
    left: Vec<String>,
    right: Vec<String>,
    figures: String,
    tonality: String,
    degree: u8,
    reason: String,
}

impl RealisationGiven {
    pub(super) fn new(sketch: &Sketch, reading: &Reading) -> RealisationGiven {
        let chords = reading.harmony.chords.iter().enumerate().map(|(i, chord)| {
            let soprano = reading.frame.soprano.get(i).copied().unwrap_or(chord.bass);
            let handful = reading.hands.handfuls.get(i);
            let names = |pitches: Option<&Vec<Pitch>>| {
                pitches.into_iter().flatten().copied().map(plain).collect()
            };
            ChordGiven {
                note: chord.note,
                stage: chord.stage,
                bass: plain(chord.bass),
                soprano: plain(soprano),
                left: names(handful.map(|it| &it.left)),
                right: names(handful.map(|it| &it.right)),
                figures: figured(&chord.figures),
                tonality: chord.tonality.to_string(),
                degree: chord.degree.number(),
                reason: words::reason(chord, Lang::English),
            }
        });
        let remarks = reading.harmony.remarks.iter();
        RealisationGiven {
            tonality: reading.harmony.home.to_string(),
            chords: chords.collect(),
            faults: reading.frame.faults.iter().map(FaultGiven::new).collect(),
            remarks: remarks.map(|it| words::harmony_remark(it, Lang::English)).collect(),
            link: files::encode(sketch),
        }
    }
}

/// A place where a rule of the outer voices is broken.
#[derive(Serialize)]
pub(super) struct FaultGiven {
    severity: &'static str,
    rule: &'static str,
    from: usize,
    to: usize,
    text: String,
}

impl FaultGiven {
    pub(super) fn new(fault: &Fault) -> FaultGiven {
        FaultGiven {
            severity: match fault.severity {
                Severity::Fault => "fault",
                Severity::Caution => "caution",
            },
            rule: words::rule_name(fault.rule, Lang::English),
            from: fault.from,
            to: fault.to,
            text: words::fault(fault, Lang::English),
        }
    }
}

/// A performance.
#[derive(Serialize)]
pub(super) struct PerformanceGiven {
    touches: Vec<TouchGiven>,
    starts: Vec<f64>,
    end: f64,
}

#[derive(Serialize)]
struct TouchGiven {
    key: i32,
    pitch: String,
    hand: &'static str,
    chord: usize,
    down: f64,
    up: f64,
    velocity: u8,
    kind: &'static str,
}

impl PerformanceGiven {
    pub(super) fn new(performance: &Performance) -> PerformanceGiven {
        let touches = performance.touches.iter().map(|touch| TouchGiven {
            key: touch.key.number(),
            pitch: plain(touch.pitch),
            hand: match touch.hand {
                Hand::Left => "left",
                Hand::Right => "right",
            },
            chord: touch.chord,
            down: touch.down.as_secs(),
            up: touch.up.as_secs(),
            velocity: touch.velocity,
            kind: match touch.kind {
                NoteKind::Chord => "chord",
                NoteKind::Acciaccatura => "acciaccatura",
                NoteKind::Passing => "passing",
                NoteKind::Neighbour => "neighbour",
                NoteKind::Run => "run",
                NoteKind::Ornament => "ornament",
                NoteKind::Anticipation => "anticipation",
                NoteKind::Suspension => "suspension",
                NoteKind::Detour => "detour",
            },
        });
        PerformanceGiven {
            touches: touches.collect(),
            starts: performance.starts.iter().map(|start| start.as_secs()).collect(),
            end: performance.end.as_secs(),
        }
    }
}

/// Figures as they are typed; a bare note has none.
fn figured(stage: &Stage) -> String {
    match stage {
        Stage::Signs(signs) if signs.is_empty() => String::new(),
        stage => figures::print_stage(stage),
    }
}

/// A pitch with the signs a keyboard has, as pitches are given too.
fn plain(pitch: Pitch) -> String {
    pitch.to_string().replace('♯', "#").replace('♭', "b")
}
