//! Sentences: every reason, fault and remark in plain words.
//!
//! The rooms hand over data; only this room turns it into language, so that a
//! translation is in one place: every sentence stands with its five versions side
//! by side, as a [`phrase!`](crate::phrase).

mod files;
mod frame;
pub mod glossary;
mod hands;
mod harmony;
mod lang;
mod lesson;
mod names;
pub mod page;
mod reach;
mod roll;
mod rulebook;
mod shape;
mod sheet;
mod sound;
mod staff;
mod voices;

pub use files::{bring_error, bring_remark, link_error, newer_page, part_name, sheet_trouble};
pub use frame::{
    fault, inner_parallel, motion_summary, pin_conflict, rule_advice, rule_heading, rule_name,
};
pub use hands::{hand_remark, hardship, strain};
pub use harmony::{
    all_figures_shown, figure_trouble, figures_shown, figures_spoken, harmony_remark, pattern,
    reason, text_trouble,
};
pub use lang::{Lang, NoteNames, Phrase, Tongue};
pub use lesson::{
    ask, class_csv, class_head, class_line, difference, drill_due, drill_item, drill_question,
    ear_choice, ear_prompt, feedback, finding, finding_advice, finding_keeps_back, finding_told,
    hears, key_order, opens, outcome, qr_error, report_summary, row_status, sealed, still_to_do,
    telling, waiting, waiting_untold,
};
pub use reach::{reach, reach_picture};
pub use roll::added;
pub use rulebook::{rule_explained, rule_source};
pub use sheet::{sheet_answer, sheet_count, sheet_page};
pub use sound::{force, table_trouble, wolf};
pub use staff::{StaffPart, motion_name, staff_note};
pub use voices::{note_that_is_free, voices_summary};
