//! Teaching in sentences: what is asked, what was found, how a class did.

mod asks;
mod class;
mod findings;
mod practice;
mod settings;
mod summary;

pub use asks::ask;
pub use class::{class_csv, class_head, class_line, row_status};
pub use findings::{finding, finding_advice};
pub use practice::{
    drill_due, drill_item, drill_question, ear_choice, ear_prompt, key_order, waiting,
};
pub use settings::{feedback, hears, opens, qr_error, sealed};
pub use summary::{difference, outcome, report_summary};

use crate::figures::{Stage, print_stage};
use crate::frame::Position;
use crate::harmony::Cadence;

/// Figures as they are written, or words where nothing is.
fn figures(stage: &Stage) -> String {
    match print_stage(stage).as_str() {
        "." => "5/3".to_string(),
        "_" => "a held chord".to_string(),
        "t.s." => "the bass alone".to_string(),
        text => text.to_string(),
    }
}

fn position(position: Position) -> &'static str {
    match position {
        Position::Octave => "first position, the octave on top",
        Position::Third => "second position, the third on top",
        Position::Fifth => "third position, the fifth on top",
    }
}

fn cadence(cadence: Cadence) -> &'static str {
    match cadence {
        Cadence::Simple => "a simple cadence",
        Cadence::Compound => "a compound cadence",
        Cadence::Double => "a double cadence",
        Cadence::Half => "a half cadence",
        Cadence::Phrygian => "a Phrygian cadence",
        Cadence::Deceptive => "a deceptive cadence",
        Cadence::Evaded => "an evaded cadence",
    }
}

/// "one note", "2 notes".
fn count(count: usize, one: &str, more: &str) -> String {
    match count {
        1 => format!("one {one}"),
        _ => format!("{count} {more}"),
    }
}
